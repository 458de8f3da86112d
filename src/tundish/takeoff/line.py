"""One line of the materials list: so much of one item, with every reason kept."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import Final

from tundish.catalogue.item import WHOLE, Item
from tundish.figure import Figure
from tundish.rules.rule import Cut, Need

_OF_ONE: Final = re.compile(r"(?P<what>.+) (?P<whose>[A-Z]\w* \d+)")
"""A reason that ends with the name of an appliance: feet of WC 1."""


@dataclass(frozen=True, slots=True)
class Line:
    """The total need of one item in a room or a whole job; `amount` has one term for each reason."""

    item: Item
    amount: Figure
    needs: tuple[Need, ...]
    own: bool = False

    @property
    def needed(self) -> float:
        """How much of it; what is counted is needed whole."""
        return math.ceil(round(self.amount.value, 6)) if self.item.unit in WHOLE else self.amount.value

    @property
    def cuts(self) -> tuple[Cut, ...]:
        """All its pieces to be cut, in the order they were asked for."""
        return tuple(cut for need in self.needs for cut in need.cuts)

    @property
    def because(self) -> str:
        """Its reasons in a few words, what is said of several appliances once: feet of WC 1, Basin 1; 3 floor rails."""
        said: dict[str, list[str]] = {}
        for why in dict.fromkeys(need.why for need in self.needs):
            of_one = _OF_ONE.fullmatch(why)
            said.setdefault(of_one["what"] if of_one else why, []).extend([of_one["whose"]] if of_one else [])
        return "; ".join(f"{what} {', '.join(whose)}" if whose else what for what, whose in said.items())
