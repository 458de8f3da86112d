"""How a frame is set: its tie rods, packers and brackets, by rule for all that it may turn out to be, or as the trader would have them."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Sequence
from dataclasses import replace

from tundish import measure
from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.figure import Figure, Known
from tundish.layout.design import Appliance
from tundish.layout.makers import from_sheet, size
from tundish.layout.room import Placed


def tie_rod(reaches: Sequence[Figure], tie_rods: Sequence[Item], kit: Collection[str] = ()) -> Item | None:
    """The tie rod that serves whatever the reaches of a frame turn out to be: one out of its `kit` before others, then the shortest.

    The nearest to what they are where none does.
    """
    known = [each for each in tie_rods if each.has("reach_least") and each.has("reach_most")]
    serves = [each for each in known if serves_all(each, reaches)]
    if serves:
        return min(serves, key=lambda rod: (rod.code not in kit, _reaches(rod)))
    return min(known, key=lambda rod: (sum(_misses(rod, each.value) for each in reaches), _reaches(rod)), default=None)


def serves_all(rod: Item, reaches: Iterable[Figure]) -> bool:
    """Whether a tie rod serves whatever these reaches turn out to be."""
    least, most = rod.sizes["reach_least"][0], rod.sizes["reach_most"][0]
    return all(least <= each.low and each.high <= most for each in reaches)


def rod_serves(one: Placed) -> bool:
    """Whether the tie rod of an appliance serves whatever its reaches turn out to be; on a support bar there is none to serve."""
    if not one.framed:
        return True
    return one.tie_rod is not None and serves_all(one.tie_rod, one.reaches)


def packers(feet: Figure, frame: Item, book: Book) -> Figure | None:
    """Packing under the feet, in whole packers, so that they reach when drawn out furthest; None where they reach without."""
    if not frame.has("foot_travel") or feet.high <= frame.sizes["foot_travel"][0]:
        return None
    one = book.figure("frames.packer")
    count = math.ceil(round((feet.high - frame.sizes["foot_travel"][0]) / one.value, 6))
    packed = count * one.value
    note = f"{count} of {one.value:g}, for the feet drawn out furthest"
    return Figure(packed, packed, packed, "mm", "Packers under the feet", Known.RULE, tbc=feet.tbc, note=note)


def pad(book: Book, where: str) -> Figure | None:
    """How thick the sound pad is that lies `where`; None where the catalogue has none, or its sheet does not say."""
    found = book.items.get(book.roles.get("sound pad", ""))
    return size(found, "thickness", f"Sound pad {where}") if found is not None and found.has("thickness") else None


def own(figure: Figure, choice: Appliance) -> Figure:
    """A figure of the trader's own choice, with the reason in its note."""
    why = choice.settings_why.strip()
    return replace(figure, note=f"own choice: {why}" if why else "own choice")


def stud_spacings(frame: Item) -> tuple[float, ...]:
    """How far apart the studs of a frame can stand: one spacing or two."""
    return tuple(frame.sizes[name][0] for name in ("spacing_a", "spacing_b") if frame.has(name))


def spacing_words(frame: Item, ware: Item) -> str:
    """Which of the frame's stud spacings is used for this ware."""
    wanted, offered = ware.sizes["stud_spacing"][0], stud_spacings(frame)
    others = " or ".join(measure.show_length(each) for each in offered if each != wanted)
    if wanted not in offered:
        return f"the frame takes studs {others} apart only" if offered else "the frame's sheet gives no spacing"
    return f"in the frame's holes for {measure.show_length(wanted)}" + (f", not those for {others}" if others else "")


def bracket_aside(frame: Item, turned: str) -> Figure:
    """From the centre to each wall bracket, as they are turned; a frame whose sheet gives no turn keeps its spacing."""
    move = frame.sizes["bracket_turn"][0] if frame.has("bracket_turn") else 0.0
    by = {"turned in": -move, "turned out": move}.get(turned, 0.0)
    return from_sheet(frame, frame.sizes["bracket_spacing"][0] / 2 + by, "Centre to wall bracket")


def bracket_seat(frame: Item, turned: str) -> Figure:
    """From the frame's front to the seat of its wall brackets; a turned bracket has its seat elsewhere where the sheet says so."""
    turn = turned in {"turned in", "turned out"} and frame.has("bracket_turn_depth")
    return from_sheet(frame, frame.sizes["bracket_turn_depth" if turn else "bracket_depth"][0], "Frame front to bracket seat")


def _misses(rod: Item, reach: float) -> float:
    return max(rod.sizes["reach_least"][0] - reach, reach - rod.sizes["reach_most"][0], 0.0)


def _reaches(rod: Item) -> float:
    return rod.sizes["reach_most"][0]
