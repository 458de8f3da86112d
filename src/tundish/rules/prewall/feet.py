"""What a self-standing pre-wall stands on."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import total
from tundish.layout.room import Room
from tundish.measure import show_length
from tundish.rules.amounts import bare, each
from tundish.rules.grounds import into_floor_heavy
from tundish.rules.rule import Finding, Need, WayOut, judge, rule
from tundish.rules.soft import on_deep_feet


@rule("prewall/feet", source="maker's sheet of the foot; common practice")
def deep_feet(room: Room, book: Book) -> Iterator[Need | Finding]:
    """A self-standing pre-wall has a deep foot under every leg of a frame and every upright, and nothing that ties it to the wall.

    Each foot has as many fixings as its sheet says. The pre-wall must be as deep as its feet.
    """
    if not room.self_standing:
        return
    foot = book.role("floor foot")
    counts = [one.frame.size("feet").named(f"Legs of {one.name}") for one in room.framed]
    amount = total([*counts, each(len(on_deep_feet(room)), "Uprights")], "Deep feet")
    yield Need(amount, "frames", "legs of frames and uprights", role="floor foot")
    yield Need((bare(amount) * foot.size("fixings")).named("Fixings of deep feet"), "frames", "deep feet", role=into_floor_heavy(room))
    most, has = room.depth, foot.size("depth")
    state = judge(has, None, most)
    words = "" if state == "passes" else "The feet do not go between wall and frame front: bring the pre-wall forward."
    ways = () if state == "passes" else (WayOut(f"Set it {show_length(has.value)} deep.", f"{room.prewall_path}.depth", has.value),)
    yield Finding("Feet in the void", "Void", state, has, "Maker", foot.sheet, None, most, words, "", ways)
