"""A paper as plain text of fixed width: to copy, to paste into a message, and to compare by eye."""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Iterable, Iterator, Sequence
from pathlib import Path
from typing import Any, Final

from tundish.documents.block import (
    Block,
    Document,
    Facts,
    FillIn,
    Heading,
    NextPage,
    Paragraph,
    Picture,
    Points,
    Row,
    RulerCheck,
    SideBySide,
    Sketch,
    Sums,
    Table,
    TrueSize,
)
from tundish.documents.drawing import Words
from tundish.writers.cell import NOTHING, boxes, cells_of, is_number, pounds, shown, total_cells
from tundish.writers.safe import legible, one_line, write_whole

WIDTH: Final = 100
"""Characters across."""
_GAP: Final = "  "
_TBC: Final = "TBC"
_LEAST: Final = 8


def write_text(document: Document, path: Path, printed: str) -> None:
    """Write the paper to a file as plain text in UTF-8.

    Raises:
        CouldNotWriteError: the file could not be written; what was there is untouched.
    """
    write_whole(path, as_text(document, printed).encode())


def as_text(document: Document, printed: str = "") -> str:
    """The whole paper as text, its head first."""
    lines = [
        *(["DEMO"] if document.demo else []),
        _ends(one_line(document.sender), one_line(f"{document.title} {document.number}")),
        _ends(one_line(document.trade), one_line(document.subtitle)),
        "=" * WIDTH,
        *lines_of(document.blocks),
        "-" * WIDTH,
        _ends(one_line(document.foot), f"Printed {one_line(printed)}" if printed else ""),
    ]
    return "\n".join(line.rstrip() for line in lines) + "\n"


def lines_of(blocks: Iterable[Block]) -> Iterator[str]:
    """The blocks as lines, one after the other, an empty line before each."""
    for block in blocks:
        if isinstance(block, SideBySide):
            yield from lines_of((*block.left, *block.right))
        elif not isinstance(block, NextPage):
            yield ""
            yield from _BLOCKS[type(block)](block)


def _heading(heading: Heading) -> Iterator[str]:
    words = one_line(heading.text)
    yield from _filled(words.upper() if heading.level == 1 else words)
    yield ("=" if heading.level == 1 else "-") * min(len(words), WIDTH)


def _paragraph(paragraph: Paragraph) -> Iterator[str]:
    mark = "! " if paragraph.tone == "caution" else ""
    yield from _filled(paragraph.text, mark, mark)


def _points(points: Points) -> Iterator[str]:
    if points.title:
        yield from _filled(points.title)
    for item in points.items:
        yield from _filled(item, "- ", "  ")


def _sums(sums: Sums) -> Iterator[str]:
    for place, (label, amount) in enumerate(sums.rows):
        yield f"{one_line(label):>{WIDTH - 16}}{pounds(amount, sign=place == len(sums.rows) - 1):>16}"


def _facts(facts: Facts) -> Iterator[str]:
    for head, lines in facts.columns:
        yield from _filled(f"{head}: {lines[0] if lines else ''}")
        for line in lines[1:]:
            yield from _filled(line, "  ", "  ")


def _sketch(sketch: Sketch) -> Iterator[str]:
    yield f"[drawing: {one_line(sketch.drawing.title)}, {len(sketch.drawing.marks)} marks]"
    for words in filter(None, (sketch.caption, sketch.told)):
        yield from _filled(words)


def _fill_in(box: FillIn) -> Iterator[str]:
    if box.title:
        yield from _filled(box.title)
    for words in box.sentences:
        yield from _filled(words, "  ", "  ")
    for label in box.lines:
        yield from _filled(f"{label} {'_' * 30}", "  ", "    ")


def _ruler(_: RulerCheck) -> Iterator[str]:
    yield "[50 mm ruler: if your ruler disagrees, the print was scaled]"


def _picture(picture: Picture) -> Iterator[str]:
    yield from _filled(f"[photograph: {picture.caption or picture.key}]")


def _true_size(block: TrueSize) -> Iterator[str]:
    yield from _filled(f"[drawing at true size: {block.title}]")
    if block.warning:
        yield from _filled(block.warning, "! ", "! ")
    yield from _filled("; ".join(dict.fromkeys(mark.text for mark in block.drawing.marks if isinstance(mark, Words))))


def _table(table: Table) -> Iterator[str]:
    widths = _widths(table)
    if table.title:
        yield from _filled(table.title)
    head = [legible(column.head) for column in table.columns]
    yield from _row(table, widths, head)
    yield _GAP.join("-" * width for width in widths)
    if not table.rows:
        yield NOTHING
    for row in table.rows:
        yield from _group(table, widths, row) if row.group else _row(table, widths, _words(table, row), tbc=row.tbc)
        if row.note:
            yield from _filled(row.note, "  ", "  ")
    if table.totals:
        yield _GAP.join("-" * width for width in widths)
        yield from _row(table, widths, _sums_of(table))


def _group(table: Table, widths: Sequence[int], row: Row) -> Iterator[str]:
    yield from _filled(f"[{row.group}]" + (f" {_TBC}" if row.tbc else ""))
    words = [word if is_number(column.kind) else "" for column, word in zip(table.columns, _words(table, row), strict=True)]
    if any(words):
        yield from _row(table, widths, words)


def _row(table: Table, widths: Sequence[int], words: Sequence[str], *, tbc: bool = False) -> Iterator[str]:
    parts = [_broken(word, width) for word, width in zip(words, widths, strict=True)]
    for number in range(max(map(len, parts), default=0)):
        cells = [part[number] if number < len(part) else "" for part in parts]
        line = _GAP.join(
            f"{cell:>{width}}" if is_number(column.kind) else f"{cell:<{width}}"
            for cell, width, column in zip(cells, widths, table.columns, strict=True)
        )
        yield f"{line}{_GAP}{_TBC}" if tbc and number == 0 else line


def _words(table: Table, row: Row) -> list[str]:
    words = []
    for column, value in zip(table.columns, cells_of(table, row), strict=True):
        match column.kind:
            case "tick":
                words.append("" if row.group else "[ ]" * boxes(value))
            case "blank":
                words.append("" if row.group else "_" * _LEAST)
            case _:
                words.append(legible(shown(value, column.kind)))
    return words


def _sums_of(table: Table) -> list[str]:
    return [legible(words) for words in total_cells(table)]


def _widths(table: Table) -> list[int]:
    """As wide as the widest cell; the widest columns of words give way where the line would be too long."""
    rows = [[legible(column.head) for column in table.columns], *(_words(table, row) for row in table.rows)]
    rows += [_sums_of(table)] if table.totals else []
    widths = [max(1, *(len(line) for row in rows for line in row[place].split("\n"))) for place in range(len(table.columns))]
    spare = WIDTH - len(_GAP) * (len(widths) - 1)
    if any(row.tbc for row in table.rows):
        spare -= len(_GAP) + len(_TBC)
    while sum(widths) > spare and max(widths) > _LEAST:
        widths[widths.index(max(widths))] -= 1
    return widths


def _broken(words: str, width: int) -> list[str]:
    return [line for part in words.split("\n") for line in textwrap.wrap(part, width, break_on_hyphens=False) or [""]]


def _filled(words: str, first: str = "", rest: str = "") -> Iterator[str]:
    for part in legible(words).split("\n"):
        yield from textwrap.wrap(part, WIDTH, initial_indent=first, subsequent_indent=rest, break_on_hyphens=False) or [""]


def _ends(left: str, right: str) -> str:
    """Words at both ends of a line; on two where they would meet."""
    space = WIDTH - len(left) - len(right)
    return f"{left}{' ' * space}{right}" if space > 0 else f"{left}\n{right}"


_BLOCKS: Final[dict[type[Block], Callable[[Any], Iterator[str]]]] = {
    Heading: _heading,
    Paragraph: _paragraph,
    Points: _points,
    Sums: _sums,
    Facts: _facts,
    Table: _table,
    Sketch: _sketch,
    FillIn: _fill_in,
    RulerCheck: _ruler,
    Picture: _picture,
    TrueSize: _true_size,
}
