"""Putting published figures to the program: a room of the rule cases with a few inputs changed, and what the rules say of it.

Every test here names who publishes its figure and how far that can be trusted:

- published (V, V1, V2): read in the document, with a regulator, or on a page that reproduces the standard;
- V3: read on a weaker page, a retailer's or a forum's;
- D: worked out here from published figures by arithmetic alone;
- from memory (M): remembered, and not yet held against the document. It is not called published.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from tests.rules.test_cases import given
from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.book import RULES
from tundish.rules.rule import Asked, Finding, Need, Rule

Changes = Mapping[str, Any]


def room_of(changes: Changes | None = None, figures: Mapping[str, float] | None = None, room: str = "plain") -> tuple[Room, Book]:
    """A room worked out with inputs changed by path, and rule figures and makers' sizes changed by key."""
    return given({"room": room, "set": changes or {}, "book": figures or {}})


def found(each: Rule, title: str, worked: tuple[Room, Book], place: str = "") -> Finding:
    """The one finding of a rule with this title (and place)."""
    said = [one for one in _said(each, worked) if isinstance(one, Finding) and one.title == title and place in ("", one.place)]
    assert len(said) == 1
    return said[0]


def needed(each: Rule, role: str, worked: tuple[Room, Book]) -> float:
    """How much of a role or an item a rule asks for in all."""
    return sum(one.amount.value for one in _said(each, worked) if isinstance(one, Need) and role in (one.role, one.item))


def wc_at(run: float, invert: float = 130) -> Changes:
    """A WC whose branch runs so far."""
    return {"survey.room.width": 8_000, "design.appliances.0.centre": 150 + run, "survey.stack.branch_invert": invert}


def basin_at(run: float) -> Changes:
    """A basin whose waste runs so far."""
    return {"survey.room.width": 8_000, "design.appliances.1.centre": 150 + run}


def _said(each: Rule, worked: tuple[Room, Book]) -> Iterable[object]:
    """What a rule says; one that reads needs is given those of the whole first pass."""
    room, book = worked
    if each.reads == "room":
        return each.says(room, book)
    first = (one for every in RULES if every.reads == "room" for one in every.says(room, book))
    return each.says(Asked(room, tuple(one for one in first if isinstance(one, Need))), book)
