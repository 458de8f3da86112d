"""The wall struts of a pre-wall across a corner on the wall of a run that is joined to it: one with the run's where they meet."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from tundish.catalogue.book import Book
from tundish.figure import number
from tundish.layout.corner import Across, Join
from tundish.layout.rails import longest_bar
from tundish.layout.room import Member, Room, StrutBeside

_LEVEL = 1.0
_SAME = 1.0


def beside_joins(rooms: Sequence[Room], book: Book) -> tuple[Room, ...]:
    """The same pre-walls. Two struts on one wall that would lie over one another are one, the run's; those that cannot be are told it."""
    made = list(rooms)
    for place, room in enumerate(made):
        if room.corner is None:
            for join in room.joins:
                at = next((at for at, other in enumerate(made) if join is not None and other.prewall_path == join.at), None)
                if join is not None and at is not None:
                    made[place], made[at] = _one_wall(made[place], made[at], join, book)
    return tuple(made)


@dataclass(frozen=True, slots=True)
class _On:
    """A strut of the pre-wall across the corner, with its left end along the wall of the run."""

    strut: Member
    left: float

    @property
    def right(self) -> float:
        """Its right end there."""
        return self.left + self.strut.length.value


def _one_wall(run: Room, across: Room, join: Join, book: Book) -> tuple[Room, Room]:
    """A run and what it is joined to there."""
    corner, left = across.corner, join is run.joins[0]
    if corner is None:
        return run, across
    for found in tuple(_on_wall(run, across, corner, left=left)):
        own = next((each for each in run.members if each.what == "wall strut" and _through(run, across, each, found, book)), None)
        if own is None:
            beside = StrutBeside(found.strut.mark, across.name, found.left, found.right, found.strut.z)
            run = replace(run, beside=(*run.beside, beside))
        else:
            run, across = _merged((run, across), join, corner, own, found)
    return run, across


def _on_wall(run: Room, across: Room, corner: Across, *, left: bool) -> Iterator[_On]:
    """Those on the wall that runs from the corner, seen from its left end, or on that which runs up to it."""
    for strut in across.members:
        if strut.what == "wall strut" and (strut.turn > 0) == left:
            out = strut.y / math.cos(math.radians(corner.half))
            yield _On(strut, out if left else run.width.value - out)


def _through(run: Room, across: Room, own: Member, found: _On, book: Book) -> bool:
    """Whether one bar serves for both: at one height, over one another, backed alike, and there is one so long."""
    right = own.x + own.length.value
    over = min(right, found.right) > max(own.x, found.left) and abs(own.z - found.strut.z) < _LEVEL
    alike = run.strut.code == across.strut.code and run.prewall.backing == across.prewall.backing
    return over and alike and max(right, found.right) - min(own.x, found.left) <= longest_bar(run.strut, book)


def _merged(rooms: tuple[Room, Room], join: Join, corner: Across, own: Member, found: _On) -> tuple[Room, Room]:
    """The run's strut goes on behind the corner, over the wall studs of both, and the other's is none any more."""
    (run, across), strut, left = rooms, found.strut, min(own.x, found.left)
    over = min(own.x + own.length.value, found.right) - max(own.x, found.left)
    length = (own.length + strut.length - number(round(over, 3), label="Over one another")).named(own.length.label)
    starts = ((own, own.x - left), (strut, found.left - left))
    studs = tuple(_apart(sorted(place + at for each, at in starts for place in each.beside or each.bears)))
    bears = tuple(min(max(each, 0.0), length.value) for each in studs)
    held = [one for one in across.tied if any(key == one.key for key, _ in strut.pulled)]
    names = ", ".join(one.name for one in held)
    through = replace(
        own,
        x=left,
        length=length,
        where=f"{own.where}, and on behind {join.name}, {names}",
        bears=bears,
        beside=() if bears == studs else studs,
        pulled=tuple((key, place + at) for each, at in starts for key, place in each.pulled),
    )
    run = replace(
        run,
        members=tuple(through if each is own else each for each in run.members),
        figures={**run.figures, own.mark: length},
        also_held=(*run.also_held, *((one, corner) for one in held)),
    )
    beside = StrutBeside(own.mark, run.name, left, left + length.value, own.z)
    across = replace(
        across,
        members=tuple(each for each in across.members if each is not strut),
        figures={name: each for name, each in across.figures.items() if name != strut.mark},
        beside=(*across.beside, beside),
    )
    return run, across


def _apart(places: Sequence[float]) -> Iterator[float]:
    """Each place once; the same wall stud reckoned from both ends of its wall is one."""
    last = -math.inf
    for each in places:
        if each - last > _SAME:
            yield each
            last = each
