"""Every caution says when it appears, and defers to somebody: a licensed firm, a chartered person, an authority, the maker."""

from __future__ import annotations

import tomllib

import pytest

from tests.rules.test_cases import CASES, file_of, given, said_by
from tundish.catalogue.load import supplied_book
from tundish.documents.index import NAMES, build
from tundish.estimate import estimate
from tundish.field import put
from tundish.rules.book import RULES
from tundish.rules.pages import page
from tundish.rules.rule import Caution, Rule
from tundish.store.keep import demo_jobs
from tundish.writers.text import as_text

CAUTIONS = tuple(each for each in RULES if each.family == "safety")
WHOSE = ("electrician", "engineer", "licensed", "building control", "water company", "owner", "maker", "HSE")
"""Whose advice is taken."""


@pytest.mark.parametrize("each", CAUTIONS, ids=lambda each: each.key)
def test_a_caution_says_when_it_appears(each: Rule) -> None:
    assert "Said " in each.more


@pytest.mark.parametrize("each", CAUTIONS, ids=lambda each: each.key)
def test_a_caution_says_where_it_prints(each: Rule) -> None:
    """On the setting-out sheet, and on papers that there are."""
    where = " and ".join(("the setting-out sheet of its wall", *(f"the {paper}" for paper in each.prints)))
    assert f"Printed on {where}." in page(each, supplied_book())
    assert set(each.prints) <= {key for key, _ in NAMES}


def test_what_has_to_be_arranged_beforehand_prints_on_the_programme_too() -> None:
    """Asbestos, isolation, a shared stack and notifiable work bite before the first day; words are those of the setting-out sheet."""
    job = next(each for each in demo_jobs() if each.number == "101")
    shared = put(put(job, "rooms.0.survey.stack.shared", value=True), "rooms.0.survey.existing.built", "before 2000")
    worked = estimate(shared, supplied_book())
    (programme,), (sheet, *_) = (build(key, worked) for key in ("programme", "setting-out"))
    said, on_the_wall = (" ".join(as_text(each).split()) for each in (programme, sheet))
    for title in ("Asbestos", "Isolation and drain-down", "Shared stack", "Electrical zones"):
        (caution,) = [each for each in worked.cautions if each.title == title]
        assert f"{title}: {caution.words}" in said
        assert f"{title}: {caution.words}" in on_the_wall
    assert "Silica dust" not in said


@pytest.mark.parametrize("each", CAUTIONS, ids=lambda each: each.key)
def test_a_caution_names_whose_advice_to_take(each: Rule) -> None:
    said = [
        one
        for case in tomllib.loads((CASES / file_of(each).relative_to(CASES)).read_text(encoding="utf-8"))["case"]
        for room, book in [given(case)]
        for one in said_by(each, room, book, book)
        if isinstance(one, Caution)
    ]
    assert said
    assert all(any(whose in one.words for whose in WHOSE) for one in said)
