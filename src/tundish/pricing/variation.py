"""What was agreed with the client, and every change agreed since: kept as it was signed, never as it would be worked out today."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from decimal import Decimal
from itertools import chain, takewhile
from typing import Final

from tundish.catalogue.own import OwnItem
from tundish.field import Entry, amount, date, flag, money, record, records, text
from tundish.layout.design import RoomPlan
from tundish.pricing.instalment import rows_of_price
from tundish.pricing.numbers import next_after
from tundish.pricing.pennies import nearest, whole_step
from tundish.pricing.price import Price
from tundish.pricing.terms import REVERSE_CHARGE, Terms
from tundish.pricing.vat import VatLine, by_rate
from tundish.pricing.vat_rounding import NEAREST, ROUNDINGS
from tundish.takeoff.by_hand import LineByHand

MOST: Final = 1_000_000
ROUNDING: Final = "Rounding, so that the VAT on it is whole pennies"


@dataclass(frozen=True, slots=True, kw_only=True)
class Basis:
    """What the client agreed to have made: enough of the job to work it out again."""

    rooms: tuple[RoomPlan, ...] = records("Rooms", RoomPlan)
    terms: Terms = record("Terms", Terms)
    own_items: tuple[OwnItem, ...] = records("Ware typed from the maker's sheet", OwnItem)
    by_hand: tuple[LineByHand, ...] = records("Lines by hand", LineByHand)


@dataclass(frozen=True, slots=True, kw_only=True)
class PricedRow:
    """One row of a price: a stage, or what stands beside the stages. `percent` is its VAT; blank where none is charged."""

    what: str = text("What")
    net: Decimal | None = money("Before VAT", least=-MOST, most=MOST)
    percent: Decimal | None = money("VAT, per cent", most=100)


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """One payment that was agreed: so much per cent of the whole."""

    when: str = text("When")
    percent: Decimal | None = money("Per cent", most=100)


@dataclass(frozen=True, slots=True, kw_only=True)
class Agreed:
    """The price as the client accepted it. No day: nothing is agreed yet."""

    on: str = date("Accepted on")
    quote: str = text("Quote accepted", "Its number with the letter of its issue.")
    option: str = text("Option accepted")
    rows: tuple[PricedRow, ...] = records("Rows", PricedRow)
    shares: tuple[Share, ...] = records("Payments", Share)
    kept_back: Decimal | None = money("Kept back (CIS)")
    base: Decimal | None = money("Kept back from (CIS)", most=MOST)
    basis: Basis = record("As agreed", Basis)


@dataclass(frozen=True, slots=True)
class Offer:
    """What a quote offered on its day, to be accepted as it was: the job itself without a name, or an option of it."""

    option: str
    agreed: Agreed


@dataclass(frozen=True, slots=True, kw_only=True)
class VariedRow:
    """One row of the price that changes. It was nought where it is new, and is nought where it is taken away."""

    what: str = text("What")
    percent: Decimal | None = money("VAT, per cent", most=100)
    was: Decimal | None = money("Agreed before", least=-MOST, most=MOST)
    now: Decimal | None = money("Agreed now", least=-MOST, most=MOST)


@dataclass(frozen=True, slots=True, kw_only=True)
class VariedItem:
    """One item of which more or less is built in; blank: none. Amounts are in its unit."""

    what: str = text("What")
    unit: str = text("Unit")
    own: bool = flag("Client supplies it")
    was: Entry | None = amount("Before", "")
    now: Entry | None = amount("Now", "")


@dataclass(frozen=True, slots=True, kw_only=True)
class Variation:
    """A change as it was offered. Its number is never used again; it counts once it is accepted."""

    number: str = text("Variation number")
    made: str = date("Date")
    why: str = text("Why")
    changes: str = text("What is chosen otherwise", "One a line.")
    rows: tuple[VariedRow, ...] = records("Rows", VariedRow)
    items: tuple[VariedItem, ...] = records("Items", VariedItem)
    days_was: Entry | None = amount("Working days before", "day", whole=True)
    days_now: Entry | None = amount("Working days now", "day", whole=True)
    kept_back: Decimal | None = money("Kept back more (CIS)", least=-MOST, most=MOST)
    base: Decimal | None = money("Kept back from more (CIS)", least=-MOST, most=MOST)
    accepted: str = date("Accepted on")
    withdrawn: str = date("Withdrawn on")
    basis: Basis = record("As varied", Basis)


@dataclass(frozen=True, slots=True)
class Sums:
    """What rows come to: `total` is with the VAT that is charged."""

    net: Decimal
    vat_lines: tuple[VatLine, ...]
    total: Decimal


def rows_of(price: Price, terms: Terms) -> tuple[PricedRow, ...]:
    """The rows of a price as its quote has them, each with its rate."""
    return tuple(PricedRow(what=what, net=net, percent=percent) for what, percent, net in rows_of_price(price.stages, price.beside, terms))


def sums_of(rows: Iterable[PricedRow], terms: Terms) -> Sums:
    """Net, VAT by rate, rounded as the terms say, and total of rows."""
    parts = [(each.percent, each.net or Decimal(0)) for each in rows]
    net = sum((amount for _, amount in parts), Decimal(0))
    rated = [(rate, amount) for rate, amount in parts if rate is not None]
    lines = by_rate(rated, charged=terms.vat != REVERSE_CHARGE, rounding=terms.vat_rounding)
    return Sums(net, lines, net + sum((each.vat for each in lines if each.charged), Decimal(0)))


def difference_of(variation: Variation) -> tuple[PricedRow, ...]:
    """What a variation adds, row by row; below nought where it takes away."""
    return tuple(
        PricedRow(what=each.what, net=(each.now or Decimal(0)) - (each.was or Decimal(0)), percent=each.percent) for each in variation.rows
    )


def more_of(variation: Variation, agreed: Agreed, variations: Iterable[Variation]) -> Sums:
    """What a variation adds to what those of the job before it come to: net, VAT by rate, total; they add up however VAT is rounded."""
    terms, rates = agreed.basis.terms, {each.percent for each in variation.rows}
    earlier = tuple(each for each in takewhile(lambda each: each.number != variation.number, variations) if each.accepted)
    was, now = (sums_of(_with(agreed, counted), terms) for counted in (earlier, (*earlier, variation)))
    held = {each.percent: each for each in was.vat_lines}
    more = (
        replace(each, net=each.net - held[each.percent].net, vat=each.vat - held[each.percent].vat) if each.percent in held else each
        for each in now.vat_lines
    )
    return Sums(now.net - was.net, tuple(each for each in more if each.percent in rates or each.vat), now.total - was.total)


def rows_agreed(agreed: Agreed, variations: Iterable[Variation]) -> tuple[PricedRow, ...]:
    """The rows of the price as it stands: what was accepted, with every variation accepted since."""
    return _with(agreed, (each for each in variations if each.accepted))


def varied_rows(
    agreed: Iterable[PricedRow], before: Iterable[PricedRow], after: Iterable[PricedRow], rounding: str = NEAREST
) -> tuple[VariedRow, ...]:
    """What changes of the agreed rows when the job is worked out before and after at the same prices.

    The client pays for the change, never for goods that grew dearer meanwhile: the two workings are compared with one another, and what
    differs is laid on what was agreed. What is gone is taken away whole; no row falls below nought by the difference. Where VAT is on the
    total (`rounding`), the difference at each rate is brought to whole pennies of it.
    """
    standing, was, now = _by_key(agreed), _by_key(before), _by_key(after)
    apart = {key: _apart(standing.get(key), was.get(key), now.get(key)) for key in dict.fromkeys((*standing, *was, *now))}
    for percent in () if ROUNDINGS[rounding].by_line else dict.fromkeys(key[1] for key in apart):
        whole = sum((more for key, more in apart.items() if key[1] == percent), Decimal(0))
        base = sum((net for key, net in standing.items() if key[1] == percent), Decimal(0))
        apart[ROUNDING, percent, 0] = _rounded(base, whole, whole_step(percent), standing.get((ROUNDING, percent, 0), Decimal(0))) - whole
    changed = ((key, standing.get(key, Decimal(0)), more) for key, more in apart.items() if more)
    return tuple(VariedRow(what=key[0], percent=key[1], was=base, now=base + more) for key, base, more in changed)


def next_variation(job: str, variations: Iterable[Variation], given: Iterable[str] = ()) -> str:
    """The next number of a job's variations, above all of them and all that were ever `given`: none is used again."""
    return next_after(f"{job}-V" if job else "V", (*(each.number for each in variations), *given))


def unanswered(variations: Iterable[Variation]) -> Variation | None:
    """The variation that the client has neither accepted nor refused."""
    return next((each for each in variations if not each.accepted and not each.withdrawn), None)


def standing_basis(agreed: Agreed, variations: Iterable[Variation]) -> Basis:
    """What is to be made as it stands agreed: as accepted first, or as in the variation accepted last."""
    return next((each.basis for each in reversed(tuple(variations)) if each.accepted), agreed.basis)


def _with(agreed: Agreed, variations: Iterable[Variation]) -> tuple[PricedRow, ...]:
    """The rows that were accepted first with the differences of variations."""
    made = _by_key(agreed.rows)
    for key, net in chain.from_iterable(_by_key(difference_of(each)).items() for each in variations):
        made[key] = made.get(key, Decimal(0)) + net
    return tuple(PricedRow(what=what, net=net, percent=percent) for (what, percent, _), net in made.items())


_Key = tuple[str, Decimal | None, int]


def _by_key(rows: Iterable[PricedRow]) -> dict[_Key, Decimal]:
    """Nets by name and rate; of rows that share both, by their order."""
    return dict(_keyed(rows))


def _keyed(rows: Iterable[PricedRow]) -> Iterator[tuple[_Key, Decimal]]:
    seen: dict[tuple[str, Decimal | None], int] = {}
    for row in rows:
        name = (row.what, row.percent)
        seen[name] = seen.get(name, -1) + 1
        yield (*name, seen[name]), row.net or Decimal(0)


def _apart(standing: Decimal | None, was: Decimal | None, now: Decimal | None) -> Decimal:
    base, before = standing or Decimal(0), was or Decimal(0)
    if was == now:
        return Decimal(0)
    if not now:
        return -base if before else Decimal(0)
    more = now - before
    return -base if base >= 0 and now > 0 and base + more < 0 else more


def _rounded(base: Decimal, more: Decimal, step: Decimal, rounding: Decimal) -> Decimal:
    """The difference at one rate to the step, such that nothing is left of what goes whole, and never less than nothing."""
    if base + more == rounding:
        return -base
    rounded = nearest(more, step)
    return rounded + step if base + rounded < 0 <= base else rounded
