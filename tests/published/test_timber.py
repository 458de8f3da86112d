"""The timber of the rule book against a public Eurocode library's own tables, EN 338 and EN 1995-1-1: all V2.

The library is eurocodepy (MIT), of which only the tables that it carries are read. It has no equation for withdrawal: those are held
against worked figures in the tests of rules/screws.
"""

from __future__ import annotations

import json
from functools import lru_cache
from importlib.metadata import files
from typing import Any

import pytest

from tundish.catalogue.load import supplied_book

SHORT = 3
"""The place of short-term in the tables of kmod: permanent, long, medium, short, instantaneous."""


@lru_cache(maxsize=1)
def timber() -> dict[str, Any]:
    """The timber tables of the library."""
    (path,) = (each for each in files("eurocodepy") or () if each.name == "eurocodes.json")
    found: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))["Eurocodes"]["Materials"]["Timber"]
    return found


def figure(key: str) -> float:
    """A figure of the rule book."""
    return supplied_book().figure(key).value


@pytest.mark.parametrize(("key", "name"), [("fixings.timber_density", "rhok"), ("fixings.timber_bending", "fmk")])
def test_studs_and_noggins_are_of_c16(key: str, name: str) -> None:
    assert figure(key) == timber()["Classes"]["C16"][name]


@pytest.mark.parametrize("grade", ["C16", "C18", "C24", "C27"])
def test_no_grade_that_is_likelier_is_weaker_than_what_is_reckoned_with(grade: str) -> None:
    assert figure("fixings.timber_density") <= timber()["Classes"][grade]["rhok"]
    assert figure("fixings.timber_bending") <= timber()["Classes"][grade]["fmk"]


@pytest.mark.parametrize("service", ["Class 1", "Class 2"])
@pytest.mark.parametrize("what", ["timber", "plywood-3"])
def test_kmod_is_that_of_a_short_load(what: str, service: str) -> None:
    assert figure("fixings.kmod") == timber()["Parameters"]["kmod"][what][service][SHORT]


def test_kmod_of_a_load_that_never_goes_is_as_the_figure_says() -> None:
    assert "0.6 for a load that never goes" in supplied_book().figures["fixings.kmod"].source
    assert timber()["Parameters"]["kmod"]["timber"]["Class 1"][0] == 0.6


@pytest.mark.parametrize(("key", "name"), [("fixings.gamma_m", "timber"), ("fixings.ply_gamma_m", "plywood")])
def test_partial_factors(key: str, name: str) -> None:
    assert figure(key) == timber()["Parameters"]["safety"][name]


@pytest.mark.parametrize(
    ("grade", "name", "expected"),
    [
        ("C16", "fmk", 16), ("C24", "fmk", 24), ("C16", "fvk", 3.2), ("C24", "fvk", 4.0), ("C16", "fc90k", 2.2), ("C24", "fc90k", 2.5),
        ("C16", "fc0k", 17), ("C24", "fc0k", 21), ("C16", "E0mean", 8000), ("C24", "E0mean", 11000), ("C16", "rhok", 310),
        ("C24", "rhok", 350), ("C16", "rhom", 370), ("C24", "rhom", 420),
    ],
)  # fmt: skip
def test_the_library_says_what_is_published_elsewhere(grade: str, name: str, expected: float) -> None:
    """EN 338 as a second page gives it (V2): so the two agree, and the tests above rest on more than one."""
    assert timber()["Classes"][grade][name] == expected
