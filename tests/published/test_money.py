"""VAT, rounding, mark-up and margin against published examples, through the pricing of a whole job."""

from __future__ import annotations

from decimal import Decimal

import pytest

from tundish.catalogue.item import Item, Offer
from tundish.field import Entry
from tundish.figure import number
from tundish.pricing.price import Price
from tundish.pricing.terms import Terms
from tundish.pricing.work_out import penny, price
from tundish.procurement.purchase import Buying, Pick, Purchase
from tundish.rules.rule import LABOUR, Need
from tundish.takeoff.line import Line


@pytest.mark.parametrize(("net", "vat", "gross"), [("100", "20.00", "120.00"), ("5000", "1000.00", "6000.00")])
def test_vat_is_a_fifth_on_top(net: str, vat: str, gross: str) -> None:
    """HMRC, calculating VAT: £100 and 20 % are £120 (V); a bill of £5,000 has £1,000 (V2, an example of the reverse charge)."""
    made = priced(materials=net)
    assert (made.before_vat, made.vat, made.total) == (Decimal(net), Decimal(vat), Decimal(gross))


@pytest.mark.parametrize(("gross", "vat"), [("60", "10.00"), ("120", "20.00"), ("240", "40.00")])
def test_vat_is_a_sixth_of_what_is_paid(gross: str, vat: str) -> None:
    """VAT fraction 1/6 at 20 %, with examples, as given on a bookkeepers' page (V2)."""
    made = priced(materials=str(Decimal(gross) - Decimal(vat)))
    assert made.total == Decimal(gross)
    assert made.vat == Decimal(vat) == penny(made.total / 6)


@pytest.mark.parametrize(("gross", "part", "vat"), [("80.00", 21, "3.81"), ("210.00", 21, "10.00")])
def test_pennies_of_a_fraction_are_rounded_as_published(gross: str, part: int, vat: str) -> None:
    """VAT fraction 1/21 at 5 %, the same page (V2): the program asks 20 % only, but rounds all money alike."""
    assert penny(Decimal(gross) / part) == Decimal(vat)


@pytest.mark.parametrize(("amount", "rounded"), [("0.0049", "0.00"), ("0.005", "0.01"), ("365.125", "365.13"), ("0.15", "0.15")])
def test_half_a_penny_goes_up(amount: str, rounded: str) -> None:
    """HMRC manual VATREC12030: half a penny and more up (V); 1,460.50 at 25 % is 365.13 in an official EN 16931 sample (V)."""
    assert penny(Decimal(amount)) == Decimal(rounded)


def test_vat_is_rounded_once_on_the_whole() -> None:
    """EN 16931: VAT is worked on the subtotal of a rate and not line by line (V)."""
    made = priced(materials="0.12", hours=0.5, rate="0.24")
    assert made.before_vat == Decimal("0.24")
    assert made.vat == Decimal("0.05")


@pytest.mark.parametrize(
    ("cost", "selling", "mark_up", "margin"), [("205", "300", 46.341, 31.667), ("100", "125", 25, 20), ("75", "100", 33.333, 25)]
)
def test_mark_up_is_of_cost_and_margin_of_price(cost: str, selling: str, mark_up: float, margin: float) -> None:
    """Published examples: cost 205, price 300; cost 100, price 125; cost 75, price 100 (V2)."""
    made = priced(materials=cost, mark_up=mark_up)
    assert made.before_vat == Decimal(selling)
    assert made.kept == Decimal(selling) - Decimal(cost)
    assert float(made.kept / made.before_vat) * 100 == pytest.approx(margin, abs=5e-4)


@pytest.mark.parametrize(("margin", "mark_up"), [(10, 11.1), (20, 25.0), (30, 42.9), (50, 100.0)])
def test_the_mark_up_for_a_margin(margin: float, mark_up: float) -> None:
    """A published table (V2). Its row of 40 % gives 80.0 and is wrong: see below."""
    made = priced(materials="1000", mark_up=mark_up)
    assert float(made.kept / made.before_vat) * 100 == pytest.approx(margin, abs=0.05)


def test_the_mark_up_for_40_per_cent_is_66_7_and_not_80() -> None:
    """The same table prints 80.0 (X): that would be a margin of 44.4 %."""
    right, printed = (priced(materials="1000", mark_up=each) for each in (66.7, 80))
    assert float(right.kept / right.before_vat) * 100 == pytest.approx(40, abs=0.05)
    assert float(printed.kept / printed.before_vat) * 100 == pytest.approx(44.4, abs=0.05)


@pytest.mark.parametrize(("margin", "divisor"), [(25, "0.75"), (30, "0.70")])
def test_a_price_is_cost_over_one_less_the_margin(margin: float, divisor: str) -> None:
    """25 % is cost over 0.75, 30 % over 0.70 (V2)."""
    wanted = Decimal(210) / Decimal(divisor)
    made = priced(materials="210", mark_up=float(wanted / 210 - 1) * 100)
    assert made.before_vat == wanted
    assert float(made.kept / made.before_vat) * 100 == pytest.approx(margin)


@pytest.mark.parametrize(
    ("count", "hours", "materials", "total"),
    [
        (1, 1.50, "3.62", "28.31"),
        (5, 1.60, "4.08", "30.45"),
        (2, 0.25, "5.83", "10.73"),
        (2, 0.25, "5.60", "10.47"),
        (2, 0.25, "3.33", "7.85"),
    ],
)
def test_rates_of_a_price_book_are_built_up_alike(count: int, hours: float, materials: str, total: str) -> None:
    """A published price book: hours at £14.00, materials, 15 % on both (V). Collars for pipe, 68 pipe by the metre, bend, offset.

    Hours go up to halves here, so as many of each are taken as fill them; the book rounds each one to a penny.
    """
    made = priced(materials=str(Decimal(materials) * count), hours=hours * count, rate="14.00", contingency=15)
    assert abs(made.before_vat - Decimal(total) * count) <= Decimal("0.005") * count


def priced(materials: str = "0", hours: float = 0, rate: str = "0", mark_up: float = 0, contingency: float = 0) -> Price:
    """A job of one stage: materials bought for so much, and so many hours."""
    terms = Terms(labour_rate=Decimal(rate), mark_up=Entry(mark_up), contingency=Entry(contingency))
    needs = (Need(number(hours, "h"), "first fix", "work", role=LABOUR),) if hours else ()
    return price(needs, bought(Decimal(materials)), terms)


def bought(cost: Decimal) -> Buying:
    """One thing bought for so much, for first fix."""
    if not cost:
        return Buying((), (), ())
    one = number(1, "each")
    item = Item("thing", "Thing", "sundry", "Sundries", "each", {}, (), {})
    line = Line(item, one, (Need(one, "first fix", "work", item="thing"),))
    pick = Pick(Offer("thing", "one", "1", 1, cost, "2026-11-01"), 1)
    nothing = number(0, "each")
    return Buying((Purchase(line, nothing, nothing, nothing, one, (pick,)),), (), ())
