"""The existing walls and what is in them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from tundish.field import Entry, amount, choice, flag, length, record, text, which_wall

STUD_WALLS = ("timber stud", "metal stud")
SOLID_WALLS = ("brick", "block", "concrete")
STUDS_OF_TIMBER = ("timber stud", "lath and plaster")
"""Walls between whose studs a noggin is screwed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wall:
    """A wall that a pre-wall may stand in front of."""

    construction: str = choice(
        "Construction", (*STUD_WALLS, *SOLID_WALLS, "lath and plaster"), "Knock, drill a small hole, or look at a socket box."
    )
    thickness: Entry | None = length("Thickness", most=800, likely=(70, 450), usual=100)
    stud_centres: Entry | None = length(
        "Wall studs apart", least=100, most=900, likely=(300, 610), usual=400, help="Centre to centre, for stud walls."
    )
    first_stud: Entry | None = length(
        "First wall stud from the left", most=900, likely=(0, 610), usual=400, help="Centre of the first wall stud after the corner."
    )
    out_of_plumb: Entry | None = length(
        "Out of plumb", least=-100, most=100, likely=(-25, 25), usual=0,
        help="Over the height of the pre-wall: plus when its top leans into the room.",
    )  # fmt: skip
    boarded: str = text("Boards on it", "Plasterboard 12.5 and skim, tiles on ply: what a screw goes through.")
    fixings: str = text("Fixings allowed", 'Where owner or wall forbid some: "no hammer drill".')
    party: bool = flag("Party wall", "A wall shared with a neighbour: sound, fire and their leave may matter.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Side:
    """A further wall: B, C, D… in order, clockwise seen from above. The last one closes the room."""

    length: Entry | None = length(
        "Length", least=50, most=40_000, likely=(200, 8_000), help="From corner to corner. Blank in a room of four square corners."
    )
    corner: Entry | None = amount(
        "Corner at its left", "°", least=10, most=350, likely=(45, 270), usual=90,
        help="Angle inside the room to the wall before: 90 where square, 270 round a chimney breast.",
    )  # fmt: skip
    wall: Wall = record("Wall", Wall)


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """A door or window."""

    kind: str = choice("Opening", ("door", "window"))
    wall: str = which_wall("In wall", "A is the wall looked at first; the others follow clockwise seen from above.")
    from_left: Entry | None = length("From the left end of that wall", usual=300, help="Looking at the wall from inside the room.")
    width: Entry | None = length("Width", most=5_000, likely=(400, 2_500), usual=726)
    height: Entry | None = length("Height", most=5_000, likely=(300, 2_400), usual=1_981)
    sill: Entry | None = length("Sill above the floor", most=5_000, likely=(0, 1_800), usual=0)
    swing: str = choice("Opens", ("into the room", "out of the room", "slides", "does not open"))
    hinge: str = choice("Hinges at its", ("left", "right"), "Seen from inside the room.")
    note: str = text("Note")


def wall_letter(place: int) -> str:
    """The letter of a wall, A the first, the one looked at; the others follow clockwise seen from above, past Z as AA, AB and on."""
    before, last = divmod(place, _ALPHABET)
    return (wall_letter(before - 1) if before else "") + chr(ord("A") + last)


_ALPHABET: Final = 26
