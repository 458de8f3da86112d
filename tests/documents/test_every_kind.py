"""Every paper is made for every kind of appliance, on steel and on studwork."""

from __future__ import annotations

from importlib import import_module
from inspect import signature
from pkgutil import iter_modules

import pytest

import tundish.documents
from tundish.catalogue.load import supplied_book
from tundish.documents.rod import marks_of
from tundish.documents.wall_drawing import ALL, elevation
from tundish.estimate import Estimate, Job, estimate
from tundish.field import Entry, put
from tundish.layout.appliances.kinds import KINDS
from tundish.layout.design import Appliance, RoomPlan, User

BOOK = supplied_book()


def job(built_of: str) -> Job:
    """Each kind once, each with everything that can be chosen with it."""
    hung = []
    for place, kind in enumerate(KINDS.values()):
        ware, frame = (BOOK.of_kind(of)[-1].code for of in (kind.ware, kind.frame))
        one = Appliance(kind=kind.key, ware=ware, frame=frame, centre=Entry(500.0 + 900 * place))
        for name, of in kind.extras:
            one = put(one, name, BOOK.of_kind(of)[0].code)
        hung.append(one)
    plan = put(put(RoomPlan(), "design.appliances", tuple(hung)), "design.users", (User(name="Ann", person="wheelchair user"),))
    return Job(rooms=(put(put(plan, "design.prewall.built_of", built_of), "survey.room.width", Entry(7_000)),))


@pytest.fixture(scope="module", params=["steel", "timber"])
def made(request: pytest.FixtureRequest) -> Estimate:
    found = estimate(job(request.param), BOOK)
    assert len(found.rooms[0].placed) == len(KINDS)
    assert not found.rooms[0].problems
    return found


def test_every_paper_of_a_job_is_made(made: Estimate) -> None:
    modules = (import_module(f"tundish.documents.{each.name}") for each in iter_modules(tundish.documents.__path__))
    builders = [each.build for each in modules if hasattr(each, "build") and len(signature(each.build).parameters) == 1]
    assert len(builders) > 5
    assert all(build(made).blocks for build in builders)


def test_every_appliance_is_drawn_and_its_top_marked(made: Estimate) -> None:
    room = made.rooms[0]
    drawn = {mark.piece for mark in elevation(room, ALL).marks if hasattr(mark, "piece")}
    for each in room.placed:
        assert each.key in drawn
        assert f"{each.key}.top" in {mark.key for mark in marks_of(each)}
