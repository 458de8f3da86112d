"""What another figure or rule would change in a job, in words: quantities, hours, checks that turn, price."""

from __future__ import annotations

from collections.abc import Iterator

from tundish import measure
from tundish.documents.order_list import amount_words
from tundish.estimate import Estimate
from tundish.figure import Figure


def differences(before: Estimate, after: Estimate) -> tuple[str, ...]:
    """A line for each item whose amount differs, then hours, checks that turn, and the price; nothing where all is alike."""
    return (*_amounts(before, after), *_hours(before, after), *_checks(before, after), *_price(before, after))


def _amounts(before: Estimate, after: Estimate) -> Iterator[str]:
    was, now = _by_item(before), _by_item(after)
    names = {line.item.code: line.item.name for line in (*before.lines, *after.lines)}
    for code, own in dict.fromkeys((*was, *now)):
        one, other = was.get((code, own)), now.get((code, own))
        if (one and one.value) != (other and other.value):
            yield f"{names[code]}: {_words(one)} → {_words(other)}"


def _by_item(worked: Estimate) -> dict[tuple[str, bool], Figure]:
    return {(line.item.code, line.own): line.amount for line in worked.lines}


def _words(amount: Figure | None) -> str:
    return "none" if amount is None else amount_words(amount.value, amount.unit)


def _hours(before: Estimate, after: Estimate) -> Iterator[str]:
    one, other = before.price.hours.value, after.price.hours.value
    if one != other:
        yield f"Hours: {measure.show_hours(one)} → {measure.show_hours(other)}"


def _checks(before: Estimate, after: Estimate) -> Iterator[str]:
    was, now = (dict.fromkeys(f"{each.title}, {each.place}" for each in one.findings if each.state == "fails") for one in (before, after))
    yield from (f"Fails then: {each}" for each in now if each not in was)
    yield from (f"Fails no longer: {each}" for each in was if each not in now)


def _price(before: Estimate, after: Estimate) -> Iterator[str]:
    apart = after.price.total - before.price.total
    if apart:
        more = f"{measure.show_money(abs(apart))} {'more' if apart > 0 else 'less'}"
        name = "Price inc. VAT" if after.price.charges_vat else "Price"
        yield f"{name}: {measure.show_money(before.price.total)} → {measure.show_money(after.price.total)}, {more}"
