"""The closing sheet: what is behind the wall once it is boarded, how it was proven, by whom, and what was left open."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from tundish import measure
from tundish.documents.block import Block, Column, Document, FillIn, Heading, Paragraph, Picture, Points, Row, SideBySide, Sketch, Table
from tundish.documents.paper import along_wall, paper, wall_title
from tundish.documents.wall_drawing import Show, elevation
from tundish.estimate import Estimate
from tundish.layout.room import PipeRun, Room
from tundish.rules.readings import of_record, shown_by
from tundish.rules.rule import Decision
from tundish.survey.settled import CLOSED, Settled
from tundish.survey.shape import Photograph

WHOLE_JOB = "The whole job"
_BEHIND = Show(tiles=False, marks=False)
_PIPES = (
    Column("Behind the wall", "text", 2.2),
    Column("Size", "text", 0.7, "quiet"),
    Column("Runs", "text", 0.8, "quiet"),
    Column("From left end of wall", "text", 1.5, "strong"),
    Column("Above bare floor", "text", 1.4, "strong"),
    Column("Above finished", "text", 1.4),
)
_PROVEN = (
    Column("What was settled", "text", 1.8, "strong"),
    Column("State", "text", 0.9),
    Column("Shown by", "text", 2.6),
    Column("Who", "text", 1.2),
    Column("When", "text", 1.1),
)


def build(estimate: Estimate) -> Document:
    """The closing sheet of a job, wall by wall."""
    blocks: list[Block] = [Paragraph(_closed_words(estimate), "strong")]
    for room in estimate.rooms:
        blocks += (
            Heading(wall_title(room)),
            Sketch(elevation(room, _BEHIND), "What is behind the boards; widths from the left end of the wall"),
            Table(_PIPES, (*_stack_row(room), *(row for pipe in room.pipes for row in _pipe_rows(pipe, room)), *_steel_rows(room))),
        )
    records = {each.decision: each for each in estimate.job.settled}
    blocks.append(Table(_PROVEN, tuple(_settled_rows(estimate, records)), title="Tests and decisions"))
    blocks.append(Points("Exceptions", tuple(_exceptions(estimate, records)) or ("None: everything was settled.",)))
    blocks += _photographs(estimate)
    care = "Before drilling or fixing into this wall, keep clear of every pipe above and go over it with a detector for cables."
    blocks += (Paragraph(care, "caution"), FillIn("Wall closed", (), ("Signed", "Name", "Date")))
    return paper(estimate, "closing", "Closing sheet", tuple(blocks))


def pairs(pictures: tuple[Photograph, ...]) -> tuple[Block, ...]:
    """Photographs two by two, each with its note and day."""
    made = [
        Picture(
            each.picture, ", ".join(word for word in (each.note or each.name, measure.show_date(each.when) if each.when else "") if word)
        )
        for each in pictures
    ]
    made_pairs: list[Block] = [SideBySide((one,), (other,)) for one, other in zip(made[::2], made[1::2], strict=False)]
    return (*made_pairs, *((SideBySide((made[-1],), ()),) if len(made) % 2 else ()))


def _closed_words(estimate: Estimate) -> str:
    record = next((each for each in estimate.job.settled if each.decision == CLOSED), None)
    if record is None:
        return "The wall is still open: this sheet says what will be behind it."
    if record.state != "settled":
        return f"The wall was opened up again on {measure.show_date(record.when)}, because: {record.evidence}."
    by = f" by {record.who}" if record.who else ""
    why = f" Closed with things open, because: {record.evidence}." if record.evidence else ""
    return f"The wall was closed on {measure.show_date(record.when)}{by}.{why}"


def _stack_row(room: Room) -> tuple[Row, ...]:
    stack = room.figures["stack"]
    return (Row(("Soil stack", "–", "upright", along_wall(stack.value, room.width.value), "full height", "full height"), stack.tbc),)


def _pipe_rows(pipe: PipeRun, room: Room) -> Iterator[Row]:
    floor = room.finished_floor.value
    tbc = pipe.run.tbc or (pipe.rise is not None and pipe.rise.tbc) or (pipe.kind == "soil" and pipe.rise is None)
    first = True
    for (x1, z1), (x2, z2) in pairwise(pipe.points):
        if abs(x2 - x1) < 1 and abs(z2 - z1) < 1:
            continue
        how = "upright" if abs(z2 - z1) > abs(x2 - x1) else "along"
        name, bore = (pipe.what, str(pipe.size)) if first else ("", "")
        yield Row((name, bore, how, _along(room, x1, x2), _from_to(z1, z2), _from_to(z1 - floor, z2 - floor)), tbc and first)
        first = False


def _steel_rows(room: Room) -> Iterator[Row]:
    frames = "; ".join(f"{measure.show_length(each.left)} to {measure.show_length(each.right)}" for each in room.placed)
    centres = dict.fromkeys(measure.show_length(each.x + each.section[0] / 2) for each in room.members if each.along == "z")
    uprights = "; ".join(centres)
    if frames:
        yield Row(("Frames", "–", "–", frames, "–", "–"))
    if uprights:
        yield Row(("Uprights, centres", "–", "upright", uprights, "–", "–"))


def _along(room: Room, one: float, other: float) -> str:
    a, b = along_wall(one, room.width.value), along_wall(other, room.width.value)
    return a if a == b else f"{a} to {b}"


def _from_to(one: float, other: float) -> str:
    a, b = measure.show_length(one), measure.show_length(other)
    return a if a == b else f"{a} to {b}"


def _settled_rows(estimate: Estimate, records: dict[str, Settled]) -> Iterator[Row]:
    """A row for each decision, under the wall it is settled for where there are several."""
    for place in dict.fromkeys(each.place for each in estimate.decisions):
        if len(estimate.rooms) > 1:
            yield Row((place or WHOLE_JOB,), group=place or WHOLE_JOB)
        yield from (_settled_row(each, records.get(each.key)) for each in estimate.decisions if each.place == place)


def _settled_row(decision: Decision, record: Settled | None) -> Row:
    if record is None or record.state == "open":
        return Row((decision.title, "open", f"wanted: {decision.shown_by}", "–", "–"))
    changed = record.state in {"settled", "not needed"} and record.rests_on != decision.rests_on
    fallen = changed or bool(_not_proven(decision, record))
    state = "open again" if fallen else record.state
    when = measure.show_date(record.when) if record.when else "–"
    return Row((decision.title, state, shown_by(decision, record) or "–", record.who or "–", when))


def _not_proven(decision: Decision, record: Settled) -> str:
    return of_record(decision.proof, record) if decision.proof is not None and record.state == "settled" else ""


def _exceptions(estimate: Estimate, records: dict[str, Settled]) -> Iterator[str]:
    for decision in estimate.decisions:
        record = records.get(decision.key)
        what = f"{decision.place or WHOLE_JOB}: {decision.title}" if len(estimate.rooms) > 1 else decision.title
        if record is None or record.state in {"open", "asked"}:
            yield f"{what}: not settled. {decision.why}"
        elif record.rests_on != decision.rests_on:
            yield f"{what}: was settled for {record.rests_on or 'nothing'}, is now {decision.rests_on or 'nothing'}."
        elif wrong := _not_proven(decision, record):
            yield f"{what}: {wrong}"
        elif record.state == "not needed":
            yield f"{what}: not needed, because {record.evidence or 'no reason was given'}."
    for finding in estimate.findings:
        if finding.state == "fails":
            yield f"{finding.place}: {finding.title}. {finding.message}"


def _photographs(estimate: Estimate) -> tuple[Block, ...]:
    taken = tuple(each for plan in estimate.job.rooms for each in plan.survey.photographs if each.of == "before closing")
    if not taken:
        return (Paragraph("No photographs before closing are kept with this job: take them with a tape in the picture.", "note"),)
    return (Heading("Photographs"), *pairs(taken))
