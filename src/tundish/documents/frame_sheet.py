"""How each frame is set and what is picked for it: tie rods, feet, studs, brackets, packers, the pieces that are cut."""

from __future__ import annotations

import math
from collections.abc import Iterator

from tundish import measure
from tundish.documents.block import Block, Column, Paragraph, Row, Table
from tundish.documents.order_list import amount_words
from tundish.estimate import Estimate
from tundish.field import must_read
from tundish.figure import Figure
from tundish.layout import settings as frame_settings
from tundish.layout.design import BY_RULE, NO_PADS, ON_PADS
from tundish.layout.room import Placed, Room
from tundish.ranges import with_range
from tundish.rules.members import WALL_STRUT, marked
from tundish.rules.rule import Need

_SETTINGS = (
    Column("Set", "text", 1.5, "strong"),
    Column("To", "text", 1.6, "strong"),
    Column("How", "text", 4.2, "quiet"),
    Column("Done", "tick", 0.5),
)
_PARTS = (
    Column("Part", "text", 3.2),
    Column("For", "text", 2.4, "quiet"),
    Column("Pick", "text", 0.8, "strong"),
    Column("Got", "tick", 0.5),
)
_SQUARE = "square to the wall"


def settings(room: Room) -> tuple[Block, ...]:
    """One table: under each appliance, what is set on its frame and what is cut for it."""
    rows: list[Row] = []
    for placed in room.framed:
        rows.append(Row((placed.name,), group=f"{placed.name} · {placed.frame.name}"))
        rows += (
            _rod(room, placed),
            *_feet(room, placed),
            *_packers(placed),
            _pads(room, placed),
            *_studs(placed),
            _brackets(room, placed),
            *_cut(placed),
        )
        if placed.choice.settings_why:
            rows.append(Row(("Why so", "–", placed.choice.settings_why, "")))
    return (Table(_SETTINGS, tuple(rows), title="How each frame is set"),) if rows else ()


def parts(estimate: Estimate, room: Room) -> tuple[Block, ...]:
    """What is picked for each frame and what hangs on it, from the needs of the job."""
    rows: list[Row] = []
    for placed in room.placed:
        found = [
            Row((line.item.name, need.why, amount_words(math.ceil(need.amount.high), line.item.unit), ""), need.amount.tbc)
            for line in estimate.lines
            for need in line.needs
            if line.item.unit == "each" and _is_for(need, room, placed)
        ]
        if found:
            rows += [Row((placed.name,), group=placed.name), *found]
    if not rows:
        return ()
    words = "Counted for what each may still turn out to be. What is cut from lengths is on the cut list."
    return (Table(_PARTS, tuple(rows), title="To pick for each frame"), Paragraph(words, "note"))


def feet_out(room: Room, placed: Placed) -> tuple[Figure, Figure]:
    """How far the left and the right foot are drawn out: the one on the lower side of a falling floor is drawn out further."""
    lower = placed.figures["feet"]
    higher = placed.figures.get("feet_least", lower)
    return (higher, lower) if _falls_to_the_right(room, placed) else (lower, higher)


def _falls_to_the_right(room: Room, placed: Placed) -> bool:
    """Whether the floor is lower at the right of a frame, looking at its wall; the floor is surveyed along wall A."""
    floor = room.plan.survey.floor
    side = next(each for each in room.sides if each.letter == room.wall)
    left, right = (side.in_plan(x, 0.0)[0] for x in (placed.left, placed.right))
    from_left = (floor.highest == "left") == (must_read(floor, "out_of_level").value >= 0)
    return (right >= left) == from_left


def _rod(room: Room, placed: Placed) -> Row:
    if room.self_standing:
        return Row(("Tie rods", "none", "the pre-wall is self-standing: its feet hold it", ""), tbc=False)
    reach, rod = placed.figures["reach"], placed.tie_rod
    if rod is None:
        return Row(("Tie rods", "none fits", f"the reach is {with_range(reach)}: no rod of the catalogue serves", ""), reach.tbc)
    left, back = (rod.sizes["reach_most"][0] - reach.high, reach.low - rod.sizes["reach_least"][0])
    spare = f"{measure.show_length(left)} of thread left to draw out, {measure.show_length(back)} to push in"
    if left < 0 or back < 0:
        short = f"{measure.show_length(-left)} too short" if left < 0 else f"{measure.show_length(-back)} too long"
        spare = f"{short}: do not fit, settle the depth first"
    count = f"{placed.frame.sizes['brackets'][0]:g} × " if placed.frame.has("brackets") else ""
    return Row((f"{count}tie rod", f"reach {with_range(reach)}", f"{rod.name}; {spare}", ""), reach.tbc)


def _feet(room: Room, placed: Placed) -> Iterator[Row]:
    left, right = feet_out(room, placed)
    travel = placed.frame.sizes["foot_travel"][0] if placed.frame.has("foot_travel") else None
    for name, foot in (("Both feet", left),) if left is right else (("Left foot", left), ("Right foot", right)):
        how = "from the sole pushed right in"
        if travel is not None and not 0 <= foot.value <= travel:
            how = f"out of its travel of {measure.show_length(travel)}: pack under it or change the frame"
        elif travel is not None:
            how += f"; {measure.show_length(travel - foot.value)} of travel left"
        yield Row((name, f"out {with_range(foot)}", how, ""), foot.tbc)


def _packers(placed: Placed) -> Iterator[Row]:
    packers = placed.figures.get("packers")
    if packers is not None and packers.value:
        yield Row(
            ("Packers", f"{with_range(packers)} under each", "solid and as wide as the foot; fix through them into the floor", ""),
            packers.tbc,
        )


def _pads(room: Room, placed: Placed) -> Row:
    """Where the frame stands on sound pads, for its feet and rods are set with them."""
    where = "one under each foot" if room.self_standing else "one under each foot and at each bracket"
    to, how = {
        ON_PADS: ("with", f"{where}; feet and rods are set for them"),
        NO_PADS: ("without", "feet and rods are set for none"),
    }.get(placed.choice.pads, ("with or none", f"{where}, where the finished floor makes room for them"))
    return Row(("Sound pads", to, how, ""), tbc=placed.choice.pads == BY_RULE)


def _studs(placed: Placed) -> Iterator[Row]:
    """How far apart they stand and how far out, then where the slider that carries them is set, and within what."""
    studs, out, slider = placed.figures["studs"], placed.figures["stud_projection"], placed.figures["slider"]
    which = frame_settings.spacing_words(placed.frame, placed.ware)
    yield Row(("Studs", f"{with_range(placed.figures['studs_apart'])} apart", f"{which}; stand out {with_range(out)}", ""), out.tbc)
    ends = [
        placed.frame.sizes["mark_at"][0] - placed.frame.sizes[name][0] for name in ("studs_high", "studs_low") if placed.frame.has(name)
    ]
    slides = f", slides from {' to '.join(map(measure.show_length, ends))}" if ends else ""
    words = f"below the frame's mark{slides}; studs {with_range(studs)} above the bare floor"
    yield Row(("Stud slider", f"at {with_range(slider)}", words, ""), slider.tbc or studs.tbc)


def _brackets(room: Room, placed: Placed) -> Row:
    at, turned = placed.figures["bracket"], placed.choice.bracket
    apart = measure.show_length(placed.frame.sizes["bracket_spacing"][0])
    grip = "to the struts on the wall studs" if marked(room, WALL_STRUT) or (room.corner is not None and room.beside) else "to the wall"
    why = f", {placed.bracket_why}" if placed.bracket_why else ""
    how = f"{apart} apart, fixed {grip}" + ("" if turned == _SQUARE and not why else f"; {turned}{why}")
    return Row(("Wall brackets", f"at {with_range(at)}", f"{how}; height above the bare floor", ""), at.tbc)


def _cut(placed: Placed) -> Iterator[Row]:
    for name, what, how in (
        ("outlet_cut", "Outlet piece", "cut square and chamfered; from the frame's bend into the pan"),
        ("inlet_cut", "Flush piece", "cut square and chamfered; from the flush bend into the pan"),
    ):
        if name in placed.figures:
            figure = placed.figures[name]
            yield Row(
                (what, f"cut {with_range(figure)}", "do not cut yet: the covering is not settled" if figure.tbc else how, ""), figure.tbc
            )


def _is_for(need: Need, room: Room, placed: Placed) -> bool:
    """Whether a need is for this appliance: its place says so, or its reason ends with its name."""
    if not need.place.startswith(room.name):
        return False
    return need.place == f"{room.name}, {placed.name}" or (
        need.place == room.name and need.why.endswith((f" {placed.name}", f", {placed.name}"))
    )
