"""A WC branch: from the pan to the stack."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import PipeRun, Room
from tundish.rules.amounts import each, in_all
from tundish.rules.pipes import into_stack, of_iron, pieces, served
from tundish.rules.rule import Need, rule


@rule("drainage/branch", figures=("drainage.soil_fittings", "drainage.stack_piece"), source="common practice")
def branch(room: Room, book: Book) -> Iterator[Need]:
    """A WC branch runs from the pan bend to a new entry in the stack.

    Into a plastic stack it is let with two slip couplings; into cast iron with two flexible couplings and a new length of plastic
    stack between them.
    """
    for count, run in enumerate(room.pipes_of("soil"), 1):
        name = served(room, run).name
        for role in (f"soil branch {run.size}", "pan bend 90", f"soil adaptor 90-{run.size}"):
            yield Need(each(1, name), "first fix", f"branch of {name}", role=role)
        yield from _pipe(run, name)
        yield from into_stack(room, book, f"branch of {name}", f"{room.mark}X{count}") if of_iron(room) else _slipped(run, name)


def _pipe(run: PipeRun, name: str) -> Iterator[Need]:
    cuts = pieces(run)
    if cuts:
        amount = in_all(run.lengths, "pieces", f"Branch of {name}")
        yield Need(amount, "first fix", f"branch of {name}", role=f"soil pipe {run.size}", cuts=cuts)


def _slipped(run: PipeRun, name: str) -> Iterator[Need]:
    yield Need(each(2, f"Above and below the branch of {name}"), "first fix", f"branch of {name}", role=f"soil slip coupling {run.size}")
