"""Whether the catalogue's tables agree with one another: every problem, by file and row, with words to mend it."""

from __future__ import annotations

import re
from collections.abc import Hashable, Iterable, Iterator, Mapping
from typing import Final

from tundish.catalogue.item import WHOLE, Item, KitPart, Offer
from tundish.catalogue.kind import Sold
from tundish.catalogue.records import Parts, Placed
from tundish.field import Problem


def check(parts: Parts) -> Iterator[Problem]:
    """What no single row can know: codes that are unique and known, ends, kits, offers by how a kind is sold, stock."""
    items = {item.code: item for _, item in parts.items}
    yield from _items(parts)
    yield from _known(parts, items)
    yield from _kits(parts.kits, items)
    for place, offer in parts.offers:
        if offer.item in items:
            yield from _offer(place, offer, items[offer.item], _sold(parts, items[offer.item]))
    yield from _rack(parts, items)
    yield from _twice(parts)


_TIDY: Final = re.compile(r"[a-z0-9]+([-x.][a-z0-9]+)*")


def _items(parts: Parts) -> Iterator[Problem]:
    for place, item in parts.items:
        if not _TIDY.fullmatch(item.code):
            yield Problem(place, f'code: "{item.code}" should be small letters and figures with hyphens between, such as soil-pipe-110')
        least = parts.kinds[item.kind].ends if item.kind in parts.kinds else 0
        if len(item.ends) < least:
            yield Problem(
                place,
                f"a {item.kind} has {least} {'end' if least == 1 else 'ends'} or more; {item.code} is given {len(item.ends) or 'none'}",
            )


def _known(parts: Parts, items: Mapping[str, Item]) -> Iterator[Problem]:
    """Every item and supplier that is spoken of exists."""
    named: list[Placed[str]] = list(parts.ends)
    named += [(place, item) for place, (_, item) in parts.roles]
    named += [(place, code) for place, (kit, part) in parts.kits for code in (kit, part.item)]
    named += [(place, offer.item) for place, offer in parts.offers]
    named += [(place, item) for place, (item, _) in parts.stock]
    named += [(place, piece.item) for place, piece in parts.rack]
    for place, code in named:
        if code and code not in items:
            yield Problem(place, f"there is no item {code}")
    suppliers = {supplier.key for _, supplier in parts.suppliers}
    for place, offer in parts.offers:
        if offer.supplier and offer.supplier not in suppliers:
            yield Problem(place, f"there is no supplier {offer.supplier} in suppliers.toml")


def _kits(kits: tuple[Placed[tuple[str, KitPart]], ...], items: Mapping[str, Item]) -> Iterator[Problem]:
    inside: dict[str, set[str]] = {}
    for _, (kit, part) in kits:
        inside.setdefault(kit, set()).add(part.item)
    for place, (kit, part) in kits:
        if part.item in items and items[part.item].unit in WHOLE and part.amount != int(part.amount):
            yield Problem(place, f"amount: {part.amount:g} of {part.item} should be a whole number")
        if kit in _all_inside(part.item, inside):
            yield Problem(place, f"the kit {kit} is within itself")


def _all_inside(code: str, inside: Mapping[str, set[str]]) -> set[str]:
    """The item itself and all that it holds, however deep."""
    found, ahead = {code}, [code]
    while ahead:
        new = inside.get(ahead.pop(), set()) - found
        found |= new
        ahead += new
    return found


def _sold(parts: Parts, item: Item) -> Sold | None:
    """How an item is sold; None where its kind is not known, which has been told."""
    kind = parts.kinds.get(item.kind)
    return kind.sold if kind else None


def _offer(place: str, offer: Offer, item: Item, sold: Sold | None) -> Iterator[Problem]:
    if item.unit in WHOLE and offer.pack != int(offer.pack):
        yield Problem(place, f"pack: {offer.pack:g} of {item.code} should be a whole number")
    if sold == "pack" and (offer.length or offer.width):
        yield Problem(place, f"{item.code} is sold by the pack: length and width should be blank")
    if sold == "bar" and not (0 < offer.pack <= offer.length and not offer.width):
        yield Problem(place, f"{item.code} is sold by the bar: length should be its length, pack no more, and width blank")
    if sold == "sheet" and not (offer.length and offer.width and offer.pack == 1):
        yield Problem(place, f"{item.code} is sold by the sheet: length and width should be its sizes and pack 1")


def _rack(parts: Parts, items: Mapping[str, Item]) -> Iterator[Problem]:
    for place, piece in parts.rack:
        sold = _sold(parts, items[piece.item]) if piece.item in items else None
        if sold == "pack" or (sold == "bar" and piece.width) or (sold == "sheet" and not piece.width):
            yield Problem(place, f"{piece.item}: the rack keeps bars by their length, and sheets by length and width")


def _twice(parts: Parts) -> Iterator[Problem]:
    """Nothing is said twice."""
    yield from _repeated(((place, item.code) for place, item in parts.items), "the item")
    yield from _repeated(((place, role) for place, (role, _) in parts.roles), "the role")
    yield from _repeated(((place, (kit, part.item)) for place, (kit, part) in parts.kits), "kit and part")
    rows = ((place, (one.item, one.supplier, f"{one.pack:g}", f"{one.length:g}", f"{one.width:g}")) for place, one in parts.offers)
    yield from _repeated(rows, "the offer")
    yield from _repeated(((place, item) for place, (item, _) in parts.stock), "stock of")
    yield from _repeated(((place, piece.key) for place, piece in parts.rack), "the piece")


def _repeated(rows: Iterable[Placed[Hashable]], what: str) -> Iterator[Problem]:
    first: dict[Hashable, str] = {}
    for place, key in rows:
        if key in first:
            told = ", ".join(key) if isinstance(key, tuple) else key
            yield Problem(place, f"{what} {told} is already in {first[key]}")
        first.setdefault(key, place)
