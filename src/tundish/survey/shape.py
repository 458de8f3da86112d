"""What makes a room other than a box: a ceiling that comes down, and what stands in the way."""

from __future__ import annotations

from dataclasses import dataclass

from tundish.field import Entry, choice, date, flag, length, text, which_wall


@dataclass(frozen=True, slots=True, kw_only=True)
class Slope:
    """A sloping ceiling, a stair soffit or a beam over part of the room, square to one of its walls."""

    kind: str = choice("Kind", ("sloping ceiling", "stair soffit", "beam"))
    wall: str = which_wall("Lowest at wall", "The wall at which it is lowest.")
    from_left: Entry | None = length("From the left end of that wall", usual=0)
    width: Entry | None = length("Along the wall", help="Blank: to the wall's right-hand end.")
    at_wall: Entry | None = length("Height at the wall", most=10_000, likely=(300, 2_400), usual=1_500, help="Above the bare floor.")
    reach: Entry | None = length(
        "Full height from the wall", likely=(100, 4_000), usual=800, help="How far out into the room the ceiling is at its full height."
    )
    note: str = text("Note")


@dataclass(frozen=True, slots=True, kw_only=True)
class Obstacle:
    """Something in the room that stays, or that is in the way until it is taken out."""

    what: str = choice(
        "What",
        ("bath", "shower tray", "radiator", "boiler", "boxed pipe", "cupboard", "other"),
        "Its upright box is drawn on plan and wall.",
    )
    name: str = text("Called")
    wall: str = which_wall("At wall")
    from_left: Entry | None = length("From the left end of that wall", usual=0)
    from_wall: Entry | None = length("From the wall", usual=0)
    width: Entry | None = length("Along the wall", least=10, usual=700)
    depth: Entry | None = length("Out from the wall", least=10, usual=700)
    bottom: Entry | None = length("Underside above the floor", most=10_000, usual=0)
    height: Entry | None = length("Height of it", least=10, most=10_000, usual=560)
    stays: bool = flag("Stays", "Whether it is still there when the pre-wall is built.", default=True)
    note: str = text("Note")


@dataclass(frozen=True, slots=True, kw_only=True)
class Electric:
    """Something electrical that was seen."""

    what: str = choice("What", ("light", "fan", "socket", "shaver outlet", "switch", "heater", "cable", "other"))
    wall: str = which_wall("At wall")
    from_left: Entry | None = length("From the left end of that wall", usual=0)
    height: Entry | None = length("Height above the floor", most=10_000, usual=1_200)
    stays: bool = flag("Stays", default=True)
    note: str = text("Note")


@dataclass(frozen=True, slots=True, kw_only=True)
class Photograph:
    """A picture taken on site. `picture` names it in the job's own store; the note says what is to be seen."""

    picture: str = text("Picture")
    name: str = text("File it came from")
    note: str = text("What it shows", 'Say where the tape is: "stack, tape at 189".')
    of: str = choice("Taken", ("on survey", "before closing", "when finished"))
    when: str = date("When")
