"""The ways that a discharge could go, compared beside the fall of the one it goes: the best first."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from tundish import measure
from tundish.desktop.receipt import ReceiptLine, Section
from tundish.documents.shortfalls import FALLS

if TYPE_CHECKING:
    from tundish.catalogue.book import Book
    from tundish.estimate import Estimate, Job
    from tundish.layout.room import Room
    from tundish.rules.rule import Finding
    from tundish.takeoff.routes import Route

OF_DRAIN: Final = ".drains_to"
FALL: Final = ".fall"


def of_figure(asked: str, room: Room | None) -> str:
    """The input that says where a discharge goes, if its fall is asked about and it could go elsewhere; else ""."""
    kind, _, key = asked.partition(":")
    return _drain(room, key.removesuffix(FALL)) if room is not None and kind == "figure" and key.endswith(FALL) else ""


def of_check(finding: Finding, estimate: Estimate) -> str:
    """The same for the check of a fall."""
    if finding.rule not in FALLS:
        return ""
    found = ((room, placed) for room in estimate.rooms for placed in room.placed if finding.place == f"{room.name}, {placed.name}")
    return next((_drain(room, placed.key) for room, placed in found), "")


def section(job: Job, book: Book, path: str) -> Section | None:
    """Every way of the discharge that an input is of, a line for each; None where there is but one."""
    from tundish.catalogue.own import with_own
    from tundish.field import get
    from tundish.takeoff.routes import routes

    room, name = ".".join(path.split(".")[:2]), get(job, path.removesuffix(OF_DRAIN)).name
    ways = [each for each in routes(get(job, room), with_own(book, job.own_items), room) if each.appliance == name]
    return Section(f"Ways it could go: {name}", tuple(_line(each) for each in ways)) if ways else None


def _line(way: Route) -> ReceiptLine:
    tone = "fails" if way.fails else "tbc" if way.looks or way.unpriced or way.spare is None else "settled"
    return ReceiptLine("", way.name, measure.show_money(way.price), way.reasons, tone=tone)


def _drain(room: Room, key: str) -> str:
    placed = next((each for each in room.placed if each.key == key), None)
    return f"{placed.path}{OF_DRAIN}" if placed is not None and any(each.serves == key for each in room.instead) else ""
