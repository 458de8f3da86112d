"""The stock ledger: every movement is a row, and what is on hand is their sum, by item, place and the job it is kept for."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import asdict, dataclass
from datetime import datetime
from typing import TYPE_CHECKING, Any, Final

from tundish.catalogue.item import RackPiece
from tundish.store.shelf import SET_ASIDE

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from tundish.store.keep import Store

PLACES: Final = ("van", "lock-up", "site")
GOODS_IN: Final = "goods in"
USED: Final = "used"
RETURNED: Final = "returned"
STOCK_TAKE: Final = "stock-take"
PUT_BY: Final = "offcut put by"
SCRAPPED: Final = "scrapped"
MOVED: Final = "moved"
_NOUGHT: Final = 1e-6


@dataclass(frozen=True, slots=True)
class Movement:
    """One row of the ledger; `piece` is the key of the rack piece that moved, "" for what is counted."""

    id: int
    item: str
    amount: float
    what: str
    place: str
    job: str
    made: str
    note: str
    piece: str


@dataclass(frozen=True, slots=True)
class Holding:
    """So much of one item in one place, free (`job` "") or kept for a job; `since` is the day the last of it came."""

    item: str
    place: str
    job: str
    amount: float
    since: str


@dataclass(frozen=True, slots=True)
class Reorder:
    """Below `level` on hand and on order, `amount` is ordered."""

    item: str
    level: float
    amount: float


@dataclass(frozen=True, slots=True)
class Difference:
    """What a stock-take found: what the ledger said, what was counted, and why they differ."""

    item: str
    place: str
    said: float
    counted: float
    why: str
    job: str = ""


@dataclass(frozen=True, slots=True)
class Resized:
    """What was found of a rack piece, mm, and why it differs; length 0 is gone, width 0 a bar."""

    key: str
    length: float
    width: float
    why: str


class Ledger:
    """The ledger of an open store."""

    def __init__(self, store: Store) -> None:
        self._work = store.work

    def movements(self, item: str = "") -> tuple[Movement, ...]:
        """Every movement, oldest first; or those of one item."""

        def work(connection: Connection) -> tuple[Movement, ...]:
            from sqlalchemy import select

            from tundish.store.tables import movements

            query = select(movements).order_by(movements.c.id)
            rows = connection.execute(query.where(movements.c.item == item) if item else query)
            return tuple(Movement(**row._asdict()) for row in rows)

        return self._work(work)

    def on_hand(self) -> tuple[Holding, ...]:
        """What is counted, by item, place and job; holdings that come to nothing are left out."""

        def work(connection: Connection) -> tuple[Holding, ...]:
            from sqlalchemy import case, func, select

            from tundish.store.tables import movements

            c = movements.c
            came = func.max(case((c.amount > 0, c.made), else_=""))
            query = select(c.item, c.place, c.job, func.sum(c.amount).label("amount"), came.label("since"))
            rows = connection.execute(query.where(c.piece == "").group_by(c.item, c.place, c.job).order_by(c.item, c.place, c.job))
            made = (Holding(row.item, row.place, row.job, round(row.amount, 6), str(row.since)[:10]) for row in rows)
            return tuple(each for each in made if each.amount)

        return self._work(work)

    def move(self, item: str, amount: float, what: str, *, place: str = "van", job: str = "", note: str = "") -> str:
        """Add a movement; says so in a sentence where more was taken than is there, "" otherwise."""
        return self._work(lambda connection: add_movement(connection, _row(item, amount, what, place=place, job=job, note=note)))

    def shift(self, holding: Holding, to: str) -> str:
        """Carry a holding to another place."""

        def work(connection: Connection) -> str:
            rest = {"what": MOVED, "job": holding.job}
            add_movement(connection, _row(holding.item, -holding.amount, place=holding.place, **rest))
            return add_movement(connection, _row(holding.item, holding.amount, place=to, **rest))

        return self._work(work)

    def shift_piece(self, key: str, to: str) -> None:
        """Carry a piece of the rack to another place; it keeps its key."""

        def work(connection: Connection) -> None:
            from sqlalchemy import select, update

            from tundish.store.tables import rack

            was = connection.execute(select(rack).where(rack.c.key == key)).one()
            for amount, place in ((-1, was.place), (1, to)):
                add_movement(connection, _row(was.item, amount, MOVED, place=place, job=was.job) | {"piece": key})
            connection.execute(update(rack).where(rack.c.key == key).values(place=to))

        self._work(work)

    def let_go(self, holding: Holding) -> str:
        """Keep a holding for its job no longer: it is free for any."""

        def work(connection: Connection) -> str:
            note = f"no longer for job {holding.job}"
            add_movement(connection, _row(holding.item, -holding.amount, SET_ASIDE, place=holding.place, job=holding.job, note=note))
            return add_movement(connection, _row(holding.item, holding.amount, SET_ASIDE, place=holding.place, note=note))

        return self._work(work)

    def let_go_piece(self, key: str) -> None:
        """Keep a piece of the rack for its job no longer."""
        self._work(lambda connection: _keep_for(connection, (key,), ""))

    def set_aside(self, job: str, amounts: Mapping[str, float]) -> tuple[str, ...]:
        """Keep for a job, of what is free, as much of each item as is named here in all; gives what there was not enough of."""

        def work(connection: Connection) -> tuple[str, ...]:
            said = [_set_aside(connection, job, item, amount) for item, amount in amounts.items()]
            return tuple(words for words in said if words)

        return self._work(work)

    def put_by(self, piece: RackPiece, note: str = "") -> str:
        """Put an offcut on the rack under the next free key, which is given back."""

        def work(connection: Connection) -> str:
            from sqlalchemy import insert, select

            from tundish.store.tables import rack

            keys = connection.execute(select(rack.c.key)).scalars()
            key = f"R{max((int(one[1:]) for one in keys if one[:1] == 'R' and one[1:].isdecimal()), default=0) + 1}"
            connection.execute(insert(rack), [{**asdict(piece), "key": key, "made": now()}])
            row = _row(piece.item, 1, PUT_BY, place=piece.place, note=note)
            add_movement(connection, row | {"piece": key, "job": piece.job})
            return key

        return self._work(work)

    def take_piece(self, key: str, what: str, job: str = "", note: str = "") -> str:
        """Take a piece off the rack: used, scrapped, or not found; says so where it was not there."""
        return self._move_piece(key, -1, (what, note or (f"for job {job}" if job else "")))

    def put_back(self, key: str, what: str, note: str = "") -> str:
        """Put a piece that had left the rack on it again, under its key; says so where it is there."""
        return self._move_piece(key, 1, (what, note))

    def _move_piece(self, key: str, amount: int, why: tuple[str, str]) -> str:
        def work(connection: Connection) -> str:
            from sqlalchemy import select

            from tundish.store.tables import rack

            there = connection.execute(select(rack).where(rack.c.key == key)).first()
            if there is None:
                return f"There is no piece {key} on the rack."
            if (_sum(connection, {"piece": key}) < 1) == (amount < 0):
                return f"Piece {key} has left the rack already." if amount < 0 else f"Piece {key} is on the rack."
            row = _row(there.item, amount, why[0], place=there.place, note=why[1])
            return add_movement(connection, row | {"piece": key, "job": there.job})

        return self._work(work)

    def keep_pieces(self, job: str, keys: Collection[str]) -> None:
        """Keep these free pieces of the rack for a job, and let go of what else was kept for it."""

        def work(connection: Connection) -> None:
            from sqlalchemy import select

            from tundish.store.tables import rack

            kept = select(rack.c.key).where(rack.c.job == job, rack.c.key.not_in(keys))
            free = select(rack.c.key).where(rack.c.job == "", rack.c.key.in_(keys))
            for pieces, whose in ((kept, ""), (free, job)):
                _keep_for(connection, list(connection.execute(pieces).scalars()), whose)

        self._work(work)

    def pieces(self) -> tuple[tuple[RackPiece, str], ...]:
        """Every piece on the rack with the day it came, kept for a job or not."""

        def work(connection: Connection) -> tuple[tuple[RackPiece, str], ...]:
            from sqlalchemy import func, select

            from tundish.store.tables import movements, rack

            there = select(movements.c.piece).group_by(movements.c.piece).having(func.sum(movements.c.amount) > 0)
            rows = connection.execute(select(rack).where(rack.c.key.in_(there)).order_by(rack.c.item, rack.c.length.desc()))
            return tuple((RackPiece(row.key, row.item, row.length, row.width, row.place, row.job), row.made[:10]) for row in rows)

        return self._work(work)

    def take_stock(self, found: tuple[Difference, ...]) -> None:
        """Enter a stock-take: each difference becomes a movement that says what was there, what was counted and why."""

        def work(connection: Connection) -> None:
            for each in found:
                note = f"ledger {each.said:g}, counted {each.counted:g}: {each.why or 'not explained'}"
                if abs(each.counted - each.said) > _NOUGHT:
                    add_movement(
                        connection, _row(each.item, each.counted - each.said, STOCK_TAKE, place=each.place, job=each.job, note=note)
                    )

        self._work(work)

    def resize_pieces(self, found: tuple[Resized, ...]) -> None:
        """Enter what was found on the rack: what is gone leaves it, what is of another size keeps its key; the ledger says what it was."""

        def work(connection: Connection) -> None:
            from sqlalchemy import select, update

            from tundish.store.tables import rack

            for each in found:
                was = connection.execute(select(rack).where(rack.c.key == each.key)).one()
                if (was.length, was.width) == (each.length, each.width):
                    continue
                sizes = (_size(was.length, was.width), _size(each.length, each.width) if each.length else "gone")
                note = f"rack {sizes[0]}, found {sizes[1]}: {each.why or 'not explained'}"
                row = _row(was.item, -1, STOCK_TAKE, place=was.place, note=note) | {"piece": each.key, "job": was.job}
                add_movement(connection, row)
                if each.length:
                    connection.execute(update(rack).where(rack.c.key == each.key).values(length=each.length, width=each.width))
                    add_movement(connection, row | {"amount": 1.0})

        self._work(work)

    def reorders(self) -> Mapping[str, Reorder]:
        """The reorder levels that are set, by item."""

        def work(connection: Connection) -> Mapping[str, Reorder]:
            from sqlalchemy import select

            from tundish.store.tables import reorder

            return {
                row.item: Reorder(row.item, row.level, row.amount) for row in connection.execute(select(reorder).order_by(reorder.c.item))
            }

        return self._work(work)

    def set_reorder(self, wanted: Reorder) -> None:
        """Set an item's reorder level and amount; an amount of 0 takes it away."""

        def work(connection: Connection) -> None:
            from sqlalchemy import delete, insert

            from tundish.store.tables import reorder

            connection.execute(delete(reorder).where(reorder.c.item == wanted.item))
            if wanted.amount > 0:
                connection.execute(insert(reorder), [asdict(wanted)])

        self._work(work)


def add_movement(connection: Connection, row: Mapping[str, Any]) -> str:
    """Add one row within a transaction; says so where the holding it takes from goes below nought."""
    from sqlalchemy import insert

    from tundish.store.tables import movements

    connection.execute(insert(movements), [{"made": now(), "note": "", "piece": "", "job": "", **row}])
    whose = {name: row.get(name, "") for name in ("item", "place", "job", "piece")}
    left = _sum(connection, whose)
    if row["amount"] >= 0 or left >= -_NOUGHT:
        return ""
    return f"{-left:g} more of {row['item']} {'was' if left >= -1 else 'were'} taken from {row['place']} than the ledger has there."


def now() -> str:
    """This moment, as the ledger writes it."""
    return datetime.now().isoformat(timespec="seconds")


def _row(item: str, amount: float, what: str, *, place: str, job: str = "", note: str = "") -> dict[str, Any]:
    return {"item": item, "amount": amount, "what": what, "place": place, "job": job, "note": note}


def _size(length: float, width: float) -> str:
    return f"{length:g}" + (f" × {width:g}" if width else "")


def _sum(connection: Connection, whose: Mapping[str, str]) -> float:
    from sqlalchemy import func, select

    from tundish.store.tables import movements

    query = select(func.sum(movements.c.amount))
    for name, value in whose.items():
        query = query.where(movements.c[name] == value)
    return float(connection.execute(query).scalar() or 0)


def _keep_for(connection: Connection, keys: Collection[str], job: str) -> None:
    from sqlalchemy import update

    from tundish.store.tables import movements, rack

    connection.execute(update(rack).where(rack.c.key.in_(keys)).values(job=job))
    connection.execute(update(movements).where(movements.c.piece.in_(keys)).values(job=job))


def _set_aside(connection: Connection, job: str, item: str, amount: float) -> str:
    more = amount - _sum(connection, {"item": item, "job": job, "what": SET_ASIDE})
    places = [(place, _sum(connection, {"item": item, "place": place, "job": "", "piece": ""})) for place in _places(connection, item)]
    for place, there in places:
        part = min(more, there)
        if part > _NOUGHT:
            add_movement(connection, _row(item, -part, SET_ASIDE, place=place, note=f"for job {job}"))
            add_movement(connection, _row(item, part, SET_ASIDE, place=place, job=job))
            more -= part
    return f"{more:g} of {item} wanted for job {job} is not there." if more > _NOUGHT else ""


def _places(connection: Connection, item: str) -> list[str]:
    from sqlalchemy import select

    from tundish.store.tables import movements

    query = select(movements.c.place).where(movements.c.item == item, movements.c.job == "", movements.c.piece == "").distinct()
    return sorted(connection.execute(query).scalars())
