"""The papers of the open job as they stand: which are ready, which wait on something, which changed since they were issued."""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Final

from tundish import measure
from tundish.documents.block import Document, Points
from tundish.documents.index import build_all
from tundish.documents.order_list import Placed
from tundish.estimate import Estimate
from tundish.store.keep import Paper

ORDERS: Final = "order"
"""What the keys of the order lists begin with."""
MOST_CHANGES: Final = 12
OPEN_WORDS: Final = ("TBC", "Still to be confirmed")
"""How a paper says that something on it is not settled."""


@dataclass(frozen=True, slots=True)
class Made:
    """A paper, and its text without the time of printing, by which it is compared."""

    document: Document
    text: str


@dataclass(frozen=True, slots=True)
class State:
    """The state of a paper in words, with the tone and glyph that go with them."""

    words: str
    tone: str = "ink2"
    glyph: str = ""


def make(estimate: Estimate, issued: Iterable[Paper] = (), placed: Sequence[Placed] | None = None) -> tuple[Made, ...]:
    """Every paper of a job with its orders as `placed`; takes a while, so it is done beside the window.

    A paper that says something else than when it was issued carries the next letter, and what changed.
    """
    from tundish.writers.text import as_text

    made, before = [], tuple(issued)
    for document in build_all(estimate, placed):
        text = as_text(document)
        made.append(Made(lettered(document, text, [paper for paper in before if paper.key == document.key]), text))
    return tuple(made)


def lettered(document: Document, text: str, issued: Sequence[Paper]) -> Document:
    """The paper under its number with the letter of its issue: none for the first, then a, b, c…; what changed stands at its end."""
    issues: list[Paper] = []
    for paper in issued:
        if not issues or issues[-1].text != paper.text:
            issues.append(paper)
    place = len(issues) - 1 if issues and issues[-1].text == text else len(issues)
    if place < 1:
        return document
    number, last = f"{document.number}{_letter(place)}", issues[place - 1]
    title = f"Changed since {document.number}{_letter(place - 1)} of {show_time(last.made)}"
    name = document.name.replace(document.number, number, 1) if document.number else f"{document.name} {number}"
    return replace(document, number=number, name=name, blocks=(*document.blocks, Points(title, what_changed(last.text, text))))


def what_changed(before: str, after: str) -> tuple[str, ...]:
    """The lines that are new or say something else, as they read now; those that are gone, as they read then."""
    lines = [line for line in difflib.ndiff(before.splitlines(), after.splitlines()) if line[:2] in {"+ ", "- "}]
    now = [" ".join(line[2:].split()) for line in lines if line.startswith("+ ") and _tells(line)]
    was = [" ".join(line[2:].split()) for line in lines if line.startswith("- ") and _tells(line)]
    said = [f"now: {line}" for line in now] + ([] if now else [f"no longer: {line}" for line in was])
    more = len(said) - MOST_CHANGES
    return (*said[:MOST_CHANGES], *((f"and {more} more lines",) if more > 0 else ()))


def _tells(line: str) -> bool:
    """Whether a line says something to a reader: not a rule, nor what a drawing is made of."""
    return any(letter.isalnum() for letter in line) and "[drawing" not in line


def _letter(place: int) -> str:
    """No letter for the first issue, then a to z, then aa and so on."""
    letters = ""
    while place > 0:
        place, rest = divmod(place - 1, 26)
        letters = chr(ord("a") + rest) + letters
    return letters


def state_of(made: Made, estimate: Estimate, issued: Iterable[Paper]) -> State:
    """The state of a paper: the last issue of it counts first, then what it still needs."""
    last = next((paper for paper in reversed(tuple(issued)) if paper.key == made.document.key), None)
    if last is not None:
        when = show_time(last.made)
        if last.text == made.text:
            return State(f"issued {when}", "settled", "tick")
        lines = changed_lines(last.text, made.text)
        return State(f"changed since {when}: {lines} {'line' if lines == 1 else 'lines'}", "tbc", "warn")
    needs = what_it_needs(made.document, estimate)
    if needs:
        return State(f"needs {needs}", "tbc", "dash")
    return State("ready, with TBC", "tbc", "half") if any(word in made.text for word in OPEN_WORDS) else State("ready", "settled", "tick")


def what_it_needs(document: Document, estimate: Estimate) -> str:
    """What is missing before a paper says anything, or nothing."""
    if not estimate.lines:
        return "a pan or a basin"
    if document.key == "quote" and not estimate.price.labour_priced:
        return "a labour rate"
    return "something to cut" if document.key == "cut-list" and not estimate.cuts else ""


def changed_lines(before: str, after: str) -> int:
    """How many lines are new or say something else."""
    return sum(line.startswith("+ ") for line in difflib.ndiff(before.splitlines(), after.splitlines())) or 1


def show_time(iso: str) -> str:
    """An ISO date and time as it is said: "Thu 12 Nov 19:40"."""
    return f"{measure.show_date(iso[:10], with_year=False)} {iso[11:16]}"


def printed_now() -> str:
    """The date and time that stand at the foot of a paper made now."""
    now = datetime.now()
    return f"{measure.show_date(now.date().isoformat())} {now:%H:%M}"
