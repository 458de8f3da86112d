"""Whether anything that a paper says is still to be confirmed: seen from what it is made of, not from its words."""

from __future__ import annotations

from collections.abc import Iterable

from tundish.documents.block import Block, Points, SideBySide, Sketch, Table, TrueSize
from tundish.documents.drawing import Dimension, Drawing


def still_open(blocks: Iterable[Block]) -> bool:
    """Whether a row, a point or what is drawn is to be confirmed, or nothing may be drilled from it yet."""
    return any(map(_is_open, blocks))


def _is_open(block: Block) -> bool:
    match block:
        case SideBySide():
            return still_open((*block.left, *block.right))
        case Table():
            return any(row.tbc for row in block.rows)
        case Points():
            return block.tbc
        case TrueSize():
            return bool(block.warning) or _drawn_open(block.drawing)
        case Sketch():
            return _drawn_open(block.drawing)
        case _:
            return False


def _drawn_open(drawing: Drawing) -> bool:
    return any(mark.tbc if isinstance(mark, Dimension) else mark.style == "tbc" for mark in drawing.marks)
