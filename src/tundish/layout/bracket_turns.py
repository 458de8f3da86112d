"""How the wall brackets of each frame are turned by rule: in, where a neighbour or a wall is too near, as long as a tie rod fits."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Final

from tundish.catalogue.book import Book
from tundish.layout import settings
from tundish.layout.design import BY_RULE, SELF_STANDING, Appliance
from tundish.layout.outline import Outline
from tundish.layout.room import Placed
from tundish.measure import show_length, show_range

SQUARE: Final = "square to the wall"
IN: Final = "turned in"


def turned(found: Sequence[Placed], outline: Outline, book: Book, hang: Callable[[Placed], Placed]) -> tuple[Placed, ...]:
    """The appliances hung, left to right, each with the turn its brackets take and why; what the trader chose stays.

    They are turned in for everything that is still open, so that one choice serves the whole range: where something would be too near
    or no tie rod would fit otherwise, but never so that none fits any more. `hang` works one out as its brackets are turned.
    """
    free = outline.standing.corner is not None or outline.standing.prewall.built_of == SELF_STANDING
    near = {} if free else _near(found, outline, book)
    return tuple(_weighed(each, near.get(each.key, ""), hang, free=free) for each in found)


def _near(found: Sequence[Placed], outline: Outline, book: Book) -> dict[str, str]:
    """What stands too near the brackets of each frame when they are square to the wall, by the frame's key."""
    least = book.figure("frames.bracket_clear").value
    tied = [each for each in found if each.frame.has("bracket_spacing")]
    why: dict[str, str] = {}
    for left, right in pairwise(tied):
        room = right.centre.low - left.centre.high - _aside(left) - _aside(right)
        if room < least:
            why.setdefault(left.key, f"{_only(room)} the bracket of {right.name}")
            why.setdefault(right.key, f"{_only(room)} the bracket of {left.name}")
    at_left, at_right = outline.run.at_wall
    if tied and at_left and (room := tied[0].centre.low - _aside(tied[0])) < least:
        why.setdefault(tied[0].key, f"{_only(room)} the left wall")
    if tied and at_right and (room := outline.width.value - tied[-1].centre.high - _aside(tied[-1])) < least:
        why.setdefault(tied[-1].key, f"{_only(room)} the right wall")
    return why


def _only(room: float) -> str:
    return f"only {show_length(room)} to" if room >= 0 else f"{show_length(-room)} into"


def _aside(one: Placed) -> float:
    return settings.bracket_aside(one.frame, one.choice.bracket).value


def _weighed(one: Placed, near: str, hang: Callable[[Placed], Placed], *, free: bool) -> Placed:
    if one.choice.bracket != BY_RULE:
        return hang(one)
    square = hang(_with_turn(one, SQUARE))
    reaches = free or settings.rod_serves(square)
    if not one.frame.has("bracket_turn") or (reaches and not near):
        return square
    turned_in = hang(_with_turn(one, IN))
    if settings.rod_serves(turned_in):
        return hang(_with_turn(one, IN, f"{near} otherwise" if near else f"no tie rod fits a reach of {_reach(square)} otherwise"))
    if reaches:
        return hang(_with_turn(one, SQUARE, f"{near}, but turned in no tie rod fits its reach of {_reach(turned_in)}"))
    return hang(_with_turn(one, IN, f"{near} otherwise")) if near else square


def _with_turn(one: Placed, turn: str, why: str = "") -> Placed:
    choice: Appliance = replace(one.choice, bracket=turn)
    return replace(one, choice=choice, bracket_why=why)


def _reach(one: Placed) -> str:
    return show_range(one.figures["reach"].low, one.figures["reach"].high)
