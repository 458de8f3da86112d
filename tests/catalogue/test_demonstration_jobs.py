"""The demonstration jobs open whole, name only what can be bought, and still rest on what the rules say."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest

from tundish.catalogue.load import supplied_book
from tundish.estimate import Job, estimate
from tundish.field import walk
from tundish.plain import from_plain, to_plain
from tundish.resources import resource

FILES = sorted(resource("jobs").glob("*.tundish"))


def opened(path: Path) -> tuple[Job, dict[str, Any]]:
    plain = json.loads(path.read_text(encoding="utf-8"))
    assert (plain.pop("format"), plain.pop("version")) == ("tundish job", 1)
    job, problems, unknown = from_plain(Job, plain)
    assert (problems, unknown) == ((), {})
    assert job is not None
    return job, plain


def test_there_are_four() -> None:
    assert [opened(path)[0].number for path in FILES] == ["101", "102", "103", "104"]


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_a_job_opens_whole_and_is_written_as_it_was(path: Path) -> None:
    job, plain = opened(path)
    assert to_plain(job) == plain
    assert job.demo


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_every_item_named_is_of_the_kind_asked_for(path: Path) -> None:
    for where, field, value in walk(opened(path)[0]):
        if field.kind == "item" and value:
            assert supplied_book().item(value).kind in field.options, where


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_nobody_real_lives_there(path: Path) -> None:
    client = opened(path)[0].client
    assert re.fullmatch(r"01632 960\d{3}|07700 900\d{3}", client.phone)
    assert re.search(r"\nZZ9 \d[A-Z]{2}$", client.address)
    assert re.search(r"@example\.(com|org)$", client.email)


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_what_was_settled_still_stands(path: Path) -> None:
    job, _ = opened(path)
    asked = {decision.key: decision.rests_on for decision in estimate(job, supplied_book()).decisions}
    assert {one.decision: one.rests_on for one in job.settled}.items() <= asked.items()


@pytest.mark.parametrize(
    ("number", "fall", "states"),
    [
        # By hand: finished floor + 420 − 95 − 100 − bore 103.6 ÷ 2 − invert of the branch.
        ("101", 20 + 420 - 95 - 100 - 51.8 - 178, {"passes"}),
        ("102", 28 + 420 - 95 - 100 - 51.8 - 189, {"passes", "look"}),
        ("104", 13 + 430 - 100 - 100 - 51.8 - 128, {"passes"}),
        ("103", 6 + 420 - 95 - 100 - 51.8 - 155, {"passes", "look", "fails"}),
    ],
)
def test_each_shows_what_it_was_made_to_show(number: str, fall: float, states: set[str]) -> None:
    job = next(job for job, _ in map(opened, FILES) if job.number == number)
    worked = estimate(job, supplied_book())
    assert worked.problems == ()
    assert worked.rooms[0].figures["wc-1.fall"].value == pytest.approx(fall)
    assert {finding.state for finding in worked.findings} <= states
    assert max(states, key=["passes", "look", "fails"].index) in {finding.state for finding in worked.findings}
