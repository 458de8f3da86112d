"""Each pre-wall of a room with the wall that it stands at: what it is called, how its pieces are marked, and where its inputs are."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace

from tundish.figure import Figure
from tundish.layout.corner import Across, Against, InCorner, Join, across_corner
from tundish.layout.design import PreWall, RoomPlan
from tundish.layout.inputs import Inputs
from tundish.layout.places import check_places
from tundish.layout.shape import shape_of
from tundish.layout.walls import Fold, Point, Shape, WallSide, found_wall
from tundish.survey.survey import Survey
from tundish.survey.wall import Wall


@dataclass(frozen=True, slots=True)
class Meets:
    """Another pre-wall in the corner at one end. `through`: this one goes into the corner, the other ends at it; `level`: as high.

    `hides`: how far above the finished floor a lower one stands before this one; None where none does. `against`: where one of the two
    stands across the corner, how they meet.
    """

    name: str
    depth: Figure
    through: bool
    level: bool
    hides: Figure | None = None
    against: Against | None = None


@dataclass(frozen=True, slots=True)
class Standing:
    """One pre-wall and its wall. `at` and `wall_at` are where their inputs are within the room; `mark` leads every mark on it.

    `meets`: the pre-walls in the corners at its left and right end; `in_corners`: those that stand across them; `joins`: those whose
    front its own goes on into.
    """

    place: int
    prewall: PreWall
    at: str
    shape: Shape
    wall_place: int
    wall: Wall
    wall_at: str
    name: str
    mark: str
    meets: tuple[Meets | None, Meets | None] = (None, None)
    corner: Across | None = None
    front: WallSide | None = None
    in_corners: tuple[InCorner | None, InCorner | None] = (None, None)
    joins: tuple[Join | None, Join | None] = (None, None)

    @property
    def lead(self) -> str:
        """What leads the name of a figure of this pre-wall that is typed over: nothing for the first."""
        return self.mark if self.place else ""

    @property
    def side(self) -> WallSide:
        """The line that it is set out along, in plan: its wall, or its own front where it stands across a corner."""
        return self.front or self.shape.sides[self.wall_place]

    @property
    def folds(self) -> tuple[float, ...]:
        """Where the corners of the room come along its line, the walls unrolled."""
        moved = self.corner.run.value / 2 if self.corner else 0.0
        return tuple(each + moved for each in self.shape.folds(self.wall_place))

    @property
    def turns(self) -> tuple[Fold, ...]:
        """The corners that a pipe along it goes round; where the pre-wall stands across a corner, that one is none of them."""
        if self.corner is None:
            return self.shape.turns(self.wall_place)
        moved = self.corner.run.value / 2
        return tuple(Fold(each.x + moved, each.angle) for each in self.shape.turns(self.wall_place) if each.x)

    def turns_between(self, one: float, other: float) -> tuple[Fold, ...]:
        """Those of them between two places along it, from left to right."""
        return tuple(each for each in self.turns if min(one, other) < each.x < max(one, other))

    def wall_named(self, letter: str) -> WallSide | None:
        """The wall of that letter; None where the room has no such wall."""
        place = self.shape.place_of(letter)
        return None if place is None else self.shape.sides[place]

    def seen(self, x: Figure, letter: str) -> Figure:
        """A place along any wall as it is reckoned along this one, unrolled; a wall that there is not counts as wall A."""
        along = self.shape.seen_from(self.wall_place, self.shape.place_of(letter) or 0, x)
        return along if self.corner is None else along + (self.corner.run / 2).named("Half of the front, to the corner")

    def stands(self, x: Figure, out: Figure, letter: str) -> tuple[Figure, Figure]:
        """Where something at a wall is along this pre-wall, and how far out; behind a front across a corner as it lies from there."""
        sides, place = self.shape.sides, self.shape.place_of(letter) or 0
        left = place == (self.wall_place - 1) % len(sides)
        if self.corner is not None and (left or place == self.wall_place):
            found = self.corner.place(sides[place].length - x if left else x, out, left=left)
            if self.corner.holds(found[0].value, found[1].value):
                return found
        return self.seen(x, letter), out

    def from_front(self, x: float, out: float) -> Point:
        """Along the front across a corner and out of that: a place along the walls unrolled, and out of the wall that it comes to."""
        middle = self.corner.run.value / 2 if self.corner else 0.0
        return self.side.on_wall(self.shape.in_plan(self.wall_place, x - middle, out))


def standings(plan: RoomPlan, inputs: Inputs) -> tuple[Standing, ...]:
    """Every pre-wall of a room, the first one first."""
    shape = shape_of(plan.survey, inputs)
    prewalls = (plan.design.prewall, *plan.design.further)
    _check_walls_named(plan, shape, inputs)
    check_places(plan.survey, shape, inputs)
    taken: Counter[str] = Counter()
    names: Counter[str] = Counter()
    made = []
    for place, prewall in enumerate(prewalls):
        at = "design.prewall" if place == 0 else f"design.further.{place - 1}"
        wall_place = _wall(prewall, shape, at, inputs)
        wall, wall_at = found_wall(plan.survey, wall_place)
        if wall_place and wall_at == "survey.wall":
            letter = shape.sides[wall_place].letter
            inputs.tell(
                "survey.walls", f"Wall {letter} has a pre-wall and is not described: it is taken to be as wall A. Add it to the walls"
            )
        name = _numbered(prewall.name.strip() or f"wall {shape.sides[wall_place].letter}", names)
        mark = _mark(inputs.path, shape.sides[wall_place].letter if place else "", taken)
        one = Standing(place, prewall, at, shape, wall_place, wall, wall_at, name if len(prewalls) > 1 else "", mark)
        made.append(_across(one, plan.survey, inputs) if prewall.stands == "across its left-hand corner" else one)
    return tuple(made)


def _across(one: Standing, survey: Survey, inputs: Inputs) -> Standing:
    """The same pre-wall across the corner; along its wall, told, where that corner is none to stand across."""
    side = one.shape.sides[one.wall_place]
    if not _NARROWEST <= side.angle <= _WIDEST:
        inputs.tell(
            f"{one.at}.stands", f"The corner is {side.angle:g}°: a pre-wall stands across corners of {_NARROWEST:g} to {_WIDEST:g}°"
        )
        return one
    before = found_wall(survey, (one.wall_place - 1) % len(one.shape.sides))
    corner, front = across_corner(side, inputs.sure(one.prewall, "setback", one.at), before)
    return replace(one, corner=corner, front=front)


_NARROWEST, _WIDEST = 60.0, 150.0


def _wall(prewall: PreWall, shape: Shape, at: str, inputs: Inputs) -> int:
    found = shape.place_of(prewall.wall)
    if found is None:
        inputs.tell(f"{at}.wall", f"The room has no wall {prewall.wall}: choose one of {_letters(shape)}. Until then it stands at wall A")
        return 0
    return found


def _check_walls_named(plan: RoomPlan, shape: Shape, inputs: Inputs) -> None:
    """Tell of what is put at a wall that there is not."""
    survey = plan.survey
    for name in ("openings", "slopes", "obstacles", "electrics", "entries"):
        for place, each in enumerate(getattr(survey, name)):
            if shape.place_of(each.wall) is None:
                words = f"The room has no wall {each.wall}: choose one of {_letters(shape)}. Until then it is left out"
                inputs.tell(f"survey.{name}.{place}.wall", words)
    for name in ("stack", "water"):
        letter = getattr(survey, name).wall
        if shape.place_of(letter) is None:
            words = f"The room has no wall {letter}: choose one of {_letters(shape)}. Until then it is reckoned at wall A and not drawn"
            inputs.tell(f"survey.{name}.wall", words)


def _letters(shape: Shape) -> str:
    return ", ".join(side.letter for side in shape.sides)


def _numbered(name: str, names: Counter[str]) -> str:
    names[name] += 1
    return name if names[name] == 1 else f"{name} ({names[name]})"


def _mark(path: str, letter: str, taken: Counter[str]) -> str:
    """What leads the marks of one pre-wall: nothing for the first of the first room, else "2.", "B.", "2B."; "B2." for another at it."""
    room = path.rpartition(".")[2]
    lead = str(int(room) + 1) if room.isdecimal() and int(room) else ""
    if letter:
        taken[letter] += 1
        letter = letter if taken[letter] == 1 else f"{letter}{taken[letter]}"
    return f"{lead}{letter}." if lead or letter else ""
