"""What decides what, in words: every input that is still open, what it moves, and by when it must be settled."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tundish import measure
from tundish.desktop.cells import Cell, Column, Row
from tundish.desktop.receipt import ReceiptLine, Section
from tundish.estimate import Estimate
from tundish.open_inputs import OpenInput, open_inputs

COLUMNS: Final = (Column("Still open"), Column("Now", 110, right=True), Column("Moves", 250), Column("Settle by", 120))
MOST_NAMED: Final = 3


def rows(estimate: Estimate) -> tuple[Row, ...]:
    """A row for each open input, by the id Where from asks for it; those to be settled first come first."""
    settles = {path: each.title for each in estimate.decisions for path in each.paths}
    several = len(estimate.job.rooms) > 1
    return tuple(_row(each, settles.get(each.path, ""), several=several, estimate=estimate) for each in open_inputs(estimate))


def section(found: OpenInput | None) -> Section:
    """What an open input decides, and by when it must be settled."""
    if found is None:
        return Section("What it decides", ())
    lines = [ReceiptLine("", f"Settle by {found.settle_by}", day_words(found.day))] if found.settle_by else []
    lines += [ReceiptLine("", words) for words in decided(found)]
    return Section("What it decides", tuple(lines))


def decided(one: OpenInput) -> Iterator[str]:
    """What an open input moves: checks that turn on it, what is bought or cut by it, figures, and of a choice what is otherwise."""
    if one.findings:
        yield f"Turns on it: {_named([each.title for each in one.findings])}"
    if one.lines:
        yield f"Bought or cut by it: {_named([each.item.name for each in one.lines])}"
    if one.figures:
        yield f"{len(one.figures)} figures move with it" if len(one.figures) > 1 else "1 figure moves with it"
    yield from one.otherwise


def day_words(day: str) -> str:
    """The day of a stage, or that none is agreed."""
    return measure.show_date(day, with_year=False) if day else "no date yet"


def _row(one: OpenInput, settled_by: str, *, several: bool, estimate: Estimate) -> Row:
    figure = one.input
    place = one.path.split(".")[1] if several and one.path.startswith("rooms.") else ""
    room = f", {estimate.job.rooms[int(place)].name}" if place.isdecimal() else ""
    below = f"settled with: {settled_by}" if settled_by else "settled in its box on Survey"
    now = (
        ""
        if one.choice
        else measure.show_range(figure.low, figure.high, figure.unit)
        if figure.low != figure.high
        else measure.show_amount(figure.value, figure.unit)
    )
    counts = ((len(one.figures), "figure"), (len(one.lines), "line"), (len(one.findings), "check"))
    moves = ", ".join(f"{count} {word}{'s' if count > 1 else ''}" for count, word in counts if count)
    names = _named([each.title for each in one.findings] or [*one.otherwise] or [each.item.name for each in one.lines])
    by = str(one.settle_by).capitalize() if one.settle_by else "any time"
    return Row(
        f"input:{one.path}",
        (
            Cell(f"{figure.label}{room}", strong=True, below=figure.note if one.choice else below, glyph="half", glyph_tone="tbc"),
            Cell(now, below=figure.unit, below_tone="ink2"),
            Cell(moves, below=names),
            Cell(by, strong=True, below=day_words(one.day) if one.settle_by else ""),
        ),
    )


def _named(names: list[str]) -> str:
    once = list(dict.fromkeys(names))
    more = f" and {len(once) - MOST_NAMED} more" if len(once) > MOST_NAMED else ""
    return ", ".join(once[:MOST_NAMED]) + more
