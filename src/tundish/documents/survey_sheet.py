"""The survey sheet: blank, with boxes to write in on site; or filled, each size with how it is known."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any, Final

from tundish import measure
from tundish.documents.block import Block, Column, Document, FillIn, Heading, Paragraph, Row, SideBySide, Sketch, Table
from tundish.documents.closing_sheet import pairs
from tundish.documents.drawing import Box, Dimension, Drawing, Ellipse, Line, Mark, Words
from tundish.documents.paper import paper
from tundish.documents.plan_drawing import whole_room
from tundish.documents.section_drawing import section
from tundish.estimate import Estimate
from tundish.field import Entry, Field, fields_of, read
from tundish.layout.design import RoomPlan
from tundish.layout.undecided import others
from tundish.survey.floor import Layer
from tundish.survey.pipes import WasteEntry
from tundish.survey.shape import Electric, Obstacle, Slope
from tundish.survey.survey import Survey
from tundish.survey.wall import Opening, Side, Wall, wall_letter
from tundish.typed import OR

_FILLED = (Column("What", "text", 1.9), Column("Size", "text", 1.6, "strong"), Column("How known", "text", 2.6, "quiet"))
_BLANK = (Column("What", "text", 2.2), Column("Write here", "blank", 3.2), Column("Which", "text", 2.0, "quiet"))
_COPIES: Final[dict[type[Any], int]] = {Opening: 2, Side: 1, Slope: 1, Obstacle: 1, Layer: 3, WasteEntry: 1, Electric: 1}
"""How many empty boxes the blank sheet has for each thing there may be several of."""
_LAST: Final = ("photographs", "note", "surveyed_by")


@dataclass(frozen=True, slots=True)
class _Group:
    title: str
    of: type[Any]
    record: object | None
    path: str
    """Its place in the room."""


def filled(estimate: Estimate) -> Document:
    """What was measured and seen in every room of a job."""
    blocks: list[Block] = []
    for place, plan in enumerate(estimate.job.rooms):
        blocks += _room(estimate, plan, f"rooms.{place}")
    if not blocks:
        blocks.append(Paragraph("No room has been surveyed yet."))
    return paper(estimate, "survey", "Survey sheet", tuple(blocks))


def blank(estimate: Estimate) -> Document:
    """The same sheet to take to site: every box there is, with room to write."""
    words = (
        "Heights from the bare floor, widths from the left end of the wall looking at it, to plaster. All in mm. Tape twice, write both."
    )
    blocks: list[Block] = [
        Paragraph(words, "strong"),
        SideBySide(
            (Sketch(_blank_plan(), "The room from above: draw doors, windows, stack"),), (Sketch(_blank_section(), "At the stack"),)
        ),
    ]
    blocks.append(Table(_BLANK, tuple(_listed(None, lambda _, __, each: Row((each.label, "", _prompt(each)))))))
    blocks.append(FillIn("Appliances wanted, left to right", (), ("Kind and model", "Centre", "Top above floor") * 4))
    blocks.append(FillIn("Photographs taken, tape in the picture", (), ("Stack", "Walls", "Floor", "Pipes", "Electrics", "Access")))
    blocks.append(FillIn("Surveyed", (), ("By", "With", "Date")))
    care = "Before you open or drill: cables and pipes hide in walls; boards and tiles from before 2000 may hold asbestos."
    blocks.append(Paragraph(care, "caution"))
    return paper(estimate, "survey-blank", "Survey sheet, blank", tuple(blocks))


def _room(estimate: Estimate, plan: RoomPlan, path: str) -> Iterator[Block]:
    survey = plan.survey
    by = f", surveyed by {survey.surveyed_by}" if survey.surveyed_by else ""
    yield Heading(f"{plan.name}{by}")
    room = next((each for each in estimate.rooms if each.path == path and each.first), None)
    if room is not None:
        yield SideBySide((Sketch(whole_room(room), "From above"),), (Sketch(section(room), "At the stack"),))
    yield Table(_FILLED, tuple(_listed(survey, lambda group, name, each: _row(plan, group, name, each))))
    if survey.note:
        yield Paragraph(survey.note)
    if survey.photographs:
        yield Heading("Photographs")
        yield from pairs(survey.photographs)
    else:
        yield Paragraph("No photographs are kept with this survey.", "note")


def _listed(survey: Survey | None, row_of: Callable[[_Group, str, Field], Row | None]) -> Iterator[Row]:
    """A row for each box, under the name of what it belongs to; what is in two groups of one name stands under one."""
    said = ""
    for group in _groups(Survey, survey, "", "survey"):
        boxes = fields_of(group.of).items()
        made = (row_of(group, name, each) for name, each in boxes if each.kind not in {"record", "records"})
        rows = [row for row in made if row is not None]
        if rows and group.title != said:
            said = group.title
            yield Row((said,), group=said)
        yield from rows


def _groups(of: type[Any], record: object | None, title: str, path: str) -> Iterator[_Group]:
    """The groups of boxes, in the order they are declared: each record, and each thing there may be several of."""
    for name, each in fields_of(of).items():
        if name in _LAST or each.of is None:
            continue
        label = f"{title}, {each.label.lower()}" if title and each.of is not Wall else title or each.label
        if each.kind == "record":
            inner = None if record is None else getattr(record, name)
            yield _Group(label, each.of, inner, f"{path}.{name}")
            yield from _groups(each.of, inner, label, f"{path}.{name}")
        else:
            several = (None,) * _COPIES.get(each.of, 1) if record is None else getattr(record, name)
            for place, one in enumerate(several, 1):
                numbered = f"Wall {wall_letter(place)}" if each.of is Side and record else f"{label} {place}" if len(several) > 1 else label
                here = f"{path}.{name}.{place - 1}"
                yield _Group(numbered, each.of, one, here)
                yield from _groups(each.of, one, numbered, here)


def _row(plan: RoomPlan, group: _Group, name: str, declared: Field) -> Row | None:
    """What was found, with how it is known; nothing for words that were not written."""
    value, open_ = getattr(group.record, name), others(plan, f"{group.path}.{name}")
    if open_:
        return Row((declared.label, OR.join((str(value), *open_)), "still open"), tbc=True)
    if declared.kind != "number" and value == "":
        return None
    if declared.kind != "number":
        return Row((declared.label, _said(value, declared), ""))
    figure = read(group.record, name)
    if figure is None:
        return Row((declared.label, "–", "not measured"), tbc=True, note="")
    words = measure.show_range(figure.low, figure.high) if figure.low != figure.high else measure.show_amount(figure.value, figure.unit)
    unit = f" {figure.unit}" if figure.unit not in {"", "each"} else ""
    return Row(
        (declared.label, f"{words}{unit}", _known(value if isinstance(value, Entry) else None, str(figure.known), figure.note)), figure.tbc
    )


def _said(value: object, declared: Field) -> str:
    if declared.kind == "flag":
        return "yes" if value else "no"
    if declared.kind == "date":
        return measure.show_date(str(value)) if value else "–"
    return str(value) or "–"


def _known(entry: Entry | None, known: str, note: str) -> str:
    when = measure.show_date(entry.when) if entry is not None and entry.when else ""
    readings = " and ".join(measure.show_number(each, None) for each in entry.readings) if entry is not None and entry.readings else ""
    return ", ".join(word for word in (known, when, f"readings {readings}" if readings else "", note) if word)


def _prompt(declared: Field) -> str:
    """What helps to fill a box: the choices there are, or the help that goes with it."""
    if declared.kind == "choice":
        return " / ".join(declared.options)
    if declared.kind == "flag":
        return "yes / no"
    unit = f"{declared.unit}. " if declared.unit and declared.unit != "each" else ""
    return f"{unit}{declared.help}".strip()


def _blank_plan() -> Drawing:
    wide, deep = 1_800.0, 2_000.0
    marks: tuple[Mark, ...] = (
        Box(0, -deep, wide, deep, "board", filled=False),
        *(Line(x, -deep, x, 0, "tile") for x in range(200, 1_800, 200)),
        *(Line(0, -y, wide, -y, "tile") for y in range(200, 2_000, 200)),
        *(
            Words(x, y, letter, 4, "ink", bold=True)
            for x, y, letter in ((900, -90, "A"), (1_710, -1_000, "B"), (900, -1_910, "C"), (90, -1_000, "D"))
        ),
        Dimension(0, 90, wide, 90, "width"),
        Dimension(-90, -deep, -90, 0, "depth"),
    )
    return Drawing("Blank plan", marks, (-150, -deep - 20, wide + 170, deep + 190))


def _blank_section() -> Drawing:
    marks: tuple[Mark, ...] = (
        Box(-60, -60, 60, 2_060, "wall"),
        Box(0, -60, 1_600, 60, "timber"),
        Box(180, -60, 110, 2_060, "soil"),
        Line(235, -60, 235, 2_000, "datum"),
        Ellipse(235, 300, 52, 52, "ware"),
        Dimension(0, 1_500, 235, 1_500, "from wall"),
        Dimension(520, 0, 520, 248, "branch invert"),
        Line(235, 248, 560, 248, "dimension"),
        Dimension(1_300, 0, 1_300, 60, "build-up"),
        Line(700, 60, 1_600, 60, "hidden"),
        Words(1_150, -120, "bare floor", 2.6),
    )
    return Drawing("Blank section at the stack", marks, (-80, -160, 1_700, 2_180))
