"""What must hold in every job: sums equal their parts, every need is met, every piece is cut once."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import replace
from decimal import Decimal

import pytest

from tundish.catalogue.load import supplied_book
from tundish.cutting.plan import BarPlan, Effort
from tundish.estimate import Estimate, Job, estimate
from tundish.layout.design import RoomPlan
from tundish.pricing.build_up import paid
from tundish.pricing.terms import Terms
from tundish.rules.rule import LABOUR
from tundish.store.codec import read_job, write_job
from tundish.store.keep import demo_jobs

JOBS = {job.number: job for job in demo_jobs()}
ODD = {
    "no room": Job(),
    "a blank room": Job(rooms=(RoomPlan(),)),
    "two rooms": replace(JOBS["101"], rooms=(*JOBS["101"].rooms, *JOBS["102"].rooms)),
    "no rate": replace(JOBS["101"], terms=Terms()),
}


@pytest.fixture(scope="module", params=[*JOBS, *ODD])
def worked(request: pytest.FixtureRequest) -> Estimate:
    return estimate((JOBS | ODD)[request.param], supplied_book(), Effort.BEST)


def test_no_demonstration_job_has_problems() -> None:
    assert [problem for job in JOBS.values() for problem in estimate(job, supplied_book()).problems] == []


def test_the_price_is_the_sum_of_its_stages(worked: Estimate) -> None:
    price = worked.price
    for stage in price.stages:
        assert stage.price == stage.materials + stage.mark_up + stage.labour + stage.contingency
    assert price.before_vat == sum((stage.price for stage in price.stages), sum((each.amount for each in price.beside), Decimal(0)))
    assert price.total == price.before_vat + price.vat
    assert sum((payment.amount for payment in price.payments), Decimal(0)) == price.total


def test_the_stages_hold_what_is_bought_and_the_orders_too(worked: Estimate) -> None:
    terms = worked.job.terms
    bought = sum((purchase.cost for purchase in worked.buying.purchases), Decimal(0))
    assert worked.price.materials_cost == sum((paid(purchase.cost, terms) for purchase in worked.buying.purchases), Decimal(0))
    assert sum((order.goods for order in worked.buying.orders), Decimal(0)) == bought
    carriage = sum((each.amount for each in worked.price.beside if each.kind == "carriage"), Decimal(0))
    assert carriage == sum((paid(order.carriage, terms) for order in worked.buying.orders), Decimal(0))


def test_every_need_is_met(worked: Estimate) -> None:
    for purchase in worked.buying.purchases:
        line = purchase.line
        if line.own or line.cuts or not purchase.priced:
            continue
        bought = sum(pick.offer.pack * pick.packs for pick in purchase.picks)
        held = purchase.from_kits.value + purchase.from_stock.value
        assert held + bought >= line.amount.value - 1e-6, line.item.name
        cheapest = min((pick.offer.pack for pick in purchase.picks), default=math.inf)
        assert held + bought - line.amount.value < cheapest + 1, f"{line.item.name}: a pack too many"


def test_nothing_is_taken_from_stock_or_kits_twice(worked: Estimate) -> None:
    for purchase in worked.buying.purchases:
        assert purchase.from_stock.value <= worked.book.stock.get(purchase.line.item.code, 0)


def test_what_the_client_supplies_costs_nothing(worked: Estimate) -> None:
    assert all(not purchase.cost for purchase in worked.buying.purchases if purchase.line.own)


def test_every_piece_is_cut_once(worked: Estimate) -> None:
    for plan in worked.cuts:
        if isinstance(plan.plan, BarPlan):
            cut = Counter(piece for bar in plan.plan.cuts for piece in bar.pieces)
        else:
            cut = Counter(place.piece for sheet in plan.plan.cuts for place in sheet.places)
        cut.update(plan.plan.unplaced)
        assert cut == dict.fromkeys(range(len(plan.cuts)), 1), plan.item.name


def test_lines_add_up_to_the_needs_of_the_rooms(worked: Estimate) -> None:
    for line in worked.lines:
        assert line.amount.value == pytest.approx(sum(need.amount.value for need in line.needs))
        assert all(need.role != LABOUR and need.rule for need in line.needs)


def test_a_job_comes_back_from_its_file(worked: Estimate) -> None:
    assert read_job(write_job(worked.job)).job == worked.job


def test_without_a_rate_the_price_says_materials_only() -> None:
    price = estimate(ODD["no rate"], supplied_book()).price
    assert not price.labour_priced
    assert all(stage.labour == 0 for stage in price.stages)


def test_an_edit_in_one_room_leaves_the_others_as_they_were() -> None:
    book = supplied_book()
    before = estimate(ODD["two rooms"], book)
    rooms = ODD["two rooms"].rooms
    after = estimate(replace(ODD["two rooms"], rooms=(replace(rooms[0], name="Other"), rooms[1])), book)
    assert after.rooms[1] is before.rooms[1]
    assert after.rooms[0] is not before.rooms[0]


def test_a_job_with_more_rooms_than_are_remembered_comes_out_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    book = supplied_book()
    before = estimate(ODD["two rooms"], book)
    monkeypatch.setattr("tundish.estimate.MOST_REMEMBERED", 1)
    assert estimate(ODD["two rooms"], replace(book)).price == before.price
