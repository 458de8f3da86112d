"""What a wood screw holds, against the published equations and worked figures of EN 1995-1-1:2004+A1:2008, 8.7.2."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.rules.test_cases import given as worked
from tundish.rules.screws import acting, design_pull, lateral, pull_through, withdrawal

C16, C24 = 310, 350
"""Characteristic density of EN 338, kg/m³."""


def test_the_withdrawal_of_one_screw() -> None:
    """6 × 60 of thread in C24: 0.52 × 6^-0.5 × 60^-0.1 × 350^0.8 = 15.289 N/mm²; × 6 × 60 × 6/8 = 4,128 N, by the equation."""
    assert withdrawal(6, 60, C24) == pytest.approx(4128, abs=0.5)


def test_a_screw_of_8_or_more_is_not_lessened() -> None:
    """k_d is d/8, at most 1: 0.52 × 10^-0.5 × 80^-0.1 × 310^0.8 = 10.438; × 10 × 80 = 8,351 N."""
    assert withdrawal(10, 80, C16) == pytest.approx(0.52 * 10**-0.5 * 80**-0.1 * 310**0.8 * 800)


def test_a_head_pulls_through_as_in_the_published_run() -> None:
    """Head of 10 in C24: 70e-6 × 350² × 10² = 857.5 N (a published engineer's run); × 0.6 / 1.3 = 395.77 N."""
    assert pull_through(10, C24) == pytest.approx(857.5)
    _, book = worked({"room": "plain", "book": {"fixings.kmod": 0.6}})
    assert design_pull(book, 857.5, 1).value == pytest.approx(0.39577, abs=5e-6)


@pytest.mark.parametrize(("kmod", "newtons"), [(0.6, 1905), (0.7, 2223), (0.9, 2858)])
def test_what_is_reckoned_with_for_how_long_the_load_lasts(kmod: float, newtons: float) -> None:
    """4,128 N × kmod / 1.3 for permanent, long and short loads in service class 1 and 2: table 3.1 and 2.4.1."""
    _, book = worked({"room": "plain", "book": {"fixings.kmod": kmod}})
    assert design_pull(book, 4128, 1).value * 1000 == pytest.approx(newtons, abs=1)


def test_what_a_screw_holds_across() -> None:
    """5 × 80 through 38 into 42 of C16, by hand.

    d_ef 3.3, f_h 17.77, M_y 0.3 × 600 × 3.3^2.6 = 4,015 Nmm. (a) 2,228, (b) 2,463, (c) 973,
    (d) 887, (e) 960, (f) 1.15 √(2 × 4,015 × 17.77 × 3.3) = 789 N: two hinges. Through 10 alone (a) 586 is more than (c) 466.
    """
    assert lateral(5, 38, 42, C16, 600) == pytest.approx(789, abs=1)
    assert lateral(5, 10, 42, C16, 600) < 586


def test_across_it_holds_no_more_than_a_published_run_with_its_rope_effect() -> None:
    """5 mm in C24, permanent: 949.58 N by an engineer's notebook, which counts the whole diameter and what the head holds (V2)."""
    assert lateral(5, 40, 40, C24, 600) * 0.6 / 1.3 < 949.58


@given(st.floats(4, 8), st.floats(15, 60), st.floats(20, 80), st.floats(1, 1.5))
def test_thicker_screws_further_in_never_hold_less_across(diameter: float, through: float, into: float, more: float) -> None:
    holds = lateral(diameter, through, into, C16, 600) * (1 - 1e-9)
    assert lateral(diameter * more, through, into, C16, 600) >= holds
    assert lateral(diameter, through, into, C16 * more, 600) >= holds
    assert lateral(diameter, through, into, C16, 600 * more) >= holds
    assert lateral(diameter, through * more, into * more, C16, 600) >= holds


def test_screws_together_hold_less_than_their_sum() -> None:
    """n_ef = n^0.9, 8.7.2(8): ten hold as 7.94 of them."""
    assert acting(1) == 1
    assert acting(10) == pytest.approx(7.943, abs=5e-4)


@given(st.floats(6, 12), st.floats(36, 150), st.floats(1, 1.5), st.integers(1, 20))
def test_more_thread_thicker_screws_and_denser_timber_never_hold_less(diameter: float, thread: float, more: float, screws: int) -> None:
    holds = withdrawal(diameter, thread, C16) * (1 - 1e-9)
    assert withdrawal(diameter * more, thread, C16) >= holds
    assert withdrawal(diameter, thread * more, C16) >= holds
    assert withdrawal(diameter, thread, C16 * more) >= holds
    assert acting(screws + 1) > acting(screws)
    assert acting(screws + 1) / (screws + 1) < acting(screws) / screws
