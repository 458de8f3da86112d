"""Whether the pipes that hot and cold come in by carry what the room draws."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, Literal

from tundish.catalogue.book import Book
from tundish.figure import Figure, total
from tundish.layout.appliances.kinds import KINDS
from tundish.layout.room import Room
from tundish.measure import show_number
from tundish.rules.pipes import supply_size
from tundish.rules.rule import Finding, WayOut, judge, rule

_UNITS: Final = {
    "wc": ("water.units_wc", 2.0),
    "accessible wc": ("water.units_wc", 2.0),
    "basin": ("water.units_basin", 1.5),
    "bidet": ("water.units_bidet", 1.5),
    "urinal": ("water.units_urinal", 0.0),
    "shower valve": ("water.units_shower", 3.0),
    "wall spout": ("water.units_spout", 10.0),
}
"""The figure of EN 806-3, and the units of BS 6700, which is another scale and is only told."""
_SUPPLIES: Final[tuple[Literal["hot", "cold"], ...]] = ("hot", "cold")
_SHORT, _MIDDLE, _WIDE = 7_000.0, 9_000.0, 22


@rule(
    "water/loading",
    figures=(
        *dict.fromkeys(key for key, _ in _UNITS.values()),
        "water.pipe_15",
        "water.pipe_15_middle",
        "water.pipe_15_short",
        "water.pipe_22",
    ),
    source="EN 806-3:2006, table 2, from an extract; what copper carries, from memory",
    whole=True,
)
def loading(room: Room, book: Book) -> Iterator[Finding]:
    """The pipes that hot and cold come in by carry the loading units of what the room draws.

    15 copper carries 3 units, 4 where its longest run is at most 9 m, 6 where at most 7 m; 22 copper 20. What else in the house draws on
    the same pipe is not counted. BS 6700 has units of another scale: they are told, and never mixed.
    """
    for kind in _SUPPLIES:
        drawn = [each for each in room.plan.design.appliances if each.ware and kind in KINDS[each.kind].ends]
        if drawn:
            units = [(each.name, *_UNITS[each.kind]) for each in drawn]
            has = total([book.figure(key).named(name) for name, key, _ in units], "Loading units")
            yield _finding(room, kind, has, book, sum(old for _, _, old in units))


def _finding(room: Room, kind: Literal["hot", "cold"], has: Figure, book: Book, old: float) -> Finding:
    size, most = supply_size(room, kind), _most(room, kind, book)
    state = judge(has, None, most, "look")
    message = f"BS 6700 counts {show_number(old, 1)} of its own units."
    ways: tuple[WayOut, ...] = ()
    if state != "passes":
        message = f"The last tap runs thin while the others are open: bring 22 as far as the frames. {message}"
        words = f"Bring the {kind} in 22 as far as the void: a larger pipe to lay before it, and a reducer for the first feed."
        ways = (WayOut(words, f"{room.path}.survey.water.{kind}_size", "22"),) if size < _WIDE else ()
    return Finding(f"Size of the {kind} pipe, {size}", "Water", state, has, "Guidance", most.note, None, most, message, "", ways)


def _most(room: Room, kind: Literal["hot", "cold"], book: Book) -> Figure:
    if supply_size(room, kind) >= _WIDE:
        return book.figure("water.pipe_22")
    longest = max((run.run.value + (run.rise.value if run.rise else 0.0) for run in room.pipes_of(kind)), default=0.0)
    return book.figure("water.pipe_15_short" if longest <= _SHORT else "water.pipe_15_middle" if longest <= _MIDDLE else "water.pipe_15")
