"""What boards are screwed on with."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.field import must_read
from tundish.figure import Figure, number, total
from tundish.rules.rule import Asked, Finding, Need, judge, rule


@rule(
    "boards/screws",
    figures=("boards.screws_per_m2", "boards.screw_into_steel", "boards.screw_into_timber"),
    source="300 apart: the usual specification clause; how far into steel and timber from memory",
    reads="needs",
)
def screws(asked: Asked, book: Book) -> Iterator[Need | Finding]:
    """Board is fixed with screws about 300 apart along every support, as long as the layers that they pass want.

    Counted by the area of the pieces, layer by layer. Steel takes drill points, timber coarse threads; the shortest that passes its layers
    and reaches far enough into what is behind is taken, and where none is long enough, the longest, to be looked at.
    """
    room = asked.room
    boards = [one.amount for one in asked.needs if one.item == room.board.code]
    layers = round(must_read(room.plan.design.finish, "layers", f"{room.path}.design.finish").value)
    if not boards:
        return
    behind = "steel" if room.of_steel else "timber"
    usual, into = book.role(f"board screw {behind}"), book.figure(f"boards.screw_into_{behind}")
    amount = (total(boards, "Board, all layers") * book.figure("boards.screws_per_m2") / layers).named("Board screws")
    for layer in range(1, layers + 1):
        passes = (room.board.size("thickness") * number(layer, "", "layers")).named("Board that it passes")
        least = (passes + into).named("Least length of board screw")
        screw = _long_enough(book, usual, least)
        why = "all boards" if layers == 1 else f"layer {layer}"
        yield (
            Need(amount, "boarding", why, role=f"board screw {behind}")
            if screw is usual
            else Need(amount, "boarding", why, item=screw.code)
        )
        has = screw.size("length")
        if judge(has, least, None) != "passes":
            message = f"Layer {layer} wants screws of {least.value:g}: the longest in the catalogue is {has.value:g}. Find a longer one."
            yield Finding("Length of board screws", "Loads and tiles", "look", has, "Own rule", into.note, least, None, message)


def _long_enough(book: Book, usual: Item, least: Figure) -> Item:
    """The usual screw where that will do, else the shortest of its sort that will, or the longest there is."""
    if judge(usual.size("length"), least, None) == "passes":
        return usual
    alike = [item for item in book.of_kind(usual.kind) if item.words.get("into") == usual.words.get("into")]
    ranked = sorted(alike, key=lambda item: item.bare("length"))
    return next((item for item in ranked if judge(item.size("length"), least, None) == "passes"), ranked[-1])
