"""Labels: one for each piece to cut and each offcut to keep, four across, to cut out and tape on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from textwrap import shorten, wrap
from typing import Final

from tundish import measure
from tundish.cutting.plan import BarPlan
from tundish.cutting.plans import CutPlan
from tundish.documents.block import Block, Document, Paragraph, Sketch
from tundish.documents.drawing import Box, Drawing, Mark, Words
from tundish.documents.paper import paper
from tundish.estimate import Estimate

ACROSS: Final = 4
WIDE: Final = 46.0
HIGH: Final = 32.0
"""Size of a label, mm of paper."""
_ROOM: Final = WIDE - 2
_WAIT: Final = ", do not cut yet"
FITS: Final = 38
"""Letters of small print that fit across."""
_LINES: Final = 3
"""Lines of small print above the job: what it is and where it goes, the longer of the two over two lines."""


@dataclass(frozen=True, slots=True)
class Label:
    """What one label says: the piece and its size large, then what it is, where it goes and the job."""

    piece: str
    size: str
    what: str
    where: str
    job: str
    tbc: bool = False


def labels(estimate: Estimate) -> tuple[Label, ...]:
    """Every label of a job: the pieces of each plan, then the offcuts it leaves."""
    return tuple(label for plan in estimate.cuts for label in (*_pieces(plan, estimate), *_offcuts(plan, estimate)))


def build(estimate: Estimate) -> Document:
    """The sheet of labels."""
    found = labels(estimate)
    rows: list[Block] = [_row(found[at : at + ACROSS]) for at in range(0, len(found), ACROSS)]
    waiting = [each.piece for each in found if each.tbc]
    if waiting:
        rows.insert(0, Paragraph(f"Do not cut yet, still to be confirmed: {', '.join(waiting)}.", "caution"))
    return paper(estimate, "labels", "Labels", tuple(rows) or (Paragraph("Nothing is cut for this job yet."),))


def drawn(row: Sequence[Label]) -> Drawing:
    """A row of labels at true size."""
    marks = tuple(mark for place, label in enumerate(row) for mark in _marks(label, place * WIDE))
    return Drawing("labels", marks, (0, 0, ACROSS * WIDE, HIGH))


def _pieces(plan: CutPlan, estimate: Estimate) -> Iterator[Label]:
    for cut in plan.cuts:
        size = measure.show_length(cut.length.value)
        if cut.width is not None:
            size = f"{size} × {measure.show_length(cut.width.value)}"
        where = "" if cut.where == cut.what else _short(cut.where)
        name = plan.item.name
        what = name if f" {cut.what} ".casefold() in f" {name} ".casefold() else f"{cut.what}, {name}"
        yield Label(cut.mark, size, what, where, _job(estimate), cut.tbc)


def _short(where: str) -> str:
    """Where a piece goes; of several cut-outs only how many, for they are on the cut list."""
    place, *more = where.split("; ")
    outs = [words for words in more if words.startswith("cut out ")]
    rest = [words for words in more if words not in outs]
    return "; ".join((place, *rest, *([f"{len(outs)} cut-outs: see the cut list"] if len(outs) > 1 else outs)))


def _offcuts(plan: CutPlan, estimate: Estimate) -> Iterator[Label]:
    keep = estimate.book.figure("cutting.keep").value
    if isinstance(plan.plan, BarPlan):
        sizes = [measure.show_length(bar.length) for bar in plan.plan.kept(keep)]
    else:
        sizes = [f"{measure.show_length(rest.length)} × {measure.show_length(rest.width)}" for rest in plan.plan.kept()]
    for size in sizes:
        yield Label("Keep", size, plan.item.name, "rack", f"from {_job(estimate)}")


def _job(estimate: Estimate) -> str:
    return f"job {estimate.job.number}" if estimate.job.number else estimate.job.title


def _row(row: Sequence[Label]) -> Sketch:
    return Sketch(drawn(row), scale=1, told="; ".join(_said(label) for label in row))


def _said(label: Label) -> str:
    parts = (label.what, label.where, label.job, "do not cut yet" if label.tbc else "")
    return f"{label.piece} {label.size}, {', '.join(part for part in parts if part)}"


def _marks(label: Label, x: float) -> Iterator[Mark]:
    middle = x + WIDE / 2
    yield Box(x, 0, WIDE, HIGH, "tbc" if label.tbc else "ink", filled=False)
    yield Words(middle, HIGH - 6, label.piece, 6.0, bold=True, most=_ROOM)
    yield Words(middle, HIGH - 14, label.size, 5.0 if len(label.size) < 12 else 3.6, bold=True)  # noqa: PLR2004
    job = shorten(label.job, FITS - len(_WAIT), placeholder="…") if label.tbc else label.job
    lines = (*_small(label), f"{job}{_WAIT if label.tbc else ''}")
    for line, words in enumerate(lines):
        yield Words(middle, HIGH - 20 - line * (4.2 if len(lines) <= _LINES else 3.1), words, 2.4, most=_ROOM)


def _small(label: Label) -> Iterator[str]:
    what = wrap(label.what, FITS, max_lines=2, placeholder="…")
    yield from what
    if label.where:
        yield from wrap(label.where, FITS, max_lines=_LINES - len(what), placeholder="…")
