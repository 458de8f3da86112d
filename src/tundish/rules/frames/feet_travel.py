"""Whether the feet of each frame reach its height."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import Figure, number
from tundish.layout import settings
from tundish.layout.design import NO_PADS
from tundish.layout.room import Placed, Room
from tundish.measure import show_length
from tundish.rules.rule import Finding, State, WayOut, judge, rule


@rule("frames/feet-travel", source="maker's sheet of the frame")
def feet_travel(room: Room, book: Book) -> Iterator[Finding]:
    """The feet of each frame reach the height it has to stand at, with what is packed under them.

    It is to be looked at when they stand on packers, or reach over part of the range only. Where the floor falls, both feet are judged.
    """
    for one in room.framed:
        least, most = number(0, "mm", "Feet pushed in"), one.frame.size("foot_travel")
        has = one.figures["feet"]
        other = one.figures.get("feet_least", has)
        if judge(other, least, None) != "passes":
            has = other
        state, message = _judged(one, has, (min(other.low, has.low), max(other.high, has.high)), most)
        ways = tuple(_without_pads(one, has, book))
        yield Finding("Frame feet", "Clearances", state, has, "Maker", one.frame.sheet, least, most, message, one.name, ways)


def _judged(one: Placed, has: Figure, spread: tuple[float, float], most: Figure) -> tuple[State, str]:
    packed = one.figures.get("packers")
    on = f"It stands on {show_length(packed.value)} of ply packers{_why(one)}. " if packed is not None and packed.value else ""
    if has.value < 0:
        lower = "Take packers out" if on else "Choose a lower frame, or settle the build-up"
        return "fails", f"{on}The frame stands {show_length(-has.value)} too high with its feet pushed in. {lower}."
    if has.value > most.value:
        return "fails", f"{on}The feet are {show_length(has.value - most.value)} short: pack more under them."
    if spread[0] < 0 or spread[1] > most.value:
        return "look", f"{on}The feet do not reach over the whole range. Settle the floor build-up."
    return ("look", f"{on}Fix through them into the floor.") if on else ("passes", "")


def _without_pads(one: Placed, feet: Figure, book: Book) -> Iterator[WayOut]:
    """Where it is no more too high than its pads are thick."""
    pad = settings.pad(book, "under the foot")
    if one.choice.pads != NO_PADS and pad is not None and -pad.value <= feet.value < 0:
        words = (
            f"Set {one.name} without sound pads, {show_length(pad.value)} lower: what stands on it is then heard through floor and wall."
        )
        yield WayOut(words, f"{one.path}.pads", NO_PADS)


def _why(one: Placed) -> str:
    """The trader's own reason, where the packing is the trader's own."""
    if one.choice.packers is None:
        return ""
    why = one.choice.settings_why.strip()
    return f" of your own choice, {why}" if why else " of your own choice"
