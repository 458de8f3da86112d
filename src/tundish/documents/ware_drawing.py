"""Appliances drawn from their makers' sizes: from the front, from above, and where their studs and pipes are."""

from __future__ import annotations

import math
from collections.abc import Iterator

from tundish.documents.drawing import Anchor, Box, Ellipse, Line, Mark, Shape, Style, Words
from tundish.layout.appliances.kinds import KINDS
from tundish.layout.room import Placed, Room

_NAME_AT = 52.0
"""How far above its lowest point the name of an appliance is written."""
_LETTER = 0.47
"""How wide a letter is, in heights of its line."""
_APART = 0.92
"""How much of the way to its neighbour a name may fill."""
_TUBE = 16.0
_PLATE = 70.0
_PAD = 75.0
"""Half the tube of a rail, half the height of what a rail hinges on and of the pad of a back rest: as drawn, not as made."""
_ASIDE = 15.0
_PROUD = 8.0
"""How far a flush plate stands out, as drawn."""
_CURVE = tuple(math.radians(angle) for angle in range(0, 181, 15))


def front(placed: Placed, room: Room, line: float, *, named: bool = True) -> Iterator[Mark]:
    """The appliance as the client sees it; dashed, and saying TBC, while its sizes are not confirmed. Words are `line` mm high."""
    style: Style = "ware" if placed.choice.in_hand else "tbc"
    half = placed.ware.bare("width") / 2
    top = placed.figures["top"].value
    bottom = top - height_of(placed)
    x = placed.centre.value
    if placed.kind == "urinal":
        head = placed.figures["studs"].value + 60
        yield Shape(((x - half, bottom + 60), *_bow(x, bottom + 60, half, 60), (x + half, head), (x - half, head)), style, placed.key)
        yield Ellipse(x, top, half - 30, 18, style, placed.key, filled=False)
    else:
        curve = min(height_of(placed) * 0.55, half * 1.3)
        yield Shape(
            ((x - half, top), (x - half, bottom + curve), *_bow(x, bottom + curve, half, curve), (x + half, top)), style, placed.key
        )
    if "plate" in placed.figures and placed.choice.plate:
        yield Box(x - 120, placed.figures["plate"].value - 80, 240, 160, "ware", placed.key)
    if "shelf_plate" in placed.figures and placed.choice.plate:
        yield Box(x - 120, placed.figures["shelf_plate"].value, 240, _PROUD, "ware", placed.key)
    tbc, both, wide = not placed.choice.in_hand, f"{placed.name}, TBC", room_of_name(placed, room)
    beside = len(both) * _LETTER * line <= wide
    if named:
        words = both if tbc and beside else placed.name
        yield Words(x, bottom + _NAME_AT, words, 2.6, style, bold=True, piece=placed.key, most=wide, loose="near")
    if tbc and not (named and beside):
        below = bottom - 0.7 * line if named else bottom + _NAME_AT
        yield Words(x, below, "TBC", 2.6, "tbc", bold=True, piece=placed.key, loose="near")
    if placed.kind == "wc":
        yield Line(x - half, top - 18, x + half, top - 18, style, placed.key)
    if bottom < room.finished_floor.value:
        yield Line(x - half, room.finished_floor.value, x + half, room.finished_floor.value, "fails", placed.key)


def aids(placed: Placed, *, named: bool = True) -> Iterator[Mark]:
    """The drop-down rail and the back rest of an accessible WC from the front, at the heights they are fixed at."""
    figures = placed.figures
    if "back_rest_wide" in figures:
        wide = figures["back_rest_wide"].value
        left, at = placed.centre.value - wide / 2, figures["back_rest"].value
        yield Box(left, at - _PAD, wide, 2 * _PAD, "ware", placed.key, filled=False)
        if named:
            yield Words(left + _ASIDE, at, "Back rest", anchor="start", piece=placed.key, loose="near")
    if "drop_rail_wide" in figures:
        wide, at = figures["drop_rail_wide"].value, figures["drop_rail_from_left"].value
        yield Box(at - wide / 2, figures["drop_rail"].value - _PLATE, wide, 2 * _PLATE, "ware", placed.key)
        yield Ellipse(at, figures["drop_rail"].value, _TUBE, _TUBE, "ware", placed.key)
        if named:
            out, anchor = _open_side(placed, wide)
            yield Words(at + out, figures["drop_rail"].value, "Drop-down rail", anchor=anchor, piece=placed.key, loose="near")


def aids_above(placed: Placed, face: float) -> Iterator[Mark]:
    """The same from above, from the finished face out."""
    for which, centre in (("drop_rail", "drop_rail_from_left"), ("back_rest", "")):
        if f"{which}_wide" in placed.figures:
            wide, out = (placed.figures[f"{which}_{name}"].value for name in ("wide", "out"))
            x = placed.figures[centre].value if centre else placed.centre.value
            yield Box(x - wide / 2, -face - out, wide, out, "ware", placed.key, filled=False)


def settings(placed: Placed) -> Iterator[Mark]:
    """Where it is drilled and plumbed: stud crosses, outlet, inlet, waste, supplies."""
    if not placed.framed:
        return
    x, key = placed.centre.value, placed.key
    apart = placed.ware.bare("stud_spacing") / 2
    studs = placed.figures["studs"].value
    for place in (x - apart, x + apart):
        yield Line(place - 14, studs, place + 14, studs, "ink", key)
        yield Line(place, studs - 14, place, studs + 14, "ink", key)
    for name, radius in (("outlet", 50.0), ("inlet", 28.0), ("waste", 20.0)):
        if name in placed.figures:
            yield Ellipse(x, placed.figures[name].value, radius, radius, "hidden", key, filled=False)


def above(placed: Placed, face: float, wide: float = 0.0) -> Iterator[Mark]:
    """The appliance from above, hanging from the finished face; the plan's y runs down the page, into the room."""
    style: Style = "ware" if placed.choice.in_hand else "tbc"
    half = placed.ware.bare("width") / 2
    out = placed.ware.bare("projection")
    x, curve = placed.centre.value, min(out * 0.5, half * 1.2)
    outline = ((x - half, -face), (x - half, -face - out + curve), *_bow(x, -face - out + curve, half, curve), (x + half, -face))
    yield Shape(outline, style, placed.key)
    yield Ellipse(x, -face - out * 0.52, half * 0.62, out * 0.34, style, placed.key, filled=False)
    if "shelf_plate" in placed.figures and placed.choice.plate:
        yield Box(x - 120, -placed.figures["shelf_plate_out"].value - 80, 240, 160, "ware", placed.key, filled=False)
    yield Words(x, -face - out * 0.52, placed.name, 2.6, style, bold=True, piece=placed.key, most=max(wide, 2 * half), loose="near")


def height_of(placed: Placed) -> float:
    """How far it hangs below its top."""
    return KINDS[placed.kind].hangs


def room_of_name(placed: Placed, room: Room) -> float:
    """How wide its name may be, written in its middle: up to half way to its neighbours and up to the walls, and never less than itself."""
    x = placed.centre.value
    others = [abs(each.centre.value - x) for each in room.placed if each is not placed]
    return max(_APART * min(2 * x, 2 * (room.width.value - x), *others), placed.ware.bare("width"))


def _bow(x: float, y: float, half: float, depth: float) -> Iterator[tuple[float, float]]:
    """Points of a half ellipse hanging below y, left to right."""
    for angle in _CURVE:
        yield x - half * math.cos(angle), y - depth * math.sin(angle)


def _open_side(placed: Placed, wide: float) -> tuple[float, Anchor]:
    """How far from the middle of a drop-down rail so wide its name begins, away from the pan, and which way it goes."""
    far = wide / 2 + _ASIDE
    return (far, "start") if placed.choice.beside == "left" else (-far, "end")
