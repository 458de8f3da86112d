"""What takes the pull of a frame across a corner: a strut on each of the two walls that holds at its studs only."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from tundish.catalogue.book import Book
from tundish.figure import Figure, number
from tundish.layout import settings
from tundish.layout.backing import WallStuds, crossed, ends, reaching, studs_of
from tundish.layout.corner import Across
from tundish.layout.design import NOGGINS, SELF_STANDING
from tundish.layout.inputs import Inputs
from tundish.layout.outline import Outline, behind_uprights
from tundish.layout.room import Member, Placed
from tundish.survey.wall import SOLID_WALLS, STUDS_OF_TIMBER


def corner_struts(outline: Outline, placed: Sequence[Placed], inputs: Inputs, book: Book) -> Iterator[Member]:
    """A strut for each frame on each stud wall of its corner, over the wall studs beside its bracket; the left-hand wall first.

    In the corner itself the right-hand one stops at the face of the left-hand one; past its outer stud each stops at the uprights.
    """
    corner = outline.standing.corner
    if corner is None or outline.standing.prewall.built_of == SELF_STANDING:
        return
    count, taken = 0, False
    deep = outline.strut.sizes["depth"][0]
    for wall in _walls(outline, corner, inputs):
        for each in placed:
            count += 1
            found = _over_studs(outline, corner, wall, each, book)
            cut = found.within(
                wall, _void(outline, corner, deep, book), on_noggin=wall.timber and outline.standing.prewall.backing == NOGGINS
            )
            cut = cut.clear_of_corner(wall, _clear(corner.half, deep, beside=taken and not wall.left))
            taken = taken or (wall.left and found.from_corner(wall) < _clear(corner.half, deep, beside=True))
            yield _member(outline, corner, wall, cut, each, f"S{count}")


@dataclass(frozen=True, slots=True)
class _Wall:
    """A stud wall of the corner: the one at its left, which runs up to it, or the one at its right, which runs from it."""

    left: bool
    letter: str
    studs: WallStuds
    timber: bool

    def place(self, along: Figure) -> Figure:
        """A distance from the corner as a place from the wall's own left end, or the other way about."""
        return self.studs.width - along if self.left else along


@dataclass(frozen=True, slots=True)
class _Lies:
    """Where a strut lies on its wall, from the wall's left end: its left end, its length, the studs it is fixed to, the bracket."""

    x: float
    length: Figure
    studs: tuple[float, ...]
    bracket: float

    def from_corner(self, wall: _Wall) -> float:
        """How far its nearer end is from the corner."""
        return wall.studs.width.value - self.x - self.length.value if wall.left else self.x

    def within(self, wall: _Wall, most: float, *, on_noggin: bool) -> _Lies:
        """The same, cut back to so far from the corner where its outer stud is still under it, or a noggin takes its end."""
        over = math.ceil(round(self.from_corner(wall) + self.length.value - most, 3))
        last = max(wall.place(number(each)).value for each in self.studs)
        if over <= 0 or (last > most and not on_noggin):
            return self
        return _Lies(
            self.x + over if wall.left else self.x, self.length - number(over, label="Behind the uprights"), self.studs, self.bracket
        )

    def clear_of_corner(self, wall: _Wall, clear: float) -> _Lies:
        """The same, cut back to so far from the corner."""
        over = math.ceil(round(clear - self.from_corner(wall), 3))
        if over <= 0:
            return self
        length = self.length - number(over, label="Clear of the corner")
        return _Lies(self.x if wall.left else self.x + over, length, self.studs, self.bracket)


def _walls(outline: Outline, corner: Across, inputs: Inputs) -> Iterator[_Wall]:
    """Those of the two walls that are not solid."""
    standing = outline.standing
    sides, place = standing.shape.sides, standing.wall_place
    found = ((True, sides[(place - 1) % len(sides)], corner.before), (False, sides[place], (standing.wall, standing.wall_at)))
    for left, side, wall in found:
        if wall[0].construction not in SOLID_WALLS:
            yield _Wall(left, side.letter, studs_of(wall, side.length, inputs), wall[0].construction in STUDS_OF_TIMBER)


def _over_studs(outline: Outline, corner: Across, wall: _Wall, placed: Placed, book: Book) -> _Lies:
    """From the wall stud on one side of the bracket to that on the other, and a little past both."""
    seat = outline.depth - settings.bracket_seat(placed.frame, placed.choice.bracket)
    bracket = wall.place(corner.along(seat, settings.bracket_aside(placed.frame, placed.choice.bracket))).value
    x, length = reaching(wall.studs, ends(wall.studs, bracket, bracket), book.figure("prewall.strut_overhang"))
    return _Lies(x, length, tuple(x + each for each in crossed(wall.studs, x, length)), bracket)


def _void(outline: Outline, corner: Across, deep: float, book: Book) -> float:
    """How far from the corner a strut so deep may come, behind the uprights."""
    turn = math.radians(corner.half)
    return (behind_uprights(outline, book).value - deep * math.sin(turn)) / math.cos(turn)


def _clear(half: float, deep: float, *, beside: bool) -> float:
    """How far from the corner a strut so deep, cut square, clears the other wall, or the other strut where that is beside it."""
    turn = math.radians(half)
    aslant = deep / math.tan(2 * turn)
    return max(deep / math.sin(2 * turn), deep / math.tan(turn)) if beside else max(aslant, 0.0)


def _member(outline: Outline, corner: Across, wall: _Wall, lies: _Lies, placed: Placed, mark: str) -> Member:
    """The strut where it is seen from the front: its left end, and how far its wall is turned."""
    turn, way = math.radians(corner.half), -1 if wall.left else 1
    along = wall.place(number(lies.x)).value
    face, deep = outline.strut.sizes["face"][0], outline.strut.sizes["depth"][0]
    long = lies.length.value
    return Member(
        mark, "wall strut", "strut", lies.length.named(f"Wall strut, {placed.name}, wall {wall.letter}"), "x",
        corner.run.value / 2 + way * along * math.sin(turn), along * math.cos(turn), placed.figures["bracket"].value - face / 2,
        (face, deep), f"on wall {wall.letter}, behind {placed.name}", way * (90.0 - corner.half),
        tuple(min(max(each - lies.x, 0.0), long) for each in lies.studs), _beside(lies),
        ((placed.key, min(max(lies.bracket - lies.x, 0.0), long)),),
    )  # fmt: skip


def _beside(lies: _Lies) -> tuple[float, ...]:
    """The wall studs that it lies between, where it ends on a noggin short of one."""
    places = tuple(each - lies.x for each in lies.studs)
    return () if all(0 <= each <= lies.length.value for each in places) else places
