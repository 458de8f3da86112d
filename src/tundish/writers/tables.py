"""The tables of a paper, each with a name of its own: what spreadsheets and comma-separated files are made of."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from tundish.documents.block import Block, Document, Heading, SideBySide, Table
from tundish.writers.safe import one_line


def in_order(blocks: Iterable[Block]) -> Iterator[Block]:
    """The blocks one after the other, those side by side too."""
    for block in blocks:
        if isinstance(block, SideBySide):
            yield from in_order((*block.left, *block.right))
        else:
            yield block


def named_tables(document: Document) -> tuple[tuple[str, Table], ...]:
    """Every table under its title, or the heading before it, or the paper's title; a name used twice is numbered."""
    used: dict[str, int] = {}
    named: list[tuple[str, Table]] = []
    heading = document.title
    for block in in_order(document.blocks):
        if isinstance(block, Heading):
            heading = block.text
        elif isinstance(block, Table):
            name = one_line(block.title or heading)
            used[name] = used.get(name, 0) + 1
            named.append((name if used[name] == 1 else f"{name} {used[name]}", block))
    return tuple(named)
