"""The trader's own rules: what they count, what they allow for it, units that do not fit, and when they hold."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Final

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish.catalogue.load import supplied_book
from tundish.catalogue.own_rules import EVERY, HOURS, WHEN, OwnRule, sentence
from tundish.estimate import Estimate, Job, estimate
from tundish.field import Entry, put
from tundish.store.keep import demo_jobs

BOOK: Final = supplied_book()
JOBS: Final = {job.number: job for job in demo_jobs()}
PLAIN: Final = {number: estimate(job, BOOK) for number, job in JOBS.items()}
DISC: Final = BOOK.role("cutting disc").code
TAPS: Final = tuple(each.code for each in BOOK.of_kind("tap")[:3])


def with_rule(rule: OwnRule, number: str = "101") -> Estimate:
    return estimate(JOBS[number], replace(BOOK, own_rules=(rule,)))


def amount(worked: Estimate, code: str) -> float:
    return sum(each.amount.value for each in worked.lines if each.item.code == code and not each.own)


def allowed(rule: OwnRule, number: str = "101") -> float:
    """How much more there is of the rule's item than without it."""
    return amount(with_rule(rule, number), rule.item) - amount(PLAIN[number], rule.item)


def test_for_every_frame_it_allows_so_many_and_says_why() -> None:
    rule = OwnRule(name="discs wear out", every="frame", allow="2", item=DISC)
    assert allowed(rule) == 2 * 2  # a WC and a basin
    line = next(each for each in with_rule(rule).lines if each.item.code == DISC)
    assert "discs wear out" in line.because
    assert sentence(rule, BOOK.items) == f"For every frame allow 2 of {BOOK.item(DISC).name}, rounded up."


@pytest.mark.parametrize(
    ("allow", "item", "words"),
    [
        ("0.25", "hours", "0.25 h of work"),
        ("0.5 kg", "tanking-liquid", f"0.5 kg of {BOOK.item('tanking-liquid').name}"),
        ("1.5 m", "soil-pipe-110", f"1,500 mm of {BOOK.item('soil-pipe-110').name}"),
        ("some", "soil-pipe-110", f"some of {BOOK.item('soil-pipe-110').name}"),
        ("", "", "nothing of nothing yet"),
    ],
)
def test_it_is_read_in_the_unit_of_what_it_allows(allow: str, item: str, words: str) -> None:
    assert sentence(OwnRule(every="frame", allow=allow, item=item), BOOK.items) == f"For every frame allow {words}, rounded up."


@pytest.mark.parametrize(("number", "rooms"), [("101", 1), ("104", 1)])
def test_a_room_is_counted_once_however_many_pre_walls_it_has(number: str, rooms: int) -> None:
    assert allowed(OwnRule(every="room", allow="1", item=DISC), number) == rooms
    assert allowed(OwnRule(every="job", allow="1", item=DISC), number) == 1
    walls = len(PLAIN[number].rooms)
    assert allowed(OwnRule(every="pre-wall", allow="1", item=DISC), number) == walls


def test_metres_and_square_metres_are_what_is_cut_and_tiled() -> None:
    room = PLAIN["101"].rooms[0]
    strut = next(each for each in PLAIN["101"].lines if each.item.code == room.strut.code)
    a_metre = OwnRule(every="metre of strut or studwork", allow="10", item=DISC, rounded=False)
    assert allowed(a_metre) == pytest.approx(strut.amount.value / 1000 * 10)
    tiled = sum(face.tiled_area.value for face in room.faces)
    assert allowed(OwnRule(every="square metre of tiles", allow="3", item=DISC, rounded=False)) == pytest.approx(tiled * 3)
    assert allowed(OwnRule(every="square metre of tiles", allow="3", item=DISC)) == -(-tiled * 3 // 1)


def test_another_unit_of_the_same_kind_is_turned_into_the_items_and_one_that_does_not_fit_is_refused() -> None:
    grout = next(each.item for each in PLAIN["101"].lines if each.item.unit == "kg")
    assert allowed(OwnRule(every="room", allow="500 g", item=grout.code, rounded=False)) == pytest.approx(0.5)
    worked = with_rule(OwnRule(name="more grout", every="room", allow="2 m", item=grout.code))
    assert [each.path for each in worked.problems] == ["own_rules.0.allow"]
    assert worked.problems[0].text.startswith("more grout: ")
    assert amount(worked, grout.code) == amount(PLAIN["101"], grout.code)


def test_hours_are_allowed_at_a_stage_and_priced() -> None:
    worked = with_rule(OwnRule(every="WC", allow="30 min", item=HOURS, rounded=False, stage="second fix"))
    before = {each.stage: each.hours.value for each in PLAIN["101"].price.stages}
    after = {each.stage: each.hours.value for each in worked.price.stages}
    assert after["second fix"] == pytest.approx(before["second fix"] + 0.5, abs=0.5)
    assert worked.price.total > PLAIN["101"].price.total


@pytest.mark.parametrize("when", WHEN[1:])
def test_it_holds_only_when(when: str) -> None:
    """The cloakroom is steel, on joists, on a stud wall, and newer than 2000."""
    holds = when in {"steel pre-wall", "on joists", "on a stud wall"}
    assert allowed(OwnRule(every="room", allow="1", item=DISC, when=when)) == int(holds)


def test_an_item_that_is_gone_and_a_sheet_are_told_and_allow_nothing() -> None:
    board = next(each.item.code for each in PLAIN["101"].lines if each.cuts and each.cuts[0].width is not None)
    for code, said in (("gone", "there is no item gone"), (board, "is counted by what is cut from it"), ("", "there is no item named")):
        worked = with_rule(OwnRule(every="room", allow="1", item=code))
        assert [each.path for each in worked.problems] == ["own_rules.0.item"]
        assert said in worked.problems[0].text
        assert worked.lines == PLAIN["101"].lines


@settings(deadline=None, max_examples=25)
@given(st.sampled_from(EVERY), st.integers(0, 20), st.sampled_from(sorted(JOBS)))
def test_twice_as_much_for_each_is_twice_as_much_and_rounding_only_ever_adds(every: str, many: int, number: str) -> None:
    rules = (
        OwnRule(every=every, allow=str(many), item=TAPS[0], rounded=False),
        OwnRule(every=every, allow=str(2 * many), item=TAPS[1], rounded=False),
        OwnRule(every=every, allow=str(many), item=TAPS[2]),
    )
    worked = estimate(JOBS[number], replace(BOOK, own_rules=rules))
    once, twice, whole = (amount(worked, each) - amount(PLAIN[number], each) for each in TAPS)
    assert once >= 0
    assert twice == pytest.approx(2 * once)
    assert whole >= once - 1e-6


def test_a_length_of_bar_that_no_rule_cuts_is_bought() -> None:
    bar = next(
        code for code, offers in BOOK.offers.items()
        if any(each.length for each in offers) and not any(each.width for each in offers) and not amount(PLAIN["101"], code)
    )  # fmt: skip
    worked = with_rule(OwnRule(every="room", allow="1.2 m", item=bar))
    assert amount(worked, bar) == 1200
    bought = next(each for each in worked.buying.purchases if each.line.item.code == bar)
    assert sum(pick.packs * pick.offer.length for pick in bought.picks) >= 1200


def test_a_job_of_nothing_has_nothing_to_count() -> None:
    assert estimate(Job(), replace(BOOK, own_rules=(OwnRule(every="room", allow="1", item=DISC),))).lines == ()


def test_waste_and_days_are_counted_for_what_is_charged_by_them() -> None:
    """101: 2 × 0.15 + 2 × 0.03 + 0.2 + 0.1 = 0.66 m³ come out."""
    assert allowed(OwnRule(every="cubic metre of waste", allow="100", item=DISC, rounded=False)) == pytest.approx(66)
    hours = sum(each.hours.terms[0].figure.value for each in PLAIN["101"].price.stages)
    day = BOOK.figure("site.day_h").value
    assert allowed(OwnRule(every="day of work", allow="1", item="hire-extractor")) == math.ceil(hours / day)
    room = PLAIN["101"].rooms[0]
    assert room.floor is not None
    tiled = sum(face.tiled_area.value for face in room.faces) * BOOK.figure("labour.tile_m2").value
    tiled += room.floor.area.value * BOOK.figure("labour.floor_tile_m2").value
    assert allowed(OwnRule(every="day of tiling", allow="1", item=DISC, rounded=False)) == pytest.approx(tiled / day)


def test_a_room_of_several_pre_walls_has_its_waste_once() -> None:
    whole = allowed(OwnRule(every="cubic metre of waste", allow="1", item=DISC, rounded=False), "104")
    assert whole == pytest.approx(0.91)  # 2 × 0.15 + 7 × 0.03 + 0.3 + 0.1


def test_a_skip_nobody_sells_is_asked_for_and_not_priced() -> None:
    book = replace(BOOK, offers={code: rows for code, rows in BOOK.offers.items() if not code.startswith("skip")})
    job = put(JOBS["101"], "rooms.0.survey.existing.other_waste_m3", Entry(3.0))
    worked = estimate(job, book)
    assert BOOK.role("skip").name in worked.price.not_priced
