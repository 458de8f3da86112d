"""The rule sets that drainage may be reckoned by: what each gives a WC branch, an appliance and a stack, and where they differ."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.figure import Figure, largest, number, total
from tundish.layout.design import BY_H, DRAINS_BY, USES, Appliance, RoomPlan
from tundish.measure import show_number

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
)
BRANCHES: Final = ("drainage.wc_fall_least", "drainage.wc_fall_most", *(f"discharge.fall_{system}" for system in "124"))
LENGTHS: Final = ("drainage.wc_length_most", *(f"discharge.length_{system}" for system in "124"))
_SMALL, _USUAL = 4.0, 6.0
"""Litres: a small flush, and the largest of the usual ones."""


@dataclass(frozen=True, slots=True)
class Flow:
    """What a rule set makes of a stack: the flow in it, the most it carries, and what discharges that the set does not permit."""

    by: str
    flow: Figure
    most: Figure
    not_permitted: tuple[str, ...]


def branch_falls(by: str, book: Book) -> tuple[Figure, Figure]:
    """The least and the greatest fall of a WC branch; what EN 12056-2 leaves open is as in the other."""
    key = f"discharge.fall_{SYSTEMS[by]}"
    least = book.figure("drainage.wc_fall_least") if SYSTEMS[by] == _OF_THE_UK else book.figure(key)
    return least, book.figure("drainage.wc_fall_most")


def branch_longest(by: str, book: Book) -> Figure:
    """How long a WC branch may be without a vent."""
    return book.figure("drainage.wc_length_most" if SYSTEMS[by] == _OF_THE_UK else f"discharge.length_{SYSTEMS[by]}")


def flows(plan: RoomPlan, besides: Figure | None, book: Book) -> Iterator[Flow]:
    """What each rule set makes of the stack of a room, that which was chosen first."""
    chosen = plan.design.piping.drains_by
    for by in (chosen, *others(plan)):
        units, barred = _units(plan, by, book)
        most = book.figure("discharge.stack_h" if by == BY_H else "discharge.stack_square")
        yield Flow(by, _flow(plan, units, besides, book), most, tuple(barred))


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
    ware = book.items.get(one.ware)
    key, _ = _unit(KINDS.get(one.kind, "basin"), _flush(one, ware), plan.design.piping.drains_by)
    return book.figure(key).named(f"{one.name}: discharge units")


def _flush(one: Appliance, ware: Item | None) -> float:
    return ware.size("flush").value if KINDS.get(one.kind) == "wc" and ware is not None and ware.has("flush") else 0.0


def _units(plan: RoomPlan, by: str, book: Book) -> tuple[list[Figure], list[str]]:
    units, barred = [], []
    for each in plan.design.appliances:
        kind, ware = KINDS.get(each.kind), book.items.get(each.ware)
        if kind is None or ware is None or each.drains_to.strip():
            continue
        flush = _flush(each, ware)
        key, permitted = _unit(kind, flush, by)
        units.append(book.figure(key).named(f"{each.name}: discharge units"))
        if not permitted:
            barred.append(f"{each.name} flushes {show_number(flush)} l")
    return units, barred


def _unit(kind: str, flush: float, by: str) -> tuple[str, bool]:
    """The figure for an appliance, and whether the rules permit it; a small flush that they do not is reckoned as the usual one."""
    system = SYSTEMS[by]
    if kind == "wc" and 0 < flush <= _SMALL:
        return ("discharge.wc_small", True) if system == _OF_SMALL_FLUSHES else (f"discharge.wc_{system}", by == BY_H)
    large = kind == "wc" and flush > _USUAL
    return f"discharge.{kind}{'_large' if large else ''}_{system}", True


def _flow(plan: RoomPlan, units: Sequence[Figure], besides: Figure | None, book: Book) -> Figure:
    """K times the root of all units, and no less than the largest of the room's own."""
    together = total([*units, *((besides,) if besides is not None else ())], "Discharge units")
    root = number(round(math.sqrt(together.value), 6), "l/s", f"√ of {show_number(together.value, 1)}, all discharge units")
    k = book.figure(f"discharge.k_{USES.index(plan.design.piping.use) + 1}")
    return largest((k * root).named("K × √ΣDU"), *units, label="Flow in the stack")


_OF_THE_UK: Final = "3"
_OF_SMALL_FLUSHES: Final = "2"
