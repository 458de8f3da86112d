"""An invoice or credit note as UBL 2.1 XML after EN 16931, for another program to read."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from typing import Final

from tundish.catalogue.trader import Trader
from tundish.pricing.invoice import Invoice, bill_of
from tundish.pricing.pennies import penny
from tundish.writers.safe import legible, write_whole

INVOICE: Final = "urn:oasis:names:specification:ubl:schema:xsd:Invoice-2"
CREDIT: Final = "urn:oasis:names:specification:ubl:schema:xsd:CreditNote-2"
CAC: Final = "urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2"
CBC: Final = "urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2"
_FOLLOWS: Final = "urn:cen.eu:en16931:2017#compliant#urn:fdc:peppol.eu:2017:poacc:billing:3.0"
_PROCESS: Final = "urn:fdc:peppol.eu:2017:poacc:billing:01:1.0"


@dataclass(frozen=True, slots=True)
class Parties:
    """Who bills whom; addresses have a line each."""

    trader: Trader
    client: str
    client_address: str


def write_invoice_xml(invoice: Invoice, parties: Parties, path: Path) -> None:
    """Write the bill as a file, whole or not at all."""
    write_whole(path, as_xml(invoice, parties))


def as_xml(invoice: Invoice, parties: Parties) -> bytes:
    """The bill as the bytes of a UBL 2.1 document; a credit note states its amounts as they are taken back."""
    space = CREDIT if invoice.credits else INVOICE
    for prefix, name in (("", space), ("cac", CAC), ("cbc", CBC)):
        ET.register_namespace(prefix, name)
    root = ET.Element(f"{{{space}}}{'CreditNote' if invoice.credits else 'Invoice'}")
    _text(root, "CustomizationID", _FOLLOWS)
    _text(root, "ProfileID", _PROCESS)
    _text(root, "ID", invoice.number)
    _text(root, "IssueDate", invoice.issued)
    _text(root, "CreditNoteTypeCode" if invoice.credits else "InvoiceTypeCode", "381" if invoice.credits else "380")
    if invoice.what:
        _text(root, "Note", invoice.what)
    _text(root, "DocumentCurrencyCode", "GBP")
    if invoice.credits:
        _text(_part(_part(root, "BillingReference"), "InvoiceDocumentReference"), "ID", invoice.credits)
    _party(root, "AccountingSupplierParty", parties.trader.name or "–", parties.trader.address, parties.trader.vat_number)
    _party(root, "AccountingCustomerParty", parties.client or "–", parties.client_address, "")
    _sums(root, invoice)
    for number, charge in enumerate(invoice.charges, 1):
        _line(root, number, invoice, charge.what, charge.net or Decimal(0), charge.percent)
    ET.indent(root)
    return bytes(ET.tostring(root, encoding="utf-8", xml_declaration=True))


def _sums(root: ET.Element, invoice: Invoice) -> None:
    bill = bill_of(invoice)
    tax = _part(root, "TaxTotal")
    _money(tax, "TaxAmount", abs(bill.vat))
    none = Decimal(0)
    rows: list[tuple[Decimal | None, Decimal, Decimal]] = [
        (each.percent, each.net, each.vat if each.charged else none) for each in bill.vat_lines
    ]
    rows = rows or [(None, bill.net, none)]
    for percent, net, vat in rows:
        part = _part(tax, "TaxSubtotal")
        _money(part, "TaxableAmount", abs(net))
        _money(part, "TaxAmount", abs(vat))
        _category(part, "TaxCategory", invoice, percent, reason=True)
    total = _part(root, "LegalMonetaryTotal")
    for name, amount in (("LineExtensionAmount", bill.net), ("TaxExclusiveAmount", bill.net), ("TaxInclusiveAmount", bill.total)):
        _money(total, name, abs(amount))
    if bill.due != bill.total:
        _money(total, "PrepaidAmount", abs(bill.total - bill.due))
    _money(total, "PayableAmount", abs(bill.due))


def _line(root: ET.Element, number: int, invoice: Invoice, what: str, net: Decimal, percent: Decimal | None) -> None:
    line = _part(root, "CreditNoteLine" if invoice.credits else "InvoiceLine")
    _text(line, "ID", str(number))
    _text(line, "CreditedQuantity" if invoice.credits else "InvoicedQuantity", "1").set("unitCode", "C62")
    _money(line, "LineExtensionAmount", net)
    item = _part(line, "Item")
    _text(item, "Name", what or "Work")
    _category(item, "ClassifiedTaxCategory", invoice, percent)
    _money(_part(line, "Price"), "PriceAmount", net)


def _category(parent: ET.Element, name: str, invoice: Invoice, percent: Decimal | None, *, reason: bool = False) -> None:
    """S: charged; Z: at nought; AE: reverse charge; O: not within VAT, the trader is not registered (UNCL 5305)."""
    category = _part(parent, name)
    code = "O" if percent is None else "AE" if invoice.reverse_charge else "S" if percent else "Z"
    _text(category, "ID", code)
    if code != "O":
        _text(category, "Percent", f"{Decimal(0) if code == 'AE' else percent:f}")
    if reason and code in {"AE", "O"}:
        words = "Reverse charge" if code == "AE" else "Not registered for VAT"
        _text(category, "TaxExemptionReasonCode", f"VATEX-EU-{code}")
        _text(category, "TaxExemptionReason", words)
    _text(_part(category, "TaxScheme"), "ID", "VAT")


def _party(root: ET.Element, name: str, called: str, address: str, vat_number: str) -> None:
    party = _part(_part(root, name), "Party")
    _text(_part(party, "PartyName"), "Name", called)
    place = _part(party, "PostalAddress")
    lines = [each.strip() for each in address.splitlines() if each.strip()]
    for tag, line in zip(("StreetName", "AdditionalStreetName"), lines, strict=False):
        _text(place, tag, line)
    for line in lines[2:]:
        _text(_part(place, "AddressLine"), "Line", line)
    _text(_part(place, "Country"), "IdentificationCode", "GB")
    if vat_number.strip():
        scheme = _part(party, "PartyTaxScheme")
        number = "".join(vat_number.split()).upper()
        _text(scheme, "CompanyID", number if number.startswith("GB") else f"GB{number}")
        _text(_part(scheme, "TaxScheme"), "ID", "VAT")
    _text(_part(party, "PartyLegalEntity"), "RegistrationName", called)


def _money(parent: ET.Element, name: str, amount: Decimal) -> None:
    _text(parent, name, f"{penny(amount):f}").set("currencyID", "GBP")


def _part(parent: ET.Element, name: str) -> ET.Element:
    return ET.SubElement(parent, f"{{{CAC}}}{name}")


def _text(parent: ET.Element, name: str, words: str) -> ET.Element:
    made = ET.SubElement(parent, f"{{{CBC}}}{name}")
    made.text = " ".join(legible(words).split())
    return made
