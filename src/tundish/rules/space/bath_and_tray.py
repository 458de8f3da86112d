"""Whether there is room to step into and out of a bath or shower that stays."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.measure import show_length
from tundish.rules.clear_floor import BESIDE, baths_and_trays, clear_beside, for_a_wheelchair, is_bath
from tundish.rules.rule import Finding, judge, rule


@rule(
    "space/bath-and-tray",
    figures=BESIDE,
    source="BS 6465-2, from memory; wheelchairs: Approved Document M volume 1, from memory",
    whole=True,
)
def bath_and_tray(room: Room, book: Book) -> Iterator[Finding]:
    """There is clear floor beside a bath and a shower tray that stay.

    Out of the side that has most of it: of a bath one of its long sides. To walls, pre-walls, what hangs on them, and what else stays.
    """
    if not room.closed:
        return
    for thing in baths_and_trays(room):
        bath = is_bath(room, thing)
        wide = book.figure("space.bath_wide" if bath else "space.tray_wide").value
        usual = "space.beside_bath" if bath else "space.beside_tray"
        least = book.figure("access.clear_bath" if for_a_wheelchair(room) else usual)
        has = clear_beside(room, thing, wide, book.figure("space.headroom").value)
        state = judge(has, least, None, "look")
        message = (
            "" if state == "passes" else f"{show_length(least.value - has.value)} short: what stands beside it is in the way of who washes."
        )
        yield Finding(f"Clear floor beside the {thing.name}", "Clearances", state, has, "Guidance", least.note, least, None, message)
