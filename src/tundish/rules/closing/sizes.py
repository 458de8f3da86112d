"""Sizes that are not from a maker's sheet, or not from the piece in hand."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.appliances.kinds import KINDS
from tundish.layout.room import Room
from tundish.rules.decisions import key_of
from tundish.rules.rule import Decision, rule


@rule("closing/sizes", source="common practice")
def sizes_confirmed(room: Room, book: Book) -> Iterator[Decision]:
    """The sizes of each appliance are confirmed from the piece in hand or its maker's sheet.

    Made for each that is not marked as in hand.
    """
    for one in room.placed:
        if not one.choice.in_hand:
            yield Decision(
                key_of(room, "sizes", one.key),
                f"{_said(one.kind)} sizes confirmed, {one.name}",
                f"Every height of {one.name} hangs on them.",
                "By first fix",
                "Maker's sheet, or the piece itself",
                one.ware.name,
            )


def _said(kind: str) -> str:
    """What of an appliance is confirmed: of a WC it is the pan."""
    return "Pan" if kind == "wc" else KINDS[kind].plain.capitalize()
