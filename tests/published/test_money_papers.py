"""Published rules and examples of VAT, CIS and bills, through a job as it is priced and billed, down to the paper.

V: read in the official document; V2: on a page that reproduces it; M: from memory, and so not called published; X: printed wrong.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal

import pytest

from tundish.catalogue.book import Book
from tundish.catalogue.load import supplied_book
from tundish.catalogue.own_rules import HOURS, OwnRule
from tundish.catalogue.trader import VAT_ROUNDED, Trader
from tundish.documents import invoice, quote, terms_sheet
from tundish.estimate import Client, Estimate, Job, estimate
from tundish.field import Entry
from tundish.figure import number
from tundish.pricing.cis import HIRED, MATERIALS
from tundish.pricing.contract import contract_of
from tundish.pricing.invoice import Bill, Invoice, bill_of, bills_to_come
from tundish.pricing.pennies import penny
from tundish.pricing.terms import Extra, Terms
from tundish.pricing.vat import REASONS
from tundish.pricing.vat_rounding import ROUNDINGS
from tundish.pricing.work_out import price
from tundish.procurement.purchase import Buying
from tundish.rules.rule import LABOUR, Need
from tundish.store.keep import demo_jobs
from tundish.writers.text import as_text

TRADER = Trader(name="A. Trader", address="1 Yard\nZZ9 1AA", vat_number="GB 000 0000 00")
CLIENT = Client(name="B. Client", address="2 Street\nZZ9 2BB")
DAY = "2026-12-01"


def job(*extras: Extra, **terms: object) -> Estimate:
    """A job of these prices by hand, worked out."""
    made = Job(number="7", client=CLIENT, terms=Terms(extras=extras, **terms))  # type: ignore[arg-type]
    return estimate(made, replace(supplied_book(), trader=TRADER, date=DAY))


def costs(*nets: str) -> Sequence[Extra]:
    return [Extra(what=f"Part {place}", amount=Decimal(net)) for place, net in enumerate(nets, 1)]


def bills(worked: Estimate) -> tuple[Bill, ...]:
    contract = contract_of(worked.price, worked.job.terms, worked.job.agreed)
    return tuple(bill_of(each) for each in bills_to_come(contract, ()))


def billed(worked: Estimate) -> Invoice:
    """The whole of a job as one bill."""
    at_once = estimate(replace(worked.job, terms=replace(worked.job.terms, deposit=Entry(100), boarded=Entry(0))), worked.book)
    contract = contract_of(at_once.price, at_once.job.terms, at_once.job.agreed)
    (bill,) = bills_to_come(contract, ())
    return replace(bill, number="7-1", issued=DAY, supplied=DAY)


def printed(worked: Estimate, bill: Invoice) -> str:
    return " ".join(as_text(invoice.build(worked, bill)).split())


@pytest.mark.parametrize(("day", "gross", "top", "bottom"), [("2010-06-01", "117.50", 7, 47), ("2009-06-01", "115.00", 3, 23)])
def test_the_vat_fractions_of_earlier_rates(day: str, gross: str, top: int, bottom: int) -> None:
    """7/47 of what is paid at 17.5 %, 3/23 at 15 % (V2); their days are from memory."""
    worked = job(*costs("100"), quoted=day)
    assert worked.price.total == Decimal(gross)
    assert worked.price.vat == penny(Decimal(gross) * top / bottom)


@pytest.mark.parametrize("nets", [("0.10",), ("0.03", "0.03", "0.04"), ("33.33", "33.33", "33.34"), ("0.12", "0.02", "0.02", "0.02")])
def test_vat_is_rounded_on_the_total_half_up_unless_another_way_is_chosen(nets: tuple[str, ...]) -> None:
    """VATREC12010: the total of a bill may be rounded down, lines never to the penny below (V). Only the total is, half up.

    At 5 % ten pence have half a penny of VAT: it is asked for, which a trader who rounds down forgoes (VATREC12030, V).
    """
    worked = job(*costs(*nets), vat_reason="empty home")
    net = sum((Decimal(each) for each in nets), Decimal(0))
    assert worked.price.vat == penny(net / 20) == bill_of(billed(worked)).vat
    assert "half a penny rounded up (HMRC, VATREC12030)" in printed(worked, billed(worked))


@pytest.mark.parametrize(
    ("rounding", "vat", "said"),
    [
        ("on the total, to the nearest penny", "0.11", "on the total at each rate, to the nearest penny"),
        ("on the total, down to the penny", "0.10", "on the total, rounded down to the penny"),
        ("line by line, to the nearest penny", "0.12", "line by line, each to the nearest penny"),
    ],
)
def test_each_way_of_the_guidance_is_reached_through_a_job_and_said_on_its_bill(rounding: str, vat: str, said: str) -> None:
    """VATREC12010 (V): the total may go down; lines to the nearer penny among other ways; never lines down to whole pennies.

    Four lines of 0.53 at 5 % have 2.65p each, which is 3p to the nearest penny, and 10.6p in all.
    """
    worked = job(*costs("0.53", "0.53", "0.53", "0.53"), vat_reason="empty home", vat_rounding=rounding, client_is="a business")
    assert worked.price.vat == bill_of(billed(worked)).vat == Decimal(vat)
    paper = printed(worked, billed(worked))
    assert said in paper
    assert "VATREC1201" in paper or "VATREC12030" in paper
    assert said in " ".join(as_text(terms_sheet.build(worked)).split())
    assert {each.net for each in billed(worked).charges} == ({Decimal("0.53")} if rounding.startswith("line") else {Decimal("2.12")})


@pytest.mark.parametrize("rounding", VAT_ROUNDED)
def test_down_is_not_for_a_private_person(rounding: str) -> None:
    """VATREC12010 (V): the concession is for invoices where it is neutral; Notice 700, 6.10A (V2): retailers must not round down."""
    private, business = (job(*costs("10"), vat_rounding=rounding, client_is=who) for who in ("a private person at home", "a business"))
    assert ("terms.vat_rounding" in [each.path for each in private.problems]) == ROUNDINGS[rounding].down
    assert "terms.vat_rounding" not in [each.path for each in business.problems]


@pytest.mark.parametrize(("reason", "notice"), [("empty home", "two years"), ("conversion", "how many dwellings")])
def test_an_empty_home_or_a_conversion_is_at_five_and_materials_alone_at_twenty(reason: str, notice: str) -> None:
    """HMRC Notice 708, sections 8 and 7 (V2): labour and the materials supplied with it at 5 %, materials alone at 20 %."""
    alone = Extra(what="Spare tiles, not fitted", amount=Decimal(100), vat="standard rate")
    worked = job(*costs("1000"), alone, vat_reason=reason)
    assert [(each.percent, each.net, each.vat) for each in worked.price.vat_lines] == [
        (Decimal(20), Decimal(100), Decimal("20.00")),
        (Decimal(5), Decimal(1000), Decimal("50.00")),
    ]
    said = " ".join(as_text(quote.build(worked)).split())
    assert notice in said
    assert "materials only with the work" in said
    assert "HMRC's own guidance decides" in said
    assert [each.path for each in worked.problems] == ["terms.vat_evidence"], "what was seen is asked for"


def test_mobility_aids_are_at_five_and_the_rest_of_the_job_is_not() -> None:
    """HMRC, VAT for builders, mobility aids (V): grab rails and the like for a person over 60 at 5 %."""
    worked = job(*costs("1000"), Extra(what="Grab rails", amount=Decimal(100), vat="mobility aids over 60"))
    assert [(each.percent, each.vat) for each in worked.price.vat_lines] == [(Decimal(20), Decimal(200)), (Decimal(5), Decimal(5))]


def test_new_ware_for_old_is_outside_the_relief_and_the_paper_says_so() -> None:
    """VRDP11550 (V): swapping old sanitary ware for new is not within the relief of a disabled person's bathroom."""
    assert "like for like is not" in REASONS["disabled person's bathroom"].condition
    worked = job(*costs("1000"), vat_reason="disabled person's bathroom")
    assert (worked.price.vat, worked.price.total) == (Decimal(0), Decimal(1000))
    assert "like for like is not" in " ".join(as_text(terms_sheet.build(worked)).split())


def test_a_small_bill_has_all_that_a_simplified_one_needs() -> None:
    """SI 1995/2518, regulation 16A (V): up to £250 name, address, number, time, what it is, the total with VAT, rate and gross of each."""
    worked = job(*costs("200"))
    bill = billed(worked)
    assert bill_of(bill).total == Decimal(240) <= 250
    said = printed(worked, bill)
    for piece in ("A. Trader", "1 Yard", "GB 000 0000 00", "Supplied Tue 1 Dec 2026", "With your acceptance", "20", "£240.00"):
        assert piece in said, piece


def test_a_bill_shows_what_it_must() -> None:
    """gov.uk, what invoices must include (V): a number of its own, both names and addresses, what, both dates, amounts, VAT, total."""
    worked = job(*costs("1000"))
    said = printed(worked, billed(worked))
    for piece in (
        "Invoice 7-1",
        "B. Client",
        "2 Street",
        "Date Tue 1 Dec 2026",
        "Supplied Tue 1 Dec 2026",
        "1,000.00",
        "200.00",
        "£1,200.00",
    ):
        assert piece in said, piece


@pytest.mark.parametrize("extras", [(), (Extra(what="Part at five", amount=Decimal(40), vat="empty home"),)])
def test_a_mixed_job_is_all_under_the_reverse_charge(extras: tuple[Extra, ...]) -> None:
    """Labour and materials of one job: the reverse charge is on all of it, at 20 % and at 5 % (V2); the bill says for how much."""
    worked = job(*costs("4000", "1000"), *extras, vat="registered, reverse charge")
    assert worked.price.total == worked.price.before_vat
    assert all(not each.charged for each in worked.price.vat_lines)
    said = printed(worked, billed(worked))
    assert "Reverse charge: you account to HMRC for VAT at 20 %, £1,000.00 on £5,000.00" in said
    assert ("VAT at 5 %, £2.00 on £40.00" in said) == bool(extras)


def test_what_is_at_nought_is_not_under_the_reverse_charge() -> None:
    """The reverse charge is for supplies at 20 % or 5 % (V2, its conditions): there is nothing to account for at nought."""
    worked = job(*costs("1000"), vat="registered, reverse charge", vat_reason="disabled person's bathroom")
    assert [(each.percent, each.charged) for each in worked.price.vat_lines] == [(Decimal(0), True)]
    assert "you account" not in printed(worked, billed(worked))


def test_a_contractor_keeps_a_fifth_of_what_is_paid_for_labour_at_an_earlier_rate() -> None:
    """A published example (V2): labour 100.00 and 17.5 % VAT are 117.50; 20 % CIS is 20.00; 97.50 is paid."""
    terms = Terms(labour_rate=Decimal(50), quoted="2010-06-01", cis="CIS, registered, 20 %")
    made = price((Need(number(2, "h"), "first fix", "work", role=LABOUR),), Buying((), (), ()), terms)
    assert (made.before_vat, made.vat, made.total) == (Decimal(100), Decimal("17.50"), Decimal("117.50"))
    assert (made.kept_back, made.total - made.kept_back) == (Decimal(20), Decimal("97.50"))


@pytest.mark.parametrize(("status", "part"), [("registered, 20", "0.20"), ("not registered, 30", "0.30"), ("gross status, 0", "0")])
def test_materials_at_cost_their_carriage_and_hire_are_left_out_of_the_base(status: str, part: str) -> None:
    """HMRC COG909190, CISR13070 (V): what materials cost the subcontractor; mark-up stays in the base, hired plant does not (V2)."""
    worked = whole_job(OwnRule(every="job", allow="2 h", item=HOURS), cis=f"CIS, {status} %")
    carriage = sum(each.amount for each in worked.price.beside if each.kind == "carriage")
    base = worked.price.before_vat - worked.price.materials_cost - carriage
    assert sum(each.mark_up for each in worked.price.stages) > 0
    assert any(each.line.item.kind == "hire" for each in worked.buying.purchases)
    assert worked.price.cis.hired == Decimal(32), "the extractor, apart from the materials"
    assert worked.price.cis.base == base
    assert worked.price.kept_back == penny(base * Decimal(part))
    assert sum(each.total - each.due for each in bills(worked)) == worked.price.kept_back


@pytest.mark.parametrize(
    ("extra", "base"),
    [
        (Extra(what="Core drill, hired for a day", amount=Decimal(60), cis=HIRED), 1000),
        (Extra(what="Diesel for the heater", amount=Decimal(60), cis=HIRED), 1000),
        (Extra(what="Timber from the yard", amount=Decimal(60), cis=MATERIALS), 1000),
        (Extra(what="Timber, provisional", kind="provisional sum", amount=Decimal(60), cis=MATERIALS), 1000),
        (Extra(what="Use of my own saw", amount=Decimal(60)), 1060),
        (Extra(what="Parking", amount=Decimal(60)), 1060),
    ],
)
def test_hired_plant_is_left_out_of_the_base_and_ones_own_and_expenses_are_not(extra: Extra, base: int) -> None:
    """CISR15090 (V): plant hired from a third party and fuel for plant count as materials, plant of one's own does not."""
    worked = job(Extra(what="Work", amount=Decimal(1000)), extra, cis="CIS, registered, 20 %")
    assert (worked.price.cis.base, worked.price.kept_back) == (Decimal(base), Decimal(base) / 5)
    said = printed(worked, billed(worked))
    assert f"CIS, registered, 20 %: reckoned on £{base:,}.00, which is £1,060.00 without VAT less £{1060 - base}.00 for" in said
    assert sum(each.total - each.due for each in bills(worked)) == worked.price.kept_back


def test_travel_and_waste_are_part_of_what_is_reckoned_on() -> None:
    """CISR15080 (V): travel is part of the payment. No published list of what counts as materials names a skip."""
    hours, skip = OwnRule(every="job", allow="2 h", item=HOURS), OwnRule(every="job", allow="1", item="skip-4")
    without, skipped = (whole_job(hours, *more, cis="CIS, registered, 20 %") for more in ((), (skip,)))
    assert skipped.price.materials_cost > without.price.materials_cost
    assert skipped.price.cis.materials == without.price.cis.materials
    travelled = whole_job(hours, cis="CIS, registered, 20 %", travel=Decimal(10))
    assert travelled.price.cis.base == without.price.cis.base + 10 * sum(each.days for each in travelled.price.visits)


def whole_job(*rules: OwnRule, **terms: object) -> Estimate:
    """The demonstration cloakroom with rules of one's own and an extractor hired."""
    book: Book = supplied_book()
    demo = next(each for each in demo_jobs() if each.number == "101")
    hired = OwnRule(every="job", allow="1", item="hire-extractor")
    return estimate(replace(demo, terms=replace(demo.terms, **terms)), replace(book, own_rules=(*rules, hired)))  # type: ignore[arg-type]


@pytest.mark.parametrize(("client", "said"), [("a business", "within 30 days"), ("a private person at home", "within 14 days")])
def test_a_bill_is_due_in_the_usual_days(client: str, said: str) -> None:
    """gov.uk, late commercial payments: 30 days after the bill or the work where nothing is agreed (V2); the 14 are ours."""
    worked = job(*costs("100"), client_is=client)
    assert said in printed(worked, billed(worked))


def test_a_quotation_is_a_price_and_an_estimate_a_best_guess() -> None:
    """Consumer advice (V2): a quotation is a fixed price and binds; an estimate is a best guess, and a reasonable sum is paid."""
    fixed, guess = (" ".join(as_text(quote.build(job(*costs("100"), offer=each))).split()) for each in ("a quotation", "an estimate"))
    assert "The price holds for the work described" in fixed
    assert "Estimate 7" in guess
    assert "not a fixed price" in guess


def test_a_home_has_fourteen_days_to_cancel() -> None:
    """SI 2013/3134, part 3 (V2): a contract made away from business premises may be cancelled within 14 days of the day after it."""
    said = " ".join(as_text(quote.build(job(*costs("100")))).split())
    assert "you may cancel within 14 days of the day it is agreed" in said
    assert "the Consumer Contracts Regulations 2013 decide" in said


def test_norms_taken_from_a_published_table_are_what_is_priced() -> None:
    """Man-hour norms (V2): a wall basin 1.75 h, a bidet 2.00 h; tiling 0.8 to 1.2 and boarding 0.25 to 0.35 h a square metre (M)."""
    book = supplied_book()
    worked = estimate(next(each for each in demo_jobs() if each.number == "102"), book)
    (bathroom,) = worked.rooms
    assert sorted(each.choice.kind for each in bathroom.placed) == ["basin", "bidet", "wc"]
    norms = {key: book.figure(f"labour.{key}").value for key in ("wc", "basin", "bidet", "seal", "tile_m2", "board_m2")}
    assert (norms["basin"], norms["bidet"]) == (1.75, 2.00)
    assert 0.8 <= norms["tile_m2"] <= 1.2
    assert 0.25 <= norms["board_m2"] <= 0.35
    second = next(each for each in worked.price.stages if each.stage == "second fix")
    assert second.hours.terms[0].figure.value == norms["wc"] + norms["basin"] + norms["bidet"] + norms["seal"]
