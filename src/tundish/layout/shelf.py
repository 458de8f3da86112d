"""The shelf on a pre-wall: as long as its front; a triangle across a corner; aslant where it meets another of them."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from tundish.figure import Figure, converted, largest, number, total
from tundish.layout.boards import Laid, Lay
from tundish.layout.clip import within
from tundish.layout.corner import Across, aslant
from tundish.layout.outline import Outline
from tundish.layout.walls import Point


def boarded(outline: Outline) -> tuple[Figure, Figure, Figure | None]:
    """Left edge and length of a shelf's boards, and their area, m², where they are cut to a mitre.

    They end at the boards of the pre-wall that goes into the corner. Across a corner the length is that of the triangle's long side.
    """
    standing, deep = outline.standing, outline.depth
    if standing.corner is not None:
        left = number(0, label="Left end of the front")
        return left, standing.corner.run, _triangle(outline, standing.corner, standing.corner.setback, (0.0, "Shelf, boarded"))
    left, length, boards = outline.run.start, outline.run.length, outline.covering.boards
    front_less, back_less = list[Figure](), list[Figure]()
    for place, (met, join) in enumerate(zip(standing.meets, standing.joins, strict=True)):
        more: Figure | None = None
        if met is not None and met.against is not None and not met.through:
            more = outline.on_to(met.against, met.against.back(boards), left=place == 0)
            back_less.append(met.against.shorter(deep))
        elif met is not None and not met.through:
            length = (length - boards.named(f"Boards of {met.name}")).named("Length of the shelf's boards")
            left = (left + boards).named("Left edge of boards") if place == 0 else left
        if join is not None:
            more = join.longer(deep)
            front_less.append(more)
        if more is not None:
            length = (length + more).named("Length of the shelf's boards, at its longest")
            left = (left - more).named("Left edge of boards, at its longest") if place == 0 else left
    return left, _least_nought(length), _cut_area(length, (front_less, back_less), deep, "Shelf, boarded")


def tiled(outline: Outline, deep: Figure) -> tuple[Figure, Figure]:
    """Length of a shelf as tiled, so deep, and its area, m².

    It ends at the tiles of the other pre-wall in a corner that stands higher or goes into it.
    """
    standing, thickness = outline.standing, outline.covering.thickness
    if standing.corner is not None:
        out = number(round(2 * math.tan(math.radians(standing.corner.half)), 6), "", "Walls part on both sides")
        whole = (standing.corner.run + (thickness * out).named("Wider at the face of the tiles")).named("Width as tiled")
        setback = standing.corner.setback + aslant(thickness, standing.corner.half).named("Covering, along the wall")
        area = _triangle(outline, standing.corner, setback, (thickness.value, "Shelf, tiled"))
        return whole, area
    length, front_less, back_less = outline.run.length, list[Figure](), list[Figure]()
    for place, (met, join) in enumerate(zip(standing.meets, standing.joins, strict=True)):
        if met is not None and not met.through and met.against is not None:
            length = length + outline.on_to(met.against, met.against.face(thickness), left=place == 0)
            back_less.append(met.against.shorter(deep))
        elif met is not None and not met.through:
            length = length - thickness
        if join is not None:
            length = length + join.longer(outline.depth)
            front_less += [join.longer(outline.depth), join.less(thickness)]
    length = _least_nought(length.named("Shelf as tiled"))
    cut = _cut_area(length, (front_less, back_less), deep, "Shelf, tiled")
    return length, cut if cut is not None else converted(length * deep, "m²", "Shelf, tiled")


def slants(outline: Outline, face: str, whole: Lay, piece: Laid) -> tuple[tuple[Point, Point], ...]:
    """Where a piece of the shelf, so laid out of the whole, is sawn aslant, from its corner: across a triangle, and to mitres."""
    found = (within(line, (piece.x, piece.z), (piece.width.value, piece.height.value)) for line in _aslant(outline, face, whole))
    return tuple(each for each in found if each is not None)


def _aslant(outline: Outline, face: str, whole: Lay) -> Iterator[tuple[Point, Point]]:
    """The lines that the rectangle round a shelf is sawn along, the wall at its foot."""
    if face != "shelf":
        return
    left, right, deep = whole.left.value, whole.left.value + whole.width.value, whole.height.value
    if outline.standing.corner is not None:
        yield (left, 0.0), (right, deep)
        return
    for met, join, x, way in zip(outline.standing.meets, outline.standing.joins, (left, right), (1, -1), strict=True):
        if join is not None:
            yield (x, 0.0), (x + way * join.longer(outline.depth).value, deep)
        elif met is not None and met.against is not None:
            yield (x + way * met.against.shorter(outline.depth).value, 0.0), (x, deep)


def _cut_area(length: Figure, less: tuple[Sequence[Figure], Sequence[Figure]], deep: Figure, label: str) -> Figure | None:
    """The area of a shelf, m², whose front and back edges are so much shorter than it is long; None where it is a rectangle."""
    if not any(less):
        return None
    front, back = (length - total(each, "Cut aslant") if each else length for each in less)
    return converted(((front + back) / 2).named("Half way between front and wall") * deep, "m²", label)


def _triangle(outline: Outline, corner: Across, setback: Figure, covered: tuple[float, str]) -> Figure:
    """The area of a shelf across a corner, m²: the triangle, less what of it lies past the mitres."""
    beyond, label = covered
    half = number(round(math.sin(math.radians(2 * corner.half)) / 2, 6), "", "Half, at the corner")
    whole = converted(setback * setback * half, "m²", label)
    for join in outline.standing.joins:
        if join is not None:
            deep = (join.deep + number(beyond, label="Covering")).named(f"{join.name}, wall to face") if beyond else join.deep
            tip = join.off_wall(deep) * deep * number(0.5, "", "A triangle")
            whole = (whole - converted(tip, "m²", f"Past the mitre with {join.name}")).named(label)
    return whole


def _least_nought(length: Figure) -> Figure:
    return length if length.low >= 0 else largest(length, number(0, label="None"), label=length.label)
