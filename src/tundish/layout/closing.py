"""Closing battens: what a run is boarded to where it stops against a higher front across its corner."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from tundish.catalogue.book import Book
from tundish.figure import Figure, number
from tundish.layout.corner import Against
from tundish.layout.makers import size
from tundish.layout.outline import TIMBER, Outline
from tundish.layout.room import Member

_SHORTEST = 50.0


def closing_battens(outline: Outline, book: Book) -> Iterator[Member]:
    """J1, J2…: at each such end one from the floor up behind the edge of the front, then one from there to the wall under the shelf.

    They lie flat on the higher front; the upright one as far out as its outer edge comes to the back of the run's boards.
    """
    if outline.standing.corner is not None:
        return
    timber, count = book.role(TIMBER), 0
    thick, wide = size(timber, "face", "Thickness of the batten"), size(timber, "depth", "Width of the batten")
    for left, met in zip((True, False), outline.standing.meets, strict=True):
        if met is None or met.against is None:
            continue
        lies = _Lies(outline, met.against, thick.value, wide.value, left=left)
        for long, upright in ((outline.tops.steel, True), (lies.to_the_wall(thick, wide, book.figure("prewall.end_gap")), False)):
            if long.value >= _SHORTEST:
                count += 1
                yield lies.batten(f"J{count}", long.named("Closing batten"), upright=upright)


@dataclass(frozen=True, slots=True)
class _Lies:
    """How battens so thick and wide lie on the front across the corner at one end of a run."""

    outline: Outline
    against: Against
    thick: float
    wide: float
    left: bool

    def to_the_wall(self, thick: Figure, wide: Figure, ease: Figure) -> Figure:
        """From the upright batten to the wall, along the higher front."""
        turn = math.radians(self.against.half)
        back = thick * number(round(math.sin(turn), 6), "", f"At {self.against.half:g}°")
        out = (self.outline.depth - back.named("Outer edge of the upright batten")).named("Back edge of the upright batten")
        return self.against.across(out) - wide - ease

    def batten(self, mark: str, long: Figure, *, upright: bool) -> Member:
        """One of the two, seen from the front of the run."""
        turn = math.radians(self.against.half)
        along = 0.0 if upright else self.wide
        deep = self.outline.depth.value - self.thick * math.sin(turn) - along * math.cos(turn)
        x = self.against.along.value + (self.outline.depth.value - deep) * math.tan(turn)
        far = self.wide if upright else long.value
        if not self.left:
            x, deep = self.outline.width.value - x - far * math.sin(turn), deep - far * math.cos(turn)
        z = 0.0 if upright else self.outline.tops.steel.value - self.wide
        way = (self.against.half - 90.0) if self.left else (90.0 - self.against.half)
        where = f"on the front of {self.against.name}, " + (
            "up behind the edge of the front" if upright else "level with the top, to the wall"
        )
        return Member(mark, "closing batten", TIMBER, long, "z" if upright else "x", x, deep, z, (self.wide, self.thick), where, way)
