"""Jobs in awkward states: long names, hostile words, two hundred lines, none, with options, not registered for VAT."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from typing import Any, Final, TypeVar

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item, Offer
from tundish.catalogue.load import supplied_book
from tundish.catalogue.trader import demo_trader
from tundish.estimate import Job, estimate
from tundish.field import Entry, fields_of, put
from tundish.options import Option, differences
from tundish.pricing.invoice import Charge, Invoice
from tundish.pricing.terms import NOT_REGISTERED, Extra
from tundish.store.keep import demo_jobs
from tundish.survey.shape import Photograph
from tundish.takeoff.by_hand import ADDS, LineByHand
from tundish.varying import agree, both_ways, variation_of

R = TypeVar("R")
LONG: Final = "Mrs Wilhelmina Featherstonehaugh-Ostlethwaite of Upper Harrowmere and the Old Counting House"
WORD: Final = "Donaudampfschifffahrtselektrizitaetenhauptbetriebswerkbauunterbeamtengesellschaft" * 2
HOSTILE: Final = '<b>&amp; "A" =1+1 שלום مرحبا 😀👩‍🔧 \u202eevil\u202c ✓ e\u0301 {0} %s $HOME C:\\x'
ENDLESS: Final = "pipe " * 2_000
NAMES: Final = frozenset({"decision", "rests_on", "item", "picture", "path", "value", "demo", "code", "key"})
"""What is said in letters but is no words: it names something."""


def states() -> dict[str, Callable[[], tuple[Job, Book]]]:
    """Each state by its name, made when it is asked for."""
    return {
        "long names": lambda: (said_everywhere(full(), LONG), named(LONG)),
        "one long word": lambda: (said_everywhere(full(), WORD), named(WORD)),
        "hostile": lambda: (said_everywhere(full(), HOSTILE), named(HOSTILE)),
        "endless": lambda: (said_everywhere(full(), ENDLESS), named(LONG)),
        "200 lines": lambda: lines(200),
        "no lines": lambda: (replace(_demo("101"), rooms=(), demo=""), supplied_book()),
        "nothing": lambda: (Job(), supplied_book()),
        "one option": lambda: (options(1), supplied_book()),
        "five options": lambda: (options(5), supplied_book()),
        "not registered": lambda: (put(_demo("102"), "terms.vat", NOT_REGISTERED), supplied_book()),
    }


def full() -> Job:
    """The bathroom round a corner with something of everything that prints."""
    job, book = _demo("104"), supplied_book()
    bill = Invoice(
        number="104-1", issued="2026-12-07", what="Deposit", charges=(Charge(what="Deposit", net=Decimal(700), percent=Decimal(20)),)
    )
    extras = (Extra(what="Skip permit", amount=Decimal(80)), Extra(what="Floor repairs", kind="provisional sum", amount=Decimal(250)))
    job = put(put(job, "terms.extras", extras), "rooms.0.survey.photographs", (Photograph(picture="x", note="stack"),))
    job = put(put(job, "terms.not_included", "Painting"), "invoices", (bill,))
    job = replace(options(3, job), agreed=agree(estimate(job, book), "2026-12-01"), why_varied="You asked for it.")
    job = put(job, "terms.extras", (*extras, Extra(what="Second skip", amount=Decimal(80))))
    made = variation_of(job, both_ways(job, book), "2026-12-08")
    return replace(job, variations=(made,) if made else (), why_varied="")


def options(count: int, job: Job | None = None) -> Job:
    """A job with so many options, each with another price."""
    job = job or _demo("102")
    made = []
    for place in range(count):
        other = put(job, "terms.extras", (*job.terms.extras, Extra(what=f"Extra {place + 1}", amount=Decimal(100 * (place + 1)))))
        made.append(Option(name=f"Option {place + 1}", note="As it says", changes=differences(job, other)))
    return put(job, "options", tuple(made))


def lines(count: int) -> tuple[Job, Book]:
    """The cloakroom with so many more lines of materials, each another item, all from one supplier."""
    book = supplied_book()
    supplier = next(iter(book.suppliers))
    kind, group = next((each.kind, each.group) for each in book.items.values() if each.unit == "each")
    items = [Item(f"more-{place:03}", f"Fitting {place:03}, brass, 15 × 22", kind, group, "each", {}) for place in range(count)]
    offers = {each.code: (Offer(each.code, supplier, each.code.upper(), 1, Decimal("1.25"), "2026-01-01"),) for each in items}
    book = replace(book, items={**book.items, **{each.code: each for each in items}}, offers={**book.offers, **offers})
    by_hand = tuple(LineByHand(item=each.code, does=ADDS, amount=Entry(place + 1.0), why="asked for") for place, each in enumerate(items))
    return put(_demo("101"), "by_hand", by_hand), book


def named(words: str) -> Book:
    """The supplied book, its trader, suppliers and items all called so."""
    book = supplied_book()
    items = {code: replace(each, name=words, words=dict.fromkeys(each.words, words)) for code, each in book.items.items()}
    suppliers = {
        key: replace(each, name=words, address="\n".join([words] * 3), phone=words, account=words) for key, each in book.suppliers.items()
    }
    return replace(book, items=items, suppliers=suppliers, trader=said_everywhere(demo_trader(), words))


def said_everywhere(record: R, words: str) -> R:
    """The record with the words in every input that is typed as words, and in all records within it."""
    changed: dict[str, Any] = {}
    for name, each in fields_of(type(record)).items():
        value = getattr(record, name)
        if each.kind == "text" and name not in NAMES:
            changed[name] = words
        elif each.kind == "record":
            changed[name] = said_everywhere(value, words)
        elif each.kind == "records":
            changed[name] = tuple(said_everywhere(one, words) for one in value)
    return replace(record, **changed)  # type: ignore[type-var]


def _demo(number: str) -> Job:
    """A demonstration job as one of the user's own."""
    return replace(next(job for job in demo_jobs() if job.number == number), demo="")
