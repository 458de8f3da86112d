"""Hot and cold: each draw-off has a run of its own, along the wall near the floor and then up."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final, Literal

from tundish.catalogue.book import Book
from tundish.figure import Figure, number
from tundish.layout.appliances.kinds import KINDS
from tundish.layout.clear import clears
from tundish.layout.design import UNDER_FLOOR
from tundish.layout.inputs import Inputs
from tundish.layout.lanes import Lane, Place, round_corners
from tundish.layout.makers import half, size
from tundish.layout.outline import Outline
from tundish.layout.pipes import along, in_bars
from tundish.layout.room import PipeRun, Placed
from tundish.layout.standing import Standing

SIZE: Final = 15
SHORTEST: Final = 50.0
"""A shorter piece is no piece: the fittings meet."""


@dataclass(frozen=True, slots=True)
class Rises:
    """Where hot and cold come into the void, from the left wall."""

    hot: Figure
    cold: Figure


@dataclass(frozen=True, slots=True)
class Fed:
    """What supplies are laid by: the pre-wall, what hangs on it, and the rule book."""

    outline: Outline
    placed: tuple[Placed, ...]
    book: Book
    radius: Figure
    """From the middle of a supply to the outside of what is round it."""


def fed_by(outline: Outline, placed: tuple[Placed, ...], book: Book) -> Fed:
    """What the supplies of a pre-wall are laid by."""
    pipe = half(book.role(f"copper {SIZE}"), "diameter", "Half of the pipe")
    lagging = size(book.role(f"pipe insulation {SIZE}"), "thickness", "Insulation")
    return Fed(outline, placed, book, (pipe + lagging).named("Half of the pipe with its insulation"))


def rises_of(outline: Outline, inputs: Inputs) -> Rises:
    """The rises as surveyed."""
    water = outline.plan.survey.water
    hot, cold = inputs.sure(water, "hot_from_left", "survey.water"), inputs.sure(water, "cold_from_left", "survey.water")
    return Rises(outline.standing.seen(hot, water.wall), outline.standing.seen(cold, water.wall))


def feeds(fed: Fed, rises: Rises, laid: Sequence[PipeRun]) -> tuple[PipeRun, ...]:
    """Every run of hot from the left, H1, H2…, then every run of cold, C1, C2… likewise.

    Each lies against the wall; or where that does not clear what is laid, comes out in front of it to go up; or lies in front of it all
    along. Where none of these clears, it is left against the wall.
    """
    made: list[PipeRun] = []
    for kind in _KINDS:
        rise = rises.hot if kind == "hot" else rises.cold
        for count, each in enumerate(_drawing(fed.placed, kind), 1):
            run = _feed(fed, each, kind, rise, f"{kind[0].upper()}{count}")
            made.append(in_bars(_placed_in_depth(fed, run, [other for other in (*laid, *made) if meets(run, other)]), fed.book))
    return tuple(made)


def meets(one: PipeRun, other: PipeRun) -> bool:
    """Whether two runs are to be kept clear of one another: not those that branch off one pipe, nor of one appliance but its hot and cold.

    Nor those that come to the stack from either side of it: they meet there.
    """
    if one.kind in _FALLS and other.kind in _FALLS and one.to == other.to:
        return one.serves != other.serves and (one.route[0][0] < one.route[-1][0]) == (other.route[0][0] < other.route[-1][0])
    supplies = {one.kind, other.kind} == {"hot", "cold"}
    return one.kind != other.kind and (supplies or one.serves != other.serves)


_FALLS: Final = frozenset({"soil", "waste"})
_KINDS: Final[tuple[Literal["hot", "cold"], ...]] = ("hot", "cold")


def _drawing(placed: Sequence[Placed], kind: str) -> Iterator[Placed]:
    return (each for each in placed if kind in KINDS[each.kind].ends)


def _feed(fed: Fed, placed: Placed, kind: Literal["hot", "cold"], rise: Figure, mark: str) -> PipeRun:
    at = placed.figures.get(f"{kind}_from_left", placed.centre)
    height, under = placed.figures["supply"], placed.choice.feeds == UNDER_FLOOR
    level = number(0, label="Bare floor") - fed.book.figure("water.under_floor") if under else fed.book.figure("water.run_height")
    name = f"{kind.capitalize()}, {placed.name}"
    y = (fed.book.figure("void.clip") + fed.radius).named(f"From wall to middle of pipe, {name}")
    label, least = f"{kind.capitalize()} along the wall, {placed.name}", number(0, label="None")
    run = _lane(fed, y, at.value, rise.value).round_corners(along(at, rise, label, least), label, least)
    up = (height - level).named(f"{kind.capitalize()} upwards, {placed.name}")
    points = ((rise.value, 0.0), (rise.value, level.value), (at.value, level.value), (at.value, height.value))
    made = PipeRun(
        key=f"{placed.key}.{kind}",
        mark=mark,
        what=name,
        kind=kind,
        serves=placed.key,
        size=SIZE,
        run=run,
        rise=up,
        fall=None,
        lengths=tuple(each for each in (run, up) if each.value >= SHORTEST),
        points=points,
        outside=2 * fed.radius.value,
        to=placed.name,
    )
    return _at_depth(fed, made, y, y)


def _lane(fed: Fed, y: Figure, at: float, rise: float) -> Lane:
    """A supply so far from the wall, with the corners on its way; it comes up where it is wanted."""
    return Lane(y, fed.outline.standing.turns_between(at, rise), None)


def _placed_in_depth(fed: Fed, run: PipeRun, others: Sequence[PipeRun]) -> PipeRun:
    """The first of the ways to lay it that clears everything that is laid; against the wall where none does."""
    return next((each for each in _ways(fed, run, others) if _clears(fed, each, others)), run)


def _clears(fed: Fed, run: PipeRun, others: Sequence[PipeRun]) -> bool:
    least = fed.book.figure("void.crossing").value
    return all(clears(run, other, least) for other in others)


def _ways(fed: Fed, run: PipeRun, others: Sequence[PipeRun]) -> Iterator[PipeRun]:
    """Against the wall; out in front of each of the others, nearest first, to go up; in front of each all along."""
    yield run
    wall = run.from_wall
    depths = sorted((_in_front_of(fed, other) for other in others if other.from_wall is not None), key=lambda one: one.value)
    deepest = max((each.frame.bare("depth") for each in fed.placed if each.frame.has("depth")), default=0.0)
    behind = fed.outline.depth.value - deepest - fed.radius.value
    between_legs = behind if run.serves.startswith("wc") else fed.outline.depth.value - fed.radius.value
    if wall is not None:
        yield from (_at_depth(fed, run, wall, y) for y in depths if wall.value < y.value <= between_legs)
    yield from (_at_depth(fed, run, y, y) for y in depths if y.value <= behind)


def _in_front_of(fed: Fed, other: PipeRun) -> Figure:
    """How far out the middle of a supply is that passes in front of another pipe with a finger between."""
    at = other.from_wall or number(0, label="Against the wall")
    front = (at + number(other.outside / 2, label="Half of what it passes")).named(f"Front of {other.what}")
    return (front + fed.book.figure("void.finger") + fed.radius).named(f"From wall, in front of {other.what}")


def _at_depth(fed: Fed, run: PipeRun, y: Figure, up: Figure) -> PipeRun:
    """The run so far from the wall along it, and so far where it goes up."""
    (rise, _), (_, level), (at, _), (_, height) = run.points
    deep, front = y.value, fed.outline.depth.value
    lane = _lane(fed, y, at, rise)
    route = [(rise, deep, 0.0), (rise, deep, level), *round_corners(lane, (rise, deep, level), at, level)]
    route += [(at, deep, level), (at, up.value, level), (at, up.value, height), (at, front, height)]
    out = () if up is y else ((up - y).named(f"Out in front, {run.what}"),)
    lengths = run.lengths if not out else (*run.lengths, *(each for each in out if each.value >= SHORTEST))
    below = ("under the floor",) if level < 0 else ()
    bends = (*below, *("in the corner" for _ in lane.corners), *("out in front" for _ in out), "up the wall", "out of the wall")
    return replace(run, route=tuple(dict.fromkeys(_in_corner(fed.outline.standing, route, at))), from_wall=y, bends=bends, lengths=lengths)


def _in_corner(standing: Standing, route: Sequence[Place], at: float) -> Iterator[Place]:
    """The same route; behind a front across a corner as it lies from there, off the wall behind where it comes up."""
    corner = standing.corner
    for x, y, z in route:
        if corner is None:
            yield x, y, z
        elif x != at:
            yield (*standing.from_front(x, y), z)
        else:
            yield x, min(corner.behind(x) + y / math.sin(math.radians(corner.half)), corner.depth.value), z
