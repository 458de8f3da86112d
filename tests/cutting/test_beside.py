"""The second engine for sheets: asked only where a time was set, and never believed unchecked."""

from __future__ import annotations

import sys
from concurrent.futures import Future
from dataclasses import replace
from types import ModuleType, SimpleNamespace
from typing import Any

import pytest

from tundish.cli.cut import After
from tundish.cutting import beside
from tundish.cutting.attempts import Plan
from tundish.cutting.boards import Nesting, as_nesting
from tundish.cutting.own_list import planned
from tundish.cutting.plan import Piece, Sheet
from tundish.cutting.question import Question

PIECES, STOCK = (Piece("A", 500, 2, width=600),), (Sheet(1000, 600, 900),)


def nesting() -> Nesting:
    return replace(as_nesting(PIECES, STOCK, 0.0, 0.0)[0], stop=After(5))


def node(size: int, left: int, right: int, **more: Any) -> SimpleNamespace:
    return SimpleNamespace(**({"item_type_id": size, "l": left, "b": 0, "r": right, "t": 6000, "d": 1, "children": []} | more))


class Asked:
    """Takes every question and gives one sheet of two pieces and a rest."""

    def __init__(self, *nodes: SimpleNamespace) -> None:
        self.nodes = nodes

    def __call__(self, *_: Any) -> SimpleNamespace:
        sheet = SimpleNamespace(nodes=self.nodes, bin_type_id=0, copies=1)
        found = SimpleNamespace(full=lambda: True, number_of_different_bins=lambda: 1, bin=lambda _: sheet)
        return SimpleNamespace(solution=found)


class Builder:
    def __getattr__(self, _: str) -> Any:
        return lambda *_args, **_named: None


def installed(patch: pytest.MonkeyPatch, *nodes: SimpleNamespace) -> None:
    engine: Any = ModuleType("packingsolver.rectangleguillotine")
    engine.InstanceBuilder, engine.OptimizeParameters, engine.optimize = Builder, SimpleNamespace, Asked(*nodes)
    engine.Objective = engine.CutType = engine.CutOrientation = SimpleNamespace(VariableSizedBinPacking=0, BinPacking=1, NonExact=0, Any=0)
    patch.setitem(sys.modules, "packingsolver", ModuleType("packingsolver"))
    patch.setitem(sys.modules, "packingsolver.rectangleguillotine", engine)
    patch.setattr(beside, "find_spec", lambda _: True)


def test_without_it_or_without_a_time_nobody_is_asked(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(beside, "find_spec", lambda _: None)
    assert beside.look_beside(nesting()) is None
    installed(monkeypatch)
    assert beside.look_beside(as_nesting(PIECES, STOCK, 0.0, 0.0)[0]) is None
    assert beside.taken(nesting(), None) == ()


def test_a_sound_plan_is_taken(monkeypatch: pytest.MonkeyPatch) -> None:
    installed(monkeypatch, node(-1, 0, 10_000, children=[1]), node(0, 0, 5000), node(0, 5000, 10_000))
    (layout,) = beside.taken(nesting(), beside.look_beside(nesting()))
    assert layout.counts == (2,)
    assert planned(Question(PIECES, STOCK, 0.0), stop=After(5)).cost_pence == 900


@pytest.mark.parametrize(
    "nodes",
    [
        (node(0, 0, 5000),),
        (node(0, 0, 5000), node(0, 4000, 9000)),
        (node(0, 0, 5000), node(0, 6000, 11_000)),
        (node(0, 0, 5000), node(0, 5000, 9000)),
    ],
)
def test_an_unsound_plan_is_left(monkeypatch: pytest.MonkeyPatch, nodes: tuple[SimpleNamespace, ...]) -> None:
    installed(monkeypatch, *nodes)
    assert beside.taken(nesting(), beside.look_beside(nesting())) == ()


def test_more_of_a_sheet_than_there_is_is_left(monkeypatch: pytest.MonkeyPatch) -> None:
    installed(monkeypatch, node(0, 0, 5000), node(0, 5000, 10_000))
    nest = nesting()
    plan = beside.taken(nest, beside.look_beside(nest))
    done: Future[Plan] = Future()
    done.set_result(plan)
    none_there = replace(nest, boards=tuple(replace(board, count=0) for board in nest.boards))
    assert beside.taken(none_there, done) == ()


def test_no_time_left_is_no_plan() -> None:
    assert beside._look(nesting(), 0.0) == ()
