"""What has to be joined end to end in a room: for each discharge, feed, flush and new entry, from which end to which, and past what."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final, Literal

from tundish.catalogue.book import Book, NotInBookError
from tundish.catalogue.item import End, Item
from tundish.layout.design import BY_VALVE
from tundish.layout.outfalls import STACK_SIZE
from tundish.layout.pipes import STRAIGHT_BACK
from tundish.layout.room import PipeRun, Placed, Room
from tundish.record import record
from tundish.rules.drained_by import let_in_by
from tundish.rules.pipes import (
    LARGEST_BOSS,
    across_from,
    branches,
    fed_before,
    in_branch,
    of_iron,
    outfall,
    shut_in_front,
    supply_size,
    to_stack,
)
from tundish.rules.vents import VENTS

Does = Literal["turns", "carries", "shuts", "branches", "holds", "reaches", "lets in", "slides", "vents"]


@record
class At:
    """An end in its place. `codes` are the items of which one must be on the list for it; none for what is there already."""

    name: str
    end: End
    codes: tuple[str, ...] = ()


@record
class Thing:
    """Something that stands in a course because of where it runs: what it does there, and the role that it usually is.

    `with_`: of what is let in, the role of what slides along the stack on both sides of it.
    """

    does: Does
    role: str
    where: str
    length: float = 0.0
    with_: str = ""


@dataclass(frozen=True, slots=True)
class Course:
    """Things to be joined in order from one end to another. `draws`: the reasons for which its parts were asked for."""

    what: str
    place: str
    start: At
    things: tuple[Thing, ...]
    goal: At
    draws: tuple[str, ...]


def courses(room: Room, book: Book) -> Iterator[Course]:
    """Every course of a room, appliance by appliance, then what is let into an old stack for the bosses alone."""
    for count, one in enumerate(room.placed):
        for run in (each for each in room.pipes if each.serves == one.key):
            if run.kind == "soil":
                yield _soil(room, run, one, book)
            elif run.kind == "waste":
                yield _waste(room, run, one, book)
            else:
                yield _feed(room, run, one, _taps(one, book))
            if run.kind in {"soil", "waste"} and one.choice.vented == BY_VALVE:
                yield _vent(run, one, book)
        if one.kind in {"wc", "urinal"}:
            yield _flush(one)
        if "riser" in one.figures and one.figures["riser"].value > 0:
            yield _riser(one, count)
    if to_stack(room, "waste") and of_iron(room) and not to_stack(room, "soil") and not any(branches(room)):
        iron, slides = _stack_pipe(room), Thing("slides", _SLIDES[True], "on the stack")
        pipe = Thing("carries", f"soil pipe {STACK_SIZE}", "into the old stack")
        yield Course("stack", "", iron, (slides, pipe, slides), iron, ("bosses of the wastes",))


def _soil(room: Room, run: PipeRun, one: Placed, book: Book) -> Course:
    draws = (f"branch of {one.name}",)
    straight = one.choice.outlet == STRAIGHT_BACK
    bends = [f"soil bend {run.size}"] * len(run.bends)
    if bends and not straight:
        bends[0] = f"pan bend {_PAN}"
    things = _with_vent(run, one, _along(run, tuple(bends), f"soil pipe {run.size}"))
    pan = At(one.ware.name, _end(one.ware, _PAN_OUTLET), (one.ware.code,))
    if run.to:
        return Course("branch", one.name, pan, things, _entry(room, run), draws)
    first = across_from(room, run)
    if first is not None:
        role = let_in_by(room, run, book)
        side = _of_role(role, _SIDE + 1, End("soil", str(run.size), 0.0, "female"), book)
        return Course("branch", one.name, pan, things, side, draws)
    there = _stack_pipe(room)
    lets_in = (Thing("lets in", let_in_by(room, run, book), "into the stack", with_=_SLIDES[of_iron(room)]),)
    return Course("branch", one.name, pan, (*things, *lets_in), there, draws)


def _waste(room: Room, run: PipeRun, one: Placed, book: Book) -> Course:
    things = _with_vent(run, one, _along(run, (f"waste bend {run.size}",) * len(run.bends), f"waste pipe {run.size}"))
    goal = _entry(room, run)
    if goal.end.system == _ROUND and _in_branch(room, run, book):
        holds = tuple(item.code for item in book.items.values() if item.has("bosses"))
        goal = At("a boss of the branch", End("push-fit waste", str(LARGEST_BOSS), 0.0, "female"), holds)
    return Course(
        "waste", one.name, At(one.ware.name, _end(one.ware, _HOLES[one.kind]), (one.ware.code,)), things, goal, (f"waste of {one.name}",)
    )


def _in_branch(room: Room, run: PipeRun, book: Book) -> bool:
    """Whether it goes into a boss of a branch fitting; not where the catalogue lacks the pipe to reckon with."""
    try:
        return in_branch(room, run, book)
    except NotInBookError:
        return False


def _feed(room: Room, run: PipeRun, one: Placed, taps: At | None) -> Course:
    kind: Literal["hot", "cold"] = "hot" if run.kind == "hot" else "cold"
    first = run is room.pipes_of(kind)[0] and not fed_before(room, kind)
    size = supply_size(room, kind) if first else run.size
    start = At(f"the {kind} pipe that is there" if first else f"the {kind} pipe", End("copper", str(size), float(size), "male"))
    tee = () if first else (Thing("branches", f"tee {run.size}", f"off the {kind} pipe"),)
    things = (*tee, *_along(run, (f"elbow {run.size}",) * len(run.bends), f"copper {run.size}"))
    valve = Thing("shuts", f"servicing valve {run.size}", f"in the {kind} to {one.name}")
    plate = Thing("holds", f"wall plate elbow {run.size}", f"{kind} of {one.name}")
    reaches = Thing("reaches", "flexible connector to tap", f"{kind} of {one.name}")
    to_tap = (valve, plate, reaches)
    if shut_in_front(one):
        to_tap = (plate, Thing("shuts", "service valve half", f"before {one.name}"), reaches)
    return Course(kind, one.name, start, (*things, *(to_tap if taps else (valve,))), taps or _inlet(one), _draws(kind, one))


def _flush(one: Placed) -> Course:
    """From the cistern, or the valve of a urinal, to the ware."""
    out, into = (_FLUSH, _FLUSH) if one.kind == "wc" else (_TAIL, _OUTLET)
    start, goal = At(one.frame.name, _end(one.frame, out), (one.frame.code,)), At(one.ware.name, _end(one.ware, into), (one.ware.code,))
    return Course("flush", one.name, start, (), goal, (f"flush of {one.name}",))


def _riser(one: Placed, count: int) -> Course:
    start = At(one.ware.name, _end(one.ware, _OUTLET), (one.ware.code,))
    head = At(f"the head of {one.name}", End("thread", "G 1/2", 0.0, "male"))
    pipe = Thing("carries", "copper 15", f"up to the head of {one.name}", one.figures["riser"].value)
    elbow = Thing("holds", "wall plate elbow 15", f"at the head of {one.name}")
    return Course("riser", one.name, start, (pipe, elbow), head, (f"onto {one.name}", f"riser of {one.name}", f"head of {one.name}"))


def _along(run: PipeRun, bends: tuple[str, ...], pipe: str) -> tuple[Thing, ...]:
    """The bends and pieces of a run: the first bend, the pipe, the other bends; supplies begin with the pipe."""
    turns = tuple(Thing("turns", role, where) for role, where in zip(bends, run.bends, strict=True))
    length = sum(each.value for each in run.lengths)
    pipes = (
        tuple(Thing("carries", pipe, f"{run.what[:1].lower()}{run.what[1:]}", length) for _ in range(run.joints + 1)) if run.lengths else ()
    )
    return (*pipes, *turns) if run.kind in {"hot", "cold"} else (*turns[:1], *pipes, *turns[1:])


def _with_vent(run: PipeRun, one: Placed, things: tuple[Thing, ...]) -> tuple[Thing, ...]:
    """The things of a discharge with the tee of its vent behind the appliance, where it has one."""
    if one.choice.vented != BY_VALVE:
        return things
    first = 1 if run.bends else 0
    return (*things[:first], Thing("vents", VENTS[run.size].tee, f"in the vent of {one.name}"), *things[first:])


def _vent(run: PipeRun, one: Placed, book: Book) -> Course:
    """From the side of its tee up to the air valve."""
    made, system = VENTS[run.size], "soil" if run.kind == "soil" else "push-fit waste"
    start = _of_role(made.tee, _SIDE, End(system, str(run.size), 0.0, "female"), book)
    goal = _of_role(made.valve, 0, End(system, made.valve.rpartition(" ")[2], 0.0, "female"), book)
    up = Thing("carries", made.pipe, f"up to the air valve of {one.name}")
    return Course("vent", one.name, start, (up,), goal, (f"vent of {one.name}",))


def _of_role(role: str, place: int, usual: End, book: Book) -> At:
    """One of the ends of what usually does something; the usual end where its sheet is silent."""
    code = book.roles.get(role, role)
    item = book.items.get(code)
    if item is None:
        return At(role, usual, (code,))
    return At(item.name, item.ends[place] if len(item.ends) > place else usual, (code,))


def _taps(one: Placed, book: Book) -> At | None:
    """The tap of a basin or bidet, that is on the list; None for what has its own inlet."""
    if one.kind not in {"basin", "bidet"}:
        return None
    tap = book.items.get(one.choice.tap)
    return At(tap.name, _end(tap, _TAIL), (tap.code,)) if tap else At(f"the tap of {one.name}", _TAIL, ("",))


def _inlet(one: Placed) -> At:
    """Where a cistern, a flushing valve, a shower valve or a spout takes its supply."""
    item, usual = (one.frame, _TAIL) if one.kind in {"wc", "urinal"} else (one.ware, _OUTLET)
    return At(item.name, _end(item, usual), (item.code,))


def _draws(kind: str, one: Placed) -> tuple[str, ...]:
    return f"{kind} to {one.name}", f"onto {one.name}"


def _entry(room: Room, run: PipeRun) -> At:
    """What a discharge is put in: round the plastic of the stack, or into another entry."""
    into = outfall(room, run)
    if into.size >= STACK_SIZE and run.kind == "waste":
        return At(into.name or "the stack", End(_ROUND, str(STACK_SIZE), float(STACK_SIZE), "male"))
    system = "soil" if into.size >= STACK_SIZE else "push-fit waste"
    return At(into.name or "the stack", End(system, str(into.size), 0.0, "male"))


def _stack_pipe(room: Room) -> At:
    system, nominal = ("cast iron", "100") if of_iron(room) else ("soil", str(STACK_SIZE))
    return At("the stack", End(system, nominal, float(STACK_SIZE), "male"))


def _end(item: Item, usual: End) -> End:
    """The end of an item that is as usual, or else of the same system and way round; the usual one where its sheet is silent."""
    same = [end for end in item.ends if (end.system, end.gender) == (usual.system, usual.gender)]
    return next((end for end in same if end.nominal == usual.nominal), next(iter(same), usual))


_ROUND: Final = "round the stack"
_PAN: Final = 90
_SIDE: Final = 2
"""Of what is let into a run, the place of the end at its side: the first two are those of the run."""
_SLIDES: Final = {True: "cast iron coupling 110", False: "soil slip coupling 110"}
"""By whether the stack is of iron, what slides along it."""
_PAN_OUTLET: Final = End("pan outlet", "102", 102.0, "male", "EN 33")
_FLUSH: Final = End("flush", "55", 55.0, "female", "EN 33")
_TAIL: Final = End("thread", "G 1/2", 20.955, "male", "ISO 228-1")
_OUTLET: Final = End("thread", "G 1/2", 20.955, "female", "ISO 228-1")
_HOLES: Final[Mapping[str, End]] = {
    kind: End("thread", size, across, "female", "ISO 228-1")
    for kind, size, across in (("basin", "G 1 1/4", 41.91), ("bidet", "G 1 1/4", 41.91), ("urinal", "G 1 1/2", 47.803))
}
"""The waste of each kind of ware where its sheet is silent."""
