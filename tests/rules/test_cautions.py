"""Every caution says when it appears, and defers to somebody: a licensed firm, a chartered person, an authority, the maker."""

from __future__ import annotations

import tomllib

import pytest

from tests.rules.test_cases import CASES, file_of, given, said_by
from tundish.rules.book import RULES
from tundish.rules.rule import Caution, Rule

CAUTIONS = tuple(each for each in RULES if each.family == "safety")
WHOSE = ("electrician", "engineer", "licensed", "building control", "water company", "owner", "maker", "HSE")
"""Whose advice is taken."""


@pytest.mark.parametrize("each", CAUTIONS, ids=lambda each: each.key)
def test_a_caution_says_when_it_appears(each: Rule) -> None:
    assert "Said " in each.more


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
