"""What goes with the tiles that are laid: spacers as wide as their joint, a trim as deep as they are."""

from __future__ import annotations

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.figure import Figure
from tundish.layout.room import Room


def spacer_for(joint: Figure, book: Book) -> Item:
    """The spacers as wide as a joint, the nearest where there are none; the usual ones before others that are as near."""
    known = [each for each in (book.role("tile spacer"), *book.of_kind("tile spacer")) if each.has("thickness")]
    return min(known, key=lambda each: abs(each.sizes["thickness"][0] - joint.value), default=book.role("tile spacer"))


def trim_for(room: Room, book: Book) -> Item:
    """The usual trim where it covers the tile's edge and no more than its bed besides, else the thinnest that covers it."""
    usual, tile = book.role("tile trim"), room.tile.sizes["thickness"][0]
    if not usual.has("thickness") or tile <= usual.sizes["thickness"][0] <= tile + book.figure("tiling.bed").value:
        return usual
    covers = [each for each in book.of_kind("tile trim") if each.has("thickness") and each.sizes["thickness"][0] >= tile]
    return min(covers, key=lambda each: each.sizes["thickness"][0], default=usual)
