"""Whether pipes in the void clear one another and what stands there."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from itertools import chain
from typing import Final

from tundish.catalogue.book import Book
from tundish.figure import Figure, number
from tundish.layout import settings
from tundish.layout.clear import Block, Rod, between_runs, clears, no_nearer, to_block, to_rod
from tundish.layout.design import UNDER_FLOOR
from tundish.layout.feeds import meets
from tundish.layout.once import once
from tundish.layout.room import PipeRun, Room
from tundish.measure import show_length
from tundish.rules.grounds import on_joists
from tundish.rules.members import UPRIGHT, marked
from tundish.rules.pipes import outfall, served
from tundish.rules.rule import Finding, WayOut, judge, rule
from tundish.rules.run_heights import clear_height
from tundish.rules.ways import set_depth


@rule(
    "prewall/crossings",
    figures=("void.crossing", "void.cistern", "water.run_height", "water.runs_apart"),
    source="own rule; how far a cistern reaches down from memory",
)
def crossings(room: Room, book: Book) -> Iterator[Finding]:
    """Pipes clear one another, the legs and tie rods of frames, cisterns and uprights, also those of the room's other pre-walls.

    Measured between their outsides in three dimensions, insulation and all, each pipe lying where it is laid. Of one appliance, hot and
    cold are asked against each other; pipes that branch off one pipe are not. A soil pipe behind frames is asked by the void; across a
    corner here. Of several supplies of one kind that come too near to the same pipe, the nearest is named.
    """
    least = book.figure("void.crossing")
    pairs = _nearest(room, book, least.value)
    short: dict[tuple[str, str], list[_Pair]] = {}
    for pair in pairs:
        if pair.clear < least.value - _GRACE:
            one, other = pair.one, pair.other
            short.setdefault((one.kind if one.kind in _SUPPLIES else one.key, _named(pair.what, other)), []).append(pair)
    for same in short.values():
        yield _short(room, book, same, least)
    if pairs and not short:
        nearest = min(pairs, key=lambda pair: pair.clear)
        has = _figure(nearest)
        message = f"Nearest: {nearest.one.what} and {nearest.what}."
        yield Finding("Pipes clear of one another", "Void", "passes", has, "Own rule", least.note, least, None, message)


@dataclass(frozen=True, slots=True)
class _Pair:
    """A pipe and what it must clear; `other` is that where it is a pipe."""

    one: PipeRun
    what: str
    clear: float
    other: PipeRun | None = None


def _nearest(room: Room, book: Book, least: float) -> list[_Pair]:
    """The pairs that are too near to one another, or else the nearest, in the order in which they are asked.

    Those whose boxes are nearest are measured first: all that follow the first box further off than that need not be.
    """
    asked = tuple(chain(_pipes(room), _things(room, book)))
    boxed = sorted((no_nearer(one, thing), place) for place, (one, thing) in enumerate(asked))
    found: dict[int, _Pair] = {}
    nearest = math.inf
    for at_least, place in boxed:
        if at_least >= max(least, nearest):
            break
        pair = _measured(*asked[place])
        nearest = min(nearest, pair.clear)
        found[place] = pair
    return [found[place] for place in sorted(found)]


def _measured(one: PipeRun, thing: PipeRun | Block | Rod) -> _Pair:
    if isinstance(thing, PipeRun):
        return _Pair(one, thing.what, between_runs(one, thing), thing)
    return _Pair(one, thing.what, to_block(one, thing) if isinstance(thing, Block) else to_rod(one, thing))


def _pipes(room: Room) -> Iterator[tuple[PipeRun, PipeRun]]:
    for place, one in enumerate(room.pipes):
        for other in room.pipes[:place]:
            if meets(one, other):
                yield one, other


def _things(room: Room, book: Book) -> Iterator[tuple[PipeRun, Block | Rod]]:
    """What stands in the void with each of its pipes, and with those of other pre-walls that pass behind this one."""
    behind = () if room.corner is None else ("soil",)
    for run in (*room.pipes_of("waste", "hot", "cold", *behind), *(run for run, _ in room.passing)):
        yield from ((run, thing) for thing in _in_void(room, book) if isinstance(thing, Rod) or thing.whose != run.serves)


@once
def _in_void(room: Room, book: Book) -> tuple[Block | Rod, ...]:
    return (*_standing(room, book), *_rods(room))


def _standing(room: Room, book: Book) -> Iterator[Block]:
    """Uprights, the legs of frames, and cisterns between them; a cistern is its own WC's."""
    front = room.depth.value
    for member in marked(room, UPRIGHT):
        across, deep = member.section
        least = (member.x, front - deep, member.z)
        yield Block(f"{_UPRIGHT}{member.mark}", "", least, (member.x + across, front, member.z + member.length.value))
    for one in room.framed:
        back, leg, top = front - one.frame.size("depth").value, one.frame.size("leg").value, one.figures["frame_top"].value
        for left in (one.left, one.right - leg):
            yield Block(f"a leg of the frame of {one.name}", "", (left, back, 0.0), (left + leg, front, top))
        if one.kind == "wc":
            bottom = one.figures["supply"].value - book.figure("void.cistern").value
            yield Block(f"the cistern of {one.name}", one.key, (one.left + leg, back, bottom), (one.right - leg, front, top))


def _rods(room: Room) -> Iterator[Rod]:
    """The tie rods: from the seat of each bracket square to its wall."""
    for one in room.tied:
        if one.tie_rod is None or not one.tie_rod.has("thread"):
            continue
        z, thick = one.figures["bracket"].value, one.tie_rod.sizes["thread"][0]
        seat = room.depth.value - settings.bracket_seat(one.frame, one.choice.bracket).value
        for side in ("left", "right"):
            x = one.figures[f"bracket_{side}"].value
            ends = (x, seat, z), ((x, 0.0) if room.corner is None else room.corner.square_behind(x, seat)) + (z,)
            yield Rod(f"a tie rod of {one.name}", ends, thick)


def _named(what: str, other: PipeRun | None) -> str:
    return other.kind if other is not None and other.kind in _SUPPLIES else what


def _short(room: Room, book: Book, same: list[_Pair], least: Figure) -> Finding:
    pair = min(same, key=lambda each: each.clear)
    words = f"{pair.one.what} and {pair.what}: {show_length(math.ceil(least.value - pair.clear - _GRACE))} mm short."
    higher = tuple(_at_another_height(room, book, pair, least.value))
    mend, ways = _past_this(room, pair) if _passes(room, pair) else _mend(room, same, least.value, higher=bool(higher))
    ways = (*ways, *higher)
    soft = pair.other is not None or (_passes(room, pair) and pair.what.startswith(_UPRIGHT))
    state = judge(_figure(pair), least, None, "look" if soft else "fails")
    place = _HOT_AND_COLD + pair.one.what.partition(", ")[2] if _of_one(pair) else pair.one.what
    return Finding("Pipes that cross", "Void", state, _figure(pair), "Own rule", least.note, least, None, f"{words} {mend}", place, ways)


def _passes(room: Room, pair: _Pair) -> bool:
    """Whether the pipe is one of another pre-wall."""
    return any(run is pair.one for run, _ in room.passing)


def _past_this(room: Room, pair: _Pair) -> tuple[str, tuple[WayOut, ...]]:
    """How a pipe of another pre-wall gets past what stands in this one."""
    also, ways = _led_below(room, pair.one)
    if pair.what.startswith(_UPRIGHT):
        return f"Set that upright aside, or cut it and trim it over the pipe as over an opening.{also}", ways
    if room.corner is not None:
        return f"Set this pre-wall further from its corner, or let the pipe go another way.{also}", ways
    return f"Run it at another height or another way.{also}", ways


def _mend(room: Room, same: list[_Pair], least: float, *, higher: bool) -> tuple[str, tuple[WayOut, ...]]:
    pair, by = min(same, key=lambda each: each.clear), _deepest(room, same, least)
    if math.isfinite(by):
        words = f"Set the pre-wall {show_length(by)} mm deeper{', or run one of them at another height' if higher else ''}."
        return words, (set_depth(room, room.depth.value + by),)
    if pair.other is not None and pair.one.kind in _DISCHARGES and pair.other.kind in _DISCHARGES:
        return "Let one of them in at another height, or drain it elsewhere.", ()
    if pair.other is not None:
        return "Run one of them at another height." if higher else "Let one of them come in elsewhere, or lead it another way.", ()
    if room.corner is not None and pair.one.kind == "soil":
        return "Set the pre-wall further from its corner, or drain it to what stands in the corner.", ()
    also, ways = _led_below(room, pair.one)
    return f"{'Run it at another height, or move' if higher else 'Move'} the appliance.{also}", ways


def _at_another_height(room: Room, book: Book, pair: _Pair, least: float) -> Iterator[WayOut]:
    """Either supply of a pair at a height at which it clears the other and all that it clears now, the one laid last first."""
    for run in (pair.one, pair.other):
        if run is not None and run.kind in _SUPPLIES and any(run is each for each in room.pipes):
            against: list[PipeRun | Block | Rod] = [other for other in room.pipes if other is not run and meets(run, other)]
            against += [each for each in _in_void(room, book) if isinstance(each, Rod) or each.whose != run.serves]
            met = pair.what if run is pair.one else pair.one.what
            now = [each for each in against if each.what == met or _clear(run, each, least)]
            way = clear_height(run, served(room, run), book, partial(_all_clear, things=now, least=least))
            if way is not None:
                yield way


def _all_clear(run: PipeRun, things: Sequence[PipeRun | Block | Rod], least: float) -> bool:
    return all(_clear(run, thing, least) for thing in things)


def _clear(run: PipeRun, thing: PipeRun | Block | Rod, least: float) -> bool:
    if isinstance(thing, PipeRun):
        return clears(run, thing, least)
    return no_nearer(run, thing) >= least or _measured(run, thing).clear >= least - _GRACE


def _led_below(room: Room, run: PipeRun) -> tuple[str, tuple[WayOut, ...]]:
    """What else gets a supply past what stands in the void: behind a run joined to a front across a corner, or under the floor."""
    one = next((one for passing, one in room.passing if passing is run), None) or served(room, run)
    if run.kind not in _SUPPLIES or one.choice.feeds == UNDER_FLOOR:
        return "", ()
    passing = any(each is run for each, _ in room.passing)
    behind = " Or run a pre-wall as high along that wall: it is joined to this one, and the pipe lies behind it."
    behind = behind if room.corner is not None and not passing else ""
    if not on_joists(room):
        return behind, ()
    words = (
        f"Lead hot and cold of {one.name} under the floor: boards are lifted where they come in and behind it, joists are drilled, and "
        "each comes up through the floor in a sleeve."
    )
    return behind, (WayOut(words, f"{one.path}.feeds", UNDER_FLOOR),)


def _of_one(pair: _Pair) -> bool:
    """Whether they are the hot and the cold of one appliance."""
    return pair.other is not None and pair.other.serves == pair.one.serves


_UPRIGHT: Final = "upright "
_HOT_AND_COLD: Final = "Hot and cold, "


def _deepest(room: Room, same: list[_Pair], least: float) -> float:
    """By how much it must be deeper for all of them; infinite where that does not help one."""
    by = 0.0
    for each in same:
        by = max(by, _deeper(room, each, least))
        if math.isinf(by):
            break
    return by


def _deeper(room: Room, pair: _Pair, least: float) -> float:
    """By how much the pre-wall must be deeper for a discharge, held in by frames, to move out of a supply's way; infinite if it cannot."""
    held, other = pair.other, pair.one
    if held is None or held.kind not in _DISCHARGES or other.kind not in _SUPPLIES or held.from_wall is None:
        return math.inf
    y, furthest = held.from_wall.value, outfall(room, held).from_wall.value
    by = 1
    while by <= math.floor(furthest - y):
        moved = replace(held, route=tuple((x, at + by if at == y else at, z) for x, at, z in held.route))
        clear = between_runs(other, moved)
        if clear >= least:
            return by
        by += max(1, math.ceil(least - clear - _GRACE))  # no millimetre deeper takes them more than one apart
    return math.inf


def _figure(pair: _Pair) -> Figure:
    return number(round(pair.clear, 1), label=f"Between {pair.one.what} and {pair.what}")


_SUPPLIES, _DISCHARGES = frozenset({"hot", "cold"}), frozenset({"soil", "waste"})
_GRACE = 1e-6
