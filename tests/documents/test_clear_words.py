"""Words of a drawing that give way to others."""

from __future__ import annotations

from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st

from tundish.documents.clear_words import Rect, clear_words, overlap
from tundish.documents.drawing import Box, Dimension, Drawing, Line, Words

HIGH = 20.0


def room_of(mark: Words | Dimension) -> Rect:
    if isinstance(mark, Dimension):
        x, y, wide = (mark.x1 + mark.x2) / 2, (mark.y1 + mark.y2) / 2, 8.0 * len(mark.text)
        return x - wide / 2, y - HIGH / 2, x + wide / 2, y + HIGH / 2
    wide = 8.0 * len(mark.text)
    left = mark.x - wide * {"start": 0.0, "middle": 0.5, "end": 1.0}[mark.anchor]
    return left, mark.y - HIGH / 2, left + wide, mark.y + HIGH / 2


def drawn(*marks: Words | Dimension | Box) -> Drawing:
    return Drawing("", marks, (-500, -500, 1000, 1000))


def words(drawing: Drawing) -> list[Words]:
    return [mark for mark in drawing.marks if isinstance(mark, Words)]


def test_words_that_lie_on_nothing_stay() -> None:
    drawing = drawn(Words(0, 0, "WC 1", loose="near"), Words(200, 0, "Basin 1", loose="near"))
    assert clear_words(drawing, room_of) == drawing


def test_words_that_are_fixed_stay_and_others_give_way() -> None:
    cleared = words(clear_words(drawn(Words(0, 0, "1,020"), Words(4, 2, "WC 1", loose="near")), room_of))
    assert (cleared[0].x, cleared[0].y) == (0, 0)
    assert overlap(room_of(cleared[0]), room_of(cleared[1])) == 0
    assert abs(cleared[1].y - 2) <= 1.5 * HIGH, "near its place"


def test_words_keep_off_ware_that_is_not_theirs() -> None:
    plate = Box(-60, -40, 120, 80, "ware", piece="wc-1")
    own, other = (words(clear_words(drawn(plate, Words(0, 0, "C", loose="near", piece=piece)), room_of))[0] for piece in ("wc-1", ""))
    assert (own.x, own.y) == (0, 0)
    assert overlap(room_of(other), (-60, -40, 60, 40)) == 0


def test_the_words_of_a_line_go_along_it_or_to_its_other_side() -> None:
    full = [Words(-480 + 60 * place, 0, "1 short") for place in range(17)]
    moved = words(clear_words(drawn(*full, Words(480, 0, "datum 1,028", anchor="end", loose="along")), room_of))[-1]
    assert moved.y == -1.3 * HIGH, "below the line, where above it all is full"
    beside = words(clear_words(drawn(full[-1], Words(480, 0, "datum 1,028", anchor="end", loose="along")), room_of))[-1]
    assert beside.y in {0.0, -1.3 * HIGH}


def test_where_nothing_is_free_words_lie_on_ware_rather_than_on_words() -> None:
    everywhere = Box(-500, -500, 1000, 1000, "ware")
    pair = words(clear_words(drawn(everywhere, Words(0, 0, "Hot", loose="near"), Words(0, 0, "Cold", loose="near")), room_of))
    assert overlap(*(room_of(each) for each in pair)) == 0


@given(st.lists(st.tuples(st.integers(-200, 200), st.integers(-200, 200)), min_size=2, max_size=8))
def test_a_few_words_never_lie_on_one_another(places: list[tuple[int, int]]) -> None:
    cleared = words(clear_words(drawn(*(Words(x, y, "Basin", loose="near") for x, y in places)), room_of))
    assert all(overlap(room_of(one), room_of(other)) == 0 for one, other in combinations(cleared, 2))


def test_what_is_said_beside_is_left_out_where_there_is_no_room_near_it() -> None:
    crowd = [Words(x, y, "taken") for x in range(-480, 481, 40) for y in range(-480, 481, 20)]
    loose = (
        Words(0, 0, "WC 1", bold=True, piece="wc-1", loose="near"),
        Words(0, 0, "datum", figure="datum", loose="along"),
        Words(0, 0, "1 short", loose="near"),
        Words(0, 0, "Plan", loose="along"),
    )
    kept = [mark.text for mark in words(clear_words(drawn(*crowd, *loose), room_of)) if mark.loose]
    assert kept == ["WC 1", "datum"]


def test_a_line_leads_from_words_to_the_place_that_they_name() -> None:
    cleared = clear_words(drawn(Words(0, 100, "C", loose="near", names=(0, 0))), room_of)
    assert [mark for mark in cleared.marks if isinstance(mark, Line)] == [Line(0, 0, 0, 100 - HIGH / 2, "dimension")]


def test_words_that_name_a_place_are_never_left_out_and_lead_to_it_from_where_they_went() -> None:
    crowd = [Words(x, y, "taken") for x in range(-480, 481, 40) for y in range(-480, 481, 20)]
    kept = clear_words(drawn(*crowd, Words(0, 100, "C", loose="near", names=(0, 0))), room_of).marks
    assert "C" in [mark.text for mark in kept if isinstance(mark, Words)]
    over = clear_words(drawn(Words(0, 5, "D"), Words(0, 0, "C", loose="near", names=(0, 0))), room_of)
    moved = next(mark for mark in words(over) if mark.text == "C")
    (line,) = [mark for mark in over.marks if isinstance(mark, Line)]
    assert (line.x1, line.y1) == (0, 0)
    left, low, right, high = room_of(moved)
    assert left - 1e-9 <= line.x2 <= right + 1e-9 and low - 1e-9 <= line.y2 <= high + 1e-9  # noqa: PT018 - one place


def test_words_on_the_place_that_they_name_need_no_line() -> None:
    cleared = clear_words(drawn(Words(0, 5, "C", loose="near", names=(0, 0))), room_of)
    assert not [mark for mark in cleared.marks if isinstance(mark, Line)]
