"""A WC branch: from the pan to the stack."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.pipes import STRAIGHT_BACK
from tundish.layout.room import PipeRun, Room
from tundish.rules.amounts import each, in_all
from tundish.rules.drained_by import FLOWS, let_in_by
from tundish.rules.pipes import across_from, into_stack, of_iron, pieces, served
from tundish.rules.rule import Cut, Need, rule


@rule(
    "drainage/branch",
    figures=("drainage.soil_fittings", "drainage.stack_piece", "drainage.slip_piece", *FLOWS),
    source="common practice; swept entries: EN 12056-2, table 11",
)
def branch(room: Room, book: Book) -> Iterator[Need]:
    """A WC branch runs from the pan bend to a new entry in the stack.

    Into a plastic stack it is let with two slip couplings, the upper one with a short piece of pipe into the branch's socket; into cast
    iron with two flexible couplings and a new length of plastic stack between them. Into another entry it is coupled. Pipe has no socket
    of its own, so behind each piece stands a coupling. An outlet that goes straight back takes a straight adaptor in place of the bend;
    every corner and every step over to the stack a bend more. By EN 12056-2 the entry is swept where the stack carries all that comes into
    it so, and would not if it were square. Two that come in opposite one another at one height share one double branch, swept, that is let
    in once.
    """
    for count, run in enumerate(room.pipes_of("soil"), 1):
        name, mark = served(room, run).name, f"{room.mark}X{count}"
        for role in _fittings(room, run, book):
            yield Need(each(1, name), "first fix", f"branch of {name}", role=role)
        bends = len(run.bends) - (0 if served(room, run).choice.outlet == STRAIGHT_BACK else 1)
        if bends > 0:
            yield Need(each(bends, f"Bends, branch of {name}"), "first fix", f"branch of {name}", role=f"soil bend {run.size}")
        yield from _pipe(run, name)
        if run.to:
            yield Need(each(1, f"Into {run.to}"), "first fix", f"branch of {name}", role=f"soil coupling {run.size}")
        elif across_from(room, run) is None:
            yield from into_stack(room, book, f"branch of {name}", mark) if of_iron(room) else _slipped(run, name, book, mark)


def _fittings(room: Room, run: PipeRun, book: Book) -> Iterator[str]:
    """The branch let into the stack, the piece that the pan stands on, and what turns or goes straight on behind the frame."""
    choice = served(room, run).choice
    if not run.to and across_from(room, run) is None:
        yield let_in_by(room, run, book)
    yield "pan outlet 90"
    if choice.outlet == STRAIGHT_BACK:
        yield f"soil adaptor straight 90-{run.size}"
    else:
        yield from ("pan bend 90", f"soil adaptor 90-{run.size}")


def _pipe(run: PipeRun, name: str) -> Iterator[Need]:
    cuts = pieces(run)
    if cuts:
        amount = in_all(run.lengths, "pieces", f"Branch of {name}")
        yield Need(amount, "first fix", f"branch of {name}", role=f"soil pipe {run.size}", cuts=cuts)
        yield Need(each(len(cuts), "Behind each piece"), "first fix", f"branch of {name}", role=f"soil coupling {run.size}")


def _slipped(run: PipeRun, name: str, book: Book, mark: str) -> Iterator[Need]:
    why, length = f"branch of {name}", book.figure("drainage.slip_piece")
    yield Need(each(2, f"Above and below the {why}"), "first fix", why, role=f"soil slip coupling {run.size}")
    cut = Cut(mark, length, "stack", "into the branch, under the upper slip coupling")
    yield Need(length, "first fix", why, role=f"soil pipe {run.size}", cuts=(cut,))
