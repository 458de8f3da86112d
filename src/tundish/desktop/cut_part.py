"""One cut plan under its heading: the bars or sheets to scale, how good the plan is, and what to do about what fits nowhere."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QScrollArea, QVBoxLayout, QWidget

from tundish import measure
from tundish.cutting.plan import BarPlan, SheetPlan
from tundish.cutting.plans import CutPlan
from tundish.desktop import look
from tundish.desktop.canvas.cut_view import CutView, Margins
from tundish.desktop.words import CutLabel, label
from tundish.documents import cut_drawing
from tundish.documents.cut_list import in_order, proof
from tundish.documents.drawing import Drawing, Mark, Words, moved

NAMES: Final = 150
"""Room for the names of the bars, pixels at 100 %; what is left of each stands at the right."""
REST: Final = 92
ACROSS: Final = 3
"""Sheets side by side."""
BETWEEN: Final = 80.0
TITLE: Final = 120.0
BIGGEST_SHEET: Final = 0.2
"""Pixels a mm: a small sheet is not blown up."""


class PlanScroll(QScrollArea):
    """A scroll whose plans are as wide with its bar as without: a bar that came and went with their height would never settle."""

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        inside = self.widget()
        if inside is not None:
            inside.setFixedWidth(self.width() - look.now().px(12))


class PlanPart(QWidget):
    """One plan under its heading, with what to do about pieces that nothing is long enough for."""

    def __init__(self) -> None:
        super().__init__()
        self.view = CutView()
        self._name, self._note = label("", "section"), CutLabel("table", "ink2")
        self._trouble = label("", "table", "fails", wrap=True)
        self._order = label("", "note", "ink2", wrap=True)
        head = QHBoxLayout()
        head.setSpacing(16)
        head.addWidget(self._name)
        head.addStretch(1)
        head.addWidget(self._note)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 12)
        column.setSpacing(6)
        column.addLayout(head)
        column.addWidget(self._trouble)
        column.addWidget(self.view)
        column.addWidget(self._order)

    def show_plan(self, plan: CutPlan, keep: float, longest: float) -> None:
        """Show a plan; `longest` is the longest bar of all plans, so that all are to one scale."""
        words = summary(plan)
        self._name.setText(plan.item.name)
        self._note.setText(words)
        trouble = too_long(plan)
        self._trouble.setText(trouble)
        self._trouble.setVisible(bool(trouble))
        self.view.setVisible(bool(plan.plan.cuts))
        if isinstance(plan.plan, BarPlan):
            drawing, margins = cut_drawing.bars(plan, keep), Margins(NAMES, REST, longest, row=cut_drawing.BAR)
        else:
            drawing = sheets(plan)
            margins = Margins(0, 0, drawing.extent[2], BIGGEST_SHEET)
            self._order.setText("\n".join(f"{cut_drawing.sheet_name(plan, row)}. {words}" for row, words in enumerate(in_order(plan))))
        self._order.setVisible(isinstance(plan.plan, SheetPlan) and bool(plan.plan.cuts))
        self.view.show_drawing(_in_cut_order(drawing, plan), margins, f"{plan.item.name}: {words}")


def summary(plan: CutPlan) -> str:
    """How much is cut from what, and how good the plan is."""
    count = len(plan.cuts)
    words = [f"{count} {plural(count, 'piece')}"]
    if isinstance(plan.plan, BarPlan):
        words.append(f"{measure.show_length(plan.plan.cut_length)} mm")
        taken = [plan.plan.stock[cut.bar].offcut for cut in plan.plan.cuts]
    else:
        words.append(f"{measure.show_area(plan.plan.cut_area_m2)} m²")
        taken = [plan.plan.stock[cut.sheet].offcut for cut in plan.plan.cuts]
    parts = (f"{sum(taken)} {plural(sum(taken), 'offcut')}" if any(taken) else "", f"{taken.count(False)} new" if not all(taken) else "")
    words.append(" + ".join(part for part in parts if part))
    words.append("" if plan.plan.unplaced else proof(plan))
    return ", ".join(word for word in words if word)


def too_long(plan: CutPlan) -> str:
    """What to do about the pieces that could not be placed, or nothing."""
    if not plan.too_long:
        return ""
    pieces = ", ".join(f"{cut.mark} of {measure.show_length(cut.length.high)}" for cut in plan.too_long)
    if not plan.plan.stock:
        return f"Nothing to cut {pieces} from: no supplier offers it by size, and the rack has none."
    return f"Longer than anything on offer: {pieces}. Join at an upright, or order a longer length."


def sheets(plan: CutPlan) -> Drawing:
    """Every sheet of a plan, a few side by side, each under its name."""
    if not isinstance(plan.plan, SheetPlan):
        raise TypeError(plan.item.code)
    marks: list[Mark] = []
    wide = max((plan.plan.stock[cut.sheet].length for cut in plan.plan.cuts), default=1.0)
    high = max((plan.plan.stock[cut.sheet].width for cut in plan.plan.cuts), default=1.0)
    for row, cut in enumerate(plan.plan.cuts):
        size = plan.plan.stock[cut.sheet]
        x, y = (row % ACROSS) * (wide + BETWEEN), -(row // ACROSS) * (high + TITLE) - high - TITLE
        marks.append(Words(x, y + size.width + TITLE / 2, cut_drawing.sheet_title(plan, row), anchor="start"))
        marks += moved(cut_drawing.sheet(plan, cut, row).marks, x, y)
    rows = -(-len(plan.plan.cuts) // ACROSS)
    extent = (0.0, -rows * (high + TITLE), ACROSS * (wide + BETWEEN) - BETWEEN, rows * (high + TITLE))
    pieces = tuple((cut.mark, f"{cut.what} {cut.mark}") for cut in plan.cuts)
    return Drawing(plan.item.name, tuple(marks), extent, pieces)


def _in_cut_order(drawing: Drawing, plan: CutPlan) -> Drawing:
    """The same drawing with its pieces in the order in which they lie, each told with its length and whether it may be cut."""
    order = [plan.cuts[place] for place in _placed(plan)]
    return Drawing(
        drawing.title,
        drawing.marks,
        drawing.extent,
        tuple((cut.mark, _spoken(cut.mark, cut.what, cut.length.value, wait=_wait(plan, cut.mark, tbc=cut.tbc))) for cut in order),
    )


def _wait(plan: CutPlan, mark: str, *, tbc: bool) -> str:
    return ", cut" if mark in plan.done else ", do not cut yet, to be confirmed" if tbc else ""


def _spoken(mark: str, what: str, length: float, *, wait: str) -> str:
    return f"{mark}, {what}, {measure.show_length(length)} millimetres{wait}"


def _placed(plan: CutPlan) -> Iterator[int]:
    if isinstance(plan.plan, BarPlan):
        for bar in plan.plan.cuts:
            yield from bar.pieces
    else:
        for sheet in plan.plan.cuts:
            yield from (place.piece for place in sheet.places)


def taken_lengths(plan: CutPlan) -> Iterator[float]:
    """The lengths of the bars a plan takes."""
    if isinstance(plan.plan, BarPlan):
        for cut in plan.plan.cuts:
            yield plan.plan.stock[cut.bar].length


def kept_words(shown: list[CutPlan], keep: float) -> str:
    """How many offcuts are to keep, in words."""
    bars = [bar.length for plan in shown if isinstance(plan.plan, BarPlan) for bar in plan.plan.kept(keep)]
    if bars:
        return f"{len(bars)} {plural(len(bars), 'offcut')} to keep, {measure.show_metres(sum(bars))} m"
    count = sum(len(plan.plan.kept()) for plan in shown if isinstance(plan.plan, SheetPlan))
    return f"{count} {plural(count, 'offcut')} to keep" if count else ""


def plural(count: int, word: str) -> str:
    """A word for so many."""
    return word if count == 1 else f"{word}s"
