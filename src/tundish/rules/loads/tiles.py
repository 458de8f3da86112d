"""Whether the board can carry the tiles."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import Figure
from tundish.layout.room import Room
from tundish.measure import show_kg
from tundish.rules.joints import joint_share
from tundish.rules.planning import FIRST
from tundish.rules.rule import Finding, judge, rule


@rule(
    "loads/tiles",
    figures=("loads.bed", "tiling.grout_density"),
    source="board maker's sheet, after BS 5385-1:2018; the limit holds for tile, bed and grout together",
)
def tiles_on_board(room: Room, book: Book) -> Iterator[Finding]:
    """The board carries the weight of tile, bed and grout.

    A check for planning: the board maker's instructions come first.
    """
    most = room.board.size("tiling_limit")
    has = (room.tile.size("weight") + book.figure("loads.bed") + _grout(room, book)).named("Tile, bed and grout")
    state = judge(has, None, most)
    message = ""
    if state != "passes":
        over = show_kg(has.value - most.value)
        message = f"{over} kg/m² too heavy for {room.board.name}: choose a lighter tile or a board that carries more. {FIRST}"
    yield Finding("Tile and bed on the board", "Loads and tiles", state, has, "Maker", room.board.sheet, None, most, message)


def _grout(room: Room, book: Book) -> Figure:
    return (joint_share(room) * room.tile.size("thickness") * book.figure("tiling.grout_density")).named("Grout in the joints")
