"""The capping of a pre-wall of part height without a shelf: one slab over frame, boards and tiles, that closes the top."""

from __future__ import annotations

from dataclasses import dataclass

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.figure import Figure
from tundish.layout.depths import finished_face
from tundish.layout.outline import Outline


@dataclass(frozen=True, slots=True)
class Capping:
    """The slab chosen, how long it is along the pre-wall, and how deep it has to be from the wall."""

    item: Item
    length: Figure
    depth: Figure


def capping_of(outline: Outline, tiled: Figure, book: Book) -> Capping | None:
    """What caps a pre-wall whose front is tiled so wide; None under a ceiling or a shelf. It stands over at the front and at open ends.

    Where it is mitred to another it is measured along its back, its long edge; where it stops aslant against a higher one along its front.
    """
    if outline.capping is None:
        return None
    over, thickness = book.figure("prewall.capping_over"), outline.covering.thickness
    length = tiled
    for closed, join, met in zip(outline.run.at_wall, outline.standing.joins, outline.standing.meets, strict=True):
        if not closed:
            length = length + thickness.named("Covering of an open end") + over
        elif join is not None:
            length = length + join.longer((join.deep + thickness).named("Wall to face"))
        elif met is not None and met.against is not None and not met.through:
            length = length + met.against.shorter(over)
    face = finished_face(outline.depth, thickness)
    return Capping(outline.capping, length.named("Length of the capping"), (face + over).named("Depth of the capping"))
