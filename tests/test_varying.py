"""Varying an agreed price: both sides are worked out afresh, and what is kept is what was agreed."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from tundish.catalogue.book import Book
from tundish.catalogue.load import supplied_book
from tundish.cutting.plan import Effort
from tundish.estimate import Job, estimate
from tundish.field import Entry, put, removed
from tundish.options import Option, differences
from tundish.pricing.cis import HIRED
from tundish.pricing.contract import contract_of
from tundish.pricing.terms import Extra
from tundish.pricing.variation import Agreed, Variation, difference_of, rows_agreed, standing_basis, sums_of
from tundish.store.codec import read_job, write_job
from tundish.store.keep import demo_jobs
from tundish.varying import agree, both_ways, offers, variation_of

BOOK = supplied_book()
DAY = "2026-12-01"
JOBS = {job.number: job for job in demo_jobs()}


def accepted(number: str) -> Job:
    job = JOBS[number]
    return replace(job, agreed=agree(estimate(job, BOOK), DAY))


def vary(job: Job, book: Book = BOOK) -> Variation | None:
    return variation_of(job, both_ways(job, book, Effort.QUICK), "2026-12-08")


def must_vary(job: Job, book: Book = BOOK) -> Variation:
    made = vary(job, book)
    assert made is not None
    return made


@pytest.mark.parametrize("number", sorted(JOBS))
def test_the_agreed_price_is_that_of_the_quote_and_unchanged_nothing_varies(number: str) -> None:
    job = accepted(number)
    price = estimate(job, BOOK).price
    assert sums_of(job.agreed.rows, job.terms).total == price.total
    contract = contract_of(price, job.terms, job.agreed)
    assert (contract.total, contract.kept_back) == (price.total, price.kept_back)
    assert [when for when, _ in contract.shares] == [each.when for each in price.payments]
    assert vary(job) is None


def test_an_appliance_left_out_is_taken_away_by_item_price_and_day() -> None:
    job = accepted("102")
    less = removed(put(job, "why_varied", " The bidet is not wanted. "), "rooms.0.design.appliances", 1)
    made = must_vary(less)
    assert (made.number, made.why, made.made) == ("102-V1", "The bidet is not wanted.", "2026-12-08")
    gone = {each.what for each in made.items if each.now is None}
    bidet = BOOK.items[job.rooms[0].design.appliances[1].ware]
    assert bidet.name in gone
    assert sums_of(difference_of(made), job.terms).net < 0
    before, after = both_ways(less, BOOK, Effort.QUICK)
    assert made.days_was == Entry(float(before.price.days))
    assert made.days_now == Entry(float(after.price.days))


def test_the_amounts_are_those_of_the_two_workings() -> None:
    job = removed(accepted("102"), "rooms.0.design.appliances", 1)
    made = must_vary(job)
    before, after = (estimate(one, BOOK) for one in (JOBS["102"], replace(JOBS["102"], rooms=job.rooms)))
    amounts = [{(line.item.name, line.own): line.amount.value for line in one.lines} for one in (before, after)]
    assert made.items
    for each in made.items:
        was, now = (one.get((each.what, each.own)) for one in amounts)
        assert (each.was and each.was.value, each.now and each.now.value) == (was, now)
    apart = after.price.before_vat - before.price.before_vat
    assert abs(sums_of(difference_of(made), job.terms).net - apart) <= Decimal("0.05")


def test_what_is_chosen_otherwise_is_told_in_the_words_of_the_form() -> None:
    job = accepted("104")
    full = must_vary(put(job, "rooms.0.design.prewall.height", "full"))
    assert full.changes == "Height: full, was part"
    wider = must_vary(put(job, "rooms.0.design.prewall.depth", Entry(240)))
    assert wider.changes == "Wall to frame front: 240 mm, was 235 mm"
    assert "left out" in must_vary(removed(job, "rooms.0.design.appliances", 1)).changes


def test_what_is_chosen_otherwise_is_told_of_the_right_appliance_beside_one_that_goes() -> None:
    job = accepted("102")
    was = job.rooms[0].design.appliances[2].top
    assert was is not None
    made = must_vary(removed(put(job, "rooms.0.design.appliances.2.top", Entry(was.value + 31)), "rooms.0.design.appliances", 1))
    told = made.changes.splitlines()
    assert told[0].endswith(": left out")
    assert told[1:] == [f"Top above finished floor: {was.value + 31:,.0f} mm, was {was.value:,.0f} mm"]


def dearer(book: Book) -> Book:
    offers = {code: tuple(replace(each, price=each.price * 2) for each in rows) for code, rows in book.offers.items()}
    return replace(book, offers=offers)


def test_goods_that_doubled_in_price_make_no_variation_by_themselves() -> None:
    assert vary(accepted("101"), dearer(BOOK)) is None


def test_the_rates_are_those_that_were_agreed() -> None:
    job = accepted("101")
    assert vary(put(put(job, "terms.labour_rate", Decimal(90)), "terms.mark_up", Entry(80))) is None


def test_a_price_by_hand_is_a_row_of_its_own() -> None:
    job = accepted("101")
    extra = replace(job.terms, extras=(*job.terms.extras, Extra(what="Skip permit", amount=Decimal(85))))
    made = must_vary(replace(job, terms=extra))
    assert [(each.what, each.was, each.now) for each in made.rows] == [("Skip permit", Decimal(0), Decimal(85))]


@pytest.mark.parametrize("status", ["CIS, registered, 20 %", "CIS, not registered, 30 %", "CIS, gross status, 0 %"])
def test_a_contractor_keeps_its_part_of_the_work_that_a_variation_changes(status: str) -> None:
    job = put(JOBS["102"], "terms.cis", status)
    job = replace(job, agreed=agree(estimate(job, BOOK), DAY))
    hired = Extra(what="Breaker, hired", amount=Decimal(40), cis=HIRED)
    changed = replace(job.terms, extras=(*job.terms.extras, hired, Extra(what="Half a day more", amount=Decimal("150.01"))))
    one = must_vary(replace(job, terms=changed))
    assert one.base == Decimal("150.00"), "to a sum of which the part is whole pennies"
    two = must_vary(removed(job, "rooms.0.design.appliances", 1))
    assert two.base is not None
    assert two.base < 0
    for each in (one, two):
        varied = contract_of(estimate(job, BOOK).price, job.terms, job.agreed, (replace(each, accepted=DAY),))
        assert varied.base == (job.agreed.base or 0) + (each.base or 0)
        assert varied.kept_back == (job.agreed.kept_back or 0) + (each.kept_back or 0)


def test_what_was_agreed_without_its_base_is_reckoned_from_what_is_kept_back() -> None:
    job = put(JOBS["102"], "terms.cis", "CIS, registered, 20 %")
    whole = agree(estimate(job, BOOK), DAY)
    earlier = contract_of(estimate(job, BOOK).price, job.terms, replace(whole, base=None))
    assert earlier.kept_back == whole.kept_back
    assert abs(earlier.base - (whole.base or 0)) <= Decimal("0.025")


def test_each_variation_stands_on_those_accepted_before_and_never_on_one_withdrawn() -> None:
    job = removed(accepted("102"), "rooms.0.design.appliances", 1)
    refused = replace(must_vary(job), withdrawn=DAY)
    job = replace(job, variations=(refused,))
    again = must_vary(job)
    assert again.number == "102-V2"
    assert again.rows == refused.rows
    job = replace(job, variations=(refused, replace(again, accepted=DAY)))
    assert vary(job) is None
    assert standing_basis(job.agreed, job.variations).rooms == job.rooms
    back = replace(job, rooms=job.agreed.basis.rooms)
    third = replace(must_vary(back), accepted=DAY)
    paid = sums_of(rows_agreed(job.agreed, (*job.variations, third)), job.terms).total
    assert paid == sums_of(job.agreed.rows, job.terms).total, "there and back again costs nothing"


def test_what_is_agreed_and_varied_comes_back_from_a_job_file() -> None:
    job = removed(accepted("104"), "rooms.0.design.appliances", 1)
    made = must_vary(put(job, "why_varied", "line one\n<b>&{0}\u202e"))
    job = replace(job, variations=(made, replace(made, number="104-V2", withdrawn=DAY)), why_varied="half a reason")
    opened = read_job(write_job(job))
    assert opened.problems == ()
    assert opened.job == job


def test_a_job_that_was_never_agreed_is_written_as_before() -> None:
    assert b'"agreed": {' not in write_job(JOBS["101"])
    assert JOBS["101"].agreed == Agreed()


def test_a_quote_offers_the_job_and_each_option_at_the_price_it_shows() -> None:
    job = JOBS["102"]
    less = removed(job, "rooms.0.design.appliances", 1)
    job = replace(job, options=(Option(name="no bidet", changes=differences(job, less)),))
    worked = estimate(job, BOOK)
    plain, other = offers(worked, DAY)
    assert [each.option for each in (plain, other)] == ["", "no bidet"]
    assert sums_of(plain.agreed.rows, job.terms).total == worked.price.total
    assert sums_of(other.agreed.rows, job.terms).total == worked.options[0].price.total
    assert (plain.agreed.basis.rooms, other.agreed.basis.rooms) == (job.rooms, less.rooms)
    assert other.agreed.on == DAY
