"""After the job: what it really took beside what was estimated; for the trader, not for the client."""

from __future__ import annotations

from collections.abc import Iterator

from tundish import measure
from tundish.documents.block import Block, Column, Document, Paragraph, Row, Table, Value
from tundish.documents.order_list import amount_of
from tundish.documents.paper import paper
from tundish.estimate import Estimate
from tundish.figure import Figure
from tundish.pricing.took import Beside, TookHours, lines_beside, stages_beside

_HOURS = (
    Column("Stage", "text", 2.6, "strong"),
    Column("Who", "text", 2.6, "quiet"),
    Column("Estimated, h", "number", 1.2),
    Column("Took, h", "number", 1.2, "strong"),
    Column("More, h", "number", 1.2),
)
_AMOUNTS = (
    Column("Item", "text", 4, "strong"),
    Column("Estimated", "text", 1.4),
    Column("Took", "text", 1.4, "strong"),
    Column("More", "text", 1.4),
)


def build(estimate: Estimate) -> Document:
    """Hours stage by stage, before they were rounded up; then the amounts that were said. What was not said is left blank."""
    after = estimate.job.after
    stages = stages_beside(after, estimate.price.stages)
    lines = tuple(each for each in lines_beside(after, estimate.lines) if each.took is not None)
    when = f"Finished {measure.show_date(after.finished)}." if after.finished else "Not finished yet."
    count = sum(each.took is not None for each in stages)
    blocks: list[Block] = [Paragraph(f"{when} The hours of {count} of {len(stages)} stages are said.", "strong")]
    blocks.append(Table(_HOURS, tuple(map(_stage, stages)) + tuple(_together(stages)), title="Hours"))
    if lines:
        blocks.append(Table(_AMOUNTS, tuple(map(_line, lines)), title="Amounts that were said"))
    blocks.append(
        Paragraph("Hours are those of the work, as the norms are; helpers are named and not counted. For you, not for the client.", "note")
    )
    return paper(estimate, "after", "After the job", tuple(blocks), tables_only=True)


def person_words(row: TookHours) -> str:
    """Somebody's hours: "M. Tarrowby 9.5", "Mate 3 to 4 (helped)", "S. Oakley TBC"."""
    entry = row.hours
    words = "TBC" if entry is None else measure.show_number(entry.value, None)
    if entry is not None and entry.low is not None and entry.high is not None and entry.low < entry.high:
        words = f"{measure.show_number(entry.low, None)} to {measure.show_number(entry.high, None)}"
    return f"{row.who or 'somebody'} {words}{' (helped)' if row.helped else ''}"


def _stage(beside: Beside) -> Row:
    took, more = beside.took, beside.more
    tbc = bool(beside.rows) and (took is None or not took.settled)
    who = ", ".join(map(person_words, beside.rows)) or "not said"
    return Row((beside.name, who, _two(beside.estimated), _two(took), _two(more)), tbc)


def _together(stages: tuple[Beside, ...]) -> Iterator[Row]:
    """Those stages that were said, together; nothing where none was."""
    said = [(each.estimated.value, each.took.value) for each in stages if each.took is not None]
    if said:
        estimated, took = (sum(each) for each in zip(*said, strict=True))
        yield Row(("Together", "what was said", *(round(each, 2) for each in (estimated, took, took - estimated))))


def _line(beside: Beside) -> Row:
    unit = beside.estimated.unit
    took, more = beside.took, beside.more
    cells: tuple[Value, ...] = tuple(None if each is None else amount_of(each.value, unit) for each in (beside.estimated, took, more))
    return Row((beside.name, *cells), took is not None and not took.settled)


def _two(hours: Figure | None) -> float | None:
    return None if hours is None else round(hours.value, 2)
