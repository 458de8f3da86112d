"""How long the cheapest chain takes to find in a catalogue of 5,000 fittings."""

from __future__ import annotations

from decimal import Decimal
from random import Random

from pytest_benchmark.fixture import BenchmarkFixture

from tundish.catalogue.item import End, Item
from tundish.catalogue.joints import Wanted, chain, fittings

SYSTEMS = ("push-fit waste", "solvent waste", "compression waste", "soil", "continental drain", "copper", "thread", "flush")
SIZES = ("15", "22", "28", "32", "40", "50", "82", "90", "110")


def catalogue(count: int) -> list[Item]:
    """So many two-ended parts; every system and size leads on to others."""
    random = Random(47)  # noqa: S311 - a fixed, made-up catalogue

    def end() -> End:
        return End(random.choice(SYSTEMS), random.choice(SIZES), 0.0, random.choice(("male", "female")))

    def sizes() -> dict[str, tuple[float, str]]:
        return {"angle": (random.choice((0.0, 45.0, 90.0)), "°"), "built_length": (float(random.randrange(20, 200)), "mm")}

    return [Item(f"p{place}", f"p{place}", "fitting", "", "each", sizes(), (end(), end())) for place in range(count)]


def test_a_chain_among_five_thousand_fittings(benchmark: BenchmarkFixture) -> None:
    """Target: under 20 ms, also with a turn to make in so much space."""
    parts = catalogue(5000)
    index = fittings(parts)
    prices = {item.code: Decimal(1 + int(item.code[1:]) % 37) for item in parts}
    ends = (End("flush", "15", 0.0, "male"), End("soil", "110", 0.0, "female"))

    def search() -> object:
        return chain(ends, index, lambda item: prices[item.code], wanted=Wanted(turn=90, space=600))

    assert benchmark.pedantic(search, rounds=20, warmup_rounds=2) is not None  # type: ignore[no-untyped-call]  # the plug-in has no types
