"""A variation: what changes after the price was accepted, why, what it costs, and what the client then pays in all."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal

from tundish import measure
from tundish.documents.block import Block, Column, Document, Facts, FillIn, Paragraph, Points, Row, Sums, Table
from tundish.documents.order_list import amount_words
from tundish.documents.paper import lines_of, paper, quote_named, trader_of
from tundish.documents.terms import how_rounded
from tundish.estimate import Estimate
from tundish.pricing.terms import NOT_REGISTERED
from tundish.pricing.variation import PricedRow, Variation, VariedItem, VariedRow, more_of, rows_agreed, sums_of

_PRICES = (
    Column("What changes in price", "text", 3, "strong"),
    Column("Agreed before, £", "money", 1.2),
    Column("Agreed now, £", "money", 1.2),
    Column("Difference, £", "money", 1.2, "strong"),
)
_ITEMS = (Column("What is built in", "text", 3, "strong"), Column("Before", "text", 1.2), Column("Now", "text", 1.2))
_LAW = (
    "If we agree this at your home, by telephone or by post, you may have a right to cancel it, as you had with the quote: the Consumer"
    " Contracts Regulations 2013 decide."
)


def build_all(estimate: Estimate) -> tuple[Document, ...]:
    """Every variation of the job, in the order of their numbers."""
    return tuple(build_one(estimate, each) for each in estimate.job.variations)


def build_one(estimate: Estimate, variation: Variation) -> Document:
    """One variation against what was agreed before it; hours, costs and mark-up never reach it."""
    job = estimate.job
    before = job.variations[: job.variations.index(variation)]
    standing = rows_agreed(job.agreed, before)
    blocks: tuple[Block, ...] = (
        _facts(estimate, variation),
        *_state(variation),
        Points("Why", lines_of(variation.why) or ("No reason was given",)),
        *_chosen(variation),
        _prices(variation, vat=job.agreed.basis.terms.vat != NOT_REGISTERED),
        Points("Working days", (_days(variation),)),
        _sums(estimate, variation, standing),
        *(Paragraph(each, "note") for each in _notes(estimate, variation, before)),
        FillIn(f"Variation {variation.number} agreed, before it is done", (), ("Client", "Date", "Fitter", "Date")),
        *_items(variation),
    )
    made = paper(estimate, f"variation-{variation.number}", "Variation", blocks, tables_only=True)
    name = made.name.replace(f"Variation {job.number}".strip(), f"Variation {variation.number}", 1)
    return replace(made, number=variation.number, name=name)


def _facts(estimate: Estimate, variation: Variation) -> Facts:
    trader, job = trader_of(estimate), estimate.job
    sender = (trader.name, *lines_of(trader.address), *(word for word in (trader.phone, trader.email) if word))
    dates = [f"Date {measure.show_date(variation.made)}"] if variation.made else []
    dates.append(f"To {quote_named(job, 'the quote')}")
    dates += [f'with "{job.agreed.option}"'] if job.agreed.option else []
    dates += [f"accepted {measure.show_date(job.agreed.on)}"] if job.agreed.on else []
    return Facts((("For", (job.client.name, *lines_of(job.client.address))), ("From", sender), ("Dates", tuple(dates))))


def _state(variation: Variation) -> Iterator[Block]:
    if variation.withdrawn:
        yield Paragraph(f"Withdrawn on {measure.show_date(variation.withdrawn)}: nothing of it was agreed.", "caution")
    elif variation.accepted:
        yield Paragraph(f"Accepted on {measure.show_date(variation.accepted)}.", "strong")


def _chosen(variation: Variation) -> Iterator[Block]:
    changes = lines_of(variation.changes)
    if changes:
        yield Points("What is chosen otherwise", changes)


def _prices(variation: Variation, *, vat: bool) -> Block:
    if not variation.rows:
        return Paragraph("The price stays as it is.", "strong")
    rows = tuple(_price(each) for each in variation.rows)
    return Table(_PRICES, rows, totals=(3,), total_label="Difference before VAT" if vat else "Difference")


def _price(row: VariedRow) -> Row:
    was, now = row.was or Decimal(0), row.now or Decimal(0)
    return Row((row.what, was, now, now - was))


def _items(variation: Variation) -> Iterator[Table]:
    """What is built in otherwise; what differs by less than is shown is left out."""
    told = [(each, *_amounts(each)) for each in variation.items]
    groups = (
        ("Added", [(each, was, now) for each, was, now in told if each.was is None]),
        ("Taken away", [(each, was, now) for each, was, now in told if each.now is None]),
        ("Changed", [(each, was, now) for each, was, now in told if each.was and each.now and was != now]),
    )
    rows = [row for name, items in groups if items for row in (Row(("", "", ""), group=name), *(_item(*each) for each in items))]
    if rows:
        yield Table(_ITEMS, tuple(rows))


def _amounts(item: VariedItem) -> tuple[str, str]:
    was, now = ("–" if one is None else amount_words(one.value, item.unit) for one in (item.was, item.now))
    return was, now


def _item(item: VariedItem, was: str, now: str) -> Row:
    return Row((f"{item.what}, which you supply" if item.own else item.what, was, now))


def _days(variation: Variation) -> str:
    was, now = (math.ceil(each.value) if each else 0 for each in (variation.days_was, variation.days_now))
    apart = now - was
    if not apart:
        return f"{now}, as before"
    return f"{now}: {abs(apart)} {'more' if apart > 0 else 'fewer'} than the {was} before"


def _sums(estimate: Estimate, variation: Variation, standing: tuple[PricedRow, ...]) -> Sums:
    terms = estimate.job.agreed.basis.terms
    one, before = more_of(variation, estimate.job.agreed, estimate.job.variations), sums_of(standing, terms)
    rows = [("This variation before VAT", one.net)] if one.vat_lines else []
    rows += [(each.words, each.vat) for each in one.vat_lines if each.charged]
    vat = " with VAT" if any(each.charged for each in one.vat_lines) else ""
    rows += [(f"This variation{vat}", one.total), ("Agreed before", before.total)]
    return Sums((*rows, ("You pay in all", before.total + one.total)))


def _notes(estimate: Estimate, variation: Variation, before: tuple[Variation, ...]) -> Iterator[str]:
    yield "The difference is worked out for the change alone, at one day's prices: what was agreed before does not become dearer by it."
    yield "Nothing of this is done before it is agreed in writing. It is billed with the payments that are still to come."
    job = estimate.job
    yield from how_rounded(more_of(variation, job.agreed, job.variations).vat_lines, job.agreed.basis.terms.vat_rounding)
    yield from _earlier(before)
    if estimate.job.agreed.basis.terms.client_is != "a business" and not variation.withdrawn:
        yield _LAW


def _earlier(before: tuple[Variation, ...]) -> Iterator[str]:
    """How every number before this one stands, so that none is missed."""
    for each in before:
        yield f"Variation {each.number}: {_stands(each)}."


def _stands(variation: Variation) -> str:
    if variation.accepted:
        return f"accepted {measure.show_date(variation.accepted)}"
    return f"withdrawn {measure.show_date(variation.withdrawn)}, not in the sum" if variation.withdrawn else "not answered, not in the sum"
