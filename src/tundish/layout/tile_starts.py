"""Where to start tiling: the likely starts tried, the best three kept, each with what it spoils."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from tundish.cutting.tiles import SetOut, Start, TiledFace, Tiling, around

SLIVER: Final = 0.2
"""Share of a tile under which an end cut is a sliver: the rule of thumb of the trade (a secondary page); no number is in BS 5385."""
BEST: Final = 3
_EQUAL: Final = 0.5


@dataclass(frozen=True, slots=True)
class Choice:
    """One start with the faces tiled from it, the smallest cut of all, and what it spoils, in words."""

    start: Start
    faces: tuple[SetOut, ...]
    spoils: tuple[str, ...]

    @property
    def smallest(self) -> float:
        """The narrowest cut on any face, mm."""
        return min((face.smallest for face in self.faces), default=0.0)


@dataclass(frozen=True, slots=True)
class Line:
    """A line that the tiles are wanted on, such as the middle of a pan: x on the first face."""

    name: str
    x: float


def best_starts(faces: Sequence[TiledFace], tiling: Tiling, lines: Sequence[Line] = (), *, most: int = BEST) -> tuple[Choice, ...]:
    """The best starts, best first: no hole on a joint, no sliver, ends alike, cuts large, then few.

    The first face leads; a start asked for by a line keeps a tile or a joint on it.
    """
    if not faces:
        return ()
    tried: dict[tuple[int, int], Choice] = {}
    for start in _starts(faces[0], tiling, lines):
        key = (round(start.x % tiling.across * 10), round(start.z % tiling.up * 10))
        if key not in tried:
            laid = around(faces, tiling, start)
            tried[key] = Choice(start, laid, tuple(_spoils(laid)))
    return tuple(sorted(tried.values(), key=_rank)[:most])


def _starts(face: TiledFace, tiling: Tiling, lines: Sequence[Line]) -> Iterator[Start]:
    across = (
        *((on, f"{what} {line.name}") for line in lines for on, what in _on(line.x, tiling)),
        *((on, f"{what} the middle") for on, what in _on(face.width / 2, tiling)),
        (0.0, "a whole tile at the left"),
        (face.width - tiling.width, "a whole tile at the right"),
    )
    middle = face.height / 2
    courses = (
        (0.0, "a whole course at the foot"),
        (face.height - tiling.height, "a whole course at the top"),
        (middle - tiling.height / 2, "foot and top alike"),
        (middle + tiling.joint / 2, "foot and top alike"),
    )
    for x, side in across:
        for z, course in courses:
            yield Start(x, z, f"{side}, {course}")


def _on(x: float, tiling: Tiling) -> tuple[tuple[float, str], ...]:
    return (x - tiling.width / 2, "a tile on"), (x + tiling.joint / 2, "a joint on")


def _spoils(laid: Sequence[SetOut]) -> Iterator[str]:
    for each in laid:
        wide, high = each.tiling.width, each.tiling.height
        for end, side in zip(each.ends, ("left", "right"), strict=True):
            if end < SLIVER * wide:
                yield f"{each.face.name}: a sliver of {end:.0f} mm at the {side}"
        for course, side in zip(each.courses, ("foot", "top"), strict=True):
            if course < SLIVER * high:
                yield f"{each.face.name}: a course of only {course:.0f} mm at the {side}"
        left, right = each.ends
        if abs(left - right) > _EQUAL:
            yield f"{each.face.name}: ends of {left:.0f} and {right:.0f} mm are not alike"
        for name in dict.fromkeys(one.hole.name for one in each.drilled if one.edge < 0):
            yield f"{each.face.name}: the hole for {name} runs over a joint"


def _rank(choice: Choice) -> tuple[float, ...]:
    over = sum(one.edge < 0 for each in choice.faces for one in each.drilled)
    slivers = sum("sliver" in words or "only" in words for words in choice.spoils)
    first = choice.faces[0]
    apart = round(abs(first.ends[0] - first.ends[1]))
    return slivers, over, apart, -round(choice.smallest), sum(len(each.cuts) for each in choice.faces), choice.start.z, choice.start.x
