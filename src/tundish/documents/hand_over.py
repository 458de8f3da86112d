"""What a client keeps when the work is done: what was fitted, where it is turned off and reached, what was tested, how to care for it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tundish import measure
from tundish.documents.block import Block, Column, Document, FillIn, Heading, Points, Row, Table
from tundish.documents.closing_sheet import pairs
from tundish.documents.paper import along_wall, paper
from tundish.estimate import Estimate
from tundish.layout.room import Placed, Room
from tundish.rules.readings import shown_by

_PARTS: Final = ("seat", "plate", "tap", "rail", "drop_rail", "back_rest")
_FITTED: Final = (Column("Fitted", "text", 1.2, "strong"), Column("What it is", "text", 3.2), Column("Maker's sheet", "text", 2.4, "quiet"))
_REACHED: Final = (
    Column("What", "text", 2.4, "strong"),
    Column("From left wall", "text", 1.6),
    Column("Above your floor", "length", 1.3),
    Column("How it is reached", "text", 3.0, "quiet"),
)
_TESTED: Final = (
    Column("Test", "text", 2.2, "strong"),
    Column("Result", "text", 3.0),
    Column("By", "text", 1.2),
    Column("On", "text", 1.3),
)
_CARE: Final = (
    "Clean ceramic, tiles and grout with mild cleaners; no bleach tablets in the cistern, no scouring powder, no acid on grout or metal.",
    "Look at the silicone joints once a year; where they lift or go black, have them cut out and made anew.",
    "Do not stand on or lift yourself by wall-hung ware. If it moves or a bolt works loose, stop using it and call me.",
    "Flush and run every tap for some minutes after the room was not used for a week or longer.",
    "Before drilling into this wall ask for the closing sheet, and go over it with a detector: pipes and cables are behind it.",
    "Makers' own instructions come first where they differ. Electrical work and gas are for those licensed to do them.",
)


def build(estimate: Estimate) -> Document:
    """The pack: one paper, wall by wall, then tests, care, guarantees and photographs."""
    blocks: list[Block] = []
    for room in estimate.rooms:
        if room.placed or room.recesses:
            blocks += (Heading(room.name), *_fitted(estimate, room), *_reached(room))
    stops = tuple(f"{plan.name or 'Room'}: {words}" for plan in estimate.job.rooms if (words := plan.survey.water.stop_valve.strip()))
    blocks += (
        Points("To turn the water off", stops or ("Where the stop valve is was not written down: ask me to show you.",)),
        Table(_TESTED, tuple(_tested(estimate)), title="Tests"),
        Points("Care", _CARE),
        *_photographs(estimate),
        FillIn(
            "Handed over, with makers' papers, guarantees and spare keys or tools of plates and hatches", (), ("Client", "Fitter", "Date")
        ),
    )
    return paper(estimate, "hand-over", "Hand-over", tuple(blocks), foot="Keep this with the makers' papers, and hand it on with the home")


def _fitted(estimate: Estimate, room: Room) -> Iterator[Block]:
    rows: list[Row] = []
    for placed in room.placed:
        rows.append(Row((placed.name, placed.ware.name, placed.ware.sheet or "–")))
        codes = (getattr(placed.choice, part, "") for part in _PARTS)
        items = [placed.frame, *(estimate.book.items[code] for code in codes if code in estimate.book.items)]
        rows += [Row(("", item.name, item.sheet or "–")) for item in items]
    if rows:
        yield Table(_FITTED, tuple(rows))


def _reached(room: Room) -> Iterator[Block]:
    rows = [row for placed in room.placed for row in _valves(room, placed)]
    for each in room.recesses:
        if each.kind == "hatch":
            reaches = f"opens on {each.reaches}" if each.reaches else "opens on what is behind it"
            rows.append(Row((each.name, along_wall(each.left.value, room.width.value), _above(room, each.bottom.value), reaches)))
    if rows:
        yield Table(_REACHED, tuple(rows), title="Where things are")


def _valves(room: Room, placed: Placed) -> Iterator[Row]:
    """The flush plate, and where hot and cold come to an appliance."""
    figures = placed.figures
    for key, where, lies in (("plate", "", "behind"), ("shelf_plate", " on the shelf", "under")):
        if placed.choice.plate and key in figures:
            left, high = along_wall(placed.centre.value, room.width.value), _above(room, figures[key].value)
            yield Row((f"Flush plate{where}, {placed.name}", left, high, f"lift it off: cistern and its valve are {lies} it"))
    if "supply" in figures and "hot_from_left" in figures:
        hot, cold = (along_wall(figures[name].value, room.width.value) for name in ("hot_from_left", "cold_from_left"))
        how = "come out of the wall here, with a servicing valve on each"
        yield Row((f"Hot and cold, {placed.name}", f"{hot} and {cold}", _above(room, figures["supply"].value), how))


def _above(room: Room, height: float) -> float:
    return height - room.finished_floor.value


def _tested(estimate: Estimate) -> Iterator[Row]:
    """What was recorded of each test and decision before closing; what was not says so."""
    records = {each.decision: each for each in estimate.job.settled}
    for decision in estimate.decisions:
        record = records.get(decision.key)
        what = decision.titled(several=len(estimate.rooms) > 1)
        if record is None or record.state != "settled":
            yield Row((what, "not recorded", "–", "–"))
        else:
            yield Row(
                (what, shown_by(decision, record) or "settled", record.who or "–", measure.show_date(record.when) if record.when else "–")
            )


def _photographs(estimate: Estimate) -> tuple[Block, ...]:
    taken = tuple(each for plan in estimate.job.rooms for each in plan.survey.photographs if each.of == "when finished")
    return (Heading("Photographs"), *pairs(taken)) if taken else ()
