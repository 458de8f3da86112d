"""The surfaces of a pre-wall: front, shelf, returns at free ends; as boarded and as tiled."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from tundish import measure
from tundish.catalogue.book import Book
from tundish.figure import Figure, converted, largest, number
from tundish.layout.boards import Laid, Lay, lay, sheet_of
from tundish.layout.depths import Covering, finished_face
from tundish.layout.outline import Outline
from tundish.layout.recesses import Recess
from tundish.layout.room import Face, Piece


def faces(outline: Outline, supports: Sequence[Figure], book: Book) -> tuple[Face, ...]:
    """Every surface of one pre-wall with its pieces of board, B1, B2… through all of them."""
    sheet = sheet_of(outline.board, book)
    count = 0
    made = []
    for face, on, corner in _surfaces(outline, supports, book):
        boards = []
        for layer in range(1, outline.covering.layers + 1):
            where = face.name if outline.covering.layers == 1 else f"{face.name}, layer {layer}"
            for piece in lay(_lay(outline, face, corner[0]), sheet, on):
                count += 1
                x, z = piece.x, corner[1] + piece.z
                cut_out = _ACROSS if _triangle(outline, face) else _cut_out(outline, face, piece, (x, z))
                boards.append(Piece(f"B{count}", piece.width, piece.height, where + cut_out, x, z))
        made.append(replace(face, boards=tuple(boards)))
    return tuple(made)


_ACROSS = ", sawn corner to corner into its two halves"


def _triangle(outline: Outline, face: Face) -> bool:
    return outline.standing.corner is not None and face.key == "shelf"


def _lay(outline: Outline, face: Face, left: Figure) -> Lay:
    """What is laid of a face; a triangle as the rectangle that its two halves come from."""
    if not _triangle(outline, face):
        return Lay(face.width, face.height, left)
    return Lay((face.width / 2).named("Half of the triangle"), face.height, left)


def _surfaces(outline: Outline, supports: Sequence[Figure], book: Book) -> Iterator[tuple[Face, Sequence[Figure], tuple[Figure, float]]]:
    """Each surface, what joints in it land on, and its lower left corner."""
    run, gap = outline.run, book.figure("boards.floor_gap")
    height = _least_nought(_board_height(outline, gap))
    tiled = _least_nought(outline.tops.above_floor)
    left, boarded, wide = _seen(outline)
    front = _face("front", "Front", (boarded, height), (wide, tiled))
    yield _unhidden(_opened(front, outline.recesses), outline), supports, (left, gap.value)
    deep = finished_face(outline.depth, outline.covering.thickness)
    if outline.shelf:
        starts, long = (run.start, boarded) if outline.standing.corner else _shelf_boarded(outline)
        yield _shelf(outline, (long, wide), deep), supports, (starts, 0.0)
    for side, free in zip(("left", "right"), (not at for at in run.at_wall), strict=True):
        if free:
            face = _face(f"return-{side}", f"{side.capitalize()} return", (outline.depth, height), (deep, tiled))
            yield face, (), (number(0, label="Face of wall A"), gap.value)
    for recess in outline.recesses:
        for face in reveals(recess, outline.covering):
            yield face, (), (number(0, label="Edge of the niche"), 0.0)


def reveals(recess: Recess, covering: Covering) -> Iterator[Face]:
    """The inside of a niche: two sides as high as its opening, sill and head between them, and the back behind all four."""
    if recess.depth is None:
        return
    name, deep = recess.name, recess.depth
    between = (recess.open_width - covering.boards - covering.boards).named(f"{name}, between its sides")
    for side in ("left", "right"):
        yield _face(f"{recess.key}-{side}", f"{name}, {side} side", (deep, recess.open_height), (deep, recess.height))
    for level in ("sill", "head"):
        yield _face(f"{recess.key}-{level}", f"{name}, {level}", (between, deep), (recess.width, deep))
    yield _face(f"{recess.key}-back", f"{name}, back", (recess.open_width, recess.open_height), (recess.width, recess.height))


def _opened(front: Face, recesses: Sequence[Recess]) -> Face:
    """The front with its openings off what is tiled; a hatch that takes tiles is tiled over."""
    area = front.tiled_area
    for each in recesses:
        if each.hatch is None or not each.hatch.has("tile"):
            area = (area - converted(each.width * each.height, "m²", each.name)).named(area.label)
    return replace(front, tiled_area=_no_less(area))


def _no_less(area: Figure) -> Figure:
    return area if area.low >= 0 else largest(area, number(0, "m²", "None"), label=area.label)


def _unhidden(front: Face, outline: Outline) -> Face:
    """The front with what a lower pre-wall in its corner hides off what is tiled."""
    area, hidden = front.tiled_area, []
    for place, met in enumerate(outline.standing.meets):
        if met is not None and met.hides is not None:
            deep = finished_face(met.depth, outline.covering.thickness)
            area = (area - converted(deep * met.hides, "m²", f"Behind {met.name}")).named(area.label)
            hidden.append((place, deep, met.hides))
    return replace(front, tiled_area=_no_less(area), hidden=tuple(hidden))


def _behind_lower(outline: Outline) -> Iterator[tuple[float, float, float, str]]:
    """Left, right and top of the steel of each lower pre-wall that stands against the front, and its name: boards are cut out round it."""
    under = outline.covering.thickness.value
    for place, met in enumerate(outline.standing.meets):
        if met is not None and met.hides is not None:
            deep, start, end = met.depth.value, outline.run.start.value, outline.run.end.value
            top = outline.finished_floor.value + met.hides.value - under
            yield (start, start + deep, top, met.name) if place == 0 else (end - deep, end, top, met.name)


def _cut_out(outline: Outline, face: Face, piece: Laid, corner: tuple[float, float]) -> str:
    """What is cut out of a piece of the front, in words: openings with their place from its left edge and its foot."""
    if face.key != "front":
        return ""
    right, head, words = corner[0] + piece.width.value, corner[1] + piece.height.value, ""
    for left, over, top, name in _behind_lower(outline):
        low, wide = max(left, corner[0]), min(over, right) - max(left, corner[0])
        if wide > 0 and min(top, head) > corner[1]:
            sizes = f"{measure.show_length(wide)} × {measure.show_length(min(top, head) - corner[1])}"
            words += f"; cut out {sizes} for {name}, {measure.show_length(low - corner[0])} in, 0 up"
    for each in outline.recesses:
        low, foot = max(each.open_left.value, corner[0]), max(each.open_foot.value, corner[1])
        wide, high = min(each.open_right.value, right) - low, min(each.open_head.value, head) - foot
        if wide > 0 and high > 0:
            sizes = " × ".join(measure.show_length(size) for size in (wide, high))
            at = f"{measure.show_length(low - corner[0])} in, {measure.show_length(foot - corner[1])} up"
            words += f"; cut out {sizes} for {each.name}, {at}"
    return words


def _board_height(outline: Outline, gap: Figure) -> Figure:
    """From the gap at the floor to the top of steel; where the floor falls away, down to its lowest, to be scribed."""
    height = outline.tops.steel - gap
    most = outline.level.most(outline.run.start.value, outline.run.end.value)
    return (height if most is None else height + most).named("Height of boards")


def _seen(outline: Outline) -> tuple[Figure, Figure, Figure]:
    """Left edge and width of the front's boards, and its width as tiled: less what another pre-wall in a corner covers of it.

    Of the one that goes into the corner, what the other hides is not boarded twice where both are as high; the other's boards and tiles
    start at the face of the first's.
    """
    run, covering, corner = outline.run, outline.covering, outline.standing.corner
    if corner is not None:
        out = number(round(2 * math.tan(math.radians(corner.half)), 6), "", "Walls part on both sides")
        wider = (covering.thickness * out).named("Wider at the face of the tiles")
        return number(0, label="Left end of the front"), corner.run, (corner.run + wider).named("Width as tiled")
    left, boarded, tiled = run.start, run.length, run.length
    for place, met in enumerate(outline.standing.meets):
        if met is None or (met.through and not met.level):
            continue
        boards = met.depth if met.through else covering.boards
        boarded = (boarded - boards.named(f"Behind {met.name}" if met.through else f"Boards of {met.name}")).named("Width of boards")
        over = finished_face(met.depth, covering.thickness) if met.through else covering.thickness
        tiled = (tiled - over.named(f"Behind {met.name}" if met.through else f"Covering of {met.name}")).named("Width as tiled")
        if place == 0:
            left = (left + boards).named("Left edge of boards")
    return left, _least_nought(boarded), _least_nought(tiled)


def _shelf(outline: Outline, wide: tuple[Figure, Figure], deep: Figure) -> Face:
    """The shelf, as wide as boarded and as tiled; across a corner a triangle, cut out of the rectangle round it."""
    if outline.standing.corner is None:
        return _face("shelf", "Shelf", (wide[0], outline.depth), (_shelf_tiled(outline), deep))
    whole = _face("shelf", "Shelf, a triangle", (wide[0], outline.depth), (wide[1], deep))
    return replace(whole, tiled_area=(whole.tiled_area * number(0.5, "", "Half of the rectangle")).named("Shelf, tiled"))


def _shelf_boarded(outline: Outline) -> tuple[Figure, Figure]:
    """Left edge and length of a shelf's boards: they end at the boards of the pre-wall that goes into the corner."""
    left, length, boards = outline.run.start, outline.run.length, outline.covering.boards
    for place, met in enumerate(outline.standing.meets):
        if met is not None and not met.through:
            length = (length - boards.named(f"Boards of {met.name}")).named("Length of the shelf's boards")
            left = (left + boards).named("Left edge of boards") if place == 0 else left
    return left, _least_nought(length)


def _shelf_tiled(outline: Outline) -> Figure:
    """A shelf ends at the tiles of the other pre-wall in a corner that stands higher or goes into it."""
    length = outline.run.length
    for met in outline.standing.meets:
        if met is not None and not met.through:
            length = (length - outline.covering.thickness).named("Shelf as tiled")
    return _least_nought(length)


def _face(key: str, name: str, boarded: tuple[Figure, Figure], tiled: tuple[Figure, Figure]) -> Face:
    area = converted(tiled[0] * tiled[1], "m²", f"{name}, tiled")
    return Face(key, name, *boarded, *tiled, area, ())


def _least_nought(height: Figure) -> Figure:
    return height if height.low >= 0 else largest(height, number(0, label="None"), label=height.label)
