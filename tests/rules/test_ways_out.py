"""What a finding offers as a way out does mend it: the input is set, the room worked out again, and the check passes."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest

from tests.rules.test_cases import Case, cases, given, titled
from tundish.catalogue.book import Book
from tundish.field import Entry, put
from tundish.layout.room import Room
from tundish.layout.work_out import work_out
from tundish.rules.rule import Finding, Rule


def offered() -> Iterator[Any]:
    """The cases of rules that offer a way out."""
    for param in cases():
        case = param.values[1]
        if any(isinstance(wanted, dict) and wanted.get("ways") for wanted in case.get("findings", {}).values()):
            yield param


@pytest.mark.parametrize(("each", "case"), list(offered()))
def test_a_way_out_mends_what_it_is_offered_for(each: Rule, case: Case) -> None:
    room, book = given(case)
    before = findings(each, room, book)
    tried = [(title, way) for title, finding in before.items() for way in finding.ways_out]
    assert tried
    for title, way in tried:
        plan = put(room.plan, way.path.removeprefix(f"{room.path}."), way.value if isinstance(way.value, str) else Entry(way.value))
        after = findings(each, work_out(plan, book, room.path), book)
        assert title not in after or after[title].state == "passes", way.words


def findings(each: Rule, room: Room, book: Book) -> dict[str, Finding]:
    """What a rule finds, by title and place."""
    return {titled(one): one for one in each.says(room, book) if isinstance(one, Finding)}
