"""Makers' sizes under the trade's own words, and what is reckoned from one sheet alone."""

from __future__ import annotations

from tundish.catalogue.item import Item, NoSuchSizeError
from tundish.figure import Figure, Known


def size(item: Item, name: str, label: str) -> Figure:
    """A size from the maker's sheet under a label that reads well in a receipt; the note says whose sheet."""
    if name not in item.sizes:
        raise NoSuchSizeError(item.code, name)
    return item.size(name).named(label, item.sheet or item.name)


def half(item: Item, name: str, label: str) -> Figure:
    """Half of a size: from a centre line to an edge."""
    return from_sheet(item, item.size(name).value / 2, label)


def from_sheet(item: Item, value: float, label: str) -> Figure:
    """A length reckoned from sizes of one sheet; of ware typed in for a job it is as open as its sizes are."""
    doubt = any(each.tbc for each in item.own.values())
    return Figure(value, value, value, "mm", label, Known.MAKER, doubt, note=item.sheet or item.name)
