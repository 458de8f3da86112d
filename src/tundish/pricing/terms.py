"""The terms a job is priced on: the trader's rates and what was agreed about payment."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from tundish.field import Entry, amount, choice, date, money, text


@dataclass(frozen=True, slots=True, kw_only=True)
class Terms:
    """Rates, VAT, deposit and dates. A blank labour rate means labour is not priced."""

    labour_rate: Decimal | None = money("Labour rate, £ an hour", most=500)
    mark_up: Entry | None = amount(
        "Mark-up on materials", "%", most=500, usual=0, likely=(0, 60), help="On cost. 25 % mark-up is 20 % margin."
    )
    contingency: Entry | None = amount("Contingency", "%", most=100, usual=0, likely=(0, 20), help="Added to materials and labour.")
    difficulty: Entry | None = amount(
        "Harder than usual by",
        "%",
        least=-50,
        most=200,
        usual=0,
        likely=(-10, 60),
        help="Old house, stairs, working alone: added to the hours.",
    )
    vat: str = choice(
        "VAT", ("registered, 20 %", "not registered"), "Not registered: the VAT on what you buy cannot be reclaimed, so it is in your cost."
    )
    deposit: Entry | None = amount("With acceptance", "%", most=100, usual=30, likely=(0, 50))
    boarded: Entry | None = amount("When the wall is boarded", "%", most=100, usual=35, likely=(0, 60))
    valid_days: Entry | None = amount("Good for", "day", least=1, most=365, usual=30, whole=True)
    hours_a_day: Entry | None = amount("Hours on site a day", "h", least=1, most=16, usual=7.5, likely=(6, 9))
    start: str = date("Planned start")
    boarding: str = date("Boarding")
    quoted: str = date("Date of quote")
    not_included: str = text("Not in this price", "One a line.")
