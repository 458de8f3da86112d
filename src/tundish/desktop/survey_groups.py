"""How the inputs of a room are grouped for the survey, and which of them are shown before "More" is pressed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields
from typing import Any, Final

from tundish.desktop.inputs import may_be_blank
from tundish.field import Entry, Field, fields_of, get, walk
from tundish.layout.design import Appliance, Finish, FloorTiles, Hatch, Niche, Noggin, PreWall, RoomPlan
from tundish.survey.floor import ON_JOISTS, Floor, Layer
from tundish.survey.pipes import Existing, Stack, WasteEntry, Water
from tundish.survey.shape import Electric, Obstacle, Photograph, Slope
from tundish.survey.wall import Opening, Side, Wall, wall_letter


@dataclass(frozen=True, slots=True)
class Group:
    """One group of the row of buttons: its key, its words, and the records of the room that it shows."""

    key: str
    words: str
    records: tuple[str, ...] = ()


OWN: Final = "own-"
"""How the code of a model of the job's own begins."""
FIRST: Final = "first"
CLIENT: Final = "client"
WARE: Final = "appliances"
GROUPS: Final = (
    Group(FIRST, "First price"),
    Group("room", "Room", ("survey.room", "survey.openings", "survey.slopes", "survey.obstacles")),
    Group("wall", "Walls", ("survey.wall", "survey.walls")),
    Group("floor", "Floor", ("survey.floor",)),
    Group("stack", "Stack", ("survey.stack", "survey.entries", "design.piping")),
    Group("water", "Water", ("survey.water",)),
    Group(WARE, "Sanitaryware", ("design.appliances",)),
    Group("prewall", "Pre-wall", ("design.prewall", "design.further")),
    Group("finish", "Tiles", ("design.finish", "design.floor")),
    Group("electrics", "Electrics", ("survey.electrics",)),
    Group("out", "Coming out", ("survey.existing",)),
    Group("photographs", "Photographs", ("survey.photographs",)),
    Group(CLIENT, "Client"),
)
ROOM_BOXES: Final = ("survey.room.width", "survey.room.depth", "survey.room.height")
STACK_BOXES: Final = ("survey.stack.from_left", "survey.stack.from_wall", "survey.stack.branch_invert")
FLOOR_BOX: Final = "survey.floor.kind"
BUILD_UP: Final = "survey.floor.build_up"
CLIENT_BOXES: Final = ("number", "title", "client.name", "client.address", "client.phone", "client.email", "client.vat_number", "note")
ROOM_WORDS: Final = ("name", "survey.surveyed_by", "survey.note")
MANY_LINES: Final = ("client.address", "note", "survey.note")
NOUNS: Final[Mapping[type, str]] = {
    Layer: "a layer",
    Opening: "an opening",
    Side: "a wall",
    Slope: "a slope or soffit",
    Obstacle: "something in the way",
    WasteEntry: "a waste entry",
    Electric: "something electrical",
    Photograph: "a photograph",
    Niche: "a niche",
    Hatch: "an access opening",
    Noggin: "a noggin",
    PreWall: "a pre-wall",
    Appliance: "an appliance",
}
"""What one row of each list is called."""
MOST: Final[Mapping[type, int]] = {PreWall: 5}
SHORT: Final[Mapping[type, tuple[str, ...]]] = {
    Wall: ("construction",),
    Opening: ("kind", "wall", "from_left", "width", "height", "sill"),
    Slope: ("kind", "wall", "at_wall", "reach"),
    Obstacle: ("what", "wall", "from_left", "width", "depth", "height"),
    Electric: ("what", "wall", "from_left", "height"),
    Floor: ("kind", "joist_centres"),
    Stack: ("pipe", *(each.rpartition(".")[2] for each in STACK_BOXES)),
    WasteEntry: ("name", "size", "wall", "from_left", "from_wall", "invert"),
    Water: ("cold_from_left", "hot_from_left"),
    Existing: ("appliances", "tiles_off_m2"),
    PreWall: ("wall", "height", "from_left", "run", "depth", "top"),
    Finish: ("board", "tile"),
    FloorTiles: ("tile",),
    Appliance: ("name", "centre", "top", "ware", "frame", "own", "in_hand"),
}
"""The inputs of a record that are always shown; the others when they were given, or with "More". All of it where it is not named."""
ONLY_FOR: Final[Mapping[str, tuple[str, ...]]] = {
    "seat": ("wc",),
    "plate": ("wc", "urinal"),
    "tap": ("basin", "bidet"),
    "outlet": ("wc",),
    "fed_from": ("wc",),
    "visitable": ("wc",),
    "vented": ("wc", "basin", "bidet", "urinal"),
    "plate_on": ("wc",),
    "trap": ("basin",),
    "valves": ("basin", "bidet"),
    "hot_at": ("basin", "bidet", "shower valve", "wall spout"),
    "waste_at": ("basin", "bidet", "urinal"),
}
"""Inputs of an appliance that only some kinds have."""


def group_of(inside: str) -> str:
    """The group that shows an input, by its path within the room; the client's where no other does."""
    for group in GROUPS:
        if any(inside == record or inside.startswith(f"{record}.") for record in group.records):
            return group.key
    return CLIENT


def group(key: str) -> Group:
    """A group by its key."""
    return next(each for each in GROUPS if each.key == key)


def plain_inputs(record: object) -> tuple[str, ...]:
    """The inputs of a record that make sense for it, in order; those of a record within it with its name before them."""
    found: list[str] = []
    for name, declared in fields_of(type(record)).items():
        value = getattr(record, name)
        if declared.kind == "record":
            found += [f"{name}.{each}" for each in plain_inputs(value)]
        elif declared.kind != "records" and _makes_sense(record, name):
            found.append(name)
    return tuple(found)


def lists_of(record: object) -> tuple[tuple[str, Field], ...]:
    """The lists that a record holds."""
    return tuple((name, each) for name, each in fields_of(type(record)).items() if each.kind == "records")


def short(record: object) -> tuple[str, ...]:
    """The inputs of a record that are shown before "More": the few that a price needs, and what was given."""
    return tuple(name for name in plain_inputs(record) if _in_short(record, name))


def numbers(plan: RoomPlan, key: str) -> tuple[Entry | None, ...]:
    """The numbers of a group, given or blank, without those whose blank has a meaning; a choice left open counts as one still open."""
    if key == FIRST:
        return tuple(_first_numbers(plan))
    found: list[Entry | None] = []
    for record in group(key).records:
        held = get(plan, record)
        rows = held if isinstance(held, tuple) else (held,)
        for row in rows:
            for path, each, value in walk(row):
                wanted = value is not None or not may_be_blank(each)
                if each.kind == "number" and wanted and _makes_sense(row, path):
                    found.append(value)
        found += [Entry(0, tbc=True) for each in plan.undecided if each.choice.startswith(f"{record}.")]
    return tuple(found)


def shape(value: object) -> tuple[object, ...]:
    """What the rows of a record depend on: how many there are in its lists, and the choices that other rows follow."""
    if isinstance(value, tuple):
        return tuple(shape(each) for each in value)
    own: list[object] = [getattr(value, name, "") for name in ("stands", "height", "shelf", "under")]
    if isinstance(value, Floor):
        own.append(value.kind in ON_JOISTS)
    if isinstance(value, Appliance):
        own += [value.kind, value.ware if value.ware.startswith(OWN) else ""]
    inner = (getattr(value, name) for name, each in fields_of(type(value)).items() if each.kind in {"record", "records"})
    return (*own, *(shape(each) for each in inner))


def title_of(record: object, place: int) -> str:
    """The head of one row of a list."""
    if isinstance(record, Side):
        return f"Wall {wall_letter(place + 1)}"
    if isinstance(record, PreWall):
        return f"Pre-wall {place + 2}"
    name = str(getattr(record, "name", ""))
    noun = NOUNS[type(record)].partition(" ")[2] if type(record) is not Obstacle else "in the way"
    return name or f"{noun.capitalize()} {place + 1}"


def _first_numbers(plan: RoomPlan) -> Iterator[Entry | None]:
    """The ten: a choice counts as given, for it stands at something; a model as given once it is chosen."""
    given = Entry(0)
    for path in (*ROOM_BOXES, *STACK_BOXES):
        yield get(plan, path)
    yield given if plan.survey.floor.kind else None
    layers = [layer.thickness for layer in plan.survey.floor.build_up]
    yield next((each for each in layers if each is not None and each.is_open), next((each for each in layers if each), None))
    for kind in ("wc", "basin"):
        yield given if any(each.kind == kind and each.ware for each in plan.design.appliances) else None


def _makes_sense(record: object, name: str) -> bool:
    match record:
        case Appliance():
            return record.kind in ONLY_FOR.get(name, (record.kind,))
        case PreWall():
            capped = record.height == "part" and not record.shelf
            return capped if name == "capping" else name != "setback" or record.stands != "along the wall"
        case Photograph():
            return name != "picture"
        case Floor():
            return record.kind in ON_JOISTS or not name.startswith("joist")
        case WasteEntry():
            return record.under or name != "floor_thick"
    return True


def _in_short(record: Any, name: str) -> bool:
    head, _, rest = name.partition(".")
    value = getattr(record, head)
    if rest:
        return _in_short(value, rest)
    if isinstance(record, Appliance) and name == "kind":
        return False
    few = SHORT.get(type(record))
    return few is None or name in few or value != _default(record, head)


def _default(record: Any, name: str) -> object:
    return next(each.default for each in fields(record) if each.name == name)
