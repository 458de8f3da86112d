"""What every appliance has in common: where its frame and studs stand, and how far its rods, feet and studs reach."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from typing import Final

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.figure import Figure, between, largest, number, smallest, together, without
from tundish.layout import settings
from tundish.layout.corner import Across
from tundish.layout.design import BY_RULE, NO_PADS, ON_PADS, SELF_STANDING, Appliance
from tundish.layout.makers import from_sheet, half, size
from tundish.layout.outline import Outline
from tundish.survey.wall import SOLID_WALLS


@dataclass(frozen=True, slots=True)
class Hung:
    """One appliance on its frame, with the height wanted for its top above the finished floor, and the pre-wall it hangs on.

    `head`: the height wanted for a shower's head; `packing`: packers of the trader's own choice. `settled` gives what was typed over
    a figure, by its short name, or the figure itself. `bracket_why`: what turned its wall brackets, or kept them from it, where
    the rule did. `levels`: the heights chosen for its pipes, by the figure's short name.
    """

    name: str
    ware: Item
    frame: Item
    seat: Item | None
    centre: Figure
    wanted: Figure
    outline: Outline
    book: Book
    choice: Appliance
    head: Figure
    packing: Figure | None
    settled: Callable[[str, Figure], Figure]
    bracket_why: str = ""
    levels: Mapping[str, Figure] = field(default_factory=dict)

    def height(self, above_floor: str, words: str) -> Figure:
        """A height that the frame's sheet gives above the finished floor."""
        at = size(self.frame, above_floor, f"{words}, finished floor")
        return (self.outline.finished_floor + at).named(f"{words}, {self.name}")


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of appliance: all that the layout, the rules and the papers have to know of it.

    `ends`: the pipes it is joined to. `own`: the figures only it has, from what is hung and the figures that all have. `extras`: what
    else is chosen with it, by the name of the input and the kind of item. `ware_sizes`, `frame_sizes`: what the sheets must give.
    `like`: the kind whose rules hold for it and as which it is drawn. `on_bar`: it hangs on a support bar between two uprights and has
    no frame. `fixing_set`, `traps`: the roles of what it is hung and trapped with. `collars`: the role of a
    collar for each pipe that comes through the boards. `hangs`: how far below its top it is drawn; no maker's sheet says so, and only
    pictures depend on it. `rod`: its figures that are marked on the wall, with words. `to_seat`: its usual height is that of its seat.
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
    plain: str
    many: str
    agreed: str
    collars: tuple[str, ...]
    hangs: float
    rod: tuple[tuple[str, str], ...]
    frame_sizes: tuple[str, ...] = ()
    extras: tuple[tuple[str, str], ...] = ()
    like: str = ""
    on_bar: bool = False
    to_seat: bool = False
    fixing_set: str = ""
    traps: tuple[str, ...] = ()

    @property
    def as_kind(self) -> str:
        """The key of the kind whose rules hold for it."""
        return self.like or self.key

    @property
    def figure(self) -> str:
        """Its name among the figures of the rule book: `heights.shower_valve`."""
        return self.key.replace(" ", "_")

    @property
    def all_ware_sizes(self) -> tuple[str, ...]:
        """Every size that the ware's sheet must give."""
        return (BAR_WARE_SIZES if self.on_bar else WARE_SIZES) + self.ware_sizes

    @property
    def all_frame_sizes(self) -> tuple[str, ...]:
        """Every size that the frame's sheet must give."""
        return (BAR_SIZES if self.on_bar else FRAME_SIZES) + self.frame_sizes


WARE_SIZES: Final = ("width", "projection", "stud_spacing", "top_to_studs", "ceramic")
BAR_WARE_SIZES: Final = ("width", "projection")
BAR_SIZES: Final = ("width", "depth", "reach_least", "reach_most")
FRAME_SIZES: Final = (
    "width", "leg", "depth", "feet", "top_at", "mark_at", "sole_to_mark", "brackets", "bracket_at", "bracket_spacing", "bracket_depth",
)  # fmt: skip


def figures_of(kind: Kind, hung: Hung) -> dict[str, Figure]:
    """Every height, depth and reach of one appliance, by short name; what is typed over comes before all that rests on it."""
    above = hung.outline.finished_floor + hung.wanted
    worked = above.named(f"{kind.top}, {hung.name}")
    top = hung.settled("top", worked)
    shared = {"centre": hung.centre, "top": top}
    if not kind.on_bar:
        # Unnamed where it was not typed over, so that the receipt of the studs is one column.
        shared |= _on_frame(kind, hung, above if top is worked else top)
    return shared | {each: hung.settled(each, figure) for each, figure in kind.own(hung, shared).items()} | dict(hung.levels)


LEVELS: Final = {"hot": ("hot_at", "hot_run"), "cold": ("cold_at", "cold_run"), "waste": ("waste_at", "waste_entry")}
"""By the pipe, the input that chooses its height, and the figure that is made of that."""


def _on_frame(kind: Kind, hung: Hung, top: Figure) -> dict[str, Figure]:
    """What a frame gives: its studs, its head, its wall brackets, its feet."""
    name, settled = hung.name, hung.settled
    studs = below(top, hung.ware, "top_to_studs", (kind.top, "studs")).named(f"{kind.studs}, {name}")
    projection = (
        hung.outline.covering.thickness + size(hung.ware, "ceramic", "Ceramic at the fixing") + hung.book.figure("layout.washer_and_nut")
    )
    bracket = settled("bracket", hung.height("bracket_at", "Wall brackets"))
    studs = settled("studs", studs)
    slider = size(hung.frame, "mark_at", "Frame's mark, finished floor") - without(studs, hung.outline.finished_floor).named(
        "Studs above finished floor"
    )
    apart = size(hung.ware, "stud_spacing", f"Studs apart, {name}")
    return {
        "studs": studs,
        "studs_apart": replace(apart, note=f"{apart.note}; {settings.spacing_words(hung.frame, hung.ware)}"),
        "slider": settled("slider", slider.named(f"Stud slider below the frame's mark, {name}")),
        "frame_top": settled("frame_top", hung.height("top_at", "Top of frame")),
        "bracket": bracket,
        **_brackets(hung),
        **_feet(hung),
        "stud_projection": settled("stud_projection", projection.named(f"Studs out of frame front, {name}")),
        "reach": settled("reach", _reach(hung, bracket)),
        **_reach_left(hung),
    }


def set_on(hung: Hung) -> str:
    """Whether a frame is set on sound pads by rule: as its feet have room for one; `BY_RULE` where that turns on what is not decided."""
    pad, room = settings.pad(hung.book, "under the foot"), _under(hung)
    if pad is None or room.low >= pad.value:
        return ON_PADS
    return NO_PADS if room.high < pad.value else BY_RULE


def below(top: Figure, item: Item, name: str, words: tuple[str, str]) -> Figure:
    """A height so far below another as the maker's sheet says, or above it where the sheet's size is below zero."""
    here, there = words
    down = item.sizes[name][0]
    if down < 0:
        return top + from_sheet(item, -down, f"{here} up to {there}")
    return top - size(item, name, f"{here} down to {there}")


def _brackets(hung: Hung) -> dict[str, Figure]:
    """Where the two wall brackets hold, from the left wall."""
    aside = settings.bracket_aside(hung.frame, hung.choice.bracket)
    if hung.bracket_why:
        aside = replace(aside, note=f"{hung.choice.bracket} by rule: {hung.bracket_why}")
    elif hung.choice.bracket.startswith("turned"):
        aside = settings.own(aside, hung.choice)
    return {
        "bracket_left": hung.settled("bracket_left", (hung.centre - aside).named(f"Left wall bracket, {hung.name}")),
        "bracket_right": hung.settled("bracket_right", (hung.centre + aside).named(f"Right wall bracket, {hung.name}")),
    }


def _feet(hung: Hung) -> dict[str, Figure]:
    """How far the feet are drawn out, so that the frame's mark stands at its height above the finished floor.

    Less the sound pad that each stands on, and what is packed. Where the floor falls along the wall, `feet` is the foot on its lower
    place and `feet_least` the other.
    """
    drops = _drops(hung)
    lowest = _off_pad(hung, largest(*drops, label="Floor lower under a foot") if drops else None)
    packed = hung.packing or settings.packers(lowest, hung.frame, hung.book)
    made = {} if packed is None else {"packers": hung.settled("packers", packed.named(f"Packers under the feet, {hung.name}"))}
    less = made.get("packers")
    feet = lowest if less is None else lowest - less
    made["feet"] = hung.settled("feet", feet.named(f"Frame feet out, {hung.name}"))
    if drops:
        other = _off_pad(hung, smallest(*drops, label="Floor lower under the other foot"))
        other = other if less is None else other - less
        made["feet_least"] = hung.settled("feet_least", other.named(f"Frame foot out on the higher side, {hung.name}"))
    return made


def _off_pad(hung: Hung, drop: Figure | None) -> Figure:
    """How far a foot would be drawn out on its pad, the floor so much lower there."""
    lift, pad = _lift(hung), _pad(hung, "under the foot")
    out = lift if pad is None else lift - pad
    out = out if drop is None else out + drop
    # Where a pad has no room there is none: it never holds the frame too high.
    return largest(out, number(0.0, label="Drawn in")) if hung.choice.pads == BY_RULE else out


def _pad(hung: Hung, where: str) -> Figure | None:
    """The sound pad that lies `where`; from none to one where that turns on what is not decided."""
    pad = settings.pad(hung.book, where) if hung.choice.pads != NO_PADS else None
    if pad is None or hung.choice.pads == ON_PADS:
        return pad
    return between(pad.value if _under(hung).value >= pad.value else 0.0, 0.0, pad.value, label=f"{pad.label}, where it has room")


def _under(hung: Hung) -> Figure:
    """How much room there is under the foot that has less of it."""
    lift, drops = _lift(hung), _drops(hung)
    return lift + smallest(*drops) if drops else lift


def _lift(hung: Hung) -> Figure:
    """How far the feet would be drawn out of a frame that stands on them alone, on the highest place of the floor."""
    mark = size(hung.frame, "mark_at", "Frame's mark, finished floor")
    return hung.outline.finished_floor + mark - size(hung.frame, "sole_to_mark", "Sole to mark, feet in")


def _drops(hung: Hung) -> tuple[Figure, ...]:
    """How far the floor lies below its highest place under the left and the right leg; none where it is level."""
    if hung.outline.level.drop is None:
        return ()
    aside = half(hung.frame, "width", "Half the frame's width").value - hung.frame.sizes["leg"][0] / 2
    return tuple(hung.outline.drop_at(hung.centre.value + way * aside) for way in (-1, 1))


def _reach(hung: Hung, bracket: Figure) -> Figure:
    """From the nut on the frame's bracket to what the tie rod is fixed to: the wall as it leans, or a strut on it."""
    outline = hung.outline
    reach = outline.depth - settings.bracket_seat(hung.frame, hung.choice.bracket)
    corner = outline.standing.corner
    if corner is not None:
        reach = _into_corner(hung, corner, reach, on_strut=outline.on_wall_studs)
        return _through_pad(hung, reach).named(f"Reach of tie rods, {hung.name}")
    if outline.lean is not None and outline.tops.prewall.low > 0:
        leans = together(outline.lean * bracket / outline.tops.prewall)  # the floor lies under both heights
        reach = reach - leans.named("Wall leans in, at the brackets")
    if outline.on_wall_studs:
        reach = reach - size(outline.strut, "depth", "Strut on the wall")
    return _through_pad(hung, reach).named(f"Reach of tie rods, {hung.name}")


def _through_pad(hung: Hung, reach: Figure) -> Figure:
    """The pad lies between the bracket and the nut that draws it back, and the rod goes through it; self-standing there is no rod."""
    pad = _pad(hung, "at the bracket") if hung.outline.standing.prewall.built_of != SELF_STANDING else None
    return reach if pad is None else reach + pad


def _reach_left(hung: Hung) -> dict[str, Figure]:
    """The reach to the wall at the left of a corner, where only one of its two walls has a strut on it."""
    outline = hung.outline
    corner = outline.standing.corner
    if corner is None or (on_strut := corner.before[0].construction not in SOLID_WALLS) == outline.on_wall_studs:
        return {}
    seat = outline.depth - settings.bracket_seat(hung.frame, hung.choice.bracket)
    reach = _through_pad(hung, _into_corner(hung, corner, seat, on_strut=on_strut))
    return {"reach_left": hung.settled("reach_left", reach.named(f"Reach of the left tie rod, {hung.name}"))}


def _into_corner(hung: Hung, corner: Across, seat: Figure, *, on_strut: bool) -> Figure:
    """From a turned bracket, so far out of the corner, square to its wall or to the strut on it."""
    aside = settings.bracket_aside(hung.frame, hung.choice.bracket)
    reach = corner.reach(seat.named("Bracket seat out of the corner"), aside)
    return reach - size(hung.outline.strut, "depth", "Strut on the wall") if on_strut else reach
