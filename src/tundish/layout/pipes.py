"""Discharge pipes in the void: the branch of a WC and the wastes of the others, each to the stack."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.figure import Figure, converted, largest
from tundish.layout.appliances.kinds import KINDS
from tundish.layout.inputs import Inputs
from tundish.layout.makers import half
from tundish.layout.outline import Outline
from tundish.layout.room import PipeRun, Placed

SOIL_SIZE = 110


@dataclass(frozen=True, slots=True)
class Stack:
    """Where the stack stands, and the invert of its branch, None while it is not known."""

    from_left: Figure
    from_wall: Figure
    invert: Figure | None


def stack_of(outline: Outline, inputs: Inputs) -> Stack:
    """The stack as surveyed."""
    stack = outline.plan.survey.stack
    return Stack(
        outline.standing.seen(inputs.sure(stack, "from_left", "survey.stack"), stack.wall).named("Stack from left wall"),
        inputs.sure(stack, "from_wall", "survey.stack").named("Stack from its wall"),
        inputs.number(stack, "branch_invert", "survey.stack"),
    )


def discharges(placed: Sequence[Placed], stack: Stack, book: Book) -> tuple[PipeRun, ...]:
    """The soil branches and wastes, left to right; marks P1, P2… go to those that take a piece of pipe."""
    made: list[PipeRun] = []
    count = 0
    for each in placed:
        for run in _runs(each, stack, book):
            count += len(run.lengths)
            made.append(replace(run, mark=f"P{count}") if run.lengths else run)
    return tuple(made)


def along(one: Figure, other: Figure, label: str, least: Figure) -> Figure:
    """How far two places along the wall are apart, whichever is further left, but at least so much."""
    ahead, behind = (one - other, other - one) if one.value >= other.value else (other - one, one - other)
    if ahead.low >= least.value:
        return ahead.named(label)
    # While either may still turn out to be the further one, both ways round are kept open.
    return largest(ahead, behind, least, label=label) if behind.high > least.value else largest(ahead, least, label=label)


def _runs(placed: Placed, stack: Stack, book: Book) -> Iterator[PipeRun]:
    ends = KINDS[placed.kind].ends
    if "soil" in ends:
        yield _branch(placed, stack, book)
    if "waste" in ends:
        yield _waste(placed, stack, book)


def _branch(placed: Placed, stack: Stack, book: Book) -> PipeRun:
    name = placed.name
    run = along(placed.centre, stack.from_left, f"Run of branch, {name}", book.figure("drainage.least_run"))
    bore = half(book.role(f"soil pipe {SOIL_SIZE}"), "bore", "Half the bore of the soil pipe")
    outlet = placed.figures["outlet"]
    rise = fall = None
    end = outlet.value
    if stack.invert is not None:
        rise = (outlet - bore - stack.invert).named(f"Fall of branch, {name}")
        fall = (rise / converted(run, "m")).named(f"Fall a metre, {name}") if run.low > 0 else None
        end = stack.invert.value + bore.value
    piece = (run - book.figure("drainage.soil_fittings")).named(f"Soil pipe, {name}")
    return PipeRun(
        key=f"{placed.key}.soil",
        mark="",
        what=f"Soil branch, {name}",
        kind="soil",
        serves=placed.key,
        size=SOIL_SIZE,
        run=run,
        rise=rise,
        fall=fall,
        lengths=(piece,) if piece.value > 0 else (),
        points=((placed.centre.value, outlet.value), (stack.from_left.value, end)),
        enters=stack.invert,
    )


def _waste(placed: Placed, stack: Stack, book: Book) -> PipeRun:
    name = placed.name
    run = along(placed.centre, stack.from_left, f"Run of waste, {name}", book.figure("drainage.least_run"))
    fall = book.figure("drainage.waste_fall")
    rise = (fall * converted(run, "m")).named(f"Fall of waste, {name}")
    piece = (run + book.figure("drainage.waste_tail")).named(f"Waste pipe, {name}")
    return PipeRun(
        key=f"{placed.key}.waste",
        mark="",
        what=f"Waste, {name}",
        kind="waste",
        serves=placed.key,
        size=_size(placed.kind, run.value, book),
        run=run,
        rise=rise,
        fall=fall.named(f"Fall a metre, {name}"),
        lengths=(piece,),
        points=((placed.centre.value, placed.figures["waste"].value), (stack.from_left.value, placed.figures["waste"].value - rise.value)),
        enters=_boss(placed, run, rise, book),
    )


def _boss(placed: Placed, run: Figure, rise: Figure, book: Book) -> Figure:
    """The invert at which a waste enters the stack. While the run may still change its size, either bore may come."""
    sizes = {_size(placed.kind, length, book) for length in (run.low, run.value, run.high)}
    bore = half(_pipe(_size(placed.kind, run.value, book), book), "bore", "Half the bore of the waste pipe")
    if len(sizes) > 1:
        halves = [_pipe(size, book).sizes["bore"][0] / 2 for size in sizes]
        bore = replace(bore, low=min(halves), high=max(halves), tbc=True)
    return (placed.figures["waste"] - bore - rise).named(f"Boss, invert, {placed.name}")


def _size(kind: str, run: float, book: Book) -> int:
    """A urinal's waste is 50 (from memory); the others' is 32 for as long as that may run, then 40."""
    if kind == "urinal":
        return 50
    return 32 if run <= book.figure("drainage.waste_32_most").value * 1000 else 40


def _pipe(size: int, book: Book) -> Item:
    return book.role(f"waste pipe {size}")
