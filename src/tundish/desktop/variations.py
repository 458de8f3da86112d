"""What is agreed with the client: the price as accepted, and every variation of it; none is ever changed once it is made."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from decimal import Decimal
from functools import partial
from typing import Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from tundish import measure
from tundish.asked import choose_option
from tundish.desktop.stops import keyboard_kept
from tundish.desktop.words import button, clear_out, in_row, label
from tundish.desktop.workspace import Workspace
from tundish.documents.difference import differences
from tundish.estimate import Estimate, Job
from tundish.field import put
from tundish.pricing.price import Price
from tundish.pricing.variation import Agreed, Offer, Variation, more_of, rows_agreed, sums_of, unanswered
from tundish.store.numbers import QUOTE, VARIATION
from tundish.varying import Pair, agree, both_ways, variation_of

BEFORE: Final = "Once the client has accepted, bills follow the accepted price, and what changes after is a variation that both sign."

MOST: Final = 6
"""Items that are told before the paper is made; what is left over is counted."""


class Agreement(QWidget):
    """Accept the price; then weigh what has changed since, make a variation of it, and say what became of it."""

    made_anew = Signal()

    def __init__(self, workspace: Workspace, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("Agreed and varied")
        self._workspace = workspace
        self._pair: Pair | None = None
        self._of: Job | None = None
        self._weighed = ""
        self._shown: tuple[object, ...] = ()
        self._rows = QVBoxLayout(self)
        self._rows.setContentsMargins(14, 2, 12, 6)
        self.show_agreed()

    def show_agreed(self) -> None:
        """Show what is agreed as the job has it now."""
        job, estimate = self._workspace.job, self._workspace.estimate
        if self._of is not None and _changing(job) != self._of:
            self._of = self._pair = None
            self._weighed = ""
        price = estimate.price if estimate is not None and estimate.price.labour_priced and estimate.price.payments else None
        offered = () if job.agreed.on else self._offered()
        held_up = self._workspace.held_up
        shown = (
            held_up,
            job.agreed,
            job.variations,
            bool(job.invoices),
            None if price is None else price.total,
            self._weighed,
            self._pair,
            offered,
        )
        if shown == self._shown:
            return
        self._shown = shown
        with keyboard_kept(self):
            clear_out(self._rows)
            if held_up:
                self._rows.addWidget(label(held_up, "note", "ink2", wrap=True))
            elif job.agreed.on:
                self._add_agreed(job)
            else:
                self._add_open(price, offered)
        self.made_anew.emit()

    def _offered(self) -> tuple[Offer, ...]:
        """What the quote that was issued last offers."""
        issued = self._workspace.quotes
        return issued[-1].offers if issued else ()

    def _quote(self) -> str:
        """The number of the quote that was issued last."""
        given = [each.number for each in self._workspace.store.numbers(QUOTE) if each.job == self._workspace.job_id]
        return given[-1] if given else ""

    def _add_open(self, price: Price | None, offered: tuple[Offer, ...]) -> None:
        """What the client may accept: what was offered last, as it was offered; before that, the price as it is."""
        self._rows.addWidget(label(BEFORE, "note", "ink2", wrap=True))
        for offer in offered:
            self._rows.addWidget(in_row(self._act(accept_words(offer, self._quote()), "tick", partial(self._take, offer))))
        if offered and price is not None and price.total != _total(offered[0].agreed):
            words = f"The price is {measure.show_money(price.total)} now: print the quote again, and that can be accepted."
            self._rows.addWidget(label(words, "note", "tbc", wrap=True))
        elif not offered and price is not None:
            self._rows.addWidget(in_row(self._act(f"The client has accepted {measure.show_money(price.total)}", "tick", self._accept)))

    def _add_agreed(self, job: Job) -> None:
        self._rows.addWidget(label(agreed_words(job), "note", wrap=True))
        for each in job.variations:
            self._rows.addWidget(self._row(each))
        if unanswered(job.variations) is not None:
            self._rows.addWidget(label("The next one can be made once this one is answered.", "note", "ink2", wrap=True))
            return
        if self._weighed:
            self._rows.addWidget(label(self._weighed, "note", wrap=True))
        if self._pair is not None:
            self._rows.addWidget(in_row(self._act("Make it a variation", "add", self._make)))
        else:
            acts = [self._act("Work out what has changed", "", self._weigh)]
            if not job.variations and not job.invoices:
                acts.append(self._act("Not accepted after all", "cross", self._unaccept))
            self._rows.addWidget(in_row(*acts))

    def _row(self, variation: Variation) -> QWidget:
        acts = []
        if not variation.accepted and not variation.withdrawn:
            acts = [
                self._act("Accepted today", "tick", lambda: self._answer(variation, "accepted")),
                self._act("Withdraw it", "cross", lambda: self._answer(variation, "withdrawn")),
            ]
        return in_row(label(variation_words(variation, self._workspace.job), "note", wrap=True), *acts)

    def _act(self, words: str, glyph: str, do: Callable[[], None]) -> QWidget:
        made = button(words, glyph, once=True)
        made.clicked.connect(lambda _=False: do())
        return made

    def _accept(self) -> None:
        estimate = self._workspace.estimate
        if estimate is None or estimate.job is not self._workspace.job:
            self._workspace.said.emit("The price is being worked out: accept it once it is shown.")
            return
        self._workspace.edit("accept the price", replace(self._workspace.job, agreed=agree(estimate, date.today().isoformat())), "agreed")

    def _take(self, offer: Offer) -> None:
        """Accepted as it was offered; with an option, the job becomes that."""
        job = self._workspace.job
        place = next((place for place, each in enumerate(job.options) if offer.option and each.name == offer.option), None)
        if place is not None:
            job, _ = choose_option(job, place)
        agreed = replace(offer.agreed, on=date.today().isoformat(), quote=self._quote(), option=offer.option)
        self._workspace.edit("accept the price", replace(job, agreed=agreed), "agreed")

    def _unaccept(self) -> None:
        self._workspace.edit("take the acceptance back", replace(self._workspace.job, agreed=Agreed()), "agreed")

    def _weigh(self) -> None:
        job, book = self._workspace.job, self._workspace.book
        self._of, self._weighed = _changing(job), "Working out what has changed…"
        self._workspace.aside.ask(lambda: both_ways(job, book), lambda pair: self._weighed_up(_changing(job), pair), self._failed)
        self.show_agreed()

    def _weighed_up(self, of: Job, pair: Pair) -> None:
        if of != self._of:
            return
        made = variation_of(self._workspace.job, pair, "")
        self._pair = pair if made is not None else None
        self._weighed = weighed_words(pair, made, self._workspace.job)
        self.show_agreed()

    def _failed(self, words: str) -> None:
        self._weighed = words
        self.show_agreed()

    def _make(self) -> None:
        job, pair = self._workspace.job, self._pair
        if pair is None or _changing(job) != self._of:
            return
        made = variation_of(job, pair, date.today().isoformat(), self._workspace.store.given(VARIATION))
        if made is not None:
            done = replace(job, variations=(*job.variations, made), why_varied="")
            self._workspace.edit(f"make variation {made.number}", done, "variations")

    def _answer(self, variation: Variation, how: str) -> None:
        job = self._workspace.job
        if unanswered(job.variations) != variation:  # a second press, before the first is shown
            return
        answered = put(variation, how, date.today().isoformat())
        rows = tuple(answered if each.number == variation.number else each for each in job.variations)
        self._workspace.edit(f"variation {variation.number} {how}", replace(job, variations=rows), "variations")


def accept_words(offer: Offer, number: str) -> str:
    """What the client has accepted: which quote, of which day, with which option, at what."""
    option = f' with "{offer.option}"' if offer.option else ""
    day = measure.show_date(offer.agreed.on, with_year=False)
    named = f"quote {number}" if number else "the quote"
    return f"The client has accepted {named} of {day}{option}, {measure.show_money(_total(offer.agreed))}"


def agreed_words(job: Job) -> str:
    """When the price was accepted, at what, and what there is to pay with the variations accepted since."""
    terms = job.agreed.basis.terms
    option = f' with "{job.agreed.option}"' if job.agreed.option else ""
    what = f", quote {job.agreed.quote}{option}," if job.agreed.quote else ""
    said = f"Accepted {measure.show_date(job.agreed.on, with_year=False)}{what} at {measure.show_money(_total(job.agreed))}."
    if not any(each.accepted for each in job.variations):
        return said
    now = sums_of(rows_agreed(job.agreed, job.variations), terms).total
    return f"{said} With the variations accepted since: {measure.show_money(now)}."


def variation_words(variation: Variation, job: Job) -> str:
    """A variation in a line: number, date, what it adds or takes away, and how it stands."""
    state = "not answered yet"
    if variation.withdrawn:
        state = f"withdrawn {measure.show_date(variation.withdrawn, with_year=False)}"
    elif variation.accepted:
        state = f"accepted {measure.show_date(variation.accepted, with_year=False)}"
    made = measure.show_date(variation.made, with_year=False) if variation.made else "no date"
    return f"Variation {variation.number}, {made}: {_apart(variation, job)}, {state}"


def weighed_words(pair: tuple[Estimate, Estimate], made: Variation | None, job: Job) -> str:
    """What has changed since it was agreed, for the trader's own eyes: amounts, hours, checks, and the variation's price."""
    if made is None:
        return "Nothing that was agreed has changed."
    found = [each for each in differences(*pair) if not each.startswith("Price")]
    first = [each for each in found if each.startswith(("Hours", "Fails"))]
    rest = [each for each in found if each not in first]
    more = [f"and {len(rest) - MOST} more, which the paper lists"] if len(rest) > MOST else []
    return "; ".join((f"For the client: {_apart(made, job)}", *first, *rest[:MOST], *more)) + "."


def _total(agreed: Agreed) -> Decimal:
    return sums_of(agreed.rows, agreed.basis.terms).total


def _apart(variation: Variation, job: Job) -> str:
    total = more_of(variation, job.agreed, job.variations).total
    return f"{measure.show_money(abs(total))} {'more' if total > 0 else 'less'}" if total else "at the same price"


def _changing(job: Job) -> Job:
    """What of a job a variation is worked out from: its reason may still be typed meanwhile."""
    return replace(job, why_varied="", settled=(), sawn=(), invoices=(), note="")
