"""The catalogue's tables as records: one reader a file. Each record is kept with its place, file and row, until it is checked."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final, Literal, TypeAlias, TypeVar, cast

from tundish.catalogue.item import End, Item, KitPart, Offer, RackPiece, Supplier
from tundish.catalogue.kind import Kind, kinds_from
from tundish.catalogue.table import Row, day, money, number, read_groups, read_rows, whole, words
from tundish.field import Problem

R = TypeVar("R")
Placed: TypeAlias = tuple[str, R]
"""A record with its file and row."""


@dataclass(frozen=True, slots=True)
class Parts:
    """All that the tables say. Ends stand in their items and, to be checked, by item here; roles, kits and stock are pairs."""

    kinds: Mapping[str, Kind]
    items: tuple[Placed[Item], ...]
    ends: tuple[Placed[str], ...]
    roles: tuple[Placed[tuple[str, str]], ...]
    kits: tuple[Placed[tuple[str, KitPart]], ...]
    suppliers: tuple[Placed[Supplier], ...]
    offers: tuple[Placed[Offer], ...]
    stock: tuple[Placed[tuple[str, float]], ...]
    rack: tuple[Placed[RackPiece], ...]


def read_parts(folder: Path, problems: list[Problem]) -> Parts:
    """Every table of the catalogue's folder."""
    kinds = kinds_from(read_groups(folder / "kinds.toml", problems), "kinds.toml", problems)
    if not kinds:  # nothing else could be judged
        return Parts(kinds, (), (), (), (), (), (), (), ())
    ends = _ends(folder, problems)
    by_item: dict[str, tuple[End, ...]] = {}
    for _, (item, end) in ends:
        by_item[item] = (*by_item.get(item, ()), end)
    return Parts(
        kinds,
        _items(folder / "items", kinds, by_item, problems),
        tuple((place, item) for place, (item, _) in ends),
        tuple((row.place, _role(row, problems)) for row in _rows(folder / "roles.csv", problems)),
        tuple((row.place, _kit(row, problems)) for row in _rows(folder / "kits.csv", problems)),
        _suppliers(folder, problems),
        tuple((row.place, _offer(row, problems)) for row in _rows(folder / "offers.csv", problems)),
        tuple((row.place, _stock(row, problems)) for row in _rows(folder / "stock.csv", problems)),
        tuple((row.place, _piece(row, problems)) for row in _rows(folder / "rack.csv", problems)),
    )


_COLUMNS: Final[Mapping[str, tuple[str, ...]]] = {
    "ends.csv": ("item", "end", "system", "nominal", "gender", "standard"),
    "roles.csv": ("role", "item"),
    "kits.csv": ("kit", "part", "amount"),
    "offers.csv": ("item", "supplier", "code", "pack", "price", "valid_from", "length", "width"),
    "stock.csv": ("item", "amount"),
    "rack.csv": ("key", "item", "length", "width", "place"),
}
_ITEM_COLUMNS: Final = ("code", "name", "kind", "sheet")
_SUPPLIER_KEYS: Final = ("name", "phone", "address", "account", "carriage", "free_above", "lead_days")


def _rows(path: Path, problems: list[Problem]) -> tuple[Row, ...]:
    return read_rows(path, _COLUMNS[path.name], problems)


def _items(
    folder: Path, kinds: Mapping[str, Kind], ends: Mapping[str, tuple[End, ...]], problems: list[Problem]
) -> tuple[Placed[Item], ...]:
    paths = sorted(folder.glob("*.csv"))
    if not paths:
        problems.append(Problem("items", "is missing: the folder with one CSV file for each family of items"))
    columns = tuple(dict.fromkeys(column for kind in kinds.values() for column in kind.columns))
    found = []
    for path in paths:
        for row in read_rows(path, _ITEM_COLUMNS, problems, columns):
            item = _item(row, kinds, problems)
            found.append((row.place, replace(item, ends=ends.get(item.code, ()))))
    return tuple(found)


def _item(row: Row, kinds: Mapping[str, Kind], problems: list[Problem]) -> Item:
    code, name, of = (words(row, each, problems) for each in ("code", "name", "kind"))
    kind = kinds.get(of)
    if kind is None:
        problems.append(Problem(row.place, f'kind: "{of}" is not in kinds.toml'))
        return Item(code, name, of, "", "each", {}, words={})
    sizes = {size: (number(row, size, problems, signed=size in kind.signed), unit) for size, unit in kind.sizes.items()}
    sizes |= {size: (number(row, size, problems), unit) for size, unit in kind.may.items() if row.cells.get(size)}
    problems += [
        Problem(row.place, f"{column} is not a size or word of a {of}; empty the cell or add it to kinds.toml")
        for column, cell in row.cells.items()
        if cell and column not in _ITEM_COLUMNS and column not in kind.columns
    ]
    said = {word: words(row, word, problems) for word in kind.words}
    return Item(code, name, of, kind.group, kind.unit, sizes, words=said, sheet=row.cells.get("sheet", ""))


def _ends(folder: Path, problems: list[Problem]) -> list[Placed[tuple[str, End]]]:
    """The ends with their items, in order; their real diameters are in systems.toml."""
    systems = read_groups(folder / "systems.toml", problems)
    found: list[Placed[tuple[str, End]]] = []
    counts: dict[str, int] = {}
    for row in _rows(folder / "ends.csv", problems):
        item, system, nominal = words(row, "item", problems), words(row, "system", problems), words(row, "nominal", problems)
        counts[item] = counts.get(item, 0) + 1
        if whole(row, "end", problems) != counts[item]:
            problems.append(Problem(row.place, f"end: the ends of {item} are numbered 1, 2, 3 in order; this should be {counts[item]}"))
        sizes = systems.get(system)
        diameter = sizes.get(nominal) if isinstance(sizes, dict) else None
        if not isinstance(diameter, int | float) or diameter <= 0:
            problems.append(Problem(row.place, f"{system} {nominal} is not in systems.toml with its outside diameter"))
            diameter = 0.0
        gender = words(row, "gender", problems)
        if gender not in {"male", "female"}:
            problems.append(Problem(row.place, f'gender: "{gender}" should be male or female'))
        either = cast("Literal['male', 'female']", gender)
        found.append((row.place, (item, End(system, nominal, float(diameter), either, row.cells.get("standard", "")))))
    return found


def _role(row: Row, problems: list[Problem]) -> tuple[str, str]:
    return words(row, "role", problems), words(row, "item", problems)


def _kit(row: Row, problems: list[Problem]) -> tuple[str, KitPart]:
    return words(row, "kit", problems), KitPart(words(row, "part", problems), number(row, "amount", problems))


def _suppliers(folder: Path, problems: list[Problem]) -> tuple[Placed[Supplier], ...]:
    found = []
    for key, group in read_groups(folder / "suppliers.toml", problems).items():
        said = group if isinstance(group, dict) else {}
        row = Row(f"suppliers.toml [{key}]", {name: str(value) for name, value in said.items()})
        problems += [Problem(row.place, f"{name} is not known here") for name in row.cells if name not in _SUPPLIER_KEYS]
        name, phone, address, account = (words(row, each, problems) for each in _SUPPLIER_KEYS[:4])
        carriage, free = (money(row, each, problems, free=True) for each in ("carriage", "free_above"))
        found.append((row.place, Supplier(key, name, phone, address, account, carriage, free, whole(row, "lead_days", problems))))
    return tuple(found)


def _offer(row: Row, problems: list[Problem]) -> Offer:
    return Offer(
        item=words(row, "item", problems),
        supplier=words(row, "supplier", problems),
        code=words(row, "code", problems),
        pack=number(row, "pack", problems),
        price=money(row, "price", problems),
        valid_from=day(row, "valid_from", problems),
        length=_if_given(row, "length", problems),
        width=_if_given(row, "width", problems),
    )


def _stock(row: Row, problems: list[Problem]) -> tuple[str, float]:
    return words(row, "item", problems), number(row, "amount", problems)


def _piece(row: Row, problems: list[Problem]) -> RackPiece:
    key, item, place = (words(row, name, problems) for name in ("key", "item", "place"))
    return RackPiece(key, item, number(row, "length", problems), _if_given(row, "width", problems), place)


def _if_given(row: Row, name: str, problems: list[Problem]) -> float:
    return number(row, name, problems) if row.cells.get(name) else 0.0
