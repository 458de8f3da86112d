"""Facts in columns, and sums of money at the right. All in points."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Final

from tundish.documents.block import Facts, Sums
from tundish.writers.cell import pounds
from tundish.writers.pdf_flow import Strip
from tundish.writers.pdf_pen import RULE, Pen
from tundish.writers.pdf_tags import Tag
from tundish.writers.pdf_type import MM, Type

BODY: Final = Type("Regular", 9.5)
STRONG: Final = Type("SemiBold", 9.5)
QUIET: Final = Type("Regular", 8.5, "ink2")
PAID: Final = Type("SemiBold", 11)
FIGURE: Final = Type("SemiBold", 14)
BETWEEN: Final = 5 * MM
"""Between two columns of facts."""
RULED: Final = 78 * MM
"""How long the rule over what is paid is, at the least."""
AMOUNT: Final = 34 * MM
"""How wide the column of amounts is."""
_EDGE: Final = 6.0
_FLUSH: Final = 3
"""Of so many columns of facts the last stands at the right edge."""
_MOST_LABEL: Final = 6
_TOGETHER: Final = 12
_HAIR: Final = 0.1
"""What keeps a line from breaking where it just fits."""
Place = tuple[float, float]
"""Of a column: its left edge and its width."""
Cell = tuple[str, Tag]
"""One line of a column, and what it is a part of."""


def facts_strips(facts: Facts, width: float) -> Iterator[Strip]:
    """A heading and lines in each column, the first line of the first one strong."""
    whole = Tag("L")
    places = _places(facts, width)
    rooms = [room for _, room in places]
    tags = [Tag("LI", whole) for _ in facts.columns]
    heads, bodies = [], []
    for tag, room, (head, lines) in zip(tags, rooms, facts.columns, strict=True):
        heads.append(list(_told(QUIET.lines(head, room), Tag("Lbl", tag))))
        bodies.append(list(_body(lines, room - _EDGE, Tag("LBody", tag))))
    rows = [(QUIET, QUIET, cells) for cells in _across(heads)]
    rows += [(BODY if place else STRONG, BODY, cells) for place, cells in enumerate(_across(bodies))]
    for place, (first, rest, cells) in enumerate(rows):
        keep = place < len(rows) - 1 and len(rows) <= _TOGETHER
        yield _line(cells, (first, rest), (places, width), gap=0 if place else 6, keep=keep)


def _places(facts: Facts, width: float) -> list[Place]:
    """Each column from where it begins, and its room: all the same, unless one needs more and the others can spare it."""
    count = max(len(facts.columns), 1)
    whole = width - BETWEEN * (count - 1)
    needs = [max(map(STRONG.width, ("", head, *lines))) + _EDGE + _HAIR for head, lines in facts.columns]
    spare = (whole - sum(needs)) / count
    rooms = [need + spare for need in needs] if spare >= 0 and max(needs, default=0) > whole / count else [whole / count] * count
    return [(sum(rooms[:number]) + number * BETWEEN, room) for number, room in enumerate(rooms[: len(facts.columns)])]


def sums_strips(sums: Sums, width: float) -> Iterator[Strip]:
    """Labels and amounts; the last, under a rule, is what is paid."""
    last, whole = len(sums.rows) - 1, Tag("Table")
    shown = [(label, pounds(amount, sign=place == last)) for place, (label, amount) in enumerate(sums.rows)]
    ruled = max((BODY.width(label) + _column(amount, STRONG, width) + _EDGE for label, amount in shown[:-1]), default=0.0)
    for place, words in enumerate(shown):
        gap = 3.0 if place else 8.0
        row = Tag("TR", whole)
        tags = (Tag("TH", row, scope="Row"), Tag("TD", row))
        yield _paid(words, tags, (width, min(max(RULED, ruled), width)), gap) if place == last else _sum(words, tags, width, gap)


def _body(lines: Sequence[str], width: float, tag: Tag) -> Iterator[Cell]:
    """The lines of a column, each typed one a part of its own."""
    for line in lines:
        yield from _told(BODY.lines(line, width), Tag("P", tag))


def _told(lines: Iterable[str], tag: Tag) -> Iterator[Cell]:
    return ((line, tag) for line in lines)


def _across(columns: Sequence[Sequence[Cell]]) -> Iterator[list[Cell | None]]:
    """The first lines of all columns, then the second, and so on."""
    for row in range(max(map(len, columns), default=0)):
        yield [column[row] if row < len(column) else None for column in columns]


def _line(cells: Sequence[Cell | None], kinds: tuple[Type, Type], where: tuple[Sequence[Place], float], *, gap: float, keep: bool) -> Strip:
    first, rest = kinds
    places, width = where

    def draw(pen: Pen, left: float, top: float) -> None:
        for number, cell in enumerate(cells):
            if not cell:
                continue
            words, tag = cell
            flush = number == len(cells) - 1 and len(cells) >= _FLUSH
            with pen.tags.within(tag):
                at = width if flush else places[number][0]
                pen.text(left + at, top - rest.size, words, rest if number else first, "end" if flush else "start")

    return Strip(rest.leading, draw, gap, keep)


def _sum(words: tuple[str, str], tags: tuple[Tag, Tag], width: float, gap: float) -> Strip:
    label, amount = words
    lines = BODY.lines(label, width - _column(amount, STRONG, width), _MOST_LABEL)

    def draw(pen: Pen, left: float, top: float) -> None:
        with pen.tags.within(tags[0]):
            _set(pen, left + width - _column(amount, STRONG, width), top - BODY.size, lines, BODY)
        with pen.tags.within(tags[1]):
            pen.text(left + width - _EDGE, top - BODY.size, amount, STRONG, "end")

    return Strip(len(lines) * BODY.leading + 2, draw, gap, keep=True)


def _paid(words: tuple[str, str], tags: tuple[Tag, Tag], widths: tuple[float, float], gap: float) -> Strip:
    """What is paid, under a rule as long as what it adds up is wide; `widths`: of the whole, and of the rule."""
    (label, amount), (width, ruled) = words, widths
    lines = PAID.lines(label, width - _column(amount, FIGURE, width), _MOST_LABEL)
    height = max(len(lines) * PAID.leading, FIGURE.leading) + 7

    def draw(pen: Pen, left: float, top: float) -> None:
        pen.line(left + width - ruled, top, left + width, top, RULE)
        with pen.tags.within(tags[0]):
            _set(pen, left + width - _column(amount, FIGURE, width), top - FIGURE.size - 5, lines, PAID)
        with pen.tags.within(tags[1]):
            pen.text(left + width - _EDGE, top - FIGURE.size - 5, amount, FIGURE, "end")

    return Strip(height, draw, gap)


def _column(amount: str, kind: Type, width: float) -> float:
    """How much of the width the amount takes."""
    return max(min(AMOUNT, width / 2), kind.width(amount) + 2 * _EDGE)


def _set(pen: Pen, right: float, baseline: float, lines: Sequence[str], kind: Type) -> None:
    for number, line in enumerate(lines):
        pen.text(right, baseline - number * kind.leading, line, kind, "end")
