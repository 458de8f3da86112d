"""What decides what: the open inputs of the demonstration jobs, what they move, and by when they must be settled."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from tundish.cli.job_named import job_named
from tundish.estimate import Estimate, estimate
from tundish.figure import rests_on
from tundish.layout.undecided import chosen
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


CHOICE = "rooms.0.survey.wall.construction"


def test_an_open_choice_is_listed_with_what_it_moves_and_by_when() -> None:
    job, book = job_named(str(JOBS / "102-family-bathroom.tundish"))
    plan = chosen(job.rooms[0], "survey.wall.construction", ("timber stud", "brick"))
    found = open_inputs(estimate(replace(job, rooms=(plan,)), book))
    (one,) = (each for each in found if each.choice)
    assert (one.path, one.input.label, one.input.note) == (CHOICE, "Construction", "timber stud or brick")
    assert "wc-1.reach" in {name for _, name, _ in one.figures}
    assert one.lines
    assert one.settle_by == "frames"
    assert one.otherwise[0].startswith("With brick: ")
    before = open_inputs(estimate(job, book))
    assert [each.path for each in found if not each.choice] == [each.path for each in before]


def test_an_open_choice_that_moves_only_what_is_bought_is_listed_too() -> None:
    job, book = job_named(str(JOBS / "102-family-bathroom.tundish"))
    plates = [item.code for item in book.of_kind("flush plate")][:2]
    plan = chosen(job.rooms[0], "design.appliances.0.plate", plates)
    (one,) = (each for each in open_inputs(estimate(replace(job, rooms=(plan,)), book)) if each.choice)
    assert one.input.label.endswith(job.rooms[0].design.appliances[0].name)
    assert [line.item.code for line in one.lines] == plates[:1]
    assert book.item(plates[1]).name in one.otherwise[0]
    assert one.settle_by is not None
