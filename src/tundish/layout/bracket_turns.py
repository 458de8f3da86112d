"""How the wall brackets of each frame are turned where that is left to the rule: in, when a neighbour or a side wall is too near."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Final

from tundish.catalogue.book import Book
from tundish.layout import settings
from tundish.layout.design import BY_RULE, SELF_STANDING, Appliance
from tundish.layout.outline import Outline
from tundish.layout.room import Placed
from tundish.measure import show_length

SQUARE: Final = "square to the wall"
IN: Final = "turned in"


def turned(found: Sequence[Placed], outline: Outline, book: Book) -> tuple[Placed, ...]:
    """The appliances, left to right, each with the turn its brackets take and why; what the trader chose stays.

    They are turned in for everything that the centres may still turn out to be, so that one choice serves the whole range.
    """
    why = {} if outline.standing.corner or outline.standing.prewall.built_of == SELF_STANDING else _near(found, outline, book)
    return tuple(_with_turn(each, why.get(each.key, "")) for each in found)


def _near(found: Sequence[Placed], outline: Outline, book: Book) -> dict[str, str]:
    """What stands too near the brackets of each frame when they are square to the wall, by the frame's key."""
    least = book.figure("frames.bracket_clear").value
    tied = [each for each in found if each.frame.has("bracket_spacing")]
    why: dict[str, str] = {}
    for left, right in pairwise(tied):
        room = right.centre.low - left.centre.high - _aside(left) - _aside(right)
        if room < least:
            why.setdefault(left.key, f"{show_length(room)} to the bracket of {right.name}")
            why.setdefault(right.key, f"{show_length(room)} to the bracket of {left.name}")
    at_left, at_right = outline.run.at_wall
    if tied and at_left and (room := tied[0].centre.low - _aside(tied[0])) < least:
        why.setdefault(tied[0].key, f"{show_length(room)} to the left wall")
    if tied and at_right and (room := outline.width.value - tied[-1].centre.high - _aside(tied[-1])) < least:
        why.setdefault(tied[-1].key, f"{show_length(room)} to the right wall")
    return why


def _aside(one: Placed) -> float:
    return settings.bracket_aside(one.frame, one.choice.bracket).value


def _with_turn(one: Placed, near: str) -> Placed:
    if one.choice.bracket != BY_RULE:
        return one
    turns = bool(near) and one.frame.has("bracket_turn")
    choice: Appliance = replace(one.choice, bracket=IN if turns else SQUARE)
    return replace(one, choice=choice, bracket_why=f"only {near} otherwise" if turns else "")
