"""An order as UBL 2.1 Order XML (OASIS Universal Business Language, 4 November 2013), for a merchant's system to read."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from typing import Final

from tundish.catalogue.item import Item, Supplier
from tundish.catalogue.trader import Trader
from tundish.procurement.purchase import Pick
from tundish.writers.safe import write_whole
from tundish.writers.ubl import EACH, address, as_bytes, document, money, part, quantity, text

_UNITS: Final = {"each": EACH, "mm": "MMT", "m": "MTR", "m²": "MTK", "kg": "KGM", "ml": "MLT", "day": "DAY", "visit": EACH}
"""UN/ECE Recommendation 20 codes."""


@dataclass(frozen=True, slots=True)
class OrderToWrite:
    """One order with what stands round it; `issued` and `wanted` are ISO dates, `wanted` may be empty."""

    number: str
    issued: str
    wanted: str
    supplier: Supplier
    trader: Trader
    deliver_to: tuple[str, ...]
    rows: tuple[tuple[Item, Pick], ...]
    carriage: Decimal


def write_order_xml(order: OrderToWrite, path: Path) -> None:
    """Write the order as a file, whole or not at all."""
    write_whole(path, as_xml(order))


def as_xml(order: OrderToWrite) -> bytes:
    """The order as the bytes of a UBL 2.1 document. Money is pounds without VAT."""
    root = document("Order")
    text(root, "UBLVersionID", "2.1")
    text(root, "ID", order.number)
    text(root, "IssueDate", order.issued)
    text(root, "DocumentCurrencyCode", "GBP")
    _buyer(root, order)
    _seller(root, order.supplier)
    _delivery(root, order)
    goods = sum((pick.cost for _, pick in order.rows), Decimal(0))
    if order.carriage:
        charge = part(root, "AllowanceCharge")
        text(charge, "ChargeIndicator", "true")
        text(charge, "AllowanceChargeReason", "Carriage")
        money(charge, "Amount", order.carriage)
    total = part(root, "AnticipatedMonetaryTotal")
    money(total, "LineExtensionAmount", goods)
    if order.carriage:
        money(total, "ChargeTotalAmount", order.carriage)
    money(total, "PayableAmount", goods + order.carriage)
    for number, (item, pick) in enumerate(order.rows, 1):
        _line(root, number, item, pick)
    return as_bytes(root)


def _buyer(root: ET.Element, order: OrderToWrite) -> None:
    buyer = part(root, "BuyerCustomerParty")
    if order.supplier.account:
        text(buyer, "SupplierAssignedAccountID", order.supplier.account)
    _party(buyer, order.trader.name or "–", order.trader.address.splitlines(), order.trader.phone)


def _seller(root: ET.Element, supplier: Supplier) -> None:
    _party(part(root, "SellerSupplierParty"), supplier.name, supplier.address.splitlines(), supplier.phone)


def _party(parent: ET.Element, name: str, lines: Iterable[str], phone: str) -> None:
    party = part(parent, "Party")
    text(part(party, "PartyName"), "Name", name)
    address(party, "PostalAddress", lines)
    if phone:
        text(part(party, "Contact"), "Telephone", phone)


def _delivery(root: ET.Element, order: OrderToWrite) -> None:
    delivery = part(root, "Delivery")
    address(delivery, "DeliveryAddress", order.deliver_to)
    if order.wanted:
        text(part(delivery, "RequestedDeliveryPeriod"), "EndDate", order.wanted)


def _line(root: ET.Element, number: int, item: Item, pick: Pick) -> None:
    """One line: packs as pieces, and what is in a pack said of the item."""
    line = part(part(root, "OrderLine"), "LineItem")
    text(line, "ID", str(number))
    quantity(line, "Quantity", str(pick.packs))
    money(line, "LineExtensionAmount", pick.cost)
    price = part(line, "Price")
    money(price, "PriceAmount", pick.offer.each(pick.packs), exact=True)
    quantity(price, "BaseQuantity", "1")
    what = part(line, "Item")
    quantity(what, "PackQuantity", f"{pick.offer.pack:g}", _UNITS[item.unit])
    text(what, "Name", item.name)
    text(part(what, "BuyersItemIdentification"), "ID", item.code)
    text(part(what, "SellersItemIdentification"), "ID", pick.offer.code)
