"""How VAT comes to pennies: the ways of the guidance, each held to its own sums."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tundish.pricing.vat import by_rate
from tundish.pricing.vat_rounding import NEAREST, ROUNDINGS, in_pennies

TOTAL_DOWN, LINE = tuple(ROUNDINGS)[1:]
PENNY = Decimal("0.01")
FIVE, TWENTY = Decimal(5), Decimal(20)
LINES = st.lists(st.tuples(st.sampled_from((TWENTY, FIVE, Decimal("17.5"), Decimal(0))), st.decimals(-50, 5_000, places=2)), max_size=12)


def vat(rounding: str, *nets: str, percent: Decimal = TWENTY) -> Decimal:
    return in_pennies([(percent, Decimal(each)) for each in nets], rounding)[percent]


@pytest.mark.parametrize(
    ("rounding", "nets", "comes_to"),
    [
        (NEAREST, ("0.43",), "0.09"),
        (TOTAL_DOWN, ("0.43",), "0.08"),
        (TOTAL_DOWN, ("0.49",), "0.09"),
        (NEAREST, ("0.03", "0.03", "0.03"), "0.02"),
        (LINE, ("0.03", "0.03", "0.03"), "0.03"),
        (LINE, ("0.02", "0.02", "0.02"), "0.00"),
    ],
)
def test_each_way_has_its_own_sum(rounding: str, nets: tuple[str, ...], comes_to: str) -> None:
    assert vat(rounding, *nets) == Decimal(comes_to)


def test_a_total_of_several_rates_that_goes_down_gives_up_less_than_a_penny_in_all() -> None:
    """0.6p, 0.8p and 0.7p of three rates are 2.1p: 2p is asked for, where each rate by itself would go down to nothing."""
    lines = [(TWENTY, Decimal("0.03")), (Decimal(10), Decimal("0.08")), (FIVE, Decimal("0.14"))]
    found = in_pennies(lines, TOTAL_DOWN)
    assert sum(found.values()) == Decimal("0.02")
    assert found == {TWENTY: Decimal(0), Decimal(10): PENNY, FIVE: PENNY}, "the penny that is lost is lost where it is least"


@given(LINES, st.sampled_from(tuple(ROUNDINGS)))
def test_no_way_is_far_from_the_exact_sum_and_none_that_goes_down_is_above_it(lines: list[tuple[Decimal, Decimal]], rounding: str) -> None:
    how = ROUNDINGS[rounding]
    found, exact = in_pennies(lines, rounding), sum((rate * net / 100 for rate, net in lines), Decimal(0))
    apart = sum(found.values(), Decimal(0)) - exact
    assert abs(apart) <= PENNY / 2 * (len(lines) if how.by_line else len(found)) or how.down
    if how.down:
        assert abs(sum(found.values(), Decimal(0))) <= abs(exact)
        assert abs(apart) < PENNY
    assert all(each == each.quantize(PENNY) for each in found.values())


@given(LINES, st.sampled_from(tuple(ROUNDINGS)), st.randoms(use_true_random=False))
def test_a_credit_is_the_same_sum_and_no_order_changes_it(lines: list[tuple[Decimal, Decimal]], rounding: str, chance: object) -> None:
    found = in_pennies(lines, rounding)
    assert in_pennies([(rate, -net) for rate, net in lines], rounding) == {rate: -each for rate, each in found.items()}
    other = [*lines]
    chance.shuffle(other)  # type: ignore[attr-defined]
    assert in_pennies(other, rounding) == found


@given(LINES, st.sampled_from(tuple(ROUNDINGS)), st.integers(1, 400))
def test_whole_pennies_on_one_line_change_the_sum_by_just_that(lines: list[tuple[Decimal, Decimal]], rounding: str, more: int) -> None:
    """So that parts of a price billed before leave the last bill what is left, to the penny."""
    lines = [(rate, abs(net)) for rate, net in lines]
    if not lines:
        return
    (rate, net), *rest = lines
    step = {TWENTY: Decimal("0.05"), FIVE: Decimal("0.20"), Decimal("17.5"): Decimal("0.40"), Decimal(0): PENNY}[rate]
    before, after = in_pennies(lines, rounding), in_pennies([(rate, net + more * step), *rest], rounding)
    assert after == {**before, rate: before[rate] + more * step * rate / 100}


def test_a_line_of_vat_has_its_net_whichever_way_it_is_rounded() -> None:
    (line,) = by_rate([(TWENTY, Decimal("0.03"))] * 3, rounding=LINE)
    assert (line.net, line.vat) == (Decimal("0.09"), Decimal("0.03"))
    assert by_rate([], rounding=TOTAL_DOWN) == ()


def test_every_way_says_what_it_is_and_by_whose_word() -> None:
    assert len({each.words for each in ROUNDINGS.values()}) == len(ROUNDINGS)
    assert all("HMRC" in each.words and "VATREC" in each.words for each in ROUNDINGS.values())
    assert [each.by_line for each in ROUNDINGS.values()] == [False, False, True]
