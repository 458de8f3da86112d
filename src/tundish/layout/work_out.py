"""A room worked out from its survey and design, at each of its pre-walls: the whole chain on one page.

Pure, and quick enough for every keystroke.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import chain

from tundish.catalogue.book import Book
from tundish.figure import Figure
from tundish.layout import (
    backing,
    corner_backing,
    depths,
    feeds,
    heights,
    noggins,
    pipes,
    prewall_steel,
    prewall_timber,
    supports,
    typed_over,
)
from tundish.layout.across_the_room import across_the_room
from tundish.layout.around import around_of
from tundish.layout.beside import beside_joins
from tundish.layout.capping import capping_of
from tundish.layout.closing import closing_battens
from tundish.layout.design import RoomPlan
from tundish.layout.faces import faces
from tundish.layout.inputs import Inputs
from tundish.layout.marks import bare, marked
from tundish.layout.meeting import meeting
from tundish.layout.openings import stands_round
from tundish.layout.outfalls import outfalls_of
from tundish.layout.outline import Outline, behind_uprights, outline_of
from tundish.layout.placing import place
from tundish.layout.prewall_timber import ROLE as TIMBER
from tundish.layout.room import Backed, Face, Member, Outfall, PipeRun, Placed, Room
from tundish.layout.standing import Standing, standings
from tundish.layout.supports import FrameSpan, Limits, Stand
from tundish.layout.tiled_floor import floored


def work_out(plan: RoomPlan, book: Book, path: str = "rooms.0") -> Room:
    """One room worked out at its first pre-wall. Nothing typed makes it raise: trouble is in `problems`, each at its input's path."""
    return work_out_all(plan, book, path)[0]


def work_out_all(plan: RoomPlan, book: Book, path: str = "rooms.0") -> tuple[Room, ...]:
    """One room of a job, worked out at each of its pre-walls, the first one first; each tells its own problems and the room's."""
    inputs = Inputs(path, plan.design.typed)
    rooms = typed_over.told(tuple(_at(each, plan, book, inputs.parted()) for each in meeting(standings(plan, inputs), inputs)))
    return across_the_room(floored(beside_joins(rooms, book), book))


def _at(standing: Standing, plan: RoomPlan, book: Book, inputs: Inputs) -> Room:
    outline = outline_of(plan, standing, book, inputs)
    placed = place(outline, book, inputs)
    piped, framed = _piped(outline, placed, inputs, book), _framed(outline, placed, inputs, book)
    surfaces = tuple(replace(each, boards=marked(standing.mark, each.boards)) for each in faces(outline, framed.supports, book))
    return Room(
        plan=plan,
        path=inputs.path,
        name=f"{plan.name}, {standing.name}" if standing.name else plan.name,
        place=standing.place,
        prewall=standing.prewall,
        prewall_path=f"{inputs.path}.{standing.at}",
        behind=standing.wall,
        behind_path=f"{inputs.path}.{standing.wall_at}",
        mark=standing.mark,
        corners=standing.shape.corners,
        sides=standing.shape.sides,
        folds=standing.folds,
        line=standing.side,
        corner=standing.corner,
        in_corners=standing.in_corners,
        meets=standing.meets,
        joins=standing.joins,
        capping=capping_of(outline, surfaces[0].tiled_width, book),
        finished_floor=outline.finished_floor,
        width=outline.width,
        start=outline.run.start,
        run=outline.run.length,
        depth=outline.depth,
        thickness=outline.covering.thickness,
        top=outline.tops.prewall,
        top_of_steel=outline.tops.steel,
        placed=placed,
        members=framed.members,
        pipes=piped.runs,
        faces=surfaces,
        board=outline.board,
        tile=outline.tile,
        strut=outline.strut,
        figures=_of_outline(outline, book, inputs) | _named(piped, placed, framed, surfaces),
        around=around_of(plan.survey, standing, outline.height.value, inputs),
        problems=inputs.problems,
        supports=framed.supports,
        at_wall=outline.run.at_wall,
        wall_studs=framed.wall_studs,
        recesses=outline.recesses,
        backed=framed.backed,
        outfalls=piped.outfalls,
        instead=piped.instead,
    )


@dataclass(frozen=True, slots=True)
class _Piped:
    """Every run of pipe, where discharges could go, the runs to where they do not, and where services are."""

    runs: tuple[PipeRun, ...]
    outfalls: tuple[Outfall, ...]
    instead: tuple[PipeRun, ...]
    services: tuple[tuple[str, Figure], ...]


def _piped(outline: Outline, placed: tuple[Placed, ...], inputs: Inputs, book: Book) -> _Piped:
    outfalls, rises = outfalls_of(outline, inputs), feeds.rises_of(outline, inputs)
    laid, instead = pipes.discharges(pipes.Drained(outline, placed, book), outfalls, inputs)
    runs = marked(outline.standing.mark, (*laid, *feeds.feeds(feeds.fed_by(outline, placed, book), rises, laid)))
    return _Piped(runs, outfalls, instead, tuple(_of_services(outfalls[0], rises).items()))


@dataclass(frozen=True, slots=True)
class _Framed:
    """What a pre-wall stands on and is made of."""

    stands: tuple[Stand, ...]
    supports: tuple[Figure, ...]
    wall_studs: tuple[float, ...]
    members: tuple[Member, ...]
    backed: tuple[Backed, ...]


def _framed(outline: Outline, placed: Sequence[Placed], inputs: Inputs, book: Book) -> _Framed:
    framed = tuple(each for each in placed if each.framed)
    frames = supports.frames_of(framed)
    stands = stands_round(_stands(outline, frames, book), outline.recesses, framed, frames, _limits(outline, book))
    lands_on = supports.supports_of(stands, frames)
    studs = backing.wall_studs(outline, inputs)
    frame = prewall_timber.members if outline.timber else prewall_steel.members
    rails = tuple(backing.rail_noggins(outline, placed, lands_on, book))
    backed = noggins.backed_of(outline.standing, outline.finished_floor, inputs)
    members = (
        *frame(outline, stands, lands_on, framed, book),
        *rails,
        *noggins.noggins(outline, backed, lands_on, framed, len(rails), book),
        *backing.wall_struts(outline, framed, studs, book),
        *corner_backing.corner_struts(outline, framed, inputs, book),
        *backing.floor_noggins(outline, framed, inputs, book),
        *closing_battens(outline, book),
    )
    return _Framed(stands, lands_on, studs.places if studs is not None else (), marked(outline.standing.mark, members), backed)


def _stands(outline: Outline, frames: Sequence[FrameSpan], book: Book) -> tuple[Stand, ...]:
    gaps, limits = supports.gaps_of(outline.run, frames), _limits(outline, book)
    stand = supports.in_timber if outline.timber else supports.in_steel
    return tuple(stand(gap, limits) for gap in gaps)


def _limits(outline: Outline, book: Book) -> Limits:
    return supports.limits_of(book.role(TIMBER) if outline.timber else outline.strut, book)


def _of_outline(outline: Outline, book: Book, inputs: Inputs) -> dict[str, Figure]:
    lead = outline.standing.lead
    return {
        "width": outline.width,
        "room_depth": outline.room_depth,
        "height": outline.height,
        "finished_floor": outline.finished_floor,
        "joint": inputs.sure(outline.plan.design.finish, "joint", "design.finish"),
        "datum": inputs.settled("datum", heights.datum(outline.finished_floor, book)),
        "start": outline.run.start,
        "run": outline.run.length,
        "depth": outline.depth,
        "boards": outline.covering.boards,
        "behind_uprights": behind_uprights(outline, book),
        "thickness": outline.covering.thickness,
        "finished_face": inputs.settled(f"{lead}finished_face", depths.finished_face(outline.depth, outline.covering.thickness)),
        "top_of_prewall": outline.tops.prewall,
        "top_of_steel": outline.tops.steel,
    }


def _named(piped: _Piped, placed: tuple[Placed, ...], framed: _Framed, surfaces: tuple[Face, ...]) -> dict[str, Figure]:
    """The figures of services, appliances, pipes, members and faces by their names."""
    return dict(chain(piped.services, _of_placed(placed), _of_pipes(piped.runs), _of_members(framed), _of_faces(surfaces)))


def _of_services(stack: Outfall, rises: feeds.Rises) -> dict[str, Figure]:
    known = {"stack": stack.from_left, "stack_from_wall": stack.from_wall, "hot": rises.hot, "cold": rises.cold}
    return known if stack.invert is None else known | {"branch_invert": stack.invert}


def _of_placed(placed: Sequence[Placed]) -> Iterator[tuple[str, Figure]]:
    return ((f"{each.key}.{name}", figure) for each in placed for name, figure in each.figures.items())


def _of_pipes(runs: Sequence[PipeRun]) -> Iterator[tuple[str, Figure]]:
    """A discharge's run, fall and boss under its appliance's key, and every piece of pipe under its mark."""
    for each in runs:
        if each.kind in {"soil", "waste"}:
            yield f"{each.serves}.run", each.run
            if each.rise is not None:
                yield f"{each.serves}.fall", each.rise
            if each.fall is not None:
                yield f"{each.serves}.fall_rate", each.fall
        if each.kind == "waste" and each.enters is not None:
            yield f"{each.serves}.boss", each.enters
        if each.kind in {"soil", "waste"} and each.from_wall is not None:
            yield f"{each.serves}.from_wall", each.from_wall
        if each.level is not None:
            yield f"{each.key}.level", each.level
        yield from each.pieces


def _of_members(framed: _Framed) -> Iterator[tuple[str, Figure]]:
    """Every member's length under its mark, and how far the uprights stand from the left wall."""
    for member in framed.members:
        yield member.mark, member.length
    centres = {round(each.value, 6): each for stand in framed.stands for each in stand.uprights}
    for member in framed.members:
        if bare(member.mark)[0] == "U":
            centre = centres[round(member.x + member.section[0] / 2, 6)]
            yield f"{member.mark}.from_left", centre.named(f"{member.mark} from left wall")


def _of_faces(surfaces: Sequence[Face]) -> Iterator[tuple[str, Figure]]:
    for face in surfaces:
        yield f"{face.key}.width", face.width
        yield f"{face.key}.height", face.height
        yield f"{face.key}.tiled_width", face.tiled_width
        yield f"{face.key}.tiled_height", face.tiled_height
        yield f"{face.key}.tiled_area", face.tiled_area
        for piece in face.boards:
            yield f"{piece.mark}.width", piece.width
            yield f"{piece.mark}.height", piece.height
