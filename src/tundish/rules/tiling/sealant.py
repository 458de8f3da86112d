"""The bead wherever tiles meet something that moves."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import Figure, converted, number, total
from tundish.layout.capping import Capping
from tundish.layout.room import Face, Placed, Room
from tundish.rules.faces import front_of, returns, shelf_of
from tundish.rules.rule import Asked, Need, rule


@rule(
    "tiling/sealant",
    figures=("tiling.sealant_ml_m", "tiling.sealant_ware"),
    source="a bead of 6 by 6 mm: millilitres a metre are its section in mm²",
    reads="needs",
)
def sealant(asked: Asked, book: Book) -> Iterator[Need]:
    """Where tiles meet floor, wall and ware there is a bead.

    Along the floor, up each end that meets a wall, along the back and the ends of the shelf, round the foot and the back of an open end,
    along the back and the front of a capping, its ends and its bed, behind each basin, and 600 round a WC, bidet or urinal. The corner
    of two pre-walls has one bead, as high as the lower of them; the higher has one above it. So has the join of a run with one across
    its corner, and a lower run where it stops against that.
    """
    metres = converted(total(_beads(asked.room, book), "Beads"), "m", "Beads")
    yield Need((metres * book.figure("tiling.sealant_ml_m")).named("Sealant"), "second fix", "floor, walls and ware", role="sealant")


def _beads(room: Room, book: Book) -> list[Figure]:
    front, shelf = front_of(room), shelf_of(room)
    floor = front.tiled_width.named("Along the floor")
    for _, deep, _ in front.hidden:
        floor = (floor - deep).named(floor.label)
    beads = [floor, *_up(room, front.tiled_height)]
    for end in returns(room):
        beads += [end.tiled_width.named(f"{end.name}, along the floor"), end.tiled_height.named(f"{end.name}, up the wall")]
    if shelf:
        beads += _along_shelf(room, shelf)
    if room.capping:
        beads += _under_capping(room, room.capping)
    return beads + [_at(one, book) for one in room.framed]


def _up(room: Room, height: Figure) -> Iterator[Figure]:
    """Up the ends that stand at a wall or at another pre-wall; of two in a corner, of the higher one only what is above the lower."""
    for closed, met, join in zip(room.at_wall, room.meets, room.joins, strict=True):
        if not closed or (met is not None and met.through and met.level) or (join is not None and room.corner is not None):
            continue
        hidden = met.hides if met is not None else None
        yield height.named("Up a wall") if hidden is None else (height - hidden).named(f"Up a wall, above {met.name if met else ''}")


def _along_shelf(room: Room, shelf: Face) -> Iterator[Figure]:
    """Along its back and its ends, but where it goes on as the shelf of another; of a triangle along both walls."""
    if room.corner is not None:
        back = room.corner.square(shelf.tiled_width).named("Back of the shelf, along both walls")
        for join in room.joins:
            if join is not None:
                back = (back - join.off_wall((join.deep + room.thickness).named("Wall to face"))).named(back.label)
        yield back
        return
    back = shelf.tiled_width.named("Back of the shelf")
    for met in room.meets:
        if met is not None and met.against is not None:
            back = (back - met.against.shorter(shelf.tiled_height)).named(back.label)
    yield back
    for closed, met, join in zip(room.at_wall, room.meets, room.joins, strict=True):
        if closed and join is None and not (met is not None and met.level and not met.through):
            against = met.against if met is not None else None
            deep = shelf.tiled_height if against is None else against.across(shelf.tiled_height)
            yield deep.named("End of the shelf")


def _under_capping(room: Room, capping: Capping) -> Iterator[Figure]:
    """Along its back and its front edge, its ends at a wall, and the two beads that it is bedded on."""
    yield (capping.length * number(4, "", "Back, front and two to bed it")).named("Along the capping")
    for closed, met, join in zip(room.at_wall, room.meets, room.joins, strict=True):
        if closed and join is None:
            against = met.against if met is not None and not met.through else None
            yield (capping.depth if against is None else against.across(capping.depth)).named("End of the capping")


def _at(one: Placed, book: Book) -> Figure:
    return (one.ware.size("width") if one.kind == "basin" else book.figure("tiling.sealant_ware")).named(f"At {one.name}")
