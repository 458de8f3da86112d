"""Whether the ply behind a wall strut bears the pull of the frames between the studs of the wall."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tundish.catalogue.book import Book
from tundish.figure import number
from tundish.layout.design import NOGGINS
from tundish.layout.room import Member, Placed, Room
from tundish.rules.grounds import on_timber_studs
from tundish.rules.members import WALL_STRUT, marked
from tundish.rules.planning import FIRST
from tundish.rules.pulls import held_by, holder, pull_on
from tundish.rules.rule import Finding, WayOut, judge, rule
from tundish.rules.spans import bent, sag_limit
from tundish.rules.strut_screws import on_ply

_BENDS: Final = "EN 1995-1-1, 6.1.6; EN 636, class F20 E40"


@rule(
    "loads/wall-ply",
    figures=(
        "loads.wc", "loads.bidet", "loads.basin", "loads.urinal", "loads.strut_sag", "prewall.ply_height", "fixings.kmod",
        "fixings.ply_bending", "fixings.ply_modulus", "fixings.ply_gamma_m",
    ),
    source="statics of a continuous strip; EN 1995-1-1, 6.1.6 and tables 2.3 and 3.1; strength of ply from memory, its maker's first",
)  # fmt: skip
def ply_holds(room: Room, book: Book) -> Iterator[Finding]:
    """Ply behind a wall strut carries the pull of its frames from wall stud to wall stud without bending too far.

    As a strip as high as the ply over the wall studs that it is screwed to, pulled at each tie rod, where the strut is bolted to it. The
    strut before it helps, and is left out. A check for planning.
    """
    for strut in marked(room, WALL_STRUT) if on_ply(room) else ():
        held = held_by(room, strut)
        if held and len(strut.bears) >= 2:  # noqa: PLR2004 - a strip on one support is no strip
            yield from _findings(room, book, strut, held)


def _findings(room: Room, book: Book, strut: Member, held: list[Placed]) -> Iterator[Finding]:
    high, thick = book.figure("prewall.ply_height"), book.role("backing ply").size("thickness")
    stiffness = book.figure("fixings.ply_modulus").value * high.value * thick.value**3 / 12
    moment, sag = bent(strut, {one.key: pull_on(room, book, one, strut) for one in held}, stiffness)
    moment, sag = moment.named("Moment in the ply"), sag.named("Sag of the ply")
    section = (high * thick * thick * number(round(1 / 6, 9), "", "b h² ÷ 6")).named("Section of the ply")
    strength = book.figure("fixings.ply_bending") * book.figure("fixings.kmod") / book.figure("fixings.ply_gamma_m")
    most = (section * strength * number(1e-6, "kN·m/N·mm", "kN·m in a Nmm")).named("The ply bears", _BENDS)
    place, limit = holder(room, strut, held), sag_limit(book, strut.bears)
    ways = tuple(_ways(room, strut))
    for title, has, of, wrong in (("Bending of the ply", moment, most, "fails"), ("Sag of the ply", sag, limit, "look")):
        state = judge(has, None, of, "look" if wrong == "look" else "fails")
        words = FIRST if state == "passes" else f"Lay the ply double, or set uprights of timber between the wall studs behind it. {FIRST}"
        yield Finding(title, "Loads and tiles", state, has, "Guidance", of.note, None, of, words, place, () if state == "passes" else ways)


def _ways(room: Room, strut: Member) -> Iterator[WayOut]:
    if on_timber_studs(room, strut.x):
        words = "Noggins between the wall studs behind the strut instead of ply: the wall is opened there and made good."
        yield WayOut(words, f"{room.prewall_path}.backing", NOGGINS)
