"""What is the same in two lists of things that were said of one room worked out twice."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence
from typing import Any, TypeVar

T = TypeVar("T")


def matched(first: Sequence[T], others: Sequence[T], keys: Sequence[Callable[[Any], Hashable]]) -> tuple[T | None, ...]:
    """For each of the first what is the same of the others: by the first key that tells, each once, None where none is."""
    left = list(others)
    found: list[T | None] = [None] * len(first)
    for key in keys:
        waiting: dict[Hashable, list[T]] = {}
        for each in left:
            waiting.setdefault(key(each), []).append(each)
        for place, each in enumerate(first):
            if found[place] is None and waiting.get(key(each)):
                found[place] = waiting[key(each)].pop(0)
        left = [each for rows in waiting.values() for each in rows]
    return tuple(found)
