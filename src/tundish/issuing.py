"""The papers of a job as they stand: which are ready, which wait on something, which changed since they were issued; and issuing them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Final

from tundish import measure
from tundish.documents.block import Document, FillIn
from tundish.documents.index import build_all
from tundish.documents.order_list import Placed
from tundish.documents.paper import lines_of
from tundish.documents.said import Said, Since, as_table, changed, revised_quote
from tundish.documents.still_open import still_open
from tundish.estimate import Estimate
from tundish.pricing.variation import Offer
from tundish.store.papers import Paper
from tundish.varying import offers

ORDERS: Final = "order"
"""What the keys of the order lists begin with."""
QUOTE: Final = "quote"
NUMBERED: Final = ("invoice-", "variation-")
"""What the keys of papers begin with that have a number of their own, which no letter may change."""
MOST_CHANGES: Final = 12
MOST_OF_QUOTE: Final = 60


@dataclass(frozen=True, slots=True)
class Made:
    """A paper, its text without the time of printing, by which it is compared, and the lines it says.

    `anew` says that it takes the place of another, `why` is the reason that stands on it for that; `offers` are what a quote offers.
    """

    document: Document
    text: str
    said: tuple[Said, ...] = ()
    why: str = ""
    offers: tuple[Offer, ...] = ()
    anew: bool = False


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
    from tundish.writers.said import lines_said
    from tundish.writers.text import as_text

    before = tuple(issued)
    made = (Made(document, as_text(document), lines_said(document)) for document in build_all(estimate, placed))
    return tuple(_finished(each, estimate, [paper for paper in before if paper.key == each.document.key]) for each in made)


def _finished(made: Made, estimate: Estimate, issued: Sequence[Paper]) -> Made:
    if made.document.key.startswith(NUMBERED):
        return made
    if made.document.key != QUOTE:
        return lettered(made, issued)
    return lettered(replace(made, offers=offers(estimate, ""), why=estimate.job.why_revised.strip()), issued)


def lettered(made: Made, issued: Sequence[Paper]) -> Made:
    """The paper under its number with the letter of its issue: none for the first, then a, b, c…; what changed stands on it.

    Printed once more it says what it said, for the reason that was given then.
    """
    issues: list[Paper] = []
    for paper in issued:
        if not issues or issues[-1].text != paper.text:
            issues.append(paper)
    again = bool(issues) and issues[-1].text == made.text
    place = len(issues) - 1 if again else len(issues)
    if again:
        made = replace(made, why=issues[-1].why)
    if place < 1:
        return replace(made, why="")
    document, last = made.document, issues[place - 1]
    number = f"{document.number}{_letter(place)}"
    name = document.name.replace(document.number, number, 1) if document.number else f"{document.name} {number}"
    since = Since(f"{document.title.lower()} {document.number}{_letter(place - 1)}".strip(), show_time(last.made), lines_of(made.why))
    changes = changed(last.said, made.said)
    if document.key == QUOTE:
        document = revised_quote(document, number, since, as_table(changes, since, MOST_OF_QUOTE))
    else:
        document = replace(document, blocks=(*document.blocks, as_table(changes, since, MOST_CHANGES)))
    return replace(made, document=replace(document, number=number, name=name), anew=not again)


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
        lines = len(changed(last.said, made.said)) or 1
        return State(f"changed since {when}: {lines} {'line' if lines == 1 else 'lines'}", "tbc", "warn")
    needs = what_it_needs(made.document, estimate)
    if needs:
        return State(f"needs {needs}", "tbc", "dash")
    return State("ready, with TBC", "tbc", "half") if still_open(made.document.blocks) else State("ready", "settled", "tick")


def is_issued(made: Made, issued: Iterable[Paper]) -> bool:
    """Whether a paper says what its last issue said."""
    last = next((paper for paper in reversed(tuple(issued)) if paper.key == made.document.key), None)
    return last is not None and last.text == made.text


def asks_why(made: Made) -> bool:
    """Whether a paper takes the place of one that the client has, and so says why."""
    return made.anew and made.document.key == QUOTE


def as_draft(document: Document) -> Document:
    """The paper as a copy that is not issued: that stands beside its number, in its name and at the foot of every page."""
    number, name = f"{document.number}, draft" if document.number else "draft", f"{document.name} draft"
    blocks = document.blocks
    if document.key == QUOTE and isinstance(blocks[-1], FillIn):
        sign = blocks[-1]
        asked = sign.title.replace(f"quote {document.number} at", f"quote {number}, at", 1)
        blocks = (*blocks[:-1], replace(sign, title=asked))
    return replace(document, number=number, name=name, foot=f"Draft, not issued · {document.foot}", blocks=blocks)


def as_paper(made: Made, name: str, revision: int, body: bytes) -> Paper:
    """What is kept of a paper that goes out now, made from a revision, with the bytes as they were written in a format."""
    now = datetime.now().isoformat(timespec="seconds")
    offered = tuple(replace(each, agreed=replace(each.agreed, on=now[:10])) for each in made.offers)
    return Paper(made.document.key, made.document.name, name, revision, now, made.text, body, made.said, made.why, offered)


def what_it_needs(document: Document, estimate: Estimate) -> str:
    """What is missing before a paper says anything, or nothing."""
    if not estimate.lines:
        return "a pan or a basin"
    if document.key == "quote" and not estimate.price.labour_priced:
        return "a labour rate"
    return "something to cut" if document.key == "cut-list" and not estimate.cuts else ""


def show_time(iso: str) -> str:
    """An ISO date and time as it is said: "Thu 12 Nov 19:40"."""
    return f"{measure.show_date(iso[:10], with_year=False)} {iso[11:16]}"


def printed_now() -> str:
    """The date and time that stand at the foot of a paper made now."""
    now = datetime.now()
    return f"{measure.show_date(now.date().isoformat())} {now:%H:%M}"
