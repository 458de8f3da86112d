"""What is soft between pre-wall and house: how many pads its frames stand and lean on, and how much strip lies under the rest."""

from __future__ import annotations

from collections.abc import Sequence

from tundish.catalogue.book import Book
from tundish.figure import Figure, between
from tundish.layout.design import BY_RULE
from tundish.layout.room import Member, Placed, Room
from tundish.rules.members import FLOOR_RAIL, UPRIGHT, WALL_TIE, marked


def pads_of(room: Room, one: Placed) -> tuple[Figure, str]:
    """How many pads a frame would take, and where; none or so many where it turns on what is not decided whether it takes any."""
    amount, what = one.frame.size("feet"), "feet"
    if one in room.tied:
        amount, what = amount + one.frame.size("brackets"), "feet and brackets"
    if one.choice.pads == BY_RULE:
        amount = between(amount.value, 0.0, amount.high, amount.unit)
    return amount.named(f"{what.capitalize()} of {one.name}"), what


def strips_of(room: Room, book: Book) -> tuple[Sequence[Figure], str]:
    """The pieces of strip that a pre-wall takes, and under what."""
    rails, ties, feet = marked(room, FLOOR_RAIL), marked(room, WALL_TIE), on_deep_feet(room)
    counts = {"rails on the floor": len(rails), "ties to the wall": len(ties), "deep feet of uprights": len(feet)}
    lengths = [one.length for one in rails]
    lengths += [book.figure("noise.at_tie")] * len(ties)
    lengths += [book.role("floor foot").size("depth")] * len(feet) if feet else []
    return lengths, ", ".join(f"{count} {what}" for what, count in counts.items() if count)


def on_deep_feet(room: Room) -> tuple[Member, ...]:
    """The uprights of a self-standing pre-wall that stand on the floor, each on a deep foot."""
    return tuple(one for one in marked(room, UPRIGHT) if one.z <= one.section[0]) if room.self_standing else ()
