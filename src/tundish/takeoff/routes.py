"""Where each discharge could go: every way worked out in full and compared, the best first with what speaks for and against it. Pure."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from typing import Final

from tundish import measure
from tundish.catalogue.book import Book
from tundish.field import put
from tundish.layout.design import RoomPlan
from tundish.layout.room import PipeRun, Placed, Room
from tundish.layout.work_out import work_out_all
from tundish.rules.rule import Need
from tundish.takeoff.run import RoomTake, run_room


@dataclass(frozen=True, slots=True)
class Route:
    """One way for one discharge: `to` is the entry's name, blank for the stack; `chosen` says that it goes there now.

    `spare` is what is left of the fall, mm or mm a metre as its check has it, None while that cannot be told. `price` is of pipe and
    fittings at the least offered; `unpriced` counts what nobody offers. `fails` and `looks` are the room's checks that do not pass.
    """

    room: str
    appliance: str
    to: str
    chosen: bool
    run: PipeRun
    spare: float | None
    fittings: int
    price: Decimal
    unpriced: int
    fails: tuple[str, ...]
    looks: tuple[str, ...]

    @property
    def name(self) -> str:
        """Where it goes."""
        return f"{self.to or 'the stack'}{' (chosen)' if self.chosen else ''}"

    @property
    def words(self) -> str:
        """The way in one line: where, its reasons, and what it costs."""
        return f"{self.name}: {self.reasons}; {measure.show_money(self.price)}"

    @property
    def reasons(self) -> str:
        """How long it is, how many bends and fittings it has, what of it is not priced, and what does not pass."""
        fall = "fall cannot be told" if self.spare is None else f"{measure.show_number(self.spare, 1)} of fall to spare"
        said = [
            f"{measure.show_length(self.run.run.value)} long",
            fall,
            _count(len(self.run.bends), "bend"),
            _count(self.fittings, "fitting"),
        ]
        said += [f"{self.unpriced} not priced"] if self.unpriced else []
        said += [f"fails: {'; '.join(self.fails)}"] if self.fails else []
        said += [f"to look at: {'; '.join(self.looks)}"] if self.looks else []
        return ", ".join(said)


def routes(plan: RoomPlan, book: Book, path: str = "rooms.0") -> tuple[Route, ...]:
    """Every way for every discharge of a room that has more than one, appliance by appliance, the best first.

    Best is what fails fewest checks, then leaves fewest to look at, then costs least, then has the fewest bends, then is shortest.
    """
    made: list[Route] = []
    for place, room in enumerate(work_out_all(plan, book, path)):
        for one in room.placed:
            names = [each.to for each in room.instead if each.serves == one.key]
            if names:
                ways = (found for to in (_now(room, one), *names) for found in _tried(plan, book, room, one, (to, place)))
                made += sorted(ways, key=_rank)
    return tuple(made)


def _rank(route: Route) -> tuple[int, int, int, Decimal, int, float]:
    return len(route.fails), route.spare is None, len(route.looks), route.price, len(route.run.bends), route.run.run.value


def _now(room: Room, one: Placed) -> str:
    return next(run.to for run in room.pipes_of("soil", "waste") if run.serves == one.key)


def _tried(plan: RoomPlan, book: Book, room: Room, one: Placed, way: tuple[str, int]) -> Iterator[Route]:
    """The room worked out afresh with one appliance drained to one place."""
    to, place = way
    changed = put(plan, f"{one.path.removeprefix(f'{room.path}.')}.drains_to", to)
    tried = work_out_all(changed, book, room.path)[place]
    run = next((each for each in tried.pipes_of("soil", "waste") if each.serves == one.key), None)
    if run is not None:
        take = run_room(tried, book)
        needs = [need for need in take.needs if need.rule in _LAID_BY and need.why.endswith(f" of {one.name}")]
        prices = [_price(need, book) for need in needs]
        yield Route(
            room.name, one.name, to, to == _now(room, one), run, _spare(take, one.name),
            int(sum(need.amount.value for need in needs if not need.cuts)),
            sum((each for each in prices if each is not None), Decimal()), prices.count(None),
            *(tuple(dict.fromkeys(each.title for each in take.findings if each.state == state)) for state in ("fails", "look")),
        )  # fmt: skip


def _spare(take: RoomTake, name: str) -> float | None:
    """What is left of its fall, as the check of it has it."""
    return next((each.spare for each in take.findings if each.rule in _FALLS and each.place.endswith(f", {name}")), None)


def _price(need: Need, book: Book) -> Decimal | None:
    """What so much of it costs by the part of a pack, at the least offered; None where nobody offers it."""
    item = book.item(need.item) if need.item else book.role(need.role)
    each = [offer.price / Decimal(str(offer.holds)) for offer in book.offers.get(item.code, ())]
    return (min(each) * Decimal(str(need.amount.value))).quantize(_PENNY, ROUND_HALF_UP) if each else None


def _count(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"


_LAID_BY: Final = frozenset({"drainage/branch", "drainage/waste", "drainage/soil-clips", "drainage/waste-clips"})
_FALLS: Final = frozenset({"drainage/branch-fall", "drainage/waste-fall"})
_PENNY: Final = Decimal("0.01")
