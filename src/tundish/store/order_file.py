"""An order file (UBL 2.1 Order XML) opened back: known by its number or kept as sent, and its goods taken in."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING, Final

from tundish.errors import TundishError
from tundish.store.ledger import now
from tundish.store.orders import OrderLine, Orders, SentOrder, WasTakenInError
from tundish.store.read_xml import SPACES, NotSoundError, root_of, words

if TYPE_CHECKING:
    from tundish.store.keep import Store

MOST_PACKS: Final = 100_000
ORDER: Final = "{urn:oasis:names:specification:ubl:schema:xsd:Order-2}Order"
FROM_FILE: Final = "by file"


class CannotReadOrderError(TundishError):
    """An order file cannot be used: which and why."""

    def __init__(self, name: str, why: str) -> None:
        super().__init__(f"{name} cannot be taken in: {why}. Nothing was changed.")


@dataclass(frozen=True, slots=True)
class FileLine:
    """One line of the file: packs of what the supplier knows by `code`, at a price each without VAT."""

    code: str
    packs: int
    price: Decimal


@dataclass(frozen=True, slots=True)
class OrderFile:
    """What an order file says."""

    name: str
    number: str
    issued: str
    seller: str
    lines: tuple[FileLine, ...]


def read_order_file(path: Path) -> OrderFile:
    """The order that a file holds. Raises CannotReadOrderError."""
    try:
        root = root_of(path)
    except NotSoundError as fault:
        raise CannotReadOrderError(path.name, str(fault)) from fault
    if root.tag != ORDER:
        raise CannotReadOrderError(path.name, "it is XML, but no UBL order")
    number = words(root, "cbc:ID")
    lines = tuple(_lines(path.name, root))
    if not number or not lines:
        raise CannotReadOrderError(path.name, "it has no number or no lines")
    seller = words(root, "cac:SellerSupplierParty/cac:Party/cac:PartyName/cbc:Name")
    return OrderFile(path.name, number, words(root, "cbc:IssueDate"), seller, lines)


def goods_in_from(store: Store, file: OrderFile, job: str, place: str) -> str:
    """Take in what a file says came, for the order of its number, or for a new one of this job; says what was taken in.

    What the file has beyond what is to come is not taken in, and is told. A file that says what one before it said, day and all, is
    that one opened again, and brings nothing in. Raises CannotReadOrderError.
    """
    orders = Orders(store)
    known = next((one for one in orders.all() if one.number == file.number), None)
    if known is not None and not known.sent:
        raise CannotReadOrderError(file.name, f"order {file.number} has not been sent: send it first")
    made = _as_sent(store, file, job) if known is None else known
    wanted: Counter[str] = Counter()
    for each in file.lines:
        wanted[each.code] += each.packs
    strange = sorted(set(wanted) - {line.code for line in made.lines})
    if strange:
        raise CannotReadOrderError(file.name, f"order {file.number} has no {', '.join(strange[:3])}")
    order = orders.take_over(made) if known is None else known
    came: dict[int, int] = {}
    for line in order.lines:
        came[line.id] = min(line.coming, wanted[line.code])
        wanted[line.code] -= came[line.id]
    try:
        orders.goods_in(order, came, place, says=_mark(file))
    except WasTakenInError as fault:
        why = f"its goods were taken in already, on {fault.day}; what came since is typed under the order"
        raise CannotReadOrderError(file.name, why) from fault
    over = sum(wanted.values())
    said = f"Order {order.number}: {sum(came.values())} packs in"
    return f"{said}; {over} in the file were not to come any more" if over else said


def _mark(file: OrderFile) -> str:
    """What a file says, whatever it is called and however it is spaced, as one short mark."""
    lines = sorted((each.code, each.packs, f"{each.price.normalize():f}") for each in file.lines)
    return sha256(repr((file.number, file.issued, file.seller, lines)).encode()).hexdigest()


def _as_sent(store: Store, file: OrderFile, job: str) -> SentOrder:
    """An order that this program does not know, as sent; every line must be an offer of its supplier."""
    book = store.book(job)
    supplier = next((one.key for one in book.suppliers.values() if one.name == file.seller), "")
    if not supplier:
        raise CannotReadOrderError(file.name, f'"{file.seller[:60]}" is none of your suppliers')
    offers = {one.code: one for few in book.offers.values() for one in few if one.supplier == supplier}
    lines = []
    for each in file.lines:
        offer = offers.get(each.code)
        if offer is None:
            raise CannotReadOrderError(file.name, f"no item of yours has the code {each.code[:40]} at {file.seller}")
        lines.append(OrderLine(0, offer.item, each.code, offer.pack, each.price, offer.length, offer.width, each.packs))
    return SentOrder(0, file.number, supplier, job, now(), file.issued or now()[:10], FROM_FILE, tuple(lines))


def _lines(name: str, root: ET.Element) -> Iterator[FileLine]:
    for place, line in enumerate(root.findall("cac:OrderLine/cac:LineItem", SPACES), 1):
        code = words(line, "cac:Item/cac:SellersItemIdentification/cbc:ID")
        try:
            packs, price = Decimal(words(line, "cbc:Quantity")), Decimal(words(line, "cac:Price/cbc:PriceAmount"))
            sound = code and packs == int(packs) and 0 < packs <= MOST_PACKS and 0 <= price < MOST_PACKS
        except (InvalidOperation, ValueError, OverflowError):
            sound = False
        if not sound:
            raise CannotReadOrderError(name, f"line {place} does not say a code, a whole number of packs and a price")
        yield FileLine(code, int(packs), price)
