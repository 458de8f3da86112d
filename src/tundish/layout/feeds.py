"""Hot and cold: each draw-off has a run of its own, along the wall near the floor and then up."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import chain
from typing import Final, Literal

from tundish.catalogue.book import Book
from tundish.figure import Figure, largest, number
from tundish.layout.appliances.kind import LEVELS
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
_HIGHER: Final = 5
"""So many heights above the usual one are tried, as far as they are below the draw-off."""
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

    Each runs at the height chosen for it, or at the usual one: against the wall; or where that does not clear what is laid, comes out in
    front of it to go up; or lies in front of it all along. Where none of these clears and no height was chosen, the same is tried higher
    up, step by step. Where nothing clears, it is left against the wall at the first height.
    """
    made: list[PipeRun] = []
    for kind in _KINDS:
        rise = rises.hot if kind == "hot" else rises.cold
        for count, each in enumerate(_drawing(fed.placed, kind), 1):
            mark, levels = f"{kind[0].upper()}{count}", _levels(fed, each, kind)
            run = _feed(fed, each, (kind, mark), rise, next(levels))
            higher = (_feed(fed, each, (kind, mark), rise, level) for level in levels)
            others = [other for other in (*laid, *made) if meets(run, other)]
            made.append(in_bars(_first_clear(fed, (run, higher), others), fed.book))
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


def _levels(fed: Fed, placed: Placed, kind: str) -> Iterator[Figure]:
    """The heights at which it may run along: that under the floor, or the one chosen; else the usual one and then those above it."""
    label = f"{kind.capitalize()} along the wall, {placed.name}"
    if placed.choice.feeds == UNDER_FLOOR:
        yield (number(0, label="Bare floor") - fed.book.figure("water.under_floor")).named(label)
        return
    given, chosen = LEVELS[kind]
    if chosen in placed.figures:
        yield placed.figures[chosen]
        return
    usual, apart, path = fed.book.figure("water.run_height"), fed.book.figure("water.runs_apart"), f"{placed.path}.{given}"
    yield replace(usual.named(label), path=path)
    for steps in range(1, _HIGHER + 1):
        level = usual + (apart * number(steps, "", "Steps above that")).named("Over what lies there")
        if level.value <= placed.figures["supply"].value - SHORTEST:
            yield replace(level.named(label), path=path)


def _feed(fed: Fed, placed: Placed, what: tuple[Literal["hot", "cold"], str], rise: Figure, level: Figure) -> PipeRun:
    kind, mark = what
    at, height = placed.figures.get(f"{kind}_from_left", placed.centre), placed.figures["supply"]
    name = f"{kind.capitalize()}, {placed.name}"
    y = (fed.book.figure("void.clip") + fed.radius).named(f"From wall to middle of pipe, {name}")
    label, least = f"{kind.capitalize()} along the wall, {placed.name}", number(0, label="None")
    run = _lane(fed, y, at.value, rise.value).round_corners(along(at, rise, label, least), label, least)
    way = "downwards" if level.value > height.value else "upwards"
    up = along(height, level, f"{kind.capitalize()} {way}, {placed.name}", least)
    above = (level - fed.book.figure("water.run_height")).named("Above the usual height")
    onto = largest(above, least, label=f"{kind.capitalize()} up to where it runs, {placed.name}")
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
        lengths=tuple(each for each in (onto, run, up) if each.value >= SHORTEST),
        points=points,
        outside=2 * fed.radius.value,
        to=placed.name,
        level=level,
        onto=onto if onto.value >= SHORTEST else None,
    )
    return _at_depth(fed, made, y, y)


def _lane(fed: Fed, y: Figure, at: float, rise: float) -> Lane:
    """A supply so far from the wall, with the corners on its way; it comes up where it is wanted."""
    return Lane(y, fed.outline.standing.turns_between(at, rise), None)


def _first_clear(fed: Fed, runs: tuple[PipeRun, Iterator[PipeRun]], others: Sequence[PipeRun]) -> PipeRun:
    """The first of the ways to lay it, height by height, that clears everything that is laid; against the wall where none does."""
    least, (lowest, higher) = fed.book.figure("void.crossing").value, runs
    ways = (way for run in chain((lowest,), higher) for way in _ways(fed, run, others))
    return next((way for way in ways if all(clears(way, other, least) for other in others)), lowest)


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
    first = ("under the floor",) if level < 0 else ("up to where it runs",) if run.onto is not None else ()
    turn = "down the wall" if level > height else "up the wall"
    bends = (*first, *("in the corner" for _ in lane.corners), *("out in front" for _ in out), turn, "out of the wall")
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
