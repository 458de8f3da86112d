"""Suppliers in the window: found from the price list, changed, added, bought from no more and again; ordering reckons with it at once."""

from __future__ import annotations

from decimal import Decimal

from tests.desktop.fitter import Fitter
from tests.desktop.pages.test_ordering import best
from tests.desktop.spoken_names import nameless
from tundish.desktop.pages.suppliers import SuppliersPage


def opened(fitter: Fitter) -> SuppliersPage:
    fitter.window.show_page("stock")
    fitter.press("Price list")
    fitter.press("Suppliers")
    page = fitter.window.page("suppliers")
    assert isinstance(page, SuppliersPage)
    return page


def shown(page: SuppliersPage) -> list[str]:
    return [entry.cells[0].text for entry in page.table.table_model.entries() if hasattr(entry, "cells")]


def test_changed_terms_are_reckoned_with_at_once(fitter: Fitter) -> None:
    fitter.open("102")
    fitter.page("Alt+6")
    before = next(order for order in best(fitter).buying.orders if order.supplier.key == "quernby")
    page = opened(fitter)
    page.table.choose("quernby")
    page._chosen("quernby")
    assert page._boxes["carriage"].text() == "18.00"
    page._boxes["name"].setText("Quernby Tile Hall")
    page._boxes["carriage"].setText("19.25")
    page._boxes["free_above"].setText("99999")
    page._heads["code"].setText("Ref")
    fitter.press("Keep", page)
    after = next(order for order in best(fitter).buying.orders if order.supplier.key == "quernby")
    assert (after.supplier.name, after.carriage) == ("Quernby Tile Hall", Decimal("19.25"))
    assert before.supplier.name != after.supplier.name
    assert "Quernby Tile Hall" in shown(page)
    page.table.choose("oddmoor")
    page._chosen("oddmoor")
    assert page._heads["code"].text() == ""
    page._chosen("quernby")
    assert page._heads["code"].text() == "Ref"
    assert nameless(page) == []


def test_what_is_typed_and_not_kept_is_there_again_and_can_be_put_back(fitter: Fitter) -> None:
    page = opened(fitter)
    page._chosen("quernby")
    page._boxes["carriage"].setText("19.25")
    page._chosen("oddmoor")
    page._chosen("quernby")
    assert page._boxes["carriage"].text() == "19.25"
    assert "not kept yet" in page._said.text()
    fitter.press("Put back", page)
    assert page._boxes["carriage"].text() == "18.00"
    fitter.press("New supplier", page)
    page._boxes["name"].setText("Fennock")
    page._chosen("quernby")
    fitter.press("New supplier", page)
    assert page._boxes["name"].text() == "Fennock"
    fitter.press("Put back", page)
    assert page._boxes["name"].text() == ""


def test_a_supplier_is_added_judged_and_gone_again(fitter: Fitter) -> None:
    page = opened(fitter)
    fitter.press("New supplier", page)
    page._boxes["carriage"].setText("about ten")
    page._boxes["name"].setText("Fennock")
    fitter.press("Keep", page)
    assert "Nothing was changed." in page._said.text()
    assert "is not pounds and pence" in page._said.text()
    page._boxes["carriage"].setText("10")
    page._heads["code"].setText("–")
    fitter.press("Keep", page)
    assert "type its head" in page._said.text()
    page._heads["code"].setText("")
    fitter.press("Keep", page)
    assert shown(page) == [
        "Carrowdene Plumbing Merchants", "Fennock", "Oddmoor Boards & Steel", "Quernby Tile and Bathroom Store"
    ]  # fmt: skip
    assert page.table.chosen() == "fennock"
    fitter.press("Buy from no more", page)
    assert "Fennock" not in shown(page)


def test_one_bought_from_no_more_is_no_longer_ordered_from_nor_offered_for_its_list(fitter: Fitter) -> None:
    fitter.open("102")
    fitter.page("Alt+6")
    assert "oddmoor" in {order.supplier.key for order in best(fitter).buying.orders}
    page = opened(fitter)
    page._chosen("oddmoor")
    fitter.press("Buy from no more", page)
    assert "oddmoor" not in {order.supplier.key for order in best(fitter).buying.orders}
    fitter.window.show_page("prices")
    prices = fitter.window.page("prices")
    assert "Oddmoor Boards & Steel" not in [prices._supplier.itemText(each) for each in range(prices._supplier.count())]  # type: ignore[union-attr]
    fitter.window.show_page("suppliers")
    page._chosen("oddmoor")
    fitter.press("Buy from again", page)
    assert "oddmoor" in {order.supplier.key for order in best(fitter).buying.orders}
