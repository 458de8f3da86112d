"""Runs of pipe as the rules read them: whom they serve, their pieces, their clips, and how a branch comes into an old stack."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import Figure, largest, number
from tundish.layout.room import PipeRun, Placed, Room
from tundish.rules.amounts import each, whole_spaces
from tundish.rules.rule import Cut, Need


def served(room: Room, run: PipeRun) -> Placed:
    """The appliance a run serves."""
    return next(one for one in room.placed if one.key == run.serves)


def of_iron(room: Room) -> bool:
    """Whether the stack is of cast iron."""
    return room.plan.survey.stack.pipe.startswith("cast iron")


def pieces(run: PipeRun) -> tuple[Cut, ...]:
    """The pieces of a run as pieces to cut."""
    return tuple(Cut(mark, length, run.what, run.what) for mark, length in run.pieces)


def clips(run: Figure, apart: Figure, least: Figure, label: str) -> Figure:
    """Clips along a run at most so far apart, and never fewer than the least."""
    spaces = whole_spaces(run, apart, "Lengths of run between clips") * number(1, "each", "clip for each")
    return largest(spaces.named("Clips along the run"), least, label=label)


def into_stack(room: Room, book: Book, why: str, mark: str) -> Iterator[Need]:
    """A new length of plastic stack let into cast iron, and what joins it above and below."""
    length = book.figure("drainage.stack_piece")
    yield Need(each(2, "Above and below the new length of stack"), "first fix", why, role="cast iron coupling 110")
    yield Need(length, "first fix", why, role="soil pipe 110", cuts=(Cut(mark, length, "stack", "into the old stack"),))
