"""The blank survey sheet, to take to site: a box for every input, those of things there are several of side by side."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Final

from tundish.documents.block import Block, Column, Document, FillIn, Paragraph, Row, SideBySide, Sketch, Table
from tundish.documents.drawing import Box, Dimension, Drawing, Ellipse, Line, Mark, Words
from tundish.documents.paper import paper
from tundish.estimate import Estimate
from tundish.field import Field, fields_of
from tundish.survey.floor import Layer
from tundish.survey.pipes import WasteEntry
from tundish.survey.shape import Electric, Obstacle, Slope
from tundish.survey.survey import Survey
from tundish.survey.wall import Opening, Side, Wall

_COPIES: Final[dict[type[Any], int]] = {Opening: 3, Slope: 2, Obstacle: 3, Layer: 4, WasteEntry: 2, Electric: 4}
"""How many empty boxes there are for each thing there may be several of."""
_WALLS: Final = ("Wall A", "B", "C", "D")
_LAST: Final = ("photographs", "note", "surveyed_by")
_SCALE: Final = 40
"""Squares of 5 mm: with larger ones the sheet takes a fifth page."""
_WRITE: Final = {1: 2.2, 2: 2.2, 3: 1.6, 4: 1.4}
"""How wide a box is where so many stand side by side, as a share."""


_WANTED: Final = (("Kind and model", 3.0), ("Centre", 1.2), ("Top above floor", 1.2))


@dataclass(frozen=True, slots=True)
class _Form:
    """What is asked of a thing, and the head over the box of each of its kind."""

    title: str
    fields: tuple[Field, ...]
    heads: tuple[str, ...]


def build(estimate: Estimate) -> Document:
    """Every box there is, with room to write."""
    words = "Heights from the bare floor, widths from the left end of the wall you face, to plaster. All in mm. Tape twice, write both."
    care = "Before you open or drill: cables and pipes hide in walls; boards and tiles from before 2000 may hold asbestos."
    plan, section = Sketch(_plan(), "From above: draw doors, windows, stack", _SCALE), Sketch(_section(), "At the stack", _SCALE)
    blocks: tuple[Block, ...] = (
        Paragraph(words, "strong"),
        Paragraph(care, "caution"),
        SideBySide((plan,), (section,)),
        *map(_table, _forms(Survey)),
        _appliances(),
        FillIn(
            "Photographs taken, tape in the picture; surveyed",
            (),
            ("Stack", "Walls", "Floor", "Pipes", "Electrics", "Access", "Surveyed by", "With", "Date"),
        ),
    )
    return paper(estimate, "survey-blank", "Survey sheet, blank", blocks)


def _forms(of: type[Any], title: str = "") -> Iterator[_Form]:
    """What is asked of a record and of all within it, in the order they are declared; the walls, all alike, are one."""
    for name, each in fields_of(of).items():
        if name in _LAST or each.of is None or each.of is Side:
            continue
        label = f"{title}, {each.label.lower()}" if title else each.label
        copies = _COPIES.get(each.of, 1) if each.kind == "records" else 1
        if each.of is Wall:
            yield _Form("Walls", (*_boxes(Side), *_boxes(Wall)), _WALLS)
        else:
            yield _Form(label, _boxes(each.of), tuple(str(copy) for copy in range(1, copies + 1)) if copies > 1 else ("Write here",))
            yield from _forms(each.of, label)


def _boxes(of: type[Any]) -> tuple[Field, ...]:
    return tuple(each for each in fields_of(of).values() if each.kind not in {"record", "records"})


def _table(form: _Form) -> Table:
    wide = _WRITE[len(form.heads)]
    boxes = tuple(Column(head, "blank", wide) for head in form.heads)
    columns = (Column(form.title, "text", 1.9), *boxes, Column("Which", "text", 1.8, "quiet"))
    return Table(columns, tuple(Row((each.label, *("",) * len(form.heads), _prompt(each))) for each in form.fields))


def _appliances() -> Table:
    heads = (Column("Wanted, left to right", "text", 1.2), *(Column(head, "blank", wide) for head, wide in _WANTED))
    return Table(heads, tuple(Row((f"{place}", *("",) * len(_WANTED))) for place in range(1, 5)))


def _prompt(declared: Field) -> str:
    """What helps to fill a box: the choices there are, or the help that goes with it; all is in mm unless it says otherwise."""
    if declared.kind == "choice":
        return " / ".join(declared.options)
    if declared.kind == "wall":
        return "A, B, C…"
    if declared.kind == "flag":
        return "yes / no"
    unit = "" if declared.unit in {"", "mm", "each"} else f"{declared.unit}. "
    return f"{unit}{declared.help}".strip()


def _plan() -> Drawing:
    wide, deep = 1_800.0, 1_600.0
    marks: tuple[Mark, ...] = (
        Box(0, -deep, wide, deep, "board", filled=False),
        *(Line(x, -deep, x, 0, "tile") for x in range(200, 1_800, 200)),
        *(Line(0, -y, wide, -y, "tile") for y in range(200, 1_600, 200)),
        *(
            Words(x, y, letter, 4, "ink", bold=True)
            for x, y, letter in ((900, -90, "A"), (1_710, -800, "B"), (900, -1_510, "C"), (90, -800, "D"))
        ),
        Dimension(0, 90, wide, 90, "width"),
        Dimension(-90, -deep, -90, 0, "depth"),
    )
    return Drawing("Blank plan", marks, (-150, -deep - 20, wide + 170, deep + 190))


def _section() -> Drawing:
    marks: tuple[Mark, ...] = (
        Box(-60, -60, 60, 1_660, "wall"),
        Box(0, -60, 1_600, 60, "timber"),
        Box(180, -60, 110, 1_660, "soil"),
        Line(235, -60, 235, 1_600, "datum"),
        Ellipse(235, 300, 52, 52, "ware"),
        Dimension(0, 1_200, 235, 1_200, "from wall"),
        Dimension(880, 0, 880, 248, "branch invert"),
        Line(235, 248, 920, 248, "dimension"),
        Dimension(1_500, 0, 1_500, 110, "build-up"),
        Line(960, 110, 1_600, 110, "hidden"),
        Words(1_150, -120, "bare floor", 2.6),
    )
    return Drawing("Blank section at the stack", marks, (-80, -160, 1_700, 1_780))
