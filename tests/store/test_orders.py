"""Orders: drafted anew at will, never edited once sent, in by line, short and given back."""

from __future__ import annotations

from decimal import Decimal

import pytest

from tundish.catalogue.item import RackPiece
from tundish.estimate import estimate
from tundish.field import put
from tundish.procurement.choose import IN_A_KIT
from tundish.procurement.purchase import Pick
from tundish.store.keep import Store
from tundish.store.ledger import Ledger, Reorder
from tundish.store.orders import Orders, WasSentError, ordered
from tundish.store.short import close_stock, short_of


def test_an_order_goes_from_draft_to_in_and_its_shortage_stays(store: Store) -> None:
    orders, offer = Orders(store), store.book().offers["sound-pad"][0]
    orders.draft("101", offer.supplier, [Pick(offer, 9)])
    order_id = orders.draft("101", offer.supplier, [Pick(offer, 4)])
    (draft,) = orders.all("101")
    assert (draft.id, draft.state, draft.lines[0].packs, draft.goods) == (order_id, "draft", 4, offer.price * 4)
    assert ordered([draft]) == ()

    orders.send(order_id, "by email")
    with pytest.raises(WasSentError, match="further order"):
        orders.send(order_id, "by email")
    (sent,) = orders.all("101")
    assert sent.state == "sent"

    orders.goods_in(sent, {sent.lines[0].id: 2}, "site")
    (part,) = orders.all("101")
    assert (part.state, part.lines[0].coming) == ("part in", 2)
    orders.goods_in(part, {part.lines[0].id: 1}, "site", ended=(part.lines[0].id,))
    (done,) = orders.all("101")
    assert (done.state, done.lines[0].came, done.lines[0].short) == ("in", 3, 1)
    assert ordered([done])[0].counts == 3 * offer.pack

    held = [each for each in Ledger(store).on_hand() if each.item == "sound-pad" and each.job == "101"]
    assert [(each.place, each.amount) for each in held] == [("site", 3 * offer.pack)]
    assert orders.give_back(done, done.lines[0], 1, "site") == ""
    (after,) = orders.all("101")
    assert (after.lines[0].returned, after.lines[0].credit) == (1, offer.price)
    assert "than the ledger has" in orders.give_back(after, after.lines[0], 9, "site")


def test_a_further_order_leaves_the_first_as_it_was_sent(store: Store) -> None:
    orders, offer = Orders(store), store.book().offers["sound-pad"][0]
    orders.send(orders.draft("101", offer.supplier, [Pick(offer, 4)]), "by telephone")
    orders.draft("101", offer.supplier, [Pick(offer, 1)])
    assert [(each.state, each.lines[0].packs) for each in orders.all("101")] == [("sent", 4), ("draft", 1)]
    assert orders.draft("101", offer.supplier, []) == 0
    assert [each.state for each in orders.all()] == ["sent"]
    assert orders.all("101")[0].lines[0].credit == Decimal(0)


def test_what_is_short_counts_every_accepted_job_and_left_overs_come_back(store: Store) -> None:
    assert short_of(store) == ()
    job_id = store.find("101")
    assert job_id is not None
    opened, revision = store.open(job_id)
    assert opened.job is not None
    store.save(job_id, put(opened.job, "buying.accepted", "2026-11-25"), revision, "accepted")
    short = {each.item: each for each in short_of(store)}
    pans = [code for code in short if code.startswith("frame")]
    assert pans
    assert all(each.lacking > 0 for each in short.values())
    offer = store.book().offers[pans[0]][0]
    orders = Orders(store)
    orders.send(orders.draft("101", offer.supplier, [Pick(offer, 2)]), "by email")
    assert pans[0] not in {each.item for each in short_of(store)}
    (order,) = orders.all("101")
    orders.goods_in(order, {order.lines[0].id: 2}, "site")
    assert pans[0] not in {each.item for each in short_of(store)}
    worked = estimate(opened.job, store.book("101"))
    needed = next(each.line.amount.value for each in worked.buying.purchases if each.line.item.code == pans[0])
    said = close_stock(store, worked, "101")
    assert said[0] == f"{2 - needed:g} {worked.book.items[pans[0]].name}"
    assert store.book("102").stock[pans[0]] == 2 - needed
    assert [each.what for each in Ledger(store).movements(pans[0])] == ["goods in", "used", "left over", "left over"]
    unused = {each.item.code: each.amount for each in worked.buying.left_over if each.why == IN_A_KIT}
    in_kit = {part.item for part in worked.book.in_kit(pans[0])}
    back = {each.item: each.amount for each in Ledger(store).movements() if each.note.startswith("out of a kit")}
    assert back
    assert len(said) == 1 + len(back)
    assert set(back) <= in_kit
    assert all(0 < amount <= unused[item] for item, amount in back.items())
    assert close_stock(store, worked, "101") == ()
    assert short_of(store)
    now, revision = store.open(job_id)
    assert now.job is not None
    store.save(job_id, put(now.job, "buying.done", "2026-11-26"), revision, "done")
    assert short_of(store) == ()


def test_what_is_kept_for_a_job_not_under_way_covers_no_other_need(store: Store) -> None:
    job_id = store.find("101")
    assert job_id is not None
    opened, revision = store.open(job_id)
    assert opened.job is not None
    store.save(job_id, put(opened.job, "buying.accepted", "2026-11-25"), revision, "accepted")
    lacking = {each.item: each.lacking for each in short_of(store) if each.lacking}
    item = next(code for code in lacking if code.startswith("frame"))
    Ledger(store).move(item, 5, "goods in", place="site", job="102")
    assert {each.item: each.lacking for each in short_of(store) if each.lacking} == lacking
    offer = store.book().offers[item][0]
    orders = Orders(store)
    orders.send(orders.draft("102", offer.supplier, [Pick(offer, 5)]), "by email")
    assert {each.item: each.lacking for each in short_of(store) if each.lacking} == lacking


def test_whole_bars_left_of_a_job_go_on_the_rack(store: Store) -> None:
    job_id = store.find("101")
    assert job_id is not None
    opened, _ = store.open(job_id)
    assert opened.job is not None
    offer = next(each for each in store.book().offers["strut-41x21-heavy"] if each.length)
    orders = Orders(store)
    orders.send(orders.draft("101", offer.supplier, [Pick(offer, 2)]), "by email")
    (order,) = orders.all("101")
    orders.goods_in(order, {order.lines[0].id: 2}, "site")
    had = {piece.key for piece in store.book().rack}
    close_stock(store, estimate(opened.job, store.book("101")), "101")
    assert [piece.length for piece in store.book().rack if piece.key not in had] == [offer.length] * 2


def test_what_is_ordered_for_a_job_is_not_taken_from_stock_as_well(store: Store) -> None:
    orders, ledger = Orders(store), Ledger(store)
    item = "adhesive-flexible"
    (offer, *_) = (each for each in store.book().offers[item] if not each.length)
    order_id = orders.draft("101", offer.supplier, [Pick(offer, 2)])
    ledger.move(item, 60, "goods in")
    assert store.book("101").stock[item] == 60, "a draft is no order"
    orders.send(order_id, "by email")
    assert item not in store.book("101").stock
    assert store.book("102").stock[item] == 60
    (order,) = orders.all("101")
    orders.goods_in(order, {}, "site", ended=(order.lines[0].id,))
    assert store.book("101").stock[item] == 60, "what will not come may be taken from stock"


def test_what_a_finished_job_had_of_the_rack_is_used_and_what_is_left_of_it_is_free(store: Store) -> None:
    opened, _ = store.open(store.find("102") or 0)
    assert opened.job is not None
    ledger = Ledger(store)
    worked = estimate(opened.job, store.book("102"))
    wanted = {piece.key: piece for plan in worked.cuts for piece in plan.from_rack}
    other = ledger.put_by(RackPiece("", "strut-41x41", 1200.0, place="van rack"))
    ledger.keep_pieces("102", (*wanted, other))
    assert not {*wanted, other} & {piece.key for piece in store.book("101").rack}
    had = {piece.key for piece in store.book("102").rack}
    close_stock(store, worked, "102")
    after = {piece.key: piece for piece in store.book("101").rack}
    assert wanted
    assert not wanted.keys() & after.keys()
    assert after[other].job == ""
    again = estimate(opened.job, store.book("102"))
    assert wanted.keys() <= {piece.key for piece in again.book.rack}
    assert again.buying.purchases
    assert again.price.total <= worked.price.total, "a job that is done needs nothing else for what it had of the rack"
    new = [piece for key, piece in after.items() if key not in had]
    assert {piece.item for piece in new} <= {piece.item for piece in wanted.values()}
    longest = {piece.item: piece.length for piece in wanted.values()}
    assert new
    assert all(300 <= piece.length < longest[piece.item] for piece in new if not piece.width)


def test_an_item_under_its_level_is_told_with_what_to_order(store: Store) -> None:
    ledger = Ledger(store)
    had = store.book().stock["sound-pad"]
    ledger.set_reorder(Reorder("sound-pad", had, 10))
    assert short_of(store) == ()
    ledger.move("sound-pad", -1, "used")
    (row,) = short_of(store)
    assert (row.item, row.below, row.reorder, row.lacking) == ("sound-pad", True, 10, 0)
