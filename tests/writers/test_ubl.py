"""What UBL documents are built of holds whatever is typed, and reads back as it was meant."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tundish.writers.ubl import CBC, address, as_bytes, document, money, part, quantity, text


@given(st.text(), st.lists(st.text(), max_size=6))
def test_whatever_is_typed_can_be_read_back(words: str, lines: list[str]) -> None:
    root = document("Order")
    text(root, "Note", words)
    address(part(root, "Party"), "PostalAddress", lines)
    read = ET.fromstring(as_bytes(root))  # noqa: S314  # our own bytes
    assert read.tag.endswith("}Order")
    assert read.findtext(f"{{{CBC}}}Note") is not None
    assert read.findtext(f".//{{{CBC}}}IdentificationCode") == "GB"


def test_every_line_of_an_address_is_kept_in_order() -> None:
    root = document("Order")
    address(root, "PostalAddress", ["3 Kilnfold Yard", " ", "Unit 2", "Harrowmere ", "ZZ9 2RT"])
    assert [each.text for each in root.iter() if each.text] == ["3 Kilnfold Yard", "Unit 2", "Harrowmere", "ZZ9 2RT", "GB"]


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("14 Quillet Lane", {"StreetName": "14 Quillet Lane"}),
        ("14 Quillet Lane\nHarrowmere", {"StreetName": "14 Quillet Lane", "AdditionalStreetName": "Harrowmere"}),
        ("Harrowmere\nZZ9 4QL", {"CityName": "Harrowmere", "PostalZone": "ZZ9 4QL"}),
        ("zz94ql", {"StreetName": "zz94ql"}),
        ("", {}),
        (
            "The Old Dairy\nRear\nQuillet Lane\nLow Marsh\nHarrowmere\nzz9 4ql",
            {
                "StreetName": "The Old Dairy",
                "AdditionalStreetName": "Rear",
                "CityName": "Harrowmere",
                "PostalZone": "zz9 4ql",
                "Line": "Quillet Lane, Low Marsh",
            },
        ),
    ],
)
def test_a_postcode_and_its_town_are_told_apart_and_the_rest_has_three_lines(typed: str, told: dict[str, str]) -> None:
    root = document("Order")
    address(root, "PostalAddress", typed.splitlines())
    assert {each.tag.split("}")[1]: each.text for each in root.iter() if each.text} == {**told, "IdentificationCode": "GB"}


def test_money_is_pennies_unless_it_is_to_be_exact() -> None:
    root = document("Invoice")
    money(root, "Amount", Decimal("4.125"))
    money(root, "PriceAmount", Decimal("4.125"), exact=True)
    quantity(root, "Quantity", "3")
    assert [(each.text, dict(each.attrib)) for each in root] == [
        ("4.13", {"currencyID": "GBP"}),
        ("4.125", {"currencyID": "GBP"}),
        ("3", {"unitCode": "C62"}),
    ]
