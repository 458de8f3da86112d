"""The columns of a table on paper: how wide each is and where its words stand. All in points."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal

from tundish.documents.block import Column, Row, Table, Value
from tundish.writers.cell import boxes, shown, total_cells
from tundish.writers.pdf_pen import tag_width
from tundish.writers.pdf_tags import Tag
from tundish.writers.pdf_type import Type
from tundish.writers.safe import one_line

Anchor = Literal["start", "end"]
PAD: Final = 6.0
"""Between a cell's edge and its words."""
WRITING: Final = 4.3
ROOMY: Final = 4.6
CLOSE: Final = 2.7
CLOSEST: Final = 1.4
"""Between a row's edge and its first line, and the same below: rows to write in, of a short table, of a long one, closed up."""
SHORT: Final = 10
LONGEST_TAG: Final = 32
"""A note of so many letters stands in the dashed box; in a heading, of twice as many."""
LEAST_TEXT: Final = 34.0
"""A column of words is at least this wide when there is room."""
SHORT_TEXT: Final = 125.0
"""A column that needs no more than this is kept whole before the wider ones."""
WIDEST_FIGURE: Final = 130.0
"""A column of figures holds words of this width before they are broken."""
WIDEST_WORD: Final = 60.0
"""A word in a head is held together up to this width."""
_HAIR: Final = 0.1
"""What keeps a cell from breaking where it just fits."""
HEAD: Final = Type("SemiBold", 8.5)
PLAIN: Final = Type("Regular", 9)
STRONG: Final = Type("SemiBold", 9)
QUIET: Final = Type("Regular", 8.5, "ink2")
NOTE: Final = Type("Regular", 8, "ink2")
TITLE: Final = Type("SemiBold", 10)
BOX: Final = 9.4
"""The side of a box to tick."""
TONES: Final = {"plain": PLAIN, "strong": STRONG, "quiet": QUIET}


@dataclass(frozen=True, slots=True)
class Place:
    """One column on the page: from its left edge, its width, and which side its words stand."""

    left: float
    width: float
    anchor: Anchor

    @property
    def at(self) -> float:
        """Where its words are set from."""
        return self.left + PAD if self.anchor == "start" else self.left + self.width - PAD

    @property
    def room(self) -> float:
        """How wide its words may be."""
        return self.width - 2 * PAD


@dataclass(frozen=True, slots=True)
class Grid:
    """A table with its columns placed. `tagged` carries the words to be confirmed; `above` is the space over a row; `tag` is the whole."""

    table: Table
    places: tuple[Place, ...]
    width: float
    tagged: int
    above: float
    tag: Tag


def grid_of(table: Table, width: float, *, close: bool = False) -> Grid:
    """The table's columns placed across the width; `close` rows stand closer than they would."""
    widths = _widths(table, width)
    left, places = 0.0, []
    for column, wide in zip(table.columns, widths, strict=True):
        places.append(Place(left, wide, "start" if column.kind in {"text", "blank"} else "end"))
        left += wide
    roomy = CLOSEST if close else ROOMY if len(table.rows) <= SHORT else CLOSE
    above = WRITING if any(column.kind == "blank" for column in table.columns) else roomy
    return Grid(table, tuple(places), width, _tagged(table.columns, widths), above, Tag("Table"))


def tag_words(row: Row) -> str:
    """TBC, with the row's note where it is short."""
    note = one_line(row.note).rstrip(".")
    return f"TBC: {note}" if 0 < len(note) <= LONGEST_TAG * (2 if row.group else 1) else "TBC"


def _tagged(columns: Sequence[Column], widths: Sequence[float]) -> int:
    """The first column of words that is not much narrower than the widest of them."""
    words = [place for place, column in enumerate(columns) if column.kind == "text"]
    widest = max((widths[place] for place in words), default=0.0)
    return next((place for place in words if widths[place] > 0.6 * widest), 0)


def _widths(table: Table, width: float) -> list[float]:
    """Column widths: shares of the width, but none narrower than it needs, and none wider while another has to break its words.

    Short words break last: a column of them is given what it needs while the long ones can give way.
    """
    needs = _needs(table)
    if sum(need for need, _ in needs) <= width:
        return _shared(table.columns, [(need, width) for need, _ in needs], width)
    for short in (SHORT_TEXT, 0.0):
        limits = [(need if need <= short else least, need) for need, least in needs]
        if sum(least for least, _ in limits) <= width:
            return _shared(table.columns, limits, width)
    total = sum(least for _, least in needs)
    return [least * width / total for _, least in needs]


def _shared(columns: Sequence[Column], limits: Sequence[tuple[float, float]], width: float) -> list[float]:
    """The width shared out between the least and the most each column may have."""
    given: dict[int, float] = {}
    while True:
        open_shares = {place: max(column.share, 0.01) for place, column in enumerate(columns) if place not in given}
        each = (width - sum(given.values())) / (sum(open_shares.values()) or 1)
        shares = {place: share * each for place, share in open_shares.items()}
        short = {place: limits[place][0] for place, share in shares.items() if share < limits[place][0]}
        over = {place: limits[place][1] for place, share in shares.items() if share > limits[place][1]}
        if not short and not over:
            return [(given | shares)[place] for place in range(len(columns))]
        lacking = sum(limit - shares[place] for place, limit in short.items())
        spare = sum(shares[place] - limit for place, limit in over.items())
        given |= short if lacking >= spare else over


def _needs(table: Table) -> list[tuple[float, float]]:
    """How wide each column would have to be for every cell to stand on one line, and how wide it has to be at least."""
    totals = total_cells(table) if table.totals else ("",) * len(table.columns)
    needs = []
    for place, column in enumerate(table.columns):
        kind = TONES[column.tone]
        values = [row.cells[place] for row in table.rows if not row.group and place < len(row.cells)]
        cells = max((_need(value, column, kind) for value in values), default=0.0)
        cells = max(cells, STRONG.width(totals[place]) if place in table.totals else 0.0)
        least = min(cells, LEAST_TEXT if column.kind == "text" else WIDEST_FIGURE)
        word = max(map(HEAD.width, column.head.split()), default=0.0)
        edges = 2 * PAD + _HAIR
        needs.append((max(cells, HEAD.width(column.head)) + edges, max(least, min(word, WIDEST_WORD)) + edges))
    tag = max((tag_width(tag_words(row)) + PAD for row in table.rows if row.tbc and not row.group), default=0.0)
    tagged = _tagged(table.columns, [need for need, _ in needs])
    return [(need + tag, least + tag) if place == tagged else (need, least) for place, (need, least) in enumerate(needs)]


def _need(value: Value, column: Column, kind: Type) -> float:
    if column.kind == "tick":
        return boxes(value) * (BOX + 3) - 3
    if column.kind == "blank":
        return LEAST_TEXT * max(1.0, column.share)
    return kind.width(shown(value, column.kind))
