"""Falls and lengths of branches and wastes against Approved Document H and EN 12056-2."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.published.asking import Changes, basin_at, found, needed, room_of, wc_at
from tundish.catalogue.book import Book
from tundish.figure import Figure, converted, number
from tundish.layout.room import Room
from tundish.rules.drainage.boss import boss
from tundish.rules.drainage.branch_fall import branch_fall
from tundish.rules.drainage.branch_length import branch_length
from tundish.rules.drainage.soil_clips import soil_clips
from tundish.rules.drainage.waste_clips import waste_clips
from tundish.rules.drainage.waste_fall import waste_fall
from tundish.rules.drainage.waste_length import waste_length


@pytest.mark.parametrize(
    ("fall_mm_per_m", "one_in", "percent"),
    [
        (9, 111.1, 0.9),
        (18, 55.56, 1.8),
        (22, 45.45, 2.2),
        (25, 40, 2.5),
        (44, 22.73, 4.4),
        (87, 11.49, 8.7),
        (90, 11.11, 9),
        (12.5, 80, 1.25),
    ],
)
def test_a_fall_is_the_same_in_every_notation(fall_mm_per_m: float, one_in: float, percent: float) -> None:
    """D; 18 mm a metre as 1 in 55 and 12.5 as 1 in 80 are published (V3, V2)."""
    run = number(1, "m")
    drop = number(fall_mm_per_m, "mm/m") * run
    assert (converted(run, "mm") / drop).value == pytest.approx(one_in, rel=5e-4)
    assert converted(drop / converted(run, "mm"), "%").value == pytest.approx(percent)


def test_a_wc_branch_of_six_metres_drops_108_to_540() -> None:
    """Approved Document H: 18 mm a metre (V2, Plumbing Book 1, table 9.1) to 90 (V3) over the 6 m of diagram 3 (V2)."""
    one = found(branch_fall, "Fall of WC branch", room_of(wc_at(6_000)))
    assert one.least is not None
    assert one.most is not None
    assert (one.least.value, one.most.value) == (108, 540)


@pytest.mark.parametrize(("drop", "state"), [(107.9, "fails"), (108, "passes"), (540, "passes"), (540.1, "fails")])
def test_a_wc_branch_passes_between_its_falls_and_not_outside(drop: float, state: str) -> None:
    """As above. The invert at the pan stands at 201.2, so the entry is put that much lower."""
    worked = room_of(wc_at(6_000, 201.2 - drop))
    assert found(branch_fall, "Fall of WC branch", worked).state == state


@pytest.mark.parametrize(("run", "state"), [(6_000, "passes"), (6_001, "fails")])
def test_a_single_wc_branch_is_six_metres_at_most(run: float, state: str) -> None:
    """Approved Document H, diagram 3; Plumbing Book 1, table 9.1: 6 m (V2)."""
    assert found(branch_length, "Length of WC branch", room_of(wc_at(run))).state == state


@pytest.mark.parametrize(("fall", "state"), [(17, "fails"), (18, "passes"), (22, "passes"), (23, "fails")])
def test_a_basin_waste_of_1_7_m_falls_18_to_22(fall: float, state: str) -> None:
    """Plumbing Book 1, table 9.1: 32 pipe, 1.7 m, 18 to 22 mm a metre (V2)."""
    worked = room_of(basin_at(1_700), {"drainage.waste_fall": fall})
    assert found(waste_fall, "Fall of waste", worked).state == state


@pytest.mark.parametrize(("run", "most"), [(1_100, 44), (700, 87)])
def test_shorter_basin_wastes_may_be_steeper(run: float, most: float) -> None:
    """EN 12056-2, table 6, and Approved Document H, diagram 3: 44 at 1.1 m, 87 at 0.7 m. From memory (M)."""
    assert found(waste_fall, "Fall of waste", room_of(basin_at(run), {"drainage.waste_fall": most})).state == "passes"
    assert found(waste_fall, "Fall of waste", room_of(basin_at(run), {"drainage.waste_fall": most + 1})).state == "fails"


def test_the_greatest_fall_never_rises_with_length() -> None:
    """The text beside diagram 3 says that shorter runs may be steeper and none flatter than 18 (V2)."""
    steepest = [found(waste_fall, "Fall of waste", room_of(basin_at(run))).most for run in range(500, 1_701, 50)]
    values = [one.value for one in steepest if one is not None]
    assert len(values) == 25
    assert values == sorted(values, reverse=True)
    assert values[-1] == 22


@pytest.mark.parametrize(("run", "state"), [(1_700, "fails"), (1_100, "passes")])
def test_a_boss_of_87_5_degrees_is_too_steep_for_a_long_basin_waste(run: float, state: str) -> None:
    """D: 2.5 degrees are 43.7 mm a metre, within 18 to 90 and outside 18 to 22; the remark on 2.5 degrees is V3."""
    assert found(waste_fall, "Fall of waste", room_of(basin_at(run), {"drainage.waste_fall": 43.7})).state == state


@pytest.mark.parametrize(("run", "size"), [(1_700, 32), (1_701, 40), (3_000, 40)])
def test_a_basin_waste_over_1_7_m_is_of_40_pipe(run: float, size: int) -> None:
    """Plumbing Book 1, table 9.1: 1.7 m in 32 pipe (V2); the larger pipe beyond it is of table 9.1 too (V2)."""
    room, _ = room_of(basin_at(run))
    assert [pipe.size for pipe in room.pipes_of("waste")] == [size]


@pytest.mark.parametrize(("run", "state"), [(1_700, "passes"), (3_000, "passes"), (3_001, "fails")])
def test_a_40_waste_is_three_metres_at_most(run: float, state: str) -> None:
    """Plumbing Book 1, table 9.1: 3 m in 40 pipe (V2)."""
    assert found(waste_length, "Length of waste", room_of(basin_at(run))).state == state


@pytest.mark.parametrize(("run", "state"), [(4_000, "passes"), (4_001, "fails")])
def test_a_50_waste_is_four_metres_at_most(run: float, state: str) -> None:
    """Plumbing Book 1, table 9.1: 4 m in 50 pipe (V2)."""
    worked = room_of({"survey.room.width": 8_000, "design.prewall.run": 8_000, "design.appliances.3.centre": 200 + run}, room="row")
    assert found(waste_length, "Length of waste", worked, "Urinal 1").state == state


@pytest.mark.parametrize(
    ("run", "fall", "drop"), [(1_700, 18, 30.6), (1_700, 22, 37.4), (3_000, 18, 54), (3_000, 90, 270), (4_000, 18, 72), (4_000, 90, 360)]
)
def test_a_waste_drops_over_its_whole_run_what_its_fall_says(run: float, fall: float, drop: float) -> None:
    """D from Plumbing Book 1, table 9.1: 30.6 to 37.4 in 1.7 m, 54 to 270 in 3 m, 72 to 360 in 4 m."""
    room, _ = room_of(basin_at(run), {"drainage.waste_fall": fall})
    assert [pipe.rise.value for pipe in room.pipes_of("waste") if pipe.rise is not None] == [pytest.approx(drop)]


def test_the_lower_boss_of_a_200_zone_is_clear() -> None:
    """Approved Document H and EN 12056-2: no branch within 200 below an opposed larger one. From memory (M)."""
    between = {"survey.stack.from_left": 1_200}
    inside, below = (room_of({**between, "survey.stack.branch_invert": 534.8 + up}) for up in (199.9, 200))
    assert found(boss, "Boss clear of the WC branch", inside).state == "look"
    assert found(boss, "Boss clear of the WC branch", below).state == "passes"


def test_a_boss_on_the_side_of_the_branch_is_in_no_zone() -> None:
    """As above (M): the zone lies opposite the larger one."""
    assert found(boss, "Boss clear of the WC branch", room_of({"survey.stack.branch_invert": 513.8 + 100})).state == "passes"


@pytest.mark.parametrize(("drop", "state"), [(30.5, "fails"), (30.6, "passes"), (37.4, "passes")])
def test_a_basin_waste_to_an_old_pipe_falls_by_its_heights(drop: float, state: str) -> None:
    """As above, 30.6 to 37.4 in 1.7 m, reached from two heights: the waste's invert is at 558 - 15.2 and the old pipe that much lower."""
    assert found(waste_fall, "Fall of waste", room_of(_to_old_pipe(542.8 - drop))).state == state


def test_a_basin_waste_that_would_be_steeper_is_laid_flatter_and_drops() -> None:
    """As above: 38 in 1.7 m is past 22 a metre, so that it is laid within 18 to 22 and goes straight down at its end."""
    room, book = room_of(_to_old_pipe(542.8 - 38))
    (run,) = room.pipes_of("waste")
    assert found(waste_fall, "Fall of waste", (room, book)).state == "passes"
    assert run.drop is not None
    assert run.rise is not None
    assert run.rise.value + run.drop.value == pytest.approx(38)


@given(st.integers(200, 6_000), st.integers(200, 6_000))
@settings(max_examples=30, deadline=None)
def test_a_longer_branch_never_has_more_fall_to_spare_nor_fewer_clips(one: int, other: int) -> None:
    """Approved Document H: so much a metre (V2): every metre more takes its share of the drop there is."""
    short, long = (room_of(wc_at(run)) for run in sorted((one, other)))
    spares = [has.value - least.value for has, least in (_fall(each) for each in (short, long))]
    assert spares[1] <= spares[0] + 1e-6
    assert needed(soil_clips, "soil clip 110", short) <= needed(soil_clips, "soil clip 110", long)


@given(st.integers(200, 3_000), st.integers(200, 3_000))
@settings(max_examples=30, deadline=None)
def test_a_longer_waste_may_never_fall_more_nor_has_it_fewer_clips(one: int, other: int) -> None:
    """The text beside diagram 3 (V2): shorter runs may be steeper. In one size of pipe."""
    shorter, longer = sorted((one, other))
    short, long = room_of(basin_at(shorter)), room_of(basin_at(longer))
    (a,), (b,) = short[0].pipes_of("waste"), long[0].pipes_of("waste")
    if a.size == b.size:
        most = [found(waste_fall, "Fall of waste", each).most for each in (short, long)]
        assert most[0] is not None
        assert most[1] is not None
        assert most[1].value <= most[0].value
        role = f"waste clip {a.size}"
        assert needed(waste_clips, role, short) <= needed(waste_clips, role, long)


def _to_old_pipe(invert: float) -> Changes:
    entry = {"name": "Old waste", "size": "40", "from_left": 3_300, "invert": invert}
    return {"survey.room.width": 8_000, "survey.entries": [entry], "design.appliances.1.drains_to": "Old waste"}


def _fall(worked: tuple[Room, Book]) -> tuple[Figure, Figure]:
    one = found(branch_fall, "Fall of WC branch", worked)
    assert one.has is not None
    assert one.least is not None
    return one.has, one.least
