"""What a paper says, line by line, so that a later issue of it can tell what changed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from difflib import SequenceMatcher

from tundish.documents.block import Block, Column, Document, FillIn, Paragraph, Points, Row, Table

_COLUMNS = (Column("What changes", "text", 1.6, "strong"), Column("Was", "text", 2, "quiet"), Column("Is now", "text", 2))
_ADDED, _GONE = "added", "left out"
_SAID = "In words"
_ALIKE = 0.5
"""How much of two sentences is to be the same for one to be the other changed."""
_DRAWN = "Only what is drawn"


@dataclass(frozen=True, slots=True)
class Said:
    """One line of a paper: what it is about, and what is said of it under which heads."""

    what: str
    cells: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Changed:
    """One line that says something else; `was` is empty where it is new, `now` where it is gone."""

    what: str
    was: str
    now: str


@dataclass(frozen=True, slots=True)
class Since:
    """The issue that a paper is compared with: its number, when it was made in words, and why there is another since."""

    number: str
    when: str
    why: tuple[str, ...] = ()


def changed(before: Iterable[Said], after: Iterable[Said]) -> tuple[Changed, ...]:
    """What is new or says something else, in the paper's order, then what is gone; lines that only moved have not changed."""
    was, now = dict(_keyed(before)), dict(_keyed(after))
    gone = [line for key, line in was.items() if key not in now]
    rows = []
    for key, line in now.items():
        if was.get(key) != line:
            like = was.get(key) or next((each for each in gone if _alike(each, line)), None)
            gone = [each for each in gone if each is not like]
            rows.append(_apart(line, like))
    return (*rows, *(Changed(line.what, _words(line.cells), _GONE) for line in gone))


def as_table(changes: Iterable[Changed], since: Since, most: int) -> Table:
    """The changes line by line; of more than are shown the rest is counted."""
    told = tuple(changes) or (Changed(_DRAWN, "", ""),)
    rows = tuple(Row((each.what, each.was, each.now)) for each in told[:most])
    rest = (Row((f"and {len(told) - most} more", "", "")),) if len(told) > most else ()
    return Table(_COLUMNS, (*rows, *rest), title=f"Changed since {since.number} of {since.when}")


def revised_quote(document: Document, number: str, since: Since, changes: Table) -> Document:
    """The quote as one that takes the place of another: that and why after its head, what changes before it is signed by its number."""
    head, *rest, last = document.blocks
    instead = Paragraph(f"This takes the place of {since.number} of {since.when}.", "strong")
    why: tuple[Block, ...] = (Points("Why it is changed", since.why),) if since.why else ()
    if isinstance(last, FillIn):
        last = replace(last, title=last.title.replace(f"quote {document.number} at", f"quote {number} at", 1))
    return replace(document, blocks=(head, instead, *why, *rest, changes, last))


def _keyed(lines: Iterable[Said]) -> Iterator[tuple[tuple[str, int], Said]]:
    """Lines by what they are about; of those about the same, by their order."""
    seen: dict[str, int] = {}
    for line in lines:
        seen[line.what] = seen.get(line.what, -1) + 1
        yield (line.what, seen[line.what]), line


def _alike(one: Said, other: Said) -> bool:
    """Whether two sentences are the same but for some words of them."""
    sentences = not one.cells and not other.cells
    return sentences and SequenceMatcher(None, one.what.split(), other.what.split(), autojunk=False).ratio() > _ALIKE


def _apart(line: Said, before: Said | None) -> Changed:
    if before is None:
        return Changed(line.what, "", _words(line.cells) or _ADDED)
    if not line.cells and not before.cells:
        return Changed(_SAID, before.what, line.what)
    one, other = dict(before.cells), dict(line.cells)
    heads = [head for head in dict.fromkeys((*one, *other)) if one.get(head) != other.get(head)]
    was, now = (tuple((head, cells[head]) for head in heads if head in cells) for cells in (one, other))
    return Changed(line.what, _words(was) or "–", _words(now) or "–")


def _words(cells: Iterable[tuple[str, str]]) -> str:
    return ", ".join(f"{head}: {words}" if head else words for head, words in cells)
