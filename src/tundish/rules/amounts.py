"""Amounts as the rules ask for them: counts, lengths in all, whole spaces along a length, areas."""

from __future__ import annotations

from collections.abc import Sequence

from tundish.figure import Figure, converted, number, round_up, total


def each(count: int, label: str) -> Figure:
    """A settled count of things."""
    return number(count, "each", label)


def several(count: int, label: str) -> Figure:
    """A settled number of things, without unit, to multiply an amount for each by."""
    return number(count, "", label)


def bare(count: Figure) -> Figure:
    """A count without its unit, to multiply an amount for each by."""
    return _in(count, "")


def counted(amount: Figure) -> Figure:
    """A number without unit as a count of things."""
    return _in(amount, "each")


def in_all(lengths: Sequence[Figure], what: str, label: str) -> Figure:
    """The total of lengths, with equal ones in one line: "1,161 × 4 uprights"."""
    alike: dict[tuple[float, float, float, bool], list[Figure]] = {}
    for one in lengths:
        alike.setdefault((one.value, one.low, one.high, one.tbc), []).append(one)
    lines = [same[0] if len(same) == 1 else (same[0] * number(len(same), "", what)).named(f"{len(same)} {what}") for same in alike.values()]
    return lines[0].named(label) if len(lines) == 1 else total(lines, label)


def whole_spaces(length: Figure, apart: Figure, label: str) -> Figure:
    """How many spaces of at most `apart` a length is divided into: a number without unit, at least nought."""
    return round_up(length / apart, 1.0, label)


def area(width: Figure, height: Figure, label: str) -> Figure:
    """Width by height, both mm, in m²."""
    return converted(width * height, "m²", label)


def _in(one: Figure, unit: str) -> Figure:
    return Figure(one.value, one.low, one.high, unit, one.label, one.known, one.tbc, one.terms, one.note, one.when, one.path)
