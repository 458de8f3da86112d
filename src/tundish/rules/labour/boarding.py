"""Hours for boards and tiles."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import converted, total
from tundish.rules.faces import boarded_area, tiled_area
from tundish.rules.rule import LABOUR, Asked, Need, rule


@rule(
    "labour/boarding",
    figures=("labour.board_m2", "labour.tank_m2", "labour.tile_m2", "labour.capping_m"),
    source="invented for the demonstration: put in your own",
    reads="needs",
)
def boarding(asked: Asked, book: Book) -> Iterator[Need]:
    """Hours for boarding and tiling, from the trader's own norms.

    Each square metre boarded, all layers; tanked; tiled and grouted; each metre of capping.
    """
    room = asked.room
    boards = [one.amount for one in asked.needs if one.item == room.board.code]
    if boards:
        hours = [(total(boards, "Board, all layers") * book.figure("labour.board_m2")).named("Boarding")]
        if room.plan.design.finish.tanking:
            hours.append((boarded_area(room) * book.figure("labour.tank_m2")).named("Tanking"))
        yield Need(total(hours, "Boards and tanking"), "boarding", "boards and tanking", role=LABOUR)
        tiling = (tiled_area(room) * book.figure("labour.tile_m2")).named("Tiling")
        if tiling.high > 0:
            yield Need(tiling, "boarding", "tiles", role=LABOUR, work="tiling")
        if room.capping is not None:
            laid = (converted(room.capping.length, "m") * book.figure("labour.capping_m")).named("Capping")
            yield Need(laid, "boarding", "capping", role=LABOUR)
