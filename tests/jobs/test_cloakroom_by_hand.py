"""The plain cloakroom against an account made by hand, without sight of the program: line by line."""

from __future__ import annotations

import tomllib
from decimal import Decimal
from pathlib import Path
from typing import Any, Final

import pytest

from tundish.catalogue.load import supplied_book
from tundish.cutting.plan import Effort
from tundish.estimate import Estimate, estimate
from tundish.procurement.purchase import Purchase
from tundish.store.keep import demo_jobs

BY_HAND: Final[dict[str, Any]] = tomllib.loads((Path(__file__).parent / "cloakroom_by_hand.toml").read_text(encoding="utf-8"))
WRITTEN_TO: Final = 0.06
"""The account is written to one place, a tenth of a millimetre."""
LINES: Final[list[dict[str, Any]]] = BY_HAND["lines"]


@pytest.fixture(scope="module")
def worked() -> Estimate:
    return estimate(next(job for job in demo_jobs() if job.number == "101"), supplied_book(), Effort.BEST)


@pytest.fixture(scope="module")
def purchases(worked: Estimate) -> dict[str, Purchase]:
    return {each.line.item.code: each for each in worked.buying.purchases}


@pytest.mark.parametrize("name", BY_HAND["heights"])
def test_every_height_depth_and_run(name: str, worked: Estimate) -> None:
    by_hand = BY_HAND["heights"][name]
    assert worked.rooms[0].figures[name].value == pytest.approx(by_hand["value"], abs=WRITTEN_TO), by_hand["because"]


def test_every_member(worked: Estimate) -> None:
    members = {member.mark: member.length.value for member in worked.rooms[0].members}
    assert members == pytest.approx({each["mark"]: each["length"] for each in BY_HAND["members"]}, abs=WRITTEN_TO)


def test_the_list_has_the_same_items(purchases: dict[str, Purchase]) -> None:
    assert sorted(purchases) == sorted(line["item"] for line in LINES)


@pytest.mark.parametrize("line", LINES, ids=[line["item"] for line in LINES])
def test_every_line_is_needed_met_and_bought_alike(line: dict[str, Any], purchases: dict[str, Purchase]) -> None:
    bought = purchases[line["item"]]
    if bought.line.item.kind != "board":  # the account counts the pieces, the program their area
        assert bought.line.amount.value == pytest.approx(line.get("exact", line["amount"]), abs=WRITTEN_TO), line["because"]
    assert bought.from_kits.value == line["from_kits"]
    assert bought.from_stock.value == pytest.approx(line["from_stock"], abs=WRITTEN_TO)
    assert {pick.offer.code: pick.packs for pick in bought.picks} == {pick["code"]: pick["packs"] for pick in line["buy"]}
    assert bought.cost == Decimal(line["cost"])


def test_every_check_passes(worked: Estimate) -> None:
    assert {check["state"] for check in BY_HAND["checks"]} == {"passes"}
    assert [finding.title for finding in worked.findings if finding.state != "passes"] == []


@pytest.mark.parametrize("stage", BY_HAND["price"]["stages"])
def test_every_stage_costs_alike(stage: str, worked: Estimate) -> None:
    by_hand = BY_HAND["price"]["stages"][stage]
    priced = next(each for each in worked.price.stages if each.stage == stage)
    shown = {"materials": priced.materials, "mark_up": priced.mark_up, "labour": priced.labour, "price": priced.price}
    assert shown == {name: Decimal(by_hand[name]) for name in shown}, by_hand["because"]


def test_carriage_vat_total_and_days(worked: Estimate) -> None:
    price, by_hand = worked.price, BY_HAND["price"]
    shown = {
        "carriage_total": sum(each.amount for each in price.beside if each.kind == "carriage"),
        "visits": sum(each.amount for each in price.beside if each.kind == "visits"),
        "before_vat": price.before_vat,
        "vat": price.vat,
        "total": price.total,
        "kept": price.kept,
    }
    assert shown == {name: Decimal(by_hand[name]) for name in shown}
    assert price.days == by_hand["days"]
    payments = (by_hand["payments"][name] for name in ("deposit", "boarded", "rest"))
    assert [each.amount for each in price.payments] == [Decimal(each["amount"]) for each in payments]
    assert {order.supplier.key: (order.goods, order.carriage) for order in worked.buying.orders} == {
        key: (Decimal(each["goods"]), Decimal(each["carriage"])) for key, each in by_hand["carriage"].items()
    }


def test_what_the_kits_hold_and_nobody_needs(worked: Estimate) -> None:
    left = {each.item.code: each.amount for each in worked.buying.left_over if "kit" in each.why}
    assert left == {"waste-adaptor-50-40": 1}
