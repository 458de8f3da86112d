"""What a table shows, ready to paint: columns, rows of cells, and groups that fold and keep their subtotal."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Gauge:
    """How far a need is met.

    `met` is has over needs (1 is just enough); for a range, `low` and `high` bound the band and `needle` is the value, all three
    as parts of the bar's whole length, 0 to 1.
    """

    met: float | None = None
    low: float = 0.0
    high: float = 0.0
    needle: float | None = None
    tone: str = "settled"


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell: its text, a line below it, a glyph before it, or a gauge instead. `spoken` is read out where text is not enough."""

    text: str = ""
    tone: str = "ink"
    strong: bool = False
    below: str = ""
    below_tone: str = "ink2"
    glyph: str = ""
    glyph_tone: str = "ink2"
    spoken: str = ""
    gauge: Gauge | None = None

    @property
    def said(self) -> str:
        """The cell as it is read out."""
        return self.spoken or ", ".join(part for part in (self.text, self.below) if part)


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its head, its width in pixels at 100 % (0 takes what is left), and whether it is set to the right."""

    title: str
    width: int = 0
    right: bool = False


@dataclass(frozen=True, slots=True)
class Row:
    """A row by the id of what it shows; `old` is set grey while it waits for a new answer."""

    id: str
    cells: tuple[Cell, ...]
    old: bool = False
    total: bool = False


@dataclass(frozen=True, slots=True)
class Group:
    """Rows under a head with a note and, by column, subtotals; a group without a title shows its rows only."""

    id: str
    title: str
    rows: tuple[Row, ...]
    note: str = ""
    note_tone: str = "ink2"
    subtotals: tuple[tuple[int, Cell], ...] = ()
    folds: bool = True
