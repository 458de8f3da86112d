"""What supplies carry, what keeps foul water out of them, and the seals of traps."""

from __future__ import annotations

import pytest

from tests.published.asking import found, room_of
from tundish.catalogue.load import supplied_book
from tundish.rules.drainage.seals import seals
from tundish.rules.space.visitable import visitable
from tundish.rules.water.air_gap import air_gap
from tundish.rules.water.loading import loading


@pytest.mark.parametrize(("key", "units"), [("wc", 1), ("basin", 1), ("bidet", 1), ("shower", 2), ("urinal", 3), ("spout", 4)])
def test_loading_units(key: str, units: float) -> None:
    """EN 806-3:2006, table 2 (V2): basin, bidet and WC cistern 1, shower 2, urinal flush valve 3, domestic bath 4."""
    assert supplied_book().figure(f"water.units_{key}").value == units


@pytest.mark.parametrize(("length", "most"), [(6_000, 6), (8_000, 4), (12_000, 3)])
def test_what_15_copper_carries_by_its_length(length: float, most: float) -> None:
    """EN 806-3, copper 15: 6 units up to 7 m, 4 up to 9, 3 up to 15. From memory (M)."""
    changes = {"survey.room.width": 16_000, "design.appliances.1.centre": 300 + length}
    one = found(loading, "Size of the cold pipe, 15", room_of(changes))
    assert one.most is not None
    assert one.most.value == most


def test_units_of_bs_6700_are_told_and_not_mixed() -> None:
    """BS 6700:1997, table D.1 (V2): WC 2, basin 1.5, where EN 806-3 has 1 and 1 (V2): two scales, in conflict by design."""
    one = found(loading, "Size of the cold pipe, 15", room_of())
    assert one.has is not None
    assert one.has.value == 2
    assert "BS 6700 counts 3.5 of its own units" in one.message


@pytest.mark.parametrize(("gap", "state"), [(30, "passes"), (29.9, "fails")])
def test_a_wc_cistern_fed_by_15_pipe_keeps_30_of_air(gap: float, state: str) -> None:
    """The water regulator's advisory body (V1): 30 for a 15 supply, overflow level to the critical level; 2 x 15 is D."""
    assert found(air_gap, "Air gap in the cistern", room_of(None, {"frame-wc-1120.air_gap": gap})).state == state


@pytest.mark.parametrize(("seal", "state"), [(75, "passes"), (74, "fails")])
def test_a_basin_trap_has_a_seal_of_75(seal: float, state: str) -> None:
    """Plumbing Book 1 (V2); Approved Document H, table 1 (V3): basin and bidet 32 with 75."""
    assert found(seals, "Seal of the trap", room_of(None, {"trap-bottle-32.seal": seal})).state == state


@pytest.mark.parametrize(("depth", "state"), [(1529, "passes"), (1528, "fails")])
def test_a_visitable_wc_has_750_before_it(depth: float, state: str) -> None:
    """An access code of practice after the older Part M (V2): 750 clear in front of the pan."""
    changes = {"survey.room.depth": depth, "design.appliances.0.visitable": True}
    assert found(visitable, "Clear before a visitable WC", room_of(changes)).state == state


@pytest.mark.parametrize(("centre", "state"), [(450, "passes"), (449, "fails")])
def test_a_visitable_wc_has_450_to_the_side_wall(centre: float, state: str) -> None:
    """The same (V2): 450 from the middle of the pan."""
    changes = {"design.appliances.0.centre": centre, "design.appliances.0.visitable": True}
    assert found(visitable, "Middle of a visitable WC to the side", room_of(changes)).state == state
