"""A way out of a check is one press on Checks: it mends what it is offered for, in one step that is undone from any page."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from PySide6.QtWidgets import QLabel

from tests.desktop.fitter import WAIT_MS, Fitter
from tests.rules.test_cases import cases, given
from tundish.catalogue.load import supplied_book
from tundish.desktop.pages.checks import ChecksPage
from tundish.desktop.past import where
from tundish.desktop.receipt_rows import LineRow
from tundish.estimate import Estimate, Job, estimate
from tundish.field import describe, get
from tundish.layout.design import RoomPlan
from tundish.rules.rule import Finding, WayOut
from tundish.session import Step
from tundish.takeoff.by_hand import STRIKES, LineByHand

KINDS = {
    "number": ("drainage/branch-fall", "top"),
    "choice": ("space/door-swing", "hinge"),
    "item": ("space/front", "ware"),
    "text": ("drainage/waste-fall", "drains_to"),
    "of a frame": ("frames/brackets", "bracket"),
}
"""Of each kind of input that a way out may set, a rule that offers one."""


def room_of(rule: str, ends: str) -> RoomPlan:
    """A room of the rule's cases for which it offers a way out by an input of this name, in the supplied book too."""
    for param in cases():
        each, case = param.values
        if each.key == rule:
            room, _ = given(case)
            if offered(estimate(Job(rooms=(room.plan,)), supplied_book()), rule, ends) is not None:
                return room.plan
    raise AssertionError(rule)


def offered(worked: Estimate, rule: str, ends: str) -> tuple[int, Finding, WayOut] | None:
    found = ((place, each, way) for place, each in enumerate(worked.findings) for way in each.ways_out if each.rule == rule)
    return next((each for each in found if each[2].path.endswith(f".{ends}") or (each[2].adds and not ends)), None)


def said(fitter: Fitter) -> str:
    return "\n".join(each.text() for each in fitter.window.where_from.findChildren(QLabel) if each.isVisibleTo(fitter.window))


def pressed(fitter: Fitter, rule: str, ends: str) -> tuple[Finding, WayOut]:
    """Choose the check on Checks, read what its ways out would do, and press one."""
    page = fitter.page("Alt+3")
    assert isinstance(page, ChecksPage)
    found = offered(fitter.settled(), rule, ends)
    assert found is not None
    place, finding, way = found
    page.table.choose(f"check:{place}")
    page.figure_asked.emit(page.table.chosen())
    if not way.adds:
        fitter.qtbot.waitUntil(lambda: "pressed" in said(fitter), timeout=WAIT_MS)
    fitter.press(way.words, fitter.window.where_from)
    fitter.settled()
    return finding, way


def mended(worked: Estimate, finding: Finding) -> bool:
    now = [each for each in worked.findings if (each.rule, each.title, each.place) == (finding.rule, finding.title, finding.place)]
    return all(each.state == "passes" for each in now)


def opened(fitter: Fitter, **parts: Any) -> None:
    fitter.open("101")
    fitter.settled()
    fitter.workspace.edit("another room", replace(fitter.workspace.job, **parts), "rooms.0")
    fitter.settled()


def taken_back(fitter: Fitter, finding: Finding, before: Job, words: str) -> None:
    """One step was done; undone from another page it is all as before, and the step says where it acted; done again it mends."""
    assert fitter.workspace.session is not None
    steps, after = fitter.workspace.session.done, fitter.workspace.job
    assert (steps[-1].before, steps[-1].after) == (before, after)
    assert mended(fitter.settled(), finding)
    fitter.page("Alt+7")
    told: list[str] = []
    fitter.workspace.said.connect(told.append)
    fitter.undo()
    assert fitter.workspace.job == before
    assert told[-1].startswith(f"Undone on {words}: ")
    assert not mended(fitter.settled(), finding)
    fitter.workspace.redo()
    assert fitter.workspace.job == after


@pytest.mark.parametrize("kind", KINDS)
def test_one_press_sets_an_input_and_mends_its_check(fitter: Fitter, kind: str) -> None:
    rule, ends = KINDS[kind]
    opened(fitter, rooms=(room_of(rule, ends),))
    before = fitter.workspace.job
    finding, way = pressed(fitter, rule, ends)
    path = way.path
    assert describe(Job, path).kind == (kind if kind in {"number", "choice", "item", "text"} else "choice")
    assert get(fitter.workspace.job, path) != get(before, path)
    taken_back(fitter, finding, before, where(Step("", before, before, path)).removeprefix(" on "))


def test_one_press_puts_all_parts_that_are_wanting_on_the_list(fitter: Fitter) -> None:
    opened(fitter, by_hand=(LineByHand(item="waste-bend-32", does=STRIKES, why="tried"),))
    before = fitter.workspace.job
    finding, _ = pressed(fitter, "ends/joined", "")
    assert len(fitter.workspace.job.by_hand) > len(before.by_hand)
    taken_back(fitter, finding, before, "Materials")


def test_what_a_way_out_breaks_is_said_before_it_is_pressed(fitter: Fitter) -> None:
    """The middle of an appliance further from the wall is clear of it, and not of what stands beside it: both are named."""
    opened(fitter, rooms=(room_of("frames/side", "centre"),))
    page = fitter.page("Alt+3")
    assert isinstance(page, ChecksPage)
    found = offered(fitter.settled(), "frames/side", "centre")
    assert found is not None
    page.table.choose(f"check:{found[0]}")
    page.figure_asked.emit(page.table.chosen())
    fitter.qtbot.waitUntil(lambda: "If it is pressed" in said(fitter), timeout=WAIT_MS)
    rows = [each.shown for each in fitter.window.where_from.findChildren(LineRow) if each.isVisibleTo(fitter.window)]
    (row,) = [each for each in rows if each.label == found[2].words.partition(":")[0]]
    assert row.amount == "breaks"
    told = row.note.split("; ")
    broken = {each.removesuffix(" no longer passes") for each in told if each.endswith(" no longer passes")}
    assert f"{found[1].title} passes" in told
    fitter.press(found[2].words, fitter.window.where_from)
    failing = {each.title for each in fitter.settled().findings if each.state != "passes"}
    assert broken
    assert broken <= failing


def test_a_closed_wall_refuses_a_way_out_and_says_why(fitter: Fitter) -> None:
    from tundish.desktop.deciding import Wall, with_wall

    rule, ends = KINDS["number"]
    opened(fitter, rooms=(room_of(rule, ends),))
    job = fitter.workspace.job
    fitter.workspace.edit("close the wall", with_wall(job, Wall(closed=True, who="me", when="2026-11-26", reason="as it is")), "settled")
    fitter.settled()
    told: list[str] = []
    fitter.workspace.said.connect(told.append)
    closed = fitter.workspace.job
    pressed(fitter, rule, ends)
    assert fitter.workspace.job == closed
    assert "The wall is closed" in told[-1]
