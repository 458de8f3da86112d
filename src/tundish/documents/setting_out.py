"""The setting-out sheet: what is taken to the wall. Every height from both floors, every width from the left wall."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from typing import Final, TypeVar

from tundish import measure
from tundish.documents import frame_sheet
from tundish.documents.block import (
    Block,
    Column,
    Document,
    FillIn,
    Heading,
    Paragraph,
    Points,
    Row,
    RulerCheck,
    SideBySide,
    Sketch,
    Table,
)
from tundish.documents.paper import along_wall, paper, wall_title
from tundish.documents.plan_drawing import strip
from tundish.documents.rod import RodMark, marks_of
from tundish.documents.running import on_the_wall
from tundish.documents.section_drawing import section
from tundish.estimate import Estimate
from tundish.figure import Figure
from tundish.layout.corner import Join
from tundish.layout.room import Placed, Room
from tundish.layout.standing import Meets
from tundish.measure import show_number, show_range
from tundish.ranges import may_be, to_confirm
from tundish.rules.members import BATTEN, marked
from tundish.rules.rule import Finding

_Cell = TypeVar("_Cell")
_FALL: Final = "drainage/branch-fall"
_SECTION: Final = 16
"""The section's scale where it fits."""
KEY: Final = "setting-out"
"""The key of the first wall's sheet."""
_COLUMNS = (
    Column("Mark", "text", 2.0),
    Column("Left wall", "length", 1.3, "strong"),
    Column("Bare floor", "length", 0.9, "strong"),
    Column("It may be", "length", 1.2, "strong"),
    Column("Finished", "length", 0.9, "quiet"),
    Column("Datum", "length", 0.8, "quiet"),
    Column("Where from", "text", 2.4, "quiet"),
    Column("Done", "tick", 0.5),
)


_MAY_BE: Final = 3
"""The column of what a height may still be; left out where all are settled."""
_LET_IN: Final = "Openings in the frame, and noggins"


def build(estimate: Estimate, room: Room) -> Document:
    """The sheet of one wall: what is marked on it first, then how its frames are set and what is picked for them."""
    several = len(estimate.rooms) > 1
    cautions = tuple(dict.fromkeys(_cautions(estimate, room)))
    blocks = (
        *_marking(room),
        Heading(f"{room.name}: frames and the void"),
        SideBySide((Sketch(section(room), "Section at the stack", scale=_SECTION),), _checks(estimate, room)),
        Sketch(strip(room), "The void from above, on the same centres"),
        *frame_sheet.settings(room),
        *frame_sheet.parts(estimate, room),
        *((Points("Take care", cautions),) if cautions else ()),
    )
    title = f"Setting-out sheet, {room.name}" if several else "Setting-out sheet"
    made = paper(estimate, key_of(room), title, blocks, foot="Figures marked TBC are not for drilling")
    return replace(made, drawn=True)


def _cautions(estimate: Estimate, room: Room) -> Iterator[str]:
    """What is said of this wall and of what stands at it; what is said of the whole room is on the sheet of its first wall."""
    first = next(each for each in estimate.rooms if each.path == room.path)
    for each in estimate.cautions:
        of_the_room = each.place == room.room_name and room.place == first.place
        if of_the_room or each.place == room.name or each.place.startswith(f"{room.name}, "):
            yield f"{each.title}: {each.words}"
    of_all = dict.fromkeys(each.title for each in estimate.cautions if each.place == room.room_name)
    if room.place != first.place and of_all:
        yield f"For the whole room, on the sheet of {first.name}: {'; '.join(of_all)}."


def build_all(estimate: Estimate) -> tuple[Document, ...]:
    """One sheet for each wall of each room."""
    return tuple(build(estimate, room) for room in estimate.rooms)


def key_of(room: Room) -> str:
    """The key of a wall's sheet: it stays as it is when other walls and rooms come to the job."""
    number = int(room.path.rpartition(".")[2]) + 1
    return KEY if number == 1 and room.first else f"{KEY}-{number}-{room.place + 1}"


def _marking(room: Room) -> tuple[Block, ...]:
    floor = to_confirm(room.finished_floor)
    stand = f"Stand on: bare floor. Heights in bold are above the bare floor. The finished floor is {floor} higher. All in mm."
    rows = [row for placed in room.placed for row in _placed(placed, room)]
    rows += _let_in(room)
    rows += [Row(("Stack, wall and steel",), group="Stack, wall and steel"), *_own_rows(room)]
    may_be = any(not row.group and row.cells[_MAY_BE] for row in rows)
    columns, rows = (
        (_COLUMNS, rows) if may_be else (_less(_COLUMNS), [row if row.group else replace(row, cells=_less(row.cells)) for row in rows])
    )
    return (
        Heading(wall_title(room)),
        Paragraph(stand, "strong"),
        *(Paragraph(_joined(room, join, left=left)) for join, left in zip(room.joins, (True, False), strict=True) if join is not None),
        *(
            Paragraph(_met(room, met, left=left))
            for met, left in zip(room.meets, (True, False), strict=True)
            if met is not None and (met.hides is not None or met.against is not None)
        ),
        Sketch(on_the_wall(room), f"Running from {_LEFT_END[room.corner is not None]}; heights from the bare floor"),
        RulerCheck(),
        Table(columns, tuple(rows)),
    )


_LEFT_END: Final = ("the left end of the wall, plaster face", "the left end of the frame front, at the plaster")


def _met(room: Room, met: Meets, *, left: bool) -> str:
    """Where a lower run and a front across its corner meet, and how what is cut there is cut."""
    side, against = "left" if left else "right", met.against
    if met.hides is not None or against is None:
        along = f", {to_confirm(against.along)} along it" if against is not None else ""
        up = f" and up to {to_confirm(met.hides)} above the finished floor" if met.hides is not None else ""
        return f"Before the {side} end of the front stands {met.name}{along}{up}: the boards are cut out round its steel."
    top = "capping" if room.capping is not None else "shelf and its edge"
    battens = " and ".join(each.mark for each in marked(room, BATTEN) if (each.turn < 0) == left)
    meet = f"the frame fronts meet {to_confirm(against.along)} from the {side} wall, at {round(against.angle, 1):g}°"
    return (
        f"The front stops against {met.name}: {meet}; boards, tiles, {top} are cut to {against.cut}, and {battens} close it on that front."
    )


def _joined(room: Room, join: Join, *, left: bool) -> str:
    """Where the frame fronts meet, and how boards, tiles, shelf and trim are cut there."""
    end = ("left" if left else "right") + (" end of the front" if room.corner is not None else " wall")
    top = "capping" if room.capping is not None else "shelf"
    cut = "boards and tiles" if room.prewall.height == "full" else f"boards, tiles, {top} and its edge"
    meet = f"the frame fronts meet {to_confirm(join.along)} from the {end}, at {round(join.angle, 1):g}°"
    return f"The front goes on into {join.name}: {meet}; {cut} are cut to {join.cut}."


def _checks(estimate: Estimate, room: Room) -> tuple[Block, ...]:
    floor = to_confirm(room.finished_floor)
    falls = tuple(FillIn("Prove the fall before boarding", (words,), ("Read, mm", "By")) for words in _falls(estimate, room))
    words = (_tapes(room), f"Bare to finished floor should be {floor}.")
    check = FillIn("Check this sheet on the wall first", words, ("Width", "Floor"))
    return (*falls, check)


def _tapes(room: Room) -> str:
    """The length to tape before anything is drilled: the wall's; across a corner, both walls from the corner to the front and the front."""
    if room.corner is None:
        return f"Wall {room.wall} should tape {to_confirm(room.width)}."
    place = next(place for place, side in enumerate(room.sides) if side.letter == room.wall)
    walls = f"walls {room.sides[place - 1].letter} and {room.wall}"
    return f"From their corner, {walls} should tape {to_confirm(room.corner.setback)} to the front, and the front {to_confirm(room.width)}."


def _placed(placed: Placed, room: Room) -> list[Row]:
    heading = placed.name if placed.choice.in_hand else f"{placed.name}: sizes not confirmed, do not drill"
    rows = [Row((f"{heading} · {placed.ware.name}",), tbc=not placed.choice.in_hand, group=heading)]
    rows += [_height(mark, left_of(placed, mark), room, across=placed.centre) for mark in marks_of(placed)]
    return rows


def _let_in(room: Room) -> list[Row]:
    """Where the frame is opened for niches and access openings, and where a noggin goes."""
    rows = []
    for recess in room.recesses:
        across = _from_to(recess.open_left, recess.open_right)
        edges = (("head", recess.open_head), ("foot", recess.open_foot))
        rows += [_height(RodMark(f"{recess.name}, {words}", edge, ""), across, room) for words, edge in edges]
    for backed in room.backed:
        rows.append(_height(RodMark(f"{backed.name}, middle of noggin", backed.level, ""), _from_to(backed.left, backed.right), room))
    return [Row((_LET_IN,), group=_LET_IN), *rows] if rows else []


def _from_to(left: Figure, right: Figure) -> str:
    return f"{measure.show_length(left.value)} to {measure.show_length(right.value)}"


def _own_rows(room: Room) -> list[Row]:
    keys = (
        ("branch_invert", "Branch invert at stack", "stack"),
        ("top_of_steel", "Top of steel" if room.of_steel else "Top of studwork", ""),
        ("top_of_prewall", "Top of pre-wall", ""),
    )
    rows = []
    for key, words, at in keys:
        if key in room.figures:
            left = room.figures["stack"].value if at else None
            rows.append(_height(RodMark(words, room.figures[key], key), "–" if left is None else along_wall(left, room.width.value), room))
    stack = along_wall(room.figures["stack"].value, room.width.value)
    bosses = [RodMark(f"Boss, {pipe.what}", pipe.enters, pipe.key) for pipe in room.pipes_of("waste") if pipe.enters is not None]
    rows += [_height(mark, stack, room) for mark in bosses]
    return rows + list(_runs(room))


def _runs(room: Room) -> Iterator[Row]:
    """The supplies that do not run along the wall at the usual height, but at one that was chosen, or over what lies there."""
    for pipe in room.pipes_of("hot", "cold"):
        if pipe.level is not None and (pipe.onto is not None or f"{pipe.serves}.{pipe.kind}_run" in room.figures):
            left, right = sorted((pipe.points[0][0], pipe.points[-1][0]))
            across = f"{along_wall(left, room.width.value)} to {along_wall(right, room.width.value)}"
            yield _height(RodMark(pipe.level.label, pipe.level, f"{pipe.key}.level"), across, room)


def _height(mark: RodMark, left: str, room: Room, across: Figure | None = None) -> Row:
    bare = mark.height.value
    finished = bare - room.finished_floor.value
    # Of whole millimetres, as they are read from the tape beside it.
    off_datum = _whole(bare) - _whole(room.figures["datum"].value)
    datum = "on it" if off_datum == 0 else measure.show_length(off_datum, sign=True)
    return Row(
        (mark.label, left, bare, may_be(mark.height), finished, datum, _because(mark.height), ""),
        mark.height.tbc or (across is not None and across.tbc),
    )


def _whole(height: float) -> int:
    return math.floor(height + 0.5)


def _less(cells: tuple[_Cell, ...]) -> tuple[_Cell, ...]:
    return (*cells[:_MAY_BE], *cells[_MAY_BE + 1 :])


def left_of(placed: Placed, mark: RodMark) -> str:
    """Where a height of an appliance is marked along the wall, from its left end; and how far that may still move."""
    centre = placed.centre
    if not may_be(centre) or mark.key.endswith(".rail"):
        return _left_of(placed, mark)
    less, more = (measure.show_length(end - centre.value, sign=True) for end in (centre.low, centre.high))
    return f"{_left_of(placed, mark)} ({less} to {more})"


def _left_of(placed: Placed, mark: RodMark) -> str:
    x = placed.centre.value
    apart = _APART.get(mark.key.rpartition(".")[2], "")
    if placed.ware.has(apart):
        half = placed.ware.bare(apart) / 2
        return f"{measure.show_length(x - half)}, {measure.show_length(x + half)}"
    if mark.key.endswith(".shelf_plate"):
        return f"{measure.show_length(x)}, {measure.show_length(placed.figures['shelf_plate_out'].value)} out"
    if mark.key.endswith(".drop_rail"):
        return measure.show_length(placed.figures["drop_rail_from_left"].value)
    if mark.key.endswith(".rail"):
        return "side wall"
    if mark.key.endswith(".frame_top"):
        return f"{measure.show_length(placed.left)} to {measure.show_length(placed.right)}"
    return measure.show_length(x)


_APART: Final = {"studs": "stud_spacing", "supply": "supply_spacing"}
"""What is marked twice, beside the centre, and the size of the ware that says how far apart."""


def _because(figure: Figure) -> str:
    """The working of a height in one short line: 420 − 95 + 28."""
    if not figure.terms:
        return str(figure.known)
    parts = [f"{'' if place == 0 else f' {term.sign} '}{measure.show_length(term.figure.value)}" for place, term in enumerate(figure.terms)]
    return "".join(parts)


def _falls(estimate: Estimate, room: Room) -> list[str]:
    """What is to be read of each soil branch, what it may be while something is open, and whether that passes whatever is decided."""
    words = []
    for pipe in room.pipes_of("soil"):
        if pipe.rise is not None:
            place = f"{room.name}, {next(placed.name for placed in room.placed if placed.key == pipe.serves)}"
            check = next((each for each in estimate.findings if (each.rule, each.place) == (_FALL, place)), None)
            words.append(_expected(pipe.what, pipe.rise, pipe.run, check))
    return words


def _expected(what: str, rise: Figure, run: Figure, check: Finding | None) -> str:
    open_ = ""
    if rise.tbc or run.tbc:
        ends = f"{show_range(rise.low, rise.high)} in {show_range(run.low, run.high)}" if may_be(rise) or may_be(run) else ""
        open_ = f" (TBC: {ends})" if ends else " (TBC)"
    needs = f" Needs {show_number(check.least.high, 1)} at least." if check and check.least else ""
    verdict = f" It {check.verdict_words}." if check and check.verdict_words else ""
    return f"{what}: expect {measure.show_fall(rise.value, run.value)}{open_}.{needs}{verdict}"
