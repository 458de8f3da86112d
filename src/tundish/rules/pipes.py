"""Runs of pipe as the rules read them: whom they serve, their pieces, their clips, and how a branch comes into an old stack."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import pairwise
from math import hypot
from typing import Final, Literal, NamedTuple

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.figure import Figure, largest, number, round_up
from tundish.layout.appliances.kinds import KINDS
from tundish.layout.design import IN_FRONT, PREWALLS, WITH_BOSSES
from tundish.layout.feeds import SHORTEST
from tundish.layout.makers import half
from tundish.layout.once import once
from tundish.layout.outfalls import STACK_SIZE
from tundish.layout.room import Outfall, PipeRun, Placed, Room
from tundish.rules.amounts import each, whole_spaces
from tundish.rules.rule import Cut, Need, WayOut, judge

LARGEST_BOSS: Final = 40
"""The largest waste that goes into a boss of a branch fitting; smaller ones by a reducer."""


def outfall(room: Room, run: PipeRun) -> Outfall:
    """What a discharge runs to."""
    return next(one for one in room.outfalls if one.name == run.to)


def to_stack(room: Room, *kinds: str) -> tuple[PipeRun, ...]:
    """The discharges of these kinds that go to the stack, and not to another entry."""
    return tuple(run for run in room.pipes_of(*kinds) if not run.to)


def not_measured(room: Room, run: PipeRun) -> bool:
    """Whether it runs to another entry whose invert is not known."""
    return bool(run.to) and outfall(room, run).invert is None


def elsewhere(room: Room, run: PipeRun, limits: Callable[[PipeRun], tuple[Figure, Figure]]) -> tuple[WayOut, ...]:
    """A way out for each other place to which the same discharge would fall a metre within its limits, into a pipe that takes it."""
    return tuple(
        WayOut(
            f"Take {served(room, run).name} to {other.to or 'the stack'}: its pipe goes another way, past other frames.",
            f"{served(room, run).path}.drains_to",
            other.to,
        )
        for other in room.instead
        if other.key == run.key and _would_do(room, other, limits(other))
    )


def served(room: Room, run: PipeRun) -> Placed:
    """The appliance a run serves."""
    return next(one for one in room.placed if one.key == run.serves)


def shut_in_front(one: Placed) -> bool:
    """Whether its servicing valves stand in front of the wall, between wall plate elbow and connector."""
    return one.kind in {"basin", "bidet"} and one.choice.valves == IN_FRONT


def out_of_wall(room: Room, run: PipeRun) -> Figure | None:
    """The last leg of a supply, from where it goes up to the front of the frames, in whole mm; None where the fittings meet."""
    if len(run.route) < _LEG or run.from_wall is None:
        return None
    label = f"Out of the wall, {run.what}"
    before, end = run.route[-2], run.route[-1]
    if room.corner is not None:
        leg = number(hypot(end[0] - before[0], end[1] - before[1]), label="From where it goes up to the front")
    else:
        up = max(before[1] - run.from_wall.value, 0.0)
        leg = room.depth - run.from_wall
        leg = (leg - number(up, label="Out in front")) if up > _GRACE else leg
    return round_up(leg, 1.0, label) if leg.value >= SHORTEST else None


def supply_size(room: Room, kind: Literal["hot", "cold"]) -> int:
    """Nominal size of the hot or cold pipe that is there."""
    water = room.plan.survey.water
    return int(water.hot_size if kind == "hot" else water.cold_size)


def fed_before(room: Room, kind: Literal["hot", "cold"]) -> bool:
    """Whether an appliance on an earlier pre-wall of the room is fed from the same pipe."""
    earlier = PREWALLS[: room.place]
    return any(kind in KINDS[each.kind].ends for each in room.plan.design.appliances if each.on in earlier)


def of_iron(room: Room) -> bool:
    """Whether the stack is of cast iron."""
    return room.plan.survey.stack.pipe.startswith("cast iron")


class Branch(NamedTuple):
    """A WC branch let into the stack: whose it is, where that is put in, the invert, its size, and whether its fitting has bosses."""

    pan: str
    path: str
    enters: Figure
    size: int
    bosses: bool


def branches(room: Room) -> Iterator[Branch]:
    """The WC branches let into the stack: of this pre-wall, and of the room's others."""
    for run in to_stack(room, "soil"):
        if run.enters is not None:
            one = served(room, run)
            yield Branch(one.name, one.path, run.enters, run.size, one.choice.branch == WITH_BOSSES)
    entry = room.figures.get("branch_invert")
    for place, choice in enumerate(room.plan.design.appliances if entry is not None else ()):
        kind, on = KINDS.get(choice.kind), PREWALLS.index(choice.on) if choice.on in PREWALLS else 0
        if entry is not None and kind is not None and kind.as_kind == "wc" and not choice.drains_to and on != room.place:
            path = f"{room.path}.design.appliances.{place}"
            yield Branch(choice.name or kind.title, path, entry, STACK_SIZE, choice.branch == WITH_BOSSES)


@once
def off_branch(room: Room, run: PipeRun, book: Book) -> tuple[Branch, Figure] | None:
    """The branch whose middle is nearest to where a waste enters the stack, and how far that is above or below it; None without one."""
    if run.enters is None or run.to:
        return None
    boss = (run.enters + _half_bore(book.role(f"waste pipe {run.size}"))).named("Middle of the boss")
    found = [(one, _between(boss, one.enters + _half_bore(book.role(f"soil pipe {one.size}")))) for one in branches(room)]
    return min(found, key=lambda pair: pair[1].value, default=None)


def in_branch(room: Room, run: PipeRun, book: Book) -> bool:
    """Whether a waste goes into a boss of a branch fitting that has some, and so needs no strap."""
    near = off_branch(room, run, book)
    if near is None or run.size > LARGEST_BOSS or near[1].value >= book.figure("drainage.strap_clear").value:
        return False
    return near[0].bosses


def opposite(one: PipeRun, other: PipeRun) -> bool:
    """Whether two runs come into the stack from opposite sides, seen from above: more than a right angle apart."""
    (ax, ay), (bx, by) = _heading(one), _heading(other)
    return ax * bx + ay * by < -_GRACE


def doubled(room: Room) -> tuple[tuple[PipeRun, PipeRun], ...]:
    """The WC branches that come into the stack opposite one another at one height, two by two: one double branch takes both.

    Not those whose fitting is to have bosses, which a double one has not.
    """
    found: list[tuple[PipeRun, PipeRun]] = []
    open_ = [run for run in to_stack(room, "soil") if run.enters is not None and served(room, run).choice.branch != WITH_BOSSES]
    while open_:
        one = open_.pop(0)
        other = next((each for each in open_ if opposite(one, each) and _level(one, each)), None)
        if other is not None:
            open_.remove(other)
            found.append((one, other))
    return tuple(found)


def across_from(room: Room, run: PipeRun) -> PipeRun | None:
    """The branch with whose double fitting this one is let in, on its other side; None where its own fitting lets it in."""
    return next((one for one, other in doubled(room) if other is run), None)


def pieces(run: PipeRun) -> tuple[Cut, ...]:
    """The pieces of a run as pieces to cut."""
    return tuple(Cut(mark, length, run.what, run.what) for mark, length in run.pieces)


def couplings(run: PipeRun, why: str, role: str) -> Iterator[Need]:
    """What joins the pieces of a run that no bar is long enough for."""
    if run.joints:
        yield Need(each(run.joints, f"Joints, {why}"), "first fix", why, role=f"{role} {run.size}")


def clips(run: Figure, apart: Figure, least: Figure, label: str) -> Figure:
    """Clips along a run at most so far apart, and never fewer than the least."""
    spaces = whole_spaces(run, apart, "Lengths of run between clips") * number(1, "each", "clip for each")
    return largest(spaces.named("Clips along the run"), least, label=label)


def into_stack(room: Room, book: Book, why: str, mark: str) -> Iterator[Need]:
    """A new length of plastic stack let into cast iron, and what joins it above and below."""
    length = book.figure("drainage.stack_piece")
    yield Need(each(2, "Above and below the new length of stack"), "first fix", why, role="cast iron coupling 110")
    yield Need(length, "first fix", why, role="soil pipe 110", cuts=(Cut(mark, length, "stack", "into the old stack"),))


_LEG: Final = 2
_GRACE: Final = 1e-6
_SHORT: Final = 1.0


def _heading(run: PipeRun) -> tuple[float, float]:
    """Which way it goes as it comes in, along the wall and out of it: by its last leg where a bend leads into that, else swung over."""
    legs = [(bx - ax, by - ay) for (ax, ay, _), (bx, by, _) in pairwise(run.route) if hypot(bx - ax, by - ay) > _SHORT]
    last = legs[-1:] if any(each.startswith("over to") for each in run.bends) else legs[-2:]
    dx, dy = sum(x for x, _ in last), sum(y for _, y in last)
    far = hypot(dx, dy) or 1.0
    return dx / far, dy / far


def _level(one: PipeRun, other: PipeRun) -> bool:
    return one.enters is not None and other.enters is not None and abs(one.enters.value - other.enters.value) < _SHORT


def _would_do(room: Room, run: PipeRun, limits: tuple[Figure, Figure]) -> bool:
    fits = run.size <= outfall(room, run).size and not not_measured(room, run)
    return fits and run.fall is not None and judge(run.fall, *limits) == "passes"


def _half_bore(pipe: Item) -> Figure:
    return half(pipe, "bore", f"Half the bore of {pipe.name}")


def _between(one: Figure, other: Figure) -> Figure:
    """How far a boss lies above or below the middle of a branch."""
    middle = other.named("Middle of the branch")
    return (one - middle if one.value >= middle.value else middle - one).named("Boss above or below the branch")
