"""Price list: looked at, taken in, undone, and told in words where it will not do."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

from tests.desktop.fitter import Fitter
from tests.desktop.hands import click
from tests.desktop.spoken_names import nameless
from tundish.desktop.cells import Group
from tundish.desktop.pages.prices import PricesPage


def opened(fitter: Fitter) -> PricesPage:
    fitter.window.show_page("stock")
    fitter.press("Price list")
    page = fitter.window.page("prices")
    assert isinstance(page, PricesPage)
    page._supplier.choose(fitter.workspace.book.suppliers["oddmoor"].name)
    return page


def price(fitter: Fitter) -> Decimal:
    return next(each.price for each in fitter.workspace.book.offers["strut-41x21"] if each.code == "OB2024")


def test_a_list_is_looked_at_taken_in_and_undone(fitter: Fitter, tmp_path: Path) -> None:
    page, before = opened(fitter), price(fitter)
    (tmp_path / "list.csv").write_text("Teil;Preis\nOB2024;12,98\nOB2027;ask\n", encoding="cp1252")
    page.look(tmp_path / "list.csv")
    fitter.qtbot.waitUntil(lambda: "is the code and which the price" in page._said.text())
    assert not page._take.isEnabled()
    choose(page, "code", "Teil")
    choose(page, "price", "Preis")
    fitter.qtbot.waitUntil(lambda: "1 change, 0 new, 1 refused" in page._said.text())
    assert price(fitter) == before
    click(page._take)
    assert not page._take.isEnabled(), "it is taken in once"
    fitter.qtbot.waitUntil(lambda: "list.csv is taken in" in page._said.text())
    assert price(fitter) == Decimal("12.98")
    fitter.press("Undo the last", page)
    assert not page._back.isEnabled(), "one press is one undo"
    fitter.qtbot.waitUntil(lambda: "One price is as it was" in page._said.text())
    assert price(fitter) == before
    fitter.press("Undo the last", page)
    fitter.qtbot.waitUntil(lambda: "to be undone" in page._said.text())


def test_the_columns_of_a_supplier_are_remembered(fitter: Fitter, tmp_path: Path) -> None:
    page = opened(fitter)
    (tmp_path / "list.csv").write_text("Teil;Preis;VE\nOB2018;6,55;4\n", encoding="cp1252")
    page.look(tmp_path / "list.csv")
    fitter.qtbot.waitUntil(lambda: page._maps["pack"].count() == 4)
    for key, head in (("code", "Teil"), ("price", "Preis"), ("pack", "VE")):
        choose(page, key, head)
    fitter.qtbot.waitUntil(page._take.isEnabled)
    click(page._take)
    fitter.qtbot.waitUntil(lambda: "is taken in" in page._said.text())
    page.look(tmp_path / "list.csv")
    fitter.qtbot.waitUntil(lambda: "0 change" in page._said.text())
    assert [page._maps[key].currentText() for key in ("code", "price", "pack", "item")] == ["Teil", "Preis", "VE", "not in the list"]
    groups = [entry.title for entry in page.table.table_model.entries() if isinstance(entry, Group)]
    assert groups == ["Unchanged"]
    page._supplier.choose(fitter.workspace.book.suppliers["quernby"].name)
    page._other_supplier(0)
    fitter.qtbot.waitUntil(lambda: "is the code" in page._said.text())


def choose(page: PricesPage, key: str, head: str) -> None:
    box = page._maps[key]
    box.setCurrentIndex(box.findText(head))
    box.activated.emit(box.currentIndex())


def test_every_control_has_a_name(fitter: Fitter) -> None:
    assert nameless(opened(fitter)) == []


def test_nothing_is_taken_in_by_columns_that_are_no_longer_chosen(fitter: Fitter, tmp_path: Path) -> None:
    page = opened(fitter)
    (tmp_path / "list.csv").write_text("Teil;Preis;VE\nOB2018;6,55;4\n", encoding="cp1252")
    page.look(tmp_path / "list.csv")
    fitter.qtbot.waitUntil(lambda: page._maps["pack"].count() == 4)
    choose(page, "code", "Teil")
    choose(page, "price", "Preis")
    fitter.qtbot.waitUntil(page._take.isEnabled)
    choose(page, "pack", "VE")
    assert not page._take.isEnabled(), "what was looked at is not what is chosen now"
    fitter.qtbot.waitUntil(page._take.isEnabled)
    page._supplier.choose(fitter.workspace.book.suppliers["quernby"].name)
    page._other_supplier(0)
    assert not page._take.isEnabled(), "nor is it another supplier's"
