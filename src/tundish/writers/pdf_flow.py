"""What a page is filled with: strips from top to bottom, each whole, and how they are dealt out over pages. All in points."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from tundish.writers.pdf_pen import PAGE, Pen
from tundish.writers.pdf_tags import Tag
from tundish.writers.pdf_type import MM, Type

Draw = Callable[[Pen, float, float], None]
"""Draws on a page, given the left edge and the top."""
MARGIN: Final = 12 * MM
WIDTH: Final = PAGE[0] - 2 * MARGIN
TOP: Final = PAGE[1] - 26.5 * MM
"""Where the first strip begins, under the head."""
BOTTOM: Final = 19.5 * MM
ROOM: Final = TOP - BOTTOM


@dataclass(frozen=True, slots=True)
class Strip:
    """A band across the column that is never broken.

    `gap` is the space above it, left out at the top of a page; `keep` holds it with the next; `head` is drawn again above it
    where it starts a page; `fresh` begins a page.
    """

    height: float
    draw: Draw
    gap: float = 0.0
    keep: bool = False
    head: Strip | None = None
    fresh: bool = False


@dataclass(frozen=True, slots=True)
class Placed:
    """A strip on a page, where its top is, and whether it is the head of a table that goes on from the page before."""

    strip: Strip
    top: float
    again: bool = False


def pages(strips: Sequence[Strip]) -> tuple[tuple[Placed, ...], ...]:
    """The strips dealt out over as many pages as they need, at least one."""
    done: list[tuple[Placed, ...]] = []
    page: list[Placed] = []
    top = TOP
    for cluster in _clusters(strips):
        if page and (cluster[0].fresh or (top - _height(cluster) < BOTTOM and _height(cluster) <= ROOM)):
            done.append(tuple(page))
            page, top = [], TOP
        for strip in cluster:
            if page and top - strip.gap - strip.height < BOTTOM:
                done.append(tuple(page))
                page, top = [], TOP
            if not page and strip.head:
                page.append(Placed(strip.head, top, again=True))
                top -= strip.head.height
            top -= strip.gap if page else 0
            page.append(Placed(strip, top))
            top -= strip.height
    return (*done, tuple(page)) if page or not done else tuple(done)


def filled(page: Sequence[Placed]) -> float:
    """How much of a page is filled, as a part of it."""
    return (TOP - page[-1].top + page[-1].strip.height) / ROOM if page else 0.0


def stacked(strips: Sequence[Strip]) -> Strip:
    """Strips one under the other as one that is never broken."""

    def draw(pen: Pen, left: float, top: float) -> None:
        for place, strip in enumerate(strips):
            top -= strip.gap if place else 0
            strip.draw(pen, left, top)
            top -= strip.height

    gap = strips[0].gap if strips else 0.0
    return Strip(_height(strips) - gap, draw, gap)


def beside(left: Strip, right: Strip, offset: float) -> Strip:
    """Two strips next to one another as one, the right one further over by the offset."""

    def draw(pen: Pen, edge: float, top: float) -> None:
        left.draw(pen, edge, top)
        right.draw(pen, edge + offset, top)

    return Strip(max(left.height, right.height), draw, max(left.gap, right.gap))


def text_strips(lines: Sequence[str], kind: Type, tag: Tag, *, gap: float = 0.0, indent: float = 0.0) -> Iterator[Strip]:
    """Lines of one part of the text, a strip each; the first two stay together and so do the last two."""
    last = len(lines) - 1
    for place, line in enumerate(lines):
        keep = place < last and place in {0, last - 1}
        yield Strip(kind.leading, _line(line, kind, tag, indent), gap if place == 0 else 0.0, keep)


def kept(strips: Iterable[Strip]) -> tuple[Strip, ...]:
    """The strips, the last of them held with whatever comes next."""
    *rest, last = strips
    return (*rest, replace(last, keep=True))


def _line(line: str, kind: Type, tag: Tag, indent: float) -> Draw:
    def draw(pen: Pen, left: float, top: float) -> None:
        with pen.tags.within(tag):
            pen.text(left + indent, top - kind.size, line, kind)

    return draw


def _clusters(strips: Sequence[Strip]) -> Iterator[list[Strip]]:
    cluster: list[Strip] = []
    for strip in strips:
        cluster.append(strip)
        if not strip.keep:
            yield cluster
            cluster = []
    if cluster:
        yield cluster


def _height(strips: Sequence[Strip]) -> float:
    return sum(strip.gap + strip.height for strip in strips)
