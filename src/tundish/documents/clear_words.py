"""Words of a drawing moved a little, where they would lie on other words, on figures, or on ware that is not theirs."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from typing import Final

from tundish.documents.drawing import Box, Dimension, Drawing, Line, Mark, Shape, Words

Rect = tuple[float, float, float, float]
"""Left, bottom, right and top, mm of the drawing."""


def clear_words(drawing: Drawing, room_of: Callable[[Words | Dimension], Rect]) -> Drawing:
    """The drawing with its loose words in front and clear of all others, each as near to its place as can be.

    Where there is no room near what they are said of they are left out, but for names and figures. To the place that words name a line
    leads from where they stand. `room_of` gives the room that the words of a mark take as they will be drawn.
    """
    loose = [mark for mark in drawing.marks if isinstance(mark, Words) and mark.loose]
    if not loose:
        return drawing
    taken = [room_of(mark) for mark in drawing.marks if isinstance(mark, Dimension) or (isinstance(mark, Words) and not mark.loose)]
    ware = [(mark.piece, _round(mark)) for mark in drawing.marks if isinstance(mark, Box | Shape) and mark.style in _WARE]
    kept: list[Mark] = [mark for mark in drawing.marks if not isinstance(mark, Words) or not mark.loose]
    for mark in sorted(loose, key=_rank):
        box = room_of(mark)
        keep_off = [each for piece, each in ware if piece != mark.piece or not piece]
        right, up, clear = _least(mark, box, (taken, keep_off), drawing.extent)
        if clear or not _rank(mark) or mark.figure:
            taken.append(_moved(box, right, up))
            kept += _leading(mark, taken[-1])
            kept.append(replace(mark, x=mark.x + right, y=mark.y + up))
    return replace(drawing, marks=tuple(kept))


def overlap(one: Rect, other: Rect) -> float:
    """The area that two rectangles share, mm²."""
    wide, high = min(one[2], other[2]) - max(one[0], other[0]), min(one[3], other[3]) - max(one[1], other[1])
    return wide * high if wide > 0 and high > 0 else 0.0


_WARE: Final = frozenset({"ware", "tbc"})
_WORSE: Final = 1e4
"""How much worse words over words are than words over ware."""
_NEAR: Final = tuple(
    sorted(
        ((float(right), up / 2) for up in range(-8, 9) for right in range(-5, 6)),
        key=lambda step: (abs(step[0]) * 1.25 + abs(step[1]), step),
    )
)
"""Steps in heights of a line, the nearest first."""
_MOST: Final = 4.0
_MOST_BESIDE: Final = 2.5
"""How many lines up or down a name may go, and what is said beside it."""
_FAR: Final = 60
_OVER_AND_UNDER: Final = (0.0, -1.3)
"""Words along a line stand over it, or under it."""


def _rank(mark: Words) -> int:
    """Names of pieces and places are placed first, what can be anywhere along a line last."""
    return 2 if mark.loose == "along" else 0 if mark.names or (mark.piece and mark.bold) else 1


def _leading(mark: Words, box: Rect) -> Iterator[Line]:
    """The line from the edge of words to the place that they name."""
    if mark.names is None:
        return
    (x, y), middle = mark.names, ((box[0] + box[2]) / 2, (box[1] + box[3]) / 2)
    aside, up = abs(x - middle[0]), abs(y - middle[1])
    within = max(aside / ((box[2] - box[0]) / 2), up / ((box[3] - box[1]) / 2))
    if within > 1:
        yield Line(x, y, x + (middle[0] - x) * (1 - 1 / within), y + (middle[1] - y) * (1 - 1 / within), "dimension")


def _least(mark: Words, box: Rect, others: tuple[Sequence[Rect], Sequence[Rect]], extent: Rect) -> tuple[float, float, bool]:
    """The nearest step at which the words lie on nothing, or that at which they lie on least; and whether that is on no words."""
    best, least = (0.0, 0.0, False), float("inf")
    for right, up in _steps(mark, box):
        seen = _moved(box, right, up)
        if (right or up) and not _within(seen, extent):
            continue
        words, ware = (sum(overlap(seen, each) for each in boxes) for boxes in others)
        if (bad := words * _WORSE + ware) < least:
            best, least = (right, up, not words), bad
        if not least:
            break
    return best


def _steps(mark: Words, box: Rect) -> Iterator[tuple[float, float]]:
    high = box[3] - box[1]
    if mark.loose == "along":
        ways = -1 if mark.anchor == "end" else 1
        yield from ((ways * step * high, up * high) for step in range(_FAR) for up in _OVER_AND_UNDER)
    else:
        most = _MOST_BESIDE if _rank(mark) else _MOST
        yield from ((right * high, up * high) for right, up in _NEAR if abs(up) <= most)


def _moved(box: Rect, right: float, up: float) -> Rect:
    return box[0] + right, box[1] + up, box[2] + right, box[3] + up


def _within(box: Rect, extent: Rect) -> bool:
    x, y, wide, high = extent
    return box[0] >= x and box[1] >= y and box[2] <= x + wide and box[3] <= y + high


def _round(mark: Box | Shape) -> Rect:
    if isinstance(mark, Box):
        return mark.x, mark.y, mark.x + mark.width, mark.y + mark.height
    xs, ys = zip(*mark.points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)
