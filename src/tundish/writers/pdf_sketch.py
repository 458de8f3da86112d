"""A drawing as a strip: at a round scale that is stated, never split. In points; the drawing itself in millimetres."""

from __future__ import annotations

from contextlib import nullcontext
from typing import Final

from tundish.documents.block import Sketch
from tundish.documents.drawing import SMALLEST, Drawing, scales
from tundish.writers.pdf_drawing import At, bounds, cleared, paint
from tundish.writers.pdf_flow import ROOM, Strip
from tundish.writers.pdf_pen import Pen
from tundish.writers.pdf_tags import Tag
from tundish.writers.pdf_type import MM, Type

TALLEST: Final = 0.6 * ROOM
CAPTION: Final = Type("Regular", 8.5, "ink2")
_MOST_LINES: Final = 4
_BELOW: Final = 4.0


def sketch_strip(sketch: Sketch, width: float) -> Strip:
    """The drawing and its caption as one strip, centred."""
    drawing = sketch.drawing
    scale = scale_of(drawing, sketch.scale, width * min(max(sketch.share, 0.1), 1.0))
    drawing = cleared(drawing, MM / scale)
    left, low, right, high = seen(drawing, MM / scale)
    stated = f"{sketch.caption} · scale 1:{scale:g}" if sketch.caption else f"Scale 1:{scale:g}"
    caption = () if sketch.told else CAPTION.lines(stated, width)
    if len(caption) > _MOST_LINES:  # never without its scale
        caption = (*CAPTION.lines(sketch.caption, width, _MOST_LINES - 1), f"scale 1:{scale:g}")
    told = sketch.told or f"{drawing.title}. {stated}"
    picture = high - low + _BELOW

    def draw(pen: Pen, edge: float, top: float) -> None:
        x, y = edge + (width - right - left) / 2, top - high
        figure = Tag("Figure", told=told, box=(x + left, y + low, x + right, y + high))
        with pen.tags.within(figure):
            paint(pen, drawing.marks, At(x, y, MM / scale))
        with pen.tags.within(Tag("Caption", figure)) if caption else nullcontext():
            for number, line in enumerate(caption):
                pen.text(edge + width / 2, top - picture - CAPTION.size - number * CAPTION.leading, line, CAPTION, "middle")

    return Strip(picture + len(caption) * CAPTION.leading, draw, 8)


def seen(drawing: Drawing, each: float) -> tuple[float, float, float, float]:
    """What is seen of it, with the words that stand out: left, bottom, right, top in points, `each` to a millimetre of it."""
    x, y, width, height = drawing.extent
    whole = (x * each, y * each, (x + width) * each, (y + height) * each)
    boxes = [whole, *(box for mark in drawing.marks if (box := bounds(mark, each)))]
    lefts, lows, rights, highs = zip(*boxes, strict=True)
    return min(lefts), min(lows), max(rights), max(highs)


def scale_of(drawing: Drawing, wanted: float, width: float) -> float:
    """The scale (1 to so much) a drawing is set at: the one wanted if it fits, or else the largest picture that does."""
    if wanted > 0 and _fits(drawing, wanted, width, ROOM - 60):
        return wanted
    return next((scale for scale in scales(wanted) if _fits(drawing, scale, width, TALLEST)), SMALLEST)


def _fits(drawing: Drawing, scale: float, width: float, tallest: float) -> bool:
    left, low, right, high = seen(drawing, MM / scale)
    return right - left <= width and high - low <= tallest
