"""Numbers of papers that follow one another: the next one, which was never given before, and those that are missing between."""

from __future__ import annotations

from collections.abc import Iterable


def next_after(stem: str, given: Iterable[str]) -> str:
    """The number after the highest that was ever given with this stem: "101-" and 101-1, 101-3 make 101-4."""
    return f"{stem}{max((_place(number) for number in given if _stem(number) == stem), default=0) + 1}"


def holes(given: Iterable[str]) -> tuple[str, ...]:
    """The numbers below the highest of each stem that were not given, in order."""
    places: dict[str, set[int]] = {}
    for number in given:
        places.setdefault(_stem(number), set()).add(_place(number))
    shown = ((stem, there) for stem, there in sorted(places.items()) if max(there) <= _MOST)
    return tuple(f"{stem}{place}" for stem, there in shown for place in range(1, max(there)) if place not in there)


_MOST = 1_000
"""A number beyond this was typed by somebody: what is below it is not missing."""
_LONGEST = 9


def _stem(number: str) -> str:
    return number[: len(number) - len(_digits(number))]


def _place(number: str) -> int:
    return int(_digits(number) or 0)


def _digits(number: str) -> str:
    """The figures at the end of a number."""
    at = len(number)
    while at and number[at - 1] in "0123456789" and len(number) - at < _LONGEST:
        at -= 1
    return number[at:]
