"""The cut list: per material the bars or sheets to scale, and every piece with the box to tick when it is cut."""

from __future__ import annotations

from collections.abc import Iterator

from tundish import measure
from tundish.cutting.plan import BarPlan, SheetPlan
from tundish.cutting.plans import CutPlan
from tundish.documents import cut_drawing
from tundish.documents.block import Block, Column, Document, Heading, Paragraph, Row, Sketch, Table
from tundish.documents.paper import paper
from tundish.estimate import Estimate

_COLUMNS = (
    Column("Piece", "text", 0.7, "strong"),
    Column("What", "text", 2.0),
    Column("Where", "text", 2.2),
    Column("Length", "length", 0.9, "strong"),
    Column("Width", "length", 0.9, "strong"),
    Column("From", "text", 1.5),
    Column("Cut", "tick", 0.5),
)


def build(estimate: Estimate) -> Document:
    """The cut list of a job."""
    keep = estimate.book.figure("cutting.keep").value
    blocks: list[Block] = []
    for plan in estimate.cuts:
        blocks += _material(plan, keep)
    blocks.append(
        Paragraph("Wear eye and ear protection; cut cement board and tile wet or with extraction: the dust harms lungs.", "caution")
    )
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
    used = sum(plan.plan.used())
    of = "bars" if isinstance(plan.plan, BarPlan) else "sheets"
    yield Heading(plan.item.name)
    yield Paragraph(f"{len(plan.cuts)} pieces from {used} {of}, {proof(plan)}. Blade {measure.show_length(plan.plan.kerf)} mm.", "note")
    if isinstance(plan.plan, SheetPlan):
        for row, cut in enumerate(plan.plan.cuts):
            yield Sketch(cut_drawing.sheet(plan, cut, row), f"Sheet {row + 1}", share=0.6)
    elif plan.plan.cuts:
        yield Sketch(cut_drawing.bars(plan, keep))
    yield Table(_COLUMNS, tuple(_rows(plan)))
    if plan.too_long:
        words = ", ".join(f"{cut.mark} {measure.show_length(cut.length.value)}" for cut in plan.too_long)
        yield Paragraph(f"Longer than anything on offer: {words}. Join at an upright, or order a longer length.", "caution")


def _rows(plan: CutPlan) -> Iterator[Row]:
    where = dict(_sources(plan))
    for place, cut in enumerate(plan.cuts):
        width = None if cut.width is None else cut.width.value
        source = where.get(place, "–")
        yield Row(
            (cut.mark, cut.what, cut.where, cut.length.value, width, source, ""),
            cut.length.tbc,
            note="do not cut yet" if cut.length.tbc else "",
        )


def _sources(plan: CutPlan) -> Iterator[tuple[int, str]]:
    if isinstance(plan.plan, BarPlan):
        for row, cut in enumerate(plan.plan.cuts):
            for place in cut.pieces:
                yield place, cut_drawing.bar_name(plan, row)
    else:
        for row, sheet in enumerate(plan.plan.cuts):
            for one in sheet.places:
                yield one.piece, f"Sheet {row + 1}"
