"""Price list: looked at, taken in, undone, and told in words where it will not do."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

from tests.desktop.fitter import Fitter
from tests.desktop.hands import click
from tests.desktop.spoken_names import nameless
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
    fitter.qtbot.waitUntil(lambda: "no row names a column" in page._said.text())
    assert not page._take.isEnabled()
    page._code.setText("Teil")
    page._price.setText("Preis")
    page._look_again("")
    fitter.qtbot.waitUntil(lambda: "1 change, 0 new, 1 refused" in page._said.text())
    assert price(fitter) == before
    click(page._take)
    assert price(fitter) == Decimal("12.98")
    fitter.press("Undo the last", page)
    assert price(fitter) == before
    fitter.press("Undo the last", page)
    assert "to be undone" in page._said.text()


def test_every_control_has_a_name(fitter: Fitter) -> None:
    assert nameless(opened(fitter)) == []
