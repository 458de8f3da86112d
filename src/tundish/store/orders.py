"""Orders to suppliers: drafted, sent, in by line; what changes after sending makes a second order, never a silent edit."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import asdict, dataclass
from decimal import Decimal
from typing import TYPE_CHECKING, Any

from tundish.errors import TundishError
from tundish.measure import show_date
from tundish.procurement.outstanding import Ordered
from tundish.procurement.purchase import Pick
from tundish.store.ledger import GOODS_IN, RETURNED, add_movement, now

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from tundish.store.keep import Store


class WasSentError(TundishError):
    """An order that was sent cannot be changed."""

    def __init__(self, number: str) -> None:
        super().__init__(f"Order {number} has been sent: what is wanted besides goes on a further order.")


class WasTakenInError(TundishError):
    """A file was taken in before: on which day."""

    def __init__(self, number: str, day: str) -> None:
        super().__init__(f"The goods that this file says came for order {number} were taken in already, on {day}.")
        self.day = day


@dataclass(frozen=True, slots=True)
class OrderLine:
    """One line: packs asked for, how many came, how many will not come, how many went back, and the credit for those."""

    id: int
    item: str
    code: str
    pack: float
    price: Decimal
    length: float
    width: float
    packs: int
    came: int = 0
    short: int = 0
    returned: int = 0
    credit: Decimal = Decimal(0)

    @property
    def coming(self) -> int:
        """Packs still to come."""
        return max(self.packs - self.came - self.short, 0)


@dataclass(frozen=True, slots=True)
class SentOrder:
    """One order to one supplier for one job ("" for the van itself)."""

    id: int
    number: str
    supplier: str
    job: str
    made: str
    sent: str
    how: str
    lines: tuple[OrderLine, ...]

    @property
    def state(self) -> str:
        """Draft, sent, part in, or in."""
        if not self.sent:
            return "draft"
        if all(line.coming == 0 for line in self.lines):
            return "in"
        return "part in" if any(line.came for line in self.lines) else "sent"

    @property
    def goods(self) -> Decimal:
        """What its lines come to, without carriage and VAT."""
        return sum((line.price * line.packs for line in self.lines), Decimal(0))


class Orders:
    """The orders of an open store."""

    def __init__(self, store: Store) -> None:
        self._work = store.work

    def all(self, job: str | None = None) -> tuple[SentOrder, ...]:
        """Every order, oldest first; or those for one job."""

        def work(connection: Connection) -> tuple[SentOrder, ...]:
            from sqlalchemy import select

            from tundish.store.tables import order_lines, orders

            lines: dict[int, list[OrderLine]] = {}
            for row in connection.execute(select(order_lines).order_by(order_lines.c.id)):
                lines.setdefault(row.order, []).append(_line(row))
            query = select(orders).order_by(orders.c.id)
            rows = connection.execute(query if job is None else query.where(orders.c.job == job))
            return tuple(
                SentOrder(row.id, row.number, row.supplier, row.job, row.made, row.sent, row.how, tuple(lines.get(row.id, ())))
                for row in rows
            )

        return self._work(work)

    def draft(self, job: str, supplier: str, picks: Iterable[Pick]) -> int:
        """Write the draft to a supplier for a job anew; gives its id, 0 where nothing is wanted."""
        rows = [_new(pick) for pick in picks if pick.packs > 0]

        def work(connection: Connection) -> int:
            from sqlalchemy import delete, insert, select

            from tundish.store.tables import order_lines, orders

            old = list(connection.execute(select(orders).where(orders.c.job == job, orders.c.supplier == supplier, orders.c.sent == "")))
            for order in old:
                connection.execute(delete(order_lines).where(order_lines.c.order == order.id))
                connection.execute(delete(orders).where(orders.c.id == order.id))
            if not rows:
                return 0
            # A draft written anew keeps its number: a file of it may be on its way.
            row = {
                "number": old[0].number if old else _number(connection, job),
                "supplier": supplier,
                "job": job,
                "made": now(),
                "sent": "",
                "how": "",
            }
            made = connection.execute(insert(orders).values(row))
            order_id = int(made.inserted_primary_key[0]) if made.inserted_primary_key else 0
            connection.execute(insert(order_lines), [{"order": order_id, **each} for each in rows])
            return order_id

        return self._work(work)

    def send(self, order_id: int, how: str) -> None:
        """Say that an order was sent; from then on its lines stand."""

        def work(connection: Connection) -> None:
            from sqlalchemy import select, update

            from tundish.store.tables import orders

            row = connection.execute(select(orders).where(orders.c.id == order_id)).one()
            if row.sent:
                raise WasSentError(row.number)
            connection.execute(update(orders).where(orders.c.id == order_id).values(sent=now(), how=how))

        self._work(work)

    def take_over(self, order: SentOrder) -> SentOrder:
        """Keep an order that was sent elsewhere as it stands, with a number that is not taken; gives it as it is kept."""

        def work(connection: Connection) -> int:
            from sqlalchemy import insert

            from tundish.store.tables import order_lines, orders

            row = {
                "number": order.number,
                "supplier": order.supplier,
                "job": order.job,
                "made": now(),
                "sent": order.sent,
                "how": order.how,
            }
            made = connection.execute(insert(orders).values(row))
            order_id = int(made.inserted_primary_key[0]) if made.inserted_primary_key else 0
            fresh = {"came": 0, "short": 0, "returned": 0, "credit": "0"}
            rows = [{**asdict(line), **fresh, "price": str(line.price), "order": order_id} for line in order.lines]
            connection.execute(insert(order_lines), [{name: row[name] for name in row if name != "id"} for row in rows])
            return order_id

        order_id = self._work(work)
        return next(each for each in self.all() if each.id == order_id)

    def goods_in(self, order: SentOrder, came: Mapping[int, int], place: str, *, ended: Collection[int] = (), says: str = "") -> None:
        """Take in what came, packs by line id; the ledger gets it, kept for the job. Of the lines `ended`, what is missing is short.

        `says` is the mark of the file that said it came: raises WasTakenInError where goods were taken in from it before.
        """

        def work(connection: Connection) -> None:
            if says:
                _once(connection, order, says, brings=any(came.values()))
            for line in order.lines:
                packs = came.get(line.id, 0)
                short = max(line.packs - line.came - packs, 0) if line.id in ended else line.short
                _change(connection, line.id, came=line.came + packs, short=short)
                if packs:
                    row = {"item": line.item, "amount": packs * line.pack, "what": GOODS_IN, "place": place}
                    add_movement(connection, row | {"job": order.job, "note": f"order {order.number}"})

        self._work(work)

    def give_back(self, order: SentOrder, line: OrderLine, packs: int, place: str) -> str:
        """Send packs back for credit at their price; says so where the ledger has fewer."""

        def work(connection: Connection) -> str:
            credit = line.credit + line.price * packs
            _change(connection, line.id, returned=line.returned + packs, credit=str(credit))
            row = {"item": line.item, "amount": -packs * line.pack, "what": RETURNED, "place": place, "job": order.job}
            return add_movement(connection, row | {"note": f"order {order.number}, credit £{line.price * packs}"})

        return self._work(work)


def ordered(orders: Iterable[SentOrder]) -> tuple[Ordered, ...]:
    """What the sent orders will bring or have brought, line by line; drafts say nothing yet."""
    return tuple(
        Ordered(line.item, (line.length, line.width), line.pack, line.packs, line.came - line.returned, line.short)
        for order in orders
        if order.sent
        for line in order.lines
    )


def _once(connection: Connection, order: SentOrder, says: str, *, brings: bool) -> None:
    """Refuse a file that was taken in; keep the mark of one that brings something."""
    from sqlalchemy import insert, select

    from tundish.store.tables import goods_files

    before = connection.execute(select(goods_files.c.made).where(goods_files.c.says == says)).scalar()
    if before is not None:
        raise WasTakenInError(order.number, show_date(before[:10]))
    if brings:
        connection.execute(insert(goods_files), [{"says": says, "order": order.id, "made": now()}])


def _number(connection: Connection, job: str) -> str:
    from sqlalchemy import func, select

    from tundish.store.tables import orders

    last = connection.execute(select(func.max(orders.c.id))).scalar() or 0
    return f"{job or 'van'}-{int(last) + 1}"


def _new(pick: Pick) -> dict[str, Any]:
    offer = pick.offer
    row = {"item": offer.item, "code": offer.code, "pack": offer.pack, "price": str(offer.each(pick.packs)), "packs": pick.packs}
    return row | {"length": offer.length, "width": offer.width, "came": 0, "short": 0, "returned": 0, "credit": "0"}


def _line(row: Any) -> OrderLine:
    size = (row.length, row.width, row.packs, row.came, row.short, row.returned)
    return OrderLine(row.id, row.item, row.code, row.pack, Decimal(row.price), *size, Decimal(row.credit))


def _change(connection: Connection, line: int, **values: object) -> None:
    from sqlalchemy import update

    from tundish.store.tables import order_lines

    connection.execute(update(order_lines).where(order_lines.c.id == line).values(**values))
