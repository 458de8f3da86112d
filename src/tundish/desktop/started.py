"""Adding an appliance: its usual model, frame and fittings, a name of its own, on the next free place of the wall."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import count
from typing import Final

from tundish.catalogue.book import Book
from tundish.desktop.workspace import Workspace
from tundish.field import Entry, describe, get, put
from tundish.figure import Known
from tundish.layout.appliances.kind import Kind
from tundish.layout.appliances.kinds import KINDS
from tundish.layout.design import PREWALLS, Appliance, Hatch, Niche
from tundish.layout.recesses import HATCH_SIDE, hatch_key, niche_key
from tundish.layout.room import Room

ELBOW: Final = 100.0
"""Left free beside an appliance that is added, where there is room."""


def add_niche(workspace: Workspace) -> str:
    """Add a niche to the pre-wall that is looked at, beside what hangs there; gives its id as a piece."""
    room = workspace.room
    if room is None:
        return ""
    listed = f"{room.prewall_path}.niches"
    count = len(get(workspace.job, listed))
    wide, high, bottom = (float(describe(Niche, name).usual or 0) for name in ("width", "height", "bottom"))
    left, top = next_centre(workspace, room, wide) - wide / 2, room.top.value - room.finished_floor.value
    under = Entry(max(min(bottom, top - high - ELBOW), 0.0), Known.ASSUMED)
    workspace.add(listed, Niche(from_left=Entry(left, Known.ASSUMED), bottom=under), f"add niche {count + 1}")
    return niche_key(count)


def add_hatch(workspace: Workspace) -> str:
    """Add an access opening to the pre-wall that is looked at; gives its id as a piece."""
    room = workspace.room
    if room is None:
        return ""
    listed = f"{room.prewall_path}.hatches"
    count = len(get(workspace.job, listed))
    item = next((each.code for each in workspace.book.of_kind("access hatch")), "")
    left = next_centre(workspace, room, HATCH_SIDE) - HATCH_SIDE / 2
    workspace.add(listed, Hatch(item=item, from_left=Entry(left, Known.ASSUMED)), f"add access opening {count + 1}")
    return hatch_key(count)


def add_appliance(workspace: Workspace, kind: str) -> str:
    """Add an appliance to the chosen room as one step; gives its name."""
    listed = f"{workspace.room_path}.design.appliances"
    words = KINDS[kind].title
    names = {each.name for each in get(workspace.job, listed)}
    name = next(made for number in count(1) if (made := f"{words} {number}") not in names)
    workspace.add(listed, started(kind, name, workspace), f"add {name}")
    return name


def started(kind: str, name: str, workspace: Workspace) -> Appliance:
    """An appliance with the usual model, frame and fittings of its kind, to be changed; where it goes is assumed."""
    book, known = workspace.book, KINDS[kind]
    others = [each for each in get(workspace.job, f"{workspace.room_path}.design.appliances") if each.kind == kind]
    frame, ware = _frame(workspace, known, others), _usual(book, known, "ware", known.ware, others)
    if known.like and not others:  # one for accessible rooms is the longest there is
        ware = max(book.of_kind(known.ware), key=lambda item: item.sizes["projection"][0]).code
    made = Appliance(kind=kind, name=name, ware=ware, frame=frame, on=PREWALLS[workspace.wall_place])
    if workspace.room is not None and frame and book.items[frame].has("width"):
        place = next_centre(workspace, workspace.room, book.items[frame].size("width").value)
        made = replace(made, centre=Entry(place, Known.ASSUMED))
    for extra, of in known.extras:
        made = put(made, extra, _usual(book, known, extra, of, others))
    return made


def _usual(book: Book, known: Kind, field: str, of: str, others: Sequence[Appliance]) -> str:
    """The code of what is usual for a kind of appliance: as the last of its kind in the room has it, or as the catalogue has it."""
    there = {item.code: item for item in book.of_kind(of) if item.words.get("for", known.as_kind) == known.as_kind}
    before = [code for code in (getattr(each, field) for each in reversed(others)) if code in there]
    named = [code for code in (book.roles.get(f"usual {of}", ""),) if code in there]
    return next(iter((*before, *named, *there)), "")


def _frame(workspace: Workspace, known: Kind, others: Sequence[Appliance]) -> str:
    """The usual frame; where it would stand above the pre-wall, the tallest that does not."""
    book, room = workspace.book, workspace.room
    usual = _usual(book, known, "frame", known.frame, others)
    if not usual or room is None or not book.items[usual].has("top_at"):
        return usual
    most = room.top.value - room.finished_floor.value
    low = [item for item in book.of_kind(known.frame) if item.has("top_at") and item.size("top_at").value <= most]
    if not low or book.items[usual].size("top_at").value <= most:
        return usual
    return max(low, key=lambda item: item.size("top_at").value).code


def next_centre(workspace: Workspace, room: Room, wide: float) -> float:
    """The centre of the first free place, from the left, for a frame so wide; the middle of the pre-wall where there is none."""
    start, end = room.start.value, room.start.value + room.run.value
    left = start
    for near, far in (*sorted(_taken(workspace, room)), (end, end)):
        if near - left >= wide:
            return round(left + wide / 2 + min(ELBOW, (near - left - wide) / 2))
        left = max(left, far)
    return round((start + end) / 2)


def _taken(workspace: Workspace, room: Room) -> Iterator[tuple[float, float]]:
    """What of the wall is taken in the job as it is now, whether it is worked out yet or not: from where to where."""
    book, on = workspace.book, PREWALLS[workspace.wall_place]
    for each in get(workspace.job, f"{workspace.room_path}.design.appliances"):
        widths = [item.sizes["width"][0] for code in (each.frame, each.ware) if (item := book.items.get(code)) and item.has("width")]
        middle, wide = _value(each, "centre"), max(widths, default=0.0)
        if each.on == on:
            yield middle - wide / 2, middle + wide / 2
    prewall = get(workspace.job, room.prewall_path)
    yield from ((_value(each, "from_left"), _value(each, "from_left") + _value(each, "width")) for each in prewall.niches)
    for hatch in prewall.hatches:
        item = book.items.get(hatch.item)
        left, wide = _value(hatch, "from_left"), item.size("width").value if item and item.has("width") else HATCH_SIDE
        yield left, left + wide


def _value(record: Appliance | Niche | Hatch, name: str) -> float:
    """A length as it is given, or its usual one."""
    given = getattr(record, name)
    return float(given.value if given is not None else describe(type(record), name).usual or 0)
