"""The survey sheet, filled: what was measured and seen, each size with how it is known."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Final

from tundish import measure
from tundish.documents.block import Block, Column, Document, Heading, Paragraph, Row, SideBySide, Sketch, Table
from tundish.documents.closing_sheet import pairs
from tundish.documents.paper import paper
from tundish.documents.plan_drawing import whole_room
from tundish.documents.section_drawing import section
from tundish.estimate import Estimate
from tundish.field import Entry, Field, fields_of, read
from tundish.layout.design import RoomPlan
from tundish.layout.undecided import others
from tundish.survey.floor import SOLID, Floor
from tundish.survey.survey import Survey
from tundish.survey.wall import SOLID_WALLS, Side, Wall, wall_letter
from tundish.typed import OR

_FILLED = (Column("What", "text", 1.9), Column("Size", "text", 1.6, "strong"), Column("How known", "text", 2.6, "quiet"))
_LAST: Final = ("photographs", "note", "surveyed_by")


@dataclass(frozen=True, slots=True)
class _Group:
    title: str
    of: type[Any]
    record: object
    path: str
    """Its place in the room."""


def build(estimate: Estimate) -> Document:
    """What was measured and seen in every room of a job."""
    blocks: list[Block] = []
    for place, plan in enumerate(estimate.job.rooms):
        blocks += _room(estimate, plan, f"rooms.{place}")
    if not blocks:
        blocks.append(Paragraph("No room has been surveyed yet."))
    return paper(estimate, "survey", "Survey sheet", tuple(blocks))


def _room(estimate: Estimate, plan: RoomPlan, path: str) -> Iterator[Block]:
    survey = plan.survey
    by = f", surveyed by {survey.surveyed_by}" if survey.surveyed_by else ""
    yield Heading(f"{plan.name}{by}")
    room = next((each for each in estimate.rooms if each.path == path and each.first), None)
    if room is not None:
        yield SideBySide((Sketch(whole_room(room), "From above"),), (Sketch(section(room), "At the stack"),))
    yield Table(_FILLED, tuple(_listed(plan)))
    if survey.note:
        yield Paragraph(survey.note)
    if survey.photographs:
        yield Heading("Photographs")
        yield from pairs(survey.photographs)
    else:
        yield Paragraph("No photographs are kept with this survey.", "note")


def _listed(plan: RoomPlan) -> Iterator[Row]:
    """A row for each box, under the name of what it belongs to; what is in two groups of one name stands under one."""
    said = ""
    for group in _groups(Survey, plan.survey, "", "survey"):
        boxes = fields_of(group.of).items()
        made = (
            _row(plan, group, name, each)
            for name, each in boxes
            if each.kind not in {"record", "records"} and not _is_none_there(group.record, name)
        )
        rows = [row for row in made if row is not None]
        if rows and group.title != said:
            said = group.title
            yield Row((said,), group=said)
        yield from rows


def _groups(of: type[Any], record: object, title: str, path: str) -> Iterator[_Group]:
    """The groups of boxes, in the order they are declared: each record, and each thing there may be several of."""
    for name, each in fields_of(of).items():
        if name in _LAST or each.of is None:
            continue
        label = f"{title}, {each.label.lower()}" if title and each.of is not Wall else title or each.label
        if each.kind == "record":
            inner = getattr(record, name)
            yield _Group(label, each.of, inner, f"{path}.{name}")
            yield from _groups(each.of, inner, label, f"{path}.{name}")
        else:
            several = getattr(record, name)
            for place, one in enumerate(several, 1):
                numbered = f"Wall {wall_letter(place)}" if each.of is Side else f"{label} {place}" if len(several) > 1 else label
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
    if figure is None and name in _IF_ANY:
        return None
    if figure is None:
        return Row((declared.label, "–", "not measured"), tbc=True, note="")
    words = measure.show_range(figure.low, figure.high) if figure.low != figure.high else measure.show_amount(figure.value, figure.unit)
    unit = f" {figure.unit}" if figure.unit not in {"", "each"} else ""
    return Row(
        (declared.label, f"{words}{unit}", _known(value if isinstance(value, Entry) else None, str(figure.known), figure.note)), figure.tbc
    )


def _is_none_there(record: object, name: str) -> bool:
    """Whether it asks for studs in a solid wall, or joists under a floor that lies on none, and nobody measured any."""
    if isinstance(getattr(record, name), Entry):
        return False
    if isinstance(record, Wall):
        return name in {"stud_centres", "first_stud"} and record.construction in SOLID_WALLS
    return isinstance(record, Floor) and name in {"joist_centres", "joists_run"} and record.kind in SOLID


_IF_ANY: Final = frozenset({"floor_thick", "valve_air", "others"})
"""What most stacks and entries have not: left out while it is blank."""


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
