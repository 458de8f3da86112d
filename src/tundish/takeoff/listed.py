"""What reads the list made again on it as the trader left it: with what was added, set and struck out by hand."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Final

from tundish.catalogue.book import Book
from tundish.figure import number
from tundish.layout.room import Room
from tundish.rules.book import RULES
from tundish.rules.ends.joined import ends_joined, told
from tundish.rules.joining import item_of, joined_up
from tundish.rules.rule import LABOUR, Asked, Decision, Finding, Need, Rule
from tundish.takeoff.by_hand import ByHand
from tundish.takeoff.line import Line
from tundish.takeoff.run import RoomTake, stamped


def as_listed(worked: Sequence[tuple[Room, RoomTake]], lines: Sequence[Line], made: Sequence[ByHand], book: Book) -> tuple[RoomTake, ...]:
    """The takes of the rooms with those checks as the changed lines have them; as they are where nothing was changed.

    What there is of an item goes round the rooms in their order as far as it does; what is over serves any room that lacks it. Where
    choices are open, the checks then hold for the first alternatives.
    """
    codes = {each.item.code for each in made}
    if not codes:
        return tuple(take for _, take in worked)
    left = {code: sum(line.amount.value for line in lines if line.item.code == code) for code in codes}
    asked = [tuple(_as_far(take.needs, left, book)) for _, take in worked]
    return tuple(_checked(room, take, needs, left, book) for (room, take), needs in zip(worked, asked, strict=True))


def _as_far(needs: Sequence[Need], left: dict[str, float], book: Book) -> Iterator[Need]:
    """The needs of a room, of the changed items no more than is left of them."""
    for need in needs:
        item = None if need.role == LABOUR else item_of(need, book)
        if item is None or item.code not in left:
            yield need
            continue
        kept = min(need.amount.value, left[item.code])
        left[item.code] -= kept
        yield need if kept == need.amount.value else replace(need, amount=number(kept, need.amount.unit, need.amount.label))


def _checked(room: Room, take: RoomTake, needs: tuple[Need, ...], left: dict[str, float], book: Book) -> RoomTake:
    over = tuple(_over(left, book))
    joined, pools = joined_up(room, (*needs, *over), book)
    rest = pools.bag(())
    for code, amount in left.items():
        if book.item(code).unit == "each":
            left[code] = min(amount, rest[code])
    asked = Asked(room, (*needs, *over))
    said = [stamped(one, ends_joined.key, room.name) for one in told(room, joined)]
    said += [stamped(one, each.key, room.name) for each in _OTHERS for one in each.says(asked, book)]
    findings = (each for each in take.findings if each.rule not in _AGAIN)
    decisions = (each for each in take.decisions if each.rule not in _AGAIN)
    return replace(
        take,
        findings=(*findings, *(one for one in said if isinstance(one, Finding))),
        decisions=(*decisions, *(one for one in said if isinstance(one, Decision))),
    )


def _over(left: Mapping[str, float], book: Book) -> Iterator[Need]:
    for code, amount in left.items():
        if amount > 0:
            item = book.item(code)
            yield Need(number(amount, item.unit, item.name), "first fix", "by hand", item=code)


_OTHERS: Final[tuple[Rule, ...]] = tuple(each for each in RULES if each.reads == "list" and each is not ends_joined)
_AGAIN: Final = frozenset({ends_joined.key, *(each.key for each in _OTHERS)})
