"""The one family of exceptions: raised for faults of the program or the machine, never for what a user may have typed."""

from __future__ import annotations


class TundishError(Exception):
    """Any exception of the program's own; its message is a sentence a user can read."""


class NotWantedError(TundishError):
    """Work was left in the middle because its answer is not wanted any more."""

    def __init__(self) -> None:
        super().__init__("It was left in the middle: something else was asked meanwhile.")
