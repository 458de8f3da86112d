"""The terms a job is priced on: the trader's rates and what was agreed about payment."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from tundish.catalogue.crew import WORKS, Person
from tundish.field import Entry, amount, choice, date, flag, money, records, text
from tundish.figure import Known
from tundish.pricing.cis import PARTS as CIS_PARTS
from tundish.pricing.cis import RATES as CIS_RATES
from tundish.pricing.vat import REASONS
from tundish.pricing.vat_rounding import ROUNDINGS

NOT_REGISTERED = "not registered"
REVERSE_CHARGE = "registered, reverse charge"
STEPS = {"the penny": Decimal("0.01"), "£1": Decimal(1), "£5": Decimal(5), "£10": Decimal(10)}
"""What the prices of stages are rounded to, by its words."""
HARDER = {name: f"labour.harder_{name}" for name in ("old_house", "carried", "narrow", "lived_in", "alone")}
"""What makes work harder, by the term that ticks it: the figure that says by how many per cent."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Extra:
    """Something priced by hand. A provisional sum is settled at cost once it is known; a cost is passed on as it is."""

    what: str = text("What", "As the client reads it: skip permit, hire of a core drill, floor repairs…")
    kind: str = choice("Kind", ("cost", "provisional sum"))
    amount: Decimal | None = money("Amount before VAT")
    vat: str = choice("VAT", ("as the job", *REASONS), "Where this part falls under another rate than the rest.")
    cis: str = choice(
        "For CIS it is",
        CIS_PARTS,
        "Materials at cost, plant hired from others and its fuel are left out of what a contractor keeps back; travel, waste and plant of"
        " your own are not.",
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class VisitByHand:
    """What a visit is charged at instead of what it comes to; without a reason nothing is changed."""

    begins: str = choice("The visit that begins with", tuple(WORKS.values()))
    amount: Decimal | None = money("Charged, before VAT", "All of the visit beside its stages: journeys, parking, setting up again.")
    why: str = text("Why")


@dataclass(frozen=True, slots=True, kw_only=True)
class Terms:
    """Rates, VAT, deposit and dates. Where neither the job nor the trader's own rates name a labour rate, labour is not priced."""

    labour_rate: Decimal | None = money("Labour rate, £ an hour", "Yours. Blank: your usual rate, on Rates and rules.", most=500)
    people: tuple[Person, ...] = records("People on this job", Person)
    charged_at: str = choice(
        "Materials are charged at", ("bought cost", "used cost"), "Whole packs, bars and sheets, or only what the job uses of them."
    )
    mark_up_as: str = choice("Materials are raised by", ("mark-up on cost", "margin of price"), "What the per cent below is of.")
    mark_up: Entry | None = amount(
        "Mark-up on materials", "%", most=500, usual=0, likely=(0, 60), help="On cost. 25 % mark-up is 20 % margin.", known=Known.RATE
    )
    contingency: Entry | None = amount(
        "Contingency", "%", most=100, usual=0, likely=(0, 20), help="Added to materials and labour.", known=Known.RATE
    )
    difficulty: Entry | None = amount(
        "Harder than usual by",
        "%",
        least=-50,
        most=200,
        usual=0,
        likely=(-10, 60),
        help="Whatever else makes it harder, beside what is ticked: added to the hours.",
        known=Known.RATE,
    )
    old_house: bool = flag("Old house", "Nothing square, lath and plaster: adds to the hours by the per cent on Rates and rules, Labour.")
    carried: bool = flag("Up stairs, or carried far", "Adds to the hours by the per cent on Rates and rules, Labour.")
    narrow: bool = flag("No room to work in", "Adds to the hours by the per cent on Rates and rules, Labour.")
    lived_in: bool = flag("Lived in meanwhile", "Adds to the hours by the per cent on Rates and rules, Labour.")
    alone: bool = flag("Working alone", "Adds to the hours by the per cent on Rates and rules, Labour.")
    overhead: Entry | None = amount(
        "Overhead", "%", most=200, usual=0, likely=(0, 40), help="Van, tools, insurance: on materials and labour.", known=Known.RATE
    )
    overhead_hour: Decimal | None = money("Overhead, £ an hour", most=500)
    travel: Decimal | None = money("Travel, £ a day", "There and back, for each day of a visit.", most=1_000)
    parking: Decimal | None = money("Parking, £ a day", "With tolls and charges for the van, for each day of a visit.", most=1_000)
    visit_least: Decimal | None = money("Least for a visit, £", "Journeys, parking and labour together never come to less.", most=5_000)
    visits: tuple[VisitByHand, ...] = records("Visits by hand", VisitByHand)
    discount: Entry | None = amount(
        "Discount", "%", most=100, usual=0, likely=(0, 15), help="Off everything but provisional sums.", known=Known.RATE
    )
    round_to: str = choice("Stage prices rounded to", tuple(STEPS))
    keep_a_day: Decimal | None = money(
        "To keep, £ a day", "What you want to keep for each day on site: the least price for it is shown.", most=10_000
    )
    vat: str = choice(
        "VAT",
        ("registered, 20 %", NOT_REGISTERED, REVERSE_CHARGE),
        "Not registered: the VAT on what you buy cannot be reclaimed, so it is in your cost.",
    )
    vat_rounding: str = choice(
        "VAT is rounded", tuple(ROUNDINGS), "HMRC asks you to keep to one way: the usual one is in Settings. Down is not for retailers."
    )
    vat_reason: str = choice("Rate of VAT", tuple(REASONS), "A lower rate has conditions: they are shown beside it, with what to keep.")
    vat_evidence: str = text("Evidence seen", "For a lower rate: what shows that its condition is met.")
    cis: str = choice("Construction Industry Scheme", tuple(CIS_RATES), "When you work for a contractor.")
    offer: str = choice("This is", ("a quotation", "an estimate"), "A quotation binds once accepted; an estimate is your best judgement.")
    client_is: str = choice("The client is", ("a private person at home", "a business"), "It decides which rights and terms are printed.")
    pay_days: Entry | None = amount(
        "Bills are due within",
        "day",
        most=180,
        whole=True,
        likely=(0, 60),
        help="Blank: 30 for a business, 14 for a private person.",
        known=Known.RATE,
    )
    base_rate: Entry | None = amount(
        "Bank of England base rate",
        "%",
        most=30,
        likely=(0, 10),
        help="For interest on late bills of a business. Blank: that of the half-year in which the bill became late.",
        known=Known.RATE,
    )
    stated: str = date("Statement as of", "Which bills are late, and what that comes to, on this day. Blank: today.")
    extras: tuple[Extra, ...] = records("Priced by hand", Extra)
    deposit: Entry | None = amount("With acceptance", "%", most=100, usual=30, likely=(0, 50), known=Known.RATE)
    boarded: Entry | None = amount("When the wall is boarded", "%", most=100, usual=35, likely=(0, 60), known=Known.RATE)
    valid_days: Entry | None = amount("Good for", "day", least=1, most=365, usual=30, whole=True, known=Known.RATE)
    hours_a_day: Entry | None = amount("Hours on site a day", "h", least=1, most=16, usual=7.5, likely=(6, 9), known=Known.RATE)
    start: str = date("Planned start")
    boarding: str = date("Boarding")
    quoted: str = date("Date of quote")
    not_included: str = text("Not in this price", "One a line.")
