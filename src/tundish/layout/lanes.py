"""How far from the wall a discharge is laid, and the way it goes in three dimensions: round corners, over to the stack, down a drop."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.figure import Figure, largest, number, smallest
from tundish.layout.corner import Across
from tundish.layout.makers import half, size
from tundish.layout.outline import TIMBER, Outline
from tundish.layout.room import Outfall, Placed
from tundish.layout.standing import Standing
from tundish.layout.walls import Fold

Place = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Lane:
    """Where a pipe lies between an appliance and where it drains to: `y` from the wall, the corners on its way, and what it is over by.

    `over` is how far out from there the stack stands, None where that takes no bend of its own; nought to so much while it may.
    `past`: where it goes on along a wall from behind a front across a corner, whose `y` is out of that corner.
    """

    y: Figure
    corners: tuple[Fold, ...]
    over: Figure | None
    past: Past | None = None

    def round_corners(self, run: Figure, label: str, least: Figure) -> Figure:
        """A run along the walls, shorter by every inside corner, longer by every outside one and by the leg over to the stack."""
        if self.past is not None:
            run = run - self.past.shorter(self.y)
        along = self.past.y if self.past is not None else self.y
        for each in self.corners:
            run = run - (along * number(each.legs, "", "Both legs of the corner")).named("Round the corner")
        if self.over is not None:
            run = run + self.over
        return largest(run, least, label=label) if self.corners or self.past is not None else run.named(label)

    @property
    def turns(self) -> int:
        """How many corners it goes round."""
        return len(self.corners) + (self.past is not None)


@dataclass(frozen=True, slots=True)
class Past:
    """A pipe that leaves the void across a corner along one of its walls, `y` from it; in the corner it goes along the front."""

    y: Figure
    standing: Standing
    corner: Across

    def shorter(self, out: Figure) -> Figure:
        """How much shorter than along the wall from the corner it is, for a lane so far out of the corner."""
        turn = math.radians(self.corner.half)
        cut = number(round((1 - math.sin(turn)) / math.cos(turn), 6), "", "Cut across the corner")
        return ((out + self.y) * cut).named("Across the corner")

    def aside(self, out: float) -> float:
        """How far beside the middle of the front it turns along the wall, for a lane so far out of the corner."""
        turn = math.radians(self.corner.half)
        return out * math.tan(turn) - self.y.value / math.cos(turn)


def lane_of(outline: Outline, placed: tuple[Placed, ...], one: Placed, outfall: Outfall, pipe: Item, book: Book) -> Lane:
    """Where a pipe from one appliance is laid: at the stack's own distance from the wall, as far as clip and frames leave room."""
    radius = half(pipe, "diameter", "Half of the pipe")
    least = (book.figure("void.clip") + radius).named("Nearest to the wall, on its clip")
    ends = sorted((one.centre.value, outfall.from_left.value))
    passed = [each for each in placed if each is one or (each.left < ends[1] and each.right > ends[0])]
    depths = [size(each.frame, "depth", f"Frame of {each.name}") for each in passed if each.frame.has("depth")]
    steel = book.role(TIMBER) if outline.timber else outline.strut
    deepest = largest(*depths, size(steel, "depth", "Uprights"), label="Deepest that it passes behind")
    most = (outline.depth - deepest - book.figure("void.finger") - radius).named("Furthest out, behind the frames")
    label, corner = f"From wall to middle of pipe, {one.name}", outline.standing.corner
    if corner is not None and not corner.holds(outfall.from_left.value, outfall.from_wall.value):
        y = largest(corner.square(least), most, label=label)
        behind = corner.off_walls(y).named("Off the wall, behind the middle of the front")
        at = smallest(largest(least, outfall.from_wall, label="At the stack's own distance"), behind, label="From the wall past the corner")
        over = _over(outfall, at, (least, largest(least, behind, label=label)), book)
        return Lane(y, outline.standing.turns_between(*ends), over, Past(at, outline.standing, corner))
    if corner is not None:
        least = corner.off_wall(outfall.from_left, least)
    y = largest(least, smallest(outfall.from_wall, most, label="At the stack's own distance, or behind the frames"), label=label)
    return Lane(y, outline.standing.turns_between(*ends), _over(outfall, y, (least, largest(least, most, label=label)), book))


def way(lane: Lane, start: Place, outfall: Outfall, end: float, front: float) -> tuple[Place, ...]:
    """The route from the front of the frames back to the lane, along it round the corners, and over to the stack."""
    x, y, z = start
    to = outfall.from_left.value
    if lane.past is not None:
        return ((x, front, z), *_past(lane.past, lane, start, outfall, end))
    return (
        (x, front, z),
        (x, y, z),
        *round_corners(lane, start, to, end),
        (to, y, end),
        *(((to, outfall.from_wall.value, end),) if abs(outfall.from_wall.value - y) > _TOUCHES else ()),
    )


def round_corners(lane: Lane, start: Place, to: float, end: float) -> Iterator[Place]:
    """Both sides of every corner on the way, its height in the proportion of the way to there."""
    x, y, z = start
    ahead = 1 if to > x else -1
    for fold in lane.corners if ahead > 0 else reversed(lane.corners):
        leg = y * fold.legs / 2
        height = z + (end - z) * abs(fold.x - x) / abs(to - x)
        yield (fold.x - ahead * leg, y, height)
        yield (fold.x + ahead * leg, y, height)


def _past(past: Past, lane: Lane, start: Place, outfall: Outfall, end: float) -> Iterator[Place]:
    """Along the front to where it turns, then along the wall and round what corners there are to the stack."""
    x, y, z = start
    to = outfall.from_left.value
    ahead, far = (1 if to > x else -1), past.y.value
    yield start
    aside = abs(past.aside(y))
    yield x + ahead * past.aside(y), y, z + (end - z) * (aside / abs(to - x) if aside < abs(to - x) else 1.0)
    along = replace(lane, y=past.y, past=None)
    over = ((to, outfall.from_wall.value, end),) if abs(outfall.from_wall.value - far) > _TOUCHES else ()
    for place, out, height in (*round_corners(along, (x, far, z), to, end), (to, far, end), *over):
        yield (*past.standing.from_front(place, out), height)


def _over(outfall: Outfall, y: Figure, limits: tuple[Figure, Figure], book: Book) -> Figure | None:
    """How far over to where it enters, from a lane between its nearest and its furthest, for everything that is still open."""
    swing = book.figure("drainage.swing").value
    off = _off(outfall.from_wall, y, *limits).named("Over to where it enters")
    if off.high <= swing or off.low > swing:
        return None if off.high <= swing else off
    needed = replace(number(float(off.value > swing), "", "A bend and a leg over, or none"), low=0.0, high=1.0, tbc=True)
    return (off * needed).named("Over to where it enters")


def _off(stack: Figure, y: Figure, nearest: Figure, furthest: Figure) -> Figure:
    if stack.low >= furthest.high:
        return stack - y
    if stack.high <= nearest.low:
        return y - stack
    return largest(stack - furthest, nearest - stack, number(0, label="The lane goes there itself"))


_TOUCHES = 0.5
