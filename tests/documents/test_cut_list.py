"""Cut lists and their drawings: every piece once, to scale, from the stock that the plan names."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest

from tundish.catalogue.book import Book
from tundish.catalogue.load import supplied_book
from tundish.cutting.plan import BarPlan, SheetPlan
from tundish.cutting.plans import CutPlan, plans
from tundish.documents import cut_drawing, cut_list
from tundish.documents.block import Paragraph, SideBySide, Sketch, Table
from tundish.documents.drawing import Box, Ellipse, Words
from tundish.documents.drawing import Line as DrawnLine
from tundish.estimate import Estimate, Job, estimate
from tundish.field import put
from tundish.figure import number
from tundish.rules.rule import Cut, Need
from tundish.takeoff.line import Line

KEEP = 300.0


def of_bars(one: Estimate) -> list[tuple[CutPlan, BarPlan]]:
    return [(each, each.plan) for each in one.cuts if isinstance(each.plan, BarPlan)]


def of_sheets(one: Estimate) -> list[tuple[CutPlan, SheetPlan]]:
    return [(each, each.plan) for each in one.cuts if isinstance(each.plan, SheetPlan)]


def test_every_piece_stands_in_the_list_once_with_where_it_is_cut_from(one: Estimate) -> None:
    tables = [block for block in cut_list.build(one).blocks if isinstance(block, Table)]
    rows = [row for table in tables if table.columns[0].head == "Piece" for row in table.rows]
    assert [row.cells[0] for row in rows] == [cut.mark for plan in one.cuts for cut in plan.cuts]
    assert all(row.cells[-2] != "–" for row in rows)
    assert [row.tbc for row in rows] == [cut.tbc for plan in one.cuts for cut in plan.cuts]
    assert all(row.note.startswith("do not cut yet") == row.tbc for row in rows)


def test_bars_are_drawn_to_scale_one_under_the_other(one: Estimate) -> None:
    for plan, done in of_bars(one):
        drawing = cut_drawing.bars(plan, KEEP)
        boxes = [mark for mark in drawing.marks if isinstance(mark, Box)]
        drawn = {mark.piece: mark.width for mark in boxes if mark.piece}
        assert drawn == pytest.approx({cut.mark: done.pieces[place].length for place, cut in enumerate(plan.cuts)})
        assert [key for key, _ in drawing.pieces] == [cut.mark for cut in plan.cuts]
        for row, cut in enumerate(done.cuts):
            y = -row * (cut_drawing.BAR + cut_drawing.GAP) - cut_drawing.BAR
            level = sorted((mark for mark in boxes if mark.y == y), key=lambda mark: mark.x)
            assert all(left.x + left.width <= right.x + 1e-6 for left, right in pairwise(level))
            assert level[-1].x + level[-1].width <= done.stock[cut.bar].length + 1e-6


def test_an_offcut_worth_keeping_is_dashed_and_scrap_hatched(one: Estimate) -> None:
    for plan, done in of_bars(one):
        marks = cut_drawing.bars(plan, KEEP).marks
        rests = [mark for mark in marks if isinstance(mark, Box) and not mark.piece]
        assert [mark.style for mark in rests] == ["keep" if cut.remainder >= KEEP else "hatch" for cut in done.cuts if cut.remainder > 0]


def test_a_bar_that_is_used_up_has_nothing_left(worked: dict[str, Estimate]) -> None:
    plan, done = of_bars(worked["101"])[0]
    whole = replace(plan, plan=replace(done, cuts=tuple(replace(cut, remainder=0.0) for cut in done.cuts)))
    assert all(mark.piece for mark in cut_drawing.bars(whole, KEEP).marks if isinstance(mark, Box))


def test_sheets_are_drawn_with_what_is_left(one: Estimate) -> None:
    for plan, done in of_sheets(one):
        for row, cut in enumerate(done.cuts):
            marks = cut_drawing.sheet(plan, cut, row).marks
            whole, *boxes = (mark for mark in marks if isinstance(mark, Box))
            assert len(boxes) == len(cut.places) + len(cut.remainders)
            assert all(box.x + box.width <= whole.width + 1e-6 and box.y + box.height <= whole.height + 1e-6 for box in boxes)


def test_on_paper_no_mark_runs_into_the_next(one: Estimate) -> None:
    for plan, _ in of_bars(one):
        drawing = cut_drawing.printed(plan, KEEP)
        letter = drawing.extent[2] * cut_drawing.LETTER / cut_drawing.PAGE
        assert all(mark.height > cut_drawing.SIZE / cut_drawing.LETTER * letter for mark in drawing.marks if isinstance(mark, Box))
        named = [mark for mark in drawing.marks if isinstance(mark, Words) and mark.piece]
        for level in {mark.y for mark in named}:
            across = sorted(
                (mark.x - len(mark.text) * letter / 2, mark.x + len(mark.text) * letter / 2) for mark in named if mark.y == level
            )
            assert all(left[1] <= right[0] + 1e-6 for left, right in pairwise(across))


def test_short_pieces_alike_share_a_mark_on_paper() -> None:
    strut = supplied_book().item("strut-41x21")
    short = tuple((f"W1{one}", 110.0) for one in range(4))
    cuts = tuple(Cut(mark, number(length, "mm"), "piece") for mark, length in (("U1", 5000.0), *short, ("W4", 400.0)))
    need = Need(number(5840, "mm"), "frames", "by hand", item=strut.code, cuts=cuts)
    (plan,) = plans((Line(strut, need.amount, (need,)),), replace(supplied_book(), rack=()))
    said = [mark.text for mark in cut_drawing.printed(plan, KEEP).marks if isinstance(mark, Words)]
    assert "W10–13" in said
    assert not {mark for mark, _ in short} & set(said)
    assert "W4" in said  # it has room


def test_words_on_a_piece_are_no_longer_than_it(one: Estimate) -> None:
    for plan, done in of_bars(one):
        marks = cut_drawing.bars(plan, KEEP).marks
        long = {mark.piece: mark.width for mark in marks if isinstance(mark, Box) and mark.piece}
        longest = max(done.stock[cut.bar].length for cut in done.cuts)
        letter = (longest + cut_drawing.BESIDE) * cut_drawing.LETTER / cut_drawing.PAGE
        for mark in marks:
            if isinstance(mark, Words) and mark.piece:
                assert mark.text == mark.piece or len(mark.text) * letter < long[mark.piece]


def test_bars_of_the_rack_are_called_by_their_name(worked: dict[str, Estimate]) -> None:
    strut = next(plan for plan in worked["101"].cuts if plan.item.kind == "strut")
    names = [cut_drawing.bar_name(strut, row) for row in range(len(strut.plan.cuts))]
    assert sorted(names) == ["New 1 · 2,000", "New 2 · 3,000", "Rack R1 · 1,310"]


def test_a_drawing_of_bars_is_not_asked_of_sheets(worked: dict[str, Estimate]) -> None:
    bars, sheets = of_bars(worked["101"])[0][0], of_sheets(worked["101"])[0][0]
    with pytest.raises(TypeError):
        cut_drawing.bars(sheets, KEEP)
    with pytest.raises(TypeError):
        cut_drawing.bar_name(sheets, 0)
    assert isinstance(sheets.plan, SheetPlan)
    with pytest.raises(TypeError):
        cut_drawing.sheet(bars, sheets.plan.cuts[0], 0)


@pytest.mark.parametrize(
    ("cost", "bound", "proven", "words"),
    [(100, 100, True, "proven best"), (125, 100, False, "within 25 % of the least possible"), (0, 0, False, "from the rack")],
)
def test_how_good_a_plan_is_in_words(cost: int, bound: int, proven: bool, words: str, worked: dict[str, Estimate]) -> None:
    plan, done = of_bars(worked["101"])[0]
    assert cut_list.proof(replace(plan, plan=replace(done, cost_pence=cost, bound_pence=bound, proven=proven))) == words


def test_what_is_longer_than_anything_sold_is_said(jobs: dict[str, Job], book: Book) -> None:
    short = replace(book, offers={code: rows for code, rows in book.offers.items() if "strut" not in code}, rack=())
    made = estimate(jobs["101"], short)
    words = [block.text for block in cut_list.build(made).blocks if isinstance(block, Paragraph) and block.tone == "caution"]
    assert any("Longer than anything on offer: T1 1,444" in each for each in words)
    strut = next(plan for plan in made.cuts if plan.item.kind == "strut")
    assert cut_list.proof(strut) == f"{len(strut.cuts)} pieces fit no stock"
    assert cut_drawing.bars(strut, KEEP).marks == ()


def test_an_even_count_of_sheets_leaves_no_half_row(worked: dict[str, Estimate]) -> None:
    rows = [block for block in cut_list.build(worked["101"]).blocks if isinstance(block, SideBySide)]
    assert [(len(row.left), len(row.right)) for row in rows] == [(2, 2), (2, 2)]
    odd = [block for block in cut_list.build(worked["103"]).blocks if isinstance(block, SideBySide)]
    assert [(len(row.left), len(row.right)) for row in odd] == [(2, 2), (2, 0)]


def test_bars_are_sketched_once_a_material(one: Estimate) -> None:
    sketches = [block for block in cut_list.build(one).blocks if isinstance(block, Sketch)]
    bars = [block.drawing.title for block in sketches if block.drawing.title in {plan.item.name for plan, _ in of_bars(one)}]
    assert bars == [plan.item.name for plan, _ in of_bars(one) if plan.cuts]


def test_a_job_of_nothing_has_an_empty_list(jobs: dict[str, Job], book: Book) -> None:
    care, said = cut_list.build(estimate(put(jobs["101"], "rooms", ()), book)).blocks
    assert said == Paragraph("Nothing is cut for this job yet.")
    assert isinstance(care, Paragraph)
    assert care.tone == "caution"


def test_the_cuts_of_a_sheet_are_numbered_on_its_lines_and_told_beneath_it(worked: dict[str, Estimate]) -> None:
    """A person follows them: number, part in hand, where to measure from, and what it gives."""
    plan, done = of_sheets(worked["101"])[0]
    told = list(cut_list.in_order(plan))
    assert told[0] == "1. Whole sheet at 225 from the foot. 2. The 640 × 225 at 620 from the left, gives B4."
    for row, (cut, words) in enumerate(zip(done.cuts, told, strict=True)):
        numbers = [mark.text for mark in cut_drawing.sheet(plan, cut, row).marks if isinstance(mark, Words) and mark.text.isdigit()]
        assert all(f"{number}. " in words for number in numbers)
        assert numbers == [str(place) for place in range(1, len(numbers) + 1)]
    assert list(cut_list.in_order(of_bars(worked["101"])[0][0])) == []


def test_what_is_left_of_a_sheet_is_kept_with_its_size_or_hatched(one: Estimate) -> None:
    for plan, done in of_sheets(one):
        for row, cut in enumerate(done.cuts):
            marks = cut_drawing.sheet(plan, cut, row).marks
            kept = sum(mark.style == "keep" for mark in marks if isinstance(mark, Box))
            assert kept == len(replace(done, cuts=(cut,)).kept())
            assert sum(mark.text.startswith("keep ") for mark in marks if isinstance(mark, Words)) <= kept


def test_a_sheet_of_the_rack_is_called_so_and_new_ones_are_counted(worked: dict[str, Estimate]) -> None:
    plan, _ = of_sheets(worked["101"])[0]
    assert [cut_drawing.sheet_title(plan, row) for row in range(2)] == ["Rack R4 · 640 × 400", "Sheet 1 · 1,200 × 800"]
    cells = {
        row.cells[0]: row.cells[-2] for block in cut_list.build(worked["101"]).blocks if isinstance(block, Table) for row in block.rows
    }
    assert cells["B4"] == "Rack R4"
    with pytest.raises(TypeError):
        cut_drawing.sheet_name(of_bars(worked["101"])[0][0], 0)


def test_a_board_whose_height_is_open_is_not_to_be_cut_yet(worked: dict[str, Estimate]) -> None:
    """In the family bathroom the floor is to be settled: uprights wait for it, and so do the boards of the front."""
    plan, _ = of_sheets(worked["102"])[0]
    waits = {cut.mark for cut in plan.cuts if cut.width is not None and cut.width.tbc}
    assert waits == {"B1", "B2", "B3", "B4"}
    rows = [row for block in cut_list.build(worked["102"]).blocks if isinstance(block, Table) for row in block.rows]
    assert {row.cells[0] for row in rows if "do not cut yet" in row.note} >= waits
    assert next(row.note for row in rows if row.cells[0] == "B1") == "do not cut yet, 1,192 to 1,200 wide"


@pytest.mark.parametrize("size", [(600.0, 400.0), (400.0, 600.0)])
def test_where_a_piece_is_sawn_aslant_is_drawn_as_it_lies_on_its_sheet(size: tuple[float, float]) -> None:
    """A sheet of 600 x 400 whole; along its length the line goes up to the right, turned it goes up to the left."""
    book, (long, wide) = supplied_book(), size
    slanted = Cut("B1", number(long), "board", "Shelf", number(wide), slants=(((0.0, 0.0), (long, wide)),))
    (plan,) = plans(
        (Line(book.item("board-cement-12"), number(0.24, "m²"), (Need(number(0.24, "m²"), "boarding", "", cuts=(slanted,)),)),), book
    )
    assert isinstance(plan.plan, SheetPlan)
    (place,) = plan.plan.cuts[0].places
    lines = [mark for mark in cut_drawing.sheet(plan, plan.plan.cuts[0], 0).marks if isinstance(mark, DrawnLine) and mark.piece == "B1"]
    first, second = lines  # open between them, where the words stand
    rising = (second.x2 - first.x1) * (second.y2 - first.y1) > 0
    assert rising != place.turned
    assert {first.x1, second.x2} == {place.x, place.x + place.length}
    assert {first.y1, second.y2} == {place.y, place.y + place.width}


def test_holes_through_boards_are_drawn_and_listed_by_their_piece(worked: dict[str, Estimate]) -> None:
    """In the cloakroom the middle of the pan is 790 - 65 from the left of its board: the outlet is drawn there, turned with the board."""
    plan, done = of_sheets(worked["101"])[0]
    holes = {hole.name: (cut.mark, hole) for cut in plan.cuts for hole in cut.holes}
    (table,) = [block for block in cut_list.build(worked["101"]).blocks if isinstance(block, Table) and block.columns[1].head == "Through"]
    assert [row.cells[0] for row in table.rows] == [hole.name for cut in plan.cuts for hole in cut.holes]
    assert table.rows
    mark, outlet = holes["WC 1 outlet"]
    row, place = next((row, one) for row, cut in enumerate(done.cuts) for one in cut.places if plan.cuts[one.piece].mark == mark)
    drawn = [each for each in cut_drawing.sheet(plan, done.cuts[row], row).marks if isinstance(each, Ellipse) and each.piece == mark]
    at = (place.length - outlet.z, outlet.x) if place.turned else (outlet.x, outlet.z)
    assert (place.x + at[0], place.y + at[1], outlet.across / 2) in [(each.x, each.y, each.half_width) for each in drawn]
    assert len(drawn) == len(plan.cuts[place.piece].holes)
