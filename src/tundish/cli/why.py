"""`tundish why JOB FIGURE`: where a figure comes from, down to the tape."""

from __future__ import annotations

import argparse
from collections.abc import Iterator, Mapping
from typing import Any

from tundish import measure
from tundish.cli.job_named import BadInputError, job_named
from tundish.estimate import estimate
from tundish.field import Problem
from tundish.figure import Figure, Reason, where_from


def declare(commands: Any) -> None:
    """The words of the command."""
    made: argparse.ArgumentParser = commands.add_parser("why", help="say where a figure comes from")
    made.add_argument("job", help="a job file, or the number of a job")
    made.add_argument("figure", help='such as wc-1.studs, or "1:basin-1.waste" for the second room')
    made.set_defaults(run=run)


def run(asked: argparse.Namespace) -> int:
    """Print the working of the figure as a tree."""
    job, book = job_named(asked.job)
    place, colon, name = asked.figure.partition(":")
    room_place, name = (place, name) if colon else ("0", place)
    rooms = {str(number): room for number, room in enumerate(estimate(job, book).rooms)}
    figures: Mapping[str, Figure] = rooms[room_place].figures if room_place in rooms else {}
    if name not in figures:
        known = ", ".join(figures) or "none: there is no such room"
        raise BadInputError(asked.job, (Problem(asked.figure, f"is no figure of this job. There are: {known}"),))
    for line in tree(where_from(figures[name])):
        print(line)
    return 0


def tree(reason: Reason, depth: int = 0) -> Iterator[str]:
    """The lines of a where-from tree, indented."""
    figure = reason.figure
    sign = f"{reason.sign} " if reason.sign else ""
    amount = measure.show_amount(figure.value, figure.unit, with_unit=True)
    reach = "" if figure.low == figure.high else f" ({measure.show_range(figure.low, figure.high, figure.unit)})"
    marks = ", ".join(word for word in (str(figure.known), figure.note, figure.when, "TBC" if figure.tbc else "") if word)
    yield f"{'  ' * depth}{sign}{figure.label or 'step'}: {amount}{reach} [{marks}]"
    for child in reason.children:
        yield from tree(child, depth + 1)
