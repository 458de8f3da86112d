"""The norms that finished jobs suggest, stage by stage, taken over when the trader says so and put back again."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from tundish import measure
from tundish.desktop.cells import Cell, Column, Row
from tundish.desktop.tables import TWO_LINES, Table, TableCard
from tundish.desktop.weighing import Weighing
from tundish.desktop.words import button, label
from tundish.desktop.workspace import Workspace
from tundish.figure import Figure
from tundish.pricing.norms import norms_of
from tundish.pricing.suggested import LEAST_JOBS, Suggested, norms_taken, suggested

if TYPE_CHECKING:
    from collections.abc import Mapping

    from tundish.catalogue.book import Book
    from tundish.store.norms import Taken

COLUMNS: Final = (
    Column("Stage"),
    Column("Jobs", 70, right=True),
    Column("Times the norms", 160, right=True),
    Column("Suggested", 110, right=True),
    Column("Your norms", 210),
)


class SuggestedNorms(TableCard):
    """A row for each stage; what is suggested is weighed on the open job before it is taken over, and before it is put back."""

    figure_asked = Signal(str)

    def __init__(self, workspace: Workspace) -> None:
        self.table = Table("What finished jobs say", COLUMNS, row_high=TWO_LINES)
        super().__init__(self.table)
        self._workspace = workspace
        self._found: tuple[Suggested, ...] = ()
        self._taken: tuple[Taken, ...] = ()
        self.table.row_chosen.connect(self._chosen)
        self._words = label("", "table", wrap=True)
        self.take, self.back = button("Take over", "tick", main=True), button("Put back", "undo")
        self.take.clicked.connect(self._weigh)
        self.back.clicked.connect(self._weigh_back)
        self.weighing = Weighing(workspace)
        foot = QWidget()
        column, row = QVBoxLayout(foot), QHBoxLayout()
        column.setContentsMargins(12, 4, 12, 4)
        row.addWidget(self._words, 1)
        row.addWidget(self.take)
        row.addWidget(self.back)
        column.addLayout(row)
        column.addWidget(self.weighing)
        self.set_foot(foot)
        workspace.told["norm"] = self._figure
        self._show_foot()

    def look_again(self) -> None:
        """Read the finished jobs and what was taken over from them, and show what they say."""
        from tundish.store.norms import finished_jobs, taken

        store = self._workspace.store
        jobs, self._taken = finished_jobs(store), taken(store)
        self._found = suggested(jobs, self._workspace.book.figures)
        self.table.set_rows(tuple(self._row(each) for each in self._found))
        self._show_foot()

    def _row(self, one: Suggested) -> Row:
        few = f"{LEAST_JOBS - len(one.ratios)} more needed" if one.factor is None else ""
        ends = [f"× {measure.show_number(each.value, 2)}" for each in (one.ratios[:1] + one.ratios[-1:])]
        reach = " to ".join(dict.fromkeys(ends)) or measure.BLANK
        factor = one.factor
        middle = measure.BLANK if factor is None else f"× {measure.show_number(factor.value, 2)}" if one.worth else "as they are"
        figures = norms_of(one.stage, self._workspace.book.figures)
        changed, _, jobs = "; ".join(dict.fromkeys(each.changed_words for each in figures if each.changed)).partition(", ")
        return Row(
            f"norm:{one.stage}",
            (
                Cell(one.name, strong=True, below=few, below_tone="ink2"),
                Cell(str(len(one.ratios))),
                Cell(reach),
                Cell(middle, strong=one.worth, tone="chalk" if one.worth else "ink2"),
                Cell(changed[:1].upper() + changed[1:], below=jobs) if changed else Cell("As supplied", tone="ink2"),
            ),
        )

    def _figure(self, stage: str) -> Figure | None:
        return next((each.factor for each in self._found if each.stage == stage), None)

    def _one(self) -> Suggested | None:
        return next((each for each in self._found if f"norm:{each.stage}" == self.table.chosen()), None)

    def _chosen(self, key: str) -> None:
        self.weighing.leave()
        self._show_foot()
        self.figure_asked.emit(key)

    def _show_foot(self) -> None:
        one = self._one()
        norms = norms_taken(one, self._workspace.book.figures) if one else {}
        self.take.setEnabled(bool(norms))
        self.back.setEnabled(one is not None and any(each.stage == one.stage for each in self._taken))
        figures = self._workspace.book.figures
        changes = (f"{figures[key].label} {_short(figures[key].value)} → {_short(value)}" for key, value in norms.items())
        self._words.setText("; ".join(changes) or "Choose a stage that something is suggested for")

    def _weigh(self) -> None:
        one, figures = self._one(), self._workspace.book.figures
        norms = norms_taken(one, figures) if one else {}
        if one is None or not norms:
            return
        shown = {key: figures[key].value for key in norms}
        self.weighing.weigh(self._book_with(norms), lambda: self._keep(one, norms, shown))

    def _book_with(self, norms: Mapping[str, float]) -> Book:
        book = self._workspace.book
        return replace(book, figures={**book.figures, **{key: replace(book.figures[key], value=value) for key, value in norms.items()}})

    def _keep(self, one: Suggested, norms: dict[str, float], shown: dict[str, float]) -> None:
        from tundish.store.norms import Taken, take_over

        if one.factor is None:
            return
        new = Taken(one.stage, one.factor.value, len(one.ratios), date.today().isoformat())
        if take_over(self._workspace.store, new, norms, shown):
            words = f"{one.name}: norms taken over from {new.jobs} jobs, × {measure.show_number(new.factor, 2)}"
        else:
            words = f"{one.name}: the norms were changed meanwhile, so nothing was taken over. Look again"
        self._changed(words)

    def _weigh_back(self) -> None:
        from tundish.store.norms import before_taking

        one = self._one()
        if one is not None:
            self.weighing.weigh(self._book_with(before_taking(self._workspace.store, one.stage)), lambda: self._put_back(one))

    def _put_back(self, one: Suggested) -> None:
        from tundish.store.norms import put_back

        count = put_back(self._workspace.store, one.stage)
        self._changed(f"{one.name}: {count} norms are as they were before")

    def _changed(self, words: str) -> None:
        self._workspace.book_has_changed()
        self._workspace.said.emit(f"{words}.")
        self.look_again()


def _short(value: float) -> str:
    return measure.show_number(value, None)
