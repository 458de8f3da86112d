"""The check of open ends follows what is added, set and struck out by hand, and what it offers closes what it found."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

import pytest

from tundish.catalogue.book import Book
from tundish.catalogue.load import supplied_book
from tundish.estimate import Estimate, Job, estimate
from tundish.field import Entry
from tundish.rules.rule import Finding
from tundish.store.keep import demo_jobs
from tundish.takeoff.by_hand import ADDS, SETS, STRIKES, LineByHand, put_on_the_list


@lru_cache(maxsize=1)
def the_book() -> Book:
    return supplied_book()


def demo(number: str) -> Job:
    return next(job for job in demo_jobs() if job.number == number)


def changed(job: Job, *rows: LineByHand) -> Estimate:
    return estimate(replace(job, by_hand=(*job.by_hand, *rows)), the_book())


def open_ends(worked: Estimate) -> list[Finding]:
    return [one for one in worked.findings if one.rule == "ends/joined" and one.state != "passes"]


def by_hand(does: str, item: str, amount: float | None = None) -> LineByHand:
    return LineByHand(item=item, does=does, amount=None if amount is None else Entry(amount), why="tried")


@pytest.mark.parametrize("item", ["tap-connector-15", "waste-bend-32", "soil-slip-110", "copper-15", "flexible-half-male-300", "tee-15"])
def test_what_is_struck_out_leaves_ends_open_and_one_press_closes_them(item: str) -> None:
    job = demo("101")
    struck = by_hand(STRIKES, item)
    found = open_ends(changed(job, struck))
    assert found
    offered = tuple(row for one in found for way in one.ways_out for row in put_on_the_list(way.adds, str(way.value)))
    mended = changed(job, struck, *offered)
    assert open_ends(mended) == []
    assert not mended.problems


def test_a_line_set_to_fewer_leaves_the_last_ones_open() -> None:
    found = open_ends(changed(demo("102"), by_hand(SETS, "wall-plate-15", 3)))
    assert [(one.title, one.place) for one in found] == [("Open end, cold", "Family bathroom, Basin 1")]


def test_a_line_set_to_more_and_a_spare_one_leave_nothing_open() -> None:
    assert open_ends(changed(demo("102"), by_hand(SETS, "elbow-15", 40), by_hand(ADDS, "trap-p-32", 1))) == []


def test_one_part_in_place_of_another_that_joins_alike_closes_the_end() -> None:
    assert open_ends(changed(demo("101"), by_hand(STRIKES, "trap-bottle-32"), by_hand(ADDS, "trap-p-32", 1))) == []


@pytest.mark.parametrize("pipe", ["waste-pipe-32-solvent"])
def test_solvent_weld_pipe_does_not_go_into_push_fit_bends(pipe: str) -> None:
    found = open_ends(changed(demo("101"), by_hand(STRIKES, "waste-pipe-32"), by_hand(ADDS, pipe, 1200)))
    assert any("36 across" in one.message and "34 across" in one.message for one in found)


def test_what_is_added_serves_any_room_that_lacks_it_once() -> None:
    job = demo("104")
    struck = by_hand(STRIKES, "tap-connector-15")
    twice = replace(job, rooms=(job.rooms[0], replace(job.rooms[0], name="Another")))
    assert len(open_ends(changed(twice, struck))) == 2
    assert len(open_ends(changed(twice, struck, by_hand(ADDS, "tap-connector-15", 1)))) == 1
    assert open_ends(changed(twice, struck, by_hand(ADDS, "tap-connector-15", 2))) == []


def test_what_has_no_ends_changes_nothing_of_it() -> None:
    before, after = estimate(demo("101"), the_book()), changed(demo("101"), by_hand(ADDS, "dust-sheet", 1))
    assert after.findings == before.findings


def test_what_is_to_be_looked_at_before_closing_follows_the_list() -> None:
    def joints(worked: Estimate) -> list[str]:
        return [one.rests_on for one in worked.decisions if one.key == "cloakroom/joints"]

    job = demo("101")
    assert joints(estimate(job, the_book())) == ["23 at WC 1, 30 at Basin 1"]
    assert joints(changed(job, by_hand(STRIKES, "tap-connector-15"))) == ["20 at WC 1, 30 at Basin 1; 1 end is open"]


@pytest.mark.parametrize(("item", "title"), [("sound-pad", "Frames on pads"), ("sound-strip", "Rails and ties on strip")])
def test_a_rigid_bridge_is_told_where_pads_or_strip_are_struck_out_and_one_press_mends_it(item: str, title: str) -> None:
    job = demo("101")
    struck = by_hand(STRIKES, item)
    (found,) = (one for one in changed(job, struck).findings if one.rule == "noise/bridges" and one.state != "passes")
    assert (found.title, found.state) == (title, "fails")
    rows = put_on_the_list(found.ways_out[0].adds, str(found.ways_out[0].value))
    mended = changed(job, struck, *rows)
    assert [one.state for one in mended.findings if one.title == title] == ["passes"]


def test_clips_without_lining_are_something_to_look_at() -> None:
    worked = changed(demo("101"), by_hand(ADDS, "clip-15", 2))
    (found,) = (one for one in worked.findings if one.title == "Pipes in lined clips")
    assert found.state == "look"
    assert found.spare == -2
    assert found.message.startswith("Pipe clip 15: no lining")
