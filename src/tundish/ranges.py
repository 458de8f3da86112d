"""What a figure may still be, in words; and how far one open input alone moves it."""

from __future__ import annotations

from tundish.figure import Figure, rests_on, worked_with
from tundish.measure import show_amount, show_range


def may_be(figure: Figure) -> str:
    """From least to most, "26 to 34"; nothing where both read alike, however little apart they are."""
    words = show_range(figure.low, figure.high, figure.unit)
    return "" if words == show_range(figure.low, figure.low, figure.unit) else words


def with_range(figure: Figure) -> str:
    """The figure as it is read, with what it may still be: "28 (26 to 34)"."""
    words, reach = show_amount(figure.value, figure.unit), may_be(figure)
    return f"{words} ({reach})" if reach else words


def to_confirm(figure: Figure) -> str:
    """The figure as it is written where it is built from: "28 (TBC: 26 to 34)", "28 (TBC)", or "28" where it is settled."""
    words = show_amount(figure.value, figure.unit)
    return f"{words} (TBC{': ' if may_be(figure) else ''}{may_be(figure)})" if figure.tbc else words


def alone(figure: Figure, path: str) -> tuple[float, float]:
    """From where to where the input at a path moves a figure while all other inputs stay as they are."""
    inputs = (each for each in rests_on(figure) if each.path == path)
    ends = [figure.value, *(worked_with(figure, {path: end}) for each in inputs for end in (each.low, each.high))]
    return min(ends), max(ends)
