"""Kit or loose: what it takes to finish the job with each frame of the catalogue in place of an appliance's own, side by side. Pure."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Final

from tundish import measure
from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.catalogue.own import with_own
from tundish.estimate import Estimate, Job, estimate
from tundish.layout.design import FRAME_KINDS
from tundish.layout.room import Placed
from tundish.layout.undecided import with_value
from tundish.procurement.choose import IN_A_KIT
from tundish.takeoff.alternatives import Wanted, always

MOST_NAMED: Final = 6


@dataclass(frozen=True, slots=True)
class Finish:
    """The job finished with one frame. `kit`: what it brings; `cost`: all that is bought, with carriage; `price`: before VAT.

    `bought`: what more is paid for each other item than with the frame chosen; `spared`: what less; `apart`: how much more the frame
    itself is. `left_over`: what kits hold and the job does not use. `fails`, `looks`: checks that do not pass with it.
    """

    frame: Item
    chosen: bool
    kit: tuple[str, ...]
    cost: Decimal
    unpriced: tuple[str, ...]
    hours: float
    price: Decimal
    apart: Decimal
    bought: tuple[tuple[Item, Decimal], ...]
    spared: tuple[tuple[Item, Decimal], ...]
    left_over: tuple[str, ...]
    fails: tuple[str, ...]
    looks: tuple[str, ...]

    @property
    def name(self) -> str:
        """The frame, and that it is the one chosen."""
        return f"{self.frame.name}{' (chosen)' if self.chosen else ''}"

    @property
    def reasons(self) -> str:
        """What makes it more or less than the one chosen, what is left over, and what does not pass."""
        return "; ".join(self._reasons()) or "nothing else changes"

    def _reasons(self) -> Iterator[str]:
        if self.apart:
            yield f"the frame {measure.show_money(abs(self.apart))} {'more' if self.apart > 0 else 'less'}"
        if self.bought:
            yield f"bought besides {_named(self.bought)}"
        if self.spared:
            yield f"not bought {_named(self.spared)}"
        for words, few in (("left over", self.left_over), ("not priced", self.unpriced), ("fails", self.fails), ("to look at", self.looks)):
            if few:
                yield f"{words}: {', '.join(few)}"


def finishes(job: Job, book: Book, one: Placed, wanted: Wanted = always) -> tuple[Finish, ...]:
    """The job with each frame that the appliance can hang on, the best first; the one chosen is among them.

    Best is what fails fewest checks, then leaves fewest to look at, then lacks fewest prices, then costs least to buy, then takes least
    time. What is not `wanted` any more is left in the middle, with a NotWantedError.
    """
    own = with_own(book, job.own_items)
    now = _with(job, one, one.frame.code, book, wanted)
    made = (_finish(now, _with(job, one, frame.code, book, wanted), frame, one.frame.code) for frame in own.of_kind(one.frame.kind))
    return tuple(sorted(made, key=lambda each: (len(each.fails), len(each.looks), len(each.unpriced), each.cost, each.hours)))


def framed(worked: Estimate) -> tuple[Placed, ...]:
    """The appliances that could hang on more than one frame of the catalogue."""
    every = (one for room in worked.rooms for one in room.framed if one.frame.kind in FRAME_KINDS)
    return tuple(one for one in every if len(worked.book.of_kind(one.frame.kind)) > 1)


def _with(job: Job, one: Placed, code: str, book: Book, wanted: Wanted) -> Estimate:
    """The job with another frame; where that is still open between several, it is settled at this one."""
    _, room, within = f"{one.path}.frame".split(".", 2)
    place, plan = int(room), job.rooms[int(room)]
    changed = with_value(plan, within, code)
    return estimate(replace(job, rooms=(*job.rooms[:place], changed, *job.rooms[place + 1 :]), options=()), book, wanted=wanted)


def _finish(now: Estimate, worked: Estimate, frame: Item, chosen_one: str) -> Finish:
    before, after, items = _costs(now), _costs(worked), worked.book.items
    codes = {frame.code, chosen_one}
    rest = sorted(((code, after[code] - before[code]) for code in {*before, *after} - codes), key=lambda pair: (-abs(pair[1]), pair[0]))
    states = {state: tuple(dict.fromkeys(each.title for each in worked.findings if each.state == state)) for state in ("fails", "look")}
    return Finish(
        frame,
        frame.code == chosen_one,
        tuple(_amount(items[part.item], part.amount) for part in worked.book.in_kit(frame.code)),
        sum((order.goods + order.carriage for order in worked.buying.orders), Decimal(0)),
        worked.price.not_priced,
        worked.price.hours.value,
        worked.price.before_vat,
        sum((after[code] - before[code] for code in codes), Decimal(0)),
        tuple((items[code], much) for code, much in rest if much > 0),
        tuple((items[code], -much) for code, much in rest if much < 0),
        tuple(_amount(each.item, each.amount) for each in worked.buying.left_over if each.why == IN_A_KIT),
        states["fails"],
        states["look"],
    )


def _costs(worked: Estimate) -> defaultdict[str, Decimal]:
    """What is paid for each item, by its code; nought for any other."""
    made: defaultdict[str, Decimal] = defaultdict(Decimal)
    for each in worked.buying.purchases:
        made[each.line.item.code] += each.cost
    return made


def _amount(item: Item, amount: float) -> str:
    return f"{measure.show_amount(amount, item.unit)} {item.name}"


def _named(parts: Sequence[tuple[Item, Decimal]]) -> str:
    more = f" and {len(parts) - MOST_NAMED} more" if len(parts) > MOST_NAMED else ""
    return ", ".join(f"{item.name} {measure.show_money(much)}" for item, much in parts[:MOST_NAMED]) + more
