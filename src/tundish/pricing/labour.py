"""Who works on a stage, for how many hours, at what rate; and how long it takes when several work at once."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Final

from tundish.catalogue.book import RuleFigure
from tundish.catalogue.crew import WORKS, Crew, Person
from tundish.field import Problem
from tundish.figure import Figure
from tundish.pricing.pennies import penny
from tundish.pricing.price import Worked
from tundish.pricing.terms import HARDER, Terms
from tundish.rules.rule import Need, Stage

YOU: Final = "You"
_EXACT: Final = 4


@dataclass(frozen=True, slots=True)
class Crewed:
    """The people of a stage with their hours, how many hours it lasts, and each piece of its work."""

    people: tuple[Worked, ...]
    lasts: float
    works: tuple[tuple[str, float], ...]


def crewed_terms(terms: Terms, crew: Crew) -> Terms:
    """The terms with the trader's usual rate and usual people where the job has none of its own."""
    rate = crew.rate if terms.labour_rate is None else terms.labour_rate
    return replace(terms, labour_rate=rate, people=terms.people or crew.people)


def harder(terms: Terms, figures: Mapping[str, RuleFigure]) -> tuple[Figure, ...]:
    """By how many per cent the work is harder, one figure for each thing that is ticked."""
    return tuple(figures[key].figure() for name, key in HARDER.items() if getattr(terms, name))


def crewed(stage: Stage, needs: Sequence[Need], hours: float, terms: Terms) -> Crewed:
    """The hours of a stage shared out among those who work on it, each piece of its work in proportion to its norm."""
    yours = Person(name=YOU, rate=terms.labour_rate)
    time: dict[int, float] = {}
    works: list[tuple[str, float]] = []
    for work, part in _parts(stage, needs, hours):
        did = [place for place, each in enumerate(terms.people) if each.does(work) == "does it"] or [len(terms.people)]
        sharing = [*did, *(place for place, each in enumerate(terms.people) if each.does(work) == "shares it")]
        helping = [place for place, each in enumerate(terms.people) if each.does(work) == "helps"]
        works.append((work, part / len(sharing)))
        for place in (*sharing, *helping):
            time[place] = time.get(place, 0.0) + part / len(sharing)
    people = (*terms.people, yours)
    order = sorted(time, key=lambda place: (place != len(terms.people), place))
    return Crewed(
        tuple(_worked(people[place], round(time[place], _EXACT)) for place in order),
        round(sum(each for _, each in works), _EXACT),
        tuple(works),
    )


def without_rate(terms: Terms) -> Iterator[Problem]:
    """People who work and have no rate: their hours are not in the price."""
    for place, each in enumerate(terms.people):
        if each.rate is None and any(each.does(work) != "not there" for work in WORKS.values()):
            yield Problem(f"terms.people.{place}.rate", f"{each.name or 'This person'} has no rate: those hours are not in the price")


def _parts(stage: Stage, needs: Sequence[Need], hours: float) -> Iterator[tuple[str, float]]:
    """The pieces of work of a stage, with the hours of each as they were rounded and made harder together."""
    plain: dict[str, float] = {}
    for need in needs:
        plain[need.work or stage] = plain.get(need.work or stage, 0.0) + need.amount.value
    whole = sum(plain.values())
    for work, part in plain.items():
        if part > 0:
            yield work, hours * part / whole


def _worked(person: Person, hours: float) -> Worked:
    time = Decimal(str(hours))
    amount, paid = (penny(time * (each or Decimal(0))) for each in (person.rate, person.paid))
    return Worked(person.name or "Somebody", hours, person.rate, amount, paid)
