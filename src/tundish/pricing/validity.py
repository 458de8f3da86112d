"""How long a quote may be good for: as long as the prices of goods that it rests on are taken to hold."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from tundish import measure
from tundish.catalogue.book import Book
from tundish.field import Problem, must_read
from tundish.pricing.terms import Terms
from tundish.procurement.purchase import Buying

MOST_NAMED: Final = 3


@dataclass(frozen=True, slots=True)
class PriceUsed:
    """A price that the job rests on: of what, of which day, and the last day that it is taken to hold. Days are ISO."""

    name: str
    of: str
    ends: str


@dataclass(frozen=True, slots=True)
class Validity:
    """`days` is what the quote says from its day on. `allowed`: what the prices that still hold allow; None where nothing is bought.

    `old` have ended by the day of the quote, the oldest first. `of` are the first and the last day of the prices used.
    """

    days: int
    until: str
    allowed: int | None
    first: PriceUsed | None
    old: tuple[PriceUsed, ...]
    of: tuple[str, ...]


def validity(buying: Buying, terms: Terms, book: Book) -> Validity:
    """What the terms say, cut to what the prices allow where nobody typed it; on the day of the quote, or today."""
    day = _day(terms.quoted) or _day(book.date)
    asked = round(must_read(terms, "valid_days").value)
    used = tuple(_used(buying, round(book.figure("prices.hold_days").value))) if day else ()
    if day is None or not used:
        return Validity(asked, _after(day, asked), None, None, (), ())
    old = tuple(each for each in sorted(used, key=lambda each: (each.of, each.name)) if each.ends < day.isoformat())
    first = min((each for each in used if each not in old), key=lambda each: (each.ends, each.name), default=None)
    allowed = (date.fromisoformat(first.ends) - day).days if first else None
    days = asked
    if terms.valid_days is None:
        short = round(book.figure("prices.short_days").value) if old else asked
        days = max(1, min(asked, short, asked if allowed is None else allowed))
    return Validity(days, _after(day, days), allowed, first, old, (min(each.of for each in used), max(each.of for each in used)))


def validity_problems(buying: Buying, terms: Terms, book: Book) -> Iterator[Problem]:
    """Prices that are old, and a promise that is longer than the prices hold."""
    found = validity(buying, terms, book)
    if found.old:
        named = ", ".join(f"{each.name} of {measure.show_date(each.of)}" for each in found.old[:MOST_NAMED])
        more = f" and {len(found.old) - MOST_NAMED} more" if len(found.old) > MOST_NAMED else ""
        yield Problem("terms.valid_days", f"prices too old to quote on: {named}{more}; ask for them again")
    if found.first and found.allowed is not None and found.days > max(found.allowed, 1):
        ends = f"the price of {found.first.name} is taken to hold until {measure.show_date(found.first.ends)}"
        yield Problem("terms.valid_days", f"{found.days} days are longer than prices hold: {ends}, for {found.allowed} days")


def _used(buying: Buying, hold_days: int) -> Iterator[PriceUsed]:
    for purchase in buying.purchases:
        for pick in purchase.picks:
            of = _day(pick.offer.valid_from)
            if of is not None:
                ends = (of + timedelta(days=hold_days)).isoformat()
                yield PriceUsed(purchase.line.item.name, of.isoformat(), min(ends, pick.offer.valid_to or ends))


def _day(iso: str) -> date | None:
    try:
        return date.fromisoformat(iso)
    except ValueError:
        return None


def _after(day: date | None, days: int) -> str:
    return (day + timedelta(days=days)).isoformat() if day else ""
