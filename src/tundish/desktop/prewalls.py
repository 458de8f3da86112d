"""Pre-walls of a room added and taken away, with what hangs on them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import Final

from tundish.estimate import Job
from tundish.field import Entry, get, put
from tundish.figure import Known
from tundish.layout.design import PREWALLS, Appliance, Design, PreWall
from tundish.layout.room import Room
from tundish.options import OUT, Change, differences, followed

ADDED: Final = (
    ("along", "Pre-wall along a wall"),
    ("corner", "Pre-wall across a corner"),
    ("boxing", "Boxing round a pipe"),
)
"""What can be added, by key, with its words."""
BOXING: Final = 300.0
"""How long a boxing is at first, mm."""


def with_prewall(design: Design, kind: str, room: Room) -> Design | None:
    """One pre-wall more, at the first wall that has none; None where the room has as many as it can have."""
    if len(design.further) + 1 >= len(PREWALLS):
        return None
    taken = {each.wall for each in (design.prewall, *design.further)}
    wall = next((side.letter for side in room.sides if side.letter not in taken), room.wall)
    made = PreWall(wall=wall)
    if kind == "corner":
        made = replace(made, stands="across its left-hand corner", name="corner")
    elif kind == "boxing":
        box = Entry(BOXING, Known.ASSUMED)
        made = replace(made, name="boxing", built_of="timber", height="full", shelf=False, run=box, depth=Entry(BOXING / 2, Known.ASSUMED))
    return replace(design, further=(*design.further, made))


def without_prewall(design: Design, place: int) -> Design:
    """The pre-wall at a place taken away with what hangs on it; the next takes the place of the first. The last one left stays."""
    every = (design.prewall, *design.further)
    if len(every) == 1 or not 0 <= place < len(every):
        return design
    first, *further = every[:place] + every[place + 1 :]
    kept = tuple(_renumbered(each, place) for each in design.appliances if _on(each) != place)
    return replace(design, prewall=first, further=tuple(further), appliances=kept)


def prewall_out(job: Job, path: str, place: int) -> Job:
    """The job without a pre-wall of the design at a path, its options speaking of the pre-walls and appliances as they stand then."""
    design = get(job, path)
    after = put(job, path, without_prewall(design, place))
    gone = tuple(each for each in differences(job, after) if each.value == OUT and each.path.startswith(f"{path}.appliances."))
    moved = (replace(each, changes=tuple(_moved(each.changes, path, place))) for each in job.options)
    return replace(after, options=tuple(each for each in followed(moved, gone) if each.changes))


def _moved(changes: Iterable[Change], path: str, gone: int) -> Iterator[Change]:
    """What is changed of later pre-walls, by their new places; what was changed of the one that goes is gone."""
    for each in changes:
        at, _, rest = each.path.removeprefix(f"{path}.").partition(".")
        number, _, further = rest.partition(".")
        on = 0 if at == "prewall" else int(number) + 1 if at == "further" and number.isdecimal() else -1
        if not each.path.startswith(f"{path}.") or on < gone:
            yield each
        elif on > gone and (further or on > 1):
            yield replace(each, path=".".join(word for word in (path, f"further.{on - 2}" if on > 1 else "prewall", further) if word))


def prewall_words(rooms: tuple[Room, ...]) -> tuple[str, ...]:
    """What each pre-wall of a room is called on its chip: "Wall A", "Wall B, basin wall"."""
    words = [f"Wall {room.wall}" + (f", {room.prewall.name.strip()}" if room.prewall.name.strip() else "") for room in rooms]
    return tuple(each if words.count(each) == 1 else f"{each} ({place + 1})" for place, each in enumerate(words))


def _on(appliance: Appliance) -> int:
    return PREWALLS.index(appliance.on) if appliance.on in PREWALLS else 0


def _renumbered(appliance: Appliance, gone: int) -> Appliance:
    on = _on(appliance)
    return replace(appliance, on=PREWALLS[on - 1]) if on > gone else appliance
