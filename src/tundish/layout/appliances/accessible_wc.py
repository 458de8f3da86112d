"""A WC for accessible rooms: a longer pan, its seat at the height that is asked for, with rails and a back rest."""

from __future__ import annotations

from dataclasses import replace

from tundish.figure import Figure
from tundish.layout.appliances import wc
from tundish.layout.appliances.kind import Hung, Kind


def figures(hung: Hung, shared: dict[str, Figure]) -> dict[str, Figure]:
    """As of a WC, and how high its rails and its back rest are fixed, each only where one is chosen."""
    made = wc.figures(hung, shared)
    floor, book, choice = hung.outline.finished_floor, hung.book, hung.choice
    if choice.rail:
        made["rail"] = (floor + book.figure("access.rail")).named(f"Rail beside, {hung.name}")
    if choice.drop_rail:
        aside = book.figure("access.rail_aside")
        at = hung.centre + aside if choice.beside == "left" else hung.centre - aside
        made["drop_rail"] = (floor + book.figure("access.rail")).named(f"Drop-down rail, {hung.name}")
        made["drop_rail_from_left"] = at.named(f"Drop-down rail from left wall, {hung.name}")
        made |= _sizes(hung, "drop_rail", "Drop-down rail")
    if choice.back_rest:
        made["back_rest"] = (floor + book.figure("access.back_rest")).named(f"Back rest, {hung.name}")
        made |= _sizes(hung, "back_rest", "Back rest")
    return made


def _sizes(hung: Hung, which: str, words: str) -> dict[str, Figure]:
    """How wide it is and how far it stands out, to draw it by; nothing where the catalogue does not have it."""
    item = hung.book.items.get(getattr(hung.choice, which))
    sizes = (("width", "wide", "width"), ("projection", "out", "projection")) if item else ()
    return {
        f"{which}_{short}": item.size(size).named(f"{words}, {told}, {hung.name}")
        for size, short, told in sizes
        if item and size in item.sizes
    }


KIND: Kind = replace(
    wc.KIND,
    key="accessible wc",
    title="Accessible WC",
    like="wc",
    to_seat=True,
    plain="accessible WC",
    many="Accessible WCs",
    own=figures,
    rod=(*wc.KIND.rod, ("drop_rail", "Drop-down rail"), ("back_rest", "Back rest"), ("rail", "Rail beside")),
    extras=(*wc.KIND.extras, ("rail", "grab rail"), ("drop_rail", "drop-down rail"), ("back_rest", "back rest")),
)
