"""How decisions are named: by their room and what is to be decided."""

from __future__ import annotations

from collections.abc import Iterable

from tundish.layout.room import Placed, Room


def key_of(room: Room, *decision: str) -> str:
    """The key of a decision: "family-bathroom/heights"; that of a further pre-wall "family-bathroom-wall-b/heights"."""
    name = room.room_name if room.first else room.name
    slug = "-".join("".join(letter if letter.isalnum() else " " for letter in name.lower()).split())
    return "/".join((slug or room.path, *decision))


def inputs(room: Room, *places: str) -> tuple[str, ...]:
    """Paths of inputs in the job from their places within the room."""
    return tuple(f"{room.path}.{place}" for place in places)


def names(placed: Iterable[Placed]) -> str:
    """Appliances by name: "WC 1, Basin 1"."""
    return ", ".join(one.name for one in placed)
