"""The journey of the material: cut plan, orders, goods in, cut, offcuts on the rack, found by the next job."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from tests.desktop.fitter import WAIT_MS, Fitter
from tests.desktop.hands import click
from tundish.cutting.plan import BarPlan, SheetPlan
from tundish.desktop.boxes import TickBox
from tundish.desktop.canvas.cut_view import CutView
from tundish.desktop.chips import Chip
from tundish.desktop.pages.cutting import CuttingPage
from tundish.desktop.pages.ordering import OrderingPage
from tundish.desktop.pages.stock import StockPage
from tundish.estimate import Estimate, estimate
from tundish.store.keep import Store
from tundish.store.ledger import Ledger
from tundish.store.orders import Orders
from tundish.store.short import short_of


def cutting(fitter: Fitter) -> CuttingPage:
    page = fitter.page("Alt+5")
    assert isinstance(page, CuttingPage)
    return page


def best(fitter: Fitter) -> Estimate:
    """Wait for the best plans with the book as it is now."""
    work = fitter.workspace
    fitter.qtbot.waitUntil(
        lambda: work.estimate is not None and work.estimate.book is work.book and work.estimate.buying.proven, timeout=WAIT_MS
    )
    return fitter.settled()


def cut_with_space(fitter: Fitter, page: CuttingPage, item: str, mark: str) -> Estimate:
    name = fitter.workspace.book.items[item].name

    def seen() -> list[CutView]:
        return [each for each in page.findChildren(CutView) if each.isVisible() and each.accessibleName().startswith(f"{name}:")]

    fitter.qtbot.waitUntil(lambda: bool(seen()), timeout=WAIT_MS)
    (view,) = seen()
    click(view, view.place_of(mark).center())
    assert view.piece() == mark
    QTest.keyClick(view, Qt.Key.Key_Space)
    return fitter.settled()


def bar_to_cut(estimate: Estimate) -> tuple[str, list[str], float]:
    """A new bar whose pieces may all be cut, and of which enough is left to keep."""
    for plan in estimate.cuts:
        for cut in plan.plan.cuts if isinstance(plan.plan, BarPlan) else ():
            marks = [plan.cuts[one].mark for one in cut.pieces]
            ready = not any(plan.cuts[one].length.tbc for one in cut.pieces)
            if ready and cut.remainder >= 300 and not plan.plan.stock[cut.bar].offcut:
                return plan.item.code, marks, cut.remainder
    raise AssertionError("no bar of this job can be cut")


def test_from_the_cut_list_to_the_next_jobs_rack(fitter: Fitter) -> None:
    fitter.open("103")
    price = best(fitter).price.total
    page = cutting(fitter)
    fitter.press("Reorder", page)
    ordering = fitter.window.page("ordering")
    assert isinstance(ordering, OrderingPage)

    orders, job = Orders(fitter.workspace.store), fitter.workspace.job_key
    wanted = {order.supplier.key: len(order.rows) for order in best(fitter).buying.orders}
    for count in range(1, len(wanted) + 1):
        best(fitter)
        fitter.press("Send order", ordering)
        fitter.qtbot.waitUntil(lambda count=count: sum(each.sent != "" for each in orders.all(job)) == count, timeout=WAIT_MS)  # type: ignore[misc]
    assert {each.supplier: len(each.lines) for each in orders.all(job)} == wanted
    assert {each.state for each in orders.all(job)} == {"sent"}
    assert not ordering._send.isEnabled()

    for order in orders.all(job):
        ordering.table.choose(f"order:{order.id}:{order.lines[0].id}")
        fitter.press("All came", ordering)
        fitter.settled()
    assert {each.state for each in orders.all(job)} == {"in"}
    assert best(fitter).price.total == price, "what came for the job is still paid for by the job"

    page = cutting(fitter)
    item, marks, rest = bar_to_cut(best(fitter))
    (before,) = (each for each in best(fitter).cuts if each.item.code == item)
    for mark in marks:
        after = cut_with_space(fitter, page, item, mark)
    (plan,) = (each for each in after.cuts if each.item.code == item)
    assert plan.done == set(marks)
    # Of the whole price the suppliers are shared out anew at their quickest, which is then bettered only when asked.
    assert plan.plan.cost_pence == before.plan.cost_pence

    had = {each.key for each in fitter.workspace.book.rack}
    fitter.press("Put offcuts in stock", page)
    fitter.settled()
    (new,) = {each.key for each in fitter.workspace.book.rack} - had
    piece = next(each for each in fitter.workspace.book.rack if each.key == new)
    assert (piece.item, piece.length) == (item, int(rest))

    fitter.window.show_page("stock")
    stock = fitter.window.page("stock")
    assert isinstance(stock, StockPage)
    assert stock.table.table_model.place(f"rack {new}") >= 0
    fitter.open("102")
    fitter.settled()
    assert new in {each.key for each in fitter.workspace.book.rack}
    assert [each.what for each in Ledger(fitter.workspace.store).movements(item)][-1] == "offcut put by"


def offcut_in_sight(fitter: Fitter) -> tuple[CuttingPage, TickBox]:
    """Cutting with a job that takes offcut R1, and its tick."""
    fitter.open("102")
    fitter.settled()
    page = cutting(fitter)
    fitter.settled()
    tick = page._rack.tick_of("R1")
    assert tick is not None
    return page, tick


def test_an_offcut_that_is_not_there_is_planned_without(fitter: Fitter) -> None:
    page, tick = offcut_in_sight(fitter)
    QTest.mouseClick(tick, Qt.MouseButton.LeftButton, pos=tick.rect().topLeft() + tick.rect().center() / 8)
    fitter.qtbot.waitUntil(lambda: "R1" not in {piece.key for piece in fitter.workspace.book.rack})
    fitter.qtbot.waitUntil(lambda: fitter.workspace.estimate is not None and fitter.workspace.estimate.book is fitter.workspace.book)
    estimate = fitter.settled()
    assert "R1" not in {getattr(source, "key", "") for plan in estimate.cuts for source in plan.sources}
    left = page._rack.tick_of("R1")
    assert left is tick
    assert not left.isChecked()
    QTest.mouseClick(left, Qt.MouseButton.LeftButton, pos=left.rect().topLeft() + left.rect().center() / 8)
    fitter.qtbot.waitUntil(lambda: "R1" in {piece.key for piece in fitter.workspace.book.rack})
    again = fitter.settled()
    assert "R1" in {getattr(source, "key", "") for plan in again.cuts for source in plan.sources}
    assert left.isChecked()


def test_what_is_not_there_is_asked_of_no_other_job(fitter: Fitter) -> None:
    page, tick = offcut_in_sight(fitter)
    tick.click()
    fitter.qtbot.waitUntil(lambda: "R1" not in {piece.key for piece in fitter.workspace.book.rack})
    fitter.open("101")
    fitter.settled()
    cutting(fitter)
    assert page._rack.tick_of("R1") is None


def test_what_the_plan_takes_of_the_rack_is_kept_for_the_job_once_an_order_is_sent(fitter: Fitter) -> None:
    fitter.open("102")
    planned = {piece.key for plan in best(fitter).cuts for piece in plan.from_rack}
    page = fitter.page("Alt+6")
    fitter.press("Send order", page)
    fitter.qtbot.waitUntil(lambda: any(each.sent for each in Orders(fitter.workspace.store).all("102")), timeout=WAIT_MS)
    assert planned
    assert {piece.key for plan in best(fitter).cuts for piece in plan.from_rack} == planned
    assert not planned & {piece.key for piece in fitter.workspace.store.book("101").rack}


def test_a_shortage_is_ordered_again_and_nothing_sent_is_changed(fitter: Fitter) -> None:
    fitter.open("101")
    fitter.settled()
    page = fitter.page("Alt+6")
    assert isinstance(page, OrderingPage)
    fitter.press("Send order", page)
    fitter.settled()
    orders, job = Orders(fitter.workspace.store), fitter.workspace.job_key
    (sent,) = (each for each in orders.all(job) if each.sent)
    page.table.choose(f"order:{sent.id}:{sent.lines[0].id}")
    fitter.press("Rest will not come", page)
    fitter.settled()
    first, *rest = orders.all(job)[0].lines
    assert first.short == first.packs
    assert not any(line.short for line in rest), "the others are still to come"
    materials = fitter.page("Alt+4")
    model = materials.table.table_model  # type: ignore[attr-defined]  # the page of the materials has a table
    row = model.place(f"line:{sent.lines[0].item}")
    said = [model.index(row, column).data() or "" for column in range(model.columnCount())]
    assert any("short" in words for words in said)
    fitter.page("Alt+6")
    fitter.press("Send order", page)
    again = [each for each in orders.all(job) if each.supplier == sent.supplier]
    assert [[line.packs for line in each.lines] for each in again] == [[line.packs for line in sent.lines], [first.packs]]


def test_a_board_is_cut_with_space_and_what_is_left_of_it_goes_on_the_rack(fitter: Fitter) -> None:
    fitter.open("101")
    price = best(fitter).price.total
    ordering = fitter.page("Alt+6")
    assert isinstance(ordering, OrderingPage)
    orders, job = Orders(fitter.workspace.store), fitter.workspace.job_key
    for _ in best(fitter).buying.orders:
        fitter.press("Send order", ordering)
        fitter.settled()
    for order in orders.all(job):
        orders.goods_in(order, {line.id: line.packs for line in order.lines}, "site")
    fitter.workspace.book_has_changed()
    assert best(fitter).price.total == price

    page = cutting(fitter)
    click(next(each for each in page.findChildren(Chip) if each.text() == "Board sheets"))
    plan = next(plan for plan in best(fitter).cuts if isinstance(plan.plan, SheetPlan))
    assert isinstance(plan.plan, SheetPlan)
    ready = [cut for cut in plan.plan.cuts if not any(plan.cuts[one.piece].length.tbc for one in cut.places)]
    sheet = next(cut for cut in ready if not plan.plan.stock[cut.sheet].offcut)
    marks = [plan.cuts[one.piece].mark for one in sheet.places]
    where = {plan.cuts[one.piece].mark: (one.x, one.y) for one in sheet.places}
    for mark in marks:
        after = cut_with_space(fitter, page, plan.item.code, mark)
        assert after.price.total == price
        (now,) = (each.plan for each in after.cuts if each.item == plan.item)
        assert isinstance(now, SheetPlan)
        first = {plan.cuts[one.piece].mark: (one.x, one.y) for one in now.cuts[0].places}
        assert first[mark] == where[mark]
    on_hand = {each.amount for each in Ledger(fitter.workspace.store).on_hand() if (each.item, each.job) == (plan.item.code, job)}
    had = {each.key for each in fitter.workspace.book.rack}
    fitter.press("Put offcuts in stock", page)
    assert best(fitter).price.total == price
    left = {each.amount for each in Ledger(fitter.workspace.store).on_hand() if (each.item, each.job) == (plan.item.code, job)}
    assert (sum(on_hand), sum(left)) == (sum(on_hand), sum(on_hand) - 1)
    new = [each for each in fitter.workspace.book.rack if each.key not in had]
    assert all(min(each.length, each.width) >= 150 for each in new)


def test_several_accepted_jobs_share_one_van_until_the_first_is_done(fitter: Fitter) -> None:
    """Draft, sent, part in, in, job done: what is short is short across all accepted jobs at every step."""
    store = fitter.workspace.store
    orders, ledger = Orders(store), Ledger(store)
    for number in ("101", "102"):
        fitter.open(number)
        fitter.settled()
        page = fitter.page("Alt+6")
        assert isinstance(page, OrderingPage)
        page._accepted.click()
        best(fitter)
    one = {row.item: row for row in short_of(store)}
    pads = sum(need(store, number, "sound-pad") for number in ("101", "102"))
    assert one["sound-pad"].needed == pads
    assert one["sound-pad"].lacking == pads - fitter.workspace.book.stock["sound-pad"]

    for _ in best(fitter).buying.orders:
        fitter.press("Send order", page)
        best(fitter)
    two = {row.item: row for row in short_of(store)}
    assert sum(row.lacking for row in two.values()) < sum(row.lacking for row in one.values())
    (first, *rest) = orders.all("102")
    orders.goods_in(first, {first.lines[0].id: first.lines[0].packs}, "site")
    assert orders.all("102")[0].state in {"part in", "in"}
    for order in orders.all("102"):
        orders.goods_in(order, {line.id: line.coming for line in order.lines}, "site")
    assert {each.state for each in orders.all("102")} == {"in"}
    assert len(rest) + 1 == len(orders.all("102"))
    fitter.workspace.book_has_changed()
    best(fitter)
    after = {row.item: row.lacking for row in short_of(store)}
    assert after == {item: row.lacking for item, row in two.items() if row.lacking}, "what came is what was to come"

    fitter.window.show_page("stock")
    fitter.press("Job done", fitter.window.page("stock"))
    fitter.settled()
    assert [each for each in ledger.on_hand() if each.job == "102"] == []
    assert sum(each.amount for each in ledger.movements() if (each.what, each.job) == ("used", "102")) < 0
    assert fitter.workspace.job.buying.done
    own = {each.line.item.code for each in worked(store, "101").buying.purchases}
    last = {row.item: row for row in short_of(store)}
    assert last
    assert set(last) <= own, "a job that is done is short of nothing"
    assert last["sound-pad"].needed == need(store, "101", "sound-pad")
    page = fitter.page("Alt+6")
    assert isinstance(page, OrderingPage)
    assert not page._accepted.isChecked()
    assert page._accepted.text().startswith("Job accepted, done ")


def worked(store: Store, number: str) -> Estimate:
    """A job as it is kept, worked out with the book as it is now."""
    job_id = store.find(number)
    assert job_id is not None
    opened, _ = store.open(job_id)
    assert opened.job is not None
    return estimate(opened.job, store.book(number))


def need(store: Store, number: str, item: str) -> float:
    """What an accepted job uses of an item besides what its kits give."""
    mine = (each for each in worked(store, number).buying.purchases if each.line.item.code == item)
    return sum(each.line.amount.value - each.from_kits.value for each in mine)
