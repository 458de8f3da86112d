"""What is too heavy for one."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.figure import Figure, converted
from tundish.layout.room import Room
from tundish.measure import show_kg
from tundish.rules.rule import Caution, rule


@rule("safety/weights", figures=("safety.lift",), source="HSE INDG143, best case for one man close to the waist: a guideline, not a limit")
def weights(room: Room, book: Book) -> Iterator[Caution]:
    """What weighs more than 25 kg is lifted by two.

    Said for every frame, appliance and sheet of board that is heavier by its maker's sheet.
    """
    most = book.figure("safety.lift")
    heavy = [(item.name, weight) for item in _lifted(room) if (weight := _weight(item)) is not None and weight.value > most.value]
    if heavy:
        each = ", ".join(f"{name} {show_kg(weight.value)} kg" for name, weight in heavy)
        yield Caution(
            "Weights to lift", f"{each}. Lift it with two, or on a trolley: {show_kg(most.value)} kg is the HSE's guideline at best."
        )


def _lifted(room: Room) -> tuple[Item, ...]:
    items = [item for one in room.placed for item in (one.frame, one.ware)]
    return tuple({item.code: item for item in (*items, room.board)}.values())


def _weight(item: Item) -> Figure | None:
    """What one of it weighs; of a sheet of board, its weight by the square metre times its size."""
    if not item.has("weight"):
        return None
    weight = item.size("weight")
    if weight.unit == "kg":
        return weight
    if not (item.has("length") and item.has("width")):
        return None
    return converted(item.size("length") * item.size("width"), "m²") * weight
