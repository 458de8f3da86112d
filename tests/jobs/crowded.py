"""A wall with seven appliances, two of which are still to be confirmed: where words have least room."""

from __future__ import annotations

from dataclasses import replace

from tundish.estimate import Job
from tundish.field import Entry, put
from tundish.store.keep import demo_jobs

LONG: tuple[str, ...] = (
    "WC in the corner", "Bidet beside it", "Basin on the left", "Second WC", "Basin in the middle", "Bidet for guests", "Children's basin",
)  # fmt: skip


def seven(width: float, names: tuple[str, ...] = ()) -> Job:
    """The family bathroom with seven appliances evenly along a wall so wide; with few millimetres to each its checks are missed."""
    job = next(each for each in demo_jobs() if each.number == "102")
    pan, bidet, basin = job.rooms[0].design.appliances
    each = (width - 200) / 7
    made = tuple(
        replace(kind, name=names[place] if names else f"{kind.name[:-2]} {place + 1}", centre=Entry(round(100 + each * (place + 0.5))))
        for place, kind in enumerate((pan, bidet, basin, replace(pan, in_hand=False), basin, bidet, basin))
    )
    job = put(job, "rooms.0.design.appliances", made)
    job = put(job, "rooms.0.survey.room.width", Entry(width))
    return put(job, "rooms.0.survey.stack.from_left", Entry(round(100 + each)))
