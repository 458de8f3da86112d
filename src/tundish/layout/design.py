"""What was chosen: the pre-wall, what hangs on it, how high, and how it is finished."""

from __future__ import annotations

from dataclasses import dataclass

from tundish.field import Entry, amount, choice, flag, item, length, record, records, text
from tundish.figure import Known
from tundish.survey.survey import Survey

KINDS = ("wc", "basin", "bidet", "urinal")
FRAME_KINDS = ("wc frame", "basin frame", "bidet frame", "urinal frame")
WARE_KINDS = ("wc pan", "basin", "bidet", "urinal")


@dataclass(frozen=True, slots=True, kw_only=True)
class PreWall:
    """The false wall in front of wall A."""

    built_of: str = choice("Built of", ("steel", "timber"), "Strut and brackets, or studwork.")
    height: str = choice("Height", ("part", "full"), "Part height has a shelf; full height goes to the ceiling.")
    from_left: Entry | None = length("Starts from left wall", known=Known.AGREED, usual=0)
    run: Entry | None = length("Length of run", least=300, most=40_000, known=Known.AGREED, help="Blank: to the right-hand wall.")
    depth: Entry | None = length(
        "Wall to frame front", most=1_500, known=Known.AGREED, likely=(120, 400), usual=225,
        help="From the face of wall A to the front of the steel. About 225 lets a 110 soil pipe pass behind the frames.",
    )  # fmt: skip
    top: Entry | None = length(
        "Top of pre-wall",
        least=300,
        most=6_000,
        known=Known.AGREED,
        likely=(900, 1_400),
        usual=1_200,
        help="Above the finished floor, tiled.",
    )
    strut: str = item("Strut", ("strut",), "For rails, uprights and ties.", "strut-41x21")


@dataclass(frozen=True, slots=True, kw_only=True)
class Finish:
    """What covers the pre-wall."""

    board: str = item("Board", ("board",), default="board-cement-12")
    layers: Entry | None = amount("Layers of board", "", least=1, most=3, usual=1, known=Known.AGREED, whole=True)
    tile: str = item("Tile", ("tile",), default="tile-600x300-white")
    joint: Entry | None = length("Tile joint", least=1, most=20, usual=2, known=Known.AGREED, likely=(1.5, 5))
    tanking: bool = flag("Tanked", "Waterproof coating under the tiles.", default=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Appliance:
    """One appliance on its frame."""

    kind: str = choice("Kind", KINDS)
    name: str = text("Name", "As it is called on the wall and on paper: WC 1, Basin 1…")
    centre: Entry | None = length("Centre from left wall", known=Known.AGREED, usual=600)
    top: Entry | None = length(
        "Top above finished floor", least=100, most=1_500, known=Known.AGREED,
        help="Top of pan, basin or bidet, lip of a urinal: what the client feels. Agree it and have it signed.",
    )  # fmt: skip
    ware: str = item("Model", WARE_KINDS)
    frame: str = item("Frame", FRAME_KINDS)
    seat: str = item("Seat", ("seat",), "WC only.")
    plate: str = item("Flush plate", ("flush plate",), "WC and urinal.")
    tap: str = item("Tap", ("tap",), "Basin and bidet.")
    own: bool = flag("Client supplies the ware", "Fitted but not supplied: it is not priced.")
    in_hand: bool = flag("In hand or maker's sheet seen")


@dataclass(frozen=True, slots=True, kw_only=True)
class Design:
    """All choices for one room."""

    prewall: PreWall = record("Pre-wall", PreWall)
    finish: Finish = record("Boards and tiles", Finish)
    appliances: tuple[Appliance, ...] = records("Appliances", Appliance)


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomPlan:
    """One room of a job: what is there, and what is to be."""

    name: str = text("Room", default="Bathroom")
    survey: Survey = record("Survey", Survey)
    design: Design = record("Design", Design)
