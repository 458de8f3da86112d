"""What was chosen: the pre-wall, what hangs on it, how high, and how it is finished."""

from __future__ import annotations

from dataclasses import dataclass

from tundish.field import Entry, amount, choice, flag, item, length, record, records, text, which_wall
from tundish.figure import Known
from tundish.survey.survey import Survey

KINDS = ("wc", "basin", "bidet", "urinal", "accessible wc", "shower valve", "wall spout")
FRAME_KINDS = ("wc frame", "basin frame", "bidet frame", "urinal frame", "support bar")
WARE_KINDS = ("wc pan", "basin", "bidet", "urinal", "shower valve", "wall spout")
BY_RULE = "by rule"
"""The setting of a frame that is left to the program."""
SELF_STANDING = "self-standing"
"""What a pre-wall is built of that is not tied to the wall: strut, held by its feet alone."""
ON_STUDS, NOGGINS, PLY = "wall studs", "wall studs and noggins", "ply over the wall studs"
"""What struts on a stud wall are fixed to."""
WITH_BOSSES = "with bosses"
STRAIGHT = "straight"
BONDS = {STRAIGHT: 0.0, "brick bond": 1 / 2, "third bond": 1 / 3}
"""How tiles are laid, and by what share of a tile every other course is shifted."""
PEOPLE = ("adult", "tall adult", "older person", "child 3-4", "child 5-8", "child 9-12", "wheelchair user")
BY_H = "Approved Document H"
DRAINS_BY = (BY_H, "EN 12056-2, system I", "EN 12056-2, system II", "EN 12056-2, system III", "EN 12056-2, system IV")
"""The rule sets that drainage may be reckoned by. System III is that of the United Kingdom, system I that of most of the continent."""
USES = ("now and then", "often", "by many at once", "special")
IN_VOID, IN_FRONT = "in the void", "in front of the wall"
"""Where hot and cold of a basin or bidet are shut off."""
UNDER_FLOOR = "under the floor"
"""Another way for hot and cold to be led than in the void."""
ON_PADS, NO_PADS = "on sound pads", "without sound pads"
BY_VALVE = "by an air admittance valve"
PREWALLS = ("1", "2", "3", "4", "5", "6")
"""Which pre-wall of the room something stands on: the first, then the further ones in order."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Niche:
    """A recess in the front of a pre-wall, boarded and tiled inside."""

    name: str = text("Name")
    from_left: Entry | None = length("Left edge from left wall", known=Known.AGREED, usual=900)
    bottom: Entry | None = length("Bottom above finished floor", known=Known.AGREED, usual=1_000)
    width: Entry | None = length("Width, tiled", least=50, known=Known.AGREED, usual=300)
    height: Entry | None = length("Height, tiled", least=50, known=Known.AGREED, usual=300)
    depth: Entry | None = length("Depth, tiled", least=20, most=600, known=Known.AGREED, usual=90)


@dataclass(frozen=True, slots=True, kw_only=True)
class Hatch:
    """An opening in the front of a pre-wall through which what is behind can be reached."""

    name: str = text("Name")
    item: str = item("Hatch", ("access hatch",))
    from_left: Entry | None = length("Left edge from left wall", known=Known.AGREED, usual=900)
    bottom: Entry | None = length("Bottom above finished floor", known=Known.AGREED, usual=300)
    reaches: str = text("What it reaches", "The valve, trap or joint behind it.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Noggin:
    """A length of the pre-wall with something behind its boards that a thing can be fixed to: a towel rail, a shelf."""

    name: str = text("What it holds", "Towel rail, shelf, hook…")
    from_left: Entry | None = length("Left end from left wall", known=Known.AGREED, usual=900)
    level: Entry | None = length("Middle above finished floor", known=Known.AGREED, usual=1_000)
    reach: Entry | None = length("Length to fix to", least=20, most=40_000, known=Known.AGREED, usual=300)


@dataclass(frozen=True, slots=True, kw_only=True)
class PreWall:
    """A false wall in front of one of the walls."""

    name: str = text("Name", 'As it is called on paper where a room has several: "basin wall".')
    wall: str = which_wall("In front of wall")
    stands: str = choice(
        "Stands", ("along the wall", "across its left-hand corner"), "Across a corner it carries a frame set at an angle between two walls."
    )
    setback: Entry | None = length(
        "Corner to its ends", most=3_000, known=Known.AGREED, likely=(300, 1_200), usual=600,
        help="Across a corner only: how far from the corner the frame front meets each wall.",
    )  # fmt: skip
    built_of: str = choice(
        "Built of",
        ("steel", "timber", SELF_STANDING),
        "Strut and brackets, studwork, or strut held by heavy feet alone, untied to the wall.",
    )
    height: str = choice("Height", ("part", "full"), "Part height ends below the ceiling; full height goes to it.")
    shelf: bool = flag("Shelf on top", "Part height only: boarded and tiled on top. Without it a capping closes the top.", default=True)
    capping: str = item(
        "Capping",
        ("capping",),
        "Part height without a shelf: one slab over frame, boards and tiles. Its top is that of the pre-wall.",
        "capping-20-white",
    )
    from_left: Entry | None = length(
        "Starts from left wall", known=Known.AGREED, usual=0,
        help="From the wall it is joined to what stands across that corner; started clear of that it stops short, with a return.",
    )  # fmt: skip
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
    backing: str = choice(
        "Strut on a stud wall fixed to",
        (ON_STUDS, NOGGINS, PLY),
        "Noggins or ply where the wall studs alone do not hold: the wall is opened behind the strut.",
    )
    niches: tuple[Niche, ...] = records("Niches", Niche)
    hatches: tuple[Hatch, ...] = records("Access openings", Hatch)
    noggins: tuple[Noggin, ...] = records("Noggins", Noggin)


@dataclass(frozen=True, slots=True, kw_only=True)
class Finish:
    """What covers the pre-wall."""

    board: str = item("Board", ("board",), default="board-cement-12")
    layers: Entry | None = amount("Layers of board", "", least=1, most=3, usual=1, known=Known.AGREED, whole=True)
    tile: str = item("Tile", ("tile",), default="tile-600x300-white")
    joint: Entry | None = length("Tile joint", least=1, most=20, usual=2, known=Known.AGREED, likely=(1.5, 5))
    bond: str = choice(
        "Tiles laid",
        tuple(BONDS),
        "Every other course half or a third of a tile along, or not. Long tiles may be bowed: a third shows it less.",
    )
    tile_start: str = text("Tiles start with", "As named under Tile set-out on Cutting. Blank: the start that spoils least.")
    tanking: bool = flag("Tanked", "Waterproof coating under the tiles.", default=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Piping:
    """What drainage is reckoned by."""

    drains_by: str = choice(
        "Drainage by", DRAINS_BY, "The rules that falls, lengths and flows are held against; where another differs, it is said."
    )
    use: str = choice("Used", USES, "Now and then: a dwelling, an office. Often: a hotel, a school, a restaurant. By many at once: public.")


@dataclass(frozen=True, slots=True, kw_only=True)
class FloorTiles:
    """What the floor is tiled with by the same hands."""

    tile: str = item("Floor tile", ("tile",), "Blank: the floor is not tiled with this job.")
    joint: Entry | None = length("Floor joint", least=1, most=20, usual=3, known=Known.AGREED, likely=(2, 6), help="Blank: 3, as is usual.")
    bond: str = choice("Floor tiles laid", tuple(BONDS), "Every other row half or a third of a tile along, or not.")
    tile_start: str = text("Floor tiles start with", "As named under Tile set-out on Cutting. Blank: the start that spoils least.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Appliance:
    """One appliance on its frame."""

    kind: str = choice("Kind", KINDS)
    name: str = text("Name", "As it is called on the wall and on paper: WC 1, Basin 1…")
    on: str = choice("On pre-wall", PREWALLS, "The first, or one of the further ones.")
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
    outlet: str = choice("Outlet", ("turned to the stack", "straight back"), "WC: which way the bend behind the frame is turned.")
    drains_to: str = text("Drains to", "Blank: to the stack. Or the name of one of the other waste entries.")
    visitable: bool = flag("Visitable WC", "Of a dwelling, for guests: Approved Document M asks more room of it.")
    vented: str = choice("Branch or waste vented", ("not", BY_VALVE), "Where it is longer than it may be without.")
    branch: str = choice("Branch on the stack", ("plain", WITH_BOSSES), "WC: a branch with bosses takes wastes that come in close to it.")
    fed_from: str = choice("Cistern fed from the", ("back", "top"), "WC: where the supply enters the cistern.")
    plate_on: str = choice("Flush plate on the", ("front", "shelf"), "WC: plates on a shelf want a low frame.")
    trap: str = choice(
        "Trap", ("behind the basin", "exposed bottle trap", "half pedestal", "hidden in the wall"),
        "Basin: where the trap is; it sets how high waste and supplies come out of the wall.",
    )  # fmt: skip
    valves: str = choice("Servicing valves", (IN_VOID, IN_FRONT), "Basin and bidet: in the void they want an access opening near them.")
    feeds: str = choice(
        "Hot and cold led", (IN_VOID, UNDER_FLOOR), "Under the floor: down where they come in, and up behind it through a new hole each."
    )
    hot_at: Entry | None = length(
        "Hot runs along the wall at", least=20, most=2_400, known=Known.AGREED, likely=(100, 700),
        help="Above the bare floor. Blank: at the usual height, or at the next above it that is clear of what is laid.",
    )  # fmt: skip
    cold_at: Entry | None = length(
        "Cold runs along the wall at", least=20, most=2_400, known=Known.AGREED, likely=(100, 700),
        help="Above the bare floor. Blank: at the usual height, or at the next above it that is clear of what is laid.",
    )  # fmt: skip
    waste_at: Entry | None = length(
        "Waste enters the stack at", least=20, most=2_400, known=Known.AGREED,
        help="Invert above the bare floor. Blank: as it comes in at the usual fall.",
    )  # fmt: skip
    rail: str = item("Rail beside it", ("grab rail",), "Accessible WC: level, on the side wall.")
    drop_rail: str = item("Drop-down rail", ("drop-down rail",), "Accessible WC: on the pre-wall, on its open side.")
    back_rest: str = item("Back rest", ("back rest",), "Accessible WC: on the pre-wall, above the pan.")
    beside: str = choice(
        "Side wall beside it on the", ("left", "right"), "Accessible WC: its rail is there, its drop-down rail on the other side."
    )
    head: Entry | None = length(
        "Shower head above finished floor",
        least=500,
        most=3_000,
        known=Known.AGREED,
        usual=2_100,
        help="Shower valve: where its outlet goes up to.",
    )
    tie_rod: str = item("Tie rod", ("tie rod",), "Blank: chosen by rule for everything it may turn out to be.")
    packers: Entry | None = length("Packers under its feet", most=300, known=Known.AGREED, usual=0, likely=(0, 60))
    pads: str = choice(
        "Frame set", (BY_RULE, ON_PADS, NO_PADS), "Pads lie under its feet and at its wall brackets, and are reckoned with in both."
    )
    bracket: str = choice(
        "Wall brackets",
        (BY_RULE, "square to the wall", "turned in", "turned out"),
        "By rule: turned in where a neighbour or a side wall would be too near, as long as a tie rod still fits.",
    )
    settings_why: str = text("Why so", "The reason for a tie rod, packer or bracket of your own choice.")
    own: bool = flag("Client supplies the ware", "Fitted but not supplied: it is not priced.")
    in_hand: bool = flag("In hand or maker's sheet seen")


@dataclass(frozen=True, slots=True, kw_only=True)
class Typed:
    """A worked-out figure that the trader set by hand: `figure` names it, such as "wc-1.feet"; what was worked out stays beside it."""

    figure: str = text("Figure")
    value: Entry | None = length("Typed", least=-20_000, known=Known.TYPED)
    why: str = text("Why")


@dataclass(frozen=True, slots=True, kw_only=True)
class User:
    """Somebody who uses the room, for whom heights are advised."""

    name: str = text("Name", "As it is said on paper: whose height it is.")
    person: str = choice("Who it is", PEOPLE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Design:
    """All choices for one room."""

    prewall: PreWall = record("Pre-wall", PreWall)
    finish: Finish = record("Boards and tiles", Finish)
    floor: FloorTiles = record("Floor tiles", FloorTiles)
    piping: Piping = record("Pipes", Piping)
    appliances: tuple[Appliance, ...] = records("Appliances", Appliance)
    further: tuple[PreWall, ...] = records("Further pre-walls", PreWall)
    typed: tuple[Typed, ...] = records("Figures typed over", Typed)
    users: tuple[User, ...] = records("Who uses the room", User)


@dataclass(frozen=True, slots=True, kw_only=True)
class Undecided:
    """What else a choice may still be: `choice` is its place in the room, such as "design.finish.tile"; a row for each alternative."""

    choice: str = text("Choice", "Its place in the room, such as design.finish.tile.")
    other: str = text("Or", "What it may still be instead, as the job holds it.")


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomPlan:
    """One room of a job: what is there, and what is to be."""

    name: str = text("Room", default="Bathroom")
    survey: Survey = record("Survey", Survey)
    design: Design = record("Design", Design)
    undecided: tuple[Undecided, ...] = records("Choices still open", Undecided)
