"""The ways a discharge could go, compared in Where from."""

from __future__ import annotations

import pytest

from tests.desktop.fitter import WAIT_MS, Fitter
from tests.desktop.journeys.conftest import fitter
from tundish.desktop import ways
from tundish.desktop.different import section
from tundish.desktop.own_ware import type_own
from tundish.desktop.receipt_rows import LineRow

__all__ = ["fitter"]
BASIN = "rooms.0.design.appliances.1.drains_to"


def shown(fitter: Fitter) -> dict[str, LineRow]:
    return {each.shown.label: each for each in fitter.window.where_from.findChildren(LineRow) if each.isVisible()}


def test_beside_a_fall_stands_where_else_it_could_go(fitter: Fitter) -> None:
    fitter.open("104")
    fitter.settled()
    fitter.workspace.choose_wall(1)
    page = fitter.page("Alt+2")
    page.figure_asked.emit("figure:basin-1.fall")  # type: ignore[attr-defined]  # every page asks
    fitter.qtbot.waitUntil(lambda: "the stack" in shown(fitter), timeout=WAIT_MS)
    rows = shown(fitter)
    assert {"Old basin waste (chosen)", "the stack"} <= rows.keys()
    assert rows["the stack"].shown.amount.startswith("£")
    assert "of fall to spare" in rows["the stack"].shown.note


def test_beside_the_check_of_a_fall_too_with_what_does_not_pass(fitter: Fitter) -> None:
    fitter.open("104")
    estimate = fitter.settled()
    page = fitter.page("Alt+3")
    place = next(n for n, each in enumerate(estimate.findings) if each.rule == "drainage/branch-fall")
    page.figure_asked.emit(f"check:{place}")  # type: ignore[attr-defined]  # every page asks
    fitter.qtbot.waitUntil(lambda: "Old basin waste" in shown(fitter), timeout=WAIT_MS)
    row = shown(fitter)["Old basin waste"].shown
    assert row.tone == "fails"
    assert "fails: Fall of WC branch" in row.note


@pytest.mark.parametrize("asked", ["figure:wc-1.fall", "figure:wc-1.top", "input:rooms.0.survey.room.width"])
def test_what_can_go_one_way_alone_is_compared_with_nothing(asked: str, fitter: Fitter) -> None:
    fitter.open("102")
    estimate = fitter.settled()
    assert ways.of_figure(asked, fitter.workspace.room) == ""
    assert {ways.of_check(each, estimate) for each in estimate.findings} == {""}
    assert section(fitter.workspace.job, fitter.workspace.book, (BASIN, ""), lambda: True) is None


def test_an_appliance_that_has_gone_has_no_ways(fitter: Fitter) -> None:
    fitter.open("104")
    fitter.settled()
    assert section(fitter.workspace.job, fitter.workspace.book, ("rooms.0.design.appliances.9.drains_to", ""), lambda: True) is None
    assert ways.of_figure("figure:gone-1.fall", fitter.workspace.room) == ""


def test_ware_typed_for_the_job_goes_the_same_ways(fitter: Fitter) -> None:
    fitter.open("104")
    fitter.settled()
    type_own(fitter.workspace, BASIN.removesuffix(".drains_to"))
    fitter.settled()
    found = section(fitter.workspace.job, fitter.workspace.book, (BASIN, ""), lambda: True)
    assert found is not None
    assert {each.label for each in found.lines} == {"Old basin waste (chosen)", "the stack"}
