"""Every way of filling a bar to the full, while they are few: then a choice among them is a choice among all plans."""

from __future__ import annotations

from typing import Final

from tundish.cutting.whole import Pattern, Task

_VISITS: Final = 10


def maximal_patterns(task: Task, most: int) -> list[Pattern] | None:
    """All patterns that no further piece fits into, or None if there are more than `most`."""
    found: list[Pattern] = []
    for kind, rod in enumerate(task.rods):
        fillings = _fillings(task, rod.room, most - len(found))
        if fillings is None:
            return None
        found += [Pattern(kind, counts) for counts in fillings]
    return found


def _fillings(task: Task, room: int, most: int) -> list[tuple[int, ...]] | None:
    found: list[tuple[int, ...]] = []
    counts = [0] * len(task.widths)
    visits = 0

    def fill(place: int, room: int, shortest_missed: int) -> None:
        nonlocal visits
        visits += 1
        if visits > _VISITS * most or len(found) > most:
            return
        if place == len(task.widths):
            if room < shortest_missed:
                found.append(tuple(counts))
            return
        width = task.widths[place]
        fits = min(task.demand[place], room // width)
        for count in range(fits, -1, -1):
            counts[place] = count
            missed = width if count < task.demand[place] else shortest_missed
            fill(place + 1, room - count * width, min(shortest_missed, missed))
        counts[place] = 0

    fill(0, room, room + 1)
    return None if visits > _VISITS * most or len(found) > most else found
