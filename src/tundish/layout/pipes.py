"""Discharge pipes in the void: the branch of a WC and the wastes of the others, each to the stack or to another waste entry."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.figure import Figure, converted, largest
from tundish.layout import rails
from tundish.layout.appliances.kinds import KINDS
from tundish.layout.inputs import Inputs
from tundish.layout.lanes import Lane, lane_of, way
from tundish.layout.makers import half
from tundish.layout.outfalls import outfall_for
from tundish.layout.outline import Outline
from tundish.layout.room import Outfall, PipeRun, Placed

SOIL_SIZE = 110
STRAIGHT_BACK: Final = "straight back"
_STEEPER: Final = (
    ("drainage.waste_32_shortest", "drainage.waste_32_shortest_fall_most"),
    ("drainage.waste_32_short", "drainage.waste_32_short_fall_most"),
)
"""Runs of 32 up to which a steeper fall is allowed, shortest first, and that fall."""
STEEPEST_FIGURES: Final = (
    "drainage.waste_32_fall_most",
    "drainage.waste_40_fall_most",
    "drainage.waste_50_fall_most",
    *(key for pair in _STEEPER for key in pair),
)
"""What the greatest fall of a waste is read from."""


@dataclass(frozen=True, slots=True)
class Drained:
    """What discharges are laid by: the pre-wall, what hangs on it, and the rule book."""

    outline: Outline
    placed: tuple[Placed, ...]
    book: Book


def discharges(drained: Drained, outfalls: Sequence[Outfall], inputs: Inputs) -> tuple[tuple[PipeRun, ...], tuple[PipeRun, ...]]:
    """The soil branches and wastes, left to right, then the runs to where they could go instead.

    Marks P1, P2… go to those that take a piece of pipe; what is not laid has none.
    """
    made: list[PipeRun] = []
    instead: list[PipeRun] = []
    count = 0
    for each in drained.placed:
        if {"soil", "waste"} & set(KINDS[each.kind].ends):
            to = outfall_for(each, outfalls, inputs)
            for run in (in_bars(one, drained.book) for one in _runs(drained, each, to)):
                count += bool(run.lengths)
                made.append(replace(run, mark=f"P{count}") if run.lengths else run)
            instead += (run for other in outfalls if other is not to for run in _runs(drained, each, other))
    return tuple(made), tuple(instead)


def in_bars(run: PipeRun, book: Book) -> PipeRun:
    """The run in pieces that come out of a bar whatever is decided, coupled where one is too long."""
    cut, joints = rails.in_bars(run.lengths, book.role(f"{_PIPES[run.kind]} {run.size}"), book)
    return replace(run, lengths=cut, joints=joints) if joints else run


def along(one: Figure, other: Figure, label: str, least: Figure) -> Figure:
    """How far two places along the wall are apart, whichever is further left, but at least so much."""
    ahead, behind = (one - other, other - one) if one.value >= other.value else (other - one, one - other)
    if ahead.low >= least.value:
        return ahead.named(label)
    # While either may still turn out to be the further one, both ways round are kept open.
    return largest(ahead, behind, least, label=label) if behind.high > least.value else largest(ahead, least, label=label)


def steepest(size: int, run: float, book: Book) -> Figure:
    """The greatest fall of a waste of this size and length, mm: a 32 waste may be steeper where it is short."""
    if size == _SMALL:
        for up_to, most in _STEEPER:
            if run <= book.figure(up_to).value * 1000:
                return book.figure(most)
    return book.figure(f"drainage.waste_{size}_fall_most")


_PIPES: Final = {"soil": "soil pipe", "waste": "waste pipe", "hot": "copper", "cold": "copper"}


def _runs(drained: Drained, placed: Placed, to: Outfall) -> Iterator[PipeRun]:
    ends = KINDS[placed.kind].ends
    if "soil" in ends:
        yield _branch(drained, placed, to)
    if "waste" in ends:
        yield _waste(drained, placed, to)


def _branch(drained: Drained, placed: Placed, to: Outfall) -> PipeRun:
    name, book = placed.name, drained.book
    pipe = book.role(f"soil pipe {SOIL_SIZE}")
    lane = lane_of(drained.outline, drained.placed, placed, to, pipe, book)
    straight = not to.under and _straight(placed, to, book)
    run = _straight_run(drained, placed, to) if straight else _run(placed, to, lane, f"Run of branch, {name}", book)
    bore = half(pipe, "bore", "Half the bore of the soil pipe")
    outlet = placed.figures["outlet"]
    rise = fall = drop = None
    end = outlet.value
    if to.invert is not None:
        rise, drop = _branch_falling((outlet - bore - to.invert).named(f"Fall of branch, {name}"), run, to, book)
        fall = (rise / converted(run, "m")).named(f"Fall a metre, {name}") if run.low > 0 else None
        end = to.invert.value + bore.value + (drop.value if drop is not None else 0.0)
    route = way(lane, (placed.centre.value, lane.y.value, outlet.value), to, end, drained.outline.depth.value)
    down = () if drop is None else ((*route[-1][:2], end - drop.value),)
    fittings = book.figure("drainage.soil_fittings")
    pieces = [(each - fittings).named(f"Soil pipe, {name}") for each in (run, drop) if each is not None]
    return PipeRun(
        key=f"{placed.key}.soil",
        mark="",
        what=f"Soil branch, {name}",
        kind="soil",
        serves=placed.key,
        size=SOIL_SIZE,
        run=run,
        rise=rise,
        fall=fall,
        lengths=tuple(each for each in pieces if each.value > 0),
        points=((placed.centre.value, outlet.value), (to.from_left.value, end), *((x, z) for x, _, z in down)),
        enters=to.invert,
        route=(*route, *down),
        from_wall=lane.y,
        outside=pipe.sizes["diameter"][0],
        bends=(*(() if straight else _bends(lane, placed)), *(() if drop is None else _DROP)),
        to=to.name,
        drop=drop,
    )


def _branch_falling(there: Figure, run: Figure, to: Outfall, book: Book) -> tuple[Figure, Figure | None]:
    """The fall of a branch over its run, and what is left to drop: all there is falls, but to under the floor it drops at its end."""
    if not to.under:
        return there, None
    laid = (book.figure("drainage.soil_fall") * converted(run, "m")).named(there.label)
    return (laid, (there - laid).named(f"Drop to {to.name}")) if there.value > laid.value else (there, None)


def _waste(drained: Drained, placed: Placed, to: Outfall) -> PipeRun:
    name, book = placed.name, drained.book
    label = f"Run of waste, {name}"
    aside = abs(placed.centre.value - to.from_left.value)
    lane = lane_of(drained.outline, drained.placed, placed, to, _pipe(_size(placed.kind, aside, book), book), book)
    run = _run(placed, to, lane, label, book)
    pipe_size = _size(placed.kind, run.value, book)
    rise, fall, drop = _falling(placed, to, run, book)
    piece = (run + book.figure("drainage.waste_tail")).named(f"Waste pipe, {name}")
    height = placed.figures["waste"].value
    end = height - rise.value
    route = way(lane, (placed.centre.value, lane.y.value, height), to, end, drained.outline.depth.value)
    x, y, z = route[-1]
    return PipeRun(
        key=f"{placed.key}.waste",
        mark="",
        what=f"Waste, {name}",
        kind="waste",
        serves=placed.key,
        size=pipe_size,
        run=run,
        rise=rise,
        fall=fall.named(f"Fall a metre, {name}"),
        lengths=(piece,) if drop is None else (piece, drop),
        points=((placed.centre.value, height), (to.from_left.value, end), *(() if drop is None else ((x, z - drop.value),))),
        enters=_enters(placed, to, run, rise, book),
        route=route if drop is None else (*route, (x, y, z - drop.value)),
        from_wall=lane.y,
        outside=_pipe(pipe_size, book).sizes["diameter"][0],
        bends=(*_bends(lane, placed), *(("at the boss",) if to.stack else (f"at {to.name}",)), *(() if drop is None else _DROP)),
        to=to.name,
        drop=drop,
    )


def _run(placed: Placed, to: Outfall, lane: Lane, label: str, book: Book) -> Figure:
    least = book.figure("drainage.least_run")
    return lane.round_corners(along(placed.centre, to.from_left, label, least), label, least)


def _bends(lane: Lane, placed: Placed) -> tuple[str, ...]:
    """Out of the frame, round each corner, and over to the stack where that is more than a pipe can be swung."""
    over = (f"over to {_WHERE}",) if lane.over is not None and lane.over.value > 0 else ()
    return (f"behind {placed.name}", *("in the corner" for _ in range(lane.turns)), *over)


def _straight(placed: Placed, to: Outfall, book: Book) -> bool:
    """Whether a branch goes straight back into what stands behind it."""
    aside = abs(placed.centre.value - to.from_left.value)
    return placed.choice.outlet == STRAIGHT_BACK and aside <= book.figure("drainage.swing").value


def _straight_run(drained: Drained, placed: Placed, to: Outfall) -> Figure:
    back = (drained.outline.depth - to.from_wall).named("From frame front back to where it enters")
    return largest(back, drained.book.figure("drainage.least_run"), label=f"Run of branch, {placed.name}")


def _falling(placed: Placed, to: Outfall, run: Figure, book: Book) -> tuple[Figure, Figure, Figure | None]:
    """Fall over the run, fall a metre, and what is left to drop: to the stack as it is laid, to an entry as its height gives it."""
    name, laid = placed.name, book.figure("drainage.waste_fall")
    rise = (laid * converted(run, "m")).named(f"Fall of waste, {name}")
    into = _given(placed, to)
    if into is None:
        return rise, laid, None
    size = _size(placed.kind, run.value, book)
    bore = half(_pipe(size, book), "bore", "Half the bore of the waste pipe")
    there = (placed.figures["waste"] - bore - into).named(f"Fall of waste, {name}")
    rate = there / converted(run, "m") if run.low > 0 else None
    if rate is not None and rate.value <= steepest(size, run.value, book).value:
        return there, rate, None
    return rise, laid, (there - rise).named(f"Drop to {to.name or 'the stack'}, {name}")


def _given(placed: Placed, to: Outfall) -> Figure | None:
    """The invert at which a waste has to enter: that of another entry, or the height chosen for its boss; None where that follows."""
    return placed.figures.get("waste_entry") if to.stack else to.invert


def _enters(placed: Placed, to: Outfall, run: Figure, rise: Figure, book: Book) -> Figure:
    """The invert at which a waste enters. While the run may still change its size, either bore may come."""
    into = _given(placed, to)
    if into is not None:
        return into
    sizes = {_size(placed.kind, length, book) for length in (run.low, run.value, run.high)}
    bore = half(_pipe(_size(placed.kind, run.value, book), book), "bore", "Half the bore of the waste pipe")
    if len(sizes) > 1:
        halves = [_pipe(size, book).sizes["bore"][0] / 2 for size in sizes]
        bore = replace(bore, low=min(halves), high=max(halves), tbc=True)
    return (placed.figures["waste"] - bore - rise).named(f"Boss, invert, {placed.name}")


def _size(kind: str, run: float, book: Book) -> int:
    """A urinal's waste is 50 (from memory); the others' is 32 for as long as that may run, then 40."""
    if kind == "urinal":
        return 50
    return _SMALL if run <= book.figure("drainage.waste_32_most").value * 1000 else 40


def _pipe(size: int, book: Book) -> Item:
    return book.role(f"waste pipe {size}")


_SMALL: Final = 32
_WHERE: Final = "where it enters"
_DROP: Final = ("at the top of the drop", "at the foot of the drop")
