"""The floor layer changes his mind: every height, tie rod and price that rests on the floor follows."""

from __future__ import annotations

import pytest

from tests.desktop.fitter import Fitter
from tundish.desktop.pages.survey import SurveyPage
from tundish.estimate import Estimate

TILE = "rooms.0.survey.floor.build_up.2.thickness"
HEIGHTS = (
    "wc-1.top",
    "wc-1.studs",
    "wc-1.outlet",
    "wc-1.inlet",
    "wc-1.plate",
    "wc-1.feet",
    "basin-1.top",
    "basin-1.waste",
    "top_of_prewall",
    "datum",
    "U1",
)


def values(estimate: Estimate) -> dict[str, float]:
    return {name: figure.value for name, figure in estimate.rooms[0].figures.items()}


def test_a_thicker_floor_tile_moves_every_height_by_as_much(fitter: Fitter) -> None:
    fitter.open("101")
    before = fitter.settled()
    page = fitter.page("Alt+1")
    assert isinstance(page, SurveyPage)
    page.go_to(TILE)

    fitter.type_into(page.form.row(TILE), "72")
    after = fitter.settled()

    was, now = values(before), values(after)
    assert {name: now[name] - was[name] for name in HEIGHTS} == dict.fromkeys(HEIGHTS, 62.0)
    assert now["wc-1.fall"] == was["wc-1.fall"] + 62, "the outlet rises and the stack does not"
    assert now["wc-1.reach"] == pytest.approx(was["wc-1.reach"], abs=0.1), "the tie rod lies along the wall's depth, which leans a little"
    assert after.lines != before.lines, "longer uprights, pipes and more insulation"
    assert f"{after.price.total:,.2f}" in fitter.price()

    fitter.page("Alt+2")
    fitter.undo()
    again = fitter.settled()
    assert values(again) == was
    assert again.price.total == before.price.total


def test_a_range_makes_the_heights_to_be_confirmed_until_it_is_settled(fitter: Fitter) -> None:
    fitter.open("101")
    fitter.settled()
    page = fitter.page("Alt+1")
    assert isinstance(page, SurveyPage)
    page.go_to(TILE)

    fitter.type_into(page.form.row(TILE), "8 to 12")
    open_ = fitter.settled().rooms[0].figures["wc-1.studs"]
    assert (open_.tbc, open_.high - open_.low) == (True, 4)

    page.go_to(TILE)
    fitter.type_into(page.form.row(TILE), "10")
    settled = fitter.settled().rooms[0].figures["wc-1.studs"]
    assert (settled.tbc, settled.low, settled.high) == (False, settled.value, settled.value)
