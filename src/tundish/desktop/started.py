"""Adding to the pre-wall that is looked at: the usual model, frame and fittings, a name of its own, on the next free place."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from itertools import count
from typing import Final

from tundish.catalogue.book import Book
from tundish.catalogue.own import with_own
from tundish.desktop.live import looked_at, sight_of
from tundish.desktop.moves import things
from tundish.desktop.workspace import Workspace
from tundish.field import Entry, describe, get, put
from tundish.figure import Known
from tundish.layout.appliances.kinds import KINDS
from tundish.layout.design import PREWALLS, Appliance, Hatch, Niche, Noggin
from tundish.layout.noggins import noggin_key, noggin_name
from tundish.layout.recesses import HATCH_SIDE, hatch_key, niche_key
from tundish.layout.room import Room
from tundish.layout.usual import free_stretches, usual

ELBOW: Final = 100.0
"""Left free beside an appliance that is added, where there is room."""
TOWEL_RAIL: Final = (500.0, 1_000.0)
"""How long a towel rail is, and how high it hangs above the finished floor: common practice."""


def add_niche(workspace: Workspace) -> str:
    """Add a niche to the pre-wall that is looked at, beside what hangs there; gives its id as a piece."""
    room = _room(workspace)
    if room is None:
        return ""
    listed, count = f"{room.prewall_path}.niches", len(room.prewall.niches)
    wide, high, bottom = (float(describe(Niche, name).usual or 0) for name in ("width", "height", "bottom"))
    left, top = next_centre(room, wide) - wide / 2, room.top.value - room.finished_floor.value
    under = Entry(max(min(bottom, top - high - ELBOW), 0.0), Known.ASSUMED)
    workspace.add(listed, Niche(from_left=Entry(left, Known.ASSUMED), bottom=under), f"add niche {count + 1}")
    return niche_key(count)


def add_hatch(workspace: Workspace) -> str:
    """Add an access opening to the pre-wall that is looked at; gives its id as a piece."""
    room, book = _room(workspace), workspace.book
    if room is None:
        return ""
    listed, count = f"{room.prewall_path}.hatches", len(room.prewall.hatches)
    code = book.roles.get("usual access hatch") or next((each.code for each in book.of_kind("access hatch")), "")
    item = book.items.get(code)
    wide = item.sizes["width"][0] if item is not None and item.has("width") else HATCH_SIDE
    left = next_centre(room, wide) - wide / 2
    workspace.add(listed, Hatch(item=code, from_left=Entry(left, Known.ASSUMED)), f"add access opening {count + 1}")
    return hatch_key(count)


def add_noggin(workspace: Workspace) -> str:
    """Add a noggin to the pre-wall that is looked at, with its name still blank; gives its id as a piece."""
    return _add_noggin(workspace, "", float(describe(Noggin, "reach").usual or 0), float(describe(Noggin, "level").usual or 0))


def add_towel_rail(workspace: Workspace) -> str:
    """Add what a towel rail is fixed to; gives its id as a piece."""
    return _add_noggin(workspace, "Towel rail", TOWEL_RAIL[0], TOWEL_RAIL[1])


def _add_noggin(workspace: Workspace, name: str, reach: float, level: float) -> str:
    room = _room(workspace)
    if room is None:
        return ""
    listed, count = f"{room.prewall_path}.noggins", len(room.prewall.noggins)
    reach = min(reach, room.run.value)
    under = min(level, room.top.value - room.finished_floor.value - ELBOW)
    beside = [
        (each.left.value, each.right.value) for each in room.backed if abs(each.level.value - room.finished_floor.value - under) < ELBOW
    ]
    left, up, long = (Entry(each, Known.ASSUMED) for each in (next_centre(room, reach, beside) - reach / 2, under, reach))
    workspace.add(listed, Noggin(name=name, from_left=left, level=up, reach=long), f"add {noggin_name(Noggin(name=name), count)}")
    return noggin_key(count)


def add_appliance(workspace: Workspace, kind: str) -> str:
    """Add an appliance to the chosen room as one step; gives its name."""
    listed = f"{workspace.room_path}.design.appliances"
    words = KINDS[kind].title
    names = {each.name for each in get(workspace.job, listed)}
    name = next(made for number in count(1) if (made := f"{words} {number}") not in names)
    workspace.add(listed, started(kind, name, workspace), f"add {name}")
    return name


def started(kind: str, name: str, workspace: Workspace) -> Appliance:
    """An appliance with what is usual for its kind and its place, to be changed; where it goes is assumed."""
    room, known, job = _room(workspace), KINDS[kind], workspace.job
    book = with_own(workspace.book, job.own_items)
    others = [each for plan in job.rooms for each in plan.design.appliances if each.kind == kind][::-1]
    made = Appliance(kind=kind, name=name, on=PREWALLS[workspace.wall_place])
    for which, of in (("ware", known.ware), ("frame", known.frame), *known.extras):
        used = [getattr(each, which) for each in others]
        made = put(made, which, usual(of, known, used, (room, book.items.get(made.ware)), book))
    if room is not None and made.frame and book.items[made.frame].has("width"):
        made = replace(made, centre=Entry(_clear_centre(room, made, book), Known.ASSUMED))
    return made


def _clear_centre(room: Room, made: Appliance, book: Book) -> float:
    """The next free centre as far from neighbours and side walls as the rules want it, or, where no place is, the next free one."""
    wide = book.items[made.frame].bare("width")
    ware = book.items.get(made.ware)
    whole = max(wide, ware.bare("width")) if ware is not None and ware.has("width") else wide
    gap, key = book.figure("space.ware_gap").value, f"space.{made.kind}_centre"
    beside = [(each.left - gap, each.right + gap) for each in things(room) if each.kind in KINDS]
    apart = book.figure(key).value if key in book.figures else 0.0
    return next(_free_centres(room, whole, beside, apart), next_centre(room, wide))


def next_centre(room: Room, wide: float, besides: Iterable[tuple[float, float]] = ()) -> float:
    """The centre of the first free place, from the left, for a frame so wide; the middle of the pre-wall where there is none."""
    return next(_free_centres(room, wide, besides), round(room.start.value + room.run.value / 2))


def _free_centres(room: Room, wide: float, besides: Iterable[tuple[float, float]], apart: float = 0.0) -> Iterator[float]:
    """The centre of what is so wide in each free stretch that takes it, a little from its left, and so far `apart` from side walls."""
    for left, right in free_stretches(room, besides):
        low, high = left + wide / 2, right - wide / 2
        centre = low + min(ELBOW, (high - low) / 2)
        if apart:
            low, high = max(low, apart), min(high, room.width.value - apart)
        if low <= high:
            yield round(min(max(centre, low), high))


def _room(workspace: Workspace) -> Room | None:
    """The pre-wall as it is now, also while the estimate is still to come: what was added a moment ago is in its place."""
    return looked_at(workspace, sight_of(workspace))
