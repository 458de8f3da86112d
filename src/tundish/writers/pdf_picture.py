"""A photograph on paper, upright, made no larger than print can show, with what it shows under it. All in points."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import nullcontext
from io import BytesIO
from typing import TYPE_CHECKING, Any, Final

from tundish.documents.block import Picture
from tundish.writers.pdf_flow import ROOM, Strip
from tundish.writers.pdf_pen import EDGE, Pen
from tundish.writers.pdf_tags import Tag
from tundish.writers.pdf_type import Type
from tundish.writers.pictures import Pictures

if TYPE_CHECKING:
    from PIL.Image import Image

CAPTION: Final = Type("Regular", 8.5, "ink2")
DOTS: Final = 150 / 72
"""Dots kept in a point of paper: 150 an inch."""
TALLEST: Final = ROOM * 0.42
_MOST_LINES: Final = 12
_EMPTY: Final = 60.0
_BELOW: Final = 3.0
_QUALITY: Final = 82


def picture_strips(picture: Picture, width: float, pictures: Pictures) -> Iterator[Strip]:
    """The picture over its caption as one strip; an empty frame says where one is missing or cannot be read."""
    shown = opened(pictures(picture.key), (width, TALLEST))
    caption = CAPTION.lines(picture.caption, width, _MOST_LINES) if picture.caption else ()
    high = shown[2] if shown else _EMPTY

    def draw(pen: Pen, left: float, top: float) -> None:
        figure = Tag("Figure", told=picture.caption or "Photograph", box=(left, top - high, left + (shown[1] if shown else width), top))
        if shown:
            with pen.tags.within(figure):
                pen.picture(shown[0], (left, top - high, shown[1], high))
        else:
            pen.box((left, top - high, width, high), stroke=EDGE, radius=3)
            with pen.tags.within(Tag("P")):
                pen.text(left + width / 2, top - high / 2 - 3, "Photograph not at hand", CAPTION, "middle")
        with pen.tags.within(Tag("Caption", figure if shown else None)) if caption else nullcontext():
            for number, line in enumerate(caption):
                pen.text(left, top - high - _BELOW - CAPTION.size - number * CAPTION.leading, line, CAPTION)

    yield Strip(high + _BELOW + len(caption) * CAPTION.leading, draw, 8)


def opened(body: bytes | None, room: tuple[float, float], dots: float = DOTS) -> tuple[Any, float, float] | None:
    """A picture as it is put into the page, no larger than the room, and its width and height there; None where it is none."""
    from PIL import Image, ImageOps
    from reportlab.lib.utils import ImageReader

    if not body:
        return None
    try:
        with Image.open(BytesIO(body)) as read:
            image = ImageOps.exif_transpose(read).convert("RGB")
    except (OSError, ValueError, SyntaxError, Image.DecompressionBombError):
        return None
    across, down = image.size
    scale = min(room[0] / across, room[1] / down)
    paper = (across * scale, down * scale)
    return ImageReader(_smaller(image, paper, dots)), *paper


def _smaller(image: Image, paper: tuple[float, float], dots: float) -> BytesIO:
    kept = BytesIO()
    image.thumbnail((max(1, round(paper[0] * dots)), max(1, round(paper[1] * dots))))
    image.save(kept, "JPEG", quality=_QUALITY)
    kept.seek(0)
    return kept
