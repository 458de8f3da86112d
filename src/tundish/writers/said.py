"""A paper as the lines it says, each cell as a reader sees it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from tundish.documents.block import Block, Document, Facts, Heading, Paragraph, Points, SideBySide, Sums, Table
from tundish.documents.said import Said
from tundish.writers.cell import cells_of, pounds, shown


def lines_said(document: Document) -> tuple[Said, ...]:
    """Every line that tells something, in reading order; drawings and lines to write on tell nothing that could be compared."""
    return tuple(_of_all(document.blocks))


def _of_all(blocks: Iterable[Block]) -> Iterator[Said]:
    for block in blocks:
        yield from _of(block)


def _of(block: Block) -> Iterator[Said]:
    match block:
        case Paragraph(text=text) | Heading(text=text):
            yield Said(text)
        case Points(items=items):
            yield from map(_point, items)
        case Sums(rows=rows):
            yield from (Said(words, (("", pounds(amount)),)) for words, amount in rows)
        case Facts(columns=columns):
            yield from (Said(head, (("", ", ".join(lines)),)) for head, lines in columns if lines)
        case Table():
            yield from _rows(block)
        case SideBySide(left=left, right=right):
            yield from _of_all((*left, *right))
        case _:
            return


def _point(item: str) -> Said:
    """A point says what stands after its first colon of what stands before it."""
    what, colon, words = item.partition(": ")
    return Said(what, (("", words),)) if colon else Said(item)


def _rows(table: Table) -> Iterator[Said]:
    for row in table.rows:
        if row.group:
            continue
        words = [shown(cell, column.kind) for cell, column in zip(cells_of(table, row), table.columns, strict=True)]
        heads = [column.head for column in table.columns]
        yield Said(words[0], tuple((head, cell) for head, cell in zip(heads[1:], words[1:], strict=True) if cell))
