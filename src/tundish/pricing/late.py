"""When a bill is due, and what a business owes that pays late: Late Payment of Commercial Debts (Interest) Act 1998, as gov.uk gives it.

Nothing of it is owed by a private person: the Act is for debts between businesses.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from typing import Final

from tundish.pricing.invoice import Invoice, bill_of
from tundish.pricing.pennies import penny
from tundish.pricing.terms import Terms

OVER_BASE: Final = Decimal(8)
"""Per cent a year over the Bank of England's base rate."""
A_BUSINESS: Final = "a business"
USUAL_DAYS: Final = 30
"""A business's bill is due so long after it, or after the work where that is later, where nothing else was agreed."""
PRIVATE_DAYS: Final = 14
"""A private person's (common practice)."""
FAIR_DAYS: Final = 60
"""Longer than this between businesses has to be fair to both."""
_YEAR: Final = 365
_FIXED: Final = ((Decimal(1000), Decimal(40)), (Decimal(10_000), Decimal(70)), (Decimal("Infinity"), Decimal(100)))
_BASE_RATES: Final = (
    ("2020-07-01", Decimal("0.10")),
    ("2022-01-01", Decimal("0.25")),
    ("2022-07-01", Decimal("1.25")),
    ("2023-01-01", Decimal("3.50")),
    ("2023-07-01", Decimal("5.00")),
    ("2024-01-01", Decimal("5.25")),
    ("2025-01-01", Decimal("4.75")),
    ("2025-07-01", Decimal("4.25")),
    ("2026-01-01", Decimal("3.75")),
)
"""The base rate of 31 December or 30 June, from the day it counts on, per cent: to January 2024 as a published table of reference rates
gives it, 3.75 for both halves of 2026 as published calculators do, the two of 2025 from memory."""


@dataclass(frozen=True, slots=True)
class Late:
    """A bill that is not paid in time, or was not. `percent` is a year's interest, `a_day` a day's to the penny, which the days go by."""

    due: str
    days: int
    percent: Decimal
    a_day: Decimal
    interest: Decimal
    fixed: Decimal

    @property
    def more(self) -> Decimal:
        """What may be asked besides the bill."""
        return self.interest + self.fixed


def base_rate(day: str, terms: Terms) -> Decimal:
    """The Bank's base rate that counts for a debt late from a day on: as typed, else of the half-year; the first or last known beyond."""
    if terms.base_rate is not None:
        return Decimal(str(terms.base_rate.value))
    held = [rate for start, rate in _BASE_RATES if not day or start <= day]
    return held[-1] if held else _BASE_RATES[0][1]


def pay_days(terms: Terms) -> int:
    """Days that there are to pay a bill: as agreed, else the usual ones of who the client is."""
    if terms.pay_days is not None:
        return round(terms.pay_days.value)
    return USUAL_DAYS if terms.client_is == A_BUSINESS else PRIVATE_DAYS


def due_of(invoice: Invoice, terms: Terms) -> str:
    """The last day to pay a bill, counted from it or from the work, the later; none without a day."""
    days = [each for each in (invoice.issued, invoice.supplied) if each]
    return (date.fromisoformat(max(days)) + timedelta(days=pay_days(terms))).isoformat() if days else ""


def paid_by(invoice: Invoice, day: str) -> bool:
    """Whether a bill was paid by a day; at all, where there is no day."""
    return bool(invoice.paid) and (not day or invoice.paid <= day)


def late_of(invoice: Invoice, terms: Terms, day: str) -> Late | None:
    """How late a bill is on a day, or was when it was paid before that, and what a business owes for it: nothing for a private person.

    None: not late, or nothing is asked for it: taken back, paid by a private person, or what was owed for it is settled.
    """
    due, debt = due_of(invoice, terms), bill_of(invoice).due
    until = min(day, invoice.paid) if invoice.paid else day
    paid = paid_by(invoice, day)
    if not due or not day or until <= due or invoice.credits or debt <= 0:
        return None
    if paid and (terms.client_is != A_BUSINESS or invoice.settled):
        return None
    days = (date.fromisoformat(until) - date.fromisoformat(due)).days
    if terms.client_is != A_BUSINESS:
        return Late(due, days, Decimal(0), Decimal(0), Decimal(0), Decimal(0))
    from_day = (date.fromisoformat(due) + timedelta(days=1)).isoformat()
    percent = OVER_BASE + base_rate(from_day, terms)
    a_day = day_of_interest(debt, percent)
    return Late(due, days, percent, a_day, a_day * days, fixed_sum(debt))


def day_of_interest(debt: Decimal, percent: Decimal) -> Decimal:
    """A day's interest on a debt, rounded to the penny before it is taken so many times, as gov.uk's example does."""
    return penny(debt * percent / 100 / _YEAR)


def fixed_sum(debt: Decimal) -> Decimal:
    """The sum that may be asked once for each late bill, besides interest."""
    return next(asked for below, asked in _FIXED if debt < below)
