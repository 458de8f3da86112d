"""Noggins of the trader's own choice: where something is fixed to the pre-wall that hangs on no frame."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from tundish.catalogue.book import Book
from tundish.figure import Figure
from tundish.layout.backing import noggin_in
from tundish.layout.design import Noggin
from tundish.layout.inputs import Inputs
from tundish.layout.outline import Outline
from tundish.layout.room import Backed, Member, Placed
from tundish.layout.standing import Standing


def noggin_key(place: int) -> str:
    """The key of a noggin by its place in the list."""
    return f"noggin-{place + 1}"


def noggin_name(noggin: Noggin, place: int) -> str:
    """What is fixed to it, or its number."""
    return noggin.name.strip() or f"Noggin {place + 1}"


def backed_of(standing: Standing, finished_floor: Figure, inputs: Inputs) -> tuple[Backed, ...]:
    """The stretches of a pre-wall that are to have something behind them, in the order in which they were put in."""
    return tuple(_backed(standing, finished_floor, inputs))


def _backed(standing: Standing, floor: Figure, inputs: Inputs) -> Iterator[Backed]:
    for place, noggin in enumerate(standing.prewall.noggins):
        at, name = f"{standing.at}.noggins.{place}", noggin_name(noggin, place)
        left, level, reach = (
            inputs.sure(noggin, each, at).named(f"{name}, {words}")
            for each, words in (("from_left", "left end"), ("level", "middle above finished floor"), ("reach", "length"))
        )
        yield Backed(noggin_key(place), f"{inputs.path}.{at}", name, left, (floor + level).named(f"{name}, middle"), reach)


def noggins(
    outline: Outline, backed: Sequence[Backed], supports: Sequence[Figure], framed: Sequence[Placed], rails: int, book: Book
) -> Iterator[Member]:
    """A noggin in every bay that a stretch reaches into and where nothing else stands; numbered on from those of the rails."""
    number = rails
    for each in backed:
        for left, right in pairwise(supports):
            reached = each.left.value < right.value and left.value < each.right.value
            if not reached or _taken(outline, framed, (left.value + right.value) / 2, each.level.value):
                continue
            made = noggin_in(outline, (left, right), each.level.value, each.name, book)
            if made is not None:
                number += 1
                yield replace(made, mark=f"G{number}", where=f"for {each.name}")


def _taken(outline: Outline, framed: Sequence[Placed], x: float, z: float) -> bool:
    """Whether a frame, a niche or an access opening is at a place."""
    if any(each.left < x < each.right and z < each.figures["frame_top"].value for each in framed):
        return True
    return any(
        each.open_left.value < x < each.open_right.value and each.open_foot.value < z < each.open_head.value for each in outline.recesses
    )
