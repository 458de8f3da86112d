"""Suppliers added, changed and taken out: judged as those of the catalogue are; orders, prices and offers of theirs are never lost."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import TYPE_CHECKING, Final

from tundish import measure
from tundish.catalogue.records import supplier_of
from tundish.catalogue.sheets import money_words
from tundish.catalogue.table import Row
from tundish.field import Problem
from tundish.store import shelf
from tundish.store.price_fates import COLUMNS
from tundish.store.price_list import keep_columns
from tundish.store.wishes import wish

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from tundish.catalogue.item import Supplier
    from tundish.store.keep import Store

CELLS: Final = ("name", "account", "phone", "address", "carriage", "free_above", "lead_days")
"""What is typed of a supplier, by the names of its fields."""
NOT_IN_IT: Final = "–"
"""What is typed for a column that its price list does not have."""
_LONGEST: Final = 24
_LATEST: Final = 365
_BLANK: Final = {"carriage": "0", "free_above": "0", "lead_days": "0"}


def cells_of(supplier: Supplier) -> dict[str, str]:
    """A supplier as it is typed; the lines of its address with commas between."""
    return {name: str(getattr(supplier, name)).replace("\n", ", ") for name in CELLS}


def keep_supplier(store: Store, cells: Mapping[str, str], key: str = "") -> tuple[str, tuple[Problem, ...]]:
    """Keep a supplier as typed, "" for a new one; gives its key, which stays whatever it is called. With any problem nothing is changed.

    Carriage, the amount above which it is free and the days to come are nought where they are left blank.
    """
    book = store.book()
    name = " ".join(cells.get("name", "").split())
    given = {**_BLANK, **{each: words for each in CELLS if (words := cells.get(each, "").strip())}, "name": name}
    for each in ("carriage", "free_above"):
        read = measure.read_money(given[each])
        given[each] = given[each] if read.value is None else money_words(read.value)
    given["address"] = "\n".join(part.strip() for part in given.get("address", "").split(",") if part.strip())
    problems: list[Problem] = []
    made = supplier_of(Row("supplier", {"key": key or _new_key(name, book.suppliers), **given}), problems)
    if made.lead_days > _LATEST:
        problems.append(Problem("supplier", f"lead_days: {made.lead_days} is more than a year"))
    if any(each.key != key and each.name.casefold() == name.casefold() for each in book.suppliers.values()):
        problems.append(Problem("supplier", f"there is a supplier called {name} already"))
    if problems:
        return key, tuple(problems)

    def work(connection: Connection) -> None:
        from sqlalchemy import insert, update

        from tundish.store.tables import suppliers

        body = shelf.supplier_body(made)
        if key in book.suppliers:
            connection.execute(update(suppliers).where(suppliers.c.key == key).values(body=body))
        else:
            connection.execute(insert(suppliers), [{"key": made.key, "body": body}])

    store.work(work)
    return made.key, ()


def take_out(store: Store, key: str) -> bool:
    """Buy from a supplier no more; gives whether it is gone altogether, as one is that sells nothing and was never sent an order.

    Otherwise it stays with its offers, prices and orders, and can be taken back.
    """

    def work(connection: Connection) -> bool:
        from sqlalchemy import delete, select

        from tundish.store.tables import imports, offers, orders, suppliers

        tables = (offers, orders, imports)
        if any(connection.execute(select(each.c.id).where(each.c.supplier == key).limit(1)).first() for each in tables):
            return False
        connection.execute(delete(suppliers).where(suppliers.c.key == key))
        return True

    gone = store.work(work)
    wish(store, key, never=not gone)
    return gone


def take_back(store: Store, key: str) -> None:
    """Buy from a supplier again."""
    wish(store, key)


def typed_columns(columns: Mapping[str, str]) -> dict[str, str]:
    """The heads of a supplier's price list as they are typed: blank where they are known by their usual names."""
    return {name: (columns[name] or NOT_IN_IT) if name in columns else "" for name in COLUMNS}


def wrong_columns(typed: Mapping[str, str]) -> str:
    """Why heads of a price list cannot be as typed, in words; nothing where they can."""
    said = _said(typed)
    missing = [name for name in ("code", "price") if said.get(name) == NOT_IN_IT]
    if missing:
        return f"Every price list has a column for the {' and the '.join(missing)}: type its head, or leave it blank"
    heads = [words.casefold() for words in said.values() if words != NOT_IN_IT]
    return "Two columns of the price list have one head: each is under its own" if len(heads) != len(set(heads)) else ""


def keep_typed_columns(store: Store, key: str, typed: Mapping[str, str]) -> None:
    """Remember the heads of a supplier's price list as typed."""
    keep_columns(store, key, {name: "" if words == NOT_IN_IT else words for name, words in _said(typed).items()})


def _said(typed: Mapping[str, str]) -> dict[str, str]:
    return {name: words.strip() for name, words in typed.items() if words.strip()}


def _new_key(name: str, taken: Mapping[str, object]) -> str:
    """A key of plain letters made of a name, unlike all others."""
    plain = "-".join(re.findall(r"[a-z0-9]+", name.lower()))[:_LONGEST].strip("-") or "supplier"
    count, key = 1, plain
    while key in taken:
        count += 1
        key = f"{plain}-{count}"
    return key
