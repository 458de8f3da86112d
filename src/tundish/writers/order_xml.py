"""An order as UBL 2.1 Order XML (OASIS Universal Business Language, 4 November 2013), for a merchant's system to read."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from collections.abc import Iterable
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from pathlib import Path
from typing import Final

from tundish.catalogue.item import Item, Supplier
from tundish.catalogue.trader import Trader
from tundish.procurement.purchase import Pick
from tundish.writers.safe import write_whole

ORDER: Final = "urn:oasis:names:specification:ubl:schema:xsd:Order-2"
CAC: Final = "urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2"
CBC: Final = "urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2"
_UNITS: Final = {"each": "C62", "mm": "MMT", "m": "MTR", "m²": "MTK", "kg": "KGM", "ml": "MLT", "day": "DAY", "visit": "C62"}
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
    for prefix, space in (("", ORDER), ("cac", CAC), ("cbc", CBC)):
        ET.register_namespace(prefix, space)
    root = ET.Element(f"{{{ORDER}}}Order")
    _text(root, "UBLVersionID", "2.1")
    _text(root, "ID", order.number)
    _text(root, "IssueDate", order.issued)
    _text(root, "DocumentCurrencyCode", "GBP")
    _buyer(root, order)
    _seller(root, order.supplier)
    _delivery(root, order)
    goods = sum((pick.cost for _, pick in order.rows), Decimal(0))
    if order.carriage:
        charge = _part(root, "AllowanceCharge")
        _text(charge, "ChargeIndicator", "true")
        _text(charge, "AllowanceChargeReason", "Carriage")
        _money(charge, "Amount", order.carriage)
    total = _part(root, "AnticipatedMonetaryTotal")
    _money(total, "LineExtensionAmount", goods)
    if order.carriage:
        _money(total, "ChargeTotalAmount", order.carriage)
    _money(total, "PayableAmount", goods + order.carriage)
    for number, (item, pick) in enumerate(order.rows, 1):
        _line(root, number, item, pick)
    ET.indent(root)
    return bytes(ET.tostring(root, encoding="utf-8", xml_declaration=True))


def _buyer(root: ET.Element, order: OrderToWrite) -> None:
    buyer = _part(root, "BuyerCustomerParty")
    if order.supplier.account:
        _text(buyer, "SupplierAssignedAccountID", order.supplier.account)
    _party(buyer, order.trader.name or "–", order.trader.address.splitlines(), order.trader.phone)


def _seller(root: ET.Element, supplier: Supplier) -> None:
    _party(_part(root, "SellerSupplierParty"), supplier.name, supplier.address.splitlines(), supplier.phone)


def _party(parent: ET.Element, name: str, address: Iterable[str], phone: str) -> None:
    party = _part(parent, "Party")
    _text(_part(party, "PartyName"), "Name", name)
    _address(party, "PostalAddress", address)
    if phone:
        _text(_part(party, "Contact"), "Telephone", phone)


def _delivery(root: ET.Element, order: OrderToWrite) -> None:
    delivery = _part(root, "Delivery")
    _address(delivery, "DeliveryAddress", order.deliver_to)
    if order.wanted:
        _text(_part(delivery, "RequestedDeliveryPeriod"), "EndDate", order.wanted)


def _address(parent: ET.Element, name: str, lines: Iterable[str]) -> None:
    address = _part(parent, name)
    for line in (each.strip() for each in lines):
        if line:
            _text(_part(address, "AddressLine"), "Line", line)
    _text(_part(address, "Country"), "IdentificationCode", "GB")


def _line(root: ET.Element, number: int, item: Item, pick: Pick) -> None:
    """One line: packs as pieces, and what is in a pack said of the item."""
    line = _part(_part(root, "OrderLine"), "LineItem")
    _text(line, "ID", str(number))
    _text(line, "Quantity", str(pick.packs)).set("unitCode", "C62")
    _money(line, "LineExtensionAmount", pick.cost)
    price = _part(line, "Price")
    _money(price, "PriceAmount", pick.offer.each(pick.packs))
    _text(price, "BaseQuantity", "1").set("unitCode", "C62")
    what = _part(line, "Item")
    _text(what, "PackQuantity", f"{pick.offer.pack:g}").set("unitCode", _UNITS[item.unit])
    _text(what, "Name", item.name)
    _text(_part(what, "BuyersItemIdentification"), "ID", item.code)
    _text(_part(what, "SellersItemIdentification"), "ID", pick.offer.code)


def _part(parent: ET.Element, name: str) -> ET.Element:
    return ET.SubElement(parent, f"{{{CAC}}}{name}")


def _text(parent: ET.Element, name: str, words: str) -> ET.Element:
    made = ET.SubElement(parent, f"{{{CBC}}}{name}")
    # What XML cannot hold at all, such as a stray control sign, is left out.
    made.text = "".join(sign for sign in words if sign in "\t\n" or (sign >= " " and sign not in "\ufffe\uffff"))
    return made


def _money(parent: ET.Element, name: str, amount: Decimal) -> None:
    exact = amount if name == "PriceAmount" else amount.quantize(Decimal("0.01"), ROUND_HALF_UP)
    _text(parent, name, f"{exact:f}").set("currencyID", "GBP")
