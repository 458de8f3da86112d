"""Whether the wall strut bears the pull of the frames between the studs of the wall."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Member, Placed, Room
from tundish.rules.members import WALL_STRUT, marked
from tundish.rules.planning import FIRST
from tundish.rules.pulls import held_by, holder, pull_on
from tundish.rules.rule import Finding, judge, rule
from tundish.rules.spans import bent, sag_limit

_NMM2_PER_KNM2 = 1e9


@rule(
    "loads/strut",
    figures=("loads.strut_sag", "loads.wc", "loads.bidet", "loads.basin", "loads.urinal"),
    source="statics of a continuous bar; channel makers' tables of moments; span over 200 where sag matters, a channel maker's data",
)
def wall_strut_bends(room: Room, book: Book) -> Iterator[Finding]:
    """The wall strut carries the pull of its frames from wall stud to wall stud without bending too far.

    A bar over the wall studs that it is screwed to, pulled at each tie rod; across a corner each wall has its own.
    Said for struts whose sheet gives the moment they may carry.
    """
    if not (room.strut.has("bends") and room.strut.has("stiffness")):
        return
    for strut in marked(room, WALL_STRUT):
        held = held_by(room, strut)
        if held and len(strut.bears) >= 2:  # noqa: PLR2004 - a bar on one support is no bar
            yield from _findings(room, book, strut, held)


def _findings(room: Room, book: Book, strut: Member, held: list[Placed]) -> Iterator[Finding]:
    pulls = {one.key: pull_on(room, book, one, strut) for one in held}
    moment, sag = bent(strut, pulls, room.strut.bare("stiffness") * _NMM2_PER_KNM2)
    place, sheet, most = holder(room, strut, held), room.strut.sheet, room.strut.size("bends")
    moment = moment.named("Moment in the strut")
    state = judge(moment, None, most)
    words = FIRST if state == "passes" else f"Choose a deeper strut, or fix noggins between the wall studs behind the brackets. {FIRST}"
    yield Finding("Bending of the wall strut", "Loads and tiles", state, moment, "Maker", sheet, None, most, words, place)
    sag, limit = sag.named("Sag of the strut"), sag_limit(book, strut.bears)
    state = judge(sag, None, limit, "look")
    words = FIRST if state == "passes" else f"The head of the frame gives too much: choose a deeper strut. {FIRST}"
    yield Finding("Sag of the wall strut", "Loads and tiles", state, sag, "Guidance", limit.note, None, limit, words, place)
