"""Whether pipes in the void clear one another and what stands there."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

from tundish.catalogue.book import Book
from tundish.figure import Figure, number
from tundish.layout.clear import Block, between_runs, to_block
from tundish.layout.design import UNDER_FLOOR
from tundish.layout.feeds import meets
from tundish.layout.room import PipeRun, Room
from tundish.measure import show_length
from tundish.rules.grounds import on_joists
from tundish.rules.members import UPRIGHT, marked
from tundish.rules.pipes import outfall, served
from tundish.rules.rule import Finding, WayOut, judge, rule
from tundish.rules.ways import set_depth


@rule("prewall/crossings", figures=("void.crossing", "void.cistern"), source="own rule; how far a cistern reaches down from memory")
def crossings(room: Room, book: Book) -> Iterator[Finding]:
    """Pipes clear one another, the legs of frames, cisterns and uprights.

    Measured between their outsides in three dimensions, insulation and all, each pipe lying where it is laid. Of one appliance, hot and
    cold are asked against each other; pipes that branch off one pipe are not. A soil pipe behind frames is asked by the void; across a
    corner here. Of several supplies of one kind that come too near to the same pipe, the nearest is named.
    """
    least = book.figure("void.crossing")
    pairs = [*_pipes(room), *_blocks(room, book)]
    short: dict[tuple[str, str], list[_Pair]] = {}
    for pair in pairs:
        if pair.clear < least.value - _GRACE:
            one, other = pair.one, pair.other
            short.setdefault((one.kind if one.kind in _SUPPLIES else one.key, _named(pair.what, other)), []).append(pair)
    for same in short.values():
        yield _short(room, same, least)
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


def _pipes(room: Room) -> Iterator[_Pair]:
    for place, one in enumerate(room.pipes):
        for other in room.pipes[:place]:
            if meets(one, other):
                yield _Pair(one, other.what, between_runs(one, other), other)


def _blocks(room: Room, book: Book) -> Iterator[_Pair]:
    standing = tuple(_standing(room, book))
    behind = () if room.corner is None else ("soil",)
    for run in room.pipes_of("waste", "hot", "cold", *behind):
        for block in standing:
            if block.whose != run.serves:
                yield _Pair(run, block.what, to_block(run, block))


def _standing(room: Room, book: Book) -> Iterator[Block]:
    """Uprights, the legs of frames, and cisterns between them; a cistern is its own WC's."""
    front = room.depth.value
    for member in marked(room, UPRIGHT):
        across, deep = member.section
        least = (member.x, front - deep, member.z)
        yield Block(f"upright {member.mark}", "", least, (member.x + across, front, member.z + member.length.value))
    for one in room.framed:
        back, leg, top = front - one.frame.size("depth").value, one.frame.size("leg").value, one.figures["frame_top"].value
        for left in (one.left, one.right - leg):
            yield Block(f"a leg of the frame of {one.name}", "", (left, back, 0.0), (left + leg, front, top))
        if one.kind == "wc":
            bottom = one.figures["supply"].value - book.figure("void.cistern").value
            yield Block(f"the cistern of {one.name}", one.key, (one.left + leg, back, bottom), (one.right - leg, front, top))


def _named(what: str, other: PipeRun | None) -> str:
    return other.kind if other is not None and other.kind in _SUPPLIES else what


def _short(room: Room, same: list[_Pair], least: Figure) -> Finding:
    pair = min(same, key=lambda each: each.clear)
    words = f"{pair.one.what} and {pair.what}: {show_length(math.ceil(least.value - pair.clear - _GRACE))} mm short."
    ways: tuple[WayOut, ...] = ()
    by = max(_deeper(room, each, least.value) for each in same)
    if math.isfinite(by):
        words = f"{words} Set the pre-wall {show_length(by)} mm deeper, or run one of them at another height."
        ways = (set_depth(room, room.depth.value + by),)
    elif pair.other is not None and pair.one.kind in _DISCHARGES and pair.other.kind in _DISCHARGES:
        words = f"{words} Let one of them in at another height, or drain it elsewhere."
    elif pair.other is not None:
        words = f"{words} Run one of them at another height."
    elif room.corner is not None and pair.one.kind == "soil":
        words = f"{words} Set the pre-wall further from its corner, or drain it to what stands in the corner."
    else:
        also, ways = _led_below(room, pair.one)
        words = f"{words} Run it at another height, or move the appliance.{also}"
    state = judge(_figure(pair), least, None, "look" if pair.other is not None else "fails")
    place = _HOT_AND_COLD + pair.one.what.partition(", ")[2] if _of_one(pair) else pair.one.what
    return Finding("Pipes that cross", "Void", state, _figure(pair), "Own rule", least.note, least, None, words, place, ways)


def _led_below(room: Room, run: PipeRun) -> tuple[str, tuple[WayOut, ...]]:
    """What else gets a supply past what stands in the void: behind a run joined to a front across a corner, or under the floor."""
    one = served(room, run)
    if run.kind not in _SUPPLIES or one.choice.feeds == UNDER_FLOOR:
        return "", ()
    behind = " Or run a pre-wall as high along that wall: it is joined to this one, and the pipe lies behind it." if room.corner else ""
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


_HOT_AND_COLD: Final = "Hot and cold, "


def _deeper(room: Room, pair: _Pair, least: float) -> float:
    """By how much the pre-wall must be deeper for a discharge, held in by frames, to move out of a supply's way; infinite if it cannot."""
    held, other = pair.other, pair.one
    if held is None or held.kind not in _DISCHARGES or other.kind not in _SUPPLIES or held.from_wall is None:
        return math.inf
    y, furthest = held.from_wall.value, outfall(room, held).from_wall.value
    for by in range(1, math.floor(furthest - y) + 1):
        moved = replace(held, route=tuple((x, at + by if at == y else at, z) for x, at, z in held.route))
        if between_runs(other, moved) >= least:
            return by
    return math.inf


def _figure(pair: _Pair) -> Figure:
    return number(round(pair.clear, 1), label=f"Between {pair.one.what} and {pair.what}")


_SUPPLIES, _DISCHARGES = frozenset({"hot", "cold"}), frozenset({"soil", "waste"})
_GRACE = 1e-6
