"""One line of the materials list: so much of one item, with every reason kept."""

from __future__ import annotations

from dataclasses import dataclass

from tundish.catalogue.item import Item
from tundish.figure import Figure
from tundish.rules.rule import Cut, Need


@dataclass(frozen=True, slots=True)
class Line:
    """The total need of one item in a room or a whole job; `amount` has one term for each reason."""

    item: Item
    amount: Figure
    needs: tuple[Need, ...]
    own: bool = False

    @property
    def cuts(self) -> tuple[Cut, ...]:
        """All its pieces to be cut, in the order they were asked for."""
        return tuple(cut for need in self.needs for cut in need.cuts)

    @property
    def because(self) -> str:
        """Its reasons in a few words."""
        return "; ".join(dict.fromkeys(need.why for need in self.needs))
