"""The readings of a test are judged: where it started, what it lost, how long it was held."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.rules.test_decisions import decisions
from tundish.field import Entry
from tundish.rules.readings import judged, shown_by
from tundish.rules.rule import Decision, Proof
from tundish.survey.settled import Settled


def pressure() -> Decision:
    """Hot and cold at 3 bar standing."""
    return decisions("plain", {"survey.water.pressure": 3})["bathroom/pressure-test"]


def air() -> Decision:
    return decisions("plain")["bathroom/soil-test"]


def asked(decision: Decision) -> Proof:
    assert decision.proof is not None
    return decision.proof


@pytest.mark.parametrize(
    ("start", "end", "minutes", "said"),
    [
        (4.5, 4.5, 60, ""),
        (6, 6, 75, ""),
        (4.4, 4.4, 60, "It has to start at 4.5 bar at least: 1.5 times the standing pressure."),
        (4.5, 4.4, 60, "It fell by 0.1 bar: find the leak, mend it and test again."),
        (4.5, 4.5, 59, "It has to be held for 60 minutes at least."),
        (4.0, 3.0, 10, "It has to start at 4.5 bar at least: 1.5 times the standing pressure."),
    ],
)
def test_pipes_without_plastics_hold_one_and_a_half_times_for_an_hour(start: float, end: float, minutes: float, said: str) -> None:
    """Water Supply (Water Fittings) Regulations 1999, schedule 2, paragraph 12(1) and (2)(a) (V1)."""
    assert judged(asked(pressure()), start, end, minutes) == said


@pytest.mark.parametrize(
    ("start", "end", "minutes", "holds"), [(38, 38, 3, True), (38, 37.5, 3, False), (37, 37, 3, False), (50, 50, 2.5, False)]
)
def test_soil_and_waste_hold_38_mm_of_water_for_three_minutes(start: float, end: float, minutes: float, holds: bool) -> None:
    """Approved Document H 1.38 and the national annex of EN 12056-2: 38 mm water gauge, no drop for at least 3 minutes (V2)."""
    assert (judged(asked(air()), start, end, minutes) == "") is holds


@given(st.floats(0, 20), st.floats(0, 20), st.floats(0, 200), st.floats(0, 5))
def test_a_test_that_holds_holds_with_more_and_for_longer(start: float, end: float, minutes: float, more: float) -> None:
    proof = asked(pressure())
    if not judged(proof, start, end, minutes):
        assert not judged(proof, start, end, minutes + more)
        assert not judged(proof, start + more, end + more, minutes)
        assert not judged(proof, start, end + more, minutes)


def test_a_reading_that_is_missing_is_asked_for() -> None:
    assert judged(asked(pressure()), 4.5, None, 60) == "Read the gauge at the start and at the end, and the minutes between."


def test_readings_are_told_with_what_else_was_written() -> None:
    record = Settled(evidence="gauge 7", start=Entry(4.5), end=Entry(4.5), minutes=Entry(60))
    assert shown_by(pressure(), record) == "4.5 bar, after 60 minutes 4.5 bar; gauge 7"
    assert shown_by(air(), Settled(start=Entry(38), end=Entry(38), minutes=Entry(3))) == "38 mm, after 3 minutes 38 mm"
    assert shown_by(pressure(), Settled(evidence="seen")) == "seen"
    assert shown_by(decisions("plain")["bathroom/heights"], Settled(evidence="signed", start=Entry(1))) == "signed"


def test_another_standing_pressure_opens_the_test_again() -> None:
    before, after = (decisions("plain", {"survey.water.pressure": bar})["bathroom/pressure-test"] for bar in (3, 4))
    assert before.rests_on != after.rests_on
    assert asked(after).least.value == 6
