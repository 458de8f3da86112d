"""What covers the joints between boards."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import number, total
from tundish.rules.faces import front_of, mitre_of, shelf_edge, shelf_of
from tundish.rules.rule import Asked, Need, rule


@rule("boards/joint-tape", source="common practice", reads="needs")
def joint_tape(asked: Asked, book: Book) -> Iterator[Need]:
    """Every joint between boards is taped.

    Joints of the front, one layer, upright and level, and the front edge of the shelf. Where the front goes on into one across a corner,
    up the join and along the mitre of the shelf; counted with the run.
    """
    room = asked.room
    front, shelf = front_of(room), shelf_of(room)
    columns, rows = len({piece.x for piece in front.seen}), len({piece.z for piece in front.seen})
    lengths = [
        (along * number(count - 1, "", "joints")).named(f"{way} joints of the front")
        for along, count, way in ((front.height, columns, "Upright"), (front.width, rows, "Level"))
        if count > 1
    ]
    lengths += [shelf_edge(room, shelf).named("Front edge of the shelf")] if shelf else []
    for join in room.joins if room.corner is None else ():
        if join is not None:
            lengths.append(front.height.named(f"Up the join with {join.name}"))
            lengths += [mitre_of(shelf.height, join)] if shelf else []
    if lengths:
        yield Need(total(lengths, "Joints between boards"), "boarding", "joints between boards", role="joint tape")
