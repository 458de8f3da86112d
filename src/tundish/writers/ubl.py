"""What every UBL 2.1 document is built of (OASIS Universal Business Language, 4 November 2013): parts, texts, money, addresses."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections.abc import Iterable
from decimal import Decimal
from typing import Final

from tundish.pricing.pennies import penny
from tundish.writers.safe import one_line

CAC: Final = "urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2"
CBC: Final = "urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2"
EACH: Final = "C62"
"""One, by UN/ECE Recommendation 20."""
_POSTCODE: Final = re.compile(r"[A-Z]{1,2}[0-9][A-Z0-9]? ?[0-9][A-Z]{2}", re.IGNORECASE)


def document(kind: str) -> ET.Element:
    """The root of a document of a kind, such as Order; its namespace has no prefix."""
    space = f"urn:oasis:names:specification:ubl:schema:xsd:{kind}-2"
    for prefix, name in (("", space), ("cac", CAC), ("cbc", CBC)):
        ET.register_namespace(prefix, name)
    return ET.Element(f"{{{space}}}{kind}")


def part(parent: ET.Element, name: str) -> ET.Element:
    """A part that holds others."""
    return ET.SubElement(parent, f"{{{CAC}}}{name}")


def text(parent: ET.Element, name: str, words: str) -> ET.Element:
    """Words on one line; what XML cannot hold at all, such as a stray control sign, is left out."""
    made = ET.SubElement(parent, f"{{{CBC}}}{name}")
    made.text = one_line(words)
    return made


def money(parent: ET.Element, name: str, amount: Decimal, *, exact: bool = False) -> None:
    """Pounds, rounded half up to the penny unless they are to stand exact, as a price for one may."""
    text(parent, name, f"{amount if exact else penny(amount):f}").set("currencyID", "GBP")


def quantity(parent: ET.Element, name: str, amount: str, unit: str = EACH) -> None:
    """An amount with the code of its unit."""
    text(parent, name, amount).set("unitCode", unit)


def address(parent: ET.Element, name: str, lines: Iterable[str]) -> None:
    """An address in the United Kingdom as it is typed, a line each: a postcode at its end is told apart, and the town before it.

    What is more than two lines of street is one line: EN 16931 has room for no more (UBL-SR-51).
    """
    made = part(parent, name)
    said = [each.strip() for each in lines if each.strip()]
    coded = len(said) > 1 and _POSTCODE.fullmatch(said[-1]) is not None
    (*street, town), postcode = (said[:-1], said[-1]) if coded else ((*said, ""), "")
    for tag, words in (*zip(("StreetName", "AdditionalStreetName"), street, strict=False), ("CityName", town), ("PostalZone", postcode)):
        if words:
            text(made, tag, words)
    if street[2:]:
        text(part(made, "AddressLine"), "Line", ", ".join(street[2:]))
    text(part(made, "Country"), "IdentificationCode", "GB")


def as_bytes(root: ET.Element) -> bytes:
    """The document as the bytes of its file."""
    ET.indent(root)
    return bytes(ET.tostring(root, encoding="utf-8", xml_declaration=True))
