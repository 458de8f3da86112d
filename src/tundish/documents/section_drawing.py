"""The section at the stack: the wall on the left, the room on the right, to scale; it follows the input being typed."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tundish import measure
from tundish.documents.drawing import Box, Dimension, Drawing, Ellipse, Line, Mark, Style, Words
from tundish.field import must_read
from tundish.layout.room import Room

WALL: Final = 60.0
FLOOR: Final = 22.0
BORE: Final = 104.0
"""Bore of the branch that is drawn: only the picture depends on it."""
BEYOND: Final = 270.0
"""How much of the floor is drawn past the face: room for what is written on it."""
_PROUD: Final = 8.0
"""How far a flush plate stands up from a shelf, as drawn."""
_CLEAR: Final = 30.0
"""How far above the finished floor its word stands, and that of the bare floor below the stack: half its height on paper, and a little."""
LEAST_HIGH: Final = 500.0
CHALK: Final = "chalk"
"""The piece of what is picked out in chalk: the input that is being typed."""


def section(room: Room, path: str = "") -> Drawing:
    """Wall, stack, void, pre-wall and floor build-up; the input at `path` is dimensioned in chalk."""
    deep = max(room.figures["finished_face"].value, room.figures["stack_from_wall"].value + 80) + BEYOND
    high = _seen_high(room, path)
    marks: tuple[Mark, ...] = (
        *_structure(room, path, deep, high),
        *_stack(room, high),
        *_prewall(room, high),
        *_sizes(room, path, deep, high),
    )
    left = max(WALL, 80 - room.figures["stack_from_wall"].value)
    words = f"Section at the stack, wall {room.wall} on the left"
    low = FLOOR + 40 + 2 * _CLEAR
    return Drawing(words, marks, (-left, -low, deep + left + 40, high + low))


def _seen_high(room: Room, path: str) -> float:
    """How high the section is drawn: no higher than it takes to see the branch or the floor well, where one of them is being typed."""
    whole = room.top.value + 100
    if not path.startswith(("survey.stack", "survey.floor")):
        return whole
    invert = room.figures["branch_invert"].value if "branch_invert" in room.figures else 0.0
    return min(whole, max(2 * invert, invert + 350, LEAST_HIGH))


def _structure(room: Room, path: str, deep: float, high: float) -> Iterator[Mark]:
    face = room.figures["finished_face"].value
    yield Box(-WALL, -FLOOR - 40, WALL, high + FLOOR + 40, "wall")
    yield Box(0, -FLOOR, deep, FLOOR, "timber")
    low = 0.0
    for place, layer in enumerate(room.plan.survey.floor.build_up):
        thick = must_read(layer, "thickness").value
        chosen = path.startswith(f"survey.floor.build_up.{place}.")
        yield Box(face, low, deep - face, thick, "chosen" if chosen else "floor", CHALK if chosen else "")
        low += thick
    words = room.plan.survey.floor.kind
    yield Words(deep - 10, -FLOOR - 40 - _CLEAR, words, 2.4, anchor="end")


def _stack(room: Room, high: float) -> Iterator[Mark]:
    centre = room.figures["stack_from_wall"].value
    yield Box(centre - 55, -FLOOR - 40, 110, high + FLOOR + 40, "soil", "stack")
    yield Line(centre, -FLOOR - 40, centre, high, "datum")
    if "branch_invert" in room.figures:
        invert = room.figures["branch_invert"].value
        yield Ellipse(centre, invert + BORE / 2, BORE / 2 + 8, BORE / 2 + 8, "soil", "branch")
        yield Ellipse(centre, invert + BORE / 2, BORE / 2, BORE / 2, "ware", "branch")


def _prewall(room: Room, high: float) -> Iterator[Mark]:
    depth, face = room.depth.value, room.figures["finished_face"].value
    top, steel = room.top.value, room.top_of_steel.value
    yield Box(depth - 41, 0, 41, max(min(steel, high), 1.0), "steel")
    yield Box(depth, 0, face - depth, max(min(top, high), 1.0), "board")
    if room.prewall.height == "part" and top < high:
        yield Box(0, steel, face, max(top - steel, 1.0), "board")
        for placed in room.placed:
            if "shelf_plate" in placed.figures:
                yield Box(placed.figures["shelf_plate_out"].value - 80, top, 160, _PROUD, "ware", placed.key)


def _sizes(room: Room, path: str, deep: float, high: float) -> Iterator[Mark]:
    """The sizes that are always shown, the one being typed named by its figure so that it is picked out."""
    face = room.figures["finished_face"].value
    low = high * 0.85
    yield Dimension(0, low, room.depth.value, low, measure.show_length(room.depth.value), _chalk(path, ".depth"), "depth", room.depth.tbc)
    stack = room.figures["stack_from_wall"]
    yield Dimension(
        0,
        low - high * 0.12,
        stack.value,
        low - high * 0.12,
        measure.show_length(abs(stack.value)),
        _chalk(path, "stack.from_wall"),
        "stack_from_wall",
        stack.tbc,
    )
    if "branch_invert" in room.figures:
        invert = room.figures["branch_invert"]
        style: Style = "chosen" if path.endswith("branch_invert") else "dimension"
        yield Line(0, invert.value, face + 60, invert.value, style)
        shown, piece = measure.show_length(invert.value), _chalk(path, "branch_invert")
        yield Dimension(face + 60, 0, face + 60, invert.value, shown, piece, "branch_invert", invert.tbc)
        yield Words(face + 70, invert.value + 20, "branch invert", 2.4, style, "start", bold=style == "chosen")
    floor = room.finished_floor.value
    if path.endswith("prewall.top") or (path.startswith("design.further") and path.endswith(".top")):
        yield Dimension(face + 40, floor, face + 40, room.top.value, measure.show_length(room.top.value - floor), CHALK)
    if room.finished_floor.value > 0:
        yield Words(
            deep - 10, room.finished_floor.value + _CLEAR, f"finish + {measure.show_length(room.finished_floor.value)}", 2.4, anchor="end"
        )


def _chalk(path: str, ends: str) -> str:
    """The piece of a dimension: chalk while it is the one being typed."""
    return CHALK if path.endswith(ends) else ""
