"""How far from the wall a discharge is laid, and the way it goes in three dimensions: round corners, over to the stack, down a drop."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.figure import Figure, largest, number, smallest
from tundish.layout.makers import half, size
from tundish.layout.outline import TIMBER, Outline
from tundish.layout.room import Outfall, Placed
from tundish.layout.walls import Fold

Place = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Lane:
    """Where a pipe lies between an appliance and where it drains to: `y` from the wall, the corners on its way, and what it is over by.

    `over` is how far out from there the stack stands, None where that takes no bend of its own; nought to so much while it may.
    """

    y: Figure
    corners: tuple[Fold, ...]
    over: Figure | None

    def round_corners(self, run: Figure, label: str, least: Figure) -> Figure:
        """A run along the walls, shorter by every inside corner, longer by every outside one and by the leg over to the stack."""
        for each in self.corners:
            run = run - (self.y * number(each.legs, "", "Both legs of the corner")).named("Round the corner")
        if self.over is not None:
            run = run + self.over
        return largest(run, least, label=label) if self.corners else run.named(label)


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
    label = f"From wall to middle of pipe, {one.name}"
    y = largest(least, smallest(outfall.from_wall, most, label="At the stack's own distance, or behind the frames"), label=label)
    return Lane(y, outline.standing.turns_between(*ends), _over(outfall, y, (least, largest(least, most, label=label)), book))


def way(lane: Lane, start: Place, outfall: Outfall, end: float, front: float) -> tuple[Place, ...]:
    """The route from the front of the frames back to the lane, along it round the corners, and over to the stack."""
    x, y, z = start
    to = outfall.from_left.value
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
