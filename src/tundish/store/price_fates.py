"""What becomes of each row of a price list: a few hundred looked at together, and one by one those that will not do as they stand."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from itertools import chain, count, islice, repeat
from math import isfinite
from operator import itemgetter
from typing import Any, Final

from tundish.store.price_rows import Fate
from tundish.store.sheet_rows import Block, words_of

COLUMNS: Final[Mapping[str, tuple[str, ...]]] = {
    "code": ("code", "product code", "item code", "part no", "part number", "sku", "stock code", "article"),
    "price": ("price", "net price", "nett", "net", "trade price", "unit price", "your price", "cost"),
    "pack": ("pack", "pack size", "pack qty", "per", "unit qty"),
    "least": ("minimum", "min qty", "min order", "moq"),
    "item": ("item", "our code", "your code"),
}
"""What a list may say, and the heads it is known by unless the supplier's own are remembered; code and price it must."""
_PLAIN: Final = re.compile(r"(?=.*[1-9])(?:0|[1-9]\d{0,5})(?:\.\d{1,4})?", re.ASCII)
"""A price that is kept as it is written."""
_LEAST_FIGURE, _MOST_FIGURE = 0.0001, 999_999.0
"""A spreadsheet's number between these is a price that is kept as `words_of` writes it."""
_MONEY: Final = re.compile(r"£?\s*(-?[\d.,'\s]*\d)\s*(?:£|GBP)?", re.IGNORECASE)
_GROUPED: Final = re.compile(r"\d{1,3}(?:[.,'\s]\d{3})+|\d+")
"""The whole pounds of a price, thousands apart or not."""
_OTHER_MONEY: Final = re.compile(r"[€$¥]|\b(?:EUR|USD)\b", re.IGNORECASE)
_DECIMAL_COMMA: Final = re.compile(r"\d,\d{1,2}\b|\.\d{3},")
_DECIMAL_POINT: Final = re.compile(r"\d\.\d{1,2}\b|,\d{3}\.")
"""How a price with each decimal sign is known; the one met more often in the first rows is the list's."""
_NO_TERMS: Final = ("", 0, 1.0, "", "", 1, 1.0, "", "", 1)
"""What a fate says after its words where it changes nothing."""


@dataclass(frozen=True, slots=True)
class Known:
    """What a list is held against: a supplier's offers by code, the codes of two offers, the trader's items, the heads, the day.

    `seen` gathers the row in which each code that is used stood first.
    """

    offers: Mapping[str, tuple[Any, ...]]
    twice: set[str]
    items: frozenset[str]
    heads: Mapping[str, str]
    seen: dict[str, int]
    day: str


def fates_of(blocks: Iterator[Block], places: Mapping[str, int], known: Known) -> Iterator[list[Fate]]:
    """What becomes of the rows that say anything, block by block; `places` are the columns by what they say."""
    begin = list(islice(blocks, 2))
    prices = [words_of(cell) for _, rows in begin for cell in _column(rows, places["price"])]
    comma = sum(bool(_DECIMAL_COMMA.search(each)) for each in prices) > sum(bool(_DECIMAL_POINT.search(each)) for each in prices)
    for block in chain(begin, blocks):
        yield _fates(block, places, known, comma=comma)


def money(words: str, *, comma: bool) -> Decimal | str:
    """A price from a cell, or the words that say why it is none."""
    if words.startswith(("=", "+", "@")):
        return "is a formula, not a price"
    if _OTHER_MONEY.search(words):
        return f'"{words[:30]}" is not in pounds'
    match = _MONEY.fullmatch(words.strip())
    if match is None:
        return f'"{words[:30]}" is not a price' if words else "is blank, or a formula that gave nothing"
    pounds, sign, pence = match[1].lstrip("-").partition("," if comma else ".")
    if not _GROUPED.fullmatch(pounds) or (sign and not pence.isdecimal()):
        return f'"{words[:30]}" is written otherwise than the other prices: they have a decimal {"comma" if comma else "point"}'
    amount = Decimal(f"{re.sub(r'[^0-9]', '', pounds)}.{pence or 0}")
    if match[1].startswith("-") or not 0 < amount < 1_000_000:  # noqa: PLR2004
        return f'"{words[:30]}" is not a price to pay'
    return amount


def _fates(block: Block, places: Mapping[str, int], known: Known, *, comma: bool) -> list[Fate]:
    """The fates of a block: told at once where the cells of a row will do as they stand, as most do; all others are looked into."""
    first, rows = block
    columns = {name: _column(rows, places.get(name)) for name in COLUMNS}
    prices, plain = _prices(columns["price"], comma=comma)
    offer_of, first_of, items, twice = known.offers.get, known.seen.setdefault, known.items, known.twice
    told = []
    counts = (_counts(columns[name]) for name in ("pack", "least"))
    lines = zip(count(first), _words(columns["code"]), prices, plain, *counts, _words(columns["item"]), strict=False)
    for number, code, price, sound, pack, least, item in lines:
        if sound and code and pack is not None and least is not None and code not in twice:
            old = offer_of(code)
            if not (old or item):
                told.append(_unused(number, code))
                continue
            if (old or item in items) and first_of(code, number) == number:
                told.append(_used((number, code, item), (pack, price, known.day, least), old))
                continue
        cells = rows[number - first]
        if any(map(words_of, cells)):
            said = {name: words_of(cells[place]) for name, place in places.items() if place < len(cells)}
            told.append(_looked_into(number, said, known, comma=comma))
    return told


def _column(rows: list[list[Any]], place: int | None) -> list[Any]:
    """What stands in a column; nothing in rows cut short, nor where the list has none."""
    if place is None:
        return [""] * len(rows)
    if len(min(rows, key=len)) > place:
        return list(map(itemgetter(place), rows))
    return [row[place] if place < len(row) else "" for row in rows]


def _words(cells: list[Any]) -> list[str]:
    return list(map(str.strip if set(map(type, cells)) == {str} else words_of, cells))


def _prices(cells: list[Any], *, comma: bool) -> tuple[list[str], Iterable[object]]:
    """Prices as they are written, and of each whether it is one that is kept so."""
    numbers = not comma and set(map(type, cells)) == {float} and isfinite(sum(cells))
    if numbers and min(cells) >= _LEAST_FIGURE and max(cells) <= _MOST_FIGURE:
        return [f"{cell:.10g}" for cell in cells], repeat(True)
    words = _words(cells)
    return words, repeat(False) if comma else map(_PLAIN.fullmatch, words)


def _counts(cells: list[Any]) -> Iterable[float | None]:
    """A count for every cell: they are few that come again and again."""
    if not set(map(type, cells)) <= {str, float}:
        return [_count(words_of(cell)) for cell in cells]
    return map({cell: _count(words_of(cell)) for cell in set(cells)}.__getitem__, cells)


def _unused(number: int, code: str) -> Fate:
    return tuple.__new__(Fate, (number, code, "not used", "no item of yours has this code", *_NO_TERMS))


def _used(of: tuple[int, str, str], terms: tuple[float, str, str, float], old: tuple[Any, ...] | None) -> Fate:
    """What a row with a price changes: `of` its number, code and item; a pack or a least of nought says that the list has none."""
    number, code, item = of
    pack, price, day, least = terms
    if old is None:
        return tuple.__new__(Fate, (number, code, "new", "", item, 0, pack or 1.0, price, day, int(least or 1), 1.0, "", "", 1))
    _, offer, length, was_pack, was_price, was_from, was_least = old
    pack, least = was_pack if length else pack or was_pack, int(least) or was_least
    if pack == was_pack and least == was_least and (price == was_price or float(price) == float(was_price)):
        return tuple.__new__(Fate, (number, code, "unchanged", "", *_NO_TERMS))
    return tuple.__new__(Fate, (number, code, "changed", "", "", offer, pack, price, day, least, was_pack, was_price, was_from, was_least))


def _looked_into(number: int, said: Mapping[str, str], known: Known, *, comma: bool) -> Fate:
    """The fate of a row that has to be read as a person would, and why where it is refused."""
    code, price, pack_words, least_words, item = (said.get(name, "") for name in COLUMNS)
    old = known.offers.get(code)
    why = "" if code else f"{known.heads['code']} is blank"
    if old or item:
        first = known.seen.setdefault(code, number)
        if first != number:
            why = why or f"the code stands in row {first} already"
    if comma or not _PLAIN.fullmatch(price):
        found = money(price, comma=comma)
        why, price = (why or f"{known.heads['price']} {found}", "") if isinstance(found, str) else (why, str(found))
    pack, least = _count(pack_words), _count(least_words)
    if code in known.twice:
        why = why or "you have this code for two items"
    if pack is None or least is None:
        why = why or _no_count(known.heads, pack_words, least_words)
    if not why and item and not old and item not in known.items:
        why = f'{known.heads["item"]} "{item[:40]}" is no item of the catalogue'
    if why or pack is None or least is None:
        return Fate(number, code, "refused", why)
    return _used((number, code, item), (pack, price, known.day, least), old) if old or item else _unused(number, code)


def _no_count(heads: Mapping[str, str], pack: str, least: str) -> str:
    """Which of the two is no number, and what there is to do about one with a unit."""
    name, words = ("pack", pack) if _count(pack) is None else ("least", least)
    cure = "; write the number alone, in the unit that the item is counted in" if words[:1].isdecimal() else ""
    return f'{heads[name]} "{words[:30]}" is not a number above nought{cure}'


@lru_cache(maxsize=1024)
def _count(words: str) -> float | None:
    """A number of things; 0 where none is given, None where it is no number."""
    if not words:
        return 0.0
    if _PLAIN.fullmatch(words):
        return float(words)
    amount = money(words, comma=False)
    return None if isinstance(amount, str) else float(amount)
