"""Rails and plates along the run: on the floor in the clear gaps, and along the top; in parts where no bar is long enough."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.figure import Figure, number
from tundish.layout.supports import Gap
from tundish.layout.widths import Run


@dataclass(frozen=True, slots=True)
class Rail:
    """One rail or part of one: where its left end is, how long it is, and what it is joined at on its right."""

    x: float
    length: Figure
    joined: bool = False


def floor_rails(gaps: Sequence[Gap], run: Run, book: Book) -> Iterator[tuple[Figure, Figure, Figure]]:
    """Left end, right end and length of the rail in every gap that is wide enough to want one."""
    near, ease = book.figure("prewall.near").value, book.figure("prewall.end_gap")
    for gap in gaps:
        if gap.clear < near:
            continue
        left, right, length = gap.left, gap.right, gap.right - gap.left
        if gap.after is None and run.at_wall[0]:
            left, length = left + ease, length - ease
        if gap.before is None and run.at_wall[1]:
            right, length = right - ease, length - ease
        yield left, right, length


def top_rail(run: Run, book: Book) -> tuple[Figure, Figure, Figure]:
    """Left end, right end and length of the rail along the top, eased at both ends."""
    ease = book.figure("prewall.end_gap")
    return run.start + ease, run.end - ease, run.length - ease - ease


def in_parts(ends: tuple[Figure, Figure, Figure], longest: float, supports: Sequence[Figure]) -> list[Rail]:
    """A rail in as few parts as bars allow, as even as they can be when every joint lies on a support."""
    left, right, length = ends
    count = math.ceil(round(length.value / longest, 9))
    if count <= 1:
        return [Rail(left.value, length)]
    places = [left]
    for part in range(1, count):
        even = left + length * (part / count)
        least = right.value - (count - part) * longest
        most = places[-1].value + longest
        on = [each for each in supports if max(least, places[-1].value) < each.value <= most]
        places.append(min(on, key=lambda each, even=even: abs(each.value - even.value), default=even))  # type: ignore[misc]
    return [Rail(one.value, other - one, joined=other is not right) for one, other in pairwise((*places, right))]


def longest_bar(bar: Item, book: Book) -> float:
    """The longest bar that anybody sells; without end where no offer says how long its bars are."""
    return max((offer.length for offer in book.offers.get(bar.code, ()) if offer.length > 0), default=math.inf)


def in_bars(lengths: Iterable[Figure], bar: Item, book: Book) -> tuple[tuple[Figure, ...], int]:
    """Lengths of pipe as pieces that come out of a bar whatever is decided, even where one is too long; and the joints this makes."""
    longest, pieces, joints = longest_bar(bar, book), list[Figure](), 0
    for each in lengths:
        parts = math.ceil(round(each.high / longest, 9)) if math.isfinite(longest) else 1
        joints += max(parts - 1, 0)
        pieces += [each] if parts <= 1 else [(each / number(parts, "", "Even pieces")).named(each.label)] * parts
    return tuple(pieces), joints
