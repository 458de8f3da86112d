"""A drawing as a picture within a page (SVG), in the line language of the sheet."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape
from typing import Final

from tundish.documents.drawing import Box, Dimension, Drawing, Ellipse, Line, Mark, Shape, Style, Words
from tundish.writers.pdf_drawing import DIMENSION, LOOKS, cleared
from tundish.writers.pdf_pen import rgb
from tundish.writers.pdf_sketch import seen
from tundish.writers.pdf_type import MM, Type
from tundish.writers.safe import legible

WIDE: Final = 180.0
"""Millimetres of paper that a drawing is laid out for: its words and lines keep their size to one another."""
_LARGER: Final = 1.25
"""Words are larger on a screen than on paper."""


def as_svg(drawing: Drawing, paper: float = WIDE) -> str:
    """The drawing with its title for who cannot see it, for a place that would be so many millimetres wide on paper."""
    each = max(drawing.extent[2], 1.0) / paper
    points = MM / (each * _LARGER)
    drawing = cleared(drawing, points)
    x, y, right, top = (edge / points for edge in seen(drawing, points))
    wide, high = right - x, top - y
    picture = _Picture(each)
    marks = "".join(part for mark in drawing.marks for part in picture.mark(mark))
    title = escape(legible(drawing.title))
    box = f"{x:.1f} {-(y + high):.1f} {max(wide, 1):.1f} {max(high, 1):.1f}"
    return f'<svg viewBox="{box}" role="img" aria-label="{title}"><title>{title}</title>{marks}</svg>'


class _Picture:
    """Marks as elements; `each` is how many millimetres of the drawing are one of paper."""

    def __init__(self, each: float) -> None:
        self._each = each

    def mark(self, mark: Mark) -> Iterator[str]:
        match mark:
            case Line():
                yield f'<line x1="{mark.x1:.1f}" y1="{-mark.y1:.1f}" x2="{mark.x2:.1f}" y2="{-mark.y2:.1f}"{self._stroke(mark.style)}/>'
            case Box():
                place = f'x="{mark.x:.1f}" y="{-mark.y - mark.height:.1f}" width="{mark.width:.1f}" height="{mark.height:.1f}"'
                yield f"<rect {place}{self._fill(mark.style, filled=mark.filled)}/>"
            case Shape():
                points = " ".join(f"{x:.1f},{-y:.1f}" for x, y in mark.points)
                yield f'<polygon points="{points}"{self._fill(mark.style, filled=mark.filled)}/>'
            case Ellipse():
                place = f'cx="{mark.x:.1f}" cy="{-mark.y:.1f}" rx="{mark.half_width:.1f}" ry="{mark.half_height:.1f}"'
                yield f"<ellipse {place}{self._fill(mark.style, filled=mark.filled)}/>"
            case Words():
                yield self._words(mark)
            case Dimension():
                yield from self._dimension(mark)

    def _dimension(self, mark: Dimension) -> Iterator[str]:
        yield f'<line x1="{mark.x1:.1f}" y1="{-mark.y1:.1f}" x2="{mark.x2:.1f}" y2="{-mark.y2:.1f}"{self._stroke("dimension")}/>'
        upright = abs(mark.x2 - mark.x1) < abs(mark.y2 - mark.y1)
        aside = 1.6 * self._each
        x, y = (mark.x1 + mark.x2) / 2 - (aside if upright else 0), (mark.y1 + mark.y2) / 2 + (0 if upright else aside)
        style: Style = "tbc" if mark.tbc else "ink"
        yield self._words(Words(x, y, mark.text, DIMENSION, style, turned=upright))

    def _words(self, mark: Words) -> str:
        x, y = f"{mark.x:.1f}", f"{-mark.y:.1f}"
        turned = f' transform="rotate(-90 {x} {y})"' if mark.turned else ""
        weight = ' font-weight="700"' if mark.bold else ""
        edge = LOOKS[mark.style].edge
        colour = code_of(edge.colour if edge else "ink")
        high = mark.size * _LARGER * self._each
        kind = Type("SemiBold" if mark.bold else "Regular", high)
        words = kind.cut(mark.text, mark.most) if mark.most else legible(mark.text)
        held = f' textLength="{kind.width(words):.1f}" lengthAdjust="spacingAndGlyphs"' if mark.most and words else ""
        return (
            f'<text x="{x}" y="{y}" font-size="{high:.1f}" text-anchor="{mark.anchor}" dominant-baseline="central" fill="{colour}"'
            f"{weight}{turned}{held}>{escape(words)}</text>"
        )

    def _stroke(self, style: Style) -> str:
        edge = LOOKS[style].edge
        if edge is None:
            return ' stroke="none"'
        dashes = " ".join(f"{each / MM * self._each:.1f}" for each in edge.dash)
        dashed = f' stroke-dasharray="{dashes}"' if dashes else ""
        return f' stroke="{code_of(edge.colour)}" stroke-width="{edge.width / MM * self._each:.2f}"{dashed}'

    def _fill(self, style: Style, *, filled: bool) -> str:
        look = LOOKS[style]
        fill = code_of(look.fill) if filled and look.fill else "none"
        return f' fill="{fill}" fill-opacity="{look.solid:g}"{self._stroke(style)}'


def code_of(name: str) -> str:
    """A named colour of the light theme as HTML and SVG write it."""
    return "#" + "".join(f"{round(part * 255):02x}" for part in rgb(name))
