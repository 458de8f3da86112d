"""The whole flow on one page: a job and a book in, an estimate out. Pure: no clock, disk, database or window."""

from __future__ import annotations

from dataclasses import dataclass

from tundish import pricing, procurement, takeoff
from tundish.catalogue.book import Book
from tundish.cutting.plan import CutPlan
from tundish.field import Problem, record, records, text
from tundish.layout.design import RoomPlan
from tundish.layout.room import Room
from tundish.pricing.price import Price
from tundish.pricing.terms import Terms
from tundish.procurement.purchase import Buying
from tundish.rules.rule import Caution, Decision, Finding
from tundish.survey.settled import Settled
from tundish.takeoff.line import Line


@dataclass(frozen=True, slots=True, kw_only=True)
class Client:
    """Who the work is for."""

    name: str = text("Client")
    address: str = text("Address", "One line each, postcode last.")
    phone: str = text("Phone")
    email: str = text("Email")


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """One job: facts, choices and terms. `kept` holds what a newer or foreign file said and this program does not know."""

    number: str = text("Job number")
    title: str = text("Job")
    client: Client = record("Client", Client)
    rooms: tuple[RoomPlan, ...] = records("Rooms", RoomPlan)
    terms: Terms = record("Terms", Terms)
    settled: tuple[Settled, ...] = records("Before closing", Settled)
    note: str = text("Note")
    demo: str = text("Demo", "Set for the demonstration jobs: their papers carry DEMO.")
    kept: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Estimate:
    """Everything worked out from one job with one book."""

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
