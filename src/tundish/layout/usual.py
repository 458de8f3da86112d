"""The model, frame or fitting that is taken for something new on a pre-wall before anyone has chosen one."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.layout.appliances.kind import Kind
from tundish.layout.outline import TIMBER
from tundish.layout.room import Room
from tundish.layout.settings import stud_spacings


def usual(of: str, kind: Kind, used: Sequence[str], place: tuple[Room | None, Item | None], book: Book) -> str:
    """The code of the item of a kind for an appliance; "" where the catalogue holds none.

    That of another such appliance of the job (`used`, the last one first); else what the catalogue means by "usual" and the kind of item,
    first for that appliance; else the first by name. Of these the first that fits is taken: a frame must go into a free stretch of the
    pre-wall, under its rail and to its depth, and take the ware's studs; a plate must suit its boards and tiles. Where none fits, the first
    of them all. `place`: the pre-wall where it is known, and the ware that a frame is for.
    """
    every = list(dict.fromkeys((*(code for code in used if _is(code, of, book)), *_meant(of, kind, place[0], book), *_listed(of, book))))
    suits = [code for code in every if book.items[code].words.get("for", kind.as_kind) == kind.as_kind]
    return next((code for code in suits if _fits(book.items[code], place, book)), next(iter(suits), ""))


def free_stretches(room: Room, besides: Iterable[tuple[float, float]] = ()) -> Iterator[tuple[float, float]]:
    """The stretches of the pre-wall that no frame, niche or opening takes, nor what is said besides, left to right."""
    start, end = room.start.value, room.start.value + room.run.value
    taken = [(each.left, each.right) for each in room.placed]
    taken += [(each.left.value, each.left.value + each.width.value) for each in room.recesses]
    left = start
    for near, far in (*sorted((*taken, *besides)), (end, end)):
        if near > left:
            yield left, near
        left = max(left, far)


def _is(code: str, of: str, book: Book) -> bool:
    return code in book.items and book.items[code].kind == of


def _meant(of: str, kind: Kind, room: Room | None, book: Book) -> Iterator[str]:
    across = ("across a corner",) if room is not None and room.corner else ()
    for words in (*(f", {each}" for each in (*across, kind.key, kind.as_kind)), ""):
        code = book.roles.get(f"usual {of}{words}", "")
        if _is(code, of, book):
            yield code


def _listed(of: str, book: Book) -> Iterator[str]:
    return (item.code for item in book.of_kind(of))


def _fits(item: Item, place: tuple[Room | None, Item | None], book: Book) -> bool:
    room, ware = place
    if room is None:
        return True
    if item.kind == "flush plate":
        return _within(item, ("wall_least", "wall_most"), room.thickness.low, room.thickness.high)
    if not item.has("depth_least"):
        return True
    apart = ware.sizes.get("stud_spacing") if ware is not None else None
    under = room.top_of_steel.value - (book.role(TIMBER).sizes["face"][0] if not room.of_steel else room.strut.sizes["depth"][0])
    return (
        any(right - left >= item.sizes["width"][0] for left, right in free_stretches(room))
        and room.finished_floor.value + item.sizes["top_at"][0] <= under
        and _within(item, ("depth_least", "depth_most"), room.depth.low, room.depth.high)
        and (apart is None or apart[0] in stud_spacings(item))
    )


def _within(item: Item, names: tuple[str, str], low: float, high: float) -> bool:
    least, most = names
    return (not item.has(least) or item.sizes[least][0] <= low) and (not item.has(most) or high <= item.sizes[most][0])
