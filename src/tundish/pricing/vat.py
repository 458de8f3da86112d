"""VAT by reason and date, and in lines by rate.

Standard and reduced rates: VAT Act 1994 sections 2 and 29A with schedules 7A and 8, as HMRC's own pages give them. Which rate
a job falls under is for the trader and HMRC to settle: each reason says its condition and what to keep as evidence.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Final

from tundish.pricing.vat_rounding import NEAREST, in_pennies


@dataclass(frozen=True, slots=True)
class Reason:
    """Why a rate applies. `rates` are the per cents with the day each holds from, the earliest first."""

    words: str
    rates: tuple[tuple[str, Decimal], ...]
    condition: str = ""
    evidence: str = ""
    source: str = ""

    def on(self, day: str) -> Decimal:
        """The per cent on a day (ISO); the latest where there is no day."""
        held = [rate for start, rate in self.rates if not day or start <= day]
        return held[-1] if held else self.rates[0][1]


@dataclass(frozen=True, slots=True)
class VatLine:
    """One rate's part of a bill. `charged` is False where the customer accounts for it (domestic reverse charge)."""

    percent: Decimal
    net: Decimal
    vat: Decimal
    charged: bool = True

    @property
    def words(self) -> str:
        """What it is called on a bill."""
        rate = f"VAT at {self.percent.normalize():f} %"
        return rate if self.charged else f"Reverse charge: you account to HMRC for {rate}"


STANDARD: Final = "standard rate"
REASONS: Final[Mapping[str, Reason]] = {
    STANDARD: Reason(
        "Standard rate",
        (
            ("1991-04-01", Decimal("17.5")),
            ("2008-12-01", Decimal(15)),
            ("2010-01-01", Decimal("17.5")),
            ("2011-01-04", Decimal(20)),
        ),
        source="HMRC, VAT rates; the days of the earlier ones from memory",
    ),
    "empty home": Reason(
        "Home empty two years or more",
        (("2008-01-01", Decimal(5)),),
        "Nobody lived in it for the two years before the work starts; materials only with the work.",
        "Proof that it stood empty: electoral roll, council tax, a letter of the council's empty property officer.",
        "HMRC Notice 708, section 8, as quoted on an adviser's page",
    ),
    "conversion": Reason(
        "Conversion to another number of dwellings",
        (("2001-05-12", Decimal(5)),),
        "The work changes how many dwellings the building holds; materials only with the work.",
        "Plans and planning permission that show the number before and after.",
        "HMRC Notice 708, section 7, as quoted on an adviser's page; its first day from memory",
    ),
    "disabled person's bathroom": Reason(
        "Bathroom for a disabled person",
        (("1994-09-01", Decimal(0)),),
        "Provided, extended or adapted in the person's own home because the condition needs it; like for like is not.",
        "The person's own signed declaration of eligibility, kept with the invoice.",
        "VAT Act 1994, schedule 8, group 12, item 10; HMRC manual VRDP11550; its first day is that of the Act, from memory",
    ),
    "mobility aids over 60": Reason(
        "Mobility aids for a person over 60",
        (("2007-07-01", Decimal(5)),),
        "Grab rails, ramps, built-in shower seats and the like, supplied and fitted in the person's own home; not the rest of the job.",
        "A signed statement of age, and what was fitted.",
        "HMRC, VAT for builders: mobility aids; its first day from memory",
    ),
    "energy-saving materials": Reason(
        "Energy-saving materials",
        (("2022-04-01", Decimal(0)), ("2027-04-01", Decimal(5))),
        "Fitted in a dwelling; part of a bigger job takes the standard rate on the whole.",
        "The invoice with what was fitted and where.",
        "HMRC policy paper of 11 January 2024, VENSAV2080",
    ),
}
"""Every reason for a rate, by the name a job gives it."""


def by_rate(parts: Iterable[tuple[Decimal, Decimal]], *, charged: bool = True, rounding: str = NEAREST) -> tuple[VatLine, ...]:
    """Per cents and net amounts of lines as one line a rate, the highest first; how its VAT comes to pennies is one of ROUNDINGS.

    The reverse charge is for what is at the standard or a reduced rate: at nought there is nothing that the customer could account for.
    """
    lines = tuple(parts)
    nets: dict[Decimal, Decimal] = {}
    for percent, net in lines:
        nets[percent] = nets.get(percent, Decimal(0)) + net
    vat = in_pennies(lines, rounding)
    return tuple(VatLine(rate, nets[rate], vat[rate], charged or not rate) for rate in sorted(nets, reverse=True))
