"""The keys that work on every page: one list, for the window and for the list that F1 twice shows."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from tundish.desktop.run import CLOSING, JOBS, PAGES

PAGE: Final = "page "
"""What the act of a page key begins with; the page's key follows."""


@dataclass(frozen=True, slots=True)
class Key:
    """A key, what it does in words, and the act it stands for."""

    keys: str
    words: str
    act: str


KEYS: Final = (
    *(Key(f"Alt+{place}", joint.title, PAGE + joint.key) for place, joint in enumerate(PAGES, 1)),
    Key("Alt+9", "Before closing", PAGE + CLOSING),
    Key("Alt+0", "Jobs", PAGE + JOBS),
    Key("F6", "Next part of the window", "next region"),
    Key("Shift+F6", "Last part of the window", "last region"),
    Key("F9", "Where the figure is from; Esc goes back to it", "where from"),
    Key("Ctrl+H", "Heights from the other floor", "floor"),
    Key("Ctrl+Z", "Undo", "undo"),
    Key("Ctrl+Y", "Do again", "redo"),
    Key("Ctrl+F", "Find anything", "find"),
    Key("Ctrl+P", "Print this page", "print"),
    Key("Ctrl++", "Larger text", "larger"),
    Key("Ctrl+=", "Larger text", "larger"),
    Key("Ctrl+-", "Smaller text", "smaller"),
    Key("F1", "What this is; twice, the list of keys", "help"),
)
IN_BOXES: Final = (
    ("Enter, Tab", "take the value and go to the next box"),
    ("Esc", "put the old value back"),
    ("Up, Down", "1 mm more or less; with Shift, 10"),
    ("Ctrl+T", "to be confirmed, or settled; a choice: this or that"),
    ("Ctrl+U", "use the usual size, marked assumed"),
    ("Ctrl+K", "say how the value is known"),
    ("Ins, Del", "add, remove"),
    ("F2", "edit a cell"),
    ("Space", "tick, or pick up a piece"),
)
"""Keys of boxes, lists and drawings, for the list only."""


def page_keys() -> tuple[str, ...]:
    """The pages that have a key of their own and stand in the Run."""
    return tuple(key.act.removeprefix(PAGE) for key in KEYS if key.act.startswith(PAGE) and key.act != PAGE + JOBS)


def sentences() -> tuple[str, ...]:
    """Every key with what it does, one a line."""
    pages = "Alt+1 to Alt+8: the pages, in their order. Alt+9: Before closing. Alt+0: Jobs."
    rest = [f"{key.keys}: {key.words}." for key in KEYS if not key.act.startswith(PAGE) and key.keys != "Ctrl+="]
    return (pages, *rest, *(f"{keys}: {words}." for keys, words in IN_BOXES))
