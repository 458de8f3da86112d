"""A bar on several supports, against published coefficients and an independent frame-analysis library."""

from __future__ import annotations

from itertools import pairwise
from random import Random
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tundish.rules.beam import Load, bend

STIFF = 2.0e9
"""E times I: 200,000 N/mm² and about 1 cm⁴."""


# B2, B3 and B4 of the reference's beam coefficients (textbook), B10: two equal spans with a load at a (published, Lindeburg).
def test_one_span_with_a_load_in_the_middle() -> None:
    found = bend((0, 1000), ((500, 1000),), STIFF)
    assert found.reactions == pytest.approx((500, 500))
    assert found.moment == pytest.approx(1000 * 1000 / 4)
    assert found.deflection == pytest.approx(1000 * 1000**3 / 48 / STIFF)


def test_one_span_with_a_load_aside() -> None:
    found = bend((0, 1000), ((300, 1000),), STIFF)
    assert found.reactions == pytest.approx((700, 300))
    assert found.moment == pytest.approx(1000 * 300 * 700 / 1000)


def test_a_bar_that_hangs_past_its_support() -> None:
    """P at c past a support of a span L: moment P c, tip P c² (L + c) / 3EI; the far support is pulled."""
    found = bend((0, 600), ((800, 500),), STIFF)
    assert found.reactions == pytest.approx((-500 * 200 / 600, 500 * 800 / 600))
    assert found.moment == pytest.approx(500 * 200)
    assert found.deflection == pytest.approx(500 * 200**2 * 800 / 3 / STIFF)


@pytest.mark.parametrize("a", [200, 500, 700])
def test_two_equal_spans_with_a_load_in_the_first(a: float) -> None:
    long, p, b = 1000.0, 1000.0, 1000.0 - a
    found = bend((0, long, 2 * long), ((a, p),), STIFF)
    assert found.reactions == pytest.approx(
        (
            p * b * (4 * long**2 - a * (long + a)) / (4 * long**3),
            p * a * (2 * long**2 + b * (long + a)) / (2 * long**3),
            -p * a * b * (long + a) / (4 * long**3),
        )
    )


def test_three_equal_spans_with_a_load_in_the_middle_of_each() -> None:
    """0.35, 1.15, 1.15, 0.35 of P; moment 0.175 P L in the outer spans: a handbook's table of continuous beams, from memory."""
    found = bend((0, 400, 800, 1200), ((200, 1000), (600, 1000), (1000, 1000)), STIFF)
    assert found.reactions == pytest.approx((350, 1150, 1150, 350))
    assert found.moment == pytest.approx(0.175 * 1000 * 400)


def evenly(left: float, right: float, w: float) -> list[Load]:
    """A load of so much a millimetre as many small ones, each in the middle of its part."""
    count = 400
    part = (right - left) / count
    return [(left + (place + 0.5) * part, w * part) for place in range(count)]


def test_one_span_under_an_even_load_as_a_maker_tables_it() -> None:
    """41 x 41 x 2.5 over 1,000: 3.71 kN sags 3.50 with I 69,000 and E 200,000, W L / 8 = 463.8 Nm: a channel maker's load table."""
    found = bend((0, 1000), evenly(0, 1000, 3.71), 200_000 * 69_000)
    assert found.reactions == pytest.approx((1855, 1855))
    assert found.moment == pytest.approx(463_800, rel=5e-4)
    assert found.deflection == pytest.approx(3.50, abs=0.005)


def test_two_equal_spans_under_an_even_load() -> None:
    """3/8, 10/8, 3/8 of w L; w L²/8 over the support; w L⁴ / 185 E I: a civil engineering reference manual."""
    long, w = 1000.0, 2.0
    found = bend((0, long, 2 * long), evenly(0, 2 * long, w), STIFF)
    assert found.reactions == pytest.approx([share * w * long for share in (3 / 8, 10 / 8, 3 / 8)], rel=1e-4)
    assert found.moment == pytest.approx(w * long**2 / 8, rel=1e-4)
    assert found.deflection == pytest.approx(w * long**4 / 185 / STIFF, rel=5e-3)


@pytest.mark.parametrize(
    ("loaded", "reactions", "moment", "sag"),
    [(3, (0.4, 1.1, 1.1, 0.4), 0.10, 0.0069), (2, (0.383, 1.200, 0.450, -0.033), 0.117, 0.0059)],
)
def test_three_equal_spans_under_an_even_load(loaded: int, reactions: tuple[float, ...], moment: float, sag: float) -> None:
    """All loaded, and the first two: reactions by w L, moment over a support by w L², sag by w L⁴ / E I: a handbook of beam formulas."""
    long, w = 1000.0, 2.0
    found = bend((0, long, 2 * long, 3 * long), evenly(0, loaded * long, w), STIFF)
    assert found.reactions == pytest.approx([share * w * long for share in reactions], abs=0.0006 * w * long)
    assert found.moment == pytest.approx(moment * w * long**2, rel=5e-3)
    assert found.deflection == pytest.approx(sag * w * long**4 / STIFF, rel=1e-2)


def random_bar(seed: int) -> tuple[list[float], list[Load]]:
    """Supports 200 to 700 apart and loads on and past them, all on whole millimetres."""
    random = Random(seed)  # noqa: S311 - made-up bars, the same every time
    supports = [float(random.randrange(100, 400))]
    for _ in range(random.randrange(1, 6)):
        supports.append(supports[-1] + random.randrange(200, 700))
    taken = set(supports)
    loads = []
    for _ in range(random.randrange(1, 7)):
        x = float(random.randrange(10, int(supports[-1]) + 200))
        if x not in taken:
            taken.add(x)
            loads.append((x, float(random.randrange(100, 3000))))
    return supports, loads


def by_frame_analysis(supports: list[float], loads: list[Load]) -> Any:
    """The same bar as a plane frame of beam elements from node to node."""
    from Pynite import FEModel3D  # type: ignore[import-untyped]  # the library has no types

    model = FEModel3D()
    model.add_material("steel", 200_000, 77_000, 0.3, 7.85e-5)
    model.add_section("bar", 190, STIFF / 200_000, STIFF / 200_000, 100)
    middles = [(left + right) / 2 for left, right in pairwise(supports)]
    places = sorted({*supports, *middles, *(x for x, _ in loads)})
    for x in places:
        model.add_node(f"N{x}", x, 0, 0)
    for left, right in pairwise(places):
        model.add_member(f"M{left}", f"N{left}", f"N{right}", "steel", "bar")
    for x in places:
        first = x == places[0]
        model.def_support(f"N{x}", first, x in supports, True, first, False, False)
    for x, p in loads:
        model.add_node_load(f"N{x}", "FY", -p)
    model.analyze_linear(check_statics=False)
    return model


@pytest.mark.parametrize("seed", range(200))
def test_any_bar_agrees_with_frame_analysis(seed: int) -> None:
    supports, loads = random_bar(seed)
    found, model = bend(supports, loads, STIFF), by_frame_analysis(supports, loads)
    reactions = [model.nodes[f"N{x}"].RxnFY["Combo 1"] for x in supports]
    assert found.reactions == pytest.approx(reactions, rel=1e-6, abs=1e-3)
    ends = [abs(value) for member in model.members.values() for value in (member.moment("Mz", 0), member.moment("Mz", member.L()))]
    assert found.moment == pytest.approx(max(ends, default=0), rel=1e-6, abs=0.5)
    assert found.deflection == pytest.approx(max(abs(node.DY["Combo 1"]) for node in model.nodes.values()), rel=1e-6, abs=1e-9)


@given(st.integers(0, 10_000), st.floats(1.1, 5))
def test_more_load_is_more_of_everything(seed: int, times: float) -> None:
    supports, loads = random_bar(seed)
    less, more = bend(supports, loads, STIFF), bend(supports, [(x, p * times) for x, p in loads], STIFF)
    assert more.moment == pytest.approx(less.moment * times)
    assert sum(less.reactions) == pytest.approx(sum(p for _, p in loads))
    assert more.deflection == pytest.approx(less.deflection * times)
