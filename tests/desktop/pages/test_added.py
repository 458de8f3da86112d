"""What is added stands clear of walls and neighbours where there is room for it."""

from __future__ import annotations

import pytest

from tests.desktop.fitter import Fitter
from tundish.desktop.started import add_appliance
from tundish.field import Entry
from tundish.figure import Known


def near(fitter: Fitter) -> dict[str, str]:
    """What is said of how near to a wall or a neighbour something stands."""
    found = [each for each in fitter.settled().findings if each.rule in {"space/centre-to-wall", "frames/neighbours"}]
    return {f"{each.title}, {each.place}": each.state for each in found}


@pytest.mark.parametrize(
    ("width", "kinds", "count"),
    [(1_800, ("wc",), 1), (1_800, ("basin",), 1), (1_800, ("wc", "basin"), 4), (3_600, ("wc", "bidet", "urinal", "basin"), 10)],
)
def test_what_is_added_is_clear_of_walls_and_neighbours(fitter: Fitter, width: float, kinds: tuple[str, ...], count: int) -> None:
    fitter.press("Start a survey")
    fitter.workspace.set("rooms.0.survey.room.width", Entry(width))
    fitter.settled()
    for kind in kinds:
        add_appliance(fitter.workspace, kind)
    said = near(fitter)
    assert len(said) == count
    assert set(said.values()) == {"passes"}, said


def test_where_there_is_no_room_it_lands_on_the_next_free_place(fitter: Fitter) -> None:
    fitter.press("Start a survey")
    fitter.workspace.set("rooms.0.survey.room.width", Entry(900))
    fitter.settled()
    add_appliance(fitter.workspace, "basin")
    assert set(near(fitter).values()) != {"passes"}
    assert fitter.workspace.job.rooms[0].design.appliances[0].centre == Entry(350, Known.ASSUMED)
