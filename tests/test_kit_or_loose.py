"""Kit or loose: what it takes to finish with each frame, against jobs worked out with that frame."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from functools import lru_cache

import pytest

from tests.rules.test_cases import given, the_book
from tundish.catalogue.item import Offer
from tundish.estimate import Estimate, Job, estimate
from tundish.field import put
from tundish.kit_or_loose import Finish, finishes, framed
from tundish.layout.undecided import chosen

FRAME = "rooms.0.design.appliances.0.frame"


@lru_cache(maxsize=1)
def job() -> Job:
    return Job(rooms=(given({"room": "plain"})[0].plan,))


@lru_cache(maxsize=1)
def worked() -> Estimate:
    return estimate(job(), the_book())


def bought(one: Estimate) -> Decimal:
    return sum((order.goods + order.carriage for order in one.buying.orders), Decimal(0))


@lru_cache(maxsize=1)
def of_wc() -> dict[str, Finish]:
    return {each.frame.code: each for each in finishes(job(), the_book(), worked().rooms[0].framed[0])}


def test_every_frame_of_the_kind_is_there_and_one_is_chosen() -> None:
    assert set(of_wc()) == {item.code for item in the_book().of_kind("wc frame")}
    assert [each.frame.code for each in of_wc().values() if each.chosen] == ["frame-wc-1120"]
    assert of_wc()["frame-wc-1120"].reasons.partition(";")[0].startswith(("left over", "nothing"))


@pytest.mark.parametrize("code", ["frame-wc-1120", "frame-wc-bare", "frame-wc-820", "frame-wc-corner"])
def test_it_comes_to_what_the_job_comes_to_with_that_frame(code: str) -> None:
    one, with_it = of_wc()[code], estimate(put(job(), FRAME, code), the_book())
    assert (one.cost, one.price, one.hours) == (bought(with_it), with_it.price.before_vat, with_it.price.hours.value)


def test_what_the_kit_held_is_bought_loose_and_the_difference_is_accounted_for() -> None:
    one, kit = of_wc()["frame-wc-bare"], of_wc()["frame-wc-1120"]
    assert one.kit == ()
    loose = {item.code for item, _ in one.bought}
    assert {"pan-bend-90", "soil-adaptor-90-110", "pan-outlet-90", "fixing-set-m12", "tie-rod-medium"} <= loose
    carriage = one.cost - kit.cost - one.apart - sum(much for _, much in one.bought) + sum(much for _, much in one.spared)
    assert carriage == 0
    assert one.apart < 0
    assert "less" in one.reasons


def test_what_a_kit_holds_and_the_job_does_not_use_is_left_over() -> None:
    assert "2 Tie rod, reach 175 to 275, with bracket" in of_wc()["frame-wc-corner"].left_over


def test_the_best_comes_first_and_what_fails_last() -> None:
    order = list(of_wc().values())
    assert order == sorted(order, key=lambda each: (len(each.fails), len(each.looks), len(each.unpriced), each.cost, each.hours))


def test_a_frame_nobody_sells_is_said_to_have_no_price() -> None:
    offers: dict[str, tuple[Offer, ...]] = {code: few for code, few in the_book().offers.items() if code != "frame-wc-bare"}
    found = finishes(job(), replace(the_book(), offers=offers), worked().rooms[0].framed[0])
    bare = next(each for each in found if each.frame.code == "frame-wc-bare")
    assert found[-1] is bare
    assert "not priced: WC frame 1120 with cistern, fittings apart" in bare.reasons


def test_a_frame_that_is_still_open_is_settled_at_each() -> None:
    plan = chosen(job().rooms[0], "design.appliances.0.frame", ("frame-wc-1120", "frame-wc-820"))
    found = finishes(replace(job(), rooms=(plan,)), the_book(), worked().rooms[0].framed[0])
    assert {each.frame.code: each.cost for each in found} == {code: each.cost for code, each in of_wc().items()}


def test_only_what_can_hang_on_another_frame_is_compared() -> None:
    assert [one.name for one in framed(worked())] == ["WC 1", "Basin 1"]
    items = {code: item for code, item in the_book().items.items() if item.kind != "basin frame" or code == "frame-basin-1120"}
    assert [one.name for one in framed(estimate(job(), replace(the_book(), items=items, kits={}, offers={})))] == ["WC 1"]
