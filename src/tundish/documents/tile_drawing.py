"""Tiles drawn as they are set out: every tile to scale, cut ones with their size, and the holes through them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from tundish import measure
from tundish.documents.drawing import Box, Drawing, Ellipse, Mark, Shape, Words
from tundish.layout.clip import box, common
from tundish.layout.floor_plan import Stood
from tundish.layout.tile_cuts import cut_from
from tundish.layout.tile_starts import Choice
from tundish.layout.tiles import LaidTile, SetOut, Tiling, movement_joints
from tundish.layout.walls import Point

MOVEMENT: Final = 4_500.0
"""The most between movement joints on a wall: BS 5385-1, by way of the tile trade's guide."""
MOVEMENT_ON_FLOOR: Final = 8_000.0
"""The most between movement joints of a floor, both ways: BS 5385-3, 8 to 10 m, by way of the same guide."""
NEAR_EDGE: Final = 15.0
"""Tile left beside a hole under which it breaks out easily: from memory."""
ONE_BATCH: Final = "Buy all tiles of one batch, and mix the boxes as they are laid."
"""Said once for all walls."""
SIZE: Final = 2.2
LETTER: Final = 1.25
"""Height of the sizes and width of a figure in them, mm of paper."""
ACROSS: Final = 170.0
UP: Final = 145.0
"""About how wide and how high a face may be drawn on paper, mm."""
_NEAR: Final = 0.5
"""A tile lacking no more than this is not called cut."""


def tiles(laid: SetOut, *, sizes: bool = True) -> Drawing:
    """One face with its tiles: whole ones plain, cut ones with their size (unless the drawing is small), holes as circles."""
    plan = laid.face.plan
    edge = plan.walls if plan else laid.face.outline
    marks: list[Mark] = [Shape(edge, "ink", filled=False) if edge else Box(0, 0, laid.face.width, laid.face.height, "ink", filled=False)]
    letter = LETTER * max(laid.face.width / ACROSS, laid.face.height / UP)
    for tile in laid.tiles:
        marks.append(_edge(tile, laid.face.outline))
        marks += _size(tile, laid.tiling, letter) if sizes and tile.cut else ()
    marks += [Ellipse(hole.x, hole.z, hole.across / 2, hole.across / 2, "ink", filled=False) for hole in laid.face.holes]
    marks += [Box(gap.x, gap.z, gap.width, gap.height, "hidden", filled=False) for gap in laid.face.gaps]
    marks += _stands(plan.stands, letter, named=sizes) if plan else ()
    title = f"{laid.face.name}: {laid.start.name}" if laid.start.name else laid.face.name
    return Drawing(title, tuple(marks), _extent(laid))


def ends(choice: Choice) -> str:
    """The end cuts of the first face and the smallest cut of all, in words."""
    left, right = (measure.show_length(end) for end in choice.faces[0].ends)
    smallest = measure.show_length(choice.smallest)
    return f"{choice.faces[0].face.name}: end tiles {left} and {right}. Smallest cut of all {smallest} mm."


def counted(choice: Choice) -> str:
    """How many tiles a start takes, in words, before breakage."""
    whole = sum(each.whole for each in choice.faces)
    cuts = [(tile.width, tile.height) for each in choice.faces for tile in each.cuts]
    taken = cut_from(cuts, choice.faces[0].tiling)
    return f"{whole} whole, {len(cuts)} cut from {taken}: {whole + taken} tiles before breakage"


def notes(choice: Choice) -> Iterator[str]:
    """What else is to be seen to on these faces: movement joints, and holes near an edge."""
    for each in choice.faces:
        if each.face.plan:
            yield from _floor_notes(each)
            continue
        places = movement_joints(each.face.width, each.tiling, each.start.x, MOVEMENT)
        if places:
            where = ", ".join(measure.show_length(place) for place in places)
            on = "on tile joints of one course in two, the others cut there" if each.tiling.shift else "on tile joints"
            yield f"{each.face.name}: movement joints {where} mm from its left, {on}, and in the corners (BS 5385-1)."
    near = [f"{name} in {tile}" for name, tile in _near_edges(choice)]
    if near:
        yield f"Holes nearer than {measure.show_length(NEAR_EDGE)} mm to a tile's edge: {'; '.join(near)}. Drill before cutting, slowly."


def _floor_notes(laid: SetOut) -> Iterator[str]:
    """Movement joints of a floor: round it, and where it is long, across it."""
    across, up = laid.tiling, Tiling(laid.tiling.height, laid.tiling.width, laid.tiling.joint)
    ways = ((laid.face.width, across, laid.start.x, "its left"), (laid.face.height, up, laid.start.z, "its side away from wall A"))
    for length, tiling, start, side in ways:
        places = movement_joints(length, tiling, start, MOVEMENT_ON_FLOOR)
        if places:
            where = ", ".join(measure.show_length(place) for place in places)
            yield f"Floor: movement joints {where} mm from {side} (BS 5385-3)."
    yield (
        "Floor: tiles stop short of walls and of what stands there, and the gap is filled with sealant (BS 5385-3); movement joints of "
        "the screed, and where heated and unheated floor meet, run on through the tiles."
    )


def spoilt(choice: Choice) -> Iterator[str]:
    """What a start spoils, the holes that it leaves near a tile's edge with it."""
    yield from choice.spoils
    near = dict.fromkeys(name for name, _ in _near_edges(choice))
    if near:
        yield f"Holes nearer than {measure.show_length(NEAR_EDGE)} mm to a tile's edge: {', '.join(near)}"


def _near_edges(choice: Choice) -> Iterator[tuple[str, str]]:
    """The holes with too little of their tile beside them, each with its tile."""
    for each in choice.faces:
        yield from ((name, tile) for name, tile, _, _, edge in drilled(each) if 0 <= edge < NEAR_EDGE)


def told(choice: Choice) -> str:
    """A start in words: what it is, its smallest cut, and what it spoils."""
    spoils = "; ".join(spoilt(choice)) or "spoils nothing"
    return f"{choice.start.name}: smallest cut {measure.show_length(choice.smallest)} mm; {spoils}"


def drilled(laid: SetOut) -> Iterator[tuple[str, str, float, float, float]]:
    """Every hole in a tile: hole, which tile, from its left, from its foot, and what is left to its edge, mm.

    Courses are counted from the foot of the face and tiles from its left, as the fitter counts them.
    """
    placed = laid.tiles
    for one in laid.drilled:
        tile = placed[one.tile]
        course = tile.row - laid.rows[0].number + 1
        across = tile.column - laid.columns[tile.row % 2][0].number + 1
        yield one.hole.name, f"course {course}, tile {across}", one.x, one.z, one.edge


def _edge(tile: LaidTile, outline: Sequence[Point]) -> Mark:
    """The edge of a tile; where its face is no rectangle, cut off by that."""
    if not outline:
        return Box(tile.x, tile.z, tile.width, tile.height, "tile", filled=False)
    within = box(tile.x, tile.x + tile.width, tile.z, tile.z + tile.height)
    return Shape(common(outline, within), "tile", filled=False)


def _stands(stands: Sequence[Stood], letter: float, *, named: bool) -> Iterator[Mark]:
    """What the tiles go round, each with its name, where names are asked for, along its longer side if it has room for it."""
    for name, foot in stands:
        yield Shape(foot, "hidden")
        xs, zs = [x for x, _ in foot], [z for _, z in foot]
        wide, high = max(xs) - min(xs), max(zs) - min(zs)
        if named and len(name) * letter < max(wide, high):
            yield Words((min(xs) + max(xs)) / 2, (min(zs) + max(zs)) / 2, name, SIZE, turned=high > wide)


def _extent(laid: SetOut) -> tuple[float, float, float, float]:
    """The face with a margin; of a floor the room about it, walls and all."""
    plan = laid.face.plan
    corners = (*plan.walls, *(place for each in plan.stands for place in each.foot)) if plan else ()
    places = (*corners, (0.0, 0.0), (laid.face.width, laid.face.height))
    left, foot = min(x for x, _ in places) - 20, min(z for _, z in places) - 20
    return left, foot, max(x for x, _ in places) + 20 - left, max(z for _, z in places) + 20 - foot


def _size(tile: LaidTile, tiling: Tiling, letter: float) -> Iterator[Words]:
    """The size of a cut tile along its longer side; where that is too short for it, only what is cut; or nothing."""
    width, height = measure.show_length(tile.width), measure.show_length(tile.height)
    only = height if tile.height < tiling.height - _NEAR else width
    room, turned = max(tile.width, tile.height), tile.width < tile.height
    for words, upright in ((f"{width} × {height}", turned), (only, False)):
        if len(words) * letter < (room if upright == turned else tile.width):
            yield Words(tile.x + tile.width / 2, tile.z + tile.height / 2, words, SIZE, turned=upright)
            return
