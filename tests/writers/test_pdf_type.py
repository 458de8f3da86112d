"""Words, their widths and lines."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from tundish.writers.pdf_letters import drawable
from tundish.writers.pdf_type import Type

BODY = Type()


@given(st.text(max_size=300), st.floats(min_value=20, max_value=300))
def test_no_line_is_wider_than_it_may_be_and_no_letter_is_lost(text: str, width: float) -> None:
    lines = BODY.lines(text, width)
    assert all(BODY.width(line) <= width + 0.001 or len(line) <= 1 for line in lines)
    assert "".join("".join(lines).split()) == "".join(drawable(text).split())


@given(st.text(max_size=100), st.floats(min_value=20, max_value=300))
def test_a_line_cut_short_fits(text: str, width: float) -> None:
    kept = BODY.cut(text, width)
    assert "\n" not in kept
    assert BODY.width(kept) <= width + 0.001


def test_words_break_between_words() -> None:
    assert BODY.lines("short words only here", BODY.width("short words ") + 1) == ("short words", "only here")


def test_typed_line_ends_are_kept() -> None:
    assert BODY.lines("one\ntwo\n\nfour", 500) == ("one", "two", "", "four")


def test_a_word_without_end_is_broken() -> None:
    lines = BODY.lines("W" * 1_000, 100)
    assert len(lines) > 50
    assert "".join(lines) == "W" * 1_000


def test_figures_are_all_as_wide() -> None:
    assert len({BODY.width(figure) for figure in "0123456789"}) == 1


def test_signs_the_type_lacks_have_a_near_one() -> None:
    assert drawable("7′ 9″ ⌀110 → stack") == "7' 9\" Ø110 -> stack"


def test_a_word_too_wide_is_parted_after_a_hyphen() -> None:
    kind = Type("Regular", 9)
    name = "Featherstonehaugh-Ostlethwaite-Harrowmere"
    assert kind.lines(name, kind.width("Featherstonehaugh-Ostle")) == ("Featherstonehaugh-", "Ostlethwaite-", "Harrowmere")
    assert "".join(kind.lines("-" * 200, 40)) == "-" * 200


@given(st.text(max_size=300), st.floats(min_value=30, max_value=300), st.integers(min_value=1, max_value=5))
def test_what_has_no_room_in_so_many_lines_is_said_to_be_left_out(text: str, width: float, most: int) -> None:
    whole, some = BODY.lines(text, width), BODY.lines(text, width, most)
    assert len(some) == min(most, len(whole))
    assert (some == whole) == (len(whole) <= most)
    if len(whole) > most:
        assert some[-1].endswith("…")
        assert whole[most - 1].startswith(some[-1].removesuffix("…"))
        assert BODY.width(some[-1]) <= width + 0.001
