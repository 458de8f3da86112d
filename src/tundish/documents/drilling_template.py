"""The drilling template: every hole of an appliance at true size, on its own heights, to be held against the finished wall."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from tundish import measure
from tundish.documents.block import Document, Heading, Paragraph, Points, TrueSize
from tundish.documents.drawing import Drawing, Ellipse, Line, Mark, Style, Words
from tundish.documents.paper import paper
from tundish.estimate import Estimate
from tundish.figure import Figure
from tundish.layout.room import Placed, Room

ROUND: Final = 45.0
"""What is shown round the outermost hole, mm."""
_CROSS: Final = 12.0
_PIPES: Final = {"outlet": 55.0, "inlet": 27.5, "waste": 20.0, "supply": 7.5}
"""Half of what is drawn round a centre: outlet 110, flush pipe 55, waste 40, supply 15. The maker's sheet says what is cut."""
_WORDS: Final = {"outlet": "outlet", "inlet": "flush inlet", "waste": "waste", "supply": "supply"}
_BOLT: Final = 6.0
_WARNING: Final = "TBC: do not drill"


def build(estimate: Estimate) -> Document:
    """A template for each appliance; those alike in all they say share one."""
    alike: dict[Drawing, list[tuple[Room, Placed]]] = {}
    for room in estimate.rooms:
        for placed in room.framed:
            alike.setdefault(holes(room, placed), []).append((room, placed))
    how = (
        "Print at 100 %, not fitted to the page. Measure both bars on every page before you use it.",
        "Cut each page along the dotted line on two sides, lay the crosses over one another and tape the pages: A1, B1 and so on.",
        "Finished is above the finished floor, bare above the bare floor, in mm.",
        "Line the centre line up with the mark on the wall, and the studs' line with a level. Heights are those of the setting-out sheet.",
        "The holes are centres and pipes; what is cut round them is on the maker's sheet.",
        "Go over the wall with a detector for cables and pipes before drilling.",
    )
    blocks: list[Heading | Paragraph | Points | TrueSize] = [Points("How to use it", how)]
    for drawing, places in alike.items():
        names = ", ".join(placed.name if len(estimate.rooms) == 1 else f"{placed.name} ({room.name})" for room, placed in places)
        warning = "" if all(_firm(placed) for _, placed in places) else _WARNING
        blocks.append(TrueSize(drawing, f"{names}: {places[0][1].ware.name}", warning))
    if not alike:
        blocks.append(Paragraph("Nothing hangs on a wall yet."))
    made = paper(estimate, "template", "Drilling template", tuple(blocks), foot="Both bars on a page must measure 100 mm")
    return replace(made, drawn=True)


def holes(room: Room, placed: Placed) -> Drawing:
    """The centres of one appliance: x from its centre line, y from the bare floor."""
    marks: list[Mark] = []
    spots = tuple(_spots(placed))
    levels = {round(figure.value, 3): figure for _, _, figure, _ in spots}
    half = max(abs(x) + radius for _, x, _, radius in spots) + ROUND
    low = min(figure.value - radius for _, _, figure, radius in spots) - ROUND
    high = max(figure.value + radius for _, _, figure, radius in spots) + ROUND
    marks.append(Line(0, low, 0, high, "datum"))
    marks.append(Words(12, high - 8, "centre line", 3, "datum", "start"))
    for figure in levels.values():
        marks += _level(room, figure, half)
    for name, x, figure, radius in spots:
        marks += _hole(name, x, figure.value, radius)
    marks += _apart(placed)
    return Drawing(f"Drilling template, {placed.ware.name}", tuple(marks), (-half, low, 2 * half, high - low))


def _spots(placed: Placed) -> Iterator[tuple[str, float, Figure, float]]:
    """Name, place across, height and half the size of every centre."""
    apart = placed.ware.sizes["stud_spacing"][0] / 2
    for x in (-apart, apart):
        yield "stud", x, placed.figures["studs"], _BOLT
    for name in ("outlet", "inlet", "waste"):
        if name in placed.figures:
            yield _WORDS[name], 0.0, placed.figures[name], _PIPES[name]
    if "supply" in placed.figures and placed.kind != "wc":
        sides = placed.ware.sizes["supply_spacing"][0] / 2 if placed.ware.has("supply_spacing") else 0.0
        for name, x in (("hot", -sides), ("cold", sides)) if sides else (("supply", 0.0),):
            yield name, x, placed.figures["supply"], _PIPES["supply"]


def _hole(name: str, x: float, y: float, radius: float) -> Iterator[Mark]:
    yield Ellipse(x, y, radius, radius, "ink", filled=False)
    yield Line(x - radius - _CROSS, y, x + radius + _CROSS, y, "ink")
    yield Line(x, y - radius - _CROSS, x, y + radius + _CROSS, "ink")
    yield Words(x + radius + 3, y - 6, name, 3.2, "ink", "start", bold=True)


def _level(room: Room, figure: Figure, half: float) -> Iterator[Mark]:
    finished = figure.value - room.finished_floor.value
    style: Style = "tbc" if figure.tbc else "ink"
    tbc = " TBC" if figure.tbc else ""
    yield Line(-half, figure.value, half, figure.value, "hidden")
    for sign, words in ((1, f"finished {measure.show_length(finished)}{tbc}"), (-1, f"bare {measure.show_length(figure.value)}{tbc}")):
        yield Words(-half + 2, figure.value + sign * 3.2, words, 2.8, style, "start")


def _apart(placed: Placed) -> Iterator[Mark]:
    apart = placed.ware.sizes["stud_spacing"][0]
    yield Words(-apart / 4, placed.figures["studs"].value + 4, f"studs {measure.show_length(apart)} apart", 2.8, "ink")


def _firm(placed: Placed) -> bool:
    return placed.choice.in_hand and not placed.figures["studs"].tbc
