"""What leads the marks of a pre-wall, so that no mark is given twice in a job."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace
from typing import Final, TypeVar

from tundish.layout.room import Member, Piece, PipeRun

M = TypeVar("M", Member, Piece, PipeRun)
_NAMED: Final = re.compile(r"\bat (?=[A-Z]\d)")


def marked(lead: str, pieces: Iterable[M]) -> tuple[M, ...]:
    """The same pieces, each mark led by what leads the marks of its pre-wall; one that is not cut has none."""
    kept = tuple(pieces)
    return tuple(_led(lead, each) for each in kept) if lead else kept


def bare(mark: str) -> str:
    """A mark without what leads it: "U1" of "2B.U1"."""
    return mark.rpartition(".")[2]


def _led(lead: str, each: M) -> M:
    if isinstance(each, Member):
        return replace(each, mark=lead + each.mark, where=_NAMED.sub(f"at {lead}", each.where))
    return replace(each, mark=lead + each.mark) if each.mark else each
