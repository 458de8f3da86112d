"""Pipes in three dimensions: how far from the wall, round corners, over to where they enter, and where else they could go."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish.catalogue.book import Book
from tundish.field import Entry
from tundish.layout.clear import Block, between_runs, to_block
from tundish.layout.design import Appliance
from tundish.layout.feeds import meets
from tundish.layout.room import PipeRun, Room
from tundish.layout.work_out import work_out
from tundish.survey.pipes import WasteEntry

Work = Callable[..., Room]
Hang = Callable[..., Appliance]


def pipe(room: Room, kind: str) -> PipeRun:
    (found,) = room.pipes_of(kind)
    return found


def depth(run: PipeRun) -> float:
    assert run.from_wall is not None
    return run.from_wall.value


def test_a_branch_lies_where_its_frame_leaves_room(work: Work, hang: Hang) -> None:
    found = pipe(work(hang("wc", 1000, 420)), "soil")
    assert depth(found) == 75  # 225 − 75 of frame − 20 − 55
    assert list(found.route) == [(1000, 225, 240), (1000, 75, 240), (150, 75, 212), (150, 130, 212)]  # and over to 130
    assert found.bends == ("behind WC 1",)
    assert found.to == ""


@pytest.mark.parametrize(
    ("deep", "stack", "y"),
    [
        (225, 130, 75),
        (300, 130, 130),  # at the stack's own distance
        (300, 40, 65),  # on its clip: 10 + 55
        (180, 130, 65),  # no room behind the frame: on its clip
    ],
)
def test_the_stacks_own_distance_between_clip_and_frames(work: Work, hang: Hang, deep: float, stack: float, y: float) -> None:
    room = work(hang("wc", 1000), design__prewall__depth=deep, survey__stack__from_wall=stack)
    assert depth(pipe(room, "soil")) == y
    assert room.figures["wc-1.from_wall"].value == y


def test_a_deeper_frame_that_is_passed_counts(work: Work, hang: Hang) -> None:
    alone = work(hang("basin", 1700, 850), survey__stack__from_wall=200)
    passing = work(hang("wc", 900), hang("basin", 1700, 850), survey__stack__from_wall=200)
    assert depth(pipe(alone, "waste")) == 127  # 225 − 60 − 20 − 18
    assert depth(pipe(passing, "waste")) == 112  # past the WC's 75


@pytest.mark.parametrize(("stack", "run", "bends"), [(150, 850, 1), (151, 926, 2), (300, 1075, 2)])
def test_over_more_than_a_pipe_swings_is_a_bend_and_a_leg(work: Work, hang: Hang, stack: float, run: float, bends: int) -> None:
    found = pipe(work(hang("wc", 1000), survey__stack__from_wall=stack), "soil")
    assert found.run.value == run  # 850 along, and from 76 over the leg too
    assert len(found.bends) == bends


def test_an_inside_corner_shortens_the_run_by_twice_its_depth(work: Work, hang: Hang) -> None:
    # Wall D is 1,800 long and ends where wall A begins: 300 from its left end is 1,500 before the corner.
    room = work(hang("wc", 700), survey__stack__wall="D", survey__stack__from_left=300)
    found = pipe(room, "soil")
    assert found.run.value == 700 + 1500 - 2 * 75
    assert found.bends == ("behind WC 1", "in the corner")
    assert (75, 75) in [place[:2] for place in found.route]
    assert (-75, 75) in [place[:2] for place in found.route]


def test_a_supply_round_a_corner_is_shorter_too(work: Work, hang: Hang) -> None:
    (cold,) = work(hang("wc", 700), survey__water__wall="D", survey__water__cold_from_left=300).pipes_of("cold")
    assert cold.run.value == 700 + 1500 - 2 * 30.5
    assert cold.bends == ("in the corner", "up the wall", "out of the wall")


def test_straight_back_into_a_stack_behind_the_frame_takes_no_bend(work: Work, hang: Hang) -> None:
    found = pipe(work(hang("wc", 700, outlet="straight back"), survey__stack__from_left=700, survey__stack__from_wall=40), "soil")
    assert found.bends == ()
    assert found.run.value == 185  # 225 − 40


def test_supplies_go_in_front_of_what_they_would_run_into(work: Work, hang: Hang) -> None:
    room = work(hang("basin", 500), hang("wc", 1500), survey__water__hot_from_left=1000, survey__water__cold_from_left=800)
    hot = pipe(room, "hot")
    assert depth(hot) == 30.5  # 10 + 7.5 + 13
    for one in room.pipes_of("cold"):
        assert one.serves == hot.serves or between_runs(one, hot) >= 5


def test_what_is_measured_between_pipes_is_between_their_outsides() -> None:
    def run(*route: tuple[float, float, float], outside: float = 20) -> PipeRun:
        from tundish.figure import number

        return PipeRun("", "", "", "cold", "", 15, number(0), None, None, (), (), route=route, outside=outside)

    along, up = run((0, 30, 100), (1000, 30, 100)), run((500, 80, 0), (500, 80, 900), outside=40)
    assert between_runs(along, up) == 50 - 10 - 20
    assert between_runs(along, run((0, 30, 160), (1000, 30, 160))) == 40  # side by side
    assert between_runs(along, run((1200, 30, 100), (2000, 30, 100))) == 180  # end to end
    leg = Block("leg", "", (400, 150, 0), (440, 225, 1000))
    assert to_block(along, leg) == 110
    assert to_block(run((0, 200, 100), (1000, 200, 100)), leg) < 0


def entry(**more: object) -> tuple[WasteEntry, ...]:
    kept = {"name": "Old waste", "size": "40", "from_left": Entry(1800), "invert": Entry(500)} | more
    return (WasteEntry(**kept),)  # type: ignore[arg-type]


def test_an_appliance_drains_to_the_entry_it_names(work: Work, hang: Hang) -> None:
    room = work(hang("basin", 1300, 850, drains_to="Old waste"), survey__entries=entry())
    found = pipe(room, "waste")
    assert (found.to, found.run.value) == ("Old waste", 500)
    assert found.rise is not None
    assert found.rise.value == 35  # 550 − 15 − 500
    assert found.enters is not None
    assert found.enters.value == 500
    assert [each.to for each in room.instead] == [""]
    assert room.problems == ()


def test_an_entry_far_below_takes_a_drop(work: Work, hang: Hang) -> None:
    found = pipe(work(hang("basin", 1300, 850, drains_to="Old waste"), survey__entries=entry(invert=Entry(200))), "waste")
    assert (found.rise and found.rise.value, found.drop and found.drop.value) == (10, 325)  # 335 in all, 20 a metre over half a metre
    assert found.bends == ("behind Basin 1", "at Old waste", "at the top of the drop", "at the foot of the drop")
    assert [each.value for each in found.lengths] == [620, 325]
    assert found.mark == "P1"
    assert found.route[-1][2] == found.route[-2][2] - 325


def test_a_name_that_no_entry_has_is_told_and_the_stack_taken(work: Work, hang: Hang) -> None:
    room = work(hang("basin", 1300, 850, drains_to="Kitchen"), survey__entries=entry())
    (told,) = room.problems
    assert told.path == "rooms.0.design.appliances.0.drains_to"
    assert told.text.startswith("No waste entry is called Kitchen: choose one of Old waste")
    assert pipe(room, "waste").to == ""


def test_two_entries_of_one_name_are_told(work: Work) -> None:
    room = work(survey__entries=(*entry(), *entry()))
    assert [each.path for each in room.problems] == ["rooms.0.survey.entries.1.name"]
    assert len(room.outfalls) == 2


@settings(max_examples=25, deadline=None)
@given(st.floats(400, 1700), st.floats(400, 1700))
def test_farther_from_the_stack_there_is_never_more_fall_to_spare(work: Work, hang: Hang, one: float, other: float) -> None:
    near, far = sorted((one, other))
    rates = [pipe(work(hang("wc", round(at), 420)), "soil").fall for at in (near, far)]
    assert rates[0] is not None
    assert rates[1] is not None
    assert rates[1].value <= rates[0].value + 1e-9


@settings(max_examples=25, deadline=None)
@given(st.integers(600, 1400), st.integers(0, 60), st.integers(0, 60), st.sampled_from(["wc", "basin"]))
def test_at_the_ends_of_what_is_open_pipes_are_within_what_was_shown(
    work: Work, hang: Hang, centre: int, below: int, above: int, kind: str
) -> None:
    stack = Entry(200, low=200 - below, high=200 + above)
    kind_of = "soil" if kind == "wc" else "waste"
    shown = pipe(
        work(hang(kind, centre), survey__stack__from_left=stack, survey__stack__branch_invert=Entry(150, low=140, high=160)), kind_of
    )
    for at in (200 - below, 200 + above):
        for invert in (140, 160):
            found = pipe(work(hang(kind, centre), survey__stack__from_left=at, survey__stack__branch_invert=invert), kind_of)
            for figure, was in zip(
                (found.run, found.rise, found.fall, *found.lengths), (shown.run, shown.rise, shown.fall, *shown.lengths), strict=True
            ):
                assert figure is not None
                assert was is not None
                assert was.low - 1e-6 <= figure.value <= was.high + 1e-6, figure.label


@settings(max_examples=25, deadline=None)
@given(
    st.lists(st.integers(300, 1700), min_size=2, max_size=2, unique=True).filter(lambda at: abs(at[0] - at[1]) >= 500),
    st.integers(50, 1900),
)
def test_every_route_goes_from_frame_to_where_it_ends_in_straight_pieces(work: Work, hang: Hang, at: list[int], cold: int) -> None:
    room = work(hang("wc", at[0]), hang("basin", at[1]), survey__water__cold_from_left=cold)
    for run in room.pipes:
        assert all(one != other for one, other in pairwise(run.route))
        assert {place[1] for place in run.route} <= {225.0, 130.0, *(place[1] for place in run.route[1:-1])}
        ends = (run.route[0], run.route[-1]) if run.kind in {"soil", "waste"} else (run.route[-1], run.route[0])
        assert ends[0][1] == 225
        assert not meets(run, run)


def ranged(least: int, most: int) -> st.SearchStrategy[Entry]:
    """A place that is settled, or still open by so much to either side."""
    sides = st.sampled_from([0, 0, 40, 900])
    return st.tuples(st.integers(least, most), sides, sides).map(
        lambda given: Entry(given[0], low=max(least, given[0] - given[1]), high=min(most, given[0] + given[2]))
    )


def ends(one: Entry) -> set[float]:
    assert one.low is not None
    assert one.high is not None
    return {one.low, one.value, one.high}


@settings(max_examples=150, deadline=None)
@given(
    st.fixed_dictionaries(
        {
            "from_left": ranged(0, 5000),
            "from_wall": st.one_of(st.just(Entry(0)), ranged(0, 2000)),
            "invert": st.one_of(st.none(), ranged(-1000, 3000)),
            "wall": st.sampled_from("ABCDE"),
            "size": st.sampled_from(["110", "40"]),
        }
    ),
    ranged(0, 700),
    st.sampled_from(["Old waste", ""]),
)
def test_an_entry_anywhere_is_worked_out(work: Work, hang: Hang, place: dict[str, Any], deep: Entry, to: str) -> None:
    """Within the run, outside the room, behind the pre-wall or before it, at no distance; as the one drained to, or as another way."""
    room = work(
        hang("wc", 600, drains_to=to),
        hang("basin", 1500, drains_to=to),
        survey__entries=entry(**place),
        survey__stack__from_wall=place["from_wall"],
        design__prewall__depth=deep,
    )
    for run in (*room.pipes_of("soil", "waste"), *room.instead):
        assert run.run.low > 0, run.what
        if run.bends and run.bends[-1].startswith("over to"):
            assert run.run.value > 75


@settings(max_examples=60, deadline=None)
@given(ranged(0, 400), ranged(200, 500), ranged(-200, 600), st.sampled_from(["wc", "basin"]))
def test_wherever_an_entry_and_the_front_end_up_the_run_is_within_what_was_shown(
    work: Work, hang: Hang, from_wall: Entry, deep: Entry, invert: Entry, kind: str
) -> None:
    def run_at(over: object, depth: object, height: object) -> PipeRun:
        made = work(
            hang(kind, 700, drains_to="Old waste"),
            survey__entries=entry(size="110", from_wall=over, invert=height),
            design__prewall__depth=depth,
        )
        return pipe(made, "soil" if kind == "wc" else "waste")

    shown = run_at(from_wall, deep, invert).run
    for over in ends(from_wall):
        for depth in ends(deep):
            found = run_at(Entry(over), Entry(depth), invert).run
            assert shown.low - 1e-6 <= found.value <= shown.high + 1e-6


def test_whether_a_bend_over_to_the_entry_is_needed_may_be_open(work: Work, hang: Hang) -> None:
    """The front of the frames lets the pipe come out to 75, its clip holds it to 65: from 151 to 230 it is 76 to 155 over."""

    def branch(from_wall: Entry) -> PipeRun:
        return pipe(work(hang("wc", 1000), survey__stack__from_wall=from_wall), "soil")

    beyond = branch(Entry(200, low=151, high=230))
    assert (beyond.run.value, beyond.run.low, beyond.run.high) == (975, 926, 1005)
    either = branch(Entry(130, low=60, high=200))
    assert (either.run.value, either.run.low, either.run.high) == (850, 850, 975)
    assert len(either.bends) == 1


def test_a_run_that_may_be_nought_drops_all_the_way(work: Work, hang: Hang, book: Book) -> None:
    none = replace(book.figures["drainage.least_run"], value=0.0)
    short = replace(book, figures={**book.figures, "drainage.least_run": none})
    plan = work(hang("basin", 1300, 850, drains_to="Old waste"), survey__entries=entry(from_left=Entry(1300))).plan
    found = pipe(work_out(plan, short), "waste")
    assert (found.run.value, found.rise and found.rise.value, found.drop and found.drop.value) == (0, 0, 35)
