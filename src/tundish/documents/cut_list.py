"""The cut list: per material the bars or sheets to scale, and every piece with the box to tick when it is cut."""

from __future__ import annotations

from collections.abc import Iterator

from tundish import measure
from tundish.cutting.plan import BarPlan, SheetPlan
from tundish.cutting.plans import CutPlan
from tundish.cutting.saw_order import saw_order
from tundish.documents import cut_drawing
from tundish.documents.block import Block, Column, Document, Heading, Paragraph, Row, SideBySide, Sketch, Table
from tundish.documents.paper import paper
from tundish.documents.tile_drawing import ONE_BATCH
from tundish.documents.tile_list import tile_list
from tundish.estimate import Estimate
from tundish.ranges import may_be

_COLUMNS = (
    Column("Piece", "text", 0.7, "strong"),
    Column("What", "text", 2.0),
    Column("Where", "text", 2.2),
    Column("Length", "length", 0.9, "strong"),
    Column("Width", "length", 0.9, "strong"),
    Column("From", "text", 1.5),
    Column("Cut", "tick", 0.5),
)

_HOLES = (
    Column("Hole", "text", 2.2, "strong"),
    Column("Through", "text", 0.9),
    Column("From its left", "length", 1.1),
    Column("From its foot", "length", 1.1),
    Column("Across", "length", 0.9),
    Column("Cut", "tick", 0.5),
)


def build(estimate: Estimate) -> Document:
    """The cut list of a job."""
    keep = estimate.book.figure("cutting.keep").value
    care = "Wear eye and ear protection; cut cement board and tile wet or with extraction: the dust harms lungs."
    blocks: list[Block] = [Paragraph(care, "caution")]
    if not estimate.cuts:
        blocks.append(Paragraph("Nothing is cut for this job yet."))
    for plan in estimate.cuts:
        blocks += _material(plan, keep)
    tiles = [block for room in estimate.rooms for block in tile_list(room)]
    blocks += (*tiles, Paragraph(ONE_BATCH, "note")) if tiles else ()
    return paper(estimate, "cut-list", "Cut list", tuple(blocks), tables_only=True)


def proof(plan: CutPlan) -> str:
    """How good a plan is, in words."""
    done = plan.plan
    if done.unplaced:
        return f"{len(plan.too_long)} pieces fit no stock"
    if done.proven:
        return "proven best"
    if not done.cost_pence:
        return "from the rack"
    over = (done.cost_pence - done.bound_pence) / max(done.bound_pence, 1) * 100
    return f"within {over:.0f} % of the least possible"


def _material(plan: CutPlan, keep: float) -> Iterator[Block]:
    yield Heading(plan.item.name)
    yield Paragraph(f"{summary(plan)}. Blade {measure.show_length(plan.plan.kerf)} mm.{set_ups(plan)}", "note")
    if isinstance(plan.plan, SheetPlan):
        yield from _sheets(plan, plan.plan)
    elif plan.plan.cuts:
        yield Sketch(cut_drawing.printed(plan, keep))
    columns = _COLUMNS if isinstance(plan.plan, SheetPlan) else tuple(each for each in _COLUMNS if each.head != "Width")
    yield Table(columns, tuple(_rows(plan)))
    holes = tuple(_holes(plan))
    if holes:
        yield Table(_HOLES, holes)
    if plan.too_long:
        words = ", ".join(f"{cut.mark} {measure.show_length(cut.length.value)}" for cut in plan.too_long)
        yield Paragraph(f"Longer than anything on offer: {words}. Join at an upright, or order a longer length.", "caution")


def set_ups(plan: CutPlan) -> str:
    """How often the saw's stop is set, as a sentence; nothing for sheets, or where it is set once."""
    times = plan.plan.set_ups if isinstance(plan.plan, BarPlan) else 0
    return f" The stop is set {times} times, bars cut alike together." if times > 1 else ""


def summary(plan: CutPlan) -> str:
    """A plan in words: how many pieces from how many bars or sheets, and how good it is."""
    of = "bar" if isinstance(plan.plan, BarPlan) else "sheet"
    used = sum(plan.plan.used())
    return f"{_counted(len(plan.cuts), 'piece')} from {_counted(used, of)}, {proof(plan)}"


def _counted(count: int, thing: str) -> str:
    return f"{count} {thing}" if count == 1 else f"{count} {thing}s"


def in_order(plan: CutPlan) -> Iterator[str]:
    """For every sheet its cuts in words, in the order and with the numbers of the drawing; nothing for bars."""
    marks = [cut.mark for cut in plan.cuts]
    if isinstance(plan.plan, SheetPlan):
        for cut in plan.plan.cuts:
            yield " ".join(saw_order(plan.plan, cut, marks)) or "Not cut."


def _sheets(plan: CutPlan, done: SheetPlan) -> Iterator[Block]:
    """The sheets two by two, each with its cuts in words."""
    drawn: list[tuple[Block, ...]] = [
        (Sketch(cut_drawing.sheet(plan, cut, row), cut_drawing.sheet_title(plan, row)), Paragraph(words, "note"))
        for row, (cut, words) in enumerate(zip(done.cuts, in_order(plan), strict=True))
    ]
    for left, right in zip(drawn[::2], drawn[1::2], strict=False):
        yield SideBySide(left, right)
    if len(drawn) % 2:
        yield SideBySide(drawn[-1], ())


def _rows(plan: CutPlan) -> Iterator[Row]:
    where = dict(_sources(plan))
    for place, cut in enumerate(plan.cuts):
        width = () if cut.width is None else (cut.width.value,)
        where_to = "–" if cut.where == cut.what else cut.where
        cells = (cut.mark, cut.what, where_to, cut.length.value, *width, where.get(place, "–"), "")
        reaches = (may_be(cut.length), _wide(may_be(cut.width)) if cut.width is not None else "")
        yield Row(cells, cut.tbc, note=", ".join(("do not cut yet", *filter(None, reaches))) if cut.tbc else "")


def _holes(plan: CutPlan) -> Iterator[Row]:
    """Every hole through a board as it hangs, from the board's own left and foot."""
    for cut in plan.cuts:
        for hole in cut.holes:
            yield Row((hole.name, cut.mark, hole.x, hole.z, hole.across, ""), cut.tbc)


def _wide(reach: str) -> str:
    return f"{reach} wide" if reach else ""


def _sources(plan: CutPlan) -> Iterator[tuple[int, str]]:
    if isinstance(plan.plan, BarPlan):
        for row, cut in enumerate(plan.plan.cuts):
            for place in cut.pieces:
                yield place, cut_drawing.bar_name(plan, row)
    else:
        for row, sheet in enumerate(plan.plan.cuts):
            for one in sheet.places:
                yield one.piece, cut_drawing.sheet_name(plan, row)
