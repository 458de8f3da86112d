"""What becomes of each row of a price list: a few hundred looked at together, and one by one those that will not do as they stand."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from itertools import chain, compress, count, islice
from math import isfinite
from operator import ne, or_
from typing import Any, Final, NamedTuple

from tundish.catalogue.sheets import money_words
from tundish.store.sheet_rows import Block, Cells, words_of

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


class Fate(NamedTuple):
    """What becomes of one row: new, changed, unchanged, not used or refused; its terms, and the offer it is held against.

    An offer is code, number, length, pack, price and least, as the database has it.
    """

    row: int
    code: str
    fate: str
    said: str
    item: str
    pack: float
    price_words: str
    least: int
    old: tuple[Any, ...] | None

    @property
    def price(self) -> Decimal:
        """What a pack is to cost, without VAT."""
        return Decimal(self.price_words)

    @property
    def why(self) -> str:
        """Why it is so, in words."""
        if self.fate == "not used":
            return "no item of yours has this code"
        if self.fate == "changed" and self.old:
            old = Decimal(self.old[4])
            by = (self.price - old) / old * 100 if old else Decimal(0)
            return f"£{money_words(old)} to £{money_words(self.price)}, {'+' if by >= 0 else '−'}{abs(by):.1f} %"
        return f"for {self.item}" if self.fate == "new" else self.said


class Told(NamedTuple):
    """The fates of a few rows, a column for each thing that a fate says: they are many, and most are never looked at one by one."""

    rows: Sequence[int]
    codes: list[str]
    fates: list[str]
    said: list[str]
    items: list[str]
    packs: list[float]
    prices: list[str]
    leasts: list[int]
    olds: list[tuple[Any, ...] | None]

    def only(self, kept: Iterable[object]) -> Told:
        """Those of them that are kept."""
        kept = list(kept)
        return self if all(kept) else Told._make(list(compress(column, kept)) for column in self)

    def of(self, fate: str) -> Told:
        """Those of one fate."""
        return self if self.fates.count(fate) == len(self.fates) else self.only([each == fate for each in self.fates])

    def each(self) -> Iterator[Fate]:
        """One by one."""
        return map(Fate._make, zip(*self, strict=True))


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


def fates_of(blocks: Iterator[Block], places: Mapping[str, int], known: Known) -> Iterator[Told]:
    """What becomes of the rows that say anything, block by block; `places` are the columns by what they say."""
    begin = list(islice(blocks, 2))
    prices = [words for block in begin for words in block.column(places["price"]).words()]
    comma = sum(bool(_DECIMAL_COMMA.search(each)) for each in prices) > sum(bool(_DECIMAL_POINT.search(each)) for each in prices)
    for block in chain(begin, blocks):
        yield _told(block, places, known, comma=comma)


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
    amount = Decimal(f"{re.sub(r'[^0-9]', '', pounds)}.{pence}")
    if match[1].startswith("-") or not 0 < amount < 1_000_000:  # noqa: PLR2004
        return f'"{words[:30]}" is not a price to pay'
    return amount


def _told(block: Block, places: Mapping[str, int], known: Known, *, comma: bool) -> Told:
    """The fates of a block: told at once where the cells of a row will do as they stand, as most do; all others are looked into."""
    columns = {name: block.column(places.get(name)) for name in COLUMNS}
    codes, items = columns["code"].words(), columns["item"].words()
    prices, plain = _prices(columns["price"], comma=comma)
    packs, leasts = _counts(columns["pack"]), _counts(columns["least"])
    olds, said = list(map(known.offers.get, codes)), [""] * block.count
    fates: list[str] = []
    told = Told(range(block.first, block.first + block.count), codes, fates, said, items, packs, prices, leasts, olds)
    if all(plain) and None not in {*packs, *leasts} and _are_alike(told, known):
        return told
    first_of, have, twice = known.seen.setdefault, known.items, known.twice
    lines = zip(count(), told.rows, codes, prices, plain, packs, leasts, items, olds, strict=False)
    for place, number, code, price, sound, pack, least, item, old in lines:
        stands = first_of(code, number) if old or item else number
        will_do = sound and code and pack is not None and least is not None and (old or not item or item in have)
        if not will_do or stands != number or code in twice:
            words = block.row(place)
            prices[place], said[place] = _looked_into(words, places, known, stands if stands != number else 0, comma=comma)
            if said[place]:
                fates.append("refused" if any(words) else "")
                continue
        if old:
            _, _, length, was_pack, was_price, was_least = old
            packs[place] = now_pack = was_pack if length or not pack else pack
            leasts[place] = now_least = int(least) or was_least
            same = now_pack == was_pack and now_least == was_least and (price == was_price or float(prices[place]) == float(was_price))
            fates.append("unchanged" if same else "changed")
        elif item:
            packs[place], leasts[place] = pack or 1.0, int(least or 1)
            fates.append("new")
        else:
            fates.append("not used")
    return told.only(fates)


def _are_alike(told: Told, known: Known) -> bool:
    """Whether the codes of sound rows are all of things not kept, all new or all of one known offer each: then they are told in one go."""
    codes, items = told.codes, told.items
    if not all(codes):
        return False
    if not any(told.olds) and not any(items):
        told.fates[:] = ["not used"] * len(codes)
        return True
    each = set(codes)
    if len(each) < len(codes) or not known.seen.keys().isdisjoint(each):
        return False
    if all(told.olds) and known.twice.isdisjoint(each):
        _tell_known(told)
    elif not any(told.olds) and known.items.issuperset(items):
        _tell_new(told)
    else:
        return False
    known.seen.update(zip(codes, told.rows, strict=True))
    return True


def _tell_known(told: Told) -> None:
    """Of rows that are all of a known offer whether they change it."""
    packs, leasts = told.packs, told.leasts
    _, _, lengths, was_packs, was_prices, was_leasts = zip(*filter(None, told.olds), strict=True)
    if any(lengths) or not all(packs):
        packs[:] = [was if length or not pack else pack for pack, was, length in zip(packs, was_packs, lengths, strict=True)]
    leasts[:] = [int(least) or was for least, was in zip(leasts, was_leasts, strict=True)] if any(leasts) else was_leasts
    others: Iterable[bool] = map(ne, map(float, told.prices), map(float, was_prices))
    if packs != list(was_packs) or leasts != list(was_leasts):
        others = map(or_, others, map(or_, map(ne, packs, was_packs), map(ne, leasts, was_leasts)))
    told.fates[:] = ["changed" if each else "unchanged" for each in others]


def _tell_new(told: Told) -> None:
    """Of rows that are all new: a pack of one, from one on, unless they say more."""
    count = len(told.codes)
    if not all(told.packs):
        told.packs[:] = [pack or 1.0 for pack in told.packs]
    told.leasts[:] = [int(least or 1) for least in told.leasts] if any(told.leasts) else [1] * count
    told.fates[:] = ["new"] * count


def _prices(column: Cells, *, comma: bool) -> tuple[list[str], list[Any]]:
    """Prices as they are written, and of each whether it is one that is kept so."""
    kinds, cells = column
    if kinds == {float} and not comma and isfinite(sum(cells)) and min(cells) >= _LEAST_FIGURE and max(cells) <= _MOST_FIGURE:
        return ("%.10g " * len(cells) % tuple(cells)).split(), [True] * len(cells)
    words = column.words()
    return words, [False] * len(cells) if comma else list(map(_PLAIN.fullmatch, words))


def _counts(column: Cells) -> list[Any]:
    """A count for every cell, None where it is none: they are few that come again and again."""
    kinds, cells = column
    if kinds == {str} and not any(cells):
        return [0.0] * len(cells)
    if not kinds <= {str, float}:
        return [_count(words_of(cell)) for cell in cells]
    counted = {cell: _count(words_of(cell)) for cell in set(cells)}
    return [*counted.values()] * len(cells) if len(counted) == 1 else list(map(counted.__getitem__, cells))


def _looked_into(words: Sequence[str], places: Mapping[str, int], known: Known, stands: int, *, comma: bool) -> tuple[str, str]:
    """The price of a row as it is kept, and why the row is refused, if it is; `stands` is the row where its code stood already, or 0."""
    said = {name: words[place] for name, place in places.items() if place < len(words)}
    price = said.get("price", "")
    amount = money(price, comma=comma) if comma or not _PLAIN.fullmatch(price) else Decimal(price)
    of_price = amount if isinstance(amount, str) else ""
    return "" if of_price else str(amount), next(_reasons(said, known, stands, of_price), "")


def _reasons(said: Mapping[str, str], known: Known, stands: int, of_price: str) -> Iterator[str]:
    """All there is against a row, the plainest first."""
    code, _, pack, least, item = (said.get(name, "") for name in COLUMNS)
    if not code:
        yield f"{known.heads['code']} is blank"
    if stands:
        yield f"the code stands in row {stands} already"
    if of_price:
        yield f"{known.heads['price']} {of_price}"
    if code in known.twice:
        yield "you have this code for two items"
    if _count(pack) is None or _count(least) is None:
        yield _no_count(known.heads, pack, least)
    if item and code not in known.offers and item not in known.items:
        yield f'{known.heads["item"]} "{item[:40]}" is no item of the catalogue'


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
