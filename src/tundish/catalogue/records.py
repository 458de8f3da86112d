"""The catalogue's tables as records: one reader a file. Each record is kept with its place, file and row, until it is checked."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from pathlib import Path
from typing import Any, Final, Literal, TypeAlias, TypeVar, cast

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


@dataclass(frozen=True, slots=True)
class Raw:
    """The rows of every table as they were read, with the kinds and the sizes of the jointing systems that they are judged by."""

    kinds: Mapping[str, Kind]
    systems: Mapping[str, Any]
    rows: Mapping[str, tuple[Row, ...]]

    def of(self, table: str) -> tuple[Row, ...]:
        """The rows of one table, none where there is no such table."""
        return self.rows.get(table, ())


COLUMNS: Final[Mapping[str, tuple[str, ...]]] = {
    "ends": ("item", "end", "system", "nominal", "gender", "standard"),
    "roles": ("role", "item"),
    "kits": ("kit", "part", "amount"),
    "offers": ("item", "supplier", "code", "pack", "price", "valid_from", "length", "width"),
    "stock": ("item", "amount"),
    "rack": ("key", "item", "length", "width", "place"),
}
MAY: Final[Mapping[str, tuple[str, ...]]] = {"offers": ("least", "breaks", "valid_to", "lead_days")}
ITEM_COLUMNS: Final = ("code", "name", "kind", "sheet")
SUPPLIER_KEYS: Final = ("name", "phone", "address", "account", "carriage", "free_above", "lead_days")


def read_parts(folder: Path, problems: list[Problem]) -> Parts:
    """Every table of the catalogue's folder."""
    return parts_of(read_raw(folder, problems), problems)


def read_raw(folder: Path, problems: list[Problem]) -> Raw:
    """The rows of the catalogue's folder, not judged yet."""
    kinds = kinds_from(read_groups(folder / "kinds.toml", problems), "kinds.toml", problems)
    if not kinds:  # nothing else could be judged
        return Raw(kinds, {}, {})
    rows = {"items": _item_rows(folder / "items", kinds, problems), "suppliers": _supplier_rows(folder, problems)}
    rows |= {name: read_rows(folder / f"{name}.csv", columns, problems, MAY.get(name, ())) for name, columns in COLUMNS.items()}
    return Raw(kinds, read_groups(folder / "systems.toml", problems), rows)


def parts_of(raw: Raw, problems: list[Problem]) -> Parts:
    """The records that rows give."""
    ends = _ends(raw, problems)
    by_item: dict[str, tuple[End, ...]] = {}
    for _, (item, end) in ends:
        by_item[item] = (*by_item.get(item, ()), end)
    items = ((row.place, _item(row, raw.kinds, problems)) for row in raw.of("items"))
    return Parts(
        raw.kinds,
        tuple((place, replace(item, ends=by_item.get(item.code, ()))) for place, item in items),
        tuple((place, item) for place, (item, _) in ends),
        tuple((row.place, _role(row, problems)) for row in raw.of("roles")),
        tuple((row.place, _kit(row, problems)) for row in raw.of("kits")),
        tuple((row.place, supplier_of(row, problems)) for row in raw.of("suppliers")),
        tuple((row.place, _offer(row, problems)) for row in raw.of("offers")),
        tuple((row.place, _stock(row, problems)) for row in raw.of("stock")),
        tuple((row.place, _piece(row, problems)) for row in raw.of("rack")),
    )


def supplier_of(row: Row, problems: list[Problem]) -> Supplier:
    """The supplier that a row gives; telephone, address and account may be blank."""
    problems += [Problem(row.place, f"{name} is not known here") for name in row.cells if name not in {"key", *SUPPLIER_KEYS}]
    key, name = words(row, "key", problems), words(row, "name", problems)
    phone, address, account = (row.cells.get(each, "") for each in SUPPLIER_KEYS[1:4])
    carriage, free = (money(row, each, problems, free=True) for each in ("carriage", "free_above"))
    return Supplier(key, name, phone, address, account, carriage, free, whole(row, "lead_days", problems))


def item_columns(kinds: Mapping[str, Kind]) -> tuple[str, ...]:
    """Every column that the row of an item may fill besides those it must."""
    return tuple(dict.fromkeys(column for kind in kinds.values() for column in kind.columns))


def _item_rows(folder: Path, kinds: Mapping[str, Kind], problems: list[Problem]) -> tuple[Row, ...]:
    paths = sorted(folder.glob("*.csv"))
    if not paths:
        problems.append(Problem("items", "is missing: the folder with one CSV file for each family of items"))
    return tuple(row for path in paths for row in read_rows(path, ITEM_COLUMNS, problems, item_columns(kinds)))


def _supplier_rows(folder: Path, problems: list[Problem]) -> tuple[Row, ...]:
    rows = []
    for key, group in read_groups(folder / "suppliers.toml", problems).items():
        said = group if isinstance(group, dict) else {}
        rows.append(Row(f"suppliers.toml [{key}]", {"key": key, **{name: str(value) for name, value in said.items()}}))
    return tuple(rows)


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
        if cell and column not in ITEM_COLUMNS and column not in kind.columns
    ]
    said = {word: words(row, word, problems) for word in kind.words}
    return Item(code, name, of, kind.group, kind.unit, sizes, words=said, sheet=row.cells.get("sheet", ""))


def _ends(raw: Raw, problems: list[Problem]) -> list[Placed[tuple[str, End]]]:
    """The ends with their items, in order; their real diameters are in systems.toml."""
    found: list[Placed[tuple[str, End]]] = []
    counts: dict[str, int] = {}
    for row in raw.of("ends"):
        item, system, nominal = words(row, "item", problems), words(row, "system", problems), words(row, "nominal", problems)
        counts[item] = counts.get(item, 0) + 1
        if whole(row, "end", problems) != counts[item]:
            problems.append(Problem(row.place, f"end: the ends of {item} are numbered 1, 2, 3 in order; this should be {counts[item]}"))
        sizes = raw.systems.get(system)
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
        least=whole(row, "least", problems) if row.cells.get("least") else 1,
        breaks=_breaks(row, problems),
        valid_to=day(row, "valid_to", problems) if row.cells.get("valid_to") else "",
        lead_days=whole(row, "lead_days", problems) if row.cells.get("lead_days") else None,
    )


def _breaks(row: Row, problems: list[Problem]) -> tuple[tuple[int, Decimal], ...]:
    """Prices from so many packs on, as "10: 4.20; 50: 3.90"."""
    found = []
    for part in filter(None, (each.strip() for each in row.cells.get("breaks", "").split(";"))):
        packs, _, price = (each.strip() for each in part.partition(":"))
        one = Row(row.place, {"breaks, packs": packs, "breaks, price": price})
        found.append((whole(one, "breaks, packs", problems), money(one, "breaks, price", problems)))
    return tuple(found)


def _stock(row: Row, problems: list[Problem]) -> tuple[str, float]:
    return words(row, "item", problems), number(row, "amount", problems)


def _piece(row: Row, problems: list[Problem]) -> RackPiece:
    key, item, place = (words(row, name, problems) for name in ("key", "item", "place"))
    return RackPiece(key, item, number(row, "length", problems), _if_given(row, "width", problems), place)


def _if_given(row: Row, name: str, problems: list[Problem]) -> float:
    return number(row, name, problems) if row.cells.get(name) else 0.0
