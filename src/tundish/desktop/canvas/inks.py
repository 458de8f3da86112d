"""The line language on the screen: a pen, a wash and a hatch for every style of mark, from the theme's tokens."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from PySide6.QtCore import QLineF, Qt
from PySide6.QtGui import QBrush, QColor, QFont, QPainter, QPen, QPixmap, QTransform

from tundish.desktop import look, tokens
from tundish.desktop.look import Look
from tundish.documents.drawing import Style

DASHED: Final = (4.0, 3.0)
CHAIN: Final = (10.0, 3.0, 2.0, 3.0)
NO_WASH: Final = Qt.BrushStyle.NoBrush
HATCH: Final = 6
"""Pixels between the lines of a hatch."""
PAPER_MM: Final = 2.6
"""The size of ordinary words on paper; on the screen they take the type role "drawing"."""


@dataclass(frozen=True, slots=True)
class Ink:
    """How a style is drawn: its line (token, width, dashes in pixels), its wash, how solid the wash is, and whether it is hatched."""

    line: str
    width: float = 1.0
    dashes: tuple[float, ...] = ()
    wash: str = ""
    solid: float = 1.0
    hatched: bool = False


INKS: Final[dict[Style, Ink]] = {
    "wall": Ink("tileLine", 1, wash="wallWash", hatched=True),
    "floor": Ink("edge", 1, wash="floorWash"),
    "steel": Ink("steel", 1, wash="steelWash"),
    "timber": Ink("soil", 1, wash="floorWash"),
    "soil": Ink("soil", 1, wash="soilWash"),
    "hot": Ink("hot", 2, wash="hot"),
    "cold": Ink("cold", 2, wash="cold"),
    "board": Ink("ink", 1.75),
    "joint": Ink("ink2", 1.25, (2.0, 3.0)),
    "tile": Ink("tileLine", 1),
    "ware": Ink("ink", 1.25, wash="ware", solid=0.85),
    "hidden": Ink("ink2", 1, DASHED, wash="ware", solid=0.45),
    "datum": Ink("chalk", 1, CHAIN),
    "dimension": Ink("ink", 1),
    "ink": Ink("ink", 1.25, wash="sheet"),
    "hatch": Ink("edge", 1, wash="sheet", hatched=True),
    "keep": Ink("settled", 1.25, DASHED, wash="sheet"),
    "tbc": Ink("tbc", 1.5, DASHED, wash="ware", solid=0.85),
    "chosen": Ink("chalk", 2, wash="chalkWash"),
    "fails": Ink("fails", 2, wash="failsWash"),
    "room": Ink("edge", 1, DASHED, wash="chalkWash", solid=0.45),
}
_WORDS: Final = {"hot": "hot", "cold": "cold", "datum": "chalk", "chosen": "chalk", "tbc": "tbc", "fails": "fails", "keep": "settled"}
_PALE: Final = frozenset({"tile", "hidden", "room", "hatch"})


def pen(style: Style) -> QPen:
    """The pen of a style in the present look."""
    return _pen(style, look.now())


def wash(style: Style) -> QBrush:
    """What a filled mark of a style is filled with in the present look; nothing where the style has no wash."""
    return _wash(style, look.now())


def hatch(style: Style, ratio: float) -> QBrush:
    """Lines at 45 degrees on the style's wash, a fixed number of pixels apart at any scale, for a screen of so many dots a pixel."""
    return _hatch(style, ratio, look.now())


def words_tone(style: Style) -> str:
    """The token that words of a style are written in."""
    return _WORDS.get(style, "ink2" if style in _PALE else "ink")


def words_font(size_mm: float, *, bold: bool) -> QFont:
    """The font of words that are so many millimetres on paper; never smaller than a note on the screen."""
    return _font(round(max(size_mm / PAPER_MM, 1.0) * tokens.type_size("drawing")[0] * look.now().percent / 100), bold)


@lru_cache(maxsize=128)
def _pen(style: Style, wear: Look) -> QPen:
    ink = INKS[style]
    width = ink.width + (0.5 if wear.strong else 0.0)
    made = QPen(QColor(wear.hex(ink.line)), width)
    made.setCapStyle(Qt.PenCapStyle.FlatCap)
    made.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
    if ink.dashes:
        made.setDashPattern([each / width for each in ink.dashes])
    return made


@lru_cache(maxsize=128)
def _wash(style: Style, wear: Look) -> QBrush:
    ink = INKS[style]
    if not ink.wash:
        return QBrush()
    made = QColor(wear.hex(ink.wash))
    made.setAlphaF(ink.solid)
    return QBrush(made)


@lru_cache(maxsize=16)
def _hatch(style: Style, ratio: float, wear: Look) -> QBrush:
    dots = max(round(HATCH * ratio), 1)
    tile = QPixmap(dots, dots)
    tile.fill(QColor(wear.hex(INKS[style].wash)))
    painter = QPainter(tile)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(QColor(wear.hex("tileLine" if style == "wall" else "edge")), (0.75 + (0.5 if wear.strong else 0.0)) * ratio))
    painter.drawLines([QLineF(at - 2 * dots, 2 * dots, at + dots, -dots) for at in (0, dots, 2 * dots)])
    painter.end()
    made = QBrush(tile)
    made.setTransform(QTransform.fromScale(HATCH / dots, HATCH / dots))
    return made


@lru_cache(maxsize=64)
def _font(pixels: int, bold: bool) -> QFont:
    made = QFont(look.font("drawing"))
    made.setPixelSize(pixels)
    made.setWeight(QFont.Weight.DemiBold if bold else QFont.Weight.Medium)
    return made
