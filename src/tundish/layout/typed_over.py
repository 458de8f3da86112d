"""Worked-out figures that the trader sets by hand: which can be, under what name, and what is told of rows that name none."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from tundish.field import Problem
from tundish.layout.room import Room

_ROOM: Final = ("finished_floor", "datum")
_PREWALL: Final = ("depth", "thickness", "finished_face", "top_of_prewall", "top_of_steel")
_INPUTS: Final = ("centre", "studs_apart", "hot_run", "cold_run", "waste_entry")
"""What is chosen or is the ware's own, and is not worked out."""


def typeable(room: Room) -> tuple[str, ...]:
    """The names of the figures of a room, as in `Room.figures`, that can be typed over."""
    placed = (f"{one.key}.{name}" for one in room.placed for name in one.figures if name not in _INPUTS)
    return (*_ROOM, *_PREWALL, *placed)


def name_of(room: Room, figure: str) -> str:
    """What a row of `design.typed` calls a figure of this pre-wall; figures of a further pre-wall have its mark before them."""
    return f"{room.mark}{figure}" if figure in _PREWALL and not room.first else figure


def told(rooms: Sequence[Room]) -> tuple[Room, ...]:
    """The pre-walls of one room, the first with what is wrong in the rows of its figures typed over."""
    first = rooms[0]
    problems = tuple(each for each in _problems(rooms) if each not in first.problems)
    return (replace(first, problems=(*first.problems, *problems)), *rooms[1:]) if problems else tuple(rooms)


def _problems(rooms: Sequence[Room]) -> Iterator[Problem]:
    can = {name_of(room, name) for room in rooms for name in typeable(room)}
    known = {name for room in rooms for name in room.figures}
    seen: set[str] = set()
    for place, row in enumerate(rooms[0].plan.design.typed):
        name, path = row.figure.strip(), f"{rooms[0].path}.design.typed.{place}.figure"
        if not name:
            yield Problem(path, "Say which figure is typed over, such as wc-1.studs")
        elif name in seen:
            yield Problem(path, f"{name} is typed over twice: take one of them out")
        elif name not in can:
            follows = f"{name} follows from other figures and cannot be typed over: type over what it is worked out from"
            yield Problem(
                path, follows if name in known else f"There is no figure called {name}: open it in Where from, and type over it there"
            )
        seen.add(name)
