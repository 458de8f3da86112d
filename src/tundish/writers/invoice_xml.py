"""An invoice or credit note as UBL 2.1 XML after EN 16931, for another program to read."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from typing import Final

from tundish.catalogue.trader import Trader
from tundish.pricing.invoice import Invoice, bill_of
from tundish.writers.safe import write_whole
from tundish.writers.ubl import address, as_bytes, document, money, part, quantity, text

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
    root = document("CreditNote" if invoice.credits else "Invoice")
    text(root, "CustomizationID", _FOLLOWS)
    text(root, "ProfileID", _PROCESS)
    text(root, "ID", invoice.number)
    text(root, "IssueDate", invoice.issued)
    text(root, "CreditNoteTypeCode" if invoice.credits else "InvoiceTypeCode", "381" if invoice.credits else "380")
    if invoice.what:
        text(root, "Note", invoice.what)
    text(root, "DocumentCurrencyCode", "GBP")
    if invoice.credits:
        text(part(part(root, "BillingReference"), "InvoiceDocumentReference"), "ID", invoice.credits)
    _party(root, "AccountingSupplierParty", parties.trader.name or "–", parties.trader.address, parties.trader.vat_number)
    _party(root, "AccountingCustomerParty", parties.client or "–", parties.client_address, "")
    _sums(root, invoice)
    for number, charge in enumerate(invoice.charges, 1):
        _line(root, number, invoice, charge.what, charge.net or Decimal(0), charge.percent)
    return as_bytes(root)


def _sums(root: ET.Element, invoice: Invoice) -> None:
    bill = bill_of(invoice)
    tax = part(root, "TaxTotal")
    money(tax, "TaxAmount", abs(bill.vat))
    none = Decimal(0)
    rows: list[tuple[Decimal | None, Decimal, Decimal]] = [
        (each.percent, each.net, each.vat if each.charged else none) for each in bill.vat_lines
    ]
    rows = rows or [(None, bill.net, none)]
    for percent, net, vat in rows:
        subtotal = part(tax, "TaxSubtotal")
        money(subtotal, "TaxableAmount", abs(net))
        money(subtotal, "TaxAmount", abs(vat))
        _category(subtotal, "TaxCategory", invoice, percent, reason=True)
    total = part(root, "LegalMonetaryTotal")
    for name, amount in (("LineExtensionAmount", bill.net), ("TaxExclusiveAmount", bill.net), ("TaxInclusiveAmount", bill.total)):
        money(total, name, abs(amount))
    if bill.due != bill.total:
        money(total, "PrepaidAmount", abs(bill.total - bill.due))
    money(total, "PayableAmount", abs(bill.due))


def _line(root: ET.Element, number: int, invoice: Invoice, what: str, net: Decimal, percent: Decimal | None) -> None:
    line = part(root, "CreditNoteLine" if invoice.credits else "InvoiceLine")
    text(line, "ID", str(number))
    quantity(line, "CreditedQuantity" if invoice.credits else "InvoicedQuantity", "1")
    money(line, "LineExtensionAmount", net)
    item = part(line, "Item")
    text(item, "Name", what or "Work")
    _category(item, "ClassifiedTaxCategory", invoice, percent)
    money(part(line, "Price"), "PriceAmount", net)


def _category(parent: ET.Element, name: str, invoice: Invoice, percent: Decimal | None, *, reason: bool = False) -> None:
    """S: charged; Z: at nought; AE: reverse charge; O: not within VAT, the trader is not registered (UNCL 5305)."""
    category = part(parent, name)
    code = "O" if percent is None else "AE" if invoice.reverse_charge else "S" if percent else "Z"
    text(category, "ID", code)
    if code != "O":
        text(category, "Percent", f"{Decimal(0) if code == 'AE' else percent:f}")
    if reason and code in {"AE", "O"}:
        words = "Reverse charge" if code == "AE" else "Not registered for VAT"
        text(category, "TaxExemptionReasonCode", f"VATEX-EU-{code}")
        text(category, "TaxExemptionReason", words)
    text(part(category, "TaxScheme"), "ID", "VAT")


def _party(root: ET.Element, name: str, called: str, lines: str, vat_number: str) -> None:
    party = part(part(root, name), "Party")
    text(part(party, "PartyName"), "Name", called)
    address(party, "PostalAddress", lines.splitlines())
    if vat_number.strip():
        scheme = part(party, "PartyTaxScheme")
        number = "".join(vat_number.split()).upper()
        text(scheme, "CompanyID", number if number.startswith("GB") else f"GB{number}")
        text(part(scheme, "TaxScheme"), "ID", "VAT")
    text(part(party, "PartyLegalEntity"), "RegistrationName", called)
