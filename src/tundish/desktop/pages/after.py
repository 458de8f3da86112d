"""After the job: what did it really take, and what do finished jobs say of the norms?"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from functools import partial
from typing import Final

from PySide6.QtWidgets import QStackedWidget, QWidget

from tundish.catalogue.crew import DOES
from tundish.desktop import took_rows
from tundish.desktop.chips import ChipRow, Choice
from tundish.desktop.estimate_page import EstimatePage
from tundish.desktop.suggested_norms import SuggestedNorms
from tundish.desktop.tables import TWO_LINES, Table, TableCard
from tundish.desktop.took_form import AmountForm, HoursForm
from tundish.desktop.words import button, label
from tundish.desktop.workspace import Workspace
from tundish.estimate import Estimate
from tundish.figure import Figure
from tundish.pricing import took
from tundish.pricing.took import After, Beside, TookHours, TookLine

HOURS, AMOUNTS, NORMS = "hours", "amounts", "norms"
HELPS: Final = DOES[-1]
VIEWS: Final = ((HOURS, "Hours"), (AMOUNTS, "Amounts"), (NORMS, "What finished jobs say of my norms"))


class AfterPage(EstimatePage):
    """Hours by stage and person and amounts by line, as they really were, beside the estimate; then the norms that jobs suggest."""

    help_sentences = (
        "Choose a stage, say who worked on it and for how long, and record it. What is not said is not nothing: leave it blank.",
        "Finished keeps what was estimated beside it, and lets the job speak of your norms.",
        "Three finished jobs or more suggest norms. They change only when you take them over, and can be put back.",
    )

    def __init__(self, workspace: Workspace) -> None:
        super().__init__("After the job", "What did it really take?", workspace)
        self._finish, self._open_up = button("Finished", "tick", main=True), button("Not finished after all", "undo")
        self._finish.clicked.connect(self._finished)
        self._open_up.clicked.connect(self._not_finished)
        self.add_tool(self._open_up)
        self.add_tool(self._finish)
        self._said = label("", "table", wrap=True)
        self.add_row(self._said)
        self.views = ChipRow("What to show")
        self.views.chosen.connect(self._show_view)
        self.add_row(self.views)
        self.stages = Table("Hours by stage", took_rows.STAGES, row_high=TWO_LINES)
        self.lines = Table("Amounts by line", took_rows.LINES)
        self.stages.set_empty("No hours are estimated", "Put in what is to be fitted, and its stages are listed here.", "calendar")
        self.lines.set_empty("Nothing is on the list", "Put in what is to be fitted, and its lines are listed here.", "materials")
        self.hours, self.amount = HoursForm(), AmountForm()
        self.hours.recorded.connect(self._hours_said)
        self.hours.taken_out.connect(self._hours_out)
        self.hours.who.taken.connect(lambda _words: self._show_forms())
        self.amount.recorded.connect(self._amount_said)
        self.norms = SuggestedNorms(workspace)
        self.norms.figure_asked.connect(self.figure_asked)
        self._listed = QStackedWidget()
        for table, form in ((self.stages, self.hours), (self.lines, self.amount)):
            self._listed.addWidget(self._card(table, form))
        self._listed.addWidget(self.norms)
        self.set_body(self._listed)
        workspace.told["took"] = self._figure
        self.follow(workspace.job_changed, self.show_again)
        self._show_view(HOURS)
        self.begin()

    def go_to(self, path: str) -> None:
        """Choose the stage or the line that an input of this page is of."""
        _, listed, place, *_ = (*path.split("."), "0", "0")
        rows = getattr(self._after, listed, ())
        row = rows[int(place)] if int(place) < len(rows) else None
        if isinstance(row, TookHours):
            self._go(HOURS, self.stages, f"took:{row.stage}")
        elif isinstance(row, TookLine):
            self._go(AMOUNTS, self.lines, f"took:{row.item}")

    def show_nothing(self) -> None:
        """Say that there is nothing to compare with yet."""
        self.stages.set_rows(())
        self.lines.set_rows(())
        self._finish.setVisible(False)
        self._open_up.setVisible(False)
        self._said.setText("Being worked out" if self._workspace.session else "No job is open.")
        self._show_forms()

    def show_estimate(self, estimate: Estimate) -> None:
        """What was estimated beside what it took."""
        after = self._after
        stages, lines = took.stages_beside(after, estimate.price.stages), took.lines_beside(after, estimate.lines)
        self.stages.set_groups(took_rows.stage_rows(stages))
        self.lines.set_groups(took_rows.line_rows(lines))
        self._finish.setVisible(not after.finished)
        self._open_up.setVisible(bool(after.finished))
        self._said.setText(took_rows.said(after, stages, demo=bool(estimate.job.demo)))
        self._show_forms()

    @property
    def _after(self) -> After:
        return self._workspace.job.after

    def _card(self, table: Table, form: QWidget) -> TableCard:
        table.row_chosen.connect(self._chosen)
        card = TableCard(table)
        card.set_foot(form)
        return card

    def _chosen(self, key: str) -> None:
        self._show_forms()
        self.figure_asked.emit(key)

    def _go(self, view: str, table: Table, row: str) -> None:
        self._show_view(view)
        table.choose(row)
        table.setFocus()

    def _show_view(self, view: str) -> None:
        self.views.set_choices(tuple(Choice(key, words) for key, words in VIEWS), view)
        self._listed.setCurrentIndex([key for key, _ in VIEWS].index(view))
        if view == NORMS:
            self.norms.look_again()

    def _beside(self, key: str) -> Beside | None:
        """What a row is of, by its stage or item."""
        estimate = self._workspace.estimate
        if estimate is None:
            return None
        found = (*took.stages_beside(self._after, estimate.price.stages), *took.lines_beside(self._after, estimate.lines))
        return next((each for each in found if each.key == key), None)

    def _figure(self, key: str) -> Figure | None:
        beside = self._beside(key)
        return (beside.more or beside.estimated) if beside else None

    def _show_forms(self) -> None:
        stage, line = (self._beside(table.chosen().removeprefix("took:")) for table in (self.stages, self.lines))
        usual = next((each.who for each in reversed(self._after.hours)), self._workspace.book.trader.name)
        people = self._workspace.job.terms.people or self._workspace.book.crew.people
        helpers = frozenset(each.name.casefold() for each in people if stage and each.does(stage.key) == HELPS)
        self.hours.show_stage(*((stage.key, stage.name, stage.rows) if stage else ("", "", ())), usual, helpers)
        self.amount.show_line(self._line_row(line))

    def _line_row(self, line: Beside | None) -> TookLine:
        if line is None:
            return TookLine()
        kept = next((each for each in self._after.lines if each.item == line.key), None)
        return kept or TookLine(item=line.key, what=line.name, unit=line.estimated.unit, estimated=took_rows.entry_of(line.estimated))

    def _edit(self, words: str, change: Callable[[After], After]) -> None:
        self._workspace.edit(words, replace(self._workspace.job, after=change(self._after)), "after")

    def _hours_said(self, row: TookHours) -> None:
        self._edit(f"say the hours of {row.stage}", partial(took.with_hours, row=row))

    def _hours_out(self, row: TookHours) -> None:
        self._edit(f"take out hours of {row.stage}", partial(took.without_hours, row=row))

    def _amount_said(self, row: TookLine) -> None:
        self._edit(f"say how much it took of {row.what}", partial(took.with_amount, row=row))

    def _finished(self) -> None:
        estimate, job = self._workspace.estimate, self._workspace.job
        if estimate is None or replace(estimate.job, after=job.after) != job:
            self._said.setText("The estimate is being worked out: press again when it is there.")
        else:
            figures, day = estimate.book.figures, date.today().isoformat()
            self._edit("finished", lambda after: took.finished(after, estimate.price.stages, estimate.lines, figures, day))

    def _not_finished(self) -> None:
        self._edit("not finished after all", took.not_finished)
