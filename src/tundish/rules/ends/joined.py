"""Whether every end in the room is joined by what is on the list."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tundish import measure
from tundish.catalogue.book import Book
from tundish.catalogue.item import End, Item
from tundish.figure import number, total
from tundish.layout.room import Room
from tundish.rules.courses import At
from tundish.rules.decisions import key_of
from tundish.rules.drained_by import FLOWS
from tundish.rules.joining import Gap, Joined, joined_up
from tundish.rules.rule import Asked, Decision, Finding, WayOut, rule

_SOURCE: Final = "own rule: every end meets its mate, by the sizes of the sheets"


@rule("ends/joined", figures=("drainage.strap_clear", "water.stub", *FLOWS), source=_SOURCE, reads="list")
def ends_joined(asked: Asked, book: Book) -> Iterator[Finding | Decision]:
    """Every end is joined: what is on the list joins all ware to its waste, its supply and the pipes that are there.

    From each pan, basin and tap to the stack and the pipes that are there, end by end: a spigot in a socket of its own system and size,
    a thread in its like. Bends, tees and valves must be there where the runs have them; couplings and adaptors wherever two ends do not
    go into one another. UK 32, 40 and 50 push-fit, solvent weld and compression, continental sizes, parallel and taper threads are told
    apart. What is capped until second fix, and the head of a shower, which is the client's, count as joined. What the trader adds or
    strikes out by hand counts as well. Before the wall is closed every joint is looked at and pulled.
    """
    joined, _ = joined_up(asked.room, asked.needs, book)
    yield from told(asked.room, joined)


def told(room: Room, joined: tuple[Joined, ...]) -> Iterator[Finding | Decision]:
    """The walked courses as checks: for each appliance that every end is joined, or each open end with the parts that would do it.

    Then the joints as something to look at while the wall is open; what is on the list for them is what that is settled for.
    """
    places = dict.fromkeys(each.course.place for each in joined)
    for place in places:
        here = [each for each in joined if each.course.place == place]
        gaps = [(each, gap) for each in here for gap in each.gaps]
        if not gaps:
            made = total([number(each.joints, "", each.course.what.capitalize()) for each in here], "Joints that the list makes", "")
            has, least = made, number(made.value, "", "Joints to make")
            yield Finding("Every end joined", "Joints", "passes", has, "Own rule", _SOURCE, least, place=place)
        for count, (each, gap) in enumerate(gaps, 1):
            yield _open(each, gap, count if len(gaps) > 1 else 0)
    if joined:
        yield _looked_at(room, joined)


def _looked_at(room: Room, joined: tuple[Joined, ...]) -> Decision:
    counts: dict[str, int] = {}
    for each in joined:
        counts[each.course.place or "the stack"] = counts.get(each.course.place or "the stack", 0) + each.joints
    words = ", ".join(f"{count} at {place}" for place, count in counts.items())
    gaps = sum(len(each.gaps) for each in joined)
    ends = "1 end is" if gaps == 1 else f"{gaps} ends are"
    why = f"{ends} still open: see Checks." if gaps else f"Joints to look at and pull: {words}."
    rests_on = f"{words}; {ends} open" if gaps else words
    return Decision(key_of(room, "joints"), "Every joint seen and pulled", why, "By boarding", "Looked at, photo", rests_on)


def _open(joined: Joined, gap: Gap, count: int) -> Finding:
    course = joined.course
    wants = sum(1 if item.unit == "each" or amount else 0 for item, amount in gap.lacks) or 1
    has, least = number(0, "", "Of it on the list"), number(wants, "", "Parts that would do it")
    title = f"Open end, {course.what}" + (f" ({count})" if count else "")
    return Finding(
        title, "Joints", "fails", has, "Own rule", _SOURCE, least, None, _words(gap, course.what), course.place, _ways(gap, course.what)
    )


def _words(gap: Gap, what: str) -> str:
    needs = ", ".join(_amount(item, amount) for item, amount in gap.lacks)
    if gap.lost and "" in gap.one.codes:
        return f"{_capital(gap.lost)} is not chosen, so the {what} ends at the wall. Choose one."
    if gap.lost:
        there = f"{_capital(gap.lost)} is not on the list"
        if gap.other is None and gap.one.name != gap.lost:
            there += f": {_named(gap.one)} leads nowhere"
        return f"{there}. It takes {needs}." if needs else f"{there}, and nothing in the catalogue does it: choose one."
    ends = f"{_capital(_named(gap.one))} and {_named(gap.other)} do not go into one another" if gap.other else _named(gap.one)
    if needs:
        return f"{ends}. It takes {needs}."
    mates = f"{_end(_mate(gap.one.end))} and {_end(_mate(gap.other.end))}" if gap.other else _end(_mate(gap.one.end))
    return f"{ends}, and nothing in the catalogue joins them in the {what}: it wants a part with {mates}."


def _ways(gap: Gap, what: str) -> tuple[WayOut, ...]:
    """Put what is lacking on the list; nothing where the catalogue has nothing that does it."""
    if not gap.lacks:
        return ()
    names = " and ".join(_amount(item, amount) for item, amount in gap.lacks)
    adds = tuple((item.code, amount) for item, amount in gap.lacks)
    return (WayOut(f"Put {names} on the list: bought, carried and priced with it.", "by_hand", f"open end, {what}", adds),)


def _amount(item: Item, amount: float) -> str:
    if item.unit != "each":
        return f"{measure.show_length(amount)} of {item.name}"
    return item.name if amount == 1 else f"{amount:g} {item.name}"


def _named(at: At) -> str:
    return f"{at.name}, {_end(at.end)},"


def _end(end: End) -> str:
    form = _FORMS.get(end.system, _PLAIN)[end.gender]
    across = f", {end.diameter:g} across" if end.system in _LIKE and end.diameter else ""
    return f"{end.nominal} {form}" if end.system == "thread" else f"{end.nominal} {end.system} {form}{across}"


def _mate(end: End) -> End:
    return End(end.system, end.nominal, end.diameter, "female" if end.gender == "male" else "male")


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


_PLAIN: Final = {"male": "spigot", "female": "socket"}
_FORMS: Final = {each: {"male": "outside thread", "female": "inside thread"} for each in ("thread", "taper thread")}
_LIKE: Final = frozenset({"push-fit waste", "solvent waste", "compression waste", "continental drain"})
"""Systems whose sizes share names and not diameters."""
