"""The whole flow on one page: a job and a book in, an estimate out. Pure: no clock, disk, database or window."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import chain
from typing import Final, Literal

from tundish.catalogue.book import Book
from tundish.catalogue.item import NotHeldError
from tundish.catalogue.own import OwnItem, with_own
from tundish.cutting.plan import Effort
from tundish.cutting.plans import CutPlan, plans
from tundish.cutting.sawn import Sawn
from tundish.cutting.until import Stop, never
from tundish.field import Problem, flag, record, records, text
from tundish.layout.design import RoomPlan
from tundish.layout.room import Room
from tundish.options import Option, with_changes, words
from tundish.pricing.invoice import Invoice
from tundish.pricing.labour import crewed_terms, harder
from tundish.pricing.price import Price
from tundish.pricing.terms import Terms
from tundish.pricing.took import After
from tundish.pricing.validity import validity_problems
from tundish.pricing.variation import Agreed, Variation
from tundish.pricing.visits import visit_problems
from tundish.pricing.waits import waits
from tundish.pricing.work_out import charged_unregistered, price, problems
from tundish.procurement.choose import choose
from tundish.procurement.purchase import Buying
from tundish.procurement.unusable import unusable
from tundish.procurement.wishes import Wishes
from tundish.rules.rule import LABOUR, Caution, Decision, Finding
from tundish.survey.settled import BY, OwnRow, Settled
from tundish.takeoff.alternatives import Wanted, always, taken_off
from tundish.takeoff.by_hand import ByHand, LineByHand, changed
from tundish.takeoff.line import Line
from tundish.takeoff.listed import as_listed
from tundish.takeoff.own_rules import own_problems
from tundish.takeoff.run import Otherwise, RoomTake, merge, steady

MOST_STEPS: Final = 200
"""How many steps of a job can be undone, in the open one and as they are kept."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Client:
    """Who the work is for."""

    name: str = text("Client")
    address: str = text("Address", "One line each, postcode last.")
    phone: str = text("Phone")
    email: str = text("Email")
    vat_number: str = text("Their VAT number", "A business's, for the reverse charge: another program asks for it on your bill.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Begun:
    """The job as it stands while an option of it is made: what is changed meanwhile goes into the option, what is recorded does not."""

    on: bool = flag("An option is being made")
    rooms: tuple[RoomPlan, ...] = records("Rooms", RoomPlan)
    terms: Terms = record("Terms", Terms)
    buying: Wishes = record("Buying", Wishes)
    own_items: tuple[OwnItem, ...] = records("Ware typed from the maker's sheet", OwnItem)
    by_hand: tuple[LineByHand, ...] = records("Lines by hand", LineByHand)


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """One job: facts, choices and terms. `kept` holds what a newer or foreign file said and this program does not know."""

    number: str = text("Job number")
    title: str = text("Job")
    client: Client = record("Client", Client)
    rooms: tuple[RoomPlan, ...] = records("Rooms", RoomPlan)
    terms: Terms = record("Terms", Terms)
    buying: Wishes = record("Buying", Wishes)
    sawn: tuple[Sawn, ...] = records("Cut already", Sawn)
    settled: tuple[Settled, ...] = records("Before closing", Settled)
    own_rows: tuple[OwnRow, ...] = records("Before closing, of my own", OwnRow)
    own_items: tuple[OwnItem, ...] = records("Ware typed from the maker's sheet", OwnItem)
    by_hand: tuple[LineByHand, ...] = records("Lines by hand", LineByHand)
    options: tuple[Option, ...] = records("Options", Option)
    begun: Begun = record("As it stands while an option is made", Begun)
    invoices: tuple[Invoice, ...] = records("Invoices", Invoice)
    agreed: Agreed = record("Agreed", Agreed)
    variations: tuple[Variation, ...] = records("Variations", Variation)
    after: After = record("After the job", After)
    why_varied: str = text("Why the job changes", "Printed on the next variation, as the client reads it.")
    why_revised: str = text("Why the quote changes", "Printed on the next issue of the quote, as the client reads it.")
    note: str = text("Note")
    demo: str = text("Demo", "Set for the demonstration jobs: their papers carry DEMO.")
    kept: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class OptionPrice:
    """An option worked out as a job of its own: what it changes, in words, its price, and the titles of the checks it fails."""

    name: str
    note: str
    changes: tuple[str, ...]
    price: Price
    fails: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Estimate:
    """Everything worked out from one job with one book; `rooms` has one for each pre-wall of each room, in order."""

    job: Job
    book: Book
    rooms: tuple[Room, ...]
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    decisions: tuple[Decision, ...]
    cuts: tuple[CutPlan, ...]
    buying: Buying
    price: Price
    problems: tuple[Problem, ...]
    options: tuple[OptionPrice, ...] = ()
    by_hand: tuple[ByHand, ...] = ()
    otherwise: tuple[Otherwise, ...] = ()


def estimate(
    job: Job, book: Book, effort: Effort = Effort.QUICK, stop: Stop = never, wanted: Wanted = always, near: Estimate | None = None
) -> Estimate:
    """Work the whole job out; trouble is in `findings` and `problems`, never an exception.

    With `effort` QUICK the cut plans are sound at once; BEST looks for the cheapest, which may take seconds,
    PROOF for a proof as well; told to `stop`, they give the best so far. An estimate that is not `wanted` any more is left
    in the middle of its rooms, with a NotWantedError. A quick one stays as `near` another as it can: what is cut and wanted as it was
    there is cut and bought as it was, so that the two differ by what the jobs do.
    """
    supplied, book = book, with_own(book, job.own_items)
    named = zip(job.rooms, _told_apart(job.rooms), strict=True)
    every = tuple(_worked(plan, book, f"rooms.{place}", name, wanted) for place, (plan, name) in enumerate(named))
    worked = tuple(chain.from_iterable(each for each, _ in every))
    rooms, takes = tuple(room for room, _ in worked), tuple(take for _, take in worked)
    listed = changed(merge(takes), job.by_hand, book)
    takes = as_listed(worked, listed.lines, listed.made, book)
    lines = listed.lines
    cuts = plans(lines, book, effort, job.sawn, stop, near.cuts if near else ())
    buying = choose(lines, cuts, book, job.buying, effort, near.buying.purchases if near and near.job.buying == job.buying else ())
    hours = tuple(need for take in takes for need in take.needs if need.role == LABOUR)
    options, misfits = _options(job, supplied, effort, stop, wanted, near)
    terms = crewed_terms(job.terms, book.crew)
    priced = price(hours, buying, terms, waits(lines, rooms, book), harder(terms, book.figures), book.figure("visits.again"))
    return Estimate(
        job, book, rooms, lines,
        tuple(each for take in takes for each in take.findings),
        tuple(dict.fromkeys(each for take in takes for each in take.cautions)),
        (*_once(each for take in takes for each in take.decisions), *_of_my_own(job)),
        cuts, buying, priced,
        tuple(dict.fromkeys(chain(
            *(wrong for _, wrong in every), *(room.problems for room in rooms), *(take.problems for take in takes),
            unusable(lines, book), listed.problems, own_problems(book), problems(terms), charged_unregistered(terms, book.trader),
            validity_problems(buying, terms, book), visit_problems(priced, terms), misfits,
        ))),
        options, listed.made, tuple(each for take in takes for each in take.otherwise),
    )  # fmt: skip


def _options(
    job: Job, book: Book, effort: Effort, stop: Stop, wanted: Wanted, near: Estimate | None
) -> tuple[tuple[OptionPrice, ...], tuple[Problem, ...]]:
    """Every option by a real working of the job with its changes, and what of them no longer fits the job.

    The book is without the job's own ware: an option may change that too.
    """
    priced: list[OptionPrice] = []
    misfits: list[Problem] = []
    for place, option in enumerate(job.options):
        changed, wrong = with_changes(replace(job, options=()), option.changes)
        misfits += (Problem(f"options.{place}", f"{option.name}: {each.text}") for each in wrong)
        worked = estimate(changed, book, effort, stop, wanted, near)
        fails = tuple(dict.fromkeys(each.title for each in worked.findings if each.state == "fails"))
        priced.append(OptionPrice(option.name, option.note, words(job, option.changes), worked.price, fails))
    return tuple(priced), tuple(misfits)


MOST_REMEMBERED: Final = 512
_Worked = tuple[tuple[tuple[Room, RoomTake], ...], tuple[Problem, ...]]
"""A room at each of its pre-walls; or none, and why it could not be worked out."""
_REMEMBERED: Final[dict[tuple[int, int, str, str], tuple[RoomPlan, Book, _Worked]]] = {}

_LAST: Final[dict[str, RoomTake]] = {}
"""What each place was last found to need; only equal lines are ever taken from it."""


def _told_apart(plans: tuple[RoomPlan, ...]) -> Iterator[str]:
    """The names of the rooms; of several that were given one name each further one has its number, which no other room is called by."""
    given = {plan.name for plan in plans}
    taken: set[str] = set()
    for plan in plans:
        numbered = (f"{plan.name} {count}" for count in range(2, len(given) + len(taken) + 3))
        name = plan.name if plan.name not in taken else next(each for each in numbered if each not in given | taken)
        taken.add(name)
        yield name


def _worked(plan: RoomPlan, book: Book, path: str, name: str, wanted: Wanted) -> _Worked:
    """A room at each of its pre-walls, worked out and taken off, remembered: an edit in one room of a hundred works one room again.

    Plans and books never change, so the same objects give the same answer; holding them keeps their identity from being reused.
    """
    key = (id(plan), id(book), path, name)
    held = _REMEMBERED.get(key)
    if held is None or held[0] is not plan or held[1] is not book:
        called = plan if name == plan.name else replace(plan, name=name)
        held = (plan, book, _taken_off(called, book, path, wanted))
        while len(_REMEMBERED) >= MOST_REMEMBERED:
            _REMEMBERED.pop(next(iter(_REMEMBERED)), None)
        _REMEMBERED[key] = held
    return held[2]


def _taken_off(plan: RoomPlan, book: Book, path: str, wanted: Wanted) -> _Worked:
    try:
        return tuple((room, _steady(room, take)) for room, take in taken_off(plan, book, path, wanted)), ()
    except NotHeldError as fault:
        told = f"{plan.name or 'The room'} could not be worked out, and is not in lists and price: {fault}. Put it back on Catalogue."
        return (), (Problem(path, told),)


def _steady(room: Room, take: RoomTake) -> RoomTake:
    place = f"{room.path}/{room.place}"
    _LAST[place] = steady(take, _LAST.get(place))
    return _LAST[place]


def _once(decisions: Iterable[Decision]) -> Iterator[Decision]:
    """The decisions, none with another's key: pre-walls of a room may have been given one name."""
    seen: Counter[str] = Counter()
    for each in decisions:
        seen[each.key] += 1
        yield each if seen[each.key] == 1 else replace(each, key=f"{each.key}/{seen[each.key]}")


def _of_my_own(job: Job) -> Iterator[Decision]:
    """What the fitter wants settled besides: it rests on nothing, so it is opened again by hand alone."""
    for row in job.own_rows:
        by: Literal["By first fix", "By boarding"] = "By first fix" if row.by == BY[0] else "By boarding"
        yield Decision(row.key, row.what or "Of my own", row.why, by, row.shown_by or "as you say", "")
