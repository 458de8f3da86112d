"""What the feet of a frame bring to the floor, and what a floor bears on so small a place."""

from __future__ import annotations

from typing import Final

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.figure import Figure, converted
from tundish.layout.once import once
from tundish.layout.room import Placed, Room
from tundish.rules.amounts import bare

PLATE: Final = "spreader plate"
"""The role of the plate that is laid under a foot."""


def asked_of_floor(room: Room) -> bool:
    """Whether the floor under the feet is of sheets, boards or screed: concrete bears any foot, and deep feet are feet of their own."""
    return room.plan.survey.floor.kind != "concrete" and not room.self_standing


@once
def load(book: Book, one: Placed) -> Figure:
    """What each foot brings, kN: the test load, frame and ware, shared by the feet; the wall takes nothing of the weight."""
    hung = book.figure(f"loads.{one.kind}")
    for item in (one.frame, one.ware):
        hung += converted(item.size("weight"), "kN")
    return (hung.named(f"Test load, frame and ware of {one.name}") / bare(one.frame.size("feet"))).named(f"Load on each foot of {one.name}")


@once
def borne(book: Book, under: Item, size: str) -> Figure:
    """What the floor bears under a square with this size of an item as its side: the published point load, on its published square."""
    side = under.size(size)
    point, on = book.figure("loads.floor_point"), book.figure("loads.floor_point_side")
    return (point * (side * side) / (on * on)).named(f"Borne under {side.value:g} × {side.value:g}", point.note)


def wants_plate(room: Room, book: Book, one: Placed) -> bool:
    """Whether the feet of a frame alone bring more than the floor bears under them; not where the frame's sheet does not say their size."""
    return asked_of_floor(room) and one.frame.has("sole") and load(book, one).high > borne(book, one.frame, "sole").value
