"""Ordering: the ways to buy, what the van itself wants, and what goes to the merchant."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication, QFileDialog

from tests.desktop.fitter import WAIT_MS, Fitter
from tests.desktop.spoken_names import nameless
from tundish import measure
from tundish.desktop.order_rows import left_out_group
from tundish.desktop.order_state import placed_of
from tundish.desktop.pages.ordering import OrderingPage
from tundish.desktop.ways_to_buy import FIRST_FOUND
from tundish.documents.order_list import Placed, build_all
from tundish.estimate import Estimate
from tundish.procurement.wishes import ALL_FROM_ONE, BY_A_DAY
from tundish.store.ledger import Ledger, Reorder
from tundish.store.orders import Orders
from tundish.writers.text import as_text


def best(fitter: Fitter) -> Estimate:
    work = fitter.workspace
    fitter.qtbot.waitUntil(
        lambda: work.estimate is not None and work.estimate.book is work.book and bool(work.estimate.buying.reason), timeout=WAIT_MS
    )
    return fitter.settled()


def opened(fitter: Fitter) -> OrderingPage:
    fitter.open("102")
    fitter.settled()
    page = fitter.page("Alt+6")
    assert isinstance(page, OrderingPage)
    best(fitter)
    return page


def test_the_ways_to_buy_are_told_with_what_they_cost_and_the_one_taken_is_bought(fitter: Fitter) -> None:
    page = opened(fitter)
    cheapest = best(fitter).buying
    place = next(place for place, way in enumerate(page._ways.ways) if way.aim == ALL_FROM_ONE)
    assert "£" in page._way.itemText(place)
    page._take_way(place)
    fitter.qtbot.waitUntil(
        lambda: fitter.settled().buying.reason != cheapest.reason and bool(fitter.settled().buying.reason), timeout=WAIT_MS
    )
    assert "was asked for" in page._reason.text()
    page._take_day("30 Nov 2099")
    fitter.settled()
    assert fitter.workspace.job.buying.aim == BY_A_DAY
    page._take_day("Thursday")
    fitter.settled()
    assert date.fromisoformat(fitter.workspace.job.buying.by).isoweekday() == 4
    page._take_day("soon")
    assert "is not a day" in page._trouble.text()


def test_the_first_split_is_told_at_once_and_that_a_better_one_is_looked_for(fitter: Fitter) -> None:
    page = opened(fitter)
    found = best(fitter)
    page._ways.forget()
    first = replace(found, buying=replace(found.buying, ways=(), reason=""))
    page.show_estimate(first)
    (order_words,) = [page._way.itemText(place) for place in range(page._way.count())]
    whole = sum((order.goods + order.carriage for order in found.buying.orders), Decimal(0))
    assert order_words.startswith(f"Cheapest in all: {measure.show_money(whole)}, ")
    assert page._way.currentIndex() == 0
    assert page._reason.text() == FIRST_FOUND
    page.show_estimate(found)
    assert page._way.count() > 1
    assert page._reason.text() == found.buying.reason
    page.show_estimate(first)
    assert page._reason.text() == found.buying.reason, "the same is bought for the same reason"
    order, *rest = first.buying.orders
    fewer = replace(first, buying=replace(first.buying, orders=tuple(rest)))
    ways = page._way.count()
    page.show_estimate(fewer)
    assert (page._reason.text(), page._way.count()) == (FIRST_FOUND, ways)
    left = measure.show_money(whole - order.goods - order.carriage)
    assert page._way.currentText().startswith(f"Cheapest in all: {left}, ")
    page.show_estimate(replace(first, buying=replace(first.buying, orders=())))
    assert (page._reason.text(), page._way.count()) == ("", 0)


def test_what_is_under_its_level_is_offered_and_sent_for_the_van(fitter: Fitter) -> None:
    fitter.workspace.store.book()
    Ledger(fitter.workspace.store).set_reorder(Reorder("sound-pad", 100, 20))
    page = opened(fitter)
    (key,) = page._levels
    page.table.choose(f"level:sound-pad@{key}")
    fitter.press("Send order", page)
    (order,) = Orders(fitter.workspace.store).all("")
    assert (order.state, order.lines[0].item) == ("sent", "sound-pad")
    assert order.lines[0].packs * order.lines[0].pack >= 20


def test_an_order_is_copied_as_words_and_saved_as_xml(fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = opened(fitter)
    fitter.press("Copy order", page)
    words = QApplication.clipboard().text()
    assert all(one.pick.offer.code in words for one in page._still[page._supplier()])
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(tmp_path / "order.xml"), ""))
    fitter.press("Order XML", page)
    assert (tmp_path / "order.xml").read_text(encoding="utf-8").count("<cac:OrderLine>") == len(page._still[page._supplier()])


def test_a_job_is_accepted_and_taken_back(fitter: Fitter) -> None:
    page = opened(fitter)
    page._accepted.click()
    assert fitter.workspace.job.buying.accepted
    page._accepted.click()
    assert not fitter.workspace.job.buying.accepted


def test_a_job_that_is_done_may_be_accepted_again(fitter: Fitter) -> None:
    page = opened(fitter)
    fitter.workspace.set("buying.done", "2026-11-25")
    fitter.settled()
    assert (page._accepted.isChecked(), page._accepted.text()) == (False, "Job accepted, done Wed 25 Nov 2026")
    page._accepted.click()
    fitter.settled()
    buying = fitter.workspace.job.buying
    assert (bool(buying.accepted), buying.done) == (True, "")
    assert (page._accepted.isChecked(), page._accepted.text()) == (True, "Job accepted")


def test_what_is_never_bought_is_bought_elsewhere_or_not_at_all(fitter: Fitter) -> None:
    page = opened(fitter)
    key = page._supplier()
    offer = page._still[key][0].pick.offer
    page.table.choose(f"line:{offer.item}@{key}/0")
    page._never.click()
    fitter.qtbot.waitUntil(lambda: offer.key in fitter.workspace.book.never)
    bought = {pick.offer.key for order in best(fitter).buying.orders for _, pick in order.rows}
    assert offer.key not in bought


def test_what_is_never_bought_stays_in_sight_and_is_let_in_again(fitter: Fitter) -> None:
    """The only offer of a part was ticked away, and with it its line: nothing said so, and no tick took it back."""
    page = opened(fitter)
    key = page._supplier()
    picked = [one.pick.offer for one in page._still[key]]
    place, offer = next((place, each) for place, each in enumerate(picked) if len(fitter.workspace.book.on_offer(each.item)) == 1)
    page.table.choose(f"line:{offer.item}@{key}/{place}")
    page._never.click()
    fitter.qtbot.waitUntil(lambda: offer.key in fitter.workspace.book.never)
    best(fitter)
    (row,) = left_out_group(best(fitter)).rows
    assert (row.id, row.cells[-1].text) == (f"never:{offer.item}@{offer.key}", "never: in no order")
    asked: list[str] = []
    page.figure_asked.connect(asked.append)
    page.table.choose(row.id)
    assert page.table.chosen() == row.id
    page._chosen(row.id)
    assert asked[-1:] == [f"line:{offer.item}"]
    assert page._never.isChecked()
    page._never.click()
    fitter.qtbot.waitUntil(lambda: offer.key not in fitter.workspace.book.never)
    bought = {pick.offer.key for order in best(fitter).buying.orders for _, pick in order.rows}
    assert offer.key in bought
    assert not left_out_group(best(fitter)).rows


@pytest.mark.parametrize(
    ("typed", "words"), [("99", "1 at most; count what came beyond into stock"), ("0.5", "1 at most"), ("-1", "at most")]
)
def test_no_more_comes_in_than_is_to_come(fitter: Fitter, typed: str, words: str) -> None:
    page = opened(fitter)
    fitter.press("Send order", page)
    best(fitter)
    (order,) = Orders(fitter.workspace.store).all(fitter.workspace.job_key)
    asked: list[str] = []
    page.figure_asked.connect(asked.append)
    page.table.choose(f"order:{order.id}:{order.lines[0].id}")
    page._chosen(page.table.chosen())
    assert asked[-1] == f"line:{order.lines[0].item}", "its reasons and its maker's sheets are beside it"
    page._box.setText(typed)
    fitter.press("Goods in", page)
    assert words in page._trouble.text()
    (order,) = Orders(fitter.workspace.store).all(fitter.workspace.job_key)
    assert not any(line.came for line in order.lines)


@pytest.mark.parametrize("typed", ["-3", "1.5", "0", "99", "some"])
def test_no_more_goes_back_than_came_and_only_whole_packs(fitter: Fitter, typed: str) -> None:
    page = opened(fitter)
    fitter.press("Send order", page)
    best(fitter)
    (order,) = Orders(fitter.workspace.store).all(fitter.workspace.job_key)
    page.table.choose(f"order:{order.id}:{order.lines[0].id}")
    fitter.press("All came", page)
    page.table.choose(f"order:{order.id}:{order.lines[0].id}")
    page._box.setText(typed)
    fitter.press("Give back", page)
    assert page._trouble.text()
    (order,) = Orders(fitter.workspace.store).all(fitter.workspace.job_key)
    assert (order.lines[0].returned, order.lines[0].credit) == (0, Decimal(0))


def test_every_control_has_a_name(fitter: Fitter) -> None:
    assert nameless(opened(fitter)) == []


def test_a_sent_order_is_a_paper_of_its_own_and_its_file_takes_the_goods_in(
    fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = opened(fitter)
    key = page._supplier()
    count = len(page._still[key])
    page._how.setCurrentIndex(1)
    fitter.press("Send order", page)
    best(fitter)
    (order,) = Orders(fitter.workspace.store).all(fitter.workspace.job_key)
    made = order_papers(placed_of(fitter.workspace, best(fitter)), best(fitter))
    assert f"{order.number}, sent" in made[f"order-{key}-{order.number}"]
    assert "by telephone" in made[f"order-{key}-{order.number}"]
    assert f"order-{key}" not in made, "all of it is sent"
    assert all("Draft, not sent" in text for name, text in made.items() if not name.endswith(order.number))

    page.table.choose(f"order:{order.id}:{order.lines[0].id}")
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(tmp_path / "order.xml"), ""))
    fitter.press("Order XML", page)
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: (str(tmp_path / "order.xml"), ""))
    fitter.press("Open XML", page)
    (order,) = Orders(fitter.workspace.store).all(fitter.workspace.job_key)
    assert (order.state, len(order.lines)) == ("in", count)
    (tmp_path / "order.xml").write_text("no order", encoding="utf-8")
    fitter.press("Open XML", page)
    assert "cannot be taken in" in page._trouble.text()


def order_papers(placed: tuple[Placed, ...], estimate: Estimate) -> dict[str, str]:
    return {made.key: as_text(made) for made in build_all(estimate, placed)}


def in_sight(page: OrderingPage) -> bool:
    return page.table.viewport().rect().contains(page.table.visualRect(page.table.currentIndex()))


def test_the_order_sent_is_gone_to_and_its_line_is_in_sight_after_every_booking(fitter: Fitter) -> None:
    page = opened(fitter)
    fitter.press("Send order", page)
    best(fitter)
    (order,) = Orders(fitter.workspace.store).all(fitter.workspace.job_key)
    assert page.table.chosen() == f"order:{order.id}:{order.lines[0].id}"
    assert in_sight(page)
    last = next(line for line in reversed(order.lines) if line.packs > 1)
    page.table.choose(f"order:{order.id}:{last.id}")
    page.table.verticalScrollBar().setValue(0)
    page._box.setText("1")
    fitter.press("Goods in", page)
    assert in_sight(page)
    assert page._box.text() == str(last.packs - 1)
    fitter.press("Rest will not come", page)
    best(fitter)
    assert page.table.chosen() == f"order:{order.id}:{last.id}"
    assert in_sight(page), "what is to be ordered again comes in above it"
