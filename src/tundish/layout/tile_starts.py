"""Where to start tiling: the likely starts tried, the best three kept, each with what it spoils."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import islice, product
from operator import sub
from typing import Final

from tundish.layout.tiles import SetOut, Start, TiledFace, Tiling, around

SLIVER: Final = 0.2
"""Share of a tile under which an end cut is a sliver: the rule of thumb of the trade (a secondary page); no number is in BS 5385."""
BEST: Final = 3
_EQUAL: Final = 0.5
_Named = tuple[float, str]
"""Where something begins, and what that is called."""


@dataclass(frozen=True, slots=True)
class Choice:
    """One start with the faces tiled from it, the smallest cut of all, and what it spoils, in words."""

    start: Start
    faces: tuple[SetOut, ...]

    @property
    def spoils(self) -> tuple[str, ...]:
        """What the start spoils, in words."""
        return tuple(_spoils(self.faces))

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
    """The best starts from side to side, best first, each with the courses that go best with it.

    Best: no sliver, no hole on a joint, ends alike, cuts large, then few. The first face leads; a start asked for by a line keeps a
    tile or a joint on it.
    """
    if not faces:
        return ()
    first, *others = _courses(faces[0], tiling)
    sides: dict[int, _Named] = {}
    for side in _sides(faces[0], tiling, lines):
        sides.setdefault(round(side[0] % tiling.across * 10), side)
    named = {side[0]: side for side in sides.values()}
    found = islice(_in_order([_laid(faces, tiling, side, first) for side in named.values()]), most)
    best = [next(_in_order([one, *(_laid(faces, tiling, named[one.start.x], each) for each in others)])) for one in found]
    return tuple(_in_order(best))


def starts(faces: Sequence[TiledFace], tiling: Tiling, lines: Sequence[Line] = ()) -> tuple[Start, ...]:
    """Every start that is tried, each with a name of its own."""
    pairs = product(_sides(faces[0], tiling, lines), _courses(faces[0], tiling)) if faces else ()
    return tuple(_start(side, course) for side, course in pairs)


def _start(side: _Named, course: _Named) -> Start:
    return Start(side[0], course[0], f"{side[1]}, {course[1]}")


def _laid(faces: Sequence[TiledFace], tiling: Tiling, side: _Named, course: _Named) -> Choice:
    start = _start(side, course)
    return Choice(start, around(faces, tiling, start))


def _sides(face: TiledFace, tiling: Tiling, lines: Sequence[Line]) -> tuple[_Named, ...]:
    return (
        *((on, f"{what} {line.name}") for line in lines for on, what in _on(line.x, tiling)),
        *((on, f"{what} the middle") for on, what in _on(face.width / 2, tiling)),
        (0.0, "a whole tile at the left"),
        (face.width - tiling.width, "a whole tile at the right"),
    )


def _courses(face: TiledFace, tiling: Tiling) -> tuple[_Named, ...]:
    middle = face.height / 2
    if face.plan:
        return (
            (middle - tiling.height / 2, "a row on the middle"),
            (middle + tiling.joint / 2, "a joint across the middle"),
            (face.height - tiling.height, "a whole row towards wall A"),
            (0.0, "a whole row away from wall A"),
        )
    return (
        (face.height - tiling.height, "a whole course at the top"),
        (0.0, "a whole course at the foot"),
        (middle - tiling.height / 2, "a course on the middle"),
        (middle + tiling.joint / 2, "a level joint on the middle"),
    )


def _on(x: float, tiling: Tiling) -> tuple[tuple[float, str], ...]:
    return (x - tiling.width / 2, "a tile on"), (x + tiling.joint / 2, "a joint on")


def _spoils(laid: Sequence[SetOut]) -> Iterator[str]:
    """What is spoilt, each thing once with every face it is spoilt on."""
    told: dict[str, list[str]] = {}
    for each in laid:
        for words in _spoilt(each):
            told.setdefault(words, []).append(each.face.name)
        left, right = each.ends
        if each is laid[0] and abs(left - right) > _EQUAL:
            told.setdefault(f"ends of {left:.0f} and {right:.0f} mm are not alike", []).append(each.face.name)
        for hole in each.over_joints:
            told.setdefault(f"a joint runs through {hole.name}", []).append(each.face.name)
    yield from (f"{' and '.join(names)}: {words}" for words, names in told.items())


def _spoilt(each: SetOut) -> Iterator[str]:
    if each.face.plan:
        thin = [min(size for size in sizes if size) for sizes in _slivers_of(each)]
        if thin:
            yield f"{len(thin)} cut thinner than a fifth of a tile, the least {min(thin):.0f} mm"
        return
    yield from _thin(_thin_ends(each), ("a sliver of", "left", "right"))
    yield from _thin(_thin_courses(each), ("a course of only", "foot", "top"))


def _thin_ends(each: SetOut) -> tuple[float, float]:
    """How wide the end tiles are that are slivers, 0 for those that are not."""
    return _thin_of(each.ends, each.tiling.width, each.face.width - each.tiling.joint)


def _thin_courses(each: SetOut) -> tuple[float, float]:
    """How high the lowest and the highest course are where they are slivers, 0 where not."""
    return _thin_of(each.courses, each.tiling.height, each.face.height - each.tiling.joint)


def _thin_of(ends: tuple[float, float], tile: float, whole: float) -> tuple[float, float]:
    """A piece that covers a face from end to end, such as the side of a niche, is as large as it can be: that is no sliver."""
    least = min(SLIVER * tile, whole - _EQUAL)
    near, far = (end if end < least else 0.0 for end in ends)
    return near, far


def _thin(ends: tuple[float, float], called: tuple[str, str, str]) -> Iterator[str]:
    """The two ends of a face where they are thin; as one where they are alike."""
    what, *sides = called
    thin = [(f"{end:.0f} mm", side) for end, side in zip(ends, sides, strict=True) if end]
    for size in dict.fromkeys(size for size, _ in thin):
        yield f"{what} {size} {' and '.join(f'at the {side}' for each, side in thin if each == size)}"


def _in_order(choices: Sequence[Choice], place: int = 0) -> Iterator[Choice]:
    """The choices, best first; each measure is taken of those alone that are alike by all before it."""
    if len(choices) == 1 or place == len(_MEASURES):
        yield from choices
        return
    alike: dict[float, list[Choice]] = {}
    for each in choices:
        alike.setdefault(_MEASURES[place](each), []).append(each)
    for measured in sorted(alike):
        yield from _in_order(alike[measured], place + 1)


def _slivers(each: SetOut) -> int:
    return len(_slivers_of(each)) if each.face.plan else sum(map(bool, (*_thin_ends(each), *_thin_courses(each))))


def _slivers_of(each: SetOut) -> list[tuple[float, float]]:
    """The cut tiles of a floor that are slivers: how thin across and along, nought where they are not."""
    wide, high = SLIVER * each.tiling.width, SLIVER * each.tiling.height
    sizes = ((tile.width if tile.width < wide else 0.0, tile.height if tile.height < high else 0.0) for tile in each.cuts)
    return [size for size in sizes if any(size)]


_MEASURES: Final[tuple[Callable[[Choice], float], ...]] = (
    lambda choice: sum(map(_slivers, choice.faces)),
    lambda choice: sum(len(each.over_joints) for each in choice.faces),
    lambda choice: round(abs(sub(*choice.faces[0].ends))),
    lambda choice: -round(choice.smallest),
    lambda choice: sum(each.count - each.whole for each in choice.faces),
    lambda choice: -choice.start.z,
    lambda choice: choice.start.x,
)
"""What makes one choice better than another, the weightiest first: the less the better."""
