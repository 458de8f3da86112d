"""Pricing: what do I charge, and what do I keep?"""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QEvent, Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QVBoxLayout, QWidget

from tundish.asked import as_it_stands, begin_option, choose_option, keep_option
from tundish.catalogue.crew import Person
from tundish.desktop import look
from tundish.desktop.bills import Bills
from tundish.desktop.chips import ChipRow, Choice
from tundish.desktop.estimate_page import EstimatePage
from tundish.desktop.inputs import InputForm
from tundish.desktop.money_bar import MoneyBar
from tundish.desktop.price_rows import ADDED, COLUMNS, price_rows
from tundish.desktop.price_words import (
    cis_words,
    kept_words,
    margin_words,
    option_words,
    validity_words,
    vat_words,
    visits_words,
    warnings,
    where_it_goes,
    who_words,
)
from tundish.desktop.quotes import Quotes
from tundish.desktop.tables import Table, TableCard
from tundish.desktop.variations import Agreement
from tundish.desktop.words import button, label
from tundish.desktop.workspace import Workspace
from tundish.estimate import Estimate, Job
from tundish.field import Entry, fields_of, get
from tundish.figure import Known
from tundish.pricing.cis import NONE
from tundish.pricing.terms import HARDER, Extra, VisitByHand
from tundish.pricing.validity import validity

TERMS: Final = ("labour_rate", "mark_up_as", "mark_up", "charged_at", "contingency", "hours_a_day")
HARDER_BY: Final = (*HARDER, "difficulty")
COSTS: Final = ("overhead", "overhead_hour", "discount", "round_to", "keep_a_day")
VISITS: Final = ("travel", "parking", "visit_least")
VISIT: Final = ("begins", "amount", "why")
TAXES: Final = ("vat", "vat_rounding", "vat_reason", "vat_evidence", "cis")
OFFER: Final = ("offer", "client_is", "pay_days", "base_rate", "deposit", "boarded", "valid_days", "quoted", "start", "boarding")
PARTS: Final = (
    ("Terms", "Rates"),
    ("Harder than usual", "Harder"),
    ("Overhead, discount, rounding", "Overhead"),
    ("Visits", "Visits"),
    ("VAT", "VAT"),
    ("Priced by hand", "By hand"),
    ("Options for the client", "Options"),
    ("Offer, dates and words", "Offer"),
    ("Quotes issued", "Quotes"),
    ("Agreed and varied", "Agreed"),
    ("Invoices", "Invoices"),
)
"""The groups of the terms that one press goes to, and what the press says."""
_LARGE: Final = 115
"""Per cent of text size from which a window of a laptop cannot show the whole price."""
EXTRA: Final = ("what", "kind", "amount", "vat")


class PricingPage(EstimatePage):
    """The terms, the price by stage, and where the money goes."""

    help_sentences = ("Mark-up is on cost, margin is of price: both are shown.", "Hours come from your norms on Rates and rules.")

    def __init__(self, workspace: Workspace) -> None:
        super().__init__("Pricing", "What do I charge, and what do I keep?", workspace)
        paper = button("Quote", "paper", main=True)
        paper.clicked.connect(self._paper)
        self.add_tool(paper)
        self.form = InputForm("Terms", workspace)
        self.form.asked.connect(self._asked)
        self._parts = ChipRow("Parts of the terms")
        self._parts.set_choices(tuple(Choice(title, words) for title, words in PARTS), PARTS[0][0])
        self._parts.chosen.connect(self._go_to_part)
        self.form.verticalScrollBar().valueChanged.connect(self._say_part)
        self.add_row(self._parts)
        self._priced_options: list[QLabel] = []
        self.table = Table("Price by stage", COLUMNS)
        self.table.pin_total()
        self.table.row_chosen.connect(self._chosen)
        self.table.row_asked.connect(self._chosen)
        self.table.set_empty("Nothing to price yet", "Add a pan or a basin first.", "pricing")
        self._bar = MoneyBar()
        self._kept = label("", "bodyStrong", wrap=True)
        self._warned = label("", "note", "tbc", wrap=True)
        self.set_body(self._stacked())
        self.begin()
        self.follow(workspace.issued, self.show_again)
        workspace.job_opened.connect(self._fill)

    def go_to(self, path: str) -> None:
        """Put the keyboard into the box of a term."""
        self.form.go_to(path)

    def _go_to_part(self, title: str) -> None:
        """Bring a part of the terms up; the last ones may not reach the top, and are marked all the same."""
        self.form.show_group(title)
        self._parts.take(title)

    def _say_part(self) -> None:
        """Mark the part of the terms that is at the top."""
        self._parts.take(self.form.group_in_view([title for title, _ in PARTS]))

    def _stacked(self) -> QWidget:
        self._fill()
        card = QFrame()
        card.setProperty("kind", "card")
        inside = QVBoxLayout(card)
        inside.setContentsMargins(1, 1, 1, 1)
        inside.addWidget(self.form)
        made = QWidget()
        column = self._halves = QVBoxLayout(made)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(8)
        column.addWidget(card)
        self._price_card = TableCard(self.table)
        column.addWidget(self._price_card)
        self._share_out()
        column.addWidget(self._bar)
        column.addWidget(self._kept)
        column.addWidget(self._warned)
        return made

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.StyleChange:
            self._share_out()

    def _share_out(self) -> None:
        """The whole price stays in sight; at large text, where it cannot, the terms have as much room as it."""
        large = look.now().percent > _LARGE
        for place, share in enumerate((1, 1) if large else (1, 0)):
            self._halves.setStretch(place, share)
        self.form.setMinimumHeight(look.now().px(130))
        self.table.leave_out(ADDED if large else ("Added",))

    def _fill(self) -> None:
        """Every term, and the rows of what is priced by hand."""
        self._made_of = self._parts_of(self._workspace.job)
        self.form.clear()
        self._margin, self._condition = label("", "note", "ink2", wrap=True), label("", "note", "ink2", wrap=True)
        self._add_group("Terms", TERMS, self._margin)
        self._add_people()
        self._add_group("Harder than usual", HARDER_BY)
        self._add_group("Overhead, discount, rounding", COSTS)
        self._add_visits()
        self._add_group("VAT", TAXES, self._condition)
        self._reckoned = label("", "note", "ink2", wrap=True)
        self._reckoned.setContentsMargins(14, 2, 12, 6)
        self.form.add_part(self._reckoned)
        row = EXTRA if self._workspace.job.terms.cis == NONE else (*EXTRA, "cis")
        self._add_rows("terms.extras", "Priced by hand", row, "take out a price by hand")
        if not self._workspace.job.terms.extras:
            self.form.add_group("Priced by hand")
        add = button("Price something by hand", "add")
        add.clicked.connect(lambda: self._add_row("terms.extras", Extra(), "price something by hand"))
        self.form.add_part(_in_row(add))
        self._add_options()
        self._good_for = label("", "note", "ink2", wrap=True)
        self._add_group("Offer, dates and words", OFFER, self._good_for)
        self._shorten = button("", "tick")
        self._shorten.clicked.connect(self._take_allowed)
        self.form.add_part(_in_row(self._shorten))
        self.form.input("terms.not_included", lines=3)
        self.form.add_group("Quotes issued")
        self._quotes = Quotes(self._workspace)
        self.form.add_part(self._quotes)
        self.form.add_group("Agreed and varied")
        if self._workspace.job.agreed.on:
            self.form.input("why_varied", lines=3)
        self._agreement = Agreement(self._workspace)
        self.form.add_part(self._agreement)
        self.form.add_group("Invoices")
        self.form.input("terms.stated")
        self._bills = Bills(self._workspace)
        self.form.add_part(self._bills)
        for each in (self._quotes, self._agreement, self._bills):
            each.made_anew.connect(self.order_focus)
        self.order_focus()

    def _add_visits(self) -> None:
        """What is the same for every visit, and visits that are charged otherwise."""
        self._visited = label("", "note", "ink2", wrap=True)
        self._add_group("Visits", VISITS, self._visited)
        self._add_rows("terms.visits", "A visit charged otherwise", VISIT, "charge a visit as it comes to")
        add = button("Charge a visit otherwise", "pencil")
        add.clicked.connect(lambda: self._add_row("terms.visits", self._next_visit(), "charge a visit otherwise"))
        self.form.add_part(_in_row(add))

    def _next_visit(self) -> VisitByHand:
        """The last visit that is not charged otherwise yet."""
        taken = {each.begins for each in self._workspace.job.terms.visits}
        worked = self._workspace.estimate
        left = [each.begins for each in worked.price.visits if each.begins not in taken] if worked else []
        return VisitByHand(begins=left[-1]) if left else VisitByHand()

    def _add_rows(self, path: str, title: str, names: tuple[str, ...], taken_out: str) -> None:
        """The inputs of each record of a list of the terms, with a press that takes it out."""
        for place in range(len(get(self._workspace.job, path))):
            self.form.add_group(title + (f", {place + 1}" if place else ""))
            for name in names:
                self.form.input(f"{path}.{place}.{name}")
            remove = button("Take it out", "cross")
            remove.clicked.connect(lambda _=False, place=place: self._workspace.remove(path, place, taken_out))
            self.form.add_part(_in_row(remove))

    def _add_people(self) -> None:
        """Who works on this job: your usual people, or its own."""
        people = self._workspace.job.terms.people
        for place in range(len(people)):
            self.form.add_group(f"On this job: {people[place].name or f'person {place + 1}'}")
            for name in fields_of(Person):
                self.form.input(f"terms.people.{place}.{name}")
            remove = button("Take them off this job", "cross")
            remove.clicked.connect(lambda _=False, place=place: self._workspace.remove("terms.people", place, "take somebody off the job"))
            self.form.add_part(_in_row(remove))
        self._who = label("", "note", "ink2", wrap=True)
        self._who.setContentsMargins(14, 2, 12, 6)
        self.form.add_part(self._who)
        usual = self._workspace.book.crew.people
        tools = [button("Somebody else works on this job", "add")]
        tools[0].clicked.connect(lambda: self._add_row("terms.people", Person(), "add somebody to the job"))
        if usual and not people:
            tools.append(button("Change who works on this job", "pencil"))
            tools[1].clicked.connect(lambda: self._workspace.set("terms.people", usual))
        self.form.add_part(_in_row(*tools))

    def _add_row(self, path: str, record: Extra | Person | VisitByHand, words: str) -> None:
        """Add a record, with the keyboard in the first of its boxes."""
        self._workspace.add(path, record, words)
        self._begin_at(f"{path}.{len(get(self._workspace.job, path)) - 1}.{next(iter(fields_of(type(record))))}")

    def _begin_at(self, path: str) -> None:
        """The rows as they are now, with the keyboard in one of them."""
        self._fill()
        self.form.go_to(path)

    def _add_options(self) -> None:
        """Every option with its price beside the job's, and how another is made."""
        self.form.add_group("Options for the client")
        self._priced_options = []
        for place, _ in enumerate(self._workspace.job.options):
            self.form.input(f"options.{place}.name")
            self.form.input(f"options.{place}.note")
            priced = label("", "note", "ink2", wrap=True)
            self._priced_options.append(priced)
            use, remove = button("Make it the job", "tick"), button("Take the option out", "cross")
            use.clicked.connect(lambda _=False, place=place: self._use_option(place))
            remove.clicked.connect(lambda _=False, place=place: self._workspace.remove("options", place, "take out an option"))
            for part in (priced, _in_row(use, remove)):
                self.form.add_part(part)
            priced.setContentsMargins(14, 2, 12, 2)
        words = (
            "What you change now, on any page, goes into the option."
            if self._workspace.job.begun.on
            else "Another pan, without the bidet, taller…"
        )
        note = label(words, "note", "ink2", wrap=True)
        note.setContentsMargins(14, 2, 12, 2)
        self.form.add_part(note)
        if not self._workspace.job.begun.on:
            begin = button("Begin an option", "add")
            begin.clicked.connect(self._begin_option)
            self.form.add_part(_in_row(begin))
        else:
            keep, drop = button("Keep it as an option", "tick"), button("Drop it", "cross")
            keep.clicked.connect(self._keep_option)
            drop.clicked.connect(self._drop_option)
            self.form.add_part(_in_row(keep, drop))

    def _parts_of(self, job: Job) -> tuple[object, ...]:
        """What decides which rows the form has."""
        usual = len(self._workspace.book.crew.people)
        return (
            usual,
            len(job.terms.people),
            len(job.terms.visits),
            len(job.terms.extras),
            job.terms.cis != NONE,
            len(job.options),
            bool(job.agreed.on),
            job.begun.on,
        )

    def _begin_option(self) -> None:
        self._workspace.edit("begin an option", begin_option(self._workspace.job), "options")

    def _keep_option(self) -> None:
        """The job is again as it stands, and what was changed since is an option of it, to be named."""
        self._workspace.edit("keep an option", keep_option(self._workspace.job), "options")
        self._begin_at(f"options.{len(self._workspace.job.options) - 1}.name")

    def _drop_option(self) -> None:
        self._workspace.edit("drop an option", as_it_stands(self._workspace.job), "options")

    def _use_option(self, place: int) -> None:
        """The job as the client chose it; the option is an option no more."""
        job = self._workspace.job
        if place < len(job.options):
            self._workspace.edit(f"choose {job.options[place].name}", choose_option(job, place)[0], "options")

    def _add_group(self, title: str, names: tuple[str, ...], note: QLabel | None = None) -> None:
        head = self.form.add_group(title)
        # The first needs no head: it is what the page begins with, and the press above says what it is.
        head.setVisible(title != PARTS[0][0])
        for name in names:
            self.form.input(f"terms.{name}")
        if note is not None:
            note.setContentsMargins(14, 2, 12, 6)
            self.form.add_part(note)

    def _asked(self, path: str) -> None:
        self.figure_asked.emit(f"input:{path}")

    def _chosen(self, row: str) -> None:
        self.figure_asked.emit(row)

    def _show_validity(self, estimate: Estimate) -> None:
        """How long the quote is good for, what its prices allow, and what is wrong with them."""
        found, told = validity(estimate.buying, estimate.job.terms, estimate.book), warnings(estimate)
        self._good_for.setText(validity_words(estimate))
        self._warned.setText(told)
        self._warned.setVisible(bool(told))
        self._allowed = max(found.allowed or 0, 1)
        self._shorten.setText(f"Good for {self._allowed} {'day' if self._allowed == 1 else 'days'}, as its prices hold")
        self._shorten.setVisible(found.allowed is not None and found.days > self._allowed)

    def _take_allowed(self) -> None:
        self._workspace.set("terms.valid_days", Entry(self._allowed, Known.RATE))

    def _paper(self) -> None:
        self._workspace.paper = "quote"
        self.page_asked.emit("paper")

    def show_estimate(self, estimate: Estimate) -> None:
        """The price by stage, where the money goes and what is kept."""
        price, terms = estimate.price, estimate.job.terms
        if self._parts_of(estimate.job) != self._made_of:
            self._fill()
        for words, option in zip(self._priced_options, estimate.options, strict=False):
            words.setText(option_words(option, price))
        self.table.set_rows(price_rows(price, terms))
        self._price_card.fit()
        self._margin.setText(margin_words(terms))
        self.form.row("terms.mark_up").rename("Margin on materials" if terms.mark_up_as == "margin of price" else "Mark-up on materials")
        self._condition.setText(vat_words(terms))
        self._reckoned.setText(cis_words(price, terms))
        self._reckoned.setVisible(terms.cis != NONE)
        self._visited.setText(visits_words(price))
        self._quotes.show_quotes()
        self._who.setText(who_words(estimate))
        self._agreement.show_agreed()
        self._bills.show_bills()
        self._bar.show_parts(where_it_goes(price))
        self._kept.setText(kept_words(price))
        self._show_validity(estimate)


def _in_row(*widgets: QWidget) -> QWidget:
    made = QWidget()
    row = QHBoxLayout(made)
    row.setContentsMargins(12, 6, 12, 6)
    for widget in widgets:
        row.addWidget(widget, 0, Qt.AlignmentFlag.AlignLeft)
    row.addStretch(1)
    return made
