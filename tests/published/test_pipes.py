"""Real sizes of pipes and threads, as the catalogue gives them to every part, and how far apart pipe is held."""

from __future__ import annotations

import pytest

from tests.published.asking import basin_at, needed, room_of, wc_at
from tundish.catalogue.load import supplied_book
from tundish.figure import number
from tundish.rules.drainage.soil_clips import soil_clips
from tundish.rules.drainage.waste_clips import waste_clips
from tundish.rules.water.clips import water_clips


@pytest.mark.parametrize(("code", "outside", "wall"), [("copper-15", 15, 0.7), ("copper-22", 22, 0.9)])
def test_the_bore_of_copper_is_its_outside_less_two_walls(code: str, outside: float, wall: float) -> None:
    """EN 1057 as in a UK tube maker's table (V2)."""
    tube = supplied_book().item(code)
    assert tube.size("diameter").value == outside
    assert tube.size("bore").value == (number(outside) - number(wall) * 2).value


@pytest.mark.parametrize(
    ("system", "nominal", "outside"),
    [
        ("push-fit waste", "32", 34),
        ("push-fit waste", "40", 41),
        ("push-fit waste", "50", 54),
        ("solvent waste", "32", 36),
        ("solvent waste", "40", 43),
        ("soil", "110", 110),
        ("soil", "82", 82),
    ],
)
def test_every_end_of_waste_and_soil_has_its_real_outside(system: str, nominal: str, outside: float) -> None:
    """A merchant's article on waste pipe diameters (V3); 82 and 110 also in a drainage design sheet (V2)."""
    assert diameters(system, nominal) == {outside}


@pytest.mark.parametrize(("run", "size", "outside"), [(1_700, 32, 34), (3_000, 40, 41)])
def test_a_waste_takes_its_real_outside_in_the_void(run: float, size: int, outside: float) -> None:
    """The same article (V3): what a pipe needs behind the frames is not its nominal size."""
    (pipe,) = room_of(basin_at(run))[0].pipes_of("waste")
    assert (pipe.size, pipe.outside) == (size, outside)
    assert pipe.from_wall is not None
    assert pipe.from_wall.value == 225 - 75 - 20 - outside / 2  # behind the frame of the WC, with a finger between


def test_32_and_40_pipe_of_two_systems_are_not_the_same_pipe() -> None:
    """The same article: push-fit and solvent weld do not interchange except at 110 (V3)."""
    for nominal in ("32", "40"):
        assert diameters("push-fit waste", nominal).isdisjoint(diameters("solvent waste", nominal))


@pytest.mark.parametrize(("size", "across"), [("G 1/2", 20.955), ("G 1 1/4", 41.910)])
def test_every_threaded_end_has_the_diameter_of_its_thread(size: str, across: float) -> None:
    """ISO 228-1, major diameters (V2)."""
    assert diameters("thread", size) == {across}


def test_a_thread_of_1_1_2_is_47_803_across() -> None:
    """ISO 228-1. From memory (M)."""
    assert diameters("thread", "G 1 1/2") == {47.803}


def test_a_basin_drains_through_1_1_4_into_a_32_trap_with_a_75_seal() -> None:
    """Plumbing Book 1: basin waste 1 1/4 in, 32 trap, 75 seal (V2); Approved Document H, table 1 (V3)."""
    book = supplied_book()
    trap = book.role("basin trap 32")
    assert {end.nominal for end in book.role("basin waste").ends} == {"G 1 1/4"}
    assert "32" in {end.nominal for end in trap.ends}
    assert trap.size("seal").value == 75


@pytest.mark.parametrize(("run", "clips"), [(1_500, 3), (1_501, 4)])
def test_waste_of_32_is_held_every_half_metre(run: float, clips: float) -> None:
    """Plumbing Book 1, table 2.35: push-fit 32 and 40 at most 0.5 m apart along (V2)."""
    assert needed(waste_clips, "waste clip 32", room_of(basin_at(run))) == clips


@pytest.mark.parametrize(("run", "clips"), [(3_000, 6), (3_001, 7)])
def test_waste_of_40_is_held_every_half_metre(run: float, clips: float) -> None:
    """As above (V2)."""
    assert needed(waste_clips, "waste clip 40", room_of(basin_at(run))) == clips


@pytest.mark.parametrize(("centre", "clips"), [(200 + 3_600, 6), (200 + 3_601, 7)])
def test_waste_of_50_is_held_every_0_6_m(centre: float, clips: float) -> None:
    """Plumbing Book 1, table 2.35: 50 at most 0.6 m apart (V2)."""
    worked = room_of({"design.appliances.3.centre": centre}, room="row")
    assert needed(waste_clips, "waste clip 50", worked) == clips


@pytest.mark.parametrize(("invert", "clips"), [(-682, 3 + 1), (-683, 3 + 2)])
def test_an_upright_waste_is_held_every_1_2_m(invert: float, clips: float) -> None:
    """Plumbing Book 1, table 2.35: 32, 40 and 50 at most 1.2 m apart upright (V2)."""
    entry = {"name": "drain", "size": "110", "from_left": 350, "invert": invert}
    worked = room_of({"survey.entries": [entry], "design.appliances.1.drains_to": "drain"})
    run = worked[0].pipes_of("waste")[0]
    assert run.drop is not None
    assert (run.drop.value > 1_200) == (clips > 4)
    assert needed(waste_clips, "waste clip 32", worked) == clips


@pytest.mark.parametrize(("run", "clips"), [(3_000, 3), (3_001, 4)])
def test_soil_pipe_is_held_every_metre(run: float, clips: float) -> None:
    """PVC-U soil 110, 0.9 to 1.0 m apart along. From memory (M); one project specification gives 0.9 (V3)."""
    assert needed(soil_clips, "soil clip 110", room_of(wc_at(run))) == clips


@pytest.mark.parametrize(("cold_at", "clips"), [(4_000 - 2_400, 2 + 1), (4_000 - 2_401, 3 + 1)])
def test_copper_is_held_every_1_2_m_along(cold_at: float, clips: float) -> None:
    """15 copper, 1.2 m along. From memory (M); the same is published for 12 copper (V2). One more clip holds the upright piece."""
    wc = {"kind": "wc", "centre": 4_000, "top": 420, "ware": "pan-ondel-530", "frame": "frame-wc-1120"}
    changes = {"survey.room.width": 8_000, "survey.water.cold_from_left": cold_at, "design.appliances": [wc]}
    assert needed(water_clips, "pipe clip 15", room_of(changes)) == clips


@pytest.mark.parametrize(("inlet", "clips"), [(1_800 + 150 - 28, 1), (1_801 + 150 - 28, 2)])
def test_copper_is_held_every_1_8_m_up(inlet: float, clips: float) -> None:
    """15 copper, 1.8 m up. From memory (M); the same is published for 12 copper (V2). Cold comes in below the WC, so none runs along."""
    wc = {"kind": "wc", "centre": 700, "top": 420, "ware": "pan-ondel-530", "frame": "frame-wc-1120"}
    changes = {"survey.water.cold_from_left": 700, "design.appliances": [wc]}
    assert needed(water_clips, "pipe clip 15", room_of(changes, {"frame-wc-1120.cistern_inlet_at": inlet})) == clips


def diameters(system: str, nominal: str) -> set[float]:
    """Every outside diameter that ends of one system and size have in the catalogue."""
    made = {end.diameter for item in supplied_book().items.values() for end in item.ends if (end.system, end.nominal) == (system, nominal)}
    assert made, f"nothing in the catalogue has an end {system} {nominal}"
    return made
