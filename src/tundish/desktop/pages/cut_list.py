"""A cut list of its own, outside any job: what is to be cut is typed or opened from a file, and planned like any other."""

from __future__ import annotations

import threading
import time
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog, QFrame, QHBoxLayout, QScrollArea, QVBoxLayout, QWidget

from tundish import measure
from tundish.catalogue.item import Item
from tundish.cutting.own_list import planned
from tundish.cutting.plan import BarCut, BarPlan, Effort, Piece, SheetPlan
from tundish.cutting.plans import CutPlan
from tundish.desktop import look
from tundish.desktop.boxes import Box
from tundish.desktop.cell_grid import CellGrid
from tundish.desktop.cut_part import PlanPart, PlanScroll, taken_lengths
from tundish.desktop.page import Page
from tundish.desktop.words import button, label
from tundish.desktop.workspace import Workspace
from tundish.documents.cut_told import told
from tundish.errors import TundishError
from tundish.figure import number
from tundish.rules.rule import Cut

if TYPE_CHECKING:
    from tundish.cutting.question import Question

ROWS: Final = (
    ("what", "What"),
    ("mark", "Mark"),
    ("length", "Length"),
    ("width", "Width"),
    ("count", "Count"),
    ("price", "Price, £"),
    ("turn", "Turn"),
)
SAWS: Final = (("kerf", "Blade, mm", "3"), ("trim", "Trim of sheets, mm", "0"), ("keep", "Keep from, mm", "300"))
MOST_ROWS: Final = 200
"""Rows of a file that are shown to be changed; a longer list is planned as it is."""
MOST_DRAWN: Final = 400
"""Pieces that are drawn; a plan of more is told line by line."""
MOST_TOLD: Final = 400
SECONDS: Final = 10.0


class Until:
    """Yes once told, or once so many seconds have gone by."""

    def __init__(self, seconds: float) -> None:
        self._told, self._end = threading.Event(), time.monotonic() + seconds

    def __call__(self) -> bool:
        """Whether to leave off."""
        return self._told.is_set() or self.left() <= 0

    def left(self) -> float:
        """Seconds that are left."""
        return self._end - time.monotonic()

    def tell(self) -> None:
        """Leave off now."""
        self._told.set()


class CutListPage(Page):
    """Rows of pieces and stock, and under them the plan: a first one at once, then the best that is found until it is stopped."""

    help_sentences = (
        "A row for each piece, bar, sheet or offcut: what it is, its mark, its length, for a sheet its width too, how many, the price.",
        "An empty first column is a piece. Lengths are mm, or all in one other unit: 1.2 m. A bar without a count may be bought as needed.",
        "The first plan comes at once; a better one takes its place until it is proven, ten seconds are gone or you press Stop.",
    )

    def __init__(self, workspace: Workspace) -> None:
        super().__init__("Cut list", "How do I cut a list of its own?")
        self._workspace = workspace
        self._asked: Question | None = None
        self._stop = Until(0)
        self._turn = 0
        self._open, self._halt = button("Open file"), button("Stop")
        self._plan = button("Plan it", "tick", main=True)
        for tool, does in ((self._open, self._choose), (self._halt, self._leave_off), (self._plan, self._take)):
            tool.clicked.connect(does)
            self.add_tool(tool)
        self._halt.setEnabled(False)
        self._saws = {key: Box(words, figure=True) for key, words, _ in SAWS}
        self.add_row(self._saw_row())
        self.rows = CellGrid("Row", ROWS)
        self.rows.said.connect(self._say)
        self._said = label("", "table", "ink2", wrap=True)
        self._said.hide()
        self._part, self._lines = PlanPart(), label("", "table", wrap=True)
        for part in (self._part, self._lines):
            part.hide()
        self.set_body(self._halves())

    def _saw_row(self) -> QWidget:
        made = QWidget()
        row = QHBoxLayout(made)
        row.setContentsMargins(8, 0, 8, 0)
        for key, words, usual in SAWS:
            self._saws[key].show_value(usual)
            self._saws[key].setFixedWidth(look.now().px(70))
            row.addWidget(label(words, "table", "ink2"))
            row.addWidget(self._saws[key])
        row.addStretch(1)
        return made

    def _halves(self) -> QWidget:
        made, above, below = QWidget(), QFrame(), QFrame()
        for each in (above, below):
            each.setProperty("kind", "card")
        typed, scroll = QWidget(), QScrollArea()
        typed.setProperty("kind", "clear")
        column = QVBoxLayout(typed)
        column.addWidget(self.rows)
        column.addStretch(1)
        scroll.setWidget(typed)
        drawn, plans = QWidget(), PlanScroll()
        drawn.setProperty("kind", "clear")
        shown = QVBoxLayout(drawn)
        for part in (self._part, self._lines):
            shown.addWidget(part)
        shown.addStretch(1)
        plans.setWidget(drawn)
        for frame, area in ((above, scroll), (below, plans)):
            area.setWidgetResizable(True)
            area.setFrameShape(QFrame.Shape.NoFrame)
            area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
            inside = QVBoxLayout(frame)
            inside.setContentsMargins(1, 1, 1, 1)
            inside.addWidget(area)
        above.layout().addWidget(self._said)  # type: ignore[union-attr]  # it was given one just now
        both = QVBoxLayout(made)
        both.setContentsMargins(0, 0, 0, 0)
        both.addWidget(above, 2)
        both.addWidget(below, 3)
        return made

    def _choose(self) -> None:
        name, _ = QFileDialog.getOpenFileName(self, "Open a cut list", "", "Cut lists (*.csv *.json)")
        if name:
            self.open(Path(name))

    def open(self, path: Path) -> None:
        """Show the rows of a file, and plan them."""
        from tundish.store.cut_file import read_cut_file, rows_of

        saws = self._read_saws()
        if saws is None:
            return
        try:
            asked = read_cut_file(path, saws[0], saws[1])
        except (TundishError, OSError) as fault:
            self._say(str(fault))
            return
        self._saws["kerf"].show_value(f"{asked.kerf:g}")
        self._saws["trim"].show_value(f"{asked.trim:g}")
        few = len(asked.pieces) + len(asked.stock) <= MOST_ROWS
        self.rows.show_rows(rows_of(asked) if few else ())
        self._say("" if few else f"{path.name} has more than {MOST_ROWS} rows: it is planned as it is")
        self._ask(asked, saws[2])

    def _take(self) -> None:
        """Plan what is typed; or the long list that was opened, while nothing is typed."""
        from tundish.store.cut_file import question_of

        saws = self._read_saws()
        if saws is None:
            return
        typed = self.rows.rows()
        if not typed and self._asked is not None:
            self._ask(self._asked, saws[2])
            return
        try:
            asked = question_of([dict(row) for row in typed], saws[0], saws[1])
        except TundishError as fault:
            self._say(str(fault))
            return
        self._say("")
        self._ask(asked, saws[2])

    def _read_saws(self) -> tuple[float, ...] | None:
        """Blade, trim and shortest offcut to keep; None, told, where one of them is no length."""
        found = []
        for key, words, _ in SAWS:
            read = measure.read_number(self._saws[key].text() or "0")
            if read.value is None or read.value < 0:
                self._say(f"{words}: {read.problem or 'nought or more'}")
                return None
            found.append(read.value)
        return tuple(found)

    def _ask(self, asked: Question, keep: float) -> None:
        """A first plan at once, and behind it the best until told to stop."""
        self._stop.tell()
        self._asked, self._stop = asked, Until(SECONDS)
        self._turn += 1
        turn, stop = self._turn, self._stop
        self._halt.setEnabled(True)

        def shown(plan: BarPlan | SheetPlan) -> None:
            if turn == self._turn:
                self._show(plan, keep)

        def last(plan: BarPlan | SheetPlan) -> None:
            shown(plan)
            if turn == self._turn:
                self._halt.setEnabled(False)

        aside = self._workspace.aside
        aside.ask(lambda: planned(asked, keep, effort=Effort.QUICK), shown, self._say)
        aside.ask(lambda: planned(asked, keep, stop), last, self._say)

    def _leave_off(self) -> None:
        self._stop.tell()

    def _show(self, plan: BarPlan | SheetPlan, keep: float) -> None:
        drawn = sum(piece.count for piece in plan.pieces) <= MOST_DRAWN
        lines = list(told(plan, keep))
        self._part.setVisible(drawn)
        if drawn:
            free = one_by_one(plan)
            self._part.show_plan(free, keep, max(taken_lengths(free), default=1000.0))
            lines = [lines[-1]]
        more = len(lines) - MOST_TOLD
        if more > 0:
            lines = [*lines[: MOST_TOLD - 1], f"… {more:,} lines more", lines[-1]]
        self._lines.setText("\n".join(lines))
        self._lines.show()

    def _say(self, words: str) -> None:
        self._said.setText(words)
        self._said.setVisible(bool(words))


def one_by_one(plan: BarPlan | SheetPlan) -> CutPlan:
    """A plan as one of a job is: each piece by itself, numbered where it is one of several."""
    starts: list[int] = []
    pieces: list[Piece] = []
    for piece in plan.pieces:
        starts.append(len(pieces))
        marks = [piece.mark] if piece.count == 1 else [f"{piece.mark}-{place}" for place in range(1, piece.count + 1)]
        pieces += [replace(piece, mark=mark, count=1) for mark in marks]
    taken = [0] * len(plan.pieces)

    def next_of(place: int) -> int:
        taken[place] += 1
        return starts[place] + taken[place] - 1

    made: BarPlan | SheetPlan
    if isinstance(plan, BarPlan):
        cuts: tuple[BarCut, ...] = tuple(replace(cut, pieces=tuple(map(next_of, cut.pieces))) for cut in plan.cuts)
        made = replace(plan, pieces=tuple(pieces), cuts=cuts, unplaced=tuple(map(next_of, plan.unplaced)))
    else:
        sheets = tuple(replace(cut, places=tuple(replace(one, piece=next_of(one.piece)) for one in cut.places)) for cut in plan.cuts)
        made = replace(plan, pieces=tuple(pieces), cuts=sheets, unplaced=tuple(map(next_of, plan.unplaced)))
    wide = isinstance(plan, SheetPlan)
    item = Item("cut-list", "Sheets" if wide else "Bars", "", "", "m²" if wide else "mm", {})
    return CutPlan(item, tuple(_cut(piece, wide=wide) for piece in pieces), (), made)


def _cut(piece: Piece, *, wide: bool) -> Cut:
    width = number(piece.width, label=piece.mark) if wide else None
    return Cut(piece.mark, number(piece.length, label=piece.mark), "piece", "", width, piece.turn, piece.mitres)
