"""The surfaces of a pre-wall: front, shelf, returns at free ends; as boarded and as tiled."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from tundish import measure
from tundish.catalogue.book import Book
from tundish.figure import Figure, converted, largest, number
from tundish.layout import shelf
from tundish.layout.boards import Laid, Lay, Shun, lay, sheet_of
from tundish.layout.corner import Across
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
        boards: list[Piece] = []
        shun = Shun(_sides_of_openings(outline) if face.key == "front" else ())
        for layer in range(1, outline.covering.layers + 1):
            where = face.name if outline.covering.layers == 1 else f"{face.name}, layer {layer}"
            laid = _lay(outline, face, corner[0])
            pieces = tuple(lay(laid, sheet, on, shun))
            shun = replace(shun, behind=tuple({piece.x for piece in pieces}) if layer % 2 else ())
            for piece in pieces:
                count += 1
                x, z = piece.x, corner[1] + piece.z
                slants = shelf.slants(outline, face.key, laid, piece)
                whole = piece.width.value == laid.width.value and piece.height.value == laid.height.value
                cut_out = _halved(laid, whole=whole) if slants and _triangle(outline, face) else _cut_out(outline, face, piece, (x, z))
                cut_out += _mitred(outline, face, (x, x + piece.width.value))
                boards.append(Piece(f"B{count}", piece.width, piece.height, where + cut_out, x, z, slants, layer))
        made.append(replace(face, boards=tuple(boards)))
    return tuple(made)


def _sides_of_openings(outline: Outline) -> tuple[float, ...]:
    return tuple(side.value for each in outline.recesses for side in (each.open_left, each.open_right))


def _halved(laid: Lay, *, whole: bool) -> str:
    """How the rectangle that the two halves of a triangle come from is sawn; where a sheet does not give it whole, with its size."""
    if whole:
        return ", sawn corner to corner into its two halves"
    return (
        f"; of {measure.show_length(laid.width.value)} × {measure.show_length(laid.height.value)} sawn corner to corner into its two halves"
    )


def _triangle(outline: Outline, face: Face) -> bool:
    return outline.standing.corner is not None and face.key == "shelf"


def _mitred(outline: Outline, face: Face, ends: tuple[float, float]) -> str:
    """What of a piece of front or shelf, from one end to the other, is cut to a mitre with what its face goes on into, in words."""
    if face.key not in {"front", "shelf"}:
        return ""
    at_ends = ends[0] <= outline.run.start.value + _NEAR, ends[1] >= outline.run.end.value - _NEAR
    words = ""
    for met, at_end, side in zip(outline.standing.meets, at_ends, ("left", "right"), strict=True):
        if met is not None and met.against is not None and not met.through and at_end:
            edge = "edge bevelled" if face.key == "front" else "end cut"
            words += f"; {side} {edge} {met.against.cut} to {met.name}"
    for join, at_end, side in zip(outline.standing.joins, at_ends, ("left", "right"), strict=True):
        if join is not None and face.key == "front" and at_end:
            words += f"; {side} edge bevelled {join.cut} to {join.name}"
        elif join is not None and face.key == "shelf" and (at_end or outline.standing.corner is not None):
            words += f"; {side} end mitred {join.cut} to {join.name}"
    return words


_NEAR = 1.0


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
    left, boarded, tiled_left, wide = _seen(outline)
    front = replace(_face("front", "Front", (boarded, height), (wide, tiled)), tiled_left=tiled_left)
    yield _unhidden(_opened(front, outline.recesses), outline), supports, (left, gap.value)
    deep = finished_face(outline.depth, outline.covering.thickness)
    if outline.shelf:
        face, starts = _shelf(outline, deep)
        yield face, supports, (starts, 0.0)
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
            deep = met.against.across(deep) if met.against is not None else deep
            area = (area - converted(deep * met.hides, "m²", f"Behind {met.name}")).named(area.label)
            hidden.append((place, deep, met.hides))
    return replace(front, tiled_area=_no_less(area), hidden=tuple(hidden))


def _behind_lower(outline: Outline) -> Iterator[tuple[float, float, float, str]]:
    """Left, right and top of the steel of each lower pre-wall that stands against the front, and its name: boards are cut out round it."""
    under = outline.covering.thickness.value
    for place, met in enumerate(outline.standing.meets):
        if met is not None and met.hides is not None:
            deep, start, end = met.depth.value, outline.run.start.value, outline.run.end.value
            if outline.standing.corner is not None and met.against is not None:
                deep, start, end = met.against.along.value, 0.0, outline.standing.corner.run.value
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


def _seen(outline: Outline) -> tuple[Figure, Figure, Figure, Figure]:
    """Left edge and width of the front's boards, and of its tiles: less what another pre-wall in a corner covers of it.

    Of the one that goes into the corner, what the other hides is not boarded twice where both are as high; the other's boards and tiles
    start at the face of the first's. Where fronts go on into one another, boards and tiles are cut to the mitre, their long edge at the
    back.
    """
    if outline.standing.corner is not None:
        return _seen_across(outline, outline.standing.corner)
    run, covering = outline.run, outline.covering
    left, boarded, tiled_left, tiled = run.start, run.length, run.start, run.length
    for place, met in enumerate(outline.standing.meets):
        if met is None or (met.through and not met.level):
            continue
        if met.against is not None:
            over, faced = (
                outline.on_to(met.against, met.against.face(each), left=place == 0) for each in (covering.boards, covering.thickness)
            )
            boarded = (boarded + over).named("Width of boards")
            tiled = (tiled + faced).named("Width as tiled")
            if place == 0:
                left, tiled_left = (left - over).named("Left edge of boards"), (tiled_left - faced).named("Left edge of tiles")
            continue
        boards = met.depth if met.through else covering.boards
        boarded = (boarded - boards.named(f"Behind {met.name}" if met.through else f"Boards of {met.name}")).named("Width of boards")
        over = finished_face(met.depth, covering.thickness) if met.through else covering.thickness
        tiled = (tiled - over.named(f"Behind {met.name}" if met.through else f"Covering of {met.name}")).named("Width as tiled")
        if place == 0:
            left, tiled_left = (left + boards).named("Left edge of boards"), (tiled_left + over).named("Left edge of tiles")
    for place, join in enumerate(outline.standing.joins):
        if join is not None:
            over = join.less(covering.thickness)
            tiled = (tiled - over).named("Width as tiled")
            tiled_left = (tiled_left + over).named("Left edge of tiles") if place == 0 else tiled_left
    return left, _least_nought(boarded), tiled_left, _least_nought(tiled)


def _seen_across(outline: Outline, corner: Across) -> tuple[Figure, Figure, Figure, Figure]:
    """Of a front across a corner: from wall to wall, wider at the face of the tiles; to where it goes on into a run along a wall."""
    none, thickness, joins = number(0, label="Left end of the front"), outline.covering.thickness, outline.standing.joins
    parts = number(round(math.tan(math.radians(corner.half)), 6), "", "Walls part beside it")
    left = joins[0].along.named("Left edge of boards") if joins[0] is not None else none
    boarded = corner.run
    for join in joins:
        boarded = (boarded - join.along).named("Width of boards") if join is not None else boarded
    tiled, tiled_left = boarded, left
    for place, join in enumerate(joins):
        by = join.less(thickness) if join is not None else (thickness * parts).named("Wider at the face of the tiles")
        tiled = (tiled + by if join is None else tiled - by).named("Width as tiled")
        if place == 0:
            tiled_left = tiled_left - by if join is None else tiled_left + by
    return left, _least_nought(boarded), tiled_left.named("Left edge of tiles"), _least_nought(tiled)


def _shelf(outline: Outline, deep: Figure) -> tuple[Face, Figure]:
    """The shelf as boarded and as tiled, and where its boards begin; across a corner a triangle, cut out of the rectangle round it."""
    starts, long, area = shelf.boarded(outline)
    wide, tiled = shelf.tiled(outline, deep)
    name = "Shelf" if outline.standing.corner is None else "Shelf, a triangle"
    whole = _face("shelf", name, (long, outline.depth), (wide, deep))
    return replace(whole, tiled_area=tiled, area=area), starts


def _face(key: str, name: str, boarded: tuple[Figure, Figure], tiled: tuple[Figure, Figure]) -> Face:
    area = converted(tiled[0] * tiled[1], "m²", f"{name}, tiled")
    return Face(key, name, *boarded, *tiled, area, ())


def _least_nought(height: Figure) -> Figure:
    return height if height.low >= 0 else largest(height, number(0, label="None"), label=height.label)
