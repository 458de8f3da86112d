"""The existing walls and what is in them."""

from __future__ import annotations

from dataclasses import dataclass

from tundish.field import Entry, choice, flag, length, text

STUD_WALLS = ("timber stud", "metal stud")
SOLID_WALLS = ("brick", "block", "concrete")


@dataclass(frozen=True, slots=True, kw_only=True)
class Wall:
    """The wall that the pre-wall stands in front of (wall A)."""

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
        help="How much the wall leans, over the height of the pre-wall: plus when its top leans into the room.",
    )  # fmt: skip
    party: bool = flag("Party wall", "A wall shared with a neighbour: sound, fire and their leave may matter.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """A door or window."""

    kind: str = choice("Opening", ("door", "window"))
    wall: str = choice("In wall", ("A", "B", "C", "D"), "A is the wall of the pre-wall; B, C, D follow clockwise seen from above.")
    from_left: Entry | None = length("From the left end of that wall", usual=300, help="Looking at the wall from inside the room.")
    width: Entry | None = length("Width", most=5_000, likely=(400, 2_500), usual=726)
    height: Entry | None = length("Height", most=5_000, likely=(300, 2_400), usual=1_981)
    sill: Entry | None = length("Sill above the floor", most=5_000, likely=(0, 1_800), usual=0)
    swing: str = choice("Opens", ("into the room", "out of the room", "slides", "does not open"))
    hinge: str = choice("Hinges at its", ("left", "right"), "Seen from inside the room.")
    note: str = text("Note")
