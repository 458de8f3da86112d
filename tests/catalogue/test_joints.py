"""The cheapest chain of parts: what joins what, and that no chain is cheaper than the one found."""

from __future__ import annotations

from decimal import Decimal
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tundish.catalogue.item import End, Item
from tundish.catalogue.joints import Chain, Wanted, chain, fittings, joins
from tundish.catalogue.load import supplied_book

BOOK = supplied_book()


def end(system: str, nominal: str, gender: str) -> End:
    return End(system, nominal, 0.0, "male" if gender == "male" else "female")


def part(code: str, one: End, other: End, **sizes: float) -> Item:
    return Item(code, code, "fitting", "Fittings", "each", {name: (value, "mm") for name, value in sizes.items()}, (one, other))


def cheapest_offer(item: Item) -> Decimal | None:
    return min((offer.price for offer in BOOK.offers.get(item.code, ())), default=None)


# UK waste sizes are named after the bore, continental ones after the outside: reference tables of pipe and thread sizes, 5.2 and 5.3.
@pytest.mark.parametrize(
    ("one", "other", "fit"),
    [
        (("push-fit waste", "40", "male"), ("push-fit waste", "40", "female"), True),
        (("push-fit waste", "40", "male"), ("push-fit waste", "40", "male"), False),
        (("push-fit waste", "40", "male"), ("solvent waste", "40", "female"), False),
        (("push-fit waste", "40", "male"), ("continental drain", "40", "female"), False),
        (("push-fit waste", "40", "male"), ("compression waste", "40", "female"), True),
        (("solvent waste", "40", "male"), ("compression waste", "40", "female"), True),
        (("push-fit waste", "32", "male"), ("compression waste", "40", "female"), False),
        (("thread", "G 1/2", "male"), ("thread", "G 1/2", "female"), True),
        (("thread", "G 1/2", "male"), ("taper thread", "R 1/2", "female"), False),
        (("thread", "G 1 1/4", "male"), ("thread", "G 1 1/2", "female"), False),
    ],
)
def test_ends_join_by_system_size_and_gender(one: tuple[str, str, str], other: tuple[str, str, str], *, fit: bool) -> None:
    assert joins(end(*one), end(*other)) is fit
    assert joins(end(*other), end(*one)) is fit


def test_ends_that_fit_need_no_part() -> None:
    assert chain((end("soil", "110", "male"), end("soil", "110", "female")), fittings([]), cheapest_offer) == Chain((), Decimal(0))


def test_a_frames_bend_reaches_a_plastic_stack_by_the_adaptor() -> None:
    found = chain((BOOK.item("pan-bend-90").ends[1], BOOK.item("soil-branch-110").ends[0]), fittings(BOOK.items.values()), cheapest_offer)
    assert found is not None
    assert [each.code for each in found.parts] == ["soil-adaptor-90-110-straight"]


def test_a_pan_bend_reaches_an_old_iron_stack_by_adaptor_and_coupling() -> None:
    iron = end("cast iron", "100", "male")
    found = chain((BOOK.item("pan-bend-90").ends[1], iron), fittings(BOOK.items.values()), cheapest_offer)
    assert found is not None
    assert [each.code for each in found.parts] == ["soil-adaptor-90-110-straight", "coupling-iron-110"]


def test_a_basin_waste_reaches_a_40_boss_by_trap_pipe_and_reducer() -> None:
    found = chain((BOOK.item("basin-waste").ends[1], BOOK.item("boss-strap-110").ends[0]), fittings(BOOK.items.values()), cheapest_offer)
    assert found is not None
    assert {"trap", "waste pipe"} <= {each.kind for each in found.parts}
    assert joins(found.parts[-1].ends[0], BOOK.item("boss-strap-110").ends[0])


def test_what_cannot_be_joined_has_no_chain() -> None:
    flush, copper = end("flush", "55", "female"), end("copper", "28", "male")
    assert chain((flush, copper), fittings(BOOK.items.values()), cheapest_offer) is None


def test_kits_and_stock_are_free_for_as_many_as_there_are() -> None:
    a, b = (end(system, "40", "male") for system in ("a", "b"))
    c = end("c", "40", "female")
    cheap, dear = part("cheap", end("a", "40", "female"), c), part("dear", end("a", "40", "female"), c)
    last = part("last", end("c", "40", "male"), end("b", "40", "female"))
    prices = {"cheap": Decimal(2), "dear": Decimal(9), "last": Decimal(1)}
    ask = {"ends": (a, b), "parts": fittings([cheap, dear, last]), "price": lambda item: prices[item.code]}
    bought, kept = chain(**ask), chain(**ask, free={"dear": 1})  # type: ignore[arg-type]
    assert bought is not None
    assert kept is not None
    assert ([each.code for each in bought.parts], bought.cost) == (["cheap", "last"], Decimal(3))
    assert ([each.code for each in kept.parts], kept.cost) == (["dear", "last"], Decimal(1))


def test_a_turn_a_drop_and_the_space_are_met() -> None:
    male, female = end("soil", "110", "male"), end("soil", "110", "female")
    bend = part("bend-45", female, male, angle=45, built_length=90)
    knee = part("bend-90", female, male, angle=90, built_length=120)
    offset = part("offset", female, male, drop=60, built_length=200)
    prices = {"bend-45": Decimal(3), "bend-90": Decimal(8), "offset": Decimal(4)}
    parts = fittings([bend, knee, offset])

    def found(wanted: Wanted) -> list[str] | None:
        made = chain((male, female), parts, lambda item: prices[item.code], wanted=wanted)
        return None if made is None else [each.code for each in made.parts]

    assert found(Wanted(turn=90)) == ["bend-45", "bend-45"]
    assert found(Wanted(turn=90, space=150)) == ["bend-90"]
    assert found(Wanted(turn=90, space=100)) is None
    assert found(Wanted(turn=0, drop=50)) == ["offset"]
    assert found(Wanted(drop=130)) == ["offset"] * 3


SYSTEMS = ("push-fit waste", "solvent waste", "compression waste", "thread", "soil")
ENDS = st.builds(end, st.sampled_from(SYSTEMS), st.sampled_from(("32", "40")), st.sampled_from(("male", "female")))


@st.composite
def catalogues(draw: st.DrawFn) -> tuple[list[Item], dict[str, Decimal]]:
    count = draw(st.integers(1, 7))
    sizes = st.sampled_from((0.0, 45.0, 90.0))
    parts = [
        part(f"p{place}", draw(ENDS), draw(ENDS), angle=draw(sizes), built_length=draw(st.sampled_from((0.0, 50.0, 120.0))))
        for place in range(count)
    ]
    return parts, {each.code: Decimal(draw(st.integers(1, 9))) for each in parts}


@given(catalogues(), ENDS, ENDS, st.sampled_from((None, 0.0, 90.0)), st.sampled_from((150.0, 400.0)))
def test_no_chain_of_up_to_four_parts_is_cheaper(
    catalogue: tuple[list[Item], dict[str, Decimal]], one: End, other: End, turn: float | None, space: float
) -> None:
    parts, prices = catalogue
    wanted = Wanted(turn=turn, space=space)
    found = chain((one, other), fittings(parts), lambda item: prices[item.code], wanted=wanted)
    best = min(_every(parts, prices, (one, other), wanted), default=None)
    if best is not None:
        assert found is not None
        assert (found.cost, len(found.parts)) <= best
    if found is not None and len(found.parts) <= 4:
        assert best == (found.cost, len(found.parts))


def _every(parts: list[Item], prices: dict[str, Decimal], ends: tuple[End, End], wanted: Wanted) -> list[tuple[Decimal, int]]:
    """Price and count of every chain of up to four parts, by trying them all."""
    turned = [(each, way) for each in parts for way in (0, 1)]
    made = []
    for count in range(5):
        for picked in product(turned, repeat=count):
            here = ends[0]
            for item, way in picked:
                if not joins(here, item.ends[way]):
                    break
                here = item.ends[1 - way]
            else:
                turn = sum(item.sizes["angle"][0] for item, _ in picked)
                long = sum(item.sizes["built_length"][0] for item, _ in picked)
                if joins(here, ends[1]) and (wanted.turn is None or turn == wanted.turn) and long <= wanted.space:
                    made.append((sum((prices[item.code] for item, _ in picked), Decimal(0)), count))
    return made
