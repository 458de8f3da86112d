"""A face of type as a PDF takes it: read from its file once, with the width of each of its letters."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from tundish.resources import resource


@dataclass(frozen=True, slots=True, eq=False)
class Face:
    """One face, ready to be set: its name, how wide each letter is, in thousandths of the size, and the font itself."""

    name: str
    widths: Mapping[str, float]
    otherwise: float
    font: Any


@cache
def read(name: str, *, whole: bool = True) -> Face:
    """A face by the name of its file, embedded in every PDF that uses it; with all letters of ASCII only where it is `whole`."""
    from reportlab.pdfbase.pdfmetrics import registerFont
    from reportlab.pdfbase.ttfonts import TTFont

    font = TTFont(name, str(resource("fonts", f"{name}.ttf")), asciiReadable=whole)
    registerFont(font)
    widths = {chr(code): wide for code, wide in font.face.charWidths.items()}
    return Face(font.fontName, widths, font.face.defaultWidth, font)
