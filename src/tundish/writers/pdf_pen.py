"""The pen that draws on a page: text, lines and boxes in the program's colours. All in points, y upwards."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Final, Literal

from tundish.resources import resource
from tundish.writers.pdf_tags import Tags
from tundish.writers.pdf_type import Type, drawable, face

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas
    from reportlab.pdfgen.pathobject import PDFPathObject

Points = Iterable[tuple[float, float]]
Box = tuple[float, float, float, float]
Dash = tuple[float, ...]
Anchor = Literal["start", "middle", "end"]
DASHED: Final[Dash] = (3, 2)
RADIUS: Final = 2.5


@dataclass(frozen=True, slots=True)
class Stroke:
    """How a line is drawn; without a colour it is not."""

    colour: str = "ink"
    width: float = 0.7
    dash: Dash = ()


HAIRLINE: Final = Stroke("hairline", 0.6)
RULE: Final = Stroke("ink", 0.9)
EDGE: Final = Stroke("ink2", 0.8)
TBC: Final = Stroke("tbc", 0.8, DASHED)
TAG: Final = Type("SemiBold", 7.5, "tbc")


class Pen:
    """Draws on a reportlab canvas, setting a colour or a width only when it changes."""

    def __init__(self, canvas: Canvas) -> None:
        self.canvas = canvas
        self.tags = Tags(canvas)
        self.forget()

    def forget(self) -> None:
        """Start afresh: a new page knows no colour or width."""
        self._fill = ""
        self._stroke: Stroke | None = None

    def text(self, x: float, y: float, text: str, kind: Type, anchor: Anchor = "start") -> None:
        """Words on a baseline, from, about or up to a point."""
        words = drawable(text)
        if not words:
            return
        self.fill(kind.colour)
        setting = face(kind.weight)
        if anchor != "start":
            x -= setting.width(words, kind.size) * (1.0 if anchor == "end" else 0.5)
        self.canvas.setFont(setting.name, kind.size)
        line = self.canvas.beginText(round(x, 2), round(y, 2))  # drawString would measure it again
        line.textLine(f"{words} " if anchor == "start" else words)  # a space parts it from the next line when read out
        self.canvas.drawText(line)

    def line(self, x1: float, y1: float, x2: float, y2: float, stroke: Stroke = RULE) -> None:
        """A straight line."""
        self.stroke(stroke)
        self.canvas.line(x1, y1, x2, y2)

    def lines(self, ends: Iterable[tuple[float, float, float, float]], stroke: Stroke) -> None:
        """Many straight lines."""
        self.stroke(stroke)
        self.canvas.lines(list(ends))

    def box(self, box: Box, *, fill: str = "", stroke: Stroke | None = None, radius: float = 0) -> None:
        """A rectangle by its lower left corner, width and height."""
        self._ready(fill, stroke)
        how = {"stroke": int(stroke is not None), "fill": int(bool(fill))}
        if radius:
            self.canvas.roundRect(*box, radius, **how)
        else:
            self.canvas.rect(*box, **how)

    def ellipse(self, x: float, y: float, halves: tuple[float, float], *, fill: str = "", stroke: Stroke | None = None) -> None:
        """An ellipse by its centre and half axes."""
        self._ready(fill, stroke)
        across, up = halves
        self.canvas.ellipse(x - across, y - up, x + across, y + up, stroke=int(stroke is not None), fill=int(bool(fill)))

    def shape(self, points: Points, *, fill: str = "", stroke: Stroke | None = None, closed: bool = True) -> None:
        """A line through points, closed or open."""
        self._ready(fill, stroke)
        self.canvas.drawPath(self._path(points, closed=closed), stroke=int(stroke is not None), fill=int(bool(fill)))

    @contextmanager
    def within(self, points: Points) -> Iterator[None]:
        """Draw only inside an outline."""
        with self.turned(0, 0, 0):
            self.canvas.clipPath(self._path(points, closed=True), stroke=0, fill=0)
            yield

    @contextmanager
    def turned(self, x: float, y: float, degrees: float) -> Iterator[None]:
        """Draw about a point, turned against the clock; colours and widths are put back afterwards."""
        self.tags.close()
        self.canvas.saveState()
        if x or y:
            self.canvas.translate(x, y)
        if degrees:
            self.canvas.rotate(degrees)
        yield
        self.tags.close()
        self.canvas.restoreState()
        self.forget()

    @contextmanager
    def seen_through(self, solid: float) -> Iterator[None]:
        """Fill so that what is behind shows through; 1 hides it all."""
        if solid == 1:
            yield
            return
        self.canvas.setFillAlpha(solid)
        yield
        self.canvas.setFillAlpha(1)

    def tag(self, x: float, baseline: float, text: str) -> None:
        """A dashed box with words saying that something is to be confirmed."""
        self.box((x, baseline - 3.3, tag_width(text), 11.4), fill="tbcWash", stroke=TBC, radius=RADIUS)
        self.text(x + 4, baseline, text, TAG)

    def fill(self, colour: str) -> None:
        """Fill with a named colour from now on."""
        self.tags.ready()
        if colour != self._fill:
            self.canvas.setFillColorRGB(*rgb(colour))
            self._fill = colour

    def stroke(self, stroke: Stroke) -> None:
        """Draw lines so from now on."""
        self.tags.ready()
        if stroke == self._stroke:
            return
        self.canvas.setStrokeColorRGB(*rgb(stroke.colour))
        self.canvas.setLineWidth(stroke.width)
        if self._stroke is None or stroke.dash != self._stroke.dash:
            self.canvas.setDash(list(stroke.dash))
        self._stroke = stroke

    def _ready(self, fill: str, stroke: Stroke | None) -> None:
        if fill:
            self.fill(fill)
        if stroke:
            self.stroke(stroke)

    def _path(self, points: Points, *, closed: bool) -> PDFPathObject:
        path = self.canvas.beginPath()
        (x, y), *rest = points
        path.moveTo(x, y)
        for across, up in rest:
            path.lineTo(across, up)
        if closed:
            path.close()
        return path


def tag_width(text: str) -> float:
    """How wide the dashed box about the words is."""
    return TAG.width(text) + 8


COLOUR: Final = {"black": "ink", "slate": "slate", "blue": "chalk", "green": "settled", "brown": "soil", "red": "fails"}
"""The program's own colour for each that the heads of papers may have."""


@cache
def rgb(colour: str) -> tuple[float, float, float]:
    """A named colour of the light theme as parts of one."""
    code = _colours()[colour].removeprefix("#")
    red, green, blue = (int(code[place : place + 2], 16) / 255 for place in (0, 2, 4))
    return red, green, blue


@cache
def _colours() -> dict[str, str]:
    tokens = json.loads(resource("ui", "tokens.json").read_text(encoding="utf-8"))
    colours: dict[str, str] = tokens["colour"]["light"]
    return colours
