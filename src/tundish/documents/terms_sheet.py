"""The terms of a job as a sheet of their own: what is promised, paid, changed, left out, and what the client may do."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.documents.block import Block, Document, FillIn, Paragraph, Points
from tundish.documents.good_for import good_for
from tundish.documents.paper import lines_of, paper, quote_named, trader_of
from tundish.documents.promised import Promise, promised
from tundish.documents.quote import not_included
from tundish.documents.terms import OFFER, how_rounded, rights, terms_of_money
from tundish.estimate import Estimate

_CHANGES = (
    "Nothing is added, left out or changed without both of us agreeing it in writing with its price, before it is done.",
    "What comes to light when floor or wall is opened up is shown to you; I stop there until we have agreed what it costs.",
    "Heights are agreed on a sheet of their own. Once the wall is boarded they cannot be changed without opening it.",
)
_SITE = (
    "I need the room, the way to it, water and electricity from the first day, and somewhere dry for boxes.",
    "Water is off for parts of the day while pipes are joined. You are told before.",
    "Floors and the way in are covered; what is taken out is taken away unless you ask to keep it.",
)
_AFTER = (
    "Tell me of anything that is not right, and I come and look. What I did wrong I put right at my cost.",
    "Goods carry their makers' guarantees, which you are given with their papers.",
    "What I promise here comes on top of the rights that the law gives you, and takes none of them away.",
)


def build(estimate: Estimate) -> Document:
    """The sheet, with the trader's own terms as they typed them before what the law says."""
    job, own, promise = estimate.job, lines_of(trader_of(estimate).terms), promised(estimate)
    number = quote_named(job, "the quote for this work")
    blocks: tuple[Block, ...] = (
        Paragraph(f"These terms go with {number}, {job.title or 'as described there'}.", "strong"),
        Points("The price", tuple(_price(estimate, promise))),
        Points("Paying", tuple(_paying(promise))),
        Points("Changes", _CHANGES),
        Points("Not in the price", not_included(estimate)),
        Points("While I am there", _SITE),
        Points("Afterwards", _AFTER),
        *((Points("My own terms", own),) if own else ()),
        Points("What the law says, in short", tuple(rights(promise.terms))),
        Paragraph("These are summaries. Where they differ from the law, the law holds; ask a solicitor if in doubt.", "note"),
        FillIn("Read and agreed", (), ("Client", "Date", "Fitter", "Date")),
    )
    return paper(estimate, "terms", "Terms", blocks)


def _price(estimate: Estimate, promise: Promise) -> Iterator[str]:
    terms = promise.terms
    yield OFFER[terms.offer]
    if promise.accepted:
        yield promise.accepted
    elif dated := good_for(estimate):
        said = ", ".join((dated[0], *(f"{each[:1].lower()}{each[1:]}" for each in dated[1:])))
        yield f"{said}. Prices of goods may change after."
    yield from terms_of_money(promise)
    yield from how_rounded(promise.vat_lines, promise.terms.vat_rounding)


def _paying(promise: Promise) -> Iterator[str]:
    yield from (f"{each}." for each in promise.payments)
    yield "Each payment is asked for by a bill with a number of its own. Money paid is always receipted."
