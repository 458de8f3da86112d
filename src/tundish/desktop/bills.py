"""The bills of a job: the next one is made with a press, paid ones marked, wrong ones taken back by a credit note; none is ever changed."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date, datetime
from pathlib import Path
from typing import Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFileDialog, QVBoxLayout, QWidget

from tundish import measure
from tundish.desktop import look
from tundish.desktop.boxes import Box
from tundish.desktop.stops import keyboard_kept
from tundish.desktop.words import button, clear_out, in_row, label
from tundish.desktop.workspace import Workspace
from tundish.documents.invoice import build, when_to_pay
from tundish.documents.paper import trader_of
from tundish.documents.statement import day_of, lateness
from tundish.errors import TundishError
from tundish.pricing.contract import Contract, contract_of
from tundish.pricing.invoice import Invoice, bill_of, credit, is_credited, next_invoice, next_number, overbilled
from tundish.pricing.late import due_of, late_of, paid_by
from tundish.store.bills import gaps_of
from tundish.store.numbers import BILL
from tundish.store.papers import Paper

_DAY_WIDTH: Final = 132
"""A box for a day, pixels at 100 %."""
OVER: Final = "More is billed than is agreed now: take back the last bill, then make it again."


class Bills(QWidget):
    """One line a bill, oldest first, and what can be done with each."""

    made_anew = Signal()

    def __init__(self, workspace: Workspace, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("Invoices")
        self._workspace = workspace
        self._rows = QVBoxLayout(self)
        self._rows.setContentsMargins(14, 2, 12, 6)
        self._shown: tuple[object, ...] = ()
        self._day = ""
        self._gaps_of: tuple[object, ...] = ()
        self._missing: tuple[str, ...] = ()
        self.show_bills()

    def show_bills(self) -> None:
        """Show the bills as the job has them now."""
        contract, issued = self._contract(), self._workspace.job.invoices
        more = contract is not None and next_invoice(contract, issued, "", "") is not None
        over = contract is not None and overbilled(contract, issued)
        gaps = self._gaps(issued)
        estimate, terms = self._workspace.estimate, self._workspace.job.terms
        day = day_of(estimate) if estimate is not None else ""
        shown = (issued, more, over, gaps, self._workspace.held_up, day, terms.pay_days, terms.base_rate, terms.client_is)
        if shown == self._shown:
            return
        self._shown, self._day = shown, day
        with keyboard_kept(self):
            self._fill(more=more, over=over, gaps=gaps)
        self.made_anew.emit()

    def _fill(self, *, more: bool, over: bool, gaps: tuple[str, ...]) -> None:
        issued = self._workspace.job.invoices
        clear_out(self._rows)
        for invoice in issued:
            self._rows.addWidget(self._row(invoice, issued))
        if more:
            self._rows.addWidget(in_row(self._act("Make the next bill", "add", self._next)))
        elif over:
            self._rows.addWidget(label(OVER, "note", "tbc", wrap=True))
        elif not self._workspace.job.agreed.on and self._workspace.held_up:
            self._rows.addWidget(label(self._workspace.held_up, "note", "ink2", wrap=True))
        elif not issued:
            self._rows.addWidget(label("A bill can be made once the work is priced.", "note", "ink2", wrap=True))
        for each in gaps:
            self._rows.addWidget(label(each, "note", "ink2", wrap=True))

    def _gaps(self, issued: tuple[Invoice, ...]) -> tuple[str, ...]:
        """Numbers of the job that are not in use, each with its reason; asked for again when bills or variations are others."""
        of = (self._workspace.job_id, issued, self._workspace.job.variations)
        if of != self._gaps_of:
            self._gaps_of, self._missing = of, gaps_of(self._workspace.store, self._workspace.job_id)
        return self._missing

    def _row(self, invoice: Invoice, issued: tuple[Invoice, ...]) -> QWidget:
        words = label(f"{words_of(invoice, issued)}{self._late(invoice, issued)}", "note", wrap=True)
        acts = [self._act("XML", "paper", lambda: self._save_xml(invoice))]
        if not invoice.credits and not is_credited(invoice, issued):
            acts.append(self._act("Take it back", "cross", lambda: self._credit(invoice)))
            if not invoice.paid:
                acts[:0] = self._on_a_day(invoice, "Paid", lambda day: replace(invoice, paid=day))
            elif late_of(invoice, self._workspace.job.terms, self._day) is not None:
                acts[:0] = self._on_a_day(invoice, "Interest settled", lambda day: replace(invoice, settled=day))
        return in_row(words, *acts)

    def _late(self, invoice: Invoice, issued: tuple[Invoice, ...]) -> str:
        """When a bill that stands is due; or how late it is on the day asked for, or was paid, and what may be asked for that."""
        terms = self._workspace.job.terms
        due = due_of(invoice, terms)
        if invoice.credits or is_credited(invoice, issued) or not due:
            return ""
        late = late_of(invoice, terms, self._day)
        if late is None:
            return "" if invoice.paid else f", due {_day(due)}"
        asked = f": {measure.show_money(late.interest)} interest and {measure.show_money(late.fixed)} may be asked" if late.more else ""
        on = "" if paid_by(invoice, self._day) else f" on {_day(self._day)}"
        return f", due {_day(due)}, {lateness(late)}{on}{asked}"

    def _act(self, words: str, glyph: str, do: Callable[[], None]) -> QWidget:
        made = button(words, glyph, once=True)
        made.clicked.connect(lambda _=False: do())
        return made

    def _next(self) -> None:
        contract, job, estimate = self._contract(), self._workspace.job, self._workspace.estimate
        if contract is None or estimate is None or estimate.job is not job:
            self._workspace.said.emit("The price is being worked out: make the bill once it is shown.")
            return
        made = next_invoice(contract, job.invoices, self._number(), date.today().isoformat())
        if made is not None:
            self._workspace.add("invoices", made, f"make invoice {made.number}")

    def _contract(self) -> Contract | None:
        """What there is to bill, None before the work is priced."""
        estimate, job = self._workspace.estimate, self._workspace.job
        if estimate is None or not (job.agreed.on or (estimate.price.labour_priced and not self._workspace.held_up)):
            return None
        return contract_of(estimate.price, job.terms, job.agreed, job.variations)

    def _credit(self, invoice: Invoice) -> None:
        if is_credited(invoice, self._workspace.job.invoices):  # a second press, before the first is shown
            return
        note = credit(invoice, self._number(), date.today().isoformat())
        self._workspace.add("invoices", note, f"take back invoice {invoice.number}")

    def _number(self) -> str:
        job = self._workspace.job
        return next_number(job.number, job.invoices, self._workspace.store.given(BILL))

    def _on_a_day(self, invoice: Invoice, words: str, recorded: Callable[[str], Invoice]) -> tuple[Box, QWidget]:
        """A box for the day, today unless it is typed, and what records it."""
        when = Box(f"{words} on, invoice {invoice.number}")
        when.show_value(measure.show_date(date.today().isoformat()))
        when.setFixedWidth(look.now().px(_DAY_WIDTH))

        def record() -> None:
            day, trouble = day_come(when.text(), date.today().isoformat())
            when.show_bad(bad=bool(trouble))
            if trouble:
                self._workspace.said.emit(f"{words} on: {trouble}.")
            else:
                self._record(invoice, recorded(day), words.lower())

        return when, self._act(words, "tick", record)

    def _record(self, invoice: Invoice, recorded: Invoice, what: str) -> None:
        job = self._workspace.job
        bills = tuple(recorded if each is invoice else each for each in job.invoices)
        self._workspace.edit(f"invoice {invoice.number} {what}", replace(job, invoices=bills), "invoices")

    def _save_xml(self, invoice: Invoice) -> None:
        from tundish.writers.invoice_xml import Parties, as_xml, lacking
        from tundish.writers.safe import write_whole
        from tundish.writers.text import as_text

        name = f"{'Credit note' if invoice.credits else 'Invoice'} {invoice.number}.xml"
        chosen, _ = QFileDialog.getSaveFileName(self, f"Save {name}", str(Path.home() / name), "UBL 2.1 XML (*.xml)")
        if not chosen:
            return
        client, estimate = self._workspace.job.client, self._workspace.estimate
        if estimate is None:
            return
        parties = Parties(trader_of(estimate), client, when_to_pay(invoice, self._workspace.job.terms, self._workspace.job.invoices))
        body, document = as_xml(invoice, parties), build(estimate, invoice)
        now = datetime.now().isoformat(timespec="seconds")
        try:
            write_whole(Path(chosen), body)
            paper = Paper(document.key, document.name, "xml", self._workspace.revision, now, as_text(document), body)
            self._workspace.issue(self._workspace.job_id, paper, document.number)
        except TundishError as fault:
            self._workspace.said.emit(str(fault))
        else:
            less = lacking(invoice, parties)
            asked = f". It lacks {less}, which the program that opens it will ask for" if less else ""
            self._workspace.said.emit(f"Saved: {Path(chosen).name}, in {Path(chosen).parent}{asked}")


def words_of(invoice: Invoice, issued: tuple[Invoice, ...]) -> str:
    """A bill in a line: number, date, what it is for, what is due, and how it stands."""
    due = measure.show_money(bill_of(invoice).due)
    if invoice.credits:
        return f"Credit note {invoice.number}, {_day(invoice.issued)}: takes back {invoice.credits}, {due}"
    state = "taken back" if is_credited(invoice, issued) else f"paid {_day(invoice.paid)}" if invoice.paid else "not paid yet"
    return f"Invoice {invoice.number}, {_day(invoice.issued)}: {invoice.what.lower()}, {due}, {state}"


def day_come(words: str, today: str) -> tuple[str, str]:
    """A day that has come by today, as ISO text, or what is wrong with it in words; without a year it is one of this year."""
    read = measure.read_date(words, date.fromisoformat(today).year)
    if read.value is None:
        return "", read.problem or "a day is needed"
    return ("", f"{measure.show_date(read.value)} is still to come") if read.value > today else (read.value, "")


def _day(iso: str) -> str:
    return measure.show_date(iso, with_year=False) if iso else "no date"
