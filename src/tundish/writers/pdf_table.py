"""A table on paper: a tray-coloured head that repeats, hairlines, figures at the right, rows that never break. All in points."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from tundish.documents.block import Column, Row, Table, Value
from tundish.writers.cell import NOTHING, boxes, cells_of, is_number, shown, total_cells, total_column
from tundish.writers.pdf_columns import BOX, HEAD, NOTE, PAD, PLAIN, STRONG, TITLE, TONES, Grid, Place, grid_of, tag_words
from tundish.writers.pdf_flow import Strip, kept, stacked, text_strips
from tundish.writers.pdf_pen import EDGE, HAIRLINE, RULE, Pen, Stroke, tag_width
from tundish.writers.pdf_tags import Tag
from tundish.writers.pdf_type import Type

MOST_LINES: Final = 45
"""A row with more lines than this cannot stand on one page and is dealt out over several."""
MOST_HEAD: Final = 4
"""A head or a heading across is cut short after so many lines."""
MOST_NOTE: Final = 6
"""A note with more lines than this may stand on the page after its row."""
LOW: Final = 36.0
"""A row lower than this, two lines, looks lost alone under its heading at the foot of a page."""
STEP: Final = PLAIN.leading
_FIRM: Final = Stroke("ink2", 0.8)


@dataclass(frozen=True, slots=True)
class Setting:
    """The lines of one cell, how they are set, and what part of the paper they are."""

    lines: tuple[str, ...]
    kind: Type
    place: Place
    tag: Tag


def table_strips(table: Table, width: float, *, close: bool = False) -> Iterator[Strip]:
    """The strips of a table: title, head, rows, total. Neither the first row nor the last is alone on a page; `close` rows stand closer."""
    if not table.columns:
        return
    grid = grid_of(table, width, close=close)
    gap = 9.0
    if table.title:
        yield from kept(text_strips(TITLE.lines(table.title, width), TITLE, Tag("Caption", grid.tag), gap=gap))
        gap = 3.0
    head = _head(grid)
    yield replace(head, gap=gap, keep=True)
    if not table.rows:
        yield from _noted(grid, Strip(grid.above, lambda *_: None), NOTHING, HAIRLINE)
    for place, row in enumerate(table.rows):
        strips = _group(grid, row) if row.group else _row(grid, row)
        for strip in strips:
            yield Strip(strip.height, strip.draw, strip.gap, _held(table, place, strip.height), head)
    if table.totals:
        yield replace(_total(grid), head=head)


def _held(table: Table, place: int, height: float) -> bool:
    """Whether a row stays with the next: a heading, a low one that is the first, the last but one, the last before the total."""
    rows, last = table.rows, len(table.rows) - 1
    if place == last:
        return bool(table.totals)
    first = height < LOW and (place == 0 or bool(rows[place - 1].group))
    return bool(rows[place].group) or place == last - 1 or (first and not rows[place + 1].group)


def _head(grid: Grid) -> Strip:
    row = Tag("TR", grid.tag)
    settings = [
        Setting(HEAD.lines(column.head, place.room, MOST_HEAD), HEAD, place, Tag("TH", row, scope="Column"))
        for column, place in zip(grid.table.columns, grid.places, strict=True)
    ]
    height = _deep(settings) * STEP + 7

    def draw(pen: Pen, left: float, top: float) -> None:
        pen.box((left, top - height, grid.width, height), fill="tray")
        _set(pen, left, top - 3.5 - HEAD.size, settings)

    return Strip(height, draw)


def _row(grid: Grid, row: Row) -> Iterator[Strip]:
    """One strip, unless a cell holds more than a page can."""
    settings = _settings(grid, row)
    for start in range(MOST_LINES, _deep(settings), MOST_LINES):
        part = [replace(each, lines=each.lines[start - MOST_LINES : start]) for each in settings]
        yield _cells(grid, row if start == MOST_LINES else None, part)
    start = (_deep(settings) - 1) // MOST_LINES * MOST_LINES
    part = [replace(each, lines=each.lines[start:]) for each in settings] if start else settings
    yield from _noted(grid, _cells(grid, None if start else row, part), _note(row), HAIRLINE)


def _cells(grid: Grid, row: Row | None, settings: Sequence[Setting]) -> Strip:
    """The words of a row; with the row, its tag and its boxes too."""

    def draw(pen: Pen, left: float, top: float) -> None:
        baseline = top - grid.above - PLAIN.size + 0.4
        _set(pen, left, baseline, settings)
        if row:
            _boxes(pen, left, baseline, grid, row)
        if row and row.tbc:
            with pen.tags.within(settings[grid.tagged].tag):
                _tag(pen, left, baseline, settings[grid.tagged], tag_words(row))

    return Strip(grid.above + _deep(settings) * STEP, draw)


def _noted(grid: Grid, cells: Strip, note: str, stroke: Stroke) -> Iterator[Strip]:
    """A row with its note and the line under it: one strip, unless the note is long."""
    end = Strip(grid.above, lambda pen, left, top: pen.rule((left, top - grid.above, left + grid.width, top - grid.above), stroke))
    tag = Tag("TD", Tag("TR", grid.tag), across=len(grid.places))
    notes = tuple(text_strips(NOTE.lines(note, grid.width - 2 * PAD), NOTE, tag, indent=PAD)) if note else ()
    if len(notes) <= MOST_NOTE:
        yield stacked((cells, *notes, end))
        return
    yield cells
    yield from notes[:-1]
    yield stacked((notes[-1], end))


def _settings(grid: Grid, row: Row) -> list[Setting]:
    settings, whole = [], Tag("TR", grid.tag)
    for number, (column, place, value) in enumerate(zip(grid.table.columns, grid.places, cells_of(grid.table, row), strict=True)):
        kind = TONES[column.tone]
        room = place.room - (tag_width(tag_words(row)) + PAD if row.tbc and number == grid.tagged else 0)
        tag = Tag("TD", whole, told=_told(column, value))
        settings.append(Setting(kind.lines(shown(value, column.kind), max(room, 2 * PAD)), kind, place, tag))
    return settings


def _told(column: Column, value: Value) -> str:
    """What is said of a cell that is to be filled in by hand."""
    if column.kind == "tick":
        return "box to tick" if boxes(value) == 1 else f"{boxes(value)} boxes to tick"
    return "to be filled in" if column.kind == "blank" else ""


def _group(grid: Grid, row: Row) -> Iterator[Strip]:
    """A heading across, with its own sums at the right where it has any."""
    sums = {
        number: shown(value, column.kind)
        for number, (column, value) in enumerate(zip(grid.table.columns, cells_of(grid.table, row), strict=True))
        if number and is_number(column.kind) and value is not None and value != ""
    }
    across, whole = min(sums, default=len(grid.places)), Tag("TR", grid.tag)
    tag = tag_words(row) if row.tbc else ""
    room = (grid.places[across].left if sums else grid.width) - 2 * PAD
    lines = STRONG.lines(row.group, room - (tag_width(tag) + PAD if tag else 0), MOST_HEAD)

    def draw(pen: Pen, left: float, top: float) -> None:
        baseline = top - grid.above - PLAIN.size - 0.4
        with pen.tags.within(Tag("TH", whole, scope="Row", across=across)):
            for number, line in enumerate(lines):
                pen.text(left + PAD, baseline - number * STEP, line, STRONG)
            if tag:
                pen.tag(left + PAD + STRONG.width(lines[0]) + 7, baseline, tag)
        for number in range(across, len(grid.places)):
            with pen.tags.within(Tag("TD", whole)):
                pen.text(left + grid.places[number].at, baseline, sums.get(number, ""), STRONG, "end")

    return _noted(grid, Strip(len(lines) * STEP + grid.above + 1, draw), _note(row), _FIRM)


def _note(row: Row) -> str:
    """The note that is not in the tag."""
    return "" if row.tbc and tag_words(row) != "TBC" else row.note


def _total(grid: Grid) -> Strip:
    label = total_column(grid.table)
    cells = total_cells(grid.table)
    first = min((place for place in grid.table.totals if place > label), default=label + 1)
    room = sum(place.width for place in grid.places[label:first]) - 2 * PAD
    height, whole = STEP + 2 * grid.above + 2, Tag("TR", grid.tag)

    def draw(pen: Pen, left: float, top: float) -> None:
        pen.line(left, top, left + grid.width, top, RULE)
        for number, (words, place) in enumerate(zip(cells, grid.places, strict=True)):
            with pen.tags.within(Tag("TD", whole)):
                if number == label:
                    pen.text(left + place.left + PAD, top - grid.above - PLAIN.size - 0.6, STRONG.cut(words, room), STRONG)
                else:
                    pen.text(left + place.at, top - grid.above - PLAIN.size - 0.6, words, STRONG, place.anchor)

    return Strip(height, draw)


def _deep(settings: Sequence[Setting]) -> int:
    return max((len(each.lines) for each in settings), default=1)


def _set(pen: Pen, left: float, baseline: float, settings: Sequence[Setting]) -> None:
    for each in settings:
        with pen.tags.within(each.tag):
            for number, line in enumerate(each.lines):
                if line:
                    pen.text(left + each.place.at, baseline - number * STEP, line, each.kind, each.place.anchor)


def _tag(pen: Pen, left: float, baseline: float, beside: Setting, words: str) -> None:
    """The words to be confirmed, after the first line of the cell."""
    wide = beside.kind.width(beside.lines[0])
    at = beside.place.at + wide + PAD if beside.place.anchor == "start" else beside.place.at - wide - PAD - tag_width(words)
    pen.tag(left + at, baseline, words)


def _boxes(pen: Pen, left: float, baseline: float, grid: Grid, row: Row) -> None:
    """Boxes to tick and lines to write on."""
    for column, place, value in zip(grid.table.columns, grid.places, cells_of(grid.table, row), strict=True):
        if column.kind == "tick":
            for number in range(boxes(value)):
                pen.square((left + place.at - BOX - number * (BOX + 3), baseline - 1.6, BOX, BOX), EDGE)
        elif column.kind == "blank":
            pen.rule((left + place.at, baseline - 2, left + place.left + place.width - PAD, baseline - 2), EDGE)
