"""Who does the work, at what rate, and which of it: the trader, and people and trades beside."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Final

from tundish.field import choice, flag, money, records, text

DOES: Final = ("not there", "does it", "shares it", "helps")
"""What somebody is to a piece of work: in your place; the hours split with whoever does it; there as long as it takes, besides."""
WORKS: Final[Mapping[str, str]] = {
    "strip_out": "strip out",
    "first_fix": "first fix",
    "frames": "frames",
    "boarding": "boarding",
    "tiling": "tiling",
    "second_fix": "second fix",
    "making_good": "making good",
}
"""The pieces of work that somebody may do, by the input that says so. Tiling is the part of boarding that a tiler does."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Person:
    """Somebody beside the trader: a mate, a tiler. Rates are pounds an hour without VAT; blank pay is nothing to pay."""

    name: str = text("Called", "Mate, tiler, or a name.")
    rate: Decimal | None = money("Charged, £ an hour", "What an hour of theirs is in the price.", most=500)
    paid: Decimal | None = money("Costs you, £ an hour", "Wage with what comes on it, or what they bill you. Blank: nothing.", most=500)
    strip_out: str = choice("Strip out", DOES)
    first_fix: str = choice("First fix", DOES)
    frames: str = choice("Frames and pre-wall", DOES)
    boarding: str = choice("Boarding and tanking", DOES)
    tiling: str = choice("Tiling", DOES)
    second_fix: str = choice("Second fix", DOES)
    making_good: str = choice("Making good", DOES)
    own_way: bool = flag("Comes by own means", "No journey is priced for days on which nobody else comes: those days part your visits.")

    def does(self, work: str) -> str:
        """What they are to a piece of work, by its words."""
        return next((str(getattr(self, name)) for name, words in WORKS.items() if words == work), DOES[0])


@dataclass(frozen=True, slots=True, kw_only=True)
class Crew:
    """The trader's usual rate and usual people: what a job goes by that says nothing else."""

    rate: Decimal | None = money("Your own rate, £ an hour", "For jobs whose own labour rate is blank.", most=500)
    people: tuple[Person, ...] = records("People", Person)
