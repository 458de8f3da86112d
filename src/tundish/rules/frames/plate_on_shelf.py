"""Whether a flush plate on the shelf can be there."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.measure import show_length
from tundish.rules.rule import Finding, judge, rule


@rule("frames/plate-on-shelf", figures=("frames.plate_under_shelf",), source="common practice: a low frame under a shelf")
def plate_on_shelf(room: Room, book: Book) -> Iterator[Finding]:
    """A flush plate on the shelf wants a part-height pre-wall with a shelf, and a frame whose head is close beneath it."""
    most = book.figure("frames.plate_under_shelf")
    for one in room.of_kind("wc"):
        if one.choice.plate_on != "shelf":
            continue
        if room.prewall.height == "full" or not room.prewall.shelf:
            words = "There is no shelf to set it in: end the pre-wall below the ceiling with a shelf, or set the plate in the front."
            yield Finding("Flush plate on the shelf", "Void", "fails", None, "Own rule", most.note, message=words, place=one.name)
            continue
        has = (room.top_of_steel - one.figures["frame_top"]).named("Head of frame to top of steel")
        state = judge(has, None, most)
        words = ""
        if state != "passes":
            words = (
                f"The frame ends {show_length(has.value)} under the shelf: lower the pre-wall, or choose a frame that ends nearer to it."
            )
        yield Finding("Flush plate on the shelf", "Void", state, has, "Own rule", most.note, None, most, words, one.name)
