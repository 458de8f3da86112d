"""When to leave off: the engine has no clock, so whoever asks says when an answer is wanted."""

from __future__ import annotations

from collections.abc import Callable
from typing import Protocol, runtime_checkable

Stop = Callable[[], bool]
"""Asked often while a plan is looked for; once it says yes, the best plan so far is the answer."""


@runtime_checkable
class Timed(Protocol):
    """A stop that also says how many seconds are left."""

    def __call__(self) -> bool:
        """Whether to leave off."""

    def left(self) -> float:
        """Seconds until then."""


class Share:
    """Yes once so great a share of the time that is left has gone by."""

    def __init__(self, stop: Timed, share: float) -> None:
        self._stop, self._end = stop, stop.left() * (1 - share)

    def __call__(self) -> bool:
        """Whether it has gone by."""
        return self._stop.left() <= self._end


def never() -> bool:
    """Go on until nothing more is to be found: then the same question always has the same answer."""
    return False
