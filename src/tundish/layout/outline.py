"""The outline of a pre-wall, before anything hangs on it: its run, heights, depths and covering, and the room round it."""

from __future__ import annotations

from dataclasses import dataclass

from tundish.catalogue.book import Book, NotInBookError
from tundish.catalogue.item import Item
from tundish.figure import Figure
from tundish.layout import depths, heights
from tundish.layout.depths import Covering
from tundish.layout.design import PreWall, RoomPlan
from tundish.layout.heights import Tops
from tundish.layout.inputs import Inputs
from tundish.layout.widths import Run, run_of
from tundish.survey.wall import SOLID_WALLS


@dataclass(frozen=True, slots=True)
class Outline:
    """The pre-wall and the room that it stands in. `strut` is the channel chosen, also where the pre-wall is of timber."""

    plan: RoomPlan
    width: Figure
    room_depth: Figure
    height: Figure
    finished_floor: Figure
    run: Run
    depth: Figure
    covering: Covering
    tops: Tops
    strut: Item
    board: Item
    tile: Item

    @property
    def timber(self) -> bool:
        """Whether it is built of studwork."""
        return self.plan.design.prewall.built_of == "timber"

    @property
    def shelf(self) -> bool:
        """Whether it ends in a shelf below the ceiling."""
        return self.plan.design.prewall.height != "full"

    @property
    def on_wall_studs(self) -> bool:
        """Whether wall A holds only at its studs, so that struts must spread what pulls at it."""
        return self.plan.survey.wall.construction not in SOLID_WALLS


def outline_of(plan: RoomPlan, book: Book, inputs: Inputs) -> Outline:
    """The outline of one room's pre-wall."""
    shell, prewall, finish = plan.survey.room, plan.design.prewall, plan.design.finish
    strut = _item(book, prewall.strut, "strut", "design.prewall.strut", inputs)
    board = _item(book, finish.board, "board", "design.finish.board", inputs)
    tile = _item(book, finish.tile, "tile", "design.finish.tile", inputs)
    width, height = inputs.sure(shell, "width", "survey.room"), inputs.sure(shell, "height", "survey.room")
    floor = heights.finished_floor(plan.survey.floor, inputs)
    covering = depths.covering(finish, board, tile, book, inputs)
    return Outline(
        plan=plan,
        width=width,
        room_depth=inputs.sure(shell, "depth", "survey.room"),
        height=height,
        finished_floor=floor,
        run=run_of(prewall, width, inputs),
        depth=inputs.sure(prewall, "depth", "design.prewall"),
        covering=covering,
        tops=_tops(prewall, (floor, height), covering, book, inputs),
        strut=strut,
        board=board,
        tile=tile,
    )


_SIZES = {"strut": ("face", "depth"), "board": ("thickness",), "tile": ("width", "height", "thickness")}


def _tops(prewall: PreWall, floor_and_height: tuple[Figure, Figure], covering: Covering, book: Book, inputs: Inputs) -> Tops:
    floor, height = floor_and_height
    if prewall.height == "full":
        return heights.full_height(prewall, floor, height, book)
    return heights.part_height(prewall, floor, height, covering, inputs)


def _item(book: Book, code: str, kind: str, where: str, inputs: Inputs) -> Item:
    """The item chosen, or else, told, the first by name that can stand in for it."""
    found = inputs.item(book, code, (kind,), where)
    if found is not None and inputs.complete(found, _SIZES[kind], where):
        return found
    for other in book.of_kind(kind):
        if all(other.has(name) for name in _SIZES[kind]):
            return other
    raise NotInBookError(f"any {kind}")
