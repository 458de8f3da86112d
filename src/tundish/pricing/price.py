"""What the client pays and what the trader keeps, stage by stage. Money is Decimal, rounded half up to the penny, here only."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from tundish.figure import Figure
from tundish.pricing.cis import Reckoned
from tundish.pricing.vat import VatLine
from tundish.pricing.waits import Wait
from tundish.rules.rule import Stage


@dataclass(frozen=True, slots=True)
class Worked:
    """Somebody's part in a stage: hours, what an hour is charged at (None: not known), what it comes to, and what it costs the trader."""

    name: str
    hours: float
    rate: Decimal | None
    amount: Decimal
    paid: Decimal


@dataclass(frozen=True, slots=True)
class StagePrice:
    """One stage as the client sees it, and what is behind it. `hours` is a figure, the work by norms; money is without VAT.

    `people` have the hours that are charged: more than the work where one helps another. `lasts` is less than the work where it is shared;
    `works` has its pieces of work in their order, and how long each lasts.
    """

    stage: Stage
    name: str
    materials: Decimal
    mark_up: Decimal
    hours: Figure
    labour: Decimal
    contingency: Decimal
    price: Decimal
    overhead: Decimal = Decimal(0)
    rounding: Decimal = Decimal(0)
    people: tuple[Worked, ...] = ()
    lasts: float = 0.0
    works: tuple[tuple[str, float], ...] = ()

    @property
    def paid(self) -> Decimal:
        """What the people of the stage cost the trader."""
        return sum((each.paid for each in self.people), Decimal(0))


@dataclass(frozen=True, slots=True)
class Beside:
    """A row of the price beside the stages: delivery, visits, what was priced by hand, discount.

    `kind`: carriage, visits, cost, provisional sum, discount.
    """

    kind: str
    name: str
    amount: Decimal
    vat: str = ""
    """The reason for its own rate of VAT; empty: as the job."""


@dataclass(frozen=True, slots=True)
class Day:
    """One working day. `work`: stages by name with their hours; `waits`: why nothing else is done. `date` is ISO, or empty.

    `then`: what dries from the end of its work on. `visit`: the number of the trader's visit that it is a day of, 0 where the trader
    does not come; `begins`: the piece of work with which a visit begins on it.
    """

    number: int
    date: str = ""
    work: tuple[tuple[str, float], ...] = ()
    waits: str = ""
    then: str = ""
    visit: int = 0
    begins: str = ""

    @property
    def hours(self) -> float:
        """Hours on site."""
        return sum(hours for _, hours in self.work)


@dataclass(frozen=True, slots=True)
class Visit:
    """Days on end that the trader comes. `begins`: its first piece of work; `why`: what it is apart from the visit before for.

    `days` are journeys there and back, which with parking come to `journeys`. `again`: the hours to set up and clear up at it besides the
    norms, with what they are charged at as `labour`, what people cost for them as `paid`, and their `overhead`. `to_least`: what is
    wanting to the least charge for a visit. `amount` is what is charged, before VAT; `by_hand`: why it is not the sum of these.
    """

    number: int
    begins: str
    why: str
    days: int
    journeys: Decimal
    again: float
    labour: Decimal
    paid: Decimal
    overhead: Decimal
    to_least: Decimal
    amount: Decimal
    by_hand: str = ""

    @property
    def worked_out(self) -> Decimal:
        """What it comes to where nobody says otherwise."""
        return self.journeys + self.labour + self.overhead + self.to_least

    @property
    def costs(self) -> Decimal:
        """What it costs the trader, whatever is charged."""
        return self.journeys + self.paid + self.overhead


@dataclass(frozen=True, slots=True)
class Payment:
    """One payment, with VAT; they add up to what the client pays."""

    when: str
    percent: float
    amount: Decimal


@dataclass(frozen=True, slots=True)
class Price:
    """The price of a job. `not_priced` names lines without a price: they never count as nothing.

    `labour_priced` is False while somebody's rate is not known: their hours are then not in the price.
    Materials and carriage are what they cost the trader: with the suppliers' VAT where it cannot be reclaimed. `vat` is what is
    charged: nothing where the customer accounts for it. `cis`: what a contractor keeps back of the total, and of what it is reckoned.
    `visits` make the row of that kind among what stands beside. `waits`: what has to dry. `reach`: the fewest and the most working
    days, for all that is still to be confirmed.
    `break_even` is the price before VAT at which nothing is kept: materials, what stands beside, people paid and overhead. `least` is the
    one that keeps what the trader wants a day. What is kept an hour is by the hours that the job lasts.
    """

    stages: tuple[StagePrice, ...]
    beside: tuple[Beside, ...]
    before_vat: Decimal
    vat_lines: tuple[VatLine, ...]
    vat: Decimal
    total: Decimal
    cis: Reckoned
    payments: tuple[Payment, ...]
    not_priced: tuple[str, ...]
    labour_priced: bool
    materials_cost: Decimal
    hours: Figure
    kept: Decimal
    kept_an_hour: Decimal | None
    programme: tuple[Day, ...]
    visits: tuple[Visit, ...]
    waits: tuple[Wait, ...]
    reach: tuple[int, int]
    break_even: Decimal
    least: Decimal | None

    @property
    def kept_back(self) -> Decimal:
        """What a contractor keeps back of the total (CIS)."""
        return self.cis.kept_back

    @property
    def on_site(self) -> int:
        """Days of your own on site: those of waiting, or of others alone, are free for other work."""
        return sum(each.days for each in self.visits)

    @property
    def days(self) -> int:
        """Working days, those of waiting included."""
        return len(self.programme)

    @property
    def charges_vat(self) -> bool:
        """Whether VAT stands on the bill."""
        return any(each.charged for each in self.vat_lines)
