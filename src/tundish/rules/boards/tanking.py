"""Waterproofing under the tiles."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import number, total
from tundish.layout.appliances.kinds import KINDS
from tundish.layout.room import Room
from tundish.rules.amounts import each
from tundish.rules.faces import boarded_area, front_of, mitre_of, niches, shelf_edge, shelf_of
from tundish.rules.rule import Need, rule


@rule("boards/tanking", figures=("boards.tanking_kg_m2",), source="BS 5385-4 asks for it in wet rooms; coverage from memory, see the tub")
def tanking(room: Room, book: Book) -> Iterator[Need]:
    """The boards are coated before tiling, with collars round every pipe and stud hole and tape in every corner.

    Collars by the size of the pipe: outlet and flush of a WC, two supplies and waste of a basin or bidet, supply and waste of a
    urinal. The studs of the frames have their own sleeves. A niche is taped round its back, round its front and up its corners, with a
    corner piece at each. A join of two fronts is taped once, with the run along the wall.
    """
    if not room.plan.design.finish.tanking:
        return
    front, shelf = front_of(room), shelf_of(room)
    coat = (boarded_area(room) * book.figure("boards.tanking_kg_m2")).named("Coating")
    yield Need(coat, "boarding", "all boards", role="tanking")
    ends = [front.height for join in room.joins if join is None or room.corner is None]
    edges = [front.width, *ends, *([shelf_edge(room, shelf)] if shelf else [])]
    if shelf and room.corner is None:
        edges += [mitre_of(shelf.height, join) for join in room.joins if join is not None]
    for recess in niches(room):
        inside = (recess.width + recess.height + recess.open_width + recess.open_height) * number(2, "", "Round")
        edges += [inside.named(f"Round {recess.name}, its back and its front")]
        if recess.depth is not None:
            edges.append((recess.depth * number(4, "", "Corners")).named(f"Corners of {recess.name}"))
    yield Need(total(edges, "Corners and joints"), "boarding", "corners and edges", role="tanking tape")
    if niches(room):
        corners = total([each(4, one.name) for one in niches(room)], "Inside corners of niches")
        yield Need(corners, "boarding", "inside corners of niches", role="tanking corner")
    for role in ("pipe collar", "pipe collar 50", "pipe collar 110"):
        holes = [each(count, one.name) for one in room.placed if (count := KINDS[one.kind].collars.count(role))]
        if holes:
            yield Need(total(holes, "Pipes through the boards"), "boarding", "pipes through the boards", role=role)
