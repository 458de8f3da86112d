"""Whether anything rigid leads the sound of the flush from frame and pipe to board, floor and wall."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.figure import Figure, number, total
from tundish.layout.design import NO_PADS
from tundish.layout.room import Placed, Room
from tundish.measure import show_length, show_number
from tundish.rules.joining import item_of
from tundish.rules.rule import Asked, Finding, Need, WayOut, judge, rule
from tundish.rules.soft import pads_of, strips_of

_SOURCE: Final = "common practice: steel, pipe and boards touch the house through something soft alone"


@rule("noise/bridges", figures=("boards.floor_gap", "noise.gap_least", "noise.at_tie"), source=_SOURCE, reads="list")
def bridges(asked: Asked, book: Book) -> Iterator[Finding]:
    """No rigid bridge leads sound from frame and pipe to board, floor and wall.

    Pads under the feet and behind the brackets, strip under rails and behind ties, lined clips on every pipe, and boards that end clear
    of the bare floor, the gap shut with sealant. What is struck out or added by hand counts.
    """
    room, lines = asked.room, _lines(asked.needs, book)
    pads = [pads_of(room, one)[0] for one in room.framed if one.choice.pads != NO_PADS]
    if pads:
        yield _held("Frames on pads", book.role("sound pad"), lines, total(pads, "Feet and brackets"))
    yield from (_bare(room, one) for one in room.framed if one.choice.pads == NO_PADS)
    lengths, _ = strips_of(room, book)
    if lengths:
        yield _held("Rails and ties on strip", book.role("sound strip"), lines, total(list(lengths), "Under rails and behind ties"))
    if room.faces:
        yield _off_the_floor(room, book)
    clips = [(item, amount) for item, amount in lines if item.kind in _CLIPS]
    if clips:
        yield _lined(clips)


def _lines(needs: Sequence[Need], book: Book) -> list[tuple[Item, Figure]]:
    """What is soft or clips on the list: by the role that asked for it, or by the item."""
    found = [(item_of(need, book), need.amount) for need in needs if need.item or need.role in _SOFT or " clip " in need.role]
    return [(item, amount) for item, amount in found if item is not None]


def _held(title: str, item: Item, lines: Sequence[tuple[Item, Figure]], least: Figure) -> Finding:
    there = [amount for listed, amount in lines if listed.code == item.code]
    has = total(there, f"{item.name} on the list") if there else number(0, least.unit, f"{item.name} on the list")
    state, message = judge(has, least, None), ""
    ways: tuple[WayOut, ...] = ()
    if state != "passes":
        lacks = least.value - has.value
        words = f"{show_length(lacks)} mm" if least.unit == "mm" else show_number(lacks)
        message = f"{words} of {item.name} short: what lies on steel or floor without it passes the flush on to the house."
        ways = (
            WayOut(
                f"Put {words} of {item.name} on the list: bought and priced with it.", "by_hand", "no rigid bridge", ((item.code, lacks),)
            ),
        )
    return Finding(title, "Noise", state, has, "Guidance", _SOURCE, least, None, message, "", ways)


def _bare(room: Room, one: Placed) -> Finding:
    has, least = number(0, "each", "Sound pads"), pads_of(room, one)[0]
    message = f"{one.name} is set without sound pads and is heard through floor and wall. A finished floor as thick as they are makes room."
    return Finding("Frame on pads", "Noise", "look", has, "Guidance", _SOURCE, least, None, message, one.name)


def _off_the_floor(room: Room, book: Book) -> Finding:
    has, least = book.figure("boards.floor_gap"), book.figure("noise.gap_least")
    state = judge(has, least, None)
    message = (
        "" if state == "passes" else "Boards that stand on the floor bridge it: set Boards kept off the bare floor under Rates and rules."
    )
    return Finding("Boards clear of the floor", "Noise", state, has, "Own rule", least.note, least, None, message)


def _lined(clips: Sequence[tuple[Item, Figure]]) -> Finding:
    soft = [amount for item, amount in clips if item.has("lining")]
    has = total(soft, "Lined clips on the list") if soft else number(0, "each", "Lined clips on the list")
    least = total([amount for _, amount in clips], "Clips on the list")
    state, message = judge(has, least, None, "look"), ""
    if state != "passes":
        hard = ", ".join(dict.fromkeys(item.name for item, _ in clips if not item.has("lining")))
        message = f"{hard}: no lining on the sheet. Take lined clips, or pack each with a strip of rubber."
    return Finding("Pipes in lined clips", "Noise", state, has, "Guidance", _SOURCE, least, None, message)


_SOFT: Final = frozenset({"sound pad", "sound strip"})
_CLIPS: Final = frozenset({"drain clip", "water clip"})
