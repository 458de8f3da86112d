"""The pen that draws on a page: text, lines and boxes in the program's colours. All in points, y upwards."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Any, Final, Literal

from tundish.resources import resource
from tundish.writers.pdf_letters import drawable, on_the_line
from tundish.writers.pdf_operators import Operators, Setting
from tundish.writers.pdf_tags import Tags
from tundish.writers.pdf_type import MM, Type, face, width_of

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

Points = Iterable[tuple[float, float]]
Box = tuple[float, float, float, float]
Ends = tuple[float, float, float, float]
"""Of a line: across and up of the one, and of the other."""
Dash = tuple[float, ...]
Anchor = Literal["start", "middle", "end"]
PAGE: Final = (210 * MM, 297 * MM)
DASHED: Final[Dash] = (3, 2)
_MANY: Final = 5
"""Pages from which on a drawing that is kept for all of them takes fewer bytes."""
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
        self._operators = Operators(canvas)
        self.tags = Tags(canvas, self._operators)
        self._stamps: dict[object, str] = {}
        self._put_off: dict[Stroke, tuple[list[Ends], list[Box]]] = {}
        self.forget()

    def forget(self) -> None:
        """Start afresh: neither colour nor width is known."""
        self._fill = ""
        self._stroke: Stroke | None = None
        self._operators.forget()

    def finish(self) -> None:
        """End a page: draw what was put off, and start afresh."""
        for stroke, (ends, boxes) in self._put_off.items():
            self.stroke(stroke)
            self._operators.ruled(ends, boxes)
        self._put_off.clear()
        self.tags.page_ends()
        self._operators.page_ends()
        self.forget()

    def again(self, what: object, draw: Callable[[], None], pages: int) -> None:
        """What stands alike on so many pages and is of no part: where there are many, it is drawn once and put on each as it is."""
        if pages < _MANY:
            with self.tags.aside():
                draw()
        else:
            self._stamp(what, draw)

    def text(self, x: float, y: float, text: str, kind: Type, anchor: Anchor = "start") -> None:
        """Words on a baseline, from, about or up to a point."""
        words = drawable(text)
        if not words:
            return
        self.fill(kind.colour)
        goes_on = self.tags.read(words)
        setting, words = face(kind.weight), on_the_line(words)
        if anchor != "start":
            x -= width_of(setting, words, kind.size) * (1.0 if anchor == "end" else 0.5)
        # A space parts lines of one part when they are read out; it stands where it moves nothing.
        if anchor == "start":
            words += " "
        elif goes_on:
            x, words = x - width_of(setting, " ", kind.size), f" {words}"
        self._operators.words(Setting(x, y, setting, kind.size), words)

    def line(self, x1: float, y1: float, x2: float, y2: float, stroke: Stroke = RULE) -> None:
        """A straight line."""
        self.stroke(stroke)
        self._operators.line(x1, y1, x2, y2)

    def lines(self, ends: Iterable[Ends], stroke: Stroke) -> None:
        """Many straight lines."""
        self.stroke(stroke)
        self._operators.ruled(ends, ())

    def rule(self, ends: Ends, stroke: Stroke) -> None:
        """A line of a table, over all else and of no part: drawn with the others like it when the page ends."""
        self._put_off.setdefault(stroke, ([], []))[0].append(ends)

    def square(self, box: Box, stroke: Stroke) -> None:
        """A box of a table, as `rule`."""
        self._put_off.setdefault(stroke, ([], []))[1].append(box)

    def box(self, box: Box, *, fill: str = "", stroke: Stroke | None = None, radius: float = 0) -> None:
        """A rectangle by its lower left corner, width and height."""
        how = self._ready(fill, stroke)
        if radius:
            self._operators.round_box(box, radius, how)
        else:
            self._operators.box(*box, how)

    def ellipse(self, x: float, y: float, halves: tuple[float, float], *, fill: str = "", stroke: Stroke | None = None) -> None:
        """An ellipse by its centre and half axes."""
        self._operators.ellipse(x, y, halves, self._ready(fill, stroke))

    def shape(self, points: Points, *, fill: str = "", stroke: Stroke | None = None, closed: bool = True) -> None:
        """A line through points, closed or open."""
        self._operators.path(points, self._ready(fill, stroke), closed=closed)

    def picture(self, body: Any, box: Box) -> None:
        """A picture as reportlab reads it, in a box."""
        self.tags.ready()
        self._operators.part()
        self._operators.open()
        self.canvas.drawImage(body, *box)

    @contextmanager
    def within(self, points: Points) -> Iterator[None]:
        """Draw only inside an outline."""
        with self.turned(0, 0, 0):
            self._operators.path(points, "W n", closed=True)
            yield

    @contextmanager
    def turned(self, x: float, y: float, degrees: float) -> Iterator[None]:
        """Draw about a point, turned against the clock; colours and widths are put back afterwards."""
        self.tags.close()
        self._operators.part()
        self._operators.open()
        self.canvas.saveState()
        if x or y:
            self.canvas.translate(x, y)
        if degrees:
            self.canvas.rotate(degrees)
        yield
        self.tags.close()
        self._operators.part()
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
            self._operators.state(f"{_parts(colour)} rg")
            self._fill = colour

    def stroke(self, stroke: Stroke) -> None:
        """Draw lines so from now on."""
        self.tags.ready()
        if stroke == self._stroke:
            return
        last = self._stroke
        if last is None or stroke.colour != last.colour:
            self._operators.state(f"{_parts(stroke.colour)} RG")
        if last is None or stroke.width != last.width:
            self._operators.state(f"{stroke.width:g} w")
        if last is None or stroke.dash != last.dash:
            self._operators.state(f"[{' '.join(f'{each:g}' for each in stroke.dash)}] 0 d")
        self._stroke = stroke

    def _stamp(self, what: object, draw: Callable[[], None]) -> None:
        name = self._stamps.setdefault(what, f"S{len(self._stamps)}")
        if not self.canvas.hasForm(name):
            self.tags.close()
            self._operators.part()
            self.canvas.beginForm(name, 0, 0, *PAGE)
            self.forget()
            with self.tags.aside():
                draw()
            self._operators.part()
            self.canvas.endForm()
            self.forget()
        with self.tags.aside():
            self._operators.part()
            self._operators.open()
            self.canvas.doForm(name)

    def _ready(self, fill: str, stroke: Stroke | None) -> str:
        """How a path is painted, its colours set: its edge, its inside, both or neither."""
        if fill:
            self.fill(fill)
        if stroke:
            self.stroke(stroke)
        return "B*" if fill and stroke else "f*" if fill else "S" if stroke else "n"


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
def _parts(colour: str) -> str:
    return " ".join(f"{part:.3g}" for part in rgb(colour))


@cache
def _colours() -> dict[str, str]:
    tokens = json.loads(resource("ui", "tokens.json").read_text(encoding="utf-8"))
    colours: dict[str, str] = tokens["colour"]["light"]
    return colours
