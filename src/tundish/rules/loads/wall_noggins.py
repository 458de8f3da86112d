"""Whether the noggins behind a wall strut, and their ends, hold what the strut's screws pull at them with."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Final

from tundish.catalogue.book import Book
from tundish.figure import Figure, converted, number
from tundish.layout.design import PLY
from tundish.layout.room import Member, Room
from tundish.rules.amounts import bare
from tundish.rules.members import WALL_STRUT, marked
from tundish.rules.planning import FIRST
from tundish.rules.pulls import held_by, holder
from tundish.rules.rule import Finding, WayOut, judge, rule
from tundish.rules.screws import lateral
from tundish.rules.strut_screws import COUNTED, hardest, on_noggins

_ENDS: Final = "EN 1995-1-1, 8.2.2 and 8.3.1.2(4): a third in end grain"
_BENDS: Final = "EN 1995-1-1, 6.1.6; EN 338"
_AT_EACH_END: Final = 2


@rule(
    "loads/wall-noggins",
    figures=(
        "loads.wc", "loads.bidet", "loads.basin", "loads.urinal", *COUNTED, "prewall.wall_stud_width", "fixings.timber_density",
        "fixings.timber_bending", "fixings.kmod", "fixings.gamma_m", "fixings.screw_steel", "fixings.end_grain",
    ),
    source="EN 1995-1-1: 6.1.6 for bending, 8.2.2 for screws across, a third of it in end grain, from memory; EN 338",
)  # fmt: skip
def noggins_hold(room: Room, book: Book) -> Iterator[Finding]:
    """A noggin behind a wall strut, and the two screws at each of its ends, hold what the strut's screws pull at it with.

    The strut's screws pull in its middle; half goes to each end, where two screws go through the wall stud into its end grain. The
    longest noggin of each strut is asked. A check for planning.
    """
    for strut in marked(room, WALL_STRUT):
        held = held_by(room, strut)
        if held and on_noggins(room, strut):
            each, _ = hardest(room, book, strut, held)
            pull = (each * bare(book.figure("fixings.each_noggin"))).named("Pull on a noggin")
            place = holder(room, strut, held)
            yield _ends(room, book, pull, place)
            yield _bending(room, book, (pull, _longest(book, strut)), place)


def _longest(book: Book, strut: Member) -> Figure:
    apart = max(right - left for left, right in pairwise(strut.beside or strut.bears))
    return (number(apart, "mm", "Wall studs apart") - book.figure("prewall.wall_stud_width")).named("Longest noggin")


def _ends(room: Room, book: Book, pull: Figure, place: str) -> Finding:
    screw, stud = book.role("wood screw 80"), book.figure("prewall.wall_stud_width")
    has = (pull / number(2 * _AT_EACH_END, "", "screws, two at each end")).named("Across each screw at the ends of a noggin")
    into = screw.bare("length") - stud.value
    across = screw.bare("diameter")
    newtons = lateral(across, stud.value, into, book.figure("fixings.timber_density").value, book.figure("fixings.screw_steel").value)
    one = number(round(newtons / 1000, 6), "kN", f"One screw {across:g}, {into:g} into the noggin, characteristic")
    most = one * book.figure("fixings.end_grain") * book.figure("fixings.kmod") / book.figure("fixings.gamma_m")
    return _finding(room, "Ends of wall noggins", (has, most.named("A screw may be pushed aside with", _ENDS)), place)


def _bending(room: Room, book: Book, of: tuple[Figure, Figure], place: str) -> Finding:
    (pull, long), timber = of, book.role("timber stud")
    has = (pull * converted(long, "m") * number(0.25, "", "a quarter, pulled in its middle")).named("Moment in a noggin")
    wide, deep = timber.size("face"), timber.size("depth")
    section = (wide * deep * deep * number(round(1 / 6, 9), "", "b h² ÷ 6")).named("Section of a noggin on edge")
    strength = book.figure("fixings.timber_bending") * book.figure("fixings.kmod") / book.figure("fixings.gamma_m")
    most = (section * strength * number(1e-6, "kN·m/N·mm", "kN·m in a Nmm")).named("A noggin bears", _BENDS)
    return _finding(room, "Bending of wall noggins", (has, most), place)


def _finding(room: Room, title: str, of: tuple[Figure, Figure], place: str) -> Finding:
    has, most = of
    state = judge(has, None, most)
    words, ways = FIRST, ()
    if state != "passes":
        words = f"Take ply over the wall studs, or joist hangers at the ends of stronger noggins. {FIRST}"
        way = WayOut(
            "Ply over the wall studs behind the strut, let in instead of the boards: four screws a stud.",
            f"{room.prewall_path}.backing",
            PLY,
        )
        return Finding(title, "Loads and tiles", state, has, "Guidance", most.note, None, most, words, place, (way,))
    return Finding(title, "Loads and tiles", state, has, "Guidance", most.note, None, most, words, place, ways)
