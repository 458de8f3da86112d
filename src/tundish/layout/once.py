"""Working something out once for all that ask for it of the same room."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Final, TypeVar, TypeVarTuple

Given = TypeVarTuple("Given")
Answer = TypeVar("Answer")
_MOST_KEPT: Final = 64


def once(work: Callable[[*Given], Answer]) -> Callable[[*Given], Answer]:
    """The same function, which answers at once when it is given the very same things again; the last 64 answers are kept.

    For what is worked out from rooms, books and what they hold, which never change; given by place, never by name.
    """
    kept: dict[tuple[int, ...], tuple[tuple[*Given], Answer]] = {}

    @wraps(work)
    def again(*given: *Given) -> Answer:
        key = tuple(map(id, given))
        held = kept.get(key)
        if held is None:
            # What was given is kept with its answer, so that its identity is not used again.
            held = (given, work(*given))
            while len(kept) >= _MOST_KEPT:
                kept.pop(next(iter(kept)), None)
            kept[key] = held
        return held[1]

    return again
