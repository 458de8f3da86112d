"""Tiles set out on a face: where each lies from one start, which are cut, and what holes go through them.

A face is what is tiled, x from its left, z from its foot. Tiles lie a joint apart; every other row may be shifted (brick bond).
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final, Literal, NamedTuple

from tundish.errors import TundishError
from tundish.layout.clip import area_of_shape, box, common
from tundish.layout.floor_plan import FloorPlan, part_in
from tundish.layout.once import once
from tundish.layout.walls import Point

Corner = Literal["beside", "before", "above"]
_NEAR: Final = 1e-6
_NOTHING: Final = 1.0
"""A square millimetre of a tile is none."""
MOST_TILES: Final = 50_000
"""Tiles on one face: more is a slip of the unit, and nobody could follow the drawing."""
MOST_ON_FLOOR: Final = 4_000
"""Tiles on a floor, each of which is fitted round what stands there: of more, as of mosaic, only the area counts."""


class BadTilingError(TundishError, ValueError):
    """A tile, joint or face that nobody could lay: a fault of the caller."""


@dataclass(frozen=True, slots=True)
class Tiling:
    """The tile as it lies, the joint, and by what share of a tile every other row is shifted: 0 straight, 0.5 brick bond."""

    width: float
    height: float
    joint: float
    shift: float = 0.0

    def __post_init__(self) -> None:
        for value, name in ((self.width, "width"), (self.height, "height")):
            if not (math.isfinite(value) and value > 0):
                raise BadTilingError(f"a tile's {name} should be more than nought, not {value}")
        if not (math.isfinite(self.joint) and self.joint >= 0 and 0 <= self.shift < 1):
            raise BadTilingError(f"a joint of {self.joint} and a shift of {self.shift} cannot be laid")

    @property
    def across(self) -> float:
        """From one tile to the next."""
        return self.width + self.joint

    @property
    def up(self) -> float:
        """From one course to the next."""
        return self.height + self.joint


@dataclass(frozen=True, slots=True)
class Hole:
    """A round hole through the tiles."""

    name: str
    x: float
    z: float
    across: float


class Gap(NamedTuple):
    """A rectangle of a face that is not tiled: what a lower pre-wall hides, an opening."""

    x: float
    z: float
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class TiledFace:
    """A face to be tiled, with its holes and gaps; `corner` says how the pattern comes to it from the face before it.

    A tile that lies wholly in a gap is not laid; one that a gap runs into is laid and cut out. A floor has a `plan`: z then goes up to
    wall A, and tiles lie on its parts alone. A face that is no rectangle has an `outline`, and tiles lie within that. `offset`: how far
    right of its own left that of the first face is, where the pattern goes on above.
    """

    name: str
    width: float
    height: float
    holes: tuple[Hole, ...] = ()
    corner: Corner = "beside"
    gaps: tuple[Gap, ...] = ()
    plan: FloorPlan | None = None
    outline: tuple[Point, ...] = ()
    offset: float = 0.0

    @property
    def whole(self) -> bool:
        """Whether it is a rectangle without gaps."""
        return not (self.gaps or self.plan or self.outline)


@dataclass(frozen=True, slots=True)
class Start:
    """Where the left edge and the foot of one whole tile lie, and what that start is called."""

    x: float
    z: float
    name: str = ""


@dataclass(frozen=True, slots=True)
class LaidTile:
    """One tile or what is left of it: its place and size on the face, and its row and column in the pattern."""

    row: int
    column: int
    x: float
    z: float
    width: float
    height: float
    cut: bool


@dataclass(frozen=True, slots=True)
class Drilled:
    """A hole in one tile: its centre from the tile's own left and foot, and how much is left between it and the nearest edge.

    `edge` below nought: the hole runs over the edge, and the tile is notched.
    """

    tile: int
    hole: Hole
    x: float
    z: float
    edge: float


class Strip(NamedTuple):
    """One course, or one upright row, as it shows: its number in the pattern, where it begins and how wide it is."""

    number: int
    at: float
    size: float


@dataclass(frozen=True, slots=True)
class SetOut:
    """A face tiled from one start: its courses from the foot, and the upright rows of the even courses and of the odd ones."""

    face: TiledFace
    tiling: Tiling
    start: Start
    rows: tuple[Strip, ...]
    columns: tuple[tuple[Strip, ...], tuple[Strip, ...]]

    @property
    def tiles(self) -> tuple[LaidTile, ...]:
        """Every tile, course by course from the foot."""
        if self.face.plan:
            return _on_floor(self)
        if self.face.outline:
            return _within(self)
        return tuple(
            LaidTile(row.number, column.number, column.at, row.at, column.size, row.size, self._cut(row, column))
            for row in self.rows
            for column in self.columns[row.number % 2]
            if not self._in_a_gap(row, column)
        )

    @property
    def drilled(self) -> tuple[Drilled, ...]:
        """Every hole in every tile that it touches."""
        return tuple(_drilled(self.tiles, self.face.holes))

    @property
    def whole(self) -> int:
        """How many tiles are not cut to size."""
        if not self.face.whole:
            return sum(not tile.cut for tile in self.tiles)
        across = [sum(column.size >= self.tiling.width - _NEAR for column in columns) for columns in self.columns]
        return sum(across[row.number % 2] for row in self.rows if row.size >= self.tiling.height - _NEAR)

    @property
    def count(self) -> int:
        """How many tiles there are, whole or cut."""
        if not self.face.whole:
            return len(self.tiles)
        return sum(len(self.columns[row.number % 2]) for row in self.rows)

    @property
    def cuts(self) -> tuple[LaidTile, ...]:
        """The tiles that are cut."""
        return tuple(tile for tile in self.tiles if tile.cut)

    @property
    def smallest(self) -> float:
        """The narrowest cut, mm, or a whole tile where none is cut."""
        wide, high = self.tiling.width, self.tiling.height
        if self.face.plan:
            cut = (size for tile in self.cuts for size, full in ((tile.width, wide), (tile.height, high)) if size < full - _NEAR)
            return min(cut, default=min(wide, high))
        across = (column.size for columns in self._used for column in columns if column.size < wide - _NEAR)
        up = (row.size for row in self.rows if row.size < high - _NEAR)
        return min((*across, *up), default=min(wide, high))

    @property
    def ends(self) -> tuple[float, float]:
        """Width of the end tiles at left and right, in the row where they are narrowest."""
        used = [columns for columns in self._used if columns]
        return min((one[0].size for one in used), default=0.0), min((one[-1].size for one in used), default=0.0)

    @property
    def courses(self) -> tuple[float, float]:
        """Height of the lowest and the highest course."""
        return (self.rows[0].size, self.rows[-1].size) if self.rows else (0.0, 0.0)

    @property
    def over_joints(self) -> tuple[Hole, ...]:
        """The holes that a joint runs through, or that reach over the end of the face."""
        return tuple(hole for hole in self.face.holes if self._over(hole))

    @property
    def _used(self) -> tuple[tuple[Strip, ...], ...]:
        odd = {row.number % 2 for row in self.rows}
        return tuple(columns for place, columns in enumerate(self.columns) if place in odd)

    def _cut(self, row: Strip, column: Strip) -> bool:
        return column.size < self.tiling.width - _NEAR or row.size < self.tiling.height - _NEAR

    def _in_a_gap(self, row: Strip, column: Strip) -> bool:
        return any(
            gap.x - _NEAR <= column.at
            and column.at + column.size <= gap.x + gap.width + _NEAR
            and gap.z - _NEAR <= row.at
            and row.at + row.size <= gap.z + gap.height + _NEAR
            for gap in self.face.gaps
        )

    def _over(self, hole: Hole) -> bool:
        radius = hole.across / 2
        touched = _touched(self.rows, hole.z, radius)
        columns = (column for row in touched for column in _touched(self.columns[row.number % 2], hole.x, radius))
        return any(not _inside(row, hole.z, radius) for row in touched) or any(not _inside(one, hole.x, radius) for one in columns)


def fits(face: TiledFace, tiling: Tiling) -> bool:
    """Whether a face takes no more tiles than can be set out one by one."""
    many = (face.width / tiling.across + 2) * (face.height / tiling.up + 2)
    return math.isfinite(many) and many <= (MOST_ON_FLOOR if face.plan else MOST_TILES)


def set_out(face: TiledFace, tiling: Tiling, start: Start) -> SetOut:
    """The face tiled from one start; raises BadTilingError where it would take an absurd number of tiles."""
    most = MOST_ON_FLOOR if face.plan else MOST_TILES
    if not fits(face, tiling):
        raise BadTilingError(f"{face.name}: {face.width:g} × {face.height:g} mm would take more than {most} tiles")
    rows = tuple(_strips(start.z, tiling.height, tiling.up, face.height))
    even = tuple(_strips(start.x, tiling.width, tiling.across, face.width))
    odd = tuple(_strips(start.x + tiling.shift * tiling.across, tiling.width, tiling.across, face.width)) if tiling.shift else even
    return SetOut(face, tiling, start, rows, (even, odd))


def around(faces: Sequence[TiledFace], tiling: Tiling, start: Start) -> tuple[SetOut, ...]:
    """Faces round the corners of the first: what a corner cuts off goes on beside it (or before it, at the first one's left).

    Above, the upright joints go on and the first row is a whole tile.
    """
    made: list[SetOut] = []
    end = start.x
    for face in faces:
        if made:
            places = {"beside": end, "before": start.x + face.width, "above": start.x + face.offset}
            made.append(set_out(face, tiling, Start(places[face.corner], 0.0 if face.corner == "above" else start.z, start.name)))
        else:
            made.append(set_out(face, tiling, start))
        if face.corner == "beside":
            end = made[-1].start.x - face.width
    return tuple(made)


def movement_joints(length: float, tiling: Tiling, start: float, most: float) -> tuple[float, ...]:
    """Centres of the movement joints along a length: on tile joints, never more than `most` apart.

    BS 5385-1 by way of the tile trade's guide: 3 to 4.5 m both ways on walls, 8 to 10 m on floors. Nothing where the length is less.
    """
    if most <= tiling.across:
        raise BadTilingError(f"movement joints {most:g} apart are closer than tiles")
    made: list[float] = []
    last = 0.0
    while length - last > most + _NEAR:
        steps = math.floor((last + most - (start - tiling.joint / 2)) / tiling.across + _NEAR)
        last = start - tiling.joint / 2 + steps * tiling.across
        made.append(round(last, 6))
    return tuple(made)


def _strips(start: float, size: float, pitch: float, length: float) -> Iterator[Strip]:
    """Each strip of a pattern that shows between 0 and `length`."""
    number = math.floor(-start / pitch)
    while (low := start + number * pitch) < length - _NEAR:
        high = min(low + size, length)
        low = max(low, 0.0)
        if high - low > _NEAR:
            yield Strip(number, low, high - low)
        number += 1


@once
def _on_floor(laid: SetOut) -> tuple[LaidTile, ...]:
    """Every tile of a floor, each as large as the least rectangle that it can be cut from."""
    whole = laid.tiling.width * laid.tiling.height
    made = []
    for row in laid.rows:
        for column in laid.columns[row.number % 2]:
            box = (column.at, row.at, column.at + column.size, row.at + row.size)
            part = part_in(laid.face.plan.parts, box) if laid.face.plan else None
            if part is not None and part.area > _NOTHING:
                cut = part.area < whole - _NOTHING
                made.append(LaidTile(row.number, column.number, part.x, part.z, part.width, part.height, cut))
    return tuple(made)


@once
def _within(laid: SetOut) -> tuple[LaidTile, ...]:
    """Every tile within the outline of a face, each as large as the least rectangle that it can be cut from."""
    whole = laid.tiling.width * laid.tiling.height
    made = []
    for row in laid.rows:
        for column in laid.columns[row.number % 2]:
            part = common(laid.face.outline, box(column.at, column.at + column.size, row.at, row.at + row.size))
            if part:
                xs, zs = [x for x, _ in part], [z for _, z in part]
                left, foot, wide, high = min(xs), min(zs), max(xs) - min(xs), max(zs) - min(zs)
                made.append(LaidTile(row.number, column.number, left, foot, wide, high, area_of_shape(part) < whole - _NOTHING))
    return tuple(made)


def _drilled(tiles: Sequence[LaidTile], holes: Sequence[Hole]) -> Iterator[Drilled]:
    for hole in holes:
        radius = hole.across / 2
        for place, tile in enumerate(tiles):
            x, z = hole.x - tile.x, hole.z - tile.z
            near = math.hypot(x - min(max(x, 0.0), tile.width), z - min(max(z, 0.0), tile.height))
            if near < radius - _NEAR:
                yield Drilled(place, hole, x, z, min(x, z, tile.width - x, tile.height - z) - radius)


def _touched(strips: Sequence[Strip], at: float, radius: float) -> list[Strip]:
    low, high = at - radius, at + radius
    return [strip for strip in strips if high > strip.at + _NEAR and low < strip.at + strip.size - _NEAR]


def _inside(strip: Strip, at: float, radius: float) -> bool:
    return at - radius >= strip.at - _NEAR and at + radius <= strip.at + strip.size + _NEAR
