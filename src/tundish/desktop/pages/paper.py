"""Paper: what do I print or send?"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Final

from PySide6.QtGui import QPixmap, QShowEvent
from PySide6.QtWidgets import QApplication, QFileDialog, QFrame, QHBoxLayout, QVBoxLayout, QWidget

from tundish import issuing
from tundish.desktop.cells import Cell, Column, Row
from tundish.desktop.inputs import InputForm
from tundish.desktop.mail import Letter, Mailing
from tundish.desktop.order_state import placed_of
from tundish.desktop.page import Page
from tundish.desktop.pdf_pages import Picture, bytes_of, notice_of, picture, pictures_of
from tundish.desktop.preview import Preview
from tundish.desktop.tables import TWO_LINES, Table, TableCard
from tundish.desktop.words import PushButton, button, label
from tundish.desktop.workspace import Workspace
from tundish.estimate import Estimate
from tundish.issuing import Made
from tundish.store.numbers import QUOTE, NumberTakenError
from tundish.writers.index import FORMATS, path_of
from tundish.writers.pictures import Pictures
from tundish.writers.safe import write_whole

FOLDER: Final = "paper folder"
"""The setting that keeps the folder papers were last saved in."""
CLIENTS: Final = frozenset({"quote", "terms", "heights", "hand-over"})
"""The papers that go to the client."""
WHY_HIGH: Final = 66
FILES: Final = {"pdf": "PDF (*.pdf);;Web page (*.html)", "xlsx": "Spreadsheet (*.xlsx);;Table as text (*.csv)", "dxf": "Drawing (*.dxf)"}
CALENDAR: Final = ";;Calendar (*.ics)"
BY_ENDING: Final = {f".{each.ending}": name for name, each in FORMATS.items()}


class PaperPage(Page):
    """The papers with their states, the chosen one as it will be printed, and what can be done with it."""

    help_sentences = (
        "What you see is the PDF itself, page by page: Page Up and Page Down turn them.",
        "A paper that was issued and says something else now is marked as changed since; the next issue has the next letter.",
        "Save PDF also saves a web page to send, and the programme as a calendar: choose the kind of file there.",
        "A quote that takes the place of another says why, in your words, and what changed line by line.",
        "Send saves the PDF and opens your own mail program with it; nothing is sent until you send it there.",
        "Your cost, mark-up and hours are never on the client's papers.",
    )

    def __init__(self, workspace: Workspace) -> None:
        super().__init__("Paper", "What do I print or send?")
        self._workspace = workspace
        self._made: tuple[Made, ...] = ()
        self._stale = True
        self._waiting: Callable[[], None] | None = None
        self._turn = self._place = self._count = 0
        self._pdf = b""
        self._acts = self._make_tools()
        self.table = Table("Papers", (Column("Paper"),), row_high=TWO_LINES)
        self.table.row_chosen.connect(self._chosen)
        self.table.set_empty("No papers yet", "Add a pan or a basin first.", "paper")
        self.preview = Preview()
        self.preview.wanted.connect(self._draw)
        self.preview.turned.connect(self._turn_page)
        self._why = InputForm("Why the quote changes", workspace)
        self._why.input("why_revised", lines=2)
        self._why.setFixedHeight(WHY_HIGH)
        self._where = label("", "table", "ink2")
        self.lacks = label("", "note", "tbc", wrap=True)
        self._back, self._on = button("Page back"), button("Page on")
        self._true = button("True size", "measure")
        self.set_body(self._halves())
        workspace.estimate_ready.connect(self._changed)
        workspace.job_opened.connect(self._forget)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        if self._stale:
            self._make()
        elif self.table.chosen() != self._workspace.paper:
            self._choose_wanted()

    def _make_tools(self) -> dict[str, PushButton]:
        made = {
            "text": button("Copy text"),
            "dxf": button("Save DXF"),
            "xlsx": button("Save table"),
            "pdf": button("Save PDF", "paper"),
            "send": button("Send", "arrr"),
            "print": button("Print", "print", main=True),
        }
        made["xlsx"].setToolTip("As a spreadsheet (XLSX), or as CSV")
        acts = (self._copy, self._save_dxf, self._save_sheet, self._save_pdf, self._send, self._print)
        for key, does in zip(made, acts, strict=True):
            made[key].clicked.connect(partial(self._press, does))
            made[key].setEnabled(False)
            self.add_tool(made[key])
        return made

    def _halves(self) -> QWidget:
        made, side = QWidget(), QFrame()
        side.setProperty("kind", "card")
        self._back.clicked.connect(self._page_back)
        self._on.clicked.connect(self._page_on)
        self._true.setCheckable(True)
        self._true.toggled.connect(self._true_size)
        turn = QHBoxLayout()
        turn.setContentsMargins(12, 6, 8, 6)
        turn.setSpacing(6)
        turn.addWidget(self._where)
        turn.addStretch(1)
        for tool in (self._back, self._on, self._true):
            turn.addWidget(tool)
        inside = QVBoxLayout(side)
        inside.setContentsMargins(1, 1, 1, 1)
        inside.setSpacing(0)
        inside.addWidget(self._why)
        inside.addLayout(turn)
        self.lacks.setContentsMargins(12, 0, 8, 6)
        inside.addWidget(self.lacks)
        inside.addWidget(self.preview, 1)
        row = QHBoxLayout(made)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(8)
        row.addWidget(TableCard(self.table), 4)
        row.addWidget(side, 7)
        return made

    def _forget(self) -> None:
        self._made, self._stale, self._waiting = (), True, None
        self.table.set_rows(())

    def _changed(self, _estimate: Estimate) -> None:
        self._stale = True
        if self.isVisible():
            self._make()

    def _make(self) -> None:
        estimate = self._workspace.estimate
        if estimate is None:
            self.preview.show_words("Open a job, and its papers are here." if not self._workspace.session else "The papers are being made.")
            return
        self._stale = False
        issued = self._workspace.store.issued(self._workspace.job_id)
        placed = placed_of(self._workspace, estimate)
        of = self._workspace.job_id

        def take(made: tuple[Made, ...]) -> None:
            if of == self._workspace.job_id:
                self._made = made
                self._show_states()
                self._choose_wanted()

        self._workspace.aside.ask(lambda: issuing.make(estimate, issued, placed), take, self._say)

    def _show_states(self) -> None:
        estimate = self._workspace.estimate
        if estimate is None:
            return
        issued = self._workspace.store.issued(self._workspace.job_id)
        rows = []
        for each in self._made:
            state = issuing.state_of(each, estimate, issued)
            own = each.document.number != estimate.job.number and each.document.number not in each.document.title
            words = f"{each.document.title} {each.document.number}" if own else each.document.title
            cell = Cell(words, strong=True, below=state.words, below_tone=state.tone, glyph=state.glyph, glyph_tone=state.tone)
            rows.append(Row(each.document.key, (cell,)))
        self.table.set_rows(tuple(rows))

    def _choose_wanted(self) -> None:
        keys = [each.document.key for each in self._made]
        wanted = self._workspace.paper
        key = next(
            (each for each in keys if each == wanted or (wanted == "orders" and each.startswith(issuing.ORDERS))), keys[0] if keys else ""
        )
        if self.table.chosen() != key:
            self.table.choose(key)
        else:
            self._show_paper(from_top=False)

    def _chosen(self, key: str) -> None:
        self._workspace.paper = key
        self._place, self._waiting = 0, None
        self._show_paper(from_top=True)

    def _paper(self) -> Made | None:
        return next((each for each in self._made if each.document.key == self._workspace.paper), None)

    def _show_paper(self, *, from_top: bool) -> None:
        made = self._paper()
        for key, tool in self._acts.items():
            suits = made is not None and {"xlsx": made.document.tables_only, "dxf": made.document.drawn}.get(key, True)
            tool.setEnabled(suits)
        self._why.setVisible(made is not None and issuing.asks_why(made))
        if made is None:
            self.preview.show_words("There is no such paper in this job.")
            return
        self._turn += 1
        turn, document, printed, pictures = self._turn, made.document, issuing.printed_now(), self._pictures()
        # Until this paper is made there is none to draw: a resize meanwhile would show the one before it under this one's name.
        self._pdf = b""

        def take(done: tuple[bytes, str]) -> None:
            if turn == self._turn:
                self._pdf, lacking = done
                self.lacks.setText(lacking)
                self.lacks.setVisible(bool(lacking))
                self._draw(from_top=from_top)
                self._do_waiting()

        self._workspace.aside.ask(lambda: (bytes_of(document, printed, pictures), notice_of(document)), take, self._say)

    def _draw(self, *, from_top: bool = False) -> None:
        if not self._pdf:
            return
        self._turn += 1
        turn, body, place, wide = self._turn, self._pdf, self._place, self.preview.pixels_wide()

        def take(page: Picture) -> None:
            if turn == self._turn:
                self._show_page(page, from_top=from_top)

        self._workspace.aside.ask(lambda: picture(body, place, wide), take, self._say)

    def _show_page(self, page: Picture, *, from_top: bool) -> None:
        made = self._paper()
        self._place, self._count = page.place, page.pages
        words = f"Page {page.place + 1} of {page.pages}"
        self._where.setText(words)
        self._back.setEnabled(page.place > 0)
        self._on.setEnabled(page.place + 1 < page.pages)
        title = made.document.title if made else ""
        self.preview.show_picture(QPixmap.fromImage(page.image), f"{title}, {words.lower()}", from_top=from_top)

    def _turn_page(self, by: int) -> None:
        wanted = max(0, min(self._place + by, self._count - 1))
        if wanted != self._place:
            self._place = wanted
            self._draw(from_top=True)

    def _page_back(self) -> None:
        self._turn_page(-1)

    def _page_on(self) -> None:
        self._turn_page(1)

    def _true_size(self, on: bool) -> None:
        self.preview.true_size = on
        self._draw()

    def _press(self, does: Callable[[], None], *_: bool) -> None:
        """Do it now, or as soon as the quote is made anew with the reason that was just typed."""
        made, why = self._paper(), self._workspace.job.why_revised.strip()
        if made is not None and issuing.asks_why(made) and why != made.why:
            self._waiting = does
        else:
            does()

    def _do_waiting(self) -> None:
        does, self._waiting = self._waiting, None
        if does is not None:
            self._press(does)

    def _copy(self) -> None:
        made = self._paper()
        if made is not None:
            QApplication.clipboard().setText(made.text)
            self._say(f"Copied: {made.document.name}")

    def _save_pdf(self) -> None:
        self._save("pdf")

    def _save_dxf(self) -> None:
        self._save("dxf")

    def _save_sheet(self) -> None:
        self._save("xlsx")

    def _send(self) -> None:
        self._save("pdf", self._mail)

    def _save(self, name: str, then: Callable[[Made, Path], None] | None = None) -> None:
        made = self._paper()
        if made is None or not self._may_issue(made):
            return
        folder = Path(self._workspace.store.setting(FOLDER) or Path.home())
        kinds = FILES[name] + (CALENDAR if name == "pdf" and made.document.events and then is None else "")
        chosen, kind = QFileDialog.getSaveFileName(self, f"Save {made.document.title}", str(path_of(made.document, folder, name)), kinds)
        if not chosen:
            return
        path, printed, pictures = _of_kind(Path(chosen), kind, name), issuing.printed_now(), self._pictures()
        if str(path) != chosen and path.exists():
            self._say(f"{path.name} is there already, nothing is saved: type its name to write over it")
            return
        self._workspace.store.keep_setting(FOLDER, str(path.parent))
        name = BY_ENDING.get(path.suffix.lower(), name)
        issue = self._issuing(made, name)

        def saved(body: bytes) -> None:
            issue(body)
            self._say(f"Saved: {path.name}, in {path.parent}")
            if then is not None:
                then(made, path)

        self._workspace.aside.ask(lambda: _written(made, path, (name, printed), pictures), saved, self._say)

    def _mail(self, made: Made, path: Path) -> None:
        """Hand a saved paper to the mail program; those that are the client's are addressed to the client."""
        document, client = made.document, self._workspace.job.client
        to = client.email if document.key in CLIENTS else ""
        mailing = Mailing(Letter(to, document.name, f"Attached: {path.name}\n\n{document.sender}", path), self)
        mailing.told.connect(self._say)
        mailing.start()

    def _issuing(self, made: Made, name: str) -> Callable[[bytes], None]:
        """Keeps the paper as it was issued, so that later changes to it are seen; with the job open now, whichever is by then."""
        job_id, revision = self._workspace.job_id, self._workspace.revision

        def issue(body: bytes) -> None:
            document = made.document
            self._workspace.issue(job_id, issuing.as_paper(made, name, revision, body), document.number)
            if made.why and job_id == self._workspace.job_id:
                told = replace(self._workspace.job, why_revised="")
                self._workspace.edit(f"issue {document.title.lower()} {document.number}", told, "why_revised")
            self._show_states()

        return issue

    def _may_issue(self, made: Made) -> bool:
        """Whether a paper may go out: of the job and not of an option of it; a quote that takes the place of another says why."""
        if self._workspace.held_up and not made.document.key.startswith(issuing.NUMBERED):
            self._say(self._workspace.held_up)
            return False
        number, job_id = made.document.number, self._workspace.job_id
        if made.document.key == QUOTE and any(
            each.number == number and each.job != job_id for each in self._workspace.store.numbers(QUOTE)
        ):
            self._say(str(NumberTakenError(number)))
            return False
        if not issuing.asks_why(made) or made.why:
            return True
        self._say("Say why the quote changes, above it: the client reads that on the new one.")
        self._why.go_to("why_revised")
        return False

    def _print(self) -> None:
        from PySide6.QtPrintSupport import QPrintDialog

        from tundish.desktop.print_run import PrintRun, a4_printer

        made, body = self._paper(), self._pdf
        if made is None or not body or not self._may_issue(made):
            return
        printer = a4_printer()
        printer.setDocName(made.document.name)
        if QPrintDialog(printer, self).exec() != QPrintDialog.DialogCode.Accepted:
            return
        self._acts["print"].setEnabled(False)
        run = PrintRun(printer, body, self._workspace.aside, self)
        run.told.connect(self._say)
        issue = self._issuing(made, "pdf")

        def printed(why: str) -> None:
            self._acts["print"].setEnabled(True)
            if not why:
                issue(body)
            self._say(why or f"Printed: {made.document.name}")

        run.done.connect(printed)
        run.start()

    def _pictures(self) -> Pictures:
        return pictures_of(self._workspace.store, self._workspace.job_id)

    def _say(self, words: str) -> None:
        self._workspace.said.emit(words)


def _of_kind(path: Path, kind: str, name: str) -> Path:
    """A file as the kind chosen ends: "Web page (*.html)" makes Quote.pdf, as it was offered, Quote.html; another ending was typed."""
    ending, typed = kind.rpartition("*")[2].rstrip(")"), path.suffix.lower()
    if not ending or typed == ending or (typed in BY_ENDING and typed != f".{FORMATS[name].ending}"):
        return path
    return path.with_suffix(ending) if typed in BY_ENDING else path.with_name(path.name + ending)


def _written(made: Made, path: Path, how: tuple[str, str], pictures: Pictures) -> bytes:
    """Write the paper to the file in a format, with the time it says; gives what was written."""
    name, printed = how
    if name == "pdf":
        body = bytes_of(made.document, printed, pictures)
        write_whole(path, body)
        return body
    FORMATS[name].write(made.document, path, printed, pictures)
    return path.read_bytes()
