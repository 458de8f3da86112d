"""Whether the floor bears the feet of the frames."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import Figure
from tundish.layout.room import Placed, Room
from tundish.measure import show_amount
from tundish.rules.feet import PLATE, asked_of_floor, borne, load, wants_plate
from tundish.rules.planning import FIRST
from tundish.rules.rule import Finding, judge, rule


@rule(
    "loads/feet",
    figures=("loads.wc", "loads.bidet", "loads.basin", "loads.urinal", "loads.floor_point", "loads.floor_point_side"),
    source="EN 1991-1-1 with the UK's annex, domestic floors: 2.0 kN on a square of 50, from memory; test loads as for the wall",
)
def feet(room: Room, book: Book) -> Iterator[Finding]:
    """The floor bears each foot of a frame under its appliance's test load, on a spreading plate where the foot alone is too small.

    The whole load with frame and ware, shared by the feet, against what a domestic floor is made to bear on a small square, in
    proportion to the area. Sheet floors and floorboards have a noggin under the foot, so that it is the boards that are asked, not how far
    they span; of screed it is asked too, as it may lie on insulation. The joists themselves are not worked out. A check for planning.
    """
    for one in room.framed if asked_of_floor(room) else ():
        yield _finding(room, book, one)


def _finding(room: Room, book: Book, one: Placed) -> Finding:
    title, has = "Load on each foot", load(book, one)
    if not one.frame.has("sole"):
        words = f"The maker's sheet of {one.frame.name} gives no size of its feet: enter it in the catalogue. {FIRST}"
        return Finding(title, "Loads and tiles", "cannot tell", has, "Maker", one.frame.sheet, message=words, place=one.name)
    most, words = borne(book, one.frame, "sole"), ""
    if wants_plate(room, book, one):
        plate = book.role(PLATE)
        words = f"{plate.name} under each: without it the floor bears {_kn(most)}. "
        most = borne(book, plate, "width")
    state = judge(has, None, most)
    if state != "passes":
        words = "Not even with the spreading plate: stand the feet on a larger plate of your own. "
    return Finding(title, "Loads and tiles", state, has, "Guidance", most.note, None, most, words + FIRST, one.name)


def _kn(figure: Figure) -> str:
    return show_amount(figure.value, figure.unit, with_unit=True)
