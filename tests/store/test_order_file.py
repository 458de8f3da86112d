"""Order files opened back: goods in by their number, unknown ones kept as sent, and what is no order told in words."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest

from tundish.catalogue.trader import Trader
from tundish.procurement.purchase import Pick
from tundish.store.keep import Store
from tundish.store.ledger import Ledger
from tundish.store.order_file import CannotReadOrderError, goods_in_from, read_order_file
from tundish.store.orders import Orders
from tundish.writers.order_xml import OrderToWrite, write_order_xml


def written(store: Store, path: Path, number: str, packs: int) -> None:
    book = store.book()
    offer = book.offers["sound-pad"][0]
    rows = ((book.items["sound-pad"], Pick(offer, packs)),)
    seller = book.suppliers[offer.supplier]
    write_order_xml(OrderToWrite(number, "2026-11-25", "", seller, Trader(), ("Site",), rows, Decimal(0)), path)


def sent(store: Store, packs: int) -> str:
    offer, orders = store.book().offers["sound-pad"][0], Orders(store)
    orders.send(orders.draft("101", offer.supplier, [Pick(offer, packs)]), "at the counter")
    return orders.all("101")[-1].number


def test_goods_come_in_by_the_number_of_the_order_and_no_more_than_was_asked(store: Store, tmp_path: Path) -> None:
    number, file = sent(store, 4), tmp_path / "came.xml"
    written(store, file, number, 3)
    assert goods_in_from(store, read_order_file(file), "101", "site") == f"Order {number}: 3 packs in"
    assert Orders(store).all("101")[0].state == "part in"
    written(store, file, number, 2)
    assert goods_in_from(store, read_order_file(file), "101", "site").endswith("1 packs in; 1 in the file were not to come any more")
    (order,) = Orders(store).all("101")
    assert (order.state, order.lines[0].came) == ("in", 4)
    pack = store.book().offers["sound-pad"][0].pack
    assert sum(each.amount for each in Ledger(store).on_hand() if each.item == "sound-pad" and each.job == "101") == 4 * pack


def test_an_order_sent_elsewhere_is_kept_and_taken_in_once(store: Store, tmp_path: Path) -> None:
    file = tmp_path / "other.xml"
    written(store, file, "telephone-7", 2)
    goods_in_from(store, read_order_file(file), "102", "site")
    (order,) = Orders(store).all("102")
    assert (order.number, order.state, order.how, order.lines[0].price) == (
        "telephone-7",
        "in",
        "by file",
        store.book().offers["sound-pad"][0].price,
    )
    with pytest.raises(CannotReadOrderError, match="were taken in already"):
        goods_in_from(store, read_order_file(file), "102", "site")
    assert [each.lines[0].came for each in Orders(store).all("102")] == [2]


def test_a_file_opened_twice_brings_its_goods_in_once_whatever_it_is_called(store: Store, tmp_path: Path) -> None:
    number, file = sent(store, 4), tmp_path / "came.xml"
    written(store, file, number, 2)
    goods_in_from(store, read_order_file(file), "101", "site")
    moved = Ledger(store).movements("sound-pad")
    copy = tmp_path / "came (1).xml"
    copy.write_text(file.read_text(encoding="utf-8").replace("><", ">\n<"), encoding="utf-8")
    for again in (file, copy):
        with pytest.raises(CannotReadOrderError, match=r"were taken in already, on .* came since is typed under the order"):
            goods_in_from(store, read_order_file(again), "101", "site")
    assert Ledger(store).movements("sound-pad") == moved
    assert Orders(store).all("101")[0].lines[0].came == 2
    file.write_text(file.read_text(encoding="utf-8").replace("2026-11-25", "2026-11-26"), encoding="utf-8")
    assert "2 packs in" in goods_in_from(store, read_order_file(file), "101", "site")


def test_a_file_of_which_nothing_was_to_come_is_no_delivery(store: Store, tmp_path: Path) -> None:
    number, file = sent(store, 1), tmp_path / "came.xml"
    (order,) = Orders(store).all("101")
    Orders(store).goods_in(order, {order.lines[0].id: 1}, "site")
    written(store, file, number, 1)
    for _ in range(2):
        assert "0 packs in; 1 in the file" in goods_in_from(store, read_order_file(file), "101", "site")


def test_a_draft_that_is_written_anew_keeps_its_number(store: Store) -> None:
    offer, orders = store.book().offers["sound-pad"][0], Orders(store)
    orders.draft("101", offer.supplier, [Pick(offer, 4)])
    number = orders.all("101")[0].number
    orders.send(orders.draft("102", offer.supplier, [Pick(offer, 1)]), "by email")
    orders.draft("101", offer.supplier, [Pick(offer, 5)])
    assert [each.number for each in orders.all("101")] == [number]


@pytest.mark.parametrize(
    ("body", "why"),
    [
        (b"", "no sound XML"),
        (b"<Order/>", "no UBL order"),
        (b'<!DOCTYPE o [<!ENTITY a "aaaa">]><o>&a;</o>', "declares a document type"),
        ('<?xml version="1.0" encoding="utf-16"?><!DOCTYPE o SYSTEM "file:///etc/passwd"><o/>'.encode("utf-16"), "document type"),
    ],
)
def test_what_is_no_order_is_told(tmp_path: Path, body: bytes, why: str) -> None:
    (tmp_path / "x.xml").write_bytes(body)
    with pytest.raises(CannotReadOrderError, match=why):
        read_order_file(tmp_path / "x.xml")


def test_codes_and_amounts_that_make_no_sense_change_nothing(store: Store, tmp_path: Path) -> None:
    number, file = sent(store, 4), tmp_path / "came.xml"
    written(store, file, number, 3)
    words = file.read_text(encoding="utf-8")
    read = read_order_file(file)
    for bad in ("2.5", "-1", "NaN", "1e99", "many"):
        file.write_text(words.replace('unitCode="C62">3<', f'unitCode="C62">{bad}<'), encoding="utf-8")
        with pytest.raises(CannotReadOrderError, match="line 1"):
            read_order_file(file)
    with pytest.raises(CannotReadOrderError, match="has no XX"):
        goods_in_from(store, replace(read, lines=(replace(read.lines[0], code="XX"),)), "101", "site")
    with pytest.raises(CannotReadOrderError, match="none of your suppliers"):
        goods_in_from(store, replace(read, number="new", seller="Nobody"), "101", "site")
    assert Orders(store).all("101")[0].lines[0].came == 0
