"""The whole flow: order of needs, odd jobs, what is remembered, what has no price."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from decimal import Decimal
from functools import lru_cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish.catalogue.book import Book
from tundish.catalogue.load import supplied_book
from tundish.cutting.plan import Effort
from tundish.cutting.plans import plans
from tundish.errors import NotWantedError
from tundish.estimate import Estimate, Job, estimate
from tundish.field import Entry, get, put
from tundish.layout.design import KINDS, Appliance, RoomPlan
from tundish.options import Option, differences
from tundish.pricing.terms import Terms
from tundish.procurement.choose import choose
from tundish.procurement.wishes import ALL_FROM_ONE
from tundish.store.keep import demo_jobs
from tundish.survey.settled import OwnRow, Settled, next_key
from tundish.takeoff.line import Line

RATE = Terms(labour_rate=Decimal(40))


@pytest.fixture(scope="module")
def book() -> Book:
    return supplied_book()


@pytest.fixture(scope="module")
def jobs() -> tuple[Job, ...]:
    return demo_jobs()


def adds_up(worked: Estimate) -> None:
    price = worked.price
    assert price.before_vat == sum((stage.price for stage in price.stages), sum((each.amount for each in price.beside), Decimal(0)))
    assert price.total == price.before_vat + price.vat
    assert sum((payment.amount for payment in price.payments), Decimal(0)) == price.total
    assert len(worked.buying.purchases) == len(worked.lines)


@pytest.mark.parametrize(
    "job",
    [
        Job(),
        Job(rooms=(RoomPlan(),)),
        Job(rooms=(RoomPlan(), RoomPlan()), terms=RATE),
        *(Job(rooms=(put(RoomPlan(), "design.appliances", (Appliance(kind=kind),)),), terms=RATE) for kind in KINDS),
        Job(rooms=(put(RoomPlan(), "design.appliances", tuple(Appliance(kind=kind, name="Same") for kind in KINDS * 3)),)),
        Job(rooms=(put(RoomPlan(), "design.appliances", (Appliance(kind="wc", ware="no such", frame="nor this"),)),)),
    ],
)
def test_odd_jobs_are_worked_out_and_add_up(job: Job, book: Book) -> None:
    adds_up(estimate(job, book))


@settings(deadline=None, max_examples=15)
@given(st.randoms(use_true_random=False))
def test_the_order_of_lines_changes_nothing_but_their_order(chance: object) -> None:
    book, job = supplied_book(), demo_jobs()[0]
    lines = list(estimate(job, book).lines)
    before = bought(tuple(lines), book)
    chance.shuffle(lines)  # type: ignore[attr-defined]  # it is a random.Random
    assert bought(tuple(lines), book) == before


def bought(lines: tuple[Line, ...], book: Book) -> tuple[Counter[str], Decimal]:
    buying = choose(lines, plans(lines, book), book)
    packs = Counter({pick.offer.code: pick.packs for purchase in buying.purchases for pick in purchase.picks})
    return packs, sum((order.goods + order.carriage for order in buying.orders), Decimal(0))


def test_the_order_of_rooms_changes_no_total(jobs: tuple[Job, ...], book: Book) -> None:
    rooms = tuple(room for job in jobs for room in job.rooms)
    one = estimate(Job(rooms=rooms, terms=RATE), book).price
    other = estimate(Job(rooms=rooms[::-1], terms=RATE), book).price
    assert one.materials_cost == other.materials_cost
    assert one.hours.value == pytest.approx(other.hours.value)


def test_what_has_no_price_is_named_and_in_no_sum(jobs: tuple[Job, ...], book: Book) -> None:
    whole = estimate(jobs[0], book)
    code = next(each.line.item.code for each in whole.buying.purchases if each.picks and not each.line.cuts)
    without = replace(book, offers={item: offers for item, offers in book.offers.items() if item != code})
    worked = estimate(jobs[0], without)
    assert book.item(code).name in worked.price.not_priced
    assert worked.price.materials_cost < whole.price.materials_cost
    adds_up(worked)


def test_nothing_that_is_never_bought_is_bought_to_be_cut_either(jobs: tuple[Job, ...], book: Book) -> None:
    job = next(each for each in jobs if each.number == "102")
    cut = [purchase for purchase in estimate(job, book).buying.purchases if purchase.line.cuts and purchase.picks]
    never = frozenset(pick.offer.key for purchase in cut for pick in purchase.picks)
    assert len(never) > 1
    worked = estimate(job, replace(book, never=never))
    assert not never & {pick.offer.key for purchase in worked.buying.purchases for pick in purchase.picks}
    unsold = [purchase for purchase in worked.buying.purchases if purchase.line.cuts and not purchase.picks and purchase.to_buy.value]
    assert unsold, "of one there is no other offer"
    assert not any(purchase.priced for purchase in unsold)


def test_the_clients_own_ware_costs_nothing(jobs: tuple[Job, ...], book: Book) -> None:
    def with_own(own: bool) -> Job:
        room = jobs[0].rooms[0]
        theirs = tuple(replace(each, own=own) for each in room.design.appliances)
        return replace(jobs[0], rooms=(put(room, "design.appliances", theirs),))

    own, ours = estimate(with_own(True), book), estimate(with_own(False), book)
    assert any(line.own for line in own.lines)
    assert all(not each.cost and each.priced for each in own.buying.purchases if each.line.own)
    assert own.price.materials_cost < ours.price.materials_cost


def test_one_room_of_many_edited_leaves_the_others_as_they_were(jobs: tuple[Job, ...], book: Book) -> None:
    rooms = tuple(replace(jobs[0].rooms[0], name=f"Room {number}") for number in range(6))
    before = estimate(Job(rooms=rooms), book)
    edited = put(rooms[3], "survey.room.width", Entry(2222))
    after = estimate(Job(rooms=(*rooms[:3], edited, *rooms[4:])), book)
    assert [one is other for one, other in zip(before.rooms, after.rooms, strict=True)] == [True, True, True, False, True, True]


def test_another_book_is_another_answer(jobs: tuple[Job, ...], book: Book) -> None:
    figure = book.figures["drainage.waste_fall"]
    steeper = replace(book, figures={**book.figures, figure.key: replace(figure, value=figure.value * 2)})
    one, other = estimate(jobs[0], book), estimate(jobs[0], steeper)
    assert one.rooms[0] is not other.rooms[0]
    assert one.rooms[0].figures != other.rooms[0].figures


def test_payments_of_more_than_the_whole_are_a_problem(jobs: tuple[Job, ...], book: Book) -> None:
    worked = estimate(replace(jobs[0], terms=Terms(deposit=Entry(80), boarded=Entry(40))), book)
    assert [problem.path for problem in worked.problems] == ["terms.boarded"]
    adds_up(worked)


def test_rooms_of_one_name_are_told_apart_and_settled_each_for_itself(jobs: tuple[Job, ...], book: Book) -> None:
    room = replace(jobs[0].rooms[0], name="Bathroom")
    bare = put(room, "design.appliances", ())
    job = replace(jobs[0], rooms=(bare, room, replace(room, name="Bathroom 2"), room), settled=())
    worked = estimate(job, book)
    assert [each.room_name for each in worked.rooms] == ["Bathroom", "Bathroom 3", "Bathroom 2", "Bathroom 4"]
    of = {
        name: {each.key for each in worked.decisions if each.place == name}
        for name in ("Bathroom", "Bathroom 2", "Bathroom 3", "Bathroom 4")
    }
    assert "bathroom-3/heights" in of["Bathroom 3"]
    assert not of["Bathroom"] & of["Bathroom 3"]
    assert len({each.key for each in worked.decisions}) == len(worked.decisions)
    fuller = estimate(replace(job, rooms=(room, *job.rooms[1:])), book)
    assert {each.key for each in fuller.decisions if each.place == "Bathroom 3"} == of["Bathroom 3"]


def test_rows_of_ones_own_stand_after_what_the_rules_ask_and_are_told_apart() -> None:
    rows = (OwnRow(key="own/1", what="Duct taped", why="It drips", by="By first fix", shown_by="Photo"), OwnRow(key="own/4"))
    found = estimate(Job(own_rows=rows), supplied_book()).decisions
    assert [(each.key, each.title, each.by, each.shown_by) for each in found] == [
        ("own/1", "Duct taped", "By first fix", "Photo"),
        ("own/4", "Of my own", "By first fix", "as you say"),
    ]
    assert found[0].titled(several=True) == "Duct taped"
    assert next_key(rows, (Settled(decision="own/2"),)) == "own/3"


def test_an_estimate_that_is_not_wanted_any_more_is_left_in_the_middle(jobs: tuple[Job, ...], book: Book) -> None:
    """Its room is another object, so that nothing is remembered of it."""
    job = replace(jobs[0], rooms=tuple(replace(each) for each in jobs[0].rooms))
    with pytest.raises(NotWantedError):
        estimate(job, book, wanted=lambda: False)
    assert estimate(job, book).lines


def moved(job: Job, appliance: int, size: str, by: float) -> Job:
    path = f"rooms.0.design.appliances.{appliance}.{size}"
    held = get(job, path)
    return put(job, path, replace(held, value=held.value + by))


@lru_cache(maxsize=1)
def settled() -> Estimate:
    """The family bathroom as it stands once the best was looked for."""
    return estimate(next(job for job in demo_jobs() if job.number == "104"), supplied_book(), Effort.BEST)


def packs(worked: Estimate) -> Counter[str]:
    return Counter({each.offer.code: each.packs for row in worked.buying.purchases for each in row.picks})


@pytest.mark.parametrize(("appliance", "size", "by"), [(0, "centre", 1), (0, "centre", 10), (1, "centre", -20), (1, "top", -30)])
def test_a_move_that_changes_nothing_that_is_bought_costs_nothing(appliance: int, size: str, by: float) -> None:
    was = settled()
    now = estimate(moved(was.job, appliance, size, by), was.book, near=was)
    assert packs(now) == packs(was)
    assert now.price.total == was.price.total


@pytest.mark.parametrize(
    ("appliance", "size", "by", "item"), [(1, "top", 20, "copper-15"), (0, "centre", 30, "tile-600x300-white")], ids=["pipe", "tiles"]
)
def test_a_move_that_takes_more_of_one_thing_costs_just_that(appliance: int, size: str, by: float, item: str) -> None:
    was = settled()
    now = estimate(moved(was.job, appliance, size, by), was.book, near=was)
    pairs = [
        (after, before) for after, before in zip(now.buying.purchases, was.buying.purchases, strict=True) if after.picks != before.picks
    ]
    ((after, before),) = pairs
    assert after.line.item.code == item
    assert after.bought > before.bought
    goods = [sum(each.goods + each.carriage for each in worked.buying.orders) for worked in (now, was)]
    assert goods[0] - goods[1] == after.bought - before.bought
    assert now.price.total > was.price.total


def test_an_option_is_priced_beside_the_job_as_it_stays_near() -> None:
    was = settled()
    option = Option(name="a little to the right", changes=differences(was.job, moved(was.job, 0, "centre", 10)))
    (priced,) = estimate(replace(was.job, options=(option,)), was.book, near=was).options
    assert priced.price.total == was.price.total


def test_other_wishes_are_not_answered_by_what_was_bought_before() -> None:
    was = settled()
    other = replace(was.job, buying=replace(was.job.buying, aim=ALL_FROM_ONE, supplier="oddmoor"))
    now = estimate(other, was.book, near=was)
    sold = {item for item, offers in was.book.offers.items() if any(each.supplier == "oddmoor" for each in offers)}
    assert {each.offer.supplier for row in was.buying.purchases if row.line.item.code in sold for each in row.picks} > {"oddmoor"}
    assert {each.offer.supplier for row in now.buying.purchases if row.line.item.code in sold for each in row.picks} == {"oddmoor"}


def test_better_cut_plans_than_the_search_finds_are_kept() -> None:
    was = settled()
    job = moved(was.job, 0, "centre", 1)
    assert all(
        kept.plan.cost_pence <= found.plan.cost_pence
        for kept, found in zip(estimate(job, was.book, Effort.BEST, near=was).cuts, estimate(job, was.book, Effort.BEST).cuts, strict=True)
    )
