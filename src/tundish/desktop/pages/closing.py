"""Before closing: what must be settled while the wall is open?"""

from __future__ import annotations

from datetime import date
from typing import Final

from PySide6.QtWidgets import QFrame, QStackedWidget, QVBoxLayout, QWidget

from tundish import measure
from tundish.desktop import deciding, open_list, standing
from tundish.desktop.cells import Cell, Column, Group, Row
from tundish.desktop.chips import ChipRow, Choice
from tundish.desktop.decision_form import DecisionForm
from tundish.desktop.estimate_page import EstimatePage
from tundish.desktop.own_row_strip import OwnRowStrip
from tundish.desktop.reason_strip import ReasonStrip
from tundish.desktop.tables import TWO_LINES, Table, TableCard
from tundish.desktop.words import button, label
from tundish.desktop.workspace import Workspace
from tundish.estimate import Estimate
from tundish.rules.readings import shown_by
from tundish.rules.rule import Decision
from tundish.survey.settled import OwnRow, Settled

COLUMNS: Final = (
    Column("", 38),
    Column("To settle"),
    Column("Who", 128),
    Column("When", 88),
    Column("Shown by", 172),
    Column("", 90, right=True),
)
GLYPHS: Final = {"open": ("ring", "ink2"), "asked": ("half", "tbc"), "settled": ("full", "settled"), "not needed": ("dash", "ink2")}
TONES: Final = {"open": "ink", "asked": "tbc", "settled": "settled", "not needed": "ink2"}
DECISIONS: Final = "decisions"
STAGES: Final = ("By first fix", "By boarding")
MOST_NAMED: Final = 3


class ClosingPage(EstimatePage):
    """The decisions with their states, a form to settle the chosen one, and closing the wall."""

    help_sentences = (
        "Choose a row, say who settled it and how it was shown, and record it.",
        "Settling confirms every figure that hangs on it, at once and everywhere.",
        "What was settled falls open again if what it rests on changes. Ins adds a row of your own, Del takes one out.",
    )

    def __init__(self, workspace: Workspace) -> None:
        super().__init__("Before closing", "What must be settled while the wall is open?", workspace)
        self._close, self._anyway = button("Close the wall", "lock", main=True), button("Close anyway")
        self._open_up, after, add = button("Open up again", "undo"), button("After the job", "calendar"), button("Add a row", "add")
        after.clicked.connect(lambda: self.page_asked.emit("after"))
        self.add_tool(add)
        self.add_tool(after)
        for tool, does in ((self._anyway, self._ask_reason), (self._open_up, self._ask_reason), (self._close, self._close_wall)):
            tool.clicked.connect(does)
            self.add_tool(tool)
        self._wanted = ""
        self._counts, self._in_the_way = label("", "tableStrong"), label("", "table", "ink2", wrap=True)
        self.add_row(self._summary())
        self._reason = ReasonStrip()
        self._reason.given.connect(self._reason_given)
        self.add_row(self._reason)
        self.own_row = OwnRowStrip()
        self.own_row.given.connect(self._add_own)
        add.clicked.connect(self.own_row.ask)
        self.add_row(self.own_row)
        self.table = Table("Before closing", COLUMNS, row_high=TWO_LINES)
        self.table.row_chosen.connect(self._chosen)
        self.table.row_asked.connect(self._chosen)
        self.table.add_asked.connect(self.own_row.ask)
        self.table.remove_asked.connect(lambda _row: self._take_out_own())
        self.table.set_empty("Nothing to settle yet", "Add a pan or a basin, and what must be settled is listed here.", "closing")
        self.open_table = Table("What decides what", open_list.COLUMNS, row_high=TWO_LINES)
        self.open_table.row_chosen.connect(self.figure_asked)
        self.open_table.row_asked.connect(self.figure_asked)
        self.open_table.set_empty("Nothing is open that moves anything", "Every figure stands on what is settled.", "tick")
        self.views = ChipRow("What is listed")
        self.views.chosen.connect(self._show_view)
        self.add_row(self.views)
        self.form = DecisionForm()
        self.form.recorded.connect(self._record)
        self.form.taken_out.connect(self._take_out_own)
        card = TableCard(self.table)
        card.set_foot(self.form)
        self._listed = QStackedWidget()
        self._listed.addWidget(card)
        self._listed.addWidget(TableCard(self.open_table))
        self.set_body(self._listed)
        self.follow(workspace.job_changed, self.show_again)
        workspace.job_opened.connect(self._opened)
        self.begin()

    def go_to(self, key: str) -> None:
        """Choose a decision, with the keyboard in the list."""
        self._show_view(DECISIONS)
        self.table.choose(key)
        self.table.setFocus()

    def _show_view(self, view: str) -> None:
        self.views.take(view)
        self._listed.setCurrentIndex(0 if view == DECISIONS else 1)

    def _summary(self) -> QWidget:
        made = QFrame()
        made.setProperty("kind", "card")
        column = QVBoxLayout(made)
        column.setContentsMargins(13, 8, 13, 8)
        column.setSpacing(2)
        column.addWidget(self._counts)
        column.addWidget(self._in_the_way)
        return made

    def _opened(self) -> None:
        self._reason.hide()
        self.own_row.hide()
        self.form.begin()
        self.show_again()

    def show_nothing(self) -> None:
        """Say that there is nothing to settle yet."""
        self.table.set_rows(())
        self._show_open(())
        self._counts.setText("No job is open" if not self._workspace.session else "Being worked out")
        self._in_the_way.setText("")
        self._show_wall(())

    def show_estimate(self, estimate: Estimate) -> None:
        """Every decision by the stage it is needed for, and what is in the way of closing."""
        groups = []
        for stage in STAGES:
            decisions = [each for each in estimate.decisions if each.by == stage]
            if decisions:
                groups.append(self._group(stage, decisions, estimate))
        self.table.set_groups(tuple(groups))
        if self._wanted:
            self.table.choose(self._wanted)
            self.table.setFocus()
            self._wanted = ""
        self._show_open(open_list.rows(estimate))
        states = [standing.state_of(each, self._workspace.job) for each in estimate.decisions]
        counts = ((states.count(state), state) for state in ("settled", "asked", "open", "not needed"))
        self._counts.setText(", ".join(f"{count} {state}" for count, state in counts if count) or "Nothing to settle yet")
        self._show_wall(tuple(each for each, state in zip(estimate.decisions, states, strict=True) if state not in standing.CHOSEN))
        self._show_form()

    def _show_open(self, rows: tuple[Row, ...]) -> None:
        self.open_table.set_rows(rows)
        choices = (Choice(DECISIONS, "Decisions"), Choice("open", "What decides what", f"{len(rows)} open" if rows else ""))
        self.views.set_choices(choices, self.views.taken() or DECISIONS)

    def _group(self, stage: str, decisions: list[Decision], estimate: Estimate) -> Group:
        job = self._workspace.job
        settled = sum(standing.state_of(each, job) in standing.CHOSEN for each in decisions)
        day = job.terms.start if stage == STAGES[0] else job.terms.boarding
        due = f"{measure.show_date(day, with_year=False)}, " if day else ""
        rows = tuple(self._row(each, several=len(estimate.rooms) > 1) for each in decisions)
        return Group(stage, stage, rows, f"{due}{settled} of {len(decisions)} settled", folds=False)

    def _row(self, decision: Decision, *, several: bool) -> Row:
        job = self._workspace.job
        state, record = standing.state_of(decision, job), standing.record_of(decision, job)
        glyph, tone = GLYPHS[state]
        fell = deciding.fell_back(decision, job)
        proven = shown_by(decision, record) if record else ""
        return Row(
            decision.key,
            (
                Cell(glyph=glyph, glyph_tone=tone, spoken=state),
                Cell(decision.titled(several=several), strong=True, below=fell or decision.why, below_tone="fails" if fell else "ink2"),
                Cell(record.who if record and record.who else "–"),
                Cell(measure.show_date(record.when, with_year=False) if record and record.when else "–", tone="ink2"),
                Cell(proven or decision.shown_by, tone="ink" if proven else "ink2"),
                Cell(state.capitalize(), strong=True, tone=TONES[state]),
            ),
        )

    def _decision(self) -> Decision | None:
        estimate = self._workspace.estimate
        return next((each for each in estimate.decisions if each.key == self.table.chosen()), None) if estimate else None

    def _chosen(self, key: str) -> None:
        self._show_form()
        self.figure_asked.emit(f"decision:{key}")

    def _show_form(self) -> None:
        decision = self._decision()
        record = standing.record_of(decision, self._workspace.job) if decision else None
        self.form.show_decision(decision, record)

    def _record(self, record: Settled) -> None:
        decision = self._decision()
        if decision is None:
            return
        word = {"settled": "settle", "asked": "ask about", "not needed": "not needed:", "open": "open"}[record.state]
        self._workspace.edit(f"{word} {decision.title}", deciding.recorded(self._workspace.job, decision, record))

    def _add_own(self, row: OwnRow) -> None:
        if self._workspace.edit(f"add {row.what} before closing", deciding.with_own_row(self._workspace.job, row)):
            self._wanted = self._workspace.job.own_rows[-1].key

    def _take_out_own(self) -> None:
        decision = self._decision()
        if decision is not None and deciding.is_own(decision):
            self._workspace.edit(f"take out {decision.title}", deciding.without_own_row(self._workspace.job, decision))

    def _show_wall(self, in_the_way: tuple[Decision, ...]) -> None:
        job, estimate = self._workspace.job, self._workspace.estimate
        wall = deciding.wall(job)
        to_close = estimate is not None and bool(estimate.decisions) and not wall.closed
        self._close.setEnabled(to_close and not in_the_way)
        self._close.setVisible(not wall.closed)
        self._anyway.setVisible(to_close and bool(in_the_way))
        self._open_up.setVisible(wall.closed)
        names = ", ".join(each.title for each in in_the_way[:MOST_NAMED])
        more = f" and {len(in_the_way) - MOST_NAMED} more" if len(in_the_way) > MOST_NAMED else ""
        stands = _closed_words(wall) if wall.closed else _opened_words(wall) if wall.reason else ""
        if in_the_way:
            stands = f"{stands} {'Still open' if wall.closed else 'In the way of closing'}: {names}{more}."
        elif to_close:
            stands = f"{stands} All settled: the wall can be closed."
        self._in_the_way.setText(stands.strip())

    def _close_wall(self) -> None:
        self._put_wall(closed=True, reason="")

    def _ask_reason(self) -> None:
        closed = deciding.wall(self._workspace.job).closed
        self._reason.ask("Why open up again?" if closed else "Why close with things open?", "Open up" if closed else "Close the wall")

    def _reason_given(self, reason: str) -> None:
        self._put_wall(closed=not deciding.wall(self._workspace.job).closed, reason=reason)

    def _put_wall(self, *, closed: bool, reason: str) -> None:
        job = self._workspace.job
        wall = deciding.Wall(closed, self._workspace.book.trader.name, date.today().isoformat(), reason)
        self._workspace.edit("close the wall" if closed else "open up again", deciding.with_wall(job, wall))
        if closed:
            self._workspace.said.emit("The wall is closed: Ctrl+P prints the closing sheet.")


def _closed_words(wall: deciding.Wall) -> str:
    words = f"Closed {measure.show_date(wall.when)}" + (f" by {wall.who}" if wall.who else "")
    how = f"{words}. {_sentence(wall.reason)}" if wall.reason else f"{words}, everything settled."
    return f"{how} Setting out is locked."


def _opened_words(wall: deciding.Wall) -> str:
    return f"Opened up again {measure.show_date(wall.when)}: {_sentence(wall.reason)}"


def _sentence(words: str) -> str:
    return words if words.endswith((".", "!", "?")) else f"{words}."
