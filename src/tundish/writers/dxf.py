"""The drawings of a paper as DXF: model space in millimetres, every kind of mark on a layer with a name a drawing office reads.

The first drawing keeps its own origin, so that x is from the left wall and y from the bare floor; each further one stands under it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from io import StringIO
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from tundish.documents.block import Document, Sketch, TrueSize
from tundish.documents.drawing import Box, Dimension, Drawing, Ellipse, Line, Mark, Shape, Style, Words, moved
from tundish.writers.pdf_type import Type
from tundish.writers.safe import one_line, write_whole
from tundish.writers.tables import in_order

if TYPE_CHECKING:
    from ezdxf.layouts.layout import Modelspace

LAYERS: Final[dict[Style, tuple[str, int, str]]] = {
    "wall": ("WALL", 8, "CONTINUOUS"),
    "floor": ("FLOOR-BUILD-UP", 42, "CONTINUOUS"),
    "steel": ("STEEL", 5, "CONTINUOUS"),
    "timber": ("TIMBER", 32, "CONTINUOUS"),
    "soil": ("SOIL-AND-WASTE", 34, "CONTINUOUS"),
    "hot": ("HOT", 1, "CONTINUOUS"),
    "cold": ("COLD", 4, "CONTINUOUS"),
    "board": ("BOARD", 7, "CONTINUOUS"),
    "joint": ("BOARD-JOINTS", 8, "DOT"),
    "tile": ("TILE", 9, "CONTINUOUS"),
    "ware": ("WARE", 7, "CONTINUOUS"),
    "hidden": ("HIDDEN", 8, "DASHED"),
    "datum": ("DATUM-AND-CENTRES", 5, "CENTER"),
    "dimension": ("DIMENSIONS", 3, "CONTINUOUS"),
    "ink": ("OUTLINE", 7, "CONTINUOUS"),
    "hatch": ("SCRAP", 8, "CONTINUOUS"),
    "keep": ("KEEP", 8, "DASHED"),
    "tbc": ("TO-BE-CONFIRMED", 30, "DASHED"),
    "chosen": ("CHOSEN", 5, "CONTINUOUS"),
    "fails": ("FAILS", 1, "CONTINUOUS"),
    "room": ("SPACE", 9, "DOT"),
}
"""Layer, colour number and line type of every style."""
TEXT: Final = "TEXT"
"""The layer of words that belong to no line of their own."""
SCALE: Final = 20
"""Words are as high as they are on paper at 1:20; at true size as they are."""
BETWEEN: Final = 300.0
"""From one drawing to the next, mm."""
_OWN: Final = frozenset({"datum", "dimension", "tbc", "fails", "hot", "cold"})
"""Styles whose words stand on the layer of their lines."""
_CAPITAL: Final = 0.67
"""How high a capital is, as a part of the size of the type: a drawing program is told the one."""
_TICK: Final = 1.2
_SIZE: Final = 2.4


def write_dxf(document: Document, path: Path, printed: str) -> None:
    """Write the drawings of a paper to a file.

    Raises:
        CouldNotWriteError: the file could not be written; what was there is untouched.
    """
    write_whole(path, as_dxf(document, printed).encode())


def as_dxf(document: Document, printed: str = "") -> str:
    """The drawings of a paper as the text of a DXF file (release 2010); a paper without drawings gives an empty model space."""
    import ezdxf
    from ezdxf import units

    drawn = ezdxf.new("R2010", setup=["linetypes"], units=units.MM)  # type: ignore[attr-defined]
    for name, colour, line in LAYERS.values():
        drawn.layers.add(name, color=colour, linetype=line)
    drawn.layers.add(TEXT, color=7)
    drawn.header["$LTSCALE"] = SCALE
    title = f"{document.title} {document.number}, {document.subtitle}" + (f", printed {printed}" if printed else "")
    drawn.header.custom_vars.append("Title", one_line(title))
    space = drawn.modelspace()
    for drawing, scale in _stacked(document):
        for mark in drawing.marks:
            _ADDS[type(mark)](space, mark, scale)
    kept = StringIO()
    drawn.write(kept)
    return kept.getvalue()


def _stacked(document: Document) -> Iterator[tuple[Drawing, float]]:
    """The drawings one under the other, each with its title over it, and how many times larger its words are."""
    low: float | None = None
    for block in in_order(document.blocks):
        if not isinstance(block, Sketch | TrueSize):
            continue
        drawing, scale = block.drawing, SCALE if isinstance(block, Sketch) else 1
        left, bottom, wide, high = drawing.extent
        down = 0.0 if low is None else low - BETWEEN - (bottom + high)
        caption = Words(left, bottom + high + 4 * scale, drawing.title, 3.5, "ink", "start", bold=True)
        yield Drawing(drawing.title, moved((*drawing.marks, caption), 0, down), (left, bottom + down, wide, high)), scale
        low = bottom + down


def _layer(style: Style) -> dict[str, Any]:
    return {"layer": LAYERS[style][0]}


def _line(space: Modelspace, mark: Line, _: float) -> None:
    space.add_line((mark.x1, mark.y1), (mark.x2, mark.y2), dxfattribs=_layer(mark.style))


def _outline(space: Modelspace, points: Sequence[tuple[float, float]], style: Style) -> None:
    space.add_lwpolyline(points, close=True, dxfattribs=_layer(style))


def _box(space: Modelspace, mark: Box, _: float) -> None:
    right, top = mark.x + mark.width, mark.y + mark.height
    _outline(space, ((mark.x, mark.y), (right, mark.y), (right, top), (mark.x, top)), mark.style)


def _shape(space: Modelspace, mark: Shape, _: float) -> None:
    if mark.points:
        _outline(space, mark.points, mark.style)


def _ellipse(space: Modelspace, mark: Ellipse, _: float) -> None:
    across, up = mark.half_width, mark.half_height
    if across == up:
        space.add_circle((mark.x, mark.y), across, dxfattribs=_layer(mark.style))
    else:
        main, ratio = ((across, 0), up / across) if across > up else ((0, up), across / up)
        space.add_ellipse((mark.x, mark.y), main, max(ratio, 1e-6), dxfattribs=_layer(mark.style))


def _words(space: Modelspace, mark: Words, scale: float) -> None:
    from ezdxf.enums import TextEntityAlignment as At

    align = {"start": At.MIDDLE_LEFT, "middle": At.MIDDLE_CENTER, "end": At.MIDDLE_RIGHT}[mark.anchor]
    layer = LAYERS[mark.style][0] if mark.style in _OWN else TEXT
    high = mark.size * scale
    words = Type("Regular", high / _CAPITAL).cut(mark.text, mark.most) if mark.most else mark.text
    made = space.add_text(one_line(words), height=high, rotation=90 if mark.turned else 0, dxfattribs={"layer": layer})
    made.set_placement((mark.x, mark.y), align=align)


def _dimension(space: Modelspace, mark: Dimension, scale: float) -> None:
    """Drawn as lines and words: what it says stands, whatever a program would measure."""
    _line(space, Line(mark.x1, mark.y1, mark.x2, mark.y2, "dimension"), scale)
    tick, away = _TICK * scale, _SIZE * scale
    for x, y in ((mark.x1, mark.y1), (mark.x2, mark.y2)):
        _line(space, Line(x - tick, y - tick, x + tick, y + tick, "dimension"), scale)
    upright = abs(mark.y2 - mark.y1) > abs(mark.x2 - mark.x1)
    x, y = (mark.x1 + mark.x2) / 2 - away * upright, (mark.y1 + mark.y2) / 2 + away * (not upright)
    words = mark.text if not mark.tbc or "TBC" in mark.text else f"{mark.text} TBC"
    _words(space, Words(x, y, words, _SIZE, "tbc" if mark.tbc else "dimension", turned=upright), scale)


_ADDS: Final[dict[type[Mark], Callable[[Any, Any, float], None]]] = {
    Line: _line,
    Box: _box,
    Shape: _shape,
    Ellipse: _ellipse,
    Words: _words,
    Dimension: _dimension,
}
