"""What every appliance has in common: where its frame and studs stand, and how far its rods, feet and studs reach."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Final

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.figure import Figure
from tundish.layout.makers import from_sheet, size
from tundish.layout.outline import Outline


@dataclass(frozen=True, slots=True)
class Hung:
    """One appliance on its frame, with the height wanted for its top above the finished floor, and the pre-wall it hangs on."""

    name: str
    ware: Item
    frame: Item
    seat: Item | None
    centre: Figure
    wanted: Figure
    outline: Outline
    book: Book

    def height(self, above_floor: str, words: str) -> Figure:
        """A height that the frame's sheet gives above the finished floor."""
        at = size(self.frame, above_floor, f"{words}, finished floor")
        return (self.outline.finished_floor + at).named(f"{words}, {self.name}")


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of appliance.

    `ends`: the pipes it is joined to. `own`: the figures only it has, from what is hung and the figures that all have. `extras`: what
    else is chosen with it, by the name of the input and the kind of item. `ware_sizes`, `frame_sizes`: what the sheets must give.
    """

    key: str
    title: str
    ware: str
    frame: str
    top: str
    studs: str
    ends: tuple[str, ...]
    own: Callable[[Hung, dict[str, Figure]], dict[str, Figure]]
    ware_sizes: tuple[str, ...]
    frame_sizes: tuple[str, ...] = ()
    extras: tuple[tuple[str, str], ...] = field(default=())

    @property
    def all_ware_sizes(self) -> tuple[str, ...]:
        """Every size that the ware's sheet must give."""
        return WARE_SIZES + self.ware_sizes

    @property
    def all_frame_sizes(self) -> tuple[str, ...]:
        """Every size that the frame's sheet must give."""
        return FRAME_SIZES + self.frame_sizes


WARE_SIZES: Final = ("width", "projection", "stud_spacing", "top_to_studs", "ceramic")
FRAME_SIZES: Final = (
    "width", "leg", "depth", "feet", "top_at", "mark_at", "sole_to_mark", "brackets", "bracket_at", "bracket_spacing", "bracket_depth",
)  # fmt: skip


def figures_of(kind: Kind, hung: Hung) -> dict[str, Figure]:
    """Every height, depth and reach of one appliance, by short name."""
    outline, name = hung.outline, hung.name
    top = outline.finished_floor + hung.wanted
    shared = {
        "centre": hung.centre,
        "top": top.named(f"{kind.top}, {name}"),
        "studs": below(top, hung.ware, "top_to_studs", (kind.top, "studs")).named(f"{kind.studs}, {name}"),
        "frame_top": hung.height("top_at", "Top of frame"),
        "bracket": hung.height("bracket_at", "Wall brackets"),
        "feet": _feet(hung),
        "stud_projection": (
            outline.covering.thickness + size(hung.ware, "ceramic", "Ceramic at the fixing") + hung.book.figure("layout.washer_and_nut")
        ).named(f"Studs out of frame front, {name}"),
        "reach": _reach(hung),
    }
    return shared | kind.own(hung, shared)


def below(top: Figure, item: Item, name: str, words: tuple[str, str]) -> Figure:
    """A height so far below another as the maker's sheet says, or above it where the sheet's size is below zero."""
    here, there = words
    down = item.sizes[name][0]
    if down < 0:
        return top + from_sheet(item, -down, f"{here} up to {there}")
    return top - size(item, name, f"{here} down to {there}")


def _feet(hung: Hung) -> Figure:
    """How far the feet are drawn out, so that the frame's mark stands at its height above the finished floor."""
    mark = size(hung.frame, "mark_at", "Frame's mark, finished floor")
    sole = size(hung.frame, "sole_to_mark", "Sole to mark, feet in")
    return (hung.outline.finished_floor + mark - sole).named(f"Frame feet out, {hung.name}")


def _reach(hung: Hung) -> Figure:
    """From the bracket's seat on the frame to what the tie rod is fixed to: the wall, or a strut on it."""
    outline = hung.outline
    reach = outline.depth - size(hung.frame, "bracket_depth", "Frame front to bracket seat")
    if outline.on_wall_studs:
        reach = reach - size(outline.strut, "depth", "Strut on the wall")
    return reach.named(f"Reach of tie rods, {hung.name}")
