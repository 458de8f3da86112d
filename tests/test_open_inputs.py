"""What decides what: the open inputs of the demonstration jobs, what they move, and by when they must be settled."""

from __future__ import annotations

from pathlib import Path

from tundish.cli.job_named import job_named
from tundish.estimate import Estimate, estimate
from tundish.figure import rests_on
from tundish.open_inputs import OpenInput, open_inputs

JOBS = Path(__file__).parents[1] / "resources" / "jobs"
TILE = "rooms.0.survey.floor.build_up."


def worked() -> Estimate:
    job, book = job_named(str(JOBS / "102-family-bathroom.tundish"))
    return estimate(job, book)


def of(start: str) -> OpenInput:
    return next(each for each in open_inputs(worked()) if each.path.startswith(start))


def test_the_open_build_up_of_the_family_bathroom_moves_every_height_above_it() -> None:
    names = {name for _, name, _ in of(TILE).figures}
    assert {"finished_floor", "wc-1.studs", "basin-1.waste", "top_of_steel"} <= names
    assert "width" not in names


def test_what_an_open_input_moves_is_open_and_rests_on_it() -> None:
    for each in open_inputs(worked()):
        assert all(each.path in {leaf.path for leaf in rests_on(figure)} and not figure.settled for _, _, figure in each.figures)
        assert all(any(leaf.path == each.path for leaf in finding.depends_on) for finding in each.findings)


def test_the_height_of_a_pan_decides_its_fall() -> None:
    top = of("rooms.0.design.appliances.0.top")
    assert "Fall of WC branch" in {finding.title for finding in top.findings}
    assert top.settle_by == "first fix", "pipes are laid to it"


def test_it_is_settled_by_the_first_stage_that_cuts_or_buys_what_it_moves() -> None:
    one = of(TILE)
    assert one.lines
    assert one.settle_by in {need.stage for line in one.lines for need in line.needs}
    assert one.day in {worked().job.terms.start, worked().job.terms.boarding}
