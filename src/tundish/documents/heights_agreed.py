"""The heights a client agrees: the wall as it will be seen, each height above the finished floor, whether it can change, two signatures."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from tundish import measure
from tundish.documents.block import Block, Column, Document, FillIn, Heading, Paragraph, Points, Row, Sketch, Table
from tundish.documents.drawing import Drawing, Ellipse, Line, Mark, Words
from tundish.documents.paper import paper, trader_of
from tundish.documents.wall_drawing import CLIENT_VIEW, WALL, elevation
from tundish.estimate import Estimate
from tundish.figure import Figure, without
from tundish.layout.appliances.kinds import KINDS
from tundish.layout.people import advised
from tundish.layout.room import Placed, Room
from tundish.ranges import may_be
from tundish.rules.frames.height import under_rail

_COLUMNS = (
    Column("", "text", 0.35, "strong"),
    Column("What", "text", 2.2),
    Column("Above your floor, mm", "length", 1.2, "strong"),
    Column("Can it change?", "text", 3.0, "quiet"),
    Column("Initials", "blank", 0.9),
)
_FALL: Final = "drainage/branch-fall"
_PAPER: Final = 172.0
_BUBBLE: Final = 2.4
_LETTERS: Final = 26
_LOW: Final = 0.42
"""How high a front view may be, as a part of the page's width; up to half where it is higher than wide."""
_GRACE: Final = 1e-6
_HALF: Final = 0.5


@dataclass(frozen=True, slots=True)
class Agreed:
    """One height that is agreed: its letter, what it is, how high above the bare floor, and what is said of changing it."""

    letter: str
    what: str
    height: Figure
    change: str
    edge: float
    """Where along the wall its line starts."""


def build(estimate: Estimate) -> Document:
    """One sheet for a job: every wall with what hangs on it, letters running on from wall to wall."""
    why = (
        "Before I close the wall, please check these heights. They are measured from your finished floor, the surface you will stand on."
        " Once the wall is boarded and tiled they cannot be changed without opening it up."
    )
    blocks: list[Block] = [Paragraph(why)]
    count = 0
    for room in estimate.rooms:
        agreed = tuple(_agreed(estimate, room, count))
        if not room.placed and len(estimate.rooms) > 1:
            continue
        count += len(agreed)
        blocks += (
            Heading(room.name),
            _seen(room, agreed),
            Table(_COLUMNS, tuple(_row(room, each) for each in agreed)),
        )
    rest_on = tuple(_rest_on(estimate))
    blocks += (
        *((Points("These figures rest on", rest_on),) if rest_on else (Paragraph("There are no heights to agree yet."),)),
        FillIn("Tried on the wall", ("A card or the appliance itself was held up at these heights.",), ("On", "By")),
        FillIn("Agreed", (), ("Client", "Name", "Date", "Fitter", "Name", "Date")),
    )
    trader = trader_of(estimate)
    foot = " · ".join(word for word in (trader.name, trader.phone, "keep one copy each") if word)
    return paper(estimate, "heights", "Heights we agree", tuple(blocks), foot=foot)


def _seen(room: Room, agreed: tuple[Agreed, ...]) -> Sketch:
    """A high wall is drawn smaller, so that one wall with its signatures stays on a page."""
    drawing = front_view(room, agreed)
    _, _, wide, high = drawing.extent
    return Sketch(drawing, "As you will see it", share=_share(wide, high))


def _share(wide: float, high: float) -> float:
    return min(1.0, max(_LOW * wide / high, min(_HALF, _HALF * wide / high)))


def front_view(room: Room, agreed: tuple[Agreed, ...]) -> Drawing:
    """The wall without steel, pipes, studs or datum, with a lettered line up to each height."""
    drawing = elevation(room, CLIENT_VIEW)
    left, low, wide, high = drawing.extent
    paper_mm = wide / (_PAPER * _share(wide, high))
    floor = room.finished_floor.value
    marks: list[Mark] = list(drawing.marks)
    used: list[float] = []
    least = left
    for each in agreed:
        x = each.edge + 5 * paper_mm if each.edge >= 0 else -WALL - 5 * paper_mm
        while any(abs(x - other) < 2.2 * _BUBBLE * paper_mm for other in used):
            x += 2.2 * _BUBBLE * paper_mm
        used.append(x)
        least = min(least, x - 4 * paper_mm)
        marks += _lettered(each, x, floor, paper_mm)
    most = max(left + wide, max(used, default=0.0) + 4 * paper_mm)
    return Drawing("Front view", tuple(marks), (least, low, most - least, high))


def letter_of(place: int) -> str:
    """A to Z, then A2, B2 and so on."""
    again = place // _LETTERS
    return chr(ord("A") + place % _LETTERS) + (str(again + 1) if again else "")


def _lettered(each: Agreed, x: float, floor: float, paper_mm: float) -> Iterator[Mark]:
    top, tick, radius = each.height.value, 1.2 * paper_mm, _BUBBLE * paper_mm
    yield Line(max(each.edge, -WALL), top, x, top, "hidden")
    yield Line(x, floor, x, top, "dimension")
    for y in (floor, top):
        yield Line(x - tick, y - tick, x + tick, y + tick, "dimension")
    middle = floor + (top - floor) * 0.72
    yield Ellipse(x, middle, radius, radius, "ware")
    yield Words(x, middle, each.letter, 2.8, "ink", bold=True)


def _agreed(estimate: Estimate, room: Room, before: int) -> Iterator[Agreed]:
    found: list[tuple[str, Figure, str, float]] = []
    for placed in room.placed:
        edge = placed.centre.value + placed.ware.sizes["width"][0] / 2
        found.append((_top_words(placed), placed.figures["top"], _with_advice(estimate, room, placed), edge))
        found += [
            (f"{words}, {placed.name}", placed.figures[name], "Fixed before boarding", edge)
            for name, words in _MORE
            if name in placed.figures
        ]
        for name, words in (("plate", "Middle of the flush plate"), ("shelf_plate", "Flush plate on the shelf")):
            if name in placed.figures and placed.choice.plate:
                found.append((f"{words}, {placed.name}", placed.figures[name], "Fixed by the frame", placed.centre.value + 120))
    if room.prewall.height == "part":
        what = "Top of the shelf" if room.prewall.shelf else "Top of the false wall"
        found.append((what, room.top, _shelf_change(estimate, room), -1.0))
    for place, (what, height, change, edge) in enumerate(found):
        yield Agreed(letter_of(before + place), what, height, change, edge)


def _row(room: Room, each: Agreed) -> Row:
    above = without(each.height, room.finished_floor)
    return Row((each.letter, each.what, above.value, each.change, ""), above.tbc, note=may_be(above))


def _top_words(placed: Placed) -> str:
    words = f"{KINDS[placed.kind].agreed}, {placed.name}"
    if "seat" in placed.figures:
        thick = placed.figures["seat"].value - placed.figures["top"].value
        words += f"; the seat adds about {measure.show_length(thick)}"
    return words


def _with_advice(estimate: Estimate, room: Room, placed: Placed) -> str:
    """From where to where it can be changed, and what is advised for those who use the room."""
    words, found = _top_change(estimate, room, placed), advised(placed.kind, room.plan.design.users, estimate.book)
    if found is None:
        return words
    return f"{words}. Advised{', to the seat' if placed.kind in _SAT_ON else ''}: {found.words}"


_SAT_ON: Final = frozenset({"wc", "bidet"})
_MORE: Final = (("head", "Shower head"), ("drop_rail", "Drop-down rail"), ("back_rest", "Back rest"), ("rail", "Rail beside"))


def _top_change(estimate: Estimate, room: Room, placed: Placed) -> str:
    """From where to where, whatever is decided of the rest, and what holds it."""
    frame, top = placed.frame, without(placed.figures["top"], room.finished_floor).low
    if not (frame.has("studs_low") and frame.has("studs_high")):
        return "As the frame allows"
    up = placed.figures["top"].value - placed.figures["studs"].value
    low, high = frame.sizes["studs_low"][0] + up, frame.sizes["studs_high"][0] + up
    finding = next((each for each in estimate.findings if each.rule == _FALL and each.place == f"{room.name}, {placed.name}"), None)
    words = f"{measure.show_length(low)} to {measure.show_length(high)}: what its frame takes"
    if finding is None:
        return words
    if finding.has is None or finding.least is None:
        return f"{words}; how low the drain allows is not known yet"
    drain = math.ceil(top - (finding.has.low - finding.least.high) - _GRACE)
    if drain <= low:
        return words
    if drain > high:
        asks = f"the drain asks for {measure.show_length(drain)} or more"
        return f"Not settled yet: {asks}, and its frame takes {measure.show_length(high)} at most"
    does = "does" if finding.has.settled and finding.least.settled else "may"
    return f"{measure.show_length(drain)} to {measure.show_length(high)}: lower, and the drain {does} not fall enough"


def _shelf_change(estimate: Estimate, room: Room) -> str:
    over = room.top.value - under_rail(room, estimate.book).value
    frames = [placed.figures["frame_top"].value for placed in room.framed]
    if not frames:
        return "As you wish"
    return f"{measure.show_length(max(frames) + over - room.finished_floor.value)} at the lowest: the frames are under it"


def _rest_on(estimate: Estimate) -> Iterator[str]:
    floors = dict.fromkeys((room.room_name, room.finished_floor) for room in estimate.rooms)
    for name, floor in floors:
        words = may_be(floor) or measure.show_length(floor.value)
        yield f"{name}: finished floor {words} mm above the floor as it is. If it is built up differently, tell me before boarding."
    for placed in (each for room in estimate.rooms for each in room.placed):
        seen = "" if placed.choice.in_hand else " Its sizes are still to be confirmed (TBC)."
        yield f"{placed.name}: {placed.ware.name}. If you choose another, I send this sheet again.{seen}"
