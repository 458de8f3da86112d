"""A drawing described once, in millimetres, for the window and for paper.

x runs to the right and y upwards. Every mark carries a style name (the line language of the sheet), may carry the id of the
piece it belongs to (what a click chooses) and the name of the figure it shows.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace
from typing import Final, Literal

Style = Literal[
    "wall",  # existing wall or floor, hatched
    "floor",  # floor build-up, banded
    "steel",  # strut, frames
    "timber",
    "soil",
    "hot",
    "cold",
    "board",  # heavy cut line
    "joint",  # between boards, where they land on steel
    "tile",  # hairline joint
    "ware",  # what the client sees
    "hidden",  # dashed: out of the plane or still to be confirmed
    "datum",  # chain line
    "dimension",
    "ink",  # plain outline
    "hatch",  # scrap
    "keep",  # kept offcut, dashed
    "tbc",
    "chosen",
    "fails",
    "room",  # activity space
]
Anchor = Literal["start", "middle", "end"]


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line from (x1, y1) to (x2, y2)."""

    x1: float
    y1: float
    x2: float
    y2: float
    style: Style
    piece: str = ""


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle by its lower left corner and size; `filled` paints the wash that goes with the style."""

    x: float
    y: float
    width: float
    height: float
    style: Style
    piece: str = ""
    filled: bool = True


@dataclass(frozen=True, slots=True)
class Shape:
    """A closed outline through its points."""

    points: tuple[tuple[float, float], ...]
    style: Style
    piece: str = ""
    filled: bool = True


@dataclass(frozen=True, slots=True)
class Ellipse:
    """An ellipse by centre and half axes."""

    x: float
    y: float
    half_width: float
    half_height: float
    style: Style
    piece: str = ""
    filled: bool = True


KEPT: Final = 8
"""Letters of a name that are always written."""


@dataclass(frozen=True, slots=True)
class Words:
    """Text at a point, its middle at that height; `size` is in millimetres of paper, the same at any scale. `turned` reads upwards.

    With `most` it is cut short, wherever it is drawn, where it would take more than so many millimetres of the drawing; never to fewer
    than `KEPT` letters, which say more standing out than cut. `loose` words stand on a plate and give way to others, near their place or
    along their line. `names`: the place that they are said of, where a line leads there from them; such words are never left out.
    """

    x: float
    y: float
    text: str
    size: float = 2.6
    style: Style = "ink"
    anchor: Anchor = "middle"
    bold: bool = False
    turned: bool = False
    piece: str = ""
    figure: str = ""
    most: float = 0.0
    loose: Literal["", "near", "along"] = ""
    names: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True)
class Dimension:
    """A dimension line between two points with its text; horizontal or vertical. `figure` names what typing into it changes."""

    x1: float
    y1: float
    x2: float
    y2: float
    text: str
    piece: str = ""
    figure: str = ""
    tbc: bool = False


Mark = Line | Box | Shape | Ellipse | Words | Dimension


@dataclass(frozen=True, slots=True)
class Drawing:
    """Marks in painting order, with the rectangle (x, y, width, height) that must be seen."""

    title: str
    marks: tuple[Mark, ...]
    extent: tuple[float, float, float, float]
    pieces: tuple[tuple[str, str], ...] = field(default=())
    """(id, spoken name) of every piece that can be chosen, left to right, then bottom to top."""
    from_above: bool = False
    """Whether all of it is seen from above, so that nothing in it can be raised."""


SCALES: Final = (10, 12.5, 15, 16, 20, 25, 30, 40, 50)
"""The scales a fitter can follow, largest picture first; past them, the next round one that fits."""
SMALLEST: Final = 100_000


def scales(over: float) -> Iterator[float]:
    """The scales of a picture smaller than 1 to `over`, the largest picture first."""
    yield from (scale for scale in SCALES if scale > over)
    tens = 100
    while tens < SMALLEST:
        yield from (tens * times for times in (1, 2, 5) if tens * times > over)
        tens *= 10


def moved(marks: Iterable[Mark], dx: float, dy: float) -> tuple[Mark, ...]:
    """The same marks, moved by (dx, dy) mm."""
    return tuple(_move(mark, dx, dy) for mark in marks)


def _move(mark: Mark, dx: float, dy: float) -> Mark:
    match mark:
        case Line():
            return Line(mark.x1 + dx, mark.y1 + dy, mark.x2 + dx, mark.y2 + dy, mark.style, mark.piece)
        case Box():
            return Box(mark.x + dx, mark.y + dy, mark.width, mark.height, mark.style, mark.piece, mark.filled)
        case Shape():
            return Shape(tuple((x + dx, y + dy) for x, y in mark.points), mark.style, mark.piece, mark.filled)
        case Ellipse():
            halves = (mark.half_width, mark.half_height)
            return Ellipse(mark.x + dx, mark.y + dy, *halves, mark.style, mark.piece, mark.filled)
        case Words():
            names = None if mark.names is None else (mark.names[0] + dx, mark.names[1] + dy)
            return replace(mark, x=mark.x + dx, y=mark.y + dy, names=names)
        case _:
            ends = (mark.x1 + dx, mark.y1 + dy, mark.x2 + dx, mark.y2 + dy)
            return Dimension(*ends, mark.text, mark.piece, mark.figure, mark.tbc)
