"""The catalogue, offers, stock and the trader's own changes in the database, and the book made of them."""

from __future__ import annotations

import dataclasses
from collections import defaultdict
from collections.abc import Mapping
from decimal import Decimal
from typing import TYPE_CHECKING, Any, Final, cast

from tundish.catalogue.book import Book, RuleFigure
from tundish.catalogue.crew import Crew
from tundish.catalogue.item import End, Item, KitPart, Offer, RackPiece, Supplier, Unit
from tundish.catalogue.own_rules import OwnRules
from tundish.catalogue.trader import Trader
from tundish.plain import from_plain

if TYPE_CHECKING:
    from sqlalchemy import Connection

SET_ASIDE: Final = "set aside"
"""The movement that keeps for a job what was free."""
CREW: Final = "crew"
OWN_RULES: Final = "own rules"
"""The setting that holds the trader's own rules."""
TAKEN_NORMS: Final = "norms taken over"
"""The setting that says which norms were taken over from finished jobs, when, and what they were."""
WISHES: Final = "buying wishes"
"""The setting that holds favourites and what is never bought."""


def used_up_in(job: str) -> str:
    """What the movement of a piece of the rack says that was used up when its job was done."""
    return f"used up, job {job} done"


def fill(connection: Connection, book: Book, day: str) -> None:
    """Put a whole supplied book into empty tables, its stock as the first movements."""
    from sqlalchemy import insert

    from tundish.store import tables

    rows: list[tuple[Any, list[dict[str, Any]]]] = [
        (tables.items, [{"code": one.code, "kind": one.kind, "body": item_body(one)} for one in book.items.values()]),
        (tables.roles, [{"role": role, "item": code} for role, code in book.roles.items()]),
        (tables.kits, [{"kit": kit, "item": part.item, "amount": part.amount} for kit, parts in book.kits.items() for part in parts]),
        (tables.suppliers, [{"key": one.key, "body": supplier_body(one)} for one in book.suppliers.values()]),
        (tables.offers, [offer_row(one) for offers in book.offers.values() for one in offers]),
        (tables.rack, [{**dataclasses.asdict(one), "made": day} for one in book.rack]),
        (tables.movements, [_first(code, amount, day) for code, amount in book.stock.items()]),
        (tables.movements, [_first(one.item, 1, day, piece=one.key, place=one.place) for one in book.rack]),
    ]
    for table, values in rows:
        if values:
            connection.execute(insert(table), values)


def is_filled(connection: Connection) -> bool:
    """Whether there is a catalogue."""
    from sqlalchemy import select

    from tundish.store import tables

    return connection.execute(select(tables.items.c.code).limit(1)).first() is not None


def read(connection: Connection, figures: Mapping[str, RuleFigure], day: str, job: str = "") -> Book:
    """The book as the database has it now: supplied rule figures with the trader's changes, prices, stock and rack for a job."""
    from sqlalchemy import select

    from tundish.store import tables

    run = connection.execute
    kits: dict[str, list[KitPart]] = defaultdict(list)
    for row in run(select(tables.kits).order_by(tables.kits.c.kit, tables.kits.c.item)):
        kits[row.kit].append(KitPart(row.item, row.amount))
    offers: dict[str, list[Offer]] = defaultdict(list)
    for row in run(select(tables.offers).order_by(tables.offers.c.id)):
        offers[row.item].append(offer_of(row))
    wishes = setting(connection, WISHES) or {}
    trader, _, _ = from_plain(Trader, setting(connection, "trader") or {})
    crew, _, _ = from_plain(Crew, setting(connection, CREW) or {})
    own, _, _ = from_plain(OwnRules, setting(connection, OWN_RULES) or {})
    return Book(
        items={row.code: _item(row.code, row.kind, row.body) for row in run(select(tables.items).order_by(tables.items.c.code))},
        roles={row.role: row.item for row in run(select(tables.roles))},
        kits={kit: tuple(parts) for kit, parts in kits.items()},
        suppliers={row.key: _supplier(row.key, row.body) for row in run(select(tables.suppliers).order_by(tables.suppliers.c.key))},
        offers={item: tuple(rows) for item, rows in offers.items()},
        figures=_overruled(connection, figures),
        stock=_stock(connection, job),
        rack=_rack(connection, job),
        date=day,
        trader=trader or Trader(),
        favourites=frozenset(wishes.get("favourites", ())),
        never=frozenset(wishes.get("never", ())),
        own_rules=own.rules if own else (),
        crew=crew or Crew(),
    )


def offer_of(row: Any) -> Offer:
    """An offer from its row."""
    breaks = tuple((int(number), Decimal(price)) for number, price in row.breaks)
    terms = (row.length, row.width, row.least, breaks, row.valid_to, row.lead_days)
    return Offer(row.item, row.supplier, row.code, row.pack, Decimal(row.price), row.valid_from, *terms)


def offer_row(offer: Offer) -> dict[str, Any]:
    """The row of an offer."""
    breaks = [[number, str(price)] for number, price in offer.breaks]
    # Its fields are read one by one: a price list has tens of thousands of rows.
    return {name: getattr(offer, name) for name in _OFFER} | {"price": str(offer.price), "breaks": breaks}


_OFFER: Final = tuple(Offer.__dataclass_fields__)


def setting(connection: Connection, key: str) -> Any:
    """A setting as it was kept, or None."""
    from sqlalchemy import select

    from tundish.store import tables

    return connection.execute(select(tables.settings.c.body).where(tables.settings.c.key == key)).scalar()


def keep_setting(connection: Connection, key: str, body: object) -> None:
    """Keep a setting in place of what it was."""
    from sqlalchemy import delete, insert

    from tundish.store import tables

    connection.execute(delete(tables.settings).where(tables.settings.c.key == key))
    connection.execute(insert(tables.settings), [{"key": key, "body": body}])


def _overruled(connection: Connection, figures: Mapping[str, RuleFigure]) -> dict[str, RuleFigure]:
    from sqlalchemy import select

    from tundish.store import tables

    made = dict(figures)
    taken = {(key, value): each["jobs"] for each in setting(connection, TAKEN_NORMS) or () for key, value in each["now"].items()}
    for row in connection.execute(select(tables.overruled)):
        if row.key in made:
            jobs = taken.get((row.key, row.value), 0)
            made[row.key] = dataclasses.replace(made[row.key], value=row.value, changed=row.changed, from_jobs=jobs)
    return made


def item_body(item: Item) -> dict[str, Any]:
    """What the row of an item says besides its code and kind."""
    ends = [dataclasses.asdict(end) for end in item.ends]
    sizes = {name: list(size) for name, size in item.sizes.items()}
    return {
        "name": item.name,
        "group": item.group,
        "unit": item.unit,
        "sizes": sizes,
        "ends": ends,
        "words": dict(item.words),
        "sheet": item.sheet,
    }


def _item(code: str, kind: str, body: Mapping[str, Any]) -> Item:
    sizes = {name: (float(value), str(unit)) for name, (value, unit) in body["sizes"].items()}
    ends = tuple(End(**end) for end in body["ends"])
    return Item(code, body["name"], kind, body["group"], cast("Unit", body["unit"]), sizes, ends, body["words"], body["sheet"])


def supplier_body(supplier: Supplier) -> dict[str, Any]:
    """What the row of a supplier says besides its key."""
    body = dataclasses.asdict(supplier)
    return {**body, "carriage": str(supplier.carriage), "free_above": str(supplier.free_above)}


def _supplier(key: str, body: Mapping[str, Any]) -> Supplier:
    return Supplier(**{**body, "key": key, "carriage": Decimal(body["carriage"]), "free_above": Decimal(body["free_above"])})


def _stock(connection: Connection, job: str) -> dict[str, float]:
    """What a job may take: all that is free, and what was set aside for it from what was free, used already or not.

    Of what was ordered for it nothing more is taken that is free: it is bought, and comes or came.
    """
    from sqlalchemy import and_, func, or_, select

    from tundish.store.tables import movements, order_lines, orders

    bought = select(order_lines.c.item).join(orders).where(orders.c.job == job, orders.c.sent != "")
    bought = bought.where(order_lines.c.packs > order_lines.c.short + order_lines.c.returned)
    free = movements.c.job == ""
    aside = and_(movements.c.job == job, movements.c.what == SET_ASIDE)
    mine = select(movements.c.item, func.sum(movements.c.amount).label("amount"))
    whose = or_(and_(free, movements.c.item.not_in(bought)), aside) if job else free
    mine = mine.where(movements.c.piece == "", whose).group_by(movements.c.item)
    return {row.item: amount for row in connection.execute(mine) if (amount := round(row.amount, 6))}


def _rack(connection: Connection, job: str) -> tuple[RackPiece, ...]:
    """The pieces that are there and not kept for another job, and those that this job was done with: it needs no others for them."""
    from sqlalchemy import func, or_, select

    from tundish.store.tables import movements, rack

    there = select(movements.c.piece).where(movements.c.piece != "").group_by(movements.c.piece).having(func.sum(movements.c.amount) > 0)
    used = select(movements.c.piece).where(movements.c.note == used_up_in(job), movements.c.amount < 0)
    here = rack.c.key.in_(there) & rack.c.job.in_(("", job))
    rows = connection.execute(select(rack).where(or_(here, rack.c.key.in_(used)) if job else here).order_by(rack.c.key))
    return tuple(RackPiece(row.key, row.item, row.length, row.width, row.place, row.job) for row in rows)


def _first(code: str, amount: float, day: str, *, piece: str = "", place: str = "van") -> dict[str, Any]:
    row = {"item": code, "amount": amount, "what": "stock-take", "place": place, "job": "", "made": day}
    return row | {"note": "first stock", "piece": piece}
