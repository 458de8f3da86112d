"""How far what is on the list joins each course of a room, and which ends are left open."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Final

from tundish.catalogue.book import Book, NotInBookError
from tundish.catalogue.item import End, Item
from tundish.catalogue.joints import Chain, Fittings, chain, fittings, joins
from tundish.layout.room import Room
from tundish.rules.courses import At, Course, Thing, courses
from tundish.rules.rule import LABOUR, Need


@dataclass(frozen=True, slots=True)
class Gap:
    """Two ends that are not joined, or something that is not on the list: what of it is there, and what would do it.

    `lacks`: so much of each item, in its unit; none where nothing in the catalogue does it. `lost`: what is not on the list, in words.
    """

    one: At
    other: At | None
    lacks: tuple[tuple[Item, float], ...]
    lost: str = ""


@dataclass(frozen=True, slots=True)
class Joined:
    """A course as it was walked: how many joints are made, and the gaps."""

    course: Course
    joints: int
    gaps: tuple[Gap, ...]


@dataclass(slots=True)
class Pools:
    """What is on the list and not yet used, by the reason it was asked for; "" is for any. Pipe is there or not: it is cut as needed."""

    by: defaultdict[str, Counter[str]] = field(default_factory=lambda: defaultdict(Counter))
    listed: Counter[str] = field(default_factory=Counter)
    claimed: dict[str, set[str]] = field(default_factory=dict)
    """Of which items who has one: ware, frames, taps, and branches with bosses."""

    def bag(self, draws: Iterable[str]) -> Counter[str]:
        """All that a course may use."""
        made: Counter[str] = Counter()
        for key in (*draws, ""):
            made.update(self.by.get(key, {}))
        return made

    def take(self, code: str, draws: Iterable[str]) -> None:
        """Use one, first of what was asked for for this."""
        for key in (*draws, ""):
            pool = self.by.get(key)
            if pool and pool[code] > 0:
                pool[code] -= 1
                return

    def claim(self, codes: Iterable[str], place: str, book: Book) -> bool:
        """Whether there is one of these for an appliance besides those that others have."""
        for code in codes:
            whose = self.claimed.setdefault(code, set())
            item = book.items.get(code)
            for_each = item.sizes["bosses"][0] if item and item.has("bosses") else 1
            if place in whose or len(whose) < self.listed[code] * for_each:
                whose.add(place)
                return True
        return False


def joined_up(room: Room, needs: Iterable[Need], book: Book) -> tuple[tuple[Joined, ...], Pools]:
    """Every course of the room walked with what is on the list, and what of the list is left."""
    every = tuple(courses(room, book))
    pools = _pools(needs, {draw for each in every for draw in each.draws}, book)
    return tuple(_walk(each, pools, book) for each in every), pools


def item_of(need: Need, book: Book) -> Item | None:
    """The item that a need is for, None where the catalogue does not hold it."""
    try:
        return book.item(need.item) if need.item else book.role(need.role)
    except NotInBookError:
        return None


def _pools(needs: Iterable[Need], draws: set[str], book: Book) -> Pools:
    pools = Pools()
    for need in needs:
        item = None if need.role == LABOUR else item_of(need, book)
        if item is not None and item.ends:
            count = int(need.amount.value + _GRACE) if item.unit == "each" else (_PLENTY if need.amount.value > 0 else 0)
            pools.by[need.why if need.why in draws else ""][item.code] += count
            pools.listed[item.code] += count
    return pools


def _walk(course: Course, pools: Pools, book: Book) -> Joined:
    bag = pools.bag(course.draws)
    placed = {book.roles.get(thing.role) for thing in course.things if thing.does != "carries"}
    joiners = [book.items[code] for code in bag if code not in placed and _only_joins(book.items[code])]
    return _Walk(course, pools, book, bag, fittings(joiners)).all()


@dataclass(slots=True)
class _Walk:
    """One course being joined up, from end to end. `bag`: what it may use, `joiners`: those parts of it that only join."""

    course: Course
    pools: Pools
    book: Book
    bag: Counter[str]
    joiners: Fittings
    joints: int = 0
    gaps: list[Gap] = field(default_factory=list)

    def all(self) -> Joined:
        here = self._there(self.course.start)
        for thing in self.course.things:
            here = self._let_in(here, thing) if thing.does == "lets in" else self._past(here, thing)
        self._link(here, self._there(self.course.goal))
        return Joined(self.course, self.joints, tuple(self.gaps))

    def _there(self, at: At) -> At:
        """The end itself; where what it is on is not on the list, that is a gap."""
        if at.codes and not self.pools.claim(at.codes, self.course.place, self.book):
            item = next((self.book.items[code] for code in at.codes if code in self.book.items), None)
            self.gaps.append(Gap(at, None, ((item, 1.0),) if item else (), at.name))
        return at

    def _past(self, here: At, thing: Thing) -> At:
        """From the end that is open now to that on the other side of the next thing, whichever way round takes fewer parts."""
        best: tuple[int, Item, tuple[End, End], Chain] | None = None
        for item in self._doing(here, thing):
            for ends in () if best is not None and best[0] == 0 else _ways(item, thing):
                between = self._between(here.end, ends[0])
                if between is not None and (best is None or len(between.parts) < best[0]):
                    best = len(between.parts), item, ends, between
            if best is None:
                best = _MANY, item, _ways(item, thing)[0], _NONE
        if best is None:
            return here
        _, item, ends, between = best
        self._take(item)
        self._link(here, At(item.name, ends[0]), between if between is not _NONE else None)
        return At(item.name, ends[1])

    def _doing(self, here: At, thing: Thing) -> tuple[Item, ...]:
        """What on the list does what is wanted, what usually does it first; what usually does where there is none, and that is a gap."""
        usual = self.book.items.get(self.book.roles.get(thing.role, ""))
        if usual is not None and len(usual.ends) < (_BRANCHED if thing.does in {"lets in", "branches", "vents"} else _MOST):
            usual = None
        does, sized = _DOES[thing.does], usual.ends[0].nominal if usual is not None and thing.does in _SIZED else None
        there = (self.book.items[code] for code, count in self.bag.items() if count > 0)
        found = [
            item
            for item in there
            # What usually does it, whatever its sheet says.
            if (item is usual and len(item.ends) == _MOST) or (does(item) and (sized is None or item.ends[0].nominal == sized))
        ]
        if found:
            return tuple(sorted(found, key=lambda item: item is not usual))
        lacks = ((usual, thing.length if usual.unit != "each" else 1.0),) if usual else ()
        self.gaps.append(Gap(here, None, lacks, f"{usual.name if usual else thing.role}, {thing.where},"))
        if usual is None:
            return ()
        self.bag[usual.code] = _PLENTY if usual.unit != "each" else 1
        if _only_joins(usual):
            self.joiners = fittings((*(step.item for steps in self.joiners.values() for step in steps), usual))
        return (usual,)

    def _let_in(self, here: At, thing: Thing) -> At:
        """A branch joined at its side and, by what slides along the stack, above it; what slides is left open below."""
        found = self._doing(here, thing)
        if not found:
            return here
        self._take(found[0])
        top, foot, side = (At(found[0].name, end) for end in found[0].ends[:3])
        self._link(here, side)
        slides = Thing("slides", thing.with_, "on the stack")
        self._link(self._past(self.course.goal, slides), top)
        return self._past(foot, slides)

    def _link(self, one: At, other: At, between: Chain | None = None) -> None:
        found = between or self._between(one.end, other.end)
        if found is not None:
            self.joints += len(found.parts) + 1
        else:
            found = self._bought(one.end, other.end)
            self.gaps.append(Gap(one, other, self._lacks(found) if found else ()))
        for part in found.parts if found else ():
            self._take(part)

    def _between(self, one: End, other: End) -> Chain | None:
        """The fewest parts on the list that join two ends, turning nothing."""
        return Chain((), Decimal(0)) if joins(one, other) else chain((one, other), self.joiners, _not_bought, self.bag)

    def _bought(self, one: End, other: End) -> Chain | None:
        """The cheapest that the catalogue can do, with what is on the list: of what the trader usually takes where that will do."""
        usual = frozenset(self.book.roles.values())
        parts = [item for item in self.book.items.values() if _only_joins(item)]
        for some in ([item for item in parts if item.code in usual or self.bag[item.code] > 0], parts):
            found = chain((one, other), fittings(some), self._price, +self.bag)
            if found is not None:
                return found
        return None

    def _lacks(self, found: Chain) -> tuple[tuple[Item, float], ...]:
        """What of a chain is not on the list, as much of each as it takes."""
        left, made = self.bag.copy(), Counter[str]()
        for part in found.parts:
            left[part.code] -= 1
            if left[part.code] < 0:
                made[part.code] += 1
        lacking = ((self.book.items[code], count) for code, count in made.items())
        return tuple((item, count if item.unit == "each" else count * self.book.figure(STUB).value) for item, count in lacking)

    def _take(self, item: Item) -> None:
        if self.bag[item.code] > 0:
            self.bag[item.code] -= 1
            self.pools.take(item.code, self.course.draws)

    def _price(self, item: Item) -> Decimal | None:
        return min((offer.price for offer in self.book.offers.get(item.code, ())), default=None)


def _ways(item: Item, thing: Thing) -> tuple[tuple[End, End], ...]:
    """Either way round of what has two ends, or a run through what has more; once where both are alike.

    Straight through what a vent stands on, whose side is left for that.
    """
    one, other = item.ends[0], item.ends[1 if thing.does == "vents" else -1]
    return ((one, other),) if one == other else ((one, other), (other, one))


def _only_joins(item: Item) -> bool:
    """Whether it may stand between two things: what turns, slides or shuts is put where that is wanted, and ware is no fitting."""
    return len(item.ends) == _MOST and not item.has("angle") and not item.has("slides") and item.kind not in _NO_JOINT


def _not_bought(_: Item) -> Decimal | None:
    return None


def _turns(item: Item) -> bool:
    return item.has("angle") and abs(item.sizes["angle"][0] - _RIGHT) < _NEARLY and item.ends[0].system == item.ends[-1].system


def _holds(item: Item) -> bool:
    return item.has("angle") and "thread" in {end.system for end in item.ends} and len(item.ends) == _MOST


_RIGHT: Final = 90.0
_NEARLY: Final = 5.0
_GRACE: Final = 1e-6
_PLENTY: Final = 99
"""Pipe is cut into as many pieces as it takes."""
_MANY: Final = 1_000
_NONE: Final = Chain((), Decimal(-1))
"""No chain was found."""
STUB: Final = "water.stub"
_PIPES: Final = frozenset({"soil pipe", "waste pipe", "water pipe"})
_NO_JOINT: Final = frozenset(
    {"valve", "connector", "wc pan", "cistern", "flushing valve", "tap", "wc frame", "urinal frame", "urinal", "wall spout"}
)
_MOST: Final = 2
_BRANCHED: Final = 3
_SIZED: Final = frozenset({"carries", "turns", "vents"})
"""What does these must be of the size of what usually does: pipe, bends, the tees of vents."""
_DOES: Final[Mapping[str, Callable[[Item], bool]]] = {
    "turns": _turns,
    "carries": lambda item: item.kind in _PIPES,
    "shuts": lambda item: item.kind == "valve" and len(item.ends) == _MOST,
    "branches": lambda item: item.kind == "water fitting" and len(item.ends) > _MOST,
    "holds": _holds,
    "reaches": lambda item: item.kind == "connector",
    "lets in": lambda item: item.kind == "soil fitting" and len(item.ends) > _MOST,
    "slides": lambda item: item.has("slides"),
    "vents": lambda item: item.kind in {"soil fitting", "waste fitting"} and len(item.ends) > _MOST,
}
"""By what a thing does, which items do it."""
