"""Floors and walls that may not carry what is hung and stood on them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.grounds import walls_of
from tundish.rules.rule import Caution, rule

_WEAK_FLOOR: Final = "floorboards on joists"
_WEAK_WALL: Final = "lath and plaster"


@rule("safety/old-structure", source="common practice")
def old_structure(room: Room, book: Book) -> Iterator[Caution]:
    """Old floors and walls are looked at before weight is put on them.

    Said when a frame stands in a house not known to be from 2000 or later, on floorboards, or before lath and plaster.
    """
    survey = room.plan.survey
    weak = survey.floor.kind == _WEAK_FLOOR or any(wall.construction == _WEAK_WALL for wall, _ in walls_of(room))
    if room.placed and (weak or survey.existing.built != "2000 or later"):
        yield Caution(
            "Old floors and walls",
            "Look at joists, boards and wall where the frames will stand: rot, worm, cracks, notches, loose plaster. The whole load goes "
            "into the floor under the feet. Where in doubt ask a chartered engineer before you build on it.",
        )
