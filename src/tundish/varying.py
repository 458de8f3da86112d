"""Agreeing a price, and varying it: the job as it was agreed and as it is now, both worked out afresh and compared. Pure."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import replace
from decimal import Decimal

from tundish import measure
from tundish.catalogue.book import Book
from tundish.cutting.plan import Effort
from tundish.cutting.until import Stop, never
from tundish.estimate import Estimate, Job, estimate
from tundish.field import Entry, describe, get
from tundish.figure import Figure
from tundish.options import IN, OUT, Change, differences, with_changes, words
from tundish.pricing.cis import NONE, RATES, of_base
from tundish.pricing.contract import contract_of
from tundish.pricing.pennies import nearest, whole_step
from tundish.pricing.price import Price
from tundish.pricing.terms import HARDER, Terms
from tundish.pricing.variation import (
    Agreed,
    Basis,
    Offer,
    Share,
    Variation,
    VariedItem,
    VariedRow,
    next_variation,
    rows_agreed,
    rows_of,
    standing_basis,
    varied_rows,
)

Pair = tuple[Estimate, Estimate]
"""The job as it stands agreed, and as it is now."""


def agree(worked: Estimate, day: str) -> Agreed:
    """The price of a job as the client accepts it on a day (ISO)."""
    return _agreed(worked.job, worked.price, day)


def offers(worked: Estimate, day: str) -> tuple[Offer, ...]:
    """What a quote of this day (ISO) offers: the job as it is, without a name, and each of its options."""
    job = worked.job
    laid = (
        (with_changes(replace(job, options=()), option.changes)[0], priced)
        for option, priced in zip(job.options, worked.options, strict=True)
    )
    return (Offer("", agree(worked, day)), *(Offer(priced.name, _agreed(changed, priced.price, day)) for changed, priced in laid))


def both_ways(job: Job, book: Book, effort: Effort = Effort.BEST, stop: Stop = never) -> Pair:
    """The job as it stands agreed and as it is now, both at today's prices, from nothing cut, at the rates that were agreed."""
    before = standing_basis(job.agreed, job.variations)
    after = Basis(rooms=job.rooms, terms=_terms(before.terms, job.terms), own_items=job.own_items, by_hand=job.by_hand)
    one, other = (estimate(_job_of(job, basis), book, effort, stop) for basis in (before, after))
    return one, other


def variation_of(job: Job, pair: Pair, day: str, given: Iterable[str] = ()) -> Variation | None:
    """The change between the two as a variation to be offered on a day (ISO); None where nothing that is agreed changes.

    `given` are the numbers that were ever given to variations.
    """
    before, after = pair
    terms = before.job.terms
    was, now = rows_of(before.price, terms), rows_of(after.price, after.job.terms)
    rows = varied_rows(rows_agreed(job.agreed, job.variations), was, now, terms.vat_rounding)
    items, changes = tuple(_items(before, after)), tuple(_changes(before, after))
    days = [Entry(float(each.price.days)) for each in pair]
    if not rows and not items and not changes and days[0] == days[1]:
        return None
    base = _more_of_base(job, rows, pair)
    return Variation(
        number=next_variation(job.number, job.variations, given),
        made=day,
        why=job.why_varied.strip(),
        changes="\n".join(changes),
        rows=rows,
        items=items,
        days_was=days[0],
        days_now=days[1],
        kept_back=of_base(base, terms.cis) or None,
        base=base if terms.cis != NONE else None,
        basis=Basis(rooms=after.job.rooms, terms=after.job.terms, own_items=after.job.own_items, by_hand=after.job.by_hand),
    )


def _more_of_base(job: Job, rows: tuple[VariedRow, ...], pair: Pair) -> Decimal:
    """What a contractor reckons on more (CIS): the rows' difference less that of materials and hired plant, at whole pennies kept back."""
    before, after = (each.price for each in pair)
    more = sum(((each.now or Decimal(0)) - (each.was or Decimal(0)) for each in rows), Decimal(0))
    left_out = (after.before_vat - after.cis.base) - (before.before_vat - before.cis.base)
    standing = contract_of(before, pair[0].job.terms, job.agreed, job.variations)
    return max(nearest(more - left_out, whole_step(RATES[standing.terms.cis])), -standing.base)


def _agreed(job: Job, price: Price, day: str) -> Agreed:
    shares = tuple(Share(when=each.when, percent=Decimal(str(each.percent))) for each in price.payments)
    basis = Basis(rooms=job.rooms, terms=job.terms, own_items=job.own_items, by_hand=job.by_hand)
    base = price.cis.base if job.terms.cis != NONE else None
    return Agreed(on=day, rows=rows_of(price, job.terms), shares=shares, kept_back=price.kept_back or None, base=base, basis=basis)


def _job_of(job: Job, basis: Basis) -> Job:
    """A job to be worked out from what was agreed alone; whom the goods are bought from is as it is now for both."""
    return Job(number=job.number, rooms=basis.rooms, terms=basis.terms, buying=job.buying, own_items=basis.own_items, by_hand=basis.by_hand)


def _terms(agreed: Terms, now: Terms) -> Terms:
    """The rates, VAT and payments that were agreed, with what a change may bring: prices by hand, difficulty, dates, what is left out."""
    return replace(
        agreed,
        extras=now.extras,
        visits=now.visits,
        difficulty=now.difficulty,
        **{name: getattr(now, name) for name in HARDER},
        start=now.start,
        boarding=now.boarding,
        not_included=now.not_included,
    )


def _changes(before: Estimate, after: Estimate) -> Iterator[str]:
    """What is left out and what comes in of the ware, and what else is chosen otherwise in the rooms, by its labels."""
    was, now = (Counter(placed.ware.name for room in each.rooms for placed in room.placed) for each in (before, after))
    yield from (f"{name}: left out" for name in was - now)
    yield from (f"{name}: added" for name in now - was)
    changes = [each for each in differences(before.job, after.job) if each.path.startswith("rooms")]
    told = (_change(before.job, each) for each in changes if not _of_ware(each))
    yield from dict.fromkeys(told)


def _of_ware(change: Change) -> bool:
    """Whether a change is of which ware there is, which is told by its names."""
    listed, _, last = change.path.rpartition(".")
    return change.path.endswith((".appliances", ".ware")) or (listed.endswith(".appliances") and (change.value == OUT or last == IN))


def _change(before: Job, change: Change) -> str:
    """One input that is another: what it is called, what it is, and what it was where that can be said in a word."""
    (label,) = words(before, [change])
    if change.value == OUT or change.path.endswith(f".{IN}"):
        return label
    declared, after = describe(Job, change.path), with_changes(before, [change])[0]
    was, now = (get(each, change.path) for each in (before, after))
    if declared.kind in {"choice", "wall"}:
        return f"{label}: {now}, was {was}"
    if isinstance(was, Entry) and isinstance(now, Entry) and was.value != now.value:
        shown = [measure.show_amount(each.value, declared.unit, with_unit=True) for each in (now, was)]
        return f"{label}: {shown[0]}, was {shown[1]}"
    return label


def _items(before: Estimate, after: Estimate) -> Iterator[VariedItem]:
    was, now = ({(line.item.code, line.own): line for line in each.lines} for each in (before, after))
    for key in dict.fromkeys((*was, *now)):
        one, other = was.get(key), now.get(key)
        shown = other or one
        if shown and (one.amount.value if one else None) != (other.amount.value if other else None):
            yield VariedItem(
                what=shown.item.name,
                unit=shown.amount.unit,
                own=shown.own,
                was=_entry(one.amount if one else None),
                now=_entry(other.amount if other else None),
            )


def _entry(amount: Figure | None) -> Entry | None:
    return None if amount is None else Entry(amount.value)
