"""What each visit comes to: journeys, parking, setting up again, the least charge; and what of it is charged otherwise by hand."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from itertools import takewhile
from typing import Final

from tundish.catalogue.crew import WORKS
from tundish.field import Problem
from tundish.figure import Figure, number
from tundish.pricing.build_up import part
from tundish.pricing.labour import Crewed, crewed
from tundish.pricing.pennies import penny
from tundish.pricing.price import Day, Price, StagePrice, Visit
from tundish.pricing.programme import AGAIN
from tundish.pricing.terms import Terms
from tundish.rules.rule import LABOUR, STAGES, Need, Stage

NO_TIME: Final = number(0, "h")
_THERE: Final = ("does it", "shares it", "helps")


def setting_up(again: Figure, terms: Terms) -> dict[str, Crewed]:
    """Who sets up again before each piece of work that the trader or the trader's own people come for; others come by own means.

    Tiling is a piece of work of its own, of the stage of boarding.
    """
    made = {}
    for work in WORKS.values():
        if not _by_own_means(work, terms):
            stage: Stage = next((each for each in STAGES if each == work), "boarding")
            made[work] = crewed(stage, (Need(again, stage, "set up again", role=LABOUR, work=work),), again.value, terms)
    return made


def visits(days: Sequence[Day], stages: Sequence[StagePrice], setting: Mapping[str, Crewed], terms: Terms) -> tuple[Visit, ...]:
    """Every visit of a programme with what it comes to.

    Time to set up is taken once more for each visit but the first: for that one it is in the norm of covering up, and the last
    clearing up is in that of making good. What a visit costs is the same whatever is charged for it.
    """
    return tuple(_visit(place, days, stages, setting, terms) for place, day in enumerate(days) if day.begins)


def visit_problems(price: Price, terms: Terms) -> Iterator[Problem]:
    """What is typed by hand for a visit and not used, with why."""
    begin = [each.begins for each in price.visits]
    for place, each in enumerate(terms.visits):
        at = f"terms.visits.{place}"
        if each.begins not in begin:
            yield Problem(f"{at}.begins", f"no visit begins with {each.begins}: this is not used")
        elif each.amount is None:
            yield Problem(f"{at}.amount", f"the visit for {each.begins} has no amount by hand: what it comes to is charged")
        elif not each.why.strip():
            yield Problem(f"{at}.why", f"say why the visit for {each.begins} is charged otherwise: until then what it comes to is charged")


def _by_own_means(work: str, terms: Terms) -> bool:
    there = [each for each in terms.people if each.does(work) in _THERE]
    return all(each.own_way for each in there) and any(each.does(work) == _THERE[0] for each in there)


def _visit(place: int, days: Sequence[Day], stages: Sequence[StagePrice], setting: Mapping[str, Crewed], terms: Terms) -> Visit:
    day = days[place]
    of_it = [each for each in days if each.visit == day.visit]
    journeys = ((terms.travel or Decimal(0)) + (terms.parking or Decimal(0))) * len(of_it)
    set_up = setting[day.begins] if day.visit > 1 else Crewed((), 0.0, ())
    labour = sum((each.amount for each in set_up.people), Decimal(0))
    time = Decimal(str(sum(each.hours for each in set_up.people)))
    overhead = penny(labour * part(terms, "overhead") + time * (terms.overhead_hour or Decimal(0)))
    comes_to = journeys + labour + overhead
    to_least = max((terms.visit_least or Decimal(0)) - comes_to - _labour(of_it, stages), Decimal(0))
    by_hand = next((each for each in terms.visits if each.begins == day.begins and each.amount is not None and each.why.strip()), None)
    amount = comes_to + to_least if by_hand is None or by_hand.amount is None else by_hand.amount
    return Visit(
        day.visit, day.begins, _why(days[:place]), len(of_it), journeys, set_up.lasts, labour,
        sum((each.paid for each in set_up.people), Decimal(0)), overhead, to_least, amount, by_hand.why.strip() if by_hand else "",
    )  # fmt: skip


def _labour(days: Sequence[Day], stages: Sequence[StagePrice]) -> Decimal:
    """What the work of these days is charged at, each stage by its part of the hours."""
    an_hour = {each.name: each.labour / Decimal(str(each.lasts)) for each in stages if each.lasts}
    return penny(sum((an_hour.get(name, Decimal(0)) * Decimal(str(hours)) for day in days for name, hours in day.work), Decimal(0)))


def _why(before: Sequence[Day]) -> str:
    """What is between a visit and the one before it: what dries, or the work of others."""
    between = list(takewhile(lambda day: not day.visit, reversed(before)))[::-1]
    said = dict.fromkeys(words for day in between for words in (day.waits, *(name for name, _ in day.work if name != AGAIN)) if words)
    return f"after {' and '.join(said).lower()}" if said else "the work begins"
