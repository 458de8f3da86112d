"""What edges the tiles where they end outside."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import Figure
from tundish.layout.room import Room
from tundish.rules.amounts import in_all
from tundish.rules.faces import niches, returns, shelf_of
from tundish.rules.rule import Asked, Cut, Need, rule


@rule("tiling/trim", source="common practice", reads="needs")
def trim(asked: Asked, book: Book) -> Iterator[Need]:
    """Outside edges have a trim.

    The front edge of the shelf, every free end up its height and along its shelf, and round every niche. A piece longer than
    a bar is cut in equal parts.
    """
    room = asked.room
    longest = max((offer.length for offer in book.offers.get(book.role("tile trim").code, ())), default=0.0)
    pieces = [piece for edge, where in _edges(room) for piece in _parts(edge, where, longest)]
    if pieces:
        cuts = tuple(Cut(f"{room.mark}E{place}", length, "tile trim", where) for place, (length, where) in enumerate(pieces, 1))
        amount = in_all([cut.length for cut in cuts], "edges", f"Outside edges, {len(cuts)}")
        yield Need(amount, "boarding", "outside edges", role="tile trim", cuts=cuts)


def _edges(room: Room) -> Iterator[tuple[Figure, str]]:
    shelf = shelf_of(room)
    if shelf:
        yield shelf.width, "front edge of the shelf"
    for end in returns(room):
        yield end.tiled_height, f"{end.name}, up the corner"
        if shelf:
            yield room.depth, f"{end.name}, along the shelf"
    for niche in niches(room):
        for edge, where in ((niche.width, "sill"), (niche.width, "head"), (niche.height, "left side"), (niche.height, "right side")):
            yield edge, f"{niche.name}, {where}"


def _parts(edge: Figure, where: str, longest: float) -> Iterator[tuple[Figure, str]]:
    if edge.high <= 0:
        return
    count = -(-edge.high // longest) if longest else 1.0
    part = edge if count == 1 else (edge / count).named(f"1/{count:g} of {edge.label}")
    for _ in range(int(count)):
        yield part, where
