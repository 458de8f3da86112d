"""The rows of After the job: what was estimated, what it took, and how much more that was."""

from __future__ import annotations

from typing import Final

from tundish import measure
from tundish.desktop.cells import Cell, Column, Group, Row
from tundish.documents.after_job import person_words
from tundish.documents.order_list import amount_words
from tundish.field import Entry
from tundish.figure import Figure, Known
from tundish.pricing.took import After, Beside

STAGES: Final = (
    Column("Stage"),
    Column("Estimated, h", 110, right=True),
    Column("Took, h", 110, right=True),
    Column("More, h", 110, right=True),
    Column("Times as long", 120, right=True),
)
LINES: Final = (Column("Item"), Column("Estimated", 150, right=True), Column("Took", 150, right=True), Column("More", 150, right=True))


def stage_rows(stages: tuple[Beside, ...]) -> tuple[Group, ...]:
    """A row for every stage, then all that is said together."""
    return (Group("", "", tuple(_stage(each) for each in stages)), *_together(stages))


def line_rows(lines: tuple[Beside, ...]) -> tuple[Group, ...]:
    """The lines of which something was said first, then the others."""
    said = tuple(_line(each) for each in lines if each.took is not None)
    others = tuple(_line(each) for each in lines if each.took is None)
    groups = (Group("said", "Said", said, f"{len(said)} of {len(lines)}"), Group("not", "Not said", others))
    return tuple(each for each in groups if each.rows)


def said(after: After, stages: tuple[Beside, ...], *, demo: bool) -> str:
    """How much is said, and whether the job is finished."""
    count = sum(each.took is not None for each in stages)
    words = f"The hours of {count} of {len(stages)} stages are said."
    if not after.finished:
        return f"{words} Not finished: it says nothing of your norms yet."
    norms = "A demonstration says nothing of your norms." if demo else "It speaks of your norms with every stage that is said for sure."
    return f"Finished {measure.show_date(after.finished)}, beside the estimate as it was then. {words} {norms}"


def entry_of(figure: Figure) -> Entry:
    """A worked-out figure as it is kept."""
    return Entry(figure.value, Known.WORKED_OUT)


def times(took: float, estimated: float) -> str:
    """How many times as long: "× 1.25"."""
    return f"× {measure.show_number(took / estimated, 2)}" if estimated > 0 else measure.BLANK


def hours(value: float | None) -> str:
    """Hours with two places."""
    return measure.show_number(value, 2)


def _stage(beside: Beside) -> Row:
    people = ", ".join(map(person_words, beside.rows))
    took, more = beside.took, beside.more
    open_ = bool(beside.rows) and (took is None or not took.settled)
    return Row(
        f"took:{beside.key}",
        (
            Cell(beside.name, strong=True, below=people or "not said", glyph="half" if open_ else "", glyph_tone="tbc"),
            Cell(hours(beside.estimated.value)),
            Cell(
                "TBC" if took is None and beside.rows else hours(took.value) if took else measure.BLANK,
                tone="tbc" if open_ else "ink",
                strong=True,
            ),
            _more("" if more is None else measure.show_number(more.value, 2, sign=True), more),
            Cell(times(took.value, beside.estimated.value) if took else measure.BLANK),
        ),
    )


def _together(stages: tuple[Beside, ...]) -> tuple[Group, ...]:
    told = [(each.estimated.value, each.took.value) for each in stages if each.took is not None]
    if not told:
        return ()
    estimated, took = (sum(each) for each in zip(*told, strict=True))
    name = "Together" if len(told) == len(stages) else f"Together, {len(told)} of {len(stages)} stages"
    cells = (Cell(name, strong=True), Cell(hours(estimated), strong=True), Cell(hours(took), strong=True))
    more = Cell(measure.show_number(took - estimated, 2, sign=True), strong=True)
    return (Group("together", "", (Row("together", (*cells, more, Cell(times(took, estimated), strong=True)), total=True),)),)


def _line(beside: Beside) -> Row:
    unit = beside.estimated.unit
    took, more = beside.took, beside.more
    words = "" if more is None else f"{'+' if more.value > 0 else '−' if more.value < 0 else ''}{amount_words(abs(more.value), unit)}"
    return Row(
        f"took:{beside.key}",
        (
            Cell(beside.name, strong=True),
            Cell(amount_words(beside.estimated.value, unit)),
            Cell(
                amount_words(took.value, unit) if took else measure.BLANK, strong=True, tone="tbc" if took and not took.settled else "ink"
            ),
            _more(words, more),
        ),
    )


def _more(words: str, more: Figure | None) -> Cell:
    return Cell(words or measure.BLANK, tone="ink2" if more is None or more.value == 0 else "tbc" if more.value > 0 else "settled")
