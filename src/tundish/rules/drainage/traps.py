"""What stands between the ware and its waste."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from tundish.catalogue.book import Book
from tundish.layout.appliances.kinds import KINDS
from tundish.layout.room import Room
from tundish.rules.amounts import each
from tundish.rules.pipes import served
from tundish.rules.rule import Need, Stage, rule

_CHOSEN: Final[Mapping[str, tuple[str, ...]]] = {
    "exposed bottle trap": ("basin trap 32 seen",),
    "half pedestal": ("basin trap 32 covered", "half pedestal"),
    "hidden in the wall": ("basin trap 32 in the wall",),
}
_ONTO_PIPE: Final = {40: ("waste reducer 40-32",), 50: ("waste reducer 50-40",)}


@rule("drainage/traps", source="Approved Document H, table 1, for basins and bidets: 32 trap, 75 seal; urinals from memory")
def traps(room: Room, book: Book) -> Iterator[Need]:
    """Each basin and bidet has its own waste and trap, each urinal its trap.

    A basin's trap is that which was chosen: seen, behind a half pedestal with it, or in the wall, which is set at first fix. A reducer
    joins a trap to a pipe larger than itself.
    """
    for run in room.pipes_of("waste"):
        one = served(room, run)
        chosen = _CHOSEN.get(one.choice.trap, ()) if one.kind == "basin" else ()
        for role in (*KINDS[one.kind].traps, *_ONTO_PIPE.get(run.size, ())):
            for part in chosen if chosen and role == "basin trap 32" else (role,):
                stage: Stage = "first fix" if part == "basin trap 32 in the wall" else "second fix"
                yield Need(each(1, one.name), stage, f"waste of {one.name}", role=part)
