"""What a paper is made of: blocks in reading order, without any file format."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from tundish.catalogue.trader import COLOURS
from tundish.documents.drawing import Drawing

CellKind = Literal["text", "length", "count", "number", "area", "metres", "hours", "percent", "money", "tick", "blank"]
"""How a cell is shown: length whole mm, metres and area 2 places, hours in halves, money 2 places, tick an empty box."""


@dataclass(frozen=True, slots=True)
class Amount:
    """A number with a unit of its own, as it is shown: "2.05 m²", "1,200 mm", "14". In a column of words, where units differ."""

    words: str
    unit: str = ""

    @property
    def number(self) -> Decimal:
        """What is shown, without the unit."""
        return Decimal(self.words.removesuffix(self.unit).strip().replace(",", "").replace("−", "-"))


Value = str | int | float | Decimal | Amount | None


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its head, how its cells are shown, its share of the width, and whether it stands out or stays back."""

    head: str
    kind: CellKind = "text"
    share: float = 1.0
    tone: Literal["plain", "strong", "quiet"] = "plain"


@dataclass(frozen=True, slots=True)
class Row:
    """One row of cells, as many as there are columns. `tbc` marks it to be confirmed; `group` makes it a heading across."""

    cells: tuple[Value, ...]
    tbc: bool = False
    group: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Table:
    """Rows under columns. `totals` names the columns (by index) a total row adds up; spreadsheets write it as a formula."""

    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    totals: tuple[int, ...] = ()
    total_label: str = "Total"
    title: str = ""


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading; level 1 is the paper's own."""

    text: str
    level: int = 2


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Running text. `tone` "caution" is set in a ruled box, "note" smaller."""

    text: str
    tone: Literal["plain", "note", "caution", "strong"] = "plain"


@dataclass(frozen=True, slots=True)
class Points:
    """A short list under a title. `tbc`: it says what is still to be confirmed."""

    title: str
    items: tuple[str, ...]
    tbc: bool = False


@dataclass(frozen=True, slots=True)
class Sums:
    """Money set at the right: label and amount each; the last is the one that is paid. `after` is the table whose money they begin with."""

    rows: tuple[tuple[str, Decimal], ...]
    after: Table | None = None


@dataclass(frozen=True, slots=True)
class Facts:
    """Labels with values beside them, in columns: (heading, lines) each."""

    columns: tuple[tuple[str, tuple[str, ...]], ...]


@dataclass(frozen=True, slots=True)
class Sketch:
    """A drawing with a caption. `scale` 0 fits the width at a round scale that is stated; `share` is its part of the width.

    `told`: what the drawing says in words of its own, for where it is read and not seen; nothing is printed under such a drawing.
    """

    drawing: Drawing
    caption: str = ""
    scale: int = 0
    share: float = 1.0
    told: str = ""


@dataclass(frozen=True, slots=True)
class SideBySide:
    """Blocks set next to one another, left to right, in equal columns."""

    left: tuple[Block, ...]
    right: tuple[Block, ...]


@dataclass(frozen=True, slots=True)
class FillIn:
    """A ruled box to be filled in by hand: a title, sentences, and labels each followed by a line to write on."""

    title: str
    sentences: tuple[str, ...]
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class RulerCheck:
    """A 50 mm ruler: shows whether the print was scaled."""


@dataclass(frozen=True, slots=True)
class NextPage:
    """What follows begins a page."""


@dataclass(frozen=True, slots=True)
class Picture:
    """A photograph with what it shows. `key` names it where pictures are kept: whoever writes the paper is handed the bytes by it."""

    key: str
    caption: str = ""


@dataclass(frozen=True, slots=True)
class TrueSize:
    """A drawing at true size, on as many pages as it takes, each with the title, marks to join them by and a bar to measure.

    `warning` is written across every page: why nothing may be drilled from it yet.
    """

    drawing: Drawing
    title: str
    warning: str = ""


Block = Heading | Paragraph | Points | Sums | Facts | Table | Sketch | SideBySide | FillIn | RulerCheck | NextPage | Picture | TrueSize


@dataclass(frozen=True, slots=True)
class Event:
    """A whole day that a paper speaks of, for a calendar: its ISO date, a title, and words.

    `key` names it among all events of all jobs, and is the same on a draft and on each issue.
    """

    date: str
    title: str
    words: str = ""
    key: str = ""


@dataclass(frozen=True, slots=True)
class Document:
    """One paper. `name` is its file name without ending; `number` and `subtitle` stand at the top right."""

    key: str
    title: str
    number: str
    subtitle: str
    sender: str
    trade: str
    name: str
    foot: str
    blocks: tuple[Block, ...]
    demo: bool = False
    tables_only: bool = False
    """Whether a spreadsheet of it makes sense (order lists, cut lists, materials)."""
    drawn: bool = False
    """Whether a drawing program can use it: its drawings are to scale and say where things go."""
    events: tuple[Event, ...] = ()
    colour: str = COLOURS[0]
    """What its head is printed in."""
