"""Whether the flush plate suits the thickness of the finished wall."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.rule import Finding, judge, rule


@rule("frames/plate", source="maker's sheet of the flush plate")
def plate(room: Room, book: Book) -> Iterator[Finding]:
    """Board, bed and tile together are as thick as the flush plate allows."""
    for one in room.of_kind("wc", "urinal"):
        if not one.choice.plate:
            if one.kind == "wc":
                words = "Choose the flush plate: its sheet says how thick the wall before the cistern may be."
                yield Finding(
                    "Flush plate, board and tile", "Void", "cannot tell", room.thickness, "Maker",
                    "maker's sheet of the flush plate", message=words, place=one.name,
                )  # fmt: skip
            continue
        chosen = book.item(one.choice.plate)
        least, most = chosen.size("wall_least"), chosen.size("wall_most")
        state = judge(room.thickness, least, most)
        thin = room.thickness.value < least.value
        words = f"Choose a {'thicker' if thin else 'thinner'} board or tile, or a plate that suits this wall."
        yield Finding(
            "Flush plate, board and tile", "Void", state, room.thickness, "Maker", chosen.sheet,
            least, most, "" if state == "passes" else words, one.name,
        )  # fmt: skip
