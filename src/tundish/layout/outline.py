"""The outline of a pre-wall, before anything hangs on it: its run, heights, depths and covering, and the room round it."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tundish.catalogue.book import Book, NotInBookError
from tundish.catalogue.item import Item
from tundish.figure import Figure, number
from tundish.layout import depths, heights
from tundish.layout.corner import Against
from tundish.layout.depths import Covering
from tundish.layout.design import PreWall, RoomPlan
from tundish.layout.floor import Level, level_of
from tundish.layout.heights import OnTop, Tops
from tundish.layout.inputs import Inputs
from tundish.layout.makers import size
from tundish.layout.recesses import Recess, recesses_of
from tundish.layout.standing import Standing
from tundish.layout.walls import across, closes
from tundish.layout.widths import Run, run_of
from tundish.survey.wall import SOLID_WALLS

TIMBER = "timber stud"
"""The role of what a pre-wall of studwork is made of."""


@dataclass(frozen=True, slots=True)
class Outline:
    """One pre-wall and the room that it stands in. `strut` is the channel chosen, also where the pre-wall is of timber.

    `width` is the length of the wall it stands at, `room_depth` how far it is from there to the wall opposite. `lean`: how much the wall
    leans in over the height of the pre-wall, None where it was not measured. `capping` closes it where it ends below the ceiling without
    a shelf.
    """

    plan: RoomPlan
    standing: Standing
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
    level: Level
    recesses: tuple[Recess, ...] = ()
    lean: Figure | None = None
    capping: Item | None = None

    def drop_at(self, x: float) -> Figure:
        """How far the bare floor lies below its highest place, from which heights are reckoned, at a place along the wall."""
        return self.level.drop_at(x)

    def on_to(self, against: Against, by: Figure, *, left: bool) -> Figure:
        """How far past its steel something goes up to a higher front across the corner, that is so far past where the frame fronts meet."""
        steel = self.run.start if left else self.width - self.run.end
        return (steel - against.along - by).named(f"On to {against.name}")

    @property
    def timber(self) -> bool:
        """Whether it is built of studwork."""
        return self.standing.prewall.built_of == "timber"

    @property
    def shelf(self) -> bool:
        """Whether it ends in a shelf below the ceiling."""
        return self.standing.prewall.height != "full" and self.standing.prewall.shelf

    @property
    def on_wall_studs(self) -> bool:
        """Whether the wall holds only at its studs, so that struts must spread what pulls at it."""
        return self.standing.wall.construction not in SOLID_WALLS


def outline_of(plan: RoomPlan, standing: Standing, book: Book, inputs: Inputs) -> Outline:
    """The outline of one of a room's pre-walls."""
    prewall, finish = standing.prewall, plan.design.finish
    strut = _item(book, prewall.strut, "strut", f"{standing.at}.strut", inputs)
    board = _item(book, finish.board, "board", "design.finish.board", inputs)
    tile = _item(book, finish.tile, "tile", "design.finish.tile", inputs)
    capping = _capping(standing, book, inputs)
    width, height = standing.side.length, inputs.sure(plan.survey.room, "height", "survey.room")
    lead = standing.lead
    floor = inputs.settled("finished_floor", heights.finished_floor(plan.survey.floor, inputs))
    covering = depths.covering(finish, board, tile, book, inputs)
    covering = replace(covering, thickness=inputs.settled(f"{lead}thickness", covering.thickness))
    return Outline(
        plan=plan,
        standing=standing,
        width=width,
        room_depth=_room_depth(plan, standing, inputs),
        height=height,
        finished_floor=floor,
        run=run_of(standing, _framed_with(prewall, strut, book), inputs),
        depth=inputs.settled(f"{lead}depth", standing.corner.depth if standing.corner else inputs.sure(prewall, "depth", standing.at)),
        covering=covering,
        tops=_tops(standing, (floor, height), _on_top(standing, covering, capping, book), book, inputs),
        strut=strut,
        board=board,
        tile=tile,
        level=level_of(plan.survey.floor, standing, inputs),
        recesses=recesses_of(standing, floor, covering, book, inputs),
        lean=_lean(standing, inputs),
        capping=capping,
    )


def behind_uprights(outline: Outline, book: Book) -> Figure:
    """How far out the void reaches, to the back of the uprights."""
    upright = book.role(TIMBER) if outline.timber else outline.strut
    return (outline.depth - size(upright, "depth", "Depth of an upright")).named("Back of the uprights")


_SIZES = {"strut": ("face", "depth"), "capping": ("thickness", "width"), "board": ("thickness",), "tile": ("width", "height", "thickness")}


def _lean(standing: Standing, inputs: Inputs) -> Figure | None:
    """Across a corner there are two walls behind, and no line along which either leans."""
    if standing.wall.out_of_plumb is None or standing.corner is not None:
        return None
    return inputs.sure(standing.wall, "out_of_plumb", standing.wall_at).named("Wall leans in over the pre-wall's height")


def _room_depth(plan: RoomPlan, standing: Standing, inputs: Inputs) -> Figure:
    if standing.shape.square and standing.corner is None:
        return inputs.sure(plan.survey.room, "width" if standing.wall_place % 2 else "depth", "survey.room")
    if not closes(standing.shape.sides):
        return inputs.sure(plan.survey.room, "depth", "survey.room")
    beyond = standing.corner.depth.value if standing.corner else 0.0
    deep = across(standing.shape.sides, standing.side, standing.side.length.value / 2, beyond)
    return number(round(deep, 1), label="From the middle of the wall to the wall opposite")


def _framed_with(prewall: PreWall, strut: Item, book: Book) -> Figure:
    """How deep its rails lie: strut flat on its back, its face across; timber on its narrow side."""
    if prewall.built_of == "timber":
        return size(book.role(TIMBER), "depth", "Depth of timber")
    return size(strut, "face", "Depth of a rail, lying flat")


def _on_top(standing: Standing, covering: Covering, capping: Item | None, book: Book) -> OnTop:
    """A shelf's tiles, bed and boards; or a capping on its bed, to whose underside the front is tiled."""
    if standing.prewall.shelf:
        return OnTop((covering.tile, covering.bed, covering.boards))
    if capping is None:
        return OnTop(())
    slab = size(capping, "thickness", "Capping")
    return OnTop((slab, book.figure("prewall.capping_bed")), slab)


def _tops(standing: Standing, floor_and_height: tuple[Figure, Figure], on_top: OnTop, book: Book, inputs: Inputs) -> Tops:
    floor, height = floor_and_height
    if standing.prewall.height == "full":
        return heights.full_height(standing, floor, height, book, inputs)
    return heights.part_height(standing, floor, height, on_top, inputs)


def _capping(standing: Standing, book: Book, inputs: Inputs) -> Item | None:
    """What closes a pre-wall of part height without a shelf; None, told, where the catalogue has nothing for it."""
    prewall = standing.prewall
    if prewall.height == "full" or prewall.shelf:
        return None
    return _found(book, prewall.capping, "capping", f"{standing.at}.capping", inputs)


def _item(book: Book, code: str, kind: str, where: str, inputs: Inputs) -> Item:
    """The item chosen, or else, told, the first by name that can stand in for it."""
    found = _found(book, code, kind, where, inputs)
    if found is None:
        raise NotInBookError(f"any {kind}")
    return found


def _found(book: Book, code: str, kind: str, where: str, inputs: Inputs) -> Item | None:
    found = inputs.item(book, code, (kind,), where)
    if found is not None and inputs.complete(found, _SIZES[kind], where):
        return found
    return next((other for other in book.of_kind(kind) if all(other.has(name) for name in _SIZES[kind])), None)
