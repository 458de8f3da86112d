"""An invoice or credit note as UBL 2.1 XML after EN 16931, for another program to read."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from dataclasses import dataclass
from decimal import Decimal
from typing import Final

from tundish.catalogue.trader import Trader
from tundish.documents.terms import how_rounded
from tundish.estimate import Client
from tundish.pricing.invoice import Bill, Charge, Invoice, bill_of
from tundish.writers.safe import one_line
from tundish.writers.ubl import address, as_bytes, document, money, part, quantity, text

_FOLLOWS: Final = "urn:cen.eu:en16931:2017"
_NOTHING: Final = Decimal(0)


@dataclass(frozen=True, slots=True)
class Parties:
    """Who bills whom, and when it is to be paid, in words."""

    trader: Trader
    client: Client
    terms: str = ""


def lacking(invoice: Invoice, parties: Parties) -> str:
    """What the rules ask for on such a bill and nobody typed, in words; nothing where all is there."""
    asked = ((_has_vat(invoice), parties.trader, "your VAT number"), (invoice.reverse_charge, parties.client, "your client's VAT number"))
    return " and ".join(words for wanted, who, words in asked if wanted and not who.vat_number.strip())


def as_xml(invoice: Invoice, parties: Parties) -> bytes:
    """The bill as the bytes of a UBL 2.1 document; a credit note states its amounts as they are taken back."""
    root = document("CreditNote" if invoice.credits else "Invoice")
    text(root, "CustomizationID", _FOLLOWS)
    text(root, "ID", invoice.number)
    text(root, "IssueDate", invoice.issued)
    text(root, "CreditNoteTypeCode" if invoice.credits else "InvoiceTypeCode", "381" if invoice.credits else "380")
    for note in (invoice.what, *how_rounded(bill_of(invoice).vat_lines, invoice.rounding)):
        if note:
            text(root, "Note", note)
    text(root, "DocumentCurrencyCode", "GBP")
    if invoice.credits:
        text(part(part(root, "BillingReference"), "InvoiceDocumentReference"), "ID", invoice.credits)
    _supplier(root, invoice, parties.trader)
    _customer(root, invoice, parties.client)
    if parties.terms:
        text(part(root, "PaymentTerms"), "Note", parties.terms)
    _sums(root, invoice)
    for number, charge in enumerate(invoice.charges, 1):
        _line(root, number, invoice, charge)
    return as_bytes(root)


def _sums(root: ET.Element, invoice: Invoice) -> None:
    bill = bill_of(invoice)
    sign = -1 if invoice.credits else 1
    tax = part(root, "TaxTotal")
    money(tax, "TaxAmount", sign * bill.vat)
    for percent, net, vat in _breakdown(bill):
        subtotal = part(tax, "TaxSubtotal")
        money(subtotal, "TaxableAmount", sign * net)
        money(subtotal, "TaxAmount", sign * vat)
        _category(subtotal, "TaxCategory", invoice, percent, reason=True)
    total = part(root, "LegalMonetaryTotal")
    for name, amount in (("LineExtensionAmount", bill.net), ("TaxExclusiveAmount", bill.net), ("TaxInclusiveAmount", bill.total)):
        money(total, name, sign * amount)
    due = _NOTHING if invoice.paid else bill.due
    if due != bill.total:
        money(total, "PrepaidAmount", sign * (bill.total - due))
    money(total, "PayableAmount", sign * due)


def _breakdown(bill: Bill) -> list[tuple[Decimal | None, Decimal, Decimal]]:
    """Per cent, net and VAT of each rate; one for all that is under the reverse charge, or without VAT (BR-AE-1, BR-O-1)."""
    if not bill.vat_lines:
        return [(None, bill.net, _NOTHING)]
    charged = [(each.percent, each.net, each.vat) for each in bill.vat_lines if each.charged]
    accounted = [each for each in bill.vat_lines if not each.charged]
    if not accounted:
        return [*charged]
    return [(accounted[0].percent, sum((each.net for each in accounted), _NOTHING), _NOTHING), *charged]


def _line(root: ET.Element, number: int, invoice: Invoice, charge: Charge) -> None:
    """One line; what is taken off is less than nothing of a thing, its price is never below nothing (BR-27)."""
    net = charge.net or _NOTHING
    line = part(root, "CreditNoteLine" if invoice.credits else "InvoiceLine")
    text(line, "ID", str(number))
    quantity(line, "CreditedQuantity" if invoice.credits else "InvoicedQuantity", "-1" if net < 0 else "1")
    money(line, "LineExtensionAmount", net)
    item = part(line, "Item")
    text(item, "Name", one_line(charge.what) or "Work")
    _category(item, "ClassifiedTaxCategory", invoice, charge.percent)
    money(part(line, "Price"), "PriceAmount", abs(net))


def _category(parent: ET.Element, name: str, invoice: Invoice, percent: Decimal | None, *, reason: bool = False) -> None:
    """S: charged; Z: at nought; AE: reverse charge; O: not within VAT, the trader is not registered (UNCL 5305)."""
    category = part(parent, name)
    code = "O" if percent is None else "Z" if not percent else "AE" if invoice.reverse_charge else "S"
    text(category, "ID", code)
    if code != "O":
        text(category, "Percent", f"{_NOTHING if code == 'AE' else percent:f}")
    if reason and code in {"AE", "O"}:
        words = "Reverse charge" if code == "AE" else "Not registered for VAT"
        text(category, "TaxExemptionReasonCode", f"VATEX-EU-{code}")
        text(category, "TaxExemptionReason", words)
    text(part(category, "TaxScheme"), "ID", "VAT")


def _supplier(root: ET.Element, invoice: Invoice, trader: Trader) -> None:
    """The trader, by the VAT number where there is VAT on the bill; else by what the client knows them by (BR-CO-26, BR-O-2)."""
    name = trader.name or "–"
    party = part(part(root, "AccountingSupplierParty"), "Party")
    number = _vat_number(trader.vat_number, invoice)
    if not number:
        text(part(party, "PartyIdentification"), "ID", trader.email or trader.phone or name)
    _party(party, name, trader.address, number)


def _customer(root: ET.Element, invoice: Invoice, client: Client) -> None:
    party = part(part(root, "AccountingCustomerParty"), "Party")
    _party(party, client.name or "–", client.address, _vat_number(client.vat_number, invoice))


def _party(party: ET.Element, name: str, lines: str, vat_number: str) -> None:
    text(part(party, "PartyName"), "Name", name)
    address(party, "PostalAddress", lines.splitlines())
    if vat_number:
        scheme = part(party, "PartyTaxScheme")
        text(scheme, "CompanyID", vat_number)
        text(part(scheme, "TaxScheme"), "ID", "VAT")
    text(part(party, "PartyLegalEntity"), "RegistrationName", name)


def _vat_number(typed: str, invoice: Invoice) -> str:
    """The number as it is written between countries, GB where no country is typed; none on a bill without VAT."""
    if not _has_vat(invoice):
        return ""
    number = "".join(typed.split()).upper()
    return number if not number or number[:2].isalpha() else f"GB{number}"


def _has_vat(invoice: Invoice) -> bool:
    return any(each.percent is not None for each in invoice.charges)
