"""How the trader wants to buy for a job: cheapest in all, all from one supplier, or here by a day."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from tundish.field import choice, date, text

CHEAPEST: Final = "cheapest in all"
ALL_FROM_ONE: Final = "all from one"
BY_A_DAY: Final = "here by a day"
AIMS: Final = (CHEAPEST, ALL_FROM_ONE, BY_A_DAY)


@dataclass(frozen=True, slots=True, kw_only=True)
class Wishes:
    """The aim, and what it needs: the supplier's key, or the day; and the days the job was accepted and done, "" for not yet."""

    aim: str = choice("Buy", AIMS, "The least money, then the fewest orders, then the soonest.")
    supplier: str = text("All from", "The key of the supplier; what is not sold there is bought elsewhere.")
    by: str = date("Here by")
    accepted: str = date("Accepted", "From then on its needs count in what is short across jobs.")
    done: str = date("Done", "From then on its needs are met, and it counts no more in what is short.")

    @property
    def under_way(self) -> bool:
        """Whether the job is accepted and not done."""
        return bool(self.accepted and not self.done)
