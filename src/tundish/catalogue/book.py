"""The reference book an estimate is worked with: items, roles, kits, offers, stock, and the dated rule figures."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field

from tundish.catalogue.crew import Crew
from tundish.catalogue.item import Item, KitPart, NotHeldError, Offer, RackPiece, Supplier
from tundish.catalogue.own_rules import OwnRule
from tundish.catalogue.trader import Trader
from tundish.figure import Figure, Known
from tundish.measure import show_date


@dataclass(frozen=True, slots=True)
class RuleFigure:
    """One figure of the rule book: value, unit, who says so and since when. `changed` is the day the trader overruled it.

    `from_jobs`: how many finished jobs the trader's own value was taken over from; none where it was typed.
    """

    key: str
    value: float
    unit: str
    label: str
    source: str
    valid_from: str
    supplied: float
    changed: str = ""
    from_jobs: int = 0

    @property
    def changed_words(self) -> str:
        """When the trader changed it, and from how many finished jobs; nothing where it stands as supplied."""
        if not self.changed:
            return ""
        return f"changed {show_date(self.changed)}" + (f", from {self.from_jobs} jobs" if self.from_jobs else "")

    def figure(self) -> Figure:
        """It as a figure: a rule, or the trader's own rate once changed."""
        known = Known.TYPED if self.changed else Known.RULE
        return Figure(self.value, self.value, self.value, self.unit, self.label, known, note=self.source, when=self.valid_from)


class NotInBookError(NotHeldError):
    """The book was asked for something it does not hold."""

    def __init__(self, what: str) -> None:
        super().__init__(f"the catalogue and rule book do not hold {what}")


@dataclass(frozen=True, slots=True, eq=False)
class Book:
    """Everything that is looked up and not typed. Two books are the same only when they are the same object."""

    items: Mapping[str, Item]
    roles: Mapping[str, str]
    kits: Mapping[str, tuple[KitPart, ...]]
    suppliers: Mapping[str, Supplier]
    offers: Mapping[str, tuple[Offer, ...]]
    figures: Mapping[str, RuleFigure]
    stock: Mapping[str, float] = field(default_factory=dict)
    rack: tuple[RackPiece, ...] = ()
    date: str = ""
    trader: Trader = field(default_factory=Trader)
    favourites: frozenset[str] = frozenset()
    """Suppliers by key and offers by `Offer.key` that are taken where they sell what is wanted."""
    never: frozenset[str] = frozenset()
    """Suppliers and offers that are not bought from."""
    own_rules: tuple[OwnRule, ...] = ()
    """What the trader allows for on every job besides what the supplied rules ask for."""
    crew: Crew = field(default_factory=Crew)
    _made: dict[str, Figure] = field(default_factory=dict, init=False, repr=False, compare=False)
    """Figures of the rule book once they were asked for; a book with others begins with none."""

    def in_kit(self, code: str) -> tuple[KitPart, ...]:
        """What a kit holds, as far as it can be used: so much of what the book holds too."""
        return tuple(
            each for each in self.kits.get(code, ()) if each.item in self.items and each.item != code and 0 < each.amount < math.inf
        )

    def buys(self, offer: Offer) -> bool:
        """Whether an offer may be bought: its supplier is there, and neither is one that is never bought from."""
        return offer.supplier in self.suppliers and offer.supplier not in self.never and offer.key not in self.never

    def on_offer(self, item: str) -> tuple[Offer, ...]:
        """The offers of an item that hold today and may be bought; only favourites where there are any."""
        there = tuple(each for each in self.offers.get(item, ()) if each.valid(self.date) and self.buys(each))
        favourites = tuple(each for each in there if each.key in self.favourites or each.supplier in self.favourites)
        return favourites or there

    def item(self, code: str) -> Item:
        """The item with this code."""
        found = self.items.get(code)
        if found is None:
            raise NotInBookError(f"an item {code}")
        return found

    def role(self, role: str) -> Item:
        """The item that fills a role, such as "strut" or "grout"."""
        code = self.roles.get(role)
        if code is None:
            raise NotInBookError(f"anything for '{role}'")
        return self.item(code)

    def of_kind(self, *kinds: str) -> tuple[Item, ...]:
        """All items of these kinds, by name."""
        return tuple(sorted((each for each in self.items.values() if each.kind in kinds), key=lambda each: each.name))

    def figure(self, key: str) -> Figure:
        """A figure of the rule book."""
        made = self._made.get(key)
        if made is None:
            found = self.figures.get(key)
            if found is None:
                raise NotInBookError(f"a rule figure {key}")
            made = self._made[key] = found.figure()
        return made
