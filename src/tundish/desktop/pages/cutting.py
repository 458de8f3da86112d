"""Cutting: how do I cut it with least waste?"""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import Final

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QScrollArea, QVBoxLayout, QWidget

from tundish import measure
from tundish.cutting.plan import BarPlan, SheetPlan
from tundish.cutting.plans import CutPlan
from tundish.desktop import look
from tundish.desktop.canvas.cut_view import CutView, Margins
from tundish.desktop.chips import ChipRow, Choice
from tundish.desktop.estimate_page import EstimatePage
from tundish.desktop.words import CutLabel, button, label
from tundish.desktop.workspace import Workspace
from tundish.documents import cut_drawing
from tundish.documents.cut_list import proof
from tundish.documents.drawing import Drawing, Mark, Words, moved
from tundish.estimate import Estimate

NAMES: Final = 150
"""Room for the names of the bars, pixels at 100 %; what is left of each stands at the right."""
REST: Final = 92
ACROSS: Final = 3
"""Sheets side by side."""
BETWEEN: Final = 80.0
TITLE: Final = 120.0
BIGGEST_SHEET: Final = 0.2
"""Pixels a mm: a small sheet is not blown up."""


class CuttingPage(EstimatePage):
    """Every plan to scale, with what it comes from, what is kept and how good it is."""

    help_sentences = (
        "Choose a piece to see where its length is from.",
        "A half ring says: do not cut yet, its length is still to be confirmed.",
        "Dashed is an offcut to keep; hatched is scrap.",
    )

    def __init__(self, workspace: Workspace) -> None:
        super().__init__("Cutting", "How do I cut it with least waste?", workspace)
        self._better: Estimate | None = None
        self._parts: dict[str, PlanPart] = {}
        to_print = button("Print cut list", "print", main=True)
        to_print.clicked.connect(self._print)
        self.add_tool(to_print)
        self._views = ChipRow("What to cut")
        self._views.chosen.connect(self._choose_view)
        self._saw = CutLabel("table", "ink2")
        self.add_row(self._view_row())
        self._offer, self._offered = QFrame(), label("", "table", wrap=True)
        self.add_row(self._offer_row())
        self._empty = label("", "body", "ink2", wrap=True)
        self._scroll = _Scroll()
        self._plans = QVBoxLayout()
        self._foot = label("", "tableStrong")
        self._wait, self._kept = label("", "table", "tbc"), label("", "table", "ink2")
        self.set_body(self._card())
        workspace.better_offered.connect(self._offer_better)
        workspace.job_opened.connect(self.show_nothing)
        self.begin()

    def _view_row(self) -> QWidget:
        made = QWidget()
        row = QHBoxLayout(made)
        row.setContentsMargins(4, 0, 8, 0)
        row.addWidget(self._views, 1)
        row.addWidget(self._saw)
        return made

    def _offer_row(self) -> QWidget:
        self._offer.setProperty("kind", "note")
        row = QHBoxLayout(self._offer)
        row.setContentsMargins(10, 4, 4, 4)
        use = button("Use it", "tick", main=True)
        use.clicked.connect(self._use_better)
        row.addWidget(self._offered, 1)
        row.addWidget(use)
        self._offer.hide()
        return self._offer

    def _card(self) -> QWidget:
        card, inside, foot = QFrame(), QWidget(), QFrame()
        card.setProperty("kind", "card")
        inside.setProperty("kind", "clear")
        foot.setProperty("kind", "foot")
        self._plans = QVBoxLayout(inside)
        self._plans.setContentsMargins(13, 10, 13, 10)
        self._plans.setSpacing(4)
        self._plans.addWidget(self._empty)
        self._plans.addStretch(1)
        self._scroll.setWidget(inside)
        self._scroll.setWidgetResizable(True)
        self._scroll.setFrameShape(QFrame.Shape.NoFrame)
        self._scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        column = QVBoxLayout(card)
        column.setContentsMargins(1, 1, 1, 1)
        column.setSpacing(0)
        column.addWidget(self._scroll, 1)
        column.addWidget(foot)
        row = QHBoxLayout(foot)
        row.setContentsMargins(12, 6, 12, 6)
        row.setSpacing(20)
        for words in (self._foot, self._wait, self._kept):
            row.addWidget(words)
        row.addStretch(1)
        return card

    def _choose_view(self, _view: str) -> None:
        self.show_again()
        self._scroll.verticalScrollBar().setValue(0)

    def show_nothing(self) -> None:
        """Say that the plans are not there yet."""
        self._offer.hide()
        self._keep_only(())
        self._empty.setText("The plans are being worked out." if self._workspace.session else "Open a job, and its cut plans are here.")
        self._empty.show()

    def show_estimate(self, estimate: Estimate) -> None:
        """The bars or the sheets of every material, to scale."""
        self._offer.hide()
        bars = [plan for plan in estimate.cuts if isinstance(plan.plan, BarPlan)]
        sheets = [plan for plan in estimate.cuts if isinstance(plan.plan, SheetPlan)]
        taken = self._views.taken() or "bars"
        counts = (sum(len(plan.plan.cuts) for plan in kind) for kind in (bars, sheets))
        names = (("bars", "Bars"), ("sheets", "Board sheets"))
        self._views.set_choices(tuple(Choice(key, words, str(count)) for (key, words), count in zip(names, counts, strict=True)), taken)
        book = estimate.book
        kerf = book.figure("cutting.kerf" if taken == "bars" else "cutting.sheet_kerf").value
        keep = book.figure("cutting.keep").value
        over = f" · keep offcuts over {measure.show_length(keep)} mm" if taken == "bars" else ""
        self._saw.setText(f"Blade {measure.show_number(kerf, None)} mm{over}")
        shown = bars if taken == "bars" else sheets
        self._show_plans(shown, keep)
        self._empty.setText("Nothing is cut from bars yet." if taken == "bars" else "Nothing is cut from sheets yet.")
        self._empty.setVisible(not shown)
        self._show_foot(shown, keep)

    def _show_plans(self, shown: list[CutPlan], keep: float) -> None:
        self._keep_only(tuple(plan.item.code for plan in shown))
        longest = max((length for plan in shown for length in _taken_lengths(plan)), default=1000.0)
        for place, plan in enumerate(shown):
            part = self._parts.get(plan.item.code)
            if part is None:
                part = self._parts[plan.item.code] = PlanPart()
                part.view.chosen.connect(self._chosen)
                part.view.reached.connect(self._reached)
                self._plans.insertWidget(place + 1, part)
            part.show_plan(plan, keep, longest)

    def _keep_only(self, codes: tuple[str, ...]) -> None:
        if tuple(self._parts) != codes:
            for part in self._parts.values():
                part.hide()
                part.deleteLater()
            self._parts = {}

    def _show_foot(self, shown: list[CutPlan], keep: float) -> None:
        pieces = [cut for plan in shown for cut in plan.cuts]
        wait = sum(cut.length.tbc for cut in pieces)
        self._foot.setText(f"{len(pieces)} {_plural(len(pieces), 'piece')} to cut" if pieces else "")
        self._wait.setText(f"{wait} not to be cut yet" if wait else "")
        self._kept.setText(_kept_words(shown, keep))

    def _chosen(self, mark: str) -> None:
        view = self.sender()
        for code, part in self._parts.items():
            if part.view is view:
                self.figure_asked.emit(f"piece:{code}:{mark}")
            else:
                part.view.choose("")

    def _reached(self, place: QRect) -> None:
        view = self.sender()
        inside = self._scroll.widget()
        if isinstance(view, QWidget) and inside is not None:
            at = view.mapTo(inside, place.center())
            self._scroll.ensureVisible(at.x(), at.y(), 0, place.height() // 2 + look.now().px(28))

    def _offer_better(self, estimate: Estimate) -> None:
        self._better = estimate
        now = self._workspace.estimate
        saves = now.price.total - estimate.price.total if now else Decimal(0)
        words = f"A better plan saves {measure.show_money(saves)}." if saves > 0 else "A better plan was found."
        self._offered.setText(f"{words} What you see stays until you take it.")
        self._offer.show()

    def _use_better(self) -> None:
        if self._better is not None:
            self._workspace.use_better(self._better)

    def _print(self) -> None:
        self._workspace.paper = "cut-list"
        self.page_asked.emit("paper")


class _Scroll(QScrollArea):
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
        self.view.show_drawing(_in_cut_order(drawing, plan), margins, f"{plan.item.name}: {words}")


def summary(plan: CutPlan) -> str:
    """How much is cut from what, and how good the plan is."""
    count = len(plan.cuts)
    words = [f"{count} {_plural(count, 'piece')}"]
    if isinstance(plan.plan, BarPlan):
        words.append(f"{measure.show_length(plan.plan.cut_length)} mm")
        taken = [plan.plan.stock[cut.bar].offcut for cut in plan.plan.cuts]
    else:
        words.append(f"{measure.show_area(plan.plan.cut_area_m2)} m²")
        taken = [plan.plan.stock[cut.sheet].offcut for cut in plan.plan.cuts]
    parts = (f"{sum(taken)} {_plural(sum(taken), 'offcut')}" if any(taken) else "", f"{taken.count(False)} new" if not all(taken) else "")
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
        what = f"Rack {size.name}" if size.offcut else f"Sheet {row + 1}"
        title = f"{what} · {measure.show_length(size.length)} × {measure.show_length(size.width)}"
        marks.append(Words(x, y + size.width + TITLE / 2, title, anchor="start"))
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
        tuple((cut.mark, _spoken(cut.mark, cut.what, cut.length.value, tbc=cut.length.tbc)) for cut in order),
    )


def _spoken(mark: str, what: str, length: float, *, tbc: bool) -> str:
    wait = ", do not cut yet, to be confirmed" if tbc else ""
    return f"{mark}, {what}, {measure.show_length(length)} millimetres{wait}"


def _placed(plan: CutPlan) -> Iterator[int]:
    if isinstance(plan.plan, BarPlan):
        for bar in plan.plan.cuts:
            yield from bar.pieces
    else:
        for sheet in plan.plan.cuts:
            yield from (place.piece for place in sheet.places)


def _taken_lengths(plan: CutPlan) -> Iterator[float]:
    if isinstance(plan.plan, BarPlan):
        for cut in plan.plan.cuts:
            yield plan.plan.stock[cut.bar].length


def _kept_words(shown: list[CutPlan], keep: float) -> str:
    bars = [bar.length for plan in shown if isinstance(plan.plan, BarPlan) for bar in plan.plan.kept(keep)]
    if bars:
        return f"{len(bars)} {_plural(len(bars), 'offcut')} to keep, {measure.show_metres(sum(bars))} m"
    count = sum(len(plan.plan.kept()) for plan in shown if isinstance(plan.plan, SheetPlan))
    return f"{count} {_plural(count, 'offcut')} to keep" if count else ""


def _plural(count: int, word: str) -> str:
    return word if count == 1 else f"{word}s"
