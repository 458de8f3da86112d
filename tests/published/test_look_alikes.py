"""Ends that share a name, or all but share a diameter, and are not for one another: reference tables of pipe and thread sizes, 5.2, 5.3.

UK 32, 40 and 50 are named after the bore and are 34, 41 and 54 across in push-fit, 36, 43 and 56 in solvent weld (V3); continental names
are the outside itself (M). A parallel thread (ISO 228, G) wants a washer, a taper one (ISO 7, R) seals in the thread (V2); an inch thread
is not an inch across (V2).
"""

from __future__ import annotations

from decimal import Decimal
from itertools import product

import pytest

from tundish.catalogue.item import End, Item
from tundish.catalogue.joints import chain, fittings, joins
from tundish.catalogue.load import supplied_book, supplied_systems

BOOK = supplied_book()
SIZES = [(system, nominal, float(across)) for system, sizes in supplied_systems().items() for nominal, across in sizes.items()]
TAKEN = {("compression waste", "push-fit waste"), ("compression waste", "solvent waste")}
"""Sockets that take the pipe of another family: compression takes both."""


def end(system: str, nominal: str, gender: str) -> End:
    across = next(each for of, size, each in SIZES if (of, size) == (system, nominal))
    return End(system, nominal, across, "male" if gender == "male" else "female")


def cheapest(item: Item) -> Decimal | None:
    return min((offer.price for offer in BOOK.offers.get(item.code, ())), default=None)


@pytest.mark.parametrize(("system", "nominal"), [(system, nominal) for system, nominal, _ in SIZES])
def test_a_spigot_goes_into_its_own_size_of_its_own_system_alone(system: str, nominal: str) -> None:
    for other, size, _ in SIZES:
        fit = nominal == size and (system == other or (other, system) in TAKEN)
        assert joins(end(system, nominal, "male"), end(other, size, "female")) is fit, (other, size)


@pytest.mark.parametrize(
    ("one", "other", "apart"),
    [
        (("push-fit waste", "40"), ("continental drain", "40"), 1.0),
        (("push-fit waste", "40"), ("solvent waste", "40"), 2.0),
        (("push-fit waste", "32"), ("solvent waste", "32"), 2.0),
        (("push-fit waste", "50"), ("solvent waste", "50"), 2.0),
        (("push-fit waste", "50"), ("continental drain", "50"), 4.0),
        (("push-fit waste", "40"), ("thread", "G 1 1/4"), 0.91),
        (("thread", "G 1/2"), ("taper thread", "R 1/2"), 0.0),
        (("soil", "110"), ("continental drain", "110"), 0.0),
        (("copper", "22"), ("thread", "G 1/2"), 1.045),
    ],
)
def test_look_alikes_do_not_join(one: tuple[str, str], other: tuple[str, str], apart: float) -> None:
    for gender, mate in (("male", "female"), ("female", "male")):
        first, second = end(*one, gender), end(*other, mate)
        assert abs(first.diameter - second.diameter) == pytest.approx(apart)
        assert not joins(first, second)


@pytest.mark.parametrize(
    ("one", "other", "takes"),
    [
        (("continental drain", "50", "male"), ("push-fit waste", "40", "female"), ["waste-adaptor-50-40"]),
        (("solvent waste", "40", "male"), ("push-fit waste", "40", "male"), ["waste-union-40-solvent"]),
        (("continental drain", "90", "male"), ("soil", "110", "female"), ["soil-adaptor-90-110-straight"]),
        (("cast iron", "100", "male"), ("soil", "110", "male"), ["coupling-iron-110"]),
    ],
)
def test_what_joins_them_is_found(one: tuple[str, str, str], other: tuple[str, str, str], takes: list[str]) -> None:
    found = chain((end(*one), end(*other)), fittings(BOOK.items.values()), cheapest)
    assert found is not None
    assert [each.code for each in found.parts] == takes


def test_no_two_systems_are_one_by_another_name() -> None:
    assert len({(system, nominal) for system, nominal, _ in SIZES}) == len(SIZES)
    assert not [(one, other) for one, other in product(SIZES, SIZES) if one != other and one[:2] == other[:2]]
