"""The rule sets that drainage may be reckoned by: what each gives a WC branch, an appliance and a stack, and where they differ."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Final

from tundish.catalogue.book import Book
from tundish.field import read
from tundish.figure import Figure, largest, number, total
from tundish.layout.design import BY_H, DRAINS_BY, USES, WITH_BOSSES, Appliance, RoomPlan
from tundish.layout.room import PipeRun, Room
from tundish.measure import show_number
from tundish.rules.pipes import doubled

KINDS: Final = {"wc": "wc", "accessible wc": "wc", "basin": "basin", "bidet": "basin", "urinal": "urinal"}
SYSTEMS: Final = dict(zip(DRAINS_BY, ("3", "1", "2", "3", "4"), strict=True))
"""The system whose units a rule set takes; Approved Document H those of system III, as its country does."""
UNITS: Final = tuple(f"discharge.{name}_{system}" for name in ("basin", "urinal", "wc", "wc_large") for system in "1234")
FLOWS: Final = (
    *UNITS,
    "discharge.wc_small",
    *(f"discharge.k_{place}" for place in "1234"),
    "discharge.stack_h",
    "discharge.stack_square",
    "discharge.stack_swept",
)
BRANCHES: Final = ("drainage.wc_fall_least", "drainage.wc_fall_most", *(f"discharge.fall_{system}" for system in "124"))
LENGTHS: Final = ("drainage.wc_length_most", *(f"discharge.length_{system}" for system in "124"))
_SMALL, _USUAL = 4.0, 6.0
"""Litres: a small flush, and the largest of the usual ones."""


@dataclass(frozen=True, slots=True)
class Flow:
    """What a rule set makes of a stack, l/s: the flow in it, the most it carries, and what discharges that the set does not permit.

    `swept`: it carries that where its branches come in swept, and would not if they came in square.
    """

    by: str
    flow: float
    most: float
    not_permitted: tuple[str, ...]
    swept: bool = False

    @property
    def passes(self) -> bool:
        """Whether the stack carries it, and all of it is permitted."""
        return not self.not_permitted and self.flow <= self.most + _GRACE


def branch_falls(by: str, book: Book) -> tuple[Figure, Figure]:
    """The least and the greatest fall of a WC branch; what EN 12056-2 leaves open is as in the other."""
    key = f"discharge.fall_{SYSTEMS[by]}"
    least = book.figure("drainage.wc_fall_least") if SYSTEMS[by] == _OF_THE_UK else book.figure(key)
    return least, book.figure("drainage.wc_fall_most")


def branch_longest(by: str, book: Book) -> Figure:
    """How long a WC branch may be without a vent."""
    return book.figure("drainage.wc_length_most" if SYSTEMS[by] == _OF_THE_UK else f"discharge.length_{SYSTEMS[by]}")


def flow_in(plan: RoomPlan, besides: Figure | None, book: Book) -> tuple[Figure, Figure]:
    """The flow in the stack of a room and what it carries, by the rule set that was chosen: K times the root of all units.

    Never less than the largest of the room's own. `besides`: what else drains into it.
    """
    by = plan.design.piping.drains_by
    units = [book.figure(key).named(f"{one.name}: discharge units") for one, key, _ in _discharging(plan, by, book)]
    together = total([*units, *((besides,) if besides is not None else ())], "Discharge units")
    root = number(round(math.sqrt(together.value), 6), "l/s", f"√ of {show_number(together.value, 1)}, all discharge units")
    flow = largest((book.figure(_k(plan)) * root).named("K × √ΣDU"), *units, label="Flow in the stack")
    return flow, book.figure(_carries(plan, by, flow.value, book))


def flows(plan: RoomPlan, besides: Figure | None, book: Book) -> Iterator[Flow]:
    """What each rule set makes of the stack of a room, that which was chosen first."""
    k, rest = book.figure(_k(plan)).value, besides.value if besides is not None else 0.0
    for by in (plan.design.piping.drains_by, *others(plan)):
        found = tuple(_discharging(plan, by, book))
        units = [book.figure(key).value for _, key, _ in found]
        barred = tuple(f"{one.name} flushes {show_number(_flush(one, book))} l" for one, _, permitted in found if not permitted)
        flow = max([k * math.sqrt(sum(units) + rest), *units])
        carries = _carries(plan, by, flow, book)
        yield Flow(by, flow, book.figure(carries).value, barred, swept=carries == _SWEPT)


def others_in(plan: RoomPlan, path: str) -> Figure | None:
    """The discharge units of what else drains into the stack of a room, as surveyed."""
    return read(plan.survey.stack, "others", f"{path}.survey.stack")


def with_bosses(plan: RoomPlan) -> tuple[int, ...]:
    """The places of those WCs on the stack whose branch has bosses, and so comes in square."""
    return tuple(place for place, each in enumerate(plan.design.appliances) if _on_stack(each) and each.branch == WITH_BOSSES)


def let_in_by(room: Room, run: PipeRun, book: Book) -> str:
    """The role of the branch by which that of a WC is let into the stack.

    Double, and so swept, where another comes in opposite; else swept where only so the stack carries what comes into it.
    """
    if any(run in both for both in doubled(room)):
        return f"soil branch double {run.size}"
    one = next(each for each in room.placed if each.key == run.serves)
    if one.choice.branch == WITH_BOSSES:
        return f"soil branch boss {run.size}"
    chosen = next(flows(room.plan, others_in(room.plan, room.path), book))
    return f"soil branch swept {run.size}" if chosen.swept else f"soil branch {run.size}"


def differing(told: Iterable[tuple[str, str]]) -> str:
    """What other rule sets say that differs, those together that say the same; nothing where there are none."""
    said: dict[str, list[str]] = {}
    for by, words in told:
        said.setdefault(words, []).append(by)
    found = " ".join(f"By {' and '.join(sets)}: {words}." for words, sets in said.items())
    return f"Rule sets differ. {found}" if found else ""


def others(plan: RoomPlan) -> tuple[str, ...]:
    """The rule sets that were not chosen."""
    return tuple(each for each in DRAINS_BY if each != plan.design.piping.drains_by)


def unit_of(plan: RoomPlan, one: Appliance, book: Book) -> Figure:
    """What one appliance discharges, by the rule set that was chosen."""
    key, _ = _unit(KINDS.get(one.kind, "basin"), _flush(one, book), plan.design.piping.drains_by)
    return book.figure(key).named(f"{one.name}: discharge units")


def drains(plan: RoomPlan) -> bool:
    """Whether anything of the room goes to the stack."""
    return any(each.ware and not each.drains_to.strip() for each in plan.design.appliances)


def _discharging(plan: RoomPlan, by: str, book: Book) -> Iterator[tuple[Appliance, str, bool]]:
    """What goes to the stack, the figure for it, and whether the rule set permits it."""
    for each in plan.design.appliances:
        kind = KINDS.get(each.kind)
        if kind is not None and each.ware in book.items and not each.drains_to.strip():
            yield each, *_unit(kind, _flush(each, book), by)


def _k(plan: RoomPlan) -> str:
    return f"discharge.k_{USES.index(plan.design.piping.use) + 1}"


def _carries(plan: RoomPlan, by: str, flow: float, book: Book) -> str:
    """What a stack carries: of EN 12056-2 with square entries, or with swept ones where those alone will do and can be had."""
    if by == BY_H:
        return "discharge.stack_h"
    square, swept = book.figure(_SQUARE).value, book.figure(_SWEPT).value
    needed = square + _GRACE < flow <= swept + _GRACE
    may = any(map(_on_stack, plan.design.appliances)) and not with_bosses(plan)
    return _SWEPT if needed and may else _SQUARE


def _on_stack(one: Appliance) -> bool:
    return KINDS.get(one.kind) == "wc" and bool(one.ware) and not one.drains_to.strip()


def _flush(one: Appliance, book: Book) -> float:
    ware = book.items.get(one.ware)
    return ware.sizes["flush"][0] if KINDS.get(one.kind) == "wc" and ware is not None and ware.has("flush") else 0.0


def _unit(kind: str, flush: float, by: str) -> tuple[str, bool]:
    """The figure for an appliance, and whether the rules permit it; a small flush that they do not is reckoned as the usual one."""
    system = SYSTEMS[by]
    if kind == "wc" and 0 < flush <= _SMALL:
        return ("discharge.wc_small", True) if system == _OF_SMALL_FLUSHES else (f"discharge.wc_{system}", by == BY_H)
    large = kind == "wc" and flush > _USUAL
    return f"discharge.{kind}{'_large' if large else ''}_{system}", True


_OF_THE_UK: Final = "3"
_OF_SMALL_FLUSHES: Final = "2"
_GRACE: Final = 1e-6
_SQUARE: Final = "discharge.stack_square"
_SWEPT: Final = "discharge.stack_swept"
