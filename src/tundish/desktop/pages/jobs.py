"""Jobs: where do I pick up?"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime
from pathlib import Path
from typing import Final

from PySide6.QtWidgets import QFileDialog

from tundish import measure
from tundish.asked import as_new
from tundish.desktop.cells import Cell, Column, Row
from tundish.desktop.chips import ChipRow, Choice
from tundish.desktop.page import Page
from tundish.desktop.tables import Table, TableCard
from tundish.desktop.words import button, label
from tundish.desktop.workspace import Workspace
from tundish.documents import bill_list
from tundish.documents.block import Document
from tundish.errors import TundishError
from tundish.estimate import Job
from tundish.field import Problem
from tundish.layout.design import RoomPlan
from tundish.pricing.terms import Terms
from tundish.store.bills import bills_of
from tundish.store.codec import ENDING, MOST_BYTES, Opened, write_job
from tundish.store.photographs import named_in
from tundish.writers.index import FORMATS
from tundish.writers.pictures import none_kept
from tundish.writers.safe import file_name, write_whole

COLUMNS: Final = (Column("Client"), Column("Job", 260), Column("Number", 80), Column("Got to", 130), Column("Last touched", 190))
FILES: Final = "Job files (*.tundish)"
BILL_FILES: Final = "Spreadsheet (*.xlsx);;Table as text (*.csv);;PDF (*.pdf)"
PAGE_WORDS: Final = {
    "": "not opened yet",
    "setting_out": "Setting out",
    "closing": "Before closing",
    "rates": "Rates and rules",
    "after": "After the job",
}
MOST_SAID: Final = 6
AT_HAND, PUT_AWAY = "at hand", "put away"
FOLDER: Final = "job folder"
"""The setting that keeps the folder jobs were last saved in."""


class JobsPage(Page):
    """The list of jobs; Enter opens the chosen one where it was left."""

    help_sentences = (
        "Enter opens the chosen job where you left it.",
        "The demonstration jobs are there to try things on: change the top of a pan, press F9, settle a floor.",
        "Ctrl+N starts a survey of your own.",
    )

    def __init__(self, workspace: Workspace) -> None:
        super().__init__("Jobs", "Where do I pick up?")
        self._workspace = workspace
        self._away: bool = False
        self._open_id = 0
        self._add_tools()
        self.table = Table("Jobs", COLUMNS, row_high=44)
        self.table.row_opened.connect(self._open_row)
        self.table.set_empty("Your own jobs will be listed here", "Start a survey, or open a job file.", "survey")
        card = TableCard(self.table)
        self._trouble = label("", "table", "fails", wrap=True)
        self._trouble.setContentsMargins(12, 6, 12, 6)
        self._trouble.hide()
        card.set_foot(self._trouble)
        self.set_body(card)
        for signal in (workspace.jobs_changed, workspace.job_opened, workspace.saved):
            self.follow(signal, self._show)
        self._show()

    def _add_tools(self) -> None:
        start = button("Start a survey", "add", main=True)
        start.setShortcut("Ctrl+N")
        start.clicked.connect(self._start)
        open_file = button("Open from a file", "survey")
        open_file.clicked.connect(self._open_file)
        self._copy, self._put = button("Copy"), button("Put away")
        self._copy.clicked.connect(self._copy_job)
        self._put.clicked.connect(self._put_away)
        self._save = button("Save to a file", "paper")
        self._save.clicked.connect(self._save_file)
        self._shown = ChipRow("Which jobs are listed")
        self._shown.set_choices((Choice(AT_HAND, "At hand"), Choice(PUT_AWAY, "Put away")), AT_HAND)
        self._shown.chosen.connect(self._show_away)
        self.add_row(self._shown)
        bills = button("Bills")
        bills.setToolTip("Every invoice and credit note of all jobs, for the accountant")
        bills.clicked.connect(self._save_bills)
        for tool in (bills, self._put, self._copy, self._save, open_file, start):
            self.add_tool(tool)

    def _show(self) -> None:
        rows = [row for row in self._workspace.store.jobs() if row.put_away == self._away]
        open_id = self._workspace.job_id
        self.table.set_rows(
            tuple(
                Row(
                    str(row.id),
                    (
                        Cell(
                            row.client or "No name yet",
                            strong=True,
                            glyph="tick" if row.id == open_id else "",
                            spoken=f"{row.client}, open" if row.id == open_id else "",
                        ),
                        Cell(row.title or "–"),
                        Cell(row.number or "–"),
                        Cell(PAGE_WORDS.get(row.place, row.place.capitalize()), tone="ink2"),
                        Cell(f"{measure.show_date(row.touched[:10])} {row.touched[11:16]}", tone="ink2"),
                    ),
                )
                for row in rows
            )
        )
        if open_id and open_id != self._open_id:
            self.table.choose(str(open_id))
        self._open_id = open_id
        if not self.table.chosen() and rows:
            self.table.choose(str(rows[0].id))
        self._put.setText("Take out again" if self._away else "Put away")

    def _open_row(self, row: str) -> None:
        job_id = int(row)
        place = next((each.place for each in self._workspace.store.jobs() if each.id == job_id), "")
        if self._say(self._workspace.open(job_id)):
            self.page_asked.emit(place if place and place != "jobs" else "survey")

    def _start(self) -> None:
        terms = Terms(vat_rounding=self._workspace.book.trader.vat_rounding)
        job = Job(number=self._workspace.store.next_job_number(), title="New job", rooms=(RoomPlan(),), terms=terms)
        self._workspace.take_in(job)
        self.page_asked.emit("survey")

    def _open_file(self) -> None:
        name, _ = QFileDialog.getOpenFileName(self, "Open a job file", "", FILES)
        if not name:
            return
        if self._say(self._workspace.open_file(Path(name))):
            self.page_asked.emit("survey")

    def _open_chosen(self) -> Opened | None:
        """The chosen job out of the store; what stops it is said."""
        if not self.table.chosen():
            return None
        opened, _ = self._workspace.store.open(int(self.table.chosen()))
        if opened.job is None:
            self._say(opened.problems)
        return opened

    def _save_file(self) -> None:
        """Write the chosen job, with its photographs, to a file that any Tundish opens."""
        opened = self._open_chosen()
        if opened is None or opened.job is None:
            return
        job, pictures = opened.job, opened.pictures
        folder = Path(self._workspace.store.setting(FOLDER) or Path.home())
        name = file_name(f"{job.number} {job.client.name}".strip() or job.title)
        chosen, _ = QFileDialog.getSaveFileName(self, "Save the job to a file", str(folder / f"{name}{ENDING}"), FILES)
        if not chosen:
            return
        path = Path(chosen) if Path(chosen).suffix == ENDING else Path(f"{chosen}{ENDING}")
        self._workspace.store.keep_setting(FOLDER, str(path.parent))
        said = self._workspace.said.emit
        self._workspace.aside.ask(lambda: _written(job, pictures, path), said, said)

    def _save_bills(self) -> None:
        """Write every bill of all jobs to a spreadsheet, a table or a PDF."""
        workspace, today = self._workspace, date.today().isoformat()
        folder = Path(workspace.store.setting(FOLDER) or Path.home())
        chosen, _ = QFileDialog.getSaveFileName(self, "Save the bills of all jobs", str(folder / f"Bills {today}.xlsx"), BILL_FILES)
        if not chosen:
            return
        path, trader = Path(chosen), workspace.book.trader
        said = workspace.said.emit
        workspace.aside.ask(lambda: _bills_written(bill_list.build(trader, *bills_of(workspace.store), today), path), said, said)

    def _copy_job(self) -> None:
        """A job of its own that asks for the same as the chosen one."""
        opened = self._open_chosen()
        if opened is None or opened.job is None:
            return
        copy = as_new(opened.job, self._workspace.store.next_job_number())
        self._workspace.take_in(copy, opened.pictures)
        self._workspace.said.emit(f"Copied as job {copy.number}: what is asked, not what was issued, billed, agreed, cut or settled")

    def _put_away(self) -> None:
        if self.table.chosen():
            self._workspace.store.put_away(int(self.table.chosen()), away=not self._away)
            self._show()

    def _show_away(self, which: str) -> None:
        self._away = which == PUT_AWAY
        self._show()

    def _say(self, problems: tuple[Problem, ...]) -> bool:
        """Say what is wrong with a job, all of it; true when nothing is."""
        words = [f"{each.path}: {each.text}" if each.path else each.text for each in problems[:MOST_SAID]]
        if len(problems) > MOST_SAID:
            words.append(f"and {len(problems) - MOST_SAID} more")
        self._trouble.setText("It will not open. " + "; ".join(words) if words else "")
        self._trouble.setVisible(bool(words))
        return not words


def _bills_written(bills: Document, path: Path) -> str:
    """Write the list in the format of the file's ending; gives what to say."""
    name = path.suffix.lower().removeprefix(".")
    path = path if name in {"xlsx", "csv", "pdf"} else path.with_name(f"{path.name}.xlsx")
    FORMATS[path.suffix.lower().removeprefix(".")].write(bills, path, datetime.now().strftime("%Y-%m-%d %H:%M"), none_kept)
    return f"Saved: {path.name}, in {path.parent}"


def _written(job: Job, pictures: Mapping[str, bytes], path: Path) -> str:
    """Write a job file whole, or not at all with the reason; gives what to say."""
    body = write_job(job, pictures)
    if len(body) > MOST_BYTES:
        words = f"With its photographs the file would be {len(body) / 1e6:,.0f} MB"
        raise TundishError(f"{words}, more than can be opened again ({MOST_BYTES / 1e6:,.0f} MB): take some out. Nothing was written.")
    write_whole(path, body)
    count = sum(key in pictures for key in named_in(job))
    inside = f", with {count} photograph{'s' if count > 1 else ''}" if count else ""
    return f"Saved: {path.name}, in {path.parent}{inside}"
