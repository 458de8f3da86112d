"""What was typed into a form for each thing of a list and not kept yet: it waits until that thing is shown again."""

from __future__ import annotations

from typing import Final, Generic, TypeVar

NOT_KEPT: Final = "As you typed it; it is not kept yet."
T = TypeVar("T")


class Unkept(Generic[T]):
    """The words of one form, by the key of what it shows; a new thing's key is ""."""

    def __init__(self) -> None:
        self._key = ""
        self._as_kept: T | None = None
        self._typed: dict[str, T] = {}

    def show(self, key: str, as_kept: T) -> T | None:
        """The form shows this as it is kept; gives what was typed for it before."""
        self._key, self._as_kept = key, as_kept
        return self._typed.pop(key, None)

    def leave(self, typed: T) -> None:
        """The form will show something else: what is typed there now is remembered where it differs from what is kept."""
        if self._as_kept is not None and typed != self._as_kept:
            self._typed[self._key] = typed

    def forget(self) -> None:
        """What is typed now is kept, or not wanted."""
        self._as_kept = None
