"""A room worked out at one of its pre-walls: where every piece stands, how high, how long, each of those a figure that remembers.

x along the pre-wall's own wall from that wall's left end, y out from its face, z up from the bare floor; millimetres.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from tundish.catalogue.item import Item
from tundish.field import Problem
from tundish.figure import Figure
from tundish.layout.around import Around
from tundish.layout.capping import Capping
from tundish.layout.corner import Across, InCorner, Join
from tundish.layout.design import SELF_STANDING, Appliance, PreWall, RoomPlan
from tundish.layout.recesses import Recess
from tundish.layout.standing import Meets
from tundish.layout.tiles import TiledFace
from tundish.layout.walls import Point, WallSide, closes
from tundish.survey.wall import Wall


@dataclass(frozen=True, slots=True)
class Member:
    """One piece of steel or timber. `x`, `z` is its lower left corner in elevation, `y` its back; `along` says how it lies.

    `what`: upright, top rail, floor rail, wall tie, wall strut; in timber stud, head plate, sole plate, noggin, wall tie; trimmer; floor
    noggin, rail noggin; closing batten.
    `mark`: by its first letter, U T F W S N K R G J; numbered from the left. `role`: what it is cut from; "strut" is the one chosen.
    """

    mark: str
    what: str
    role: str
    length: Figure
    along: Literal["x", "y", "z"]
    x: float
    y: float
    z: float
    section: tuple[float, float]
    """Its size across, mm: (in the elevation's plane, in depth); of one that lies along y: (along the wall, upwards)."""
    where: str = ""
    turn: float = 0.0
    """Of a strut on a wall of a corner, or a batten on a front across one: how far that is turned from the front, in degrees, outwards to
    its right above zero."""
    bears: tuple[float, ...] = ()
    """Of a wall strut: the wall studs that it is fixed to, from its left end."""
    beside: tuple[float, ...] = ()
    """Of a wall strut that ends on a noggin: the wall studs on either side of it, from its left end."""
    pulled: tuple[tuple[str, float], ...] = ()
    """Of a wall strut: the key of the appliance at each wall bracket that pulls at it, and where, from its left end."""


@dataclass(frozen=True, slots=True)
class StrutBeside:
    """A wall strut of another pre-wall on the same wall: its mark, whose it is, its ends along the wall and its foot."""

    mark: str
    whose: str
    left: float
    right: float
    z: float


@dataclass(frozen=True, slots=True)
class Placed:
    """An appliance on its frame or support bar, with its items found and its settings chosen.

    `kind` is that whose rules hold for it: an accessible WC is a "wc", and says so in its `choice`.
    `bracket_why`: what turned its wall brackets, or kept them from it, where that was left to the rule.
    `figures` holds, by short name, every height and depth: top, studs, outlet, inlet, waste, supply, feet, bracket, reach, …
    """

    key: str
    path: str
    choice: Appliance
    name: str
    kind: str
    ware: Item
    frame: Item
    centre: Figure
    figures: Mapping[str, Figure]
    tie_rod: Item | None
    bracket_why: str = ""

    @property
    def framed(self) -> bool:
        """Whether it hangs on a frame, and not on a support bar between uprights."""
        return "bracket" in self.figures

    @property
    def reaches(self) -> tuple[Figure, ...]:
        """How far its tie rods reach: one figure, or one for each wall of a corner."""
        return tuple(self.figures[each] for each in ("reach", "reach_left") if each in self.figures)

    @property
    def left(self) -> float:
        """Left edge of the frame."""
        return self.centre.value - self.frame.bare("width") / 2

    @property
    def right(self) -> float:
        """Right edge of the frame."""
        return self.centre.value + self.frame.bare("width") / 2


@dataclass(frozen=True, slots=True)
class Outfall:
    """Where a discharge can go: the stack, or another waste entry. `invert` is None while it is not known; `at` is where it is put in.

    `from_left` is reckoned along the pre-wall's own wall, the walls unrolled; `size` is nominal. `under`: the floor, through a new hole.
    """

    name: str
    at: str
    from_left: Figure
    from_wall: Figure
    invert: Figure | None
    size: int
    under: bool = False

    @property
    def stack(self) -> bool:
        """Whether it is the stack, into which a boss can be let at any height."""
        return not self.name


@dataclass(frozen=True, slots=True)
class PipeRun:
    """One run of pipe in the void.

    `run` is its length along the wall, `rise` its fall over that (waste) or how far it rises (supply), `fall` that by the metre.
    `enters` is the invert at which a discharge enters what it goes `to`, where it is known: the stack, or another waste entry by its
    name. `level` is the height of a supply along the wall, `onto` how far it goes up to that from where it comes in. `lengths` are the
    pieces of pipe to cut. Points are (x, z) the way the water goes: from the appliance to the stack, from where a
    supply comes in to the draw-off. `route` is the same way as (x, y, z), the walls unrolled: round a corner it leaves off on one wall
    and goes on on the next. `from_wall` is how far its middle lies from the wall, `outside` its diameter with what is round it; `bends`
    says where each is; `drop` is how far a waste, or a branch to under the floor, goes straight down at its end.
    """

    key: str
    mark: str
    what: str
    kind: Literal["soil", "waste", "hot", "cold"]
    serves: str
    size: int
    run: Figure
    rise: Figure | None
    fall: Figure | None
    lengths: tuple[Figure, ...]
    points: tuple[tuple[float, float], ...]
    enters: Figure | None = None
    joints: int = 0
    """Couplings between its pieces where no bar is as long as the run."""
    route: tuple[tuple[float, float, float], ...] = ()
    from_wall: Figure | None = None
    outside: float = 0.0
    bends: tuple[str, ...] = ()
    to: str = ""
    drop: Figure | None = None
    level: Figure | None = None
    onto: Figure | None = None

    @property
    def pieces(self) -> tuple[tuple[str, Figure], ...]:
        """The pieces to cut with a mark each: P1; or H1a and H1b where a run takes more than one."""
        if len(self.lengths) == 1:
            return ((self.mark, self.lengths[0]),)
        return tuple((f"{self.mark}{chr(ord('a') + place)}", length) for place, length in enumerate(self.lengths))


@dataclass(frozen=True, slots=True)
class Piece:
    """One piece of board by the rectangle round it: width along the face, height up it (across it on the shelf), where it goes.

    `x`, `z` is its lower left corner: from the left wall and the bare floor; from the wall at its back on a shelf or a return.
    `slants`: the lines that it is sawn along aslant, from that corner. `layer` 1 is on the frame.
    """

    mark: str
    width: Figure
    height: Figure
    where: str
    x: float
    z: float
    slants: tuple[tuple[Point, Point], ...] = ()
    layer: int = 1


@dataclass(frozen=True, slots=True)
class Face:
    """One surface of the pre-wall: front, shelf, return-left or return-right. Sizes as boarded; `tiled_*` as tiled.

    Returns stand at free ends only. The boards are those of every layer. `area`: as boarded, one layer, where it is no rectangle;
    `tiled_left`: where the tiles of a front begin, from the left end of its line.
    """

    key: str
    name: str
    width: Figure
    height: Figure
    tiled_width: Figure
    tiled_height: Figure
    tiled_area: Figure
    boards: tuple[Piece, ...]
    hidden: tuple[tuple[int, Figure, Figure], ...] = ()
    """What lower pre-walls stand before: at which end (0 the left, 1 the right), how far in, how high above the finished floor."""
    area: Figure | None = None
    tiled_left: Figure | None = None

    @property
    def seen(self) -> tuple[Piece, ...]:
        """The boards of the layer that is seen before it is tiled."""
        return tuple(piece for piece in self.boards if piece.layer == self.boards[-1].layer)


@dataclass(frozen=True, slots=True)
class Backed:
    """A stretch of a pre-wall that has something behind it to fix to: its left end, its middle above the bare floor, and its length."""

    key: str
    path: str
    name: str
    left: Figure
    level: Figure
    reach: Figure

    @property
    def right(self) -> Figure:
        """Its right end."""
        return (self.left + self.reach).named(f"{self.name}, right end")


@dataclass(frozen=True, slots=True)
class TiledFloor:
    """The floor of the room as it is tiled: the tile, the joint, the floor's face, its lines to start on, and its figures.

    `rim`: how long its edges are but for the fronts of pre-walls. `lines` are (name, x) from the face's left.
    """

    tile: Item
    joint: Figure
    bond: str
    face: TiledFace
    lines: tuple[tuple[str, float], ...]
    area: Figure
    rim: Figure


@dataclass(frozen=True, slots=True)
class Room:
    """A room worked out at one of its pre-walls. `figures` names every figure a user may ask about, such as "wc-1.studs".

    `place` is which of the room's pre-walls this is, from 0; `behind` what the wall behind it was found
    to be; `name` is the room's, with the pre-wall's own where there are several. `prewall_path` and `behind_path` are where their inputs
    are. `mark` leads every mark on it. `corners` are the room's in plan, `sides` its walls; `folds` are where the room's corners come
    along this wall unrolled; `line` is what x is reckoned along, in plan: the wall, or the front of a pre-wall across a `corner`, and
    `width` its length. `supports` are the centres of everything that boards are fixed to, from the left end of the wall; `at_wall` says
    of the left and the right end whether it stands at a side wall or is free; `wall_studs` are the studs of the wall, none where it is
    solid. `around` is what else is in the room. `outfalls` is the stack, then the other waste entries; `instead` has, for each discharge,
    the runs to those that it was not chosen to go to. `recesses` are let into the front, `backed` has noggins. `in_corners` are other
    pre-walls across the corners at the left and the right end of the wall, `meets` those that it meets there, `joins` those that its front
    goes on into. `floor` is with the first pre-wall, where the floor is tiled. `capping` closes a pre-wall of part height without a shelf.
    `beside` are the wall struts of those that it is joined to, on its own wall; `also_held` what of theirs hangs on its own struts, with
    the corner that it stands across; `passing` the pipes of other pre-walls that come where this one stands, as they lie seen from it,
    each with the appliance that it serves.
    """

    plan: RoomPlan
    path: str
    name: str
    place: int
    prewall: PreWall
    prewall_path: str
    behind: Wall
    behind_path: str
    mark: str
    corners: tuple[Point, ...]
    sides: tuple[WallSide, ...]
    folds: tuple[float, ...]
    line: WallSide
    corner: Across | None
    finished_floor: Figure
    width: Figure
    start: Figure
    run: Figure
    depth: Figure
    thickness: Figure
    top: Figure
    top_of_steel: Figure
    placed: tuple[Placed, ...]
    members: tuple[Member, ...]
    pipes: tuple[PipeRun, ...]
    faces: tuple[Face, ...]
    board: Item
    tile: Item
    strut: Item
    figures: Mapping[str, Figure]
    problems: tuple[Problem, ...]
    supports: tuple[Figure, ...] = ()
    at_wall: tuple[bool, bool] = (True, True)
    wall_studs: tuple[float, ...] = ()
    around: Around = field(default_factory=Around)
    outfalls: tuple[Outfall, ...] = ()
    instead: tuple[PipeRun, ...] = ()
    recesses: tuple[Recess, ...] = ()
    backed: tuple[Backed, ...] = ()
    in_corners: tuple[InCorner | None, InCorner | None] = (None, None)
    capping: Capping | None = None
    meets: tuple[Meets | None, Meets | None] = (None, None)
    joins: tuple[Join | None, Join | None] = (None, None)
    floor: TiledFloor | None = None
    beside: tuple[StrutBeside, ...] = ()
    also_held: tuple[tuple[Placed, Across], ...] = ()
    passing: tuple[tuple[PipeRun, Placed], ...] = ()

    @property
    def room_name(self) -> str:
        """What the room is called, whichever of its pre-walls this is."""
        return self.plan.name

    @property
    def wall(self) -> str:
        """The letter of the wall that it stands at; across a corner, of the wall at its right."""
        return self.line.letter

    @property
    def first(self) -> bool:
        """Whether it is the first pre-wall of its room, at which what is said of the whole room is said."""
        return self.place == 0

    @property
    def box(self) -> bool:
        """Whether the room is a plain box."""
        return self.closed and len(self.sides) == 4 and all(side.angle == 90.0 for side in self.sides)  # noqa: PLR2004

    @property
    def closed(self) -> bool:
        """Whether its walls make a room; they stand in one line where they do not."""
        return closes(self.sides)

    def side_of(self, letter: str) -> WallSide | None:
        """The wall of that letter; None where the room has no such wall."""
        return next((side for side in self.sides if side.letter == letter), None)

    @property
    def of_steel(self) -> bool:
        """Whether it is framed with strut."""
        return self.prewall.built_of != "timber"

    @property
    def self_standing(self) -> bool:
        """Whether its feet alone hold it: nothing of it is tied to the wall."""
        return self.prewall.built_of == SELF_STANDING

    @property
    def tied(self) -> tuple[Placed, ...]:
        """The appliances whose frames are tied to the wall."""
        return () if self.self_standing else self.framed

    @property
    def framed(self) -> tuple[Placed, ...]:
        """The appliances that hang on frames, left to right."""
        return tuple(each for each in self.placed if each.framed)

    def of_kind(self, *kinds: str) -> tuple[Placed, ...]:
        """The appliances of these kinds, left to right."""
        return tuple(each for each in self.placed if each.kind in kinds)

    def pipes_of(self, *kinds: str) -> tuple[PipeRun, ...]:
        """The runs of pipe of these kinds."""
        return tuple(each for each in self.pipes if each.kind in kinds)
