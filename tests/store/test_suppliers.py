"""Suppliers added, renamed and taken out: judged in words, bought from at once, and nothing of theirs lost."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from tundish.procurement.purchase import Pick
from tundish.store.catalogue import keep_item, replace_all, rows_of, sheets_of
from tundish.store.keep import Store
from tundish.store.orders import Orders
from tundish.store.price_list import columns_of, look_at
from tundish.store.suppliers import (
    cells_of,
    keep_supplier,
    keep_typed_columns,
    take_back,
    take_out,
    typed_columns,
    wrong_columns,
)

NEW = {
    "name": "Fennock  Bathroom Depot",
    "account": "F-12",
    "phone": "01632 960999",
    "address": "Mill Lane, Fennock,ZZ9 1AA",
    "carriage": "9.50",
    "free_above": "120",
    "lead_days": "1",
}


def test_a_new_supplier_has_a_key_of_its_own_and_its_terms(store: Store) -> None:
    key, problems = keep_supplier(store, NEW)
    assert (key, problems) == ("fennock-bathroom-depot", ())
    made = store.book().suppliers[key]
    assert (made.name, made.address) == ("Fennock Bathroom Depot", "Mill Lane\nFennock\nZZ9 1AA")
    assert (made.carriage, made.free_above, made.lead_days) == (Decimal("9.50"), Decimal(120), 1)
    assert cells_of(made)["address"] == "Mill Lane, Fennock, ZZ9 1AA"
    other, _ = keep_supplier(store, {"name": "Fennock bathroom depot!"})
    assert other == "fennock-bathroom-depot-2"
    assert store.book().suppliers[other].lead_days == 0


@pytest.mark.parametrize(
    ("cells", "words"),
    [
        ({"name": " "}, "name is blank"),
        ({"carriage": "ten"}, 'carriage: "ten" is not pounds and pence'),
        ({"free_above": "-5"}, "free_above"),
        ({"lead_days": "1.5"}, "is not a whole number"),
        ({"lead_days": "4000"}, "more than a year"),
        ({"name": "oddmoor boards & steel"}, "there is a supplier called oddmoor boards & steel already"),
    ],
)
def test_what_cannot_be_is_said_and_nothing_is_changed(store: Store, cells: dict[str, str], words: str) -> None:
    before = store.book().suppliers
    _, problems = keep_supplier(store, NEW | cells)
    assert any(words in each.text for each in problems)
    assert store.book().suppliers == before


def test_a_renamed_supplier_keeps_offers_orders_and_its_own_name_back(store: Store) -> None:
    book = store.book()
    offers = sum(one.supplier == "oddmoor" for few in book.offers.values() for one in few)
    cells = cells_of(book.suppliers["oddmoor"])
    assert keep_supplier(store, cells, "oddmoor") == ("oddmoor", ()), "its own name is no other's"
    assert keep_supplier(store, cells | {"name": "Oddmoor Trade", "carriage": "0"}, "oddmoor") == ("oddmoor", ())
    book = store.book()
    assert book.suppliers["oddmoor"].name == "Oddmoor Trade"
    assert sum(one.supplier == "oddmoor" for few in book.offers.values() for one in few) == offers


def test_one_with_offers_or_orders_stays_and_can_be_taken_back(store: Store) -> None:
    book = store.book()
    offer = next(one for few in book.offers.values() for one in few if one.supplier == "oddmoor")
    orders = Orders(store)
    orders.send(orders.draft("", "oddmoor", [Pick(offer, 1)]), "by email")
    assert not take_out(store, "oddmoor")
    book = store.book()
    assert "oddmoor" in book.suppliers
    assert offer in book.offers[offer.item]
    assert all(one.supplier != "oddmoor" for item in book.offers for one in book.on_offer(item))
    assert [each.supplier for each in orders.all("")] == ["oddmoor"]
    take_back(store, "oddmoor")
    assert offer in store.book().on_offer(offer.item)


def test_one_that_sells_nothing_goes_and_does_not_come_back(store: Store, tmp_path: Path) -> None:
    key, _ = keep_supplier(store, NEW)
    assert take_out(store, key)
    assert key not in store.book().suppliers
    assert key not in store.book().never


def test_a_new_supplier_is_bought_from_and_goes_round_with_the_catalogue(store: Store) -> None:
    key, _ = keep_supplier(store, {"name": "Fennock"})
    rows = rows_of(store.book(), "sound-pad")
    offer = {"supplier": key, "code": "F1", "pack": "1", "price": "0.01", "valid_from": "2026-01-01"}
    assert keep_item(store, type(rows)(rows.item, rows.ends, rows.kit, (*rows.offers, offer))) != (), "it is there already"
    assert keep_item(store, type(rows)(rows.item, rows.ends, rows.kit, (*rows.offers, offer)), "sound-pad") == ()
    assert key in {one.supplier for one in store.book().on_offer("sound-pad")}
    assert replace_all(store, sheets_of(store)) == (), "one without telephone, address and account too"
    assert store.book().suppliers[key].name == "Fennock"


def test_heads_of_its_list_are_typed_remembered_and_read_by(store: Store, tmp_path: Path) -> None:
    typed = {"code": "Teil", "price": "Preis", "pack": "", "least": "–", "item": " "}
    assert wrong_columns(typed) == ""
    keep_typed_columns(store, "oddmoor", typed)
    assert columns_of(store, "oddmoor") == {"code": "Teil", "price": "Preis", "least": ""}
    assert typed_columns(columns_of(store, "oddmoor")) == {"code": "Teil", "price": "Preis", "pack": "", "least": "–", "item": ""}
    (tmp_path / "list.csv").write_text("Teil;Preis\nOB2024;12,98\n", encoding="utf-8")
    assert look_at(store, tmp_path / "list.csv", "oddmoor").count("changed") == 1


@pytest.mark.parametrize(
    ("typed", "words"), [({"code": "–"}, "a column for the code"), ({"code": "No", "price": "no"}, "Two columns of the price list")]
)
def test_heads_that_no_list_could_be_read_by_are_told(typed: dict[str, str], words: str) -> None:
    assert words in wrong_columns(typed)
