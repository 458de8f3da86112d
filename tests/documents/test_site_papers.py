"""The papers of site and client: heights we agree, drilling template, survey, closing; and how frames are set."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.published.asking import room_of
from tundish.documents import (
    closing_sheet,
    cut_list,
    drilling_template,
    frame_sheet,
    heights_agreed,
    setting_out,
    survey_blank,
    survey_sheet,
)
from tundish.documents.block import Document, FillIn, Picture, Points, SideBySide, Sketch, Table, TrueSize
from tundish.documents.drawing import Box, Drawing, Ellipse, Line, Words
from tundish.documents.plan_drawing import strip
from tundish.documents.quote import described
from tundish.documents.running import on_the_wall, spread
from tundish.documents.section_drawing import section
from tundish.documents.survey_sketch import follow
from tundish.documents.wall_drawing import elevation
from tundish.estimate import Estimate, Job, estimate
from tundish.field import Entry, Field, fields_of, put
from tundish.layout.design import Noggin, Undecided
from tundish.layout.room import Room
from tundish.survey.settled import Settled
from tundish.survey.shape import Photograph
from tundish.survey.survey import Survey
from tundish.survey.wall import wall_letter
from tundish.writers.pdf_blocks import dealt
from tundish.writers.text import as_text

Changed = Callable[..., Estimate]


def tables(made: Document) -> list[Table]:
    return [block for block in made.blocks if isinstance(block, Table)]


def points(made: Document, title: str) -> tuple[str, ...]:
    return next(block.items for block in made.blocks if isinstance(block, Points) and block.title == title)


def said(drawing: Drawing) -> list[str]:
    return [mark.text for mark in drawing.marks if isinstance(mark, Words)]


def test_the_client_signs_every_height_that_is_felt(one: Estimate, room: Room) -> None:
    made = heights_agreed.build(one)
    rows = [row for table in tables(made) for row in table.rows]
    heights = [placed.figures["top"].value - room.finished_floor.value for placed in room.placed]
    assert set(heights) <= {row.cells[2] for row in rows}
    letters = [row.cells[0] for row in rows]
    seen = [block for block in made.blocks if isinstance(block, Sketch)]
    assert len(seen) == sum(bool(each.placed) for each in one.rooms)
    assert letters == [words for each in seen for words in said(each.drawing) if words in letters]
    (agreed,) = [block for block in made.blocks if isinstance(block, FillIn) and block.title == "Agreed"]
    assert agreed.lines == ("Client", "Name", "Date", "Fitter", "Name", "Date")


def test_the_client_sees_no_trade_marks_and_no_money(one: Estimate) -> None:
    text = as_text(heights_agreed.build(one)).lower()
    assert not [word for word in ("stud", "datum", "invert", "£", "hour", "mark-up", "cost") if word in text]
    seen = [block.drawing for block in heights_agreed.build(one).blocks if isinstance(block, Sketch)]
    styles = {mark.style for drawing in seen for mark in drawing.marks if hasattr(mark, "style")}
    assert not {"datum", "steel", "soil", "hot", "cold"} & styles


def change_of_the_pan(made: Estimate) -> str:
    return str(tables(heights_agreed.build(made))[0].rows[0].cells[3])


def test_how_low_a_pan_may_go_is_what_the_drain_allows_whatever_is_built_up(worked: dict[str, Estimate], changed: Changed) -> None:
    words = change_of_the_pan(worked["102"])
    lowest = int(words.split(" to ")[0])
    assert words.endswith("the drain may not fall enough")
    states = {
        (top, laid): next(
            each.state
            for each in changed(
                "102",
                rooms__0__design__appliances__0__top=Entry(top),
                rooms__0__survey__floor__build_up__0__thickness=Entry(laid),
            ).findings
            if each.rule == "drainage/branch-fall"
        )
        for top in (lowest, lowest - 1)
        for laid in (12.0, 20.0)
    }
    assert states == {(lowest, 12.0): "passes", (lowest, 20.0): "passes", (lowest - 1, 12.0): "fails", (lowest - 1, 20.0): "passes"}


def test_where_the_drain_asks_for_more_than_the_frame_takes_no_range_runs_backwards(changed: Changed) -> None:
    words = change_of_the_pan(changed("102", rooms__0__survey__stack__branch_invert=Entry(280)))
    assert words == "Not settled yet: the drain asks for 507 or more, and its frame takes 495 at most"


def test_a_height_that_the_client_has_not_chosen_yet_says_from_where_to_where(changed: Changed) -> None:
    made = heights_agreed.build(changed("102", rooms__0__design__appliances__0__top=Entry(420, low=410, high=430)))
    first = tables(made)[0].rows[0]
    assert (first.tbc, first.note) == (True, "410 to 430")


def marked(made: Estimate, label: str) -> Mapping[str, object]:
    table = next(each for each in tables(setting_out.build(made, made.rooms[0])) if each.columns[0].head == "Mark")
    row = next(each for each in table.rows if each.cells[0] == label)
    return {column.head: cell for column, cell in zip(table.columns, row.cells, strict=True)} | {"tbc": row.tbc}


def test_a_height_to_be_confirmed_says_what_it_may_be(worked: dict[str, Estimate]) -> None:
    row = marked(worked["102"], "Fixing studs")
    assert (row["Bare floor"], row["It may be"], row["tbc"]) == (353, "351 to 359", True)
    settled = marked(worked["101"], "Fixing studs")
    assert "It may be" not in settled, "a column for nothing"


def test_a_centre_to_be_confirmed_says_how_far_it_may_move(changed: Changed) -> None:
    row = marked(changed("101", rooms__0__design__appliances__0__centre=Entry(430, low=425, high=445)), "Fixing studs")
    assert (row["Left wall"], row["tbc"]) == ("340, 520 (−5 to +15)", True)


def proof(made: Estimate) -> str:
    (box,) = (
        block
        for side in setting_out.build(made, made.rooms[0]).blocks
        if isinstance(side, SideBySide)
        for block in side.right
        if isinstance(block, FillIn) and block.title.startswith("Prove")
    )
    return box.sentences[0]


def test_the_fall_to_prove_has_its_range_and_says_whether_it_holds_whatever_is_decided(
    worked: dict[str, Estimate], changed: Changed
) -> None:
    assert proof(worked["101"]) == "Soil branch, WC 1: expect 15 in 320. Needs 5.8 at least."
    assert proof(worked["102"]).startswith("Soil branch, WC 1: expect 12 in 315 (TBC: 10 to 18 in 315). Needs 5.7 at least. It ")
    low = proof(changed("102", rooms__0__survey__stack__branch_invert=Entry(193)))
    assert "It depends on: " in low


def test_without_the_drain_nobody_says_how_low(changed: Changed) -> None:
    made = heights_agreed.build(changed("102", rooms__0__survey__stack__branch_invert=None))
    assert "not known yet" in str(tables(made)[0].rows[0].cells[3])


def test_at_the_lowest_that_is_said_the_shelf_still_clears_the_frames(worked: dict[str, Estimate], changed: Changed) -> None:
    shelf = next(row for row in tables(heights_agreed.build(worked["102"]))[0].rows if row.cells[1] == "Top of the shelf")
    lowest = int(str(shelf.cells[3]).split(" at the lowest")[0].replace(",", ""))
    under = {
        top: {each.state for each in changed("102", rooms__0__design__prewall__top=Entry(top)).findings if each.rule == "frames/height"}
        for top in (lowest, lowest - 1)
    }
    assert under == {lowest: {"passes"}, lowest - 1: {"fails"}}


@pytest.mark.parametrize(("place", "letter"), [(0, "A"), (25, "Z"), (26, "A2"), (52, "A3")])
def test_letters_never_run_out(place: int, letter: str) -> None:
    assert heights_agreed.letter_of(place) == letter


def test_holes_are_where_the_setting_out_says(room: Room) -> None:
    for placed in room.placed:
        drawing = drilling_template.holes(room, placed)
        centres = {(round(mark.x, 3), round(mark.y, 3)) for mark in drawing.marks if isinstance(mark, Ellipse)}
        apart, studs = placed.ware.sizes["stud_spacing"][0], placed.figures["studs"].value
        assert {(-apart / 2, round(studs, 3)), (apart / 2, round(studs, 3))} <= centres
        for name in ("outlet", "inlet", "waste"):
            if name in placed.figures:
                assert (0, round(placed.figures[name].value, 3)) in centres
        left, low, wide, high = drawing.extent
        assert all(left < x < left + wide and low < y < low + high for x, y in centres)


def test_a_pan_with_studs_230_apart_is_hung_on_them_from_the_frame_to_the_list(changed: Changed) -> None:
    made = changed("101", rooms__0__design__appliances__0__ware="pan-brodwel-540")
    (room,) = made.rooms
    (placed,) = room.of_kind("wc")
    sheet = [row.cells for table in tables(setting_out.build(made, room)) for row in table.rows]
    middle = placed.centre.value
    assert f"{middle - 115:g}, {middle + 115:g}" in [cells[1] for cells in sheet if cells[0] == "Fixing studs"]
    (studs,) = [cells for cells in sheet if cells[0] == "Studs" and "230" in str(cells[1])]
    assert studs[1] == "230 apart"
    assert "in the frame's holes for 230, not those for 180; stand out " in str(studs[2])
    holes = {(mark.x, round(mark.y, 3)) for mark in drilling_template.holes(room, placed).marks if isinstance(mark, Ellipse)}
    assert {(-115, round(placed.figures["studs"].value, 3)), (115, round(placed.figures["studs"].value, 3))} <= holes
    assert [line.item.name for line in made.lines if line.item.kind == "wc pan"] == ["Brodwel 540 pan, studs 230 apart"]
    checked = {each.title: each.state for each in made.findings if each.place.endswith("WC 1")}
    assert checked["Stud spacing"] == "passes"
    assert "fails" not in checked.values()


def test_what_is_not_confirmed_is_not_drilled(worked: dict[str, Estimate], changed: Changed) -> None:
    for block in drilling_template.build(worked["103"]).blocks:
        assert not isinstance(block, TrueSize) or block.warning
    bare = changed("101", rooms__0__design__appliances=())
    assert not [block for block in drilling_template.build(bare).blocks if isinstance(block, TrueSize)]


def test_appliances_that_are_alike_share_a_template(worked: dict[str, Estimate]) -> None:
    (room,) = worked["101"].rooms
    twin = replace(room.placed[0], name="WC 2", key="wc-2")
    made = drilling_template.build(replace(worked["101"], rooms=(replace(room, placed=(*room.placed, twin)),)))
    titles = [block.title for block in made.blocks if isinstance(block, TrueSize)]
    assert len(titles) == len(room.placed)
    assert titles[0].startswith("WC 1, WC 2: ")


def test_each_foot_is_drawn_out_as_far_as_the_floor_falls_there(changed: Changed) -> None:
    for highest in ("left", "right"):
        (room,) = changed("101", rooms__0__survey__floor__out_of_level=Entry(20), rooms__0__survey__floor__highest=highest).rooms
        for placed in room.placed:
            left, right = frame_sheet.feet_out(room, placed)
            slope = (right.value - left.value) / (placed.right - placed.left - placed.frame.sizes["leg"][0])
            assert slope == pytest.approx((1 if highest == "left" else -1) * 20 / room.width.value, rel=0.01)
            assert max(left.value, right.value) == placed.figures["feet"].value
    (back,) = changed("101", rooms__0__survey__floor__out_of_level=Entry(-20)).rooms
    left, right = frame_sheet.feet_out(back, back.placed[0])
    assert left.value > right.value
    (level,) = changed("101", rooms__0__survey__floor__out_of_level=Entry(0)).rooms
    assert frame_sheet.feet_out(level, level.placed[0]) == (level.placed[0].figures["feet"],) * 2


def test_every_frame_has_its_rods_studs_and_parts(one: Estimate, room: Room) -> None:
    made = setting_out.build(one, room)
    if not room.placed:
        assert len(tables(made)) == 1
        return
    settings, parts = tables(made)[1:]
    assert [row.group.partition(" · ")[0] for row in settings.rows if row.group] == [placed.name for placed in room.placed]
    for placed in room.placed:
        assert placed.tie_rod is not None
        left = placed.tie_rod.sizes["reach_most"][0] - placed.figures["reach"].high
        assert any(f"{left:,.0f} of thread left" in str(row.cells[2]) for row in settings.rows if not row.group)
    picked = [row.cells[0] for row in parts.rows if not row.group]
    assert {placed.frame.name for placed in room.placed} <= set(picked)


@pytest.mark.parametrize(
    ("apart", "which"),
    [
        (180, "in the frame's holes for 180, not those for 230"),
        (230, "in the frame's holes for 230, not those for 180"),
        (200, "the frame takes studs 180 or 230 apart only"),
    ],
)
def test_which_of_the_frames_stud_spacings_is_used_is_named(apart: float, which: str) -> None:
    room, _ = room_of(figures={"pan-ondel-530.stud_spacing": apart})
    (table,) = [block for block in frame_sheet.settings(room) if isinstance(block, Table)]
    studs, slider = [row for row in table.rows if str(row.cells[0]).startswith("Stud")][:2]
    assert studs.cells == ("Studs", f"{apart} apart", f"{which}; stand out 59", "")
    assert slider.cells[:2] == ("Stud slider", "at 675")
    assert str(slider.cells[2]).startswith("below the frame's mark, slides from 600 to 720; studs 353 above")
    assert room.figures["wc-1.studs_apart"].note.endswith(which)


def test_a_wall_keeps_the_key_of_its_sheet(worked: dict[str, Estimate]) -> None:
    (room,) = worked["101"].rooms
    assert setting_out.key_of(room) == "setting-out"
    assert setting_out.key_of(replace(room, place=1)) == "setting-out-1-2"
    assert setting_out.key_of(replace(room, path="rooms.2")) == "setting-out-3-1"


def test_running_widths_are_all_on_the_drawing(room: Room) -> None:
    words = said(on_the_wall(room))
    for placed in room.placed:
        assert f"{round(placed.centre.value):,}" in words


@given(st.lists(st.floats(0, 3_000), min_size=1, max_size=20).map(sorted))
def test_figures_beside_a_drawing_never_touch(places: list[float]) -> None:
    made = spread(places, 40)
    assert all(b - a >= 40 - 1e-6 for a, b in itertools.pairwise(made))
    assert sum(made) / len(made) == pytest.approx(sum(places) / len(places), abs=1e-6)


def test_the_survey_says_how_each_size_is_known(worked: dict[str, Estimate]) -> None:
    text = as_text(survey_sheet.build(worked["102"]))
    assert "2,450 mm" in text
    assert "measured, Thu 12 Nov 2026" in text
    assert "Photographs" in text or "No photographs" in text


def test_a_choice_left_open_is_written_as_this_or_that_and_to_be_confirmed(changed: Changed) -> None:
    open_ = (Undecided(choice="survey.walls.0.wall.construction", other="block"), Undecided(choice="survey.floor.kind", other="concrete"))
    made = changed("104", rooms__0__undecided=open_)
    survey = made.job.rooms[0].survey
    (table,) = tables(survey_sheet.build(made))
    found = {row.cells[1]: row.tbc for row in table.rows if not row.group}
    assert found[f"{survey.walls[0].wall.construction} or block"]
    assert found[f"{survey.floor.kind} or concrete"]


def test_the_survey_is_one_list_of_what_was_found_under_the_name_of_each_wall_and_thing(worked: dict[str, Estimate]) -> None:
    (table,) = tables(survey_sheet.build(worked["104"]))
    heads = [row.group for row in table.rows if row.group]
    assert len(heads) == len(set(heads))
    assert [head for head in heads if head.startswith("Wall ")] == [f"Wall {letter}" for letter in "ABCDEF"]
    assert not [row.cells[0] for row in table.rows if not row.group and row.cells[1:] == ("–", "")]
    place = heads.index("Wall B")
    under = [row.cells[0] for row in itertools.takewhile(lambda row: row.group != heads[place + 1], table.rows)]
    assert {"Length", "Construction"} <= set(under)


def test_a_solid_wall_has_no_studs_and_a_floor_on_none_no_joists_on_the_survey(worked: dict[str, Estimate], changed: Changed) -> None:
    (table,) = [each for each in survey_sheet.build(worked["104"]).blocks if isinstance(each, Table)]
    rows = [str(row.cells[0]) for row in table.rows]
    assert rows.count("Wall studs apart") == rows.count("First wall stud from the left") == 3, "of six walls three are brick and block"
    assert "Joists apart" not in rows
    assert "Joists run" not in rows
    found = changed("104", rooms__0__survey__wall__stud_centres=Entry(450.0))
    (table,) = [each for each in survey_sheet.build(found).blocks if isinstance(each, Table)]
    assert [row.cells[0] for row in table.rows].count("Wall studs apart") == 4, "what was measured stands"


def test_letters_on_walls_that_print_at_one_scale_are_one_size(worked: dict[str, Estimate]) -> None:
    sketches = [each for each in heights_agreed.build(worked["104"]).blocks if isinstance(each, Sketch)]
    sizes = []
    for each in sketches:
        wide = each.drawing.extent[2] / each.share
        round_ones = [mark for mark in each.drawing.marks if isinstance(mark, Ellipse) and mark.half_width == mark.half_height]
        sizes += [mark.half_width / wide for mark in round_ones]
    assert len(sizes) >= 5
    assert max(sizes) < 1.1 * min(sizes)


def test_an_upright_over_and_under_an_opening_is_one_place(worked: dict[str, Estimate]) -> None:
    (cell,) = [
        str(row.cells[3])
        for block in closing_sheet.build(worked["104"]).blocks
        if isinstance(block, Table)
        for row in block.rows
        if row.cells[0] == "Uprights, centres" and "1,266" in str(row.cells[3])
    ]
    assert cell.split("; ").count("1,266") == 1


def test_walls_that_make_no_room_are_listed_all_the_same(jobs: dict[str, Job], changed: Changed) -> None:
    walls = jobs["104"].rooms[0].survey.walls
    made = changed("104", rooms__0__survey__walls=walls * 3)
    (table,) = tables(survey_sheet.build(made))
    assert f"Wall {wall_letter(len(walls) * 3)}" in [row.group for row in table.rows]
    assert follow(made.rooms[0], "survey.walls.14.length").marks


def test_the_blank_survey_has_room_to_write_for_every_input(worked: dict[str, Estimate]) -> None:
    made = survey_blank.build(worked["101"])
    assert all(any(column.kind == "blank" for column in table.columns) for table in tables(made))
    asked = {(table.columns[0].head, row.cells[0]) for table in tables(made) for row in table.rows}
    assert {each.label for each in _boxes(Survey)} <= {label for _, label in asked}
    assert ("Walls", "Length") in asked
    assert all(row.cells[-1] != "mm." for table in tables(made) for row in table.rows)


def test_the_blank_survey_is_four_pages_at_most(worked: dict[str, Estimate]) -> None:
    assert len(dealt(survey_blank.build(worked["101"]).blocks)) <= 4


def _boxes(of: type[Any]) -> Iterator[Field]:
    """Every input of a record and of all within it, but what the sheet asks at its end."""
    for name, each in fields_of(of).items():
        if each.of is not None and name != "photographs":
            yield from _boxes(each.of)
        elif name not in {"photographs", "note", "surveyed_by"} or of is not Survey:
            yield each


def test_a_job_without_rooms_has_sheets_too(worked: dict[str, Estimate]) -> None:
    bare = replace(worked["101"], rooms=(), job=replace(worked["101"].job, rooms=()))
    for build in (survey_sheet.build, survey_blank.build, closing_sheet.build, heights_agreed.build, drilling_template.build):
        assert build(bare).blocks
        assert not [block for block in build(bare).blocks if isinstance(block, Points) and not block.items]


def test_the_closing_sheet_says_where_every_pipe_is(one: Estimate, room: Room) -> None:
    named = [row.cells[0] for table in tables(closing_sheet.build(one)) for row in table.rows]
    assert {pipe.what for pipe in room.pipes} <= set(named)


def test_what_was_left_open_is_an_exception_until_it_is_settled(worked: dict[str, Estimate]) -> None:
    work = worked["101"]
    first, second, third, *rest = work.decisions
    settled = (
        Settled(decision=first.key, state="settled", who="A. Fitter", when="2026-11-20", evidence="photo", rests_on=first.rests_on),
        Settled(decision=second.key, state="settled", rests_on="something else"),
        Settled(decision=third.key, state="not needed", evidence="no cistern", rests_on=third.rests_on),
        Settled(decision="closed", state="settled", who="A. Fitter", when="2026-11-21", evidence="client away"),
    )
    made = closing_sheet.build(replace(work, job=replace(work.job, settled=settled)))
    words = points(made, "Exceptions")
    assert not any(each.startswith(f"{first.title}:") for each in words)
    assert any("was settled for something else" in each for each in words)
    assert any("not needed, because no cistern" in each for each in words)
    assert sum("not settled" in each for each in words) == len(rest)
    assert "closed on Sat 21 Nov 2026 by A. Fitter. Closed with things open, because: client away." in as_text(made)


def test_the_readings_of_a_test_are_on_the_sheet_and_those_that_prove_nothing_are_an_exception(worked: dict[str, Estimate]) -> None:
    work = worked["101"]
    one = next(each for each in work.decisions if each.key.endswith("soil-test"))

    def sheet(end: float) -> Document:
        record = Settled(
            decision=one.key, state="settled", who="A. Fitter", rests_on=one.rests_on, start=Entry(38), end=Entry(end), minutes=Entry(3)
        )
        return closing_sheet.build(replace(work, job=replace(work.job, settled=(record,))))

    held, fell = sheet(38), sheet(30)
    proven = {row.cells[0]: row.cells for table in tables(held) for row in table.rows}[one.title]
    assert proven[1:3] == ("settled", "38 mm, after 3 minutes 38 mm")
    assert not any(each.startswith(one.title) for each in points(held, "Exceptions"))
    assert any(each.startswith(f"{one.title}: It fell by 8 mm") for each in points(fell, "Exceptions"))


def test_photographs_are_on_the_sheet_they_were_taken_for(worked: dict[str, Estimate]) -> None:
    work = worked["101"]
    taken = tuple(
        Photograph(picture=str(number), note=f"Seen {number}", of=of)
        for number, of in enumerate(("on survey", "before closing", "before closing", "before closing"))
    )
    (plan,) = work.job.rooms
    plan = replace(plan, survey=replace(plan.survey, photographs=taken))
    made = closing_sheet.build(replace(work, job=replace(work.job, rooms=(plan,))))
    keys = [
        each.key
        for block in made.blocks
        if isinstance(block, SideBySide)
        for each in (*block.left, *block.right)
        if isinstance(each, Picture)
    ]
    assert keys == ["1", "2", "3"]


def test_on_the_sheet_of_a_wall_each_caution_of_it_stands_once(worked: dict[str, Estimate]) -> None:
    for room in worked["104"].rooms:
        cautions = points(setting_out.build(worked["104"], room), "Take care")
        assert cautions
        assert len(cautions) == len(set(cautions))
    basin = next(room for room in worked["104"].rooms if "Basin" in room.name)
    words = as_text(setting_out.build(worked["104"], basin))
    assert "Tisbel 560 rimless pan" not in words[words.index("Take care") :]  # it hangs on another wall


def test_what_holds_for_the_whole_room_stands_on_the_first_sheet_and_the_others_point_there(worked: dict[str, Estimate]) -> None:
    first, *others = worked["104"].rooms
    whole = [f"{each.title}: {each.words}" for each in worked["104"].cautions if each.place == first.room_name]
    assert whole
    assert set(whole) <= set(points(setting_out.build(worked["104"], first), "Take care"))
    for room in others:
        told = points(setting_out.build(worked["104"], room), "Take care")
        assert not set(whole) & set(told)
        assert told[-1].startswith(f"For the whole room, on the sheet of {first.name}: Electrical zones; ")
    assert "For the whole room" not in as_text(setting_out.build(worked["102"], worked["102"].rooms[0]))


def test_the_section_names_the_wall_it_is_cut_through(one: Estimate, room: Room) -> None:
    assert f"Section at the stack, wall {room.wall} on the left" in as_text(setting_out.build(one, room))


def test_what_is_still_open_on_several_walls_names_its_wall(worked: dict[str, Estimate]) -> None:
    words = " ".join(as_text(closing_sheet.build(worked["104"])).split())
    for room in worked["104"].rooms:
        if room.placed:
            assert f"{room.name}: Heights agreed and signed: not settled." in words
    alone = " ".join(as_text(closing_sheet.build(worked["102"])).split())
    assert f"{worked['102'].rooms[0].name}: Heights agreed" not in alone


def test_a_wall_with_nothing_to_hang_has_no_heights_to_agree_and_hides_no_frames(worked: dict[str, Estimate]) -> None:
    boxing = next(room for room in worked["104"].rooms if not room.placed)
    assert boxing.name not in as_text(heights_agreed.build(worked["104"]))
    assert "It hides the pipes that run behind it." in described(boxing)
    assert "steel frames" not in described(boxing)


def test_openings_and_noggins_are_marked_on_the_sheet(worked: dict[str, Estimate]) -> None:
    """By hand: the niche is tiled from 1,180 to 1,500, its frame is opened 24 more at each side; the noggin is 13 of floor + 900 up."""
    noggin = Noggin(name="Shelf", from_left=Entry(1000), level=Entry(900), reach=Entry(80))
    one = estimate(put(worked["104"].job, "rooms.0.design.prewall.noggins", (noggin,)), worked["104"].book)
    rows = [row.cells for table in tables(setting_out.build(one, one.rooms[0])) for row in table.rows]
    marked = {str(row[0]): row[1:5] for row in rows}
    assert marked["Niche by the WC, head"][0] == "1,156 to 1,524"
    assert marked["Niche by the WC, head"][1:] == (977, "974 to 981", 964)
    assert marked["Niche by the WC, foot"][1:] == (629, "626 to 633", 616)
    assert marked["Shelf, middle of noggin"] == ("1,000 to 1,080", 913, "910 to 917", 900)


def test_without_a_shelf_a_capping_is_built_bought_and_offered(worked: dict[str, Estimate], changed: Changed) -> None:
    made = changed("101", rooms__0__design__prewall__shelf=False)
    (room,), (before,) = made.rooms, worked["101"].rooms
    assert [face.key for face in room.faces] == [face.key for face in before.faces if face.key != "shelf"]
    assert room.top_of_steel.value - before.top_of_steel.value == before.figures["thickness"].value - 23
    assert [line.amount.value for line in made.lines if line.item.kind == "capping"] == [room.run.value]
    assert not [line for line in made.lines if line.item.kind == "tile trim"]
    assert made.price.total != worked["101"].price.total
    assert "closed by Capping 20 × 300, white solid surface on top" in described(room)
    assert "K1" in as_text(cut_list.build(made))


def test_a_flush_plate_on_the_shelf_is_set_out_and_drawn_there(changed: Changed) -> None:
    wc = "rooms__0__design__appliances__0__"
    made = changed("101", **{f"{wc}plate_on": "shelf", f"{wc}frame": "frame-wc-820", "rooms__0__design__prewall__top": Entry(900)})
    (room,) = made.rooms
    (placed,) = room.of_kind("wc")
    out = placed.figures["shelf_plate_out"].value
    (row,) = [row for table in tables(setting_out.build(made, room)) for row in table.rows if row.cells[0] == "Flush plate on the shelf"]
    assert row.cells[1:3] == (f"{placed.centre.value:g}, {out:g} out", room.top.value)
    assert "Flush plate on the shelf, WC 1" in as_text(heights_agreed.build(made))
    boxes = {name: [mark for mark in drawing.marks if isinstance(mark, Box)] for name, drawing in _seen(room).items()}
    middle = placed.centre.value - 120
    assert (middle, room.top.value, 240) in [(box.x, box.y, box.width) for box in boxes["elevation"]]
    assert (middle, -out - 80, 240, 160) in [(box.x, box.y, box.width, box.height) for box in boxes["strip"]]
    assert (out - 80, room.top.value, 160) in [(box.x, box.y, box.width) for box in boxes["section"]]


def _seen(room: Room) -> dict[str, Drawing]:
    return {"elevation": elevation(room), "strip": strip(room), "section": section(room)}


def test_across_a_corner_both_walls_are_taped_from_it_and_no_wall_is_said_to_be_as_long_as_the_front(changed: Changed) -> None:
    stands = {"rooms__0__design__prewall__stands": "across its left-hand corner", "rooms__0__design__prewall__setback": Entry(720)}
    made = changed("101", **stands)
    said = as_text(setting_out.build(made, made.rooms[0])).replace("\n", " ")
    assert "From their corner, walls D and A should tape 720 to the front" in " ".join(said.split())
    assert "Wall A should tape" not in said


def test_a_supply_that_runs_higher_is_marked_on_the_wall_and_lies_there_on_every_drawing(changed: Changed) -> None:
    """Cold of WC 1 at 350, where it runs at 150 by rule, which the sheet does not mark."""
    worked = changed("101", rooms__0__design__appliances__0__cold_at=Entry(350))
    (room,) = worked.rooms
    marks = [row for made in tables(setting_out.build(worked, room)) for row in made.rows]
    runs = {row.cells[0]: (row.cells[1], row.cells[2]) for row in marks if " along the wall, " in str(row.cells[0])}
    cold = next(pipe for pipe in room.pipes_of("cold") if pipe.serves == room.placed[0].key)
    left, right = sorted((cold.points[0][0], cold.points[-1][0]))
    assert runs == {f"Cold along the wall, {room.placed[0].name}": (f"{left:,.0f} to {right:,.0f}", 350.0)}
    lines = [mark for mark in elevation(room).marks if isinstance(mark, Line) and mark.piece == cold.key]
    assert any(mark.y1 == mark.y2 == 350 for mark in lines)
    closing = [str(row.cells[4]) for made in tables(closing_sheet.build(worked)) for row in made.rows if len(row.cells) > 4]
    assert "350" in closing
