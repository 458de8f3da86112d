"""Checks of strength: none goes out without its caution, and none is kinder to more load or a longer run."""

from __future__ import annotations

import hypothesis
import pytest
from hypothesis import strategies as st

from tests.rules.test_cases import given, titled
from tundish.rules.drainage.waste import waste
from tundish.rules.drainage.waste_clips import waste_clips
from tundish.rules.loads.feet import feet
from tundish.rules.loads.overturning import overturning
from tundish.rules.loads.strut import wall_strut_bends
from tundish.rules.loads.wall_noggins import noggins_hold
from tundish.rules.loads.wall_ply import ply_holds
from tundish.rules.loads.wall_pull import wall_pull
from tundish.rules.loads.wall_studs import wall_studs_to_reach
from tundish.rules.rule import Finding, Need, Rule
from tundish.rules.water.clips import water_clips


@pytest.mark.parametrize("wall", ["brick", "metal stud"])
@pytest.mark.parametrize("pull", [0.01, 5.0])
def test_every_pull_carries_its_caution(wall: str, pull: float) -> None:
    pulls = {"anchor-brick.pull_kn": pull, "screw-wall-metal.pull_kn": pull}
    room, book = given({"room": "plain", "set": {"survey.wall.construction": wall}, "book": pulls})
    for one in wall_pull.says(room, book):
        assert isinstance(one, Finding)
        assert "makers' instructions and a chartered or licensed person come first" in one.message


STATES = {"passes": 0, "look": 1, "fails": 2}
KINDS = ("wc", "bidet", "basin", "urinal")
HELD: tuple[tuple[Rule, dict[str, object]], ...] = (
    (wall_pull, {}),
    (wall_pull, {"survey.wall.construction": "timber stud"}),
    (wall_pull, {"survey.wall.construction": "metal stud"}),
    (wall_studs_to_reach, {"survey.wall.construction": "timber stud"}),
    (wall_strut_bends, {"survey.wall.construction": "timber stud"}),
    (noggins_hold, {"survey.wall.construction": "timber stud", "design.prewall.backing": "wall studs and noggins"}),
    (ply_holds, {"survey.wall.construction": "metal stud", "design.prewall.backing": "ply over the wall studs"}),
    (feet, {}),
    (overturning, {"design.prewall.built_of": "self-standing"}),
    (overturning, {"design.prewall.built_of": "self-standing", "survey.floor.kind": "concrete"}),
)


def states(each: Rule, changes: dict[str, object], times: float) -> dict[str, str]:
    """What a rule finds with every test load so many times as great."""
    loads = {f"loads.{kind}": (4.0 if kind in {"wc", "bidet"} else 1.5) * times for kind in KINDS}
    room, book = given({"room": "plain", "set": changes, "book": loads})
    return {titled(one): one.state for one in each.says(room, book) if isinstance(one, Finding)}


@pytest.mark.parametrize(("each", "changes"), HELD)
@hypothesis.given(st.floats(0.2, 6), st.floats(1, 4))
@hypothesis.settings(max_examples=15)
def test_more_load_never_passes_where_less_failed(each: Rule, changes: dict[str, object], times: float, more: float) -> None:
    less, greater = states(each, changes, times), states(each, changes, times * more)
    assert less
    assert less.keys() == greater.keys()
    assert all(STATES[greater[title]] >= STATES[state] for title, state in less.items())


@pytest.mark.parametrize("metal", [False, True])
@hypothesis.given(st.floats(0.05, 3), st.floats(1, 3))
@hypothesis.settings(max_examples=15)
def test_a_stronger_fixing_never_fails_where_a_weaker_one_held(metal: bool, pull: float, more: float) -> None:
    wall, code = ("metal stud", "screw-wall-metal") if metal else ("brick", "anchor-brick")

    def found(most: float) -> list[str]:
        room, book = given({"room": "plain", "set": {"survey.wall.construction": wall}, "book": {f"{code}.pull_kn": most}})
        return [one.state for one in wall_pull.says(room, book) if isinstance(one, Finding)]

    assert all(STATES[strong] <= STATES[weak] for weak, strong in zip(found(pull), found(pull * more), strict=True))


@hypothesis.given(st.integers(300, 3_000), st.integers(0, 2_000))
@hypothesis.settings(max_examples=15)
def test_a_longer_run_never_needs_fewer_clips_or_less_pipe(run: int, more: int) -> None:
    def needs(reach: int) -> dict[str, float]:
        room, book = given({"room": "plain", "set": {"survey.room.width": 8_000, "design.appliances.1.centre": 1_500 + reach}})
        every = [one for rule in (waste_clips, waste, water_clips) for one in rule.says(room, book) if isinstance(one, Need)]
        return {"clips": sum(one.amount.value for one in every if "clip" in one.role), "pipe": piped(every)}

    def piped(every: list[Need]) -> float:
        return sum(one.amount.value for one in every if one.role.startswith("waste pipe"))

    near, far = needs(run), needs(run + more)
    assert near["clips"] > 0
    assert far["clips"] >= near["clips"]
    assert far["pipe"] >= near["pipe"] > 0
