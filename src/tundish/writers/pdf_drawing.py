"""The marks of a drawing on paper: the line language of the sheet. In points; the drawing itself in millimetres."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil, floor
from typing import Final

from tundish.documents.clear_words import Rect, clear_words
from tundish.documents.drawing import KEPT, Box, Dimension, Drawing, Ellipse, Line, Mark, Shape, Style, Words
from tundish.writers.pdf_pen import RADIUS, TBC, Pen, Stroke
from tundish.writers.pdf_type import MM, Type, Weight

DIMENSION: Final = 2.4
"""Millimetres of paper a dimension's figure is set in."""
HATCH: Final = 4.2
"""Points from one hatching line to the next."""
LONGEST: Final = 400.0
"""Words in a drawing are cut short at this many points."""
_SLASH: Final = 2.2
_SHORT: Final = 2
"""A figure of so many letters is never turned."""
_MIDDLE: Final = 0.34
"""Half the height of a figure, as a part of the size."""
_END: Final = Stroke("ink", 1.0)


@dataclass(frozen=True, slots=True)
class Look:
    """How a style is drawn: its edge, its wash, and lines across it."""

    edge: Stroke | None
    fill: str = "sheet"
    hatch: Stroke | None = None
    solid: float = 1.0
    """How much the wash hides of what is behind it."""


_FINE: Final = Stroke("edge", 0.45)
LOOKS: Final[dict[Style, Look]] = {
    "wall": Look(None, "wallWash", _FINE),
    "floor": Look(Stroke("soil", 0.5), "floorWash"),
    "steel": Look(Stroke("steel", 0.8), "steelWash"),
    "timber": Look(Stroke("soil", 0.8), "floorWash"),
    "soil": Look(Stroke("soil", 0.8), "soilWash"),
    "hot": Look(Stroke("hot", 1.7)),
    "cold": Look(Stroke("cold", 1.7)),
    "board": Look(Stroke("ink", 1.4)),
    "joint": Look(Stroke("ink2", 0.6, (1.5, 2))),
    "tile": Look(Stroke("tileLine", 0.5)),
    "ware": Look(Stroke("ink", 0.9), "ware"),
    "hidden": Look(Stroke("ink2", 0.7, (3, 2.2)), "ware", solid=0.8),
    "datum": Look(Stroke("chalk", 0.8, (8, 2.2, 1.6, 2.2)), ""),
    "dimension": Look(Stroke("ink", 0.6), ""),
    "ink": Look(Stroke("ink", 0.9)),
    "hatch": Look(Stroke("ink", 0.7), "sheet", Stroke("ink2", 0.5)),
    "keep": Look(Stroke("ink", 0.8, (3, 2.2))),
    "tbc": Look(Stroke("tbc", 1.0, (3, 2.2)), "ware"),
    "chosen": Look(Stroke("chalk", 1.4), "chalkWash"),
    "fails": Look(Stroke("fails", 1.2), "failsWash"),
    "room": Look(Stroke("edge", 0.6, (1, 2)), ""),
}
_WORD_COLOURS: Final[dict[Style, str]] = {
    "hidden": "ink2",
    "hot": "hot",
    "cold": "cold",
    "soil": "soil",
    "steel": "steel",
    "datum": "chalk",
    "tbc": "tbc",
    "chosen": "chalk",
    "fails": "fails",
}


@dataclass(frozen=True, slots=True)
class At:
    """Where a drawing stands on the page: the point its origin falls on, and points of paper in a millimetre of it."""

    x: float
    y: float
    each: float

    def point(self, x: float, y: float) -> tuple[float, float]:
        """A point of the drawing on the page."""
        return self.x + x * self.each, self.y + y * self.each


def paint(pen: Pen, marks: Sequence[Mark], at: At) -> None:
    """Draw the marks in their order."""
    for mark in marks:
        _paint(pen, mark, at)


def cleared(drawing: Drawing, each: float) -> Drawing:
    """The drawing with its words clear of one another at so many points a millimetre."""
    return clear_words(
        drawing, lambda mark: _in_mm(_label(mark, At(0, 0, each)) if isinstance(mark, Words) else _figure(mark, At(0, 0, each)), each)
    )


def bounds(mark: Mark, each: float) -> tuple[float, float, float, float] | None:
    """Left, bottom, right and top of a mark's words in points from the drawing's origin; None where it has none."""
    match mark:
        case Words():
            return _label(mark, At(0, 0, each)).box
        case Dimension():
            return _figure(mark, At(0, 0, each)).box
        case _:
            return None


@dataclass(frozen=True, slots=True)
class _Label:
    """Words in a drawing: their text, type, the middle of them on the page, whether they read upwards and stand on a plate."""

    text: str
    kind: Type
    x: float
    y: float
    turned: bool = False
    tbc: bool = False
    plate: bool = False

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, bottom, right, top."""
        long, deep = self.kind.width(self.text) / 2 + 3 * self.tbc, self.kind.size / 2 + 1.5 * self.tbc
        across, up = (deep, long) if self.turned else (long, deep)
        return self.x - across, self.y - up, self.x + across, self.y + up


def _in_mm(label: _Label, each: float) -> Rect:
    left, low, right, high = label.box
    return left / each, low / each, right / each, high / each


def _paint(pen: Pen, mark: Mark, at: At) -> None:
    match mark:
        case Line():
            pen.line(*at.point(mark.x1, mark.y1), *at.point(mark.x2, mark.y2), LOOKS[mark.style].edge or _FINE)
        case Box():
            _box(pen, mark, at)
        case Shape():
            _shape(pen, mark, at)
        case Ellipse():
            _ellipse(pen, mark, at)
        case Words():
            _write(pen, _label(mark, at))
        case Dimension():
            _dimension(pen, mark, at)


def _box(pen: Pen, mark: Box, at: At) -> None:
    look = LOOKS[mark.style]
    x, y = at.point(mark.x, mark.y)
    width, height = mark.width * at.each, mark.height * at.each
    if mark.filled and look.fill:
        with pen.seen_through(look.solid):
            pen.box((x, y, width, height), fill=look.fill)
    if mark.filled and look.hatch:
        pen.lines(_hatching(x, y, x + width, y + height), look.hatch)
    if look.edge or not mark.filled:
        pen.box((x, y, width, height), stroke=look.edge or _FINE)


def _shape(pen: Pen, mark: Shape, at: At) -> None:
    look = LOOKS[mark.style]
    points = [at.point(*point) for point in mark.points]
    if not points:
        return
    if mark.filled and look.fill:
        with pen.seen_through(look.solid):
            pen.shape(points, fill=look.fill)
    if mark.filled and look.hatch:
        across, up = zip(*points, strict=True)
        with pen.within(points):
            pen.lines(_hatching(min(across), min(up), max(across), max(up)), look.hatch)
    if look.edge or not mark.filled:
        pen.shape(points, stroke=look.edge or _FINE)


def _ellipse(pen: Pen, mark: Ellipse, at: At) -> None:
    look = LOOKS[mark.style]
    halves = (mark.half_width * at.each, mark.half_height * at.each)
    with pen.seen_through(look.solid):
        pen.ellipse(*at.point(mark.x, mark.y), halves, fill=look.fill if mark.filled else "", stroke=look.edge or _FINE)


def _hatching(left: float, low: float, right: float, high: float) -> Iterator[tuple[float, float, float, float]]:
    """Lines at 45 degrees within a rectangle, in step with those of its neighbours."""
    for step in range(ceil((low - right) / HATCH), floor((high - left) / HATCH) + 1):
        start, end = max(left, low - step * HATCH), min(right, high - step * HATCH)
        if end > start:
            yield start, start + step * HATCH, end, end + step * HATCH


def _dimension(pen: Pen, mark: Dimension, at: At) -> None:
    """A line with a slash at either end, its figure above it or to the left of it."""
    look = LOOKS["dimension"].edge or _FINE
    ends = at.point(mark.x1, mark.y1), at.point(mark.x2, mark.y2)
    pen.line(*ends[0], *ends[1], look)
    pen.lines(((x - _SLASH, y - _SLASH, x + _SLASH, y + _SLASH) for x, y in ends), _END)
    _write(pen, _figure(mark, at))


def _write(pen: Pen, label: _Label) -> None:
    left, low, right, high = label.box
    if label.tbc:
        pen.box((left, low, right - left, high - low), fill="tbcWash", stroke=TBC, radius=RADIUS)
    elif label.plate:
        pen.box((left + 1, low + 1, right - left - 2, high - low - 2), fill="sheet")
    drop = label.kind.size * _MIDDLE
    if not label.turned:
        pen.text(label.x, label.y - drop, label.text, label.kind, "middle")
        return
    with pen.turned(label.x, label.y, 90):
        pen.text(0, -drop, label.text, label.kind, "middle")


def _label(words: Words, at: At) -> _Label:
    weight: Weight = "SemiBold" if words.bold or words.style == "tbc" else "Medium"
    kind = Type(weight, words.size * MM, _WORD_COLOURS.get(words.style, "ink"))
    text = kind.cut(words.text, max(words.most * at.each, kind.width(words.text[:KEPT])) if words.most else LONGEST)
    ahead = {"start": 0.5, "middle": 0.0, "end": -0.5}[words.anchor] * kind.width(text)
    x, y = at.point(words.x, words.y)
    plate = bool(words.loose)
    return _Label(text, kind, x, y + ahead, turned=True) if words.turned else _Label(text, kind, x + ahead, y, plate=plate)


def _figure(mark: Dimension, at: At) -> _Label:
    """The words of a dimension: along its line, or across it where they are longer than the line."""
    kind = Type("SemiBold" if mark.tbc else "Medium", DIMENSION * MM, "tbc" if mark.tbc else "ink")
    text = kind.cut(mark.text if not mark.tbc or "TBC" in mark.text else f"{mark.text} TBC", LONGEST)
    (x1, y1), (x2, y2) = at.point(mark.x1, mark.y1), at.point(mark.x2, mark.y2)
    upright = abs(y2 - y1) > abs(x2 - x1)
    long = kind.width(text) + 4
    along = long <= max(abs(x2 - x1), abs(y2 - y1))
    away = (kind.size if along else long) / 2 + 1.5 + 2 * mark.tbc
    x, y = (x1 + x2) / 2, (y1 + y2) / 2
    turned = upright == along and len(text) > _SHORT
    return _Label(text, kind, x - away * upright, y + away * (not upright), turned, mark.tbc, plate=True)
