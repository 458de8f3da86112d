"""What Where from shows, ready to paint: a figure, the lines that add up to it, what it moves, and at most three buttons."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class ReceiptLine:
    """One line: the glyph of its source, what it is, its amount as shown (signed), and a note below it.

    `source` is the spoken word of the mark ("measured"), or "" for an arrow. A line with a `link` opens the figure of that id.
    """

    source: str
    label: str
    amount: str = ""
    note: str = ""
    tone: str = ""
    is_subtotal: bool = False
    tbc: bool = False
    link: str = ""


@dataclass(frozen=True, slots=True)
class Section:
    """A part below the receipt: "What it moves", "If it were different", "Room to move", "The rule behind it"."""

    title: str
    lines: tuple[ReceiptLine, ...]


@dataclass(frozen=True, slots=True)
class Action:
    """A button at the foot: its id, words and glyph; the main one is filled and goes first."""

    id: str
    text: str
    glyph: str = ""
    main: bool = False


@dataclass(frozen=True, slots=True)
class OwnBox:
    """Where the trader can type a figure of his own: whose it is, its spoken name with unit, and what is typed there now or ""."""

    id: str
    name: str
    typed: str = ""


@dataclass(frozen=True, slots=True)
class WhereFromView:
    """A figure and its reason, ready to show; `came_from` says in words which figure a link led here from."""

    title: str
    value: str
    unit: str = ""
    floor: str = ""
    under_title: str = ""
    tag: str = ""
    tag_tone: str = "tbc"
    came_from: str = ""
    lines: tuple[ReceiptLine, ...] = ()
    note: str = ""
    note_glyph: str = "drop"
    sections: tuple[Section, ...] = ()
    warning: str = ""
    warning_glyph: str = "warn"
    actions: tuple[Action, ...] = ()
    own: OwnBox | None = None
    different: str = ""
    """The path of the input of which "If it were different" speaks, and its title; or the place of a check whose ways out it weighs."""
    different_title: str = ""
