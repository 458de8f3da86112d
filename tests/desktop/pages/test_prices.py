"""Price list: looked at, taken in, undone, and told in words where it will not do."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

from tests.desktop.fitter import WAIT_MS, Fitter
from tests.desktop.hands import click
from tests.desktop.spoken_names import nameless
from tests.store import test_packed
from tests.store.lists import csv_list, strange_workbook
from tundish.desktop.cells import Group, Row
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


def rows_told(page: PricesPage) -> list[str]:
    """What the page says of every row: its number in the list, the code, and what becomes of it."""
    rows = (entry for entry in page.table.table_model.entries() if isinstance(entry, Row))
    return sorted(f"{int(row.cells[2].text):02} {row.cells[0].text}: {row.cells[1].text}" for row in rows)


def test_a_file_that_would_do_harm_is_told_in_a_sentence_and_changes_nothing(fitter: Fitter, tmp_path: Path) -> None:
    page, before = opened(fitter), fitter.workspace.store.book().offers
    bodies = {**dict(test_packed.hostile(tmp_path)), "password.xlsx": Path(test_packed.__file__).with_name("locked.xlsx").read_bytes()}
    words = test_packed.WORDS | {
        "password.xlsx": "locked with a password",
        "words.csv": "Say which column of words.csv is the code and which the price",
    }
    for name, body in bodies.items():
        (tmp_path / name).write_bytes(body)
        page.look(tmp_path / name)
        fitter.qtbot.waitUntil(lambda: not page._said.text().startswith("Reading"), timeout=WAIT_MS)
        fitter.qtbot.waitUntil(lambda: not fitter.workspace.aside.busy, timeout=WAIT_MS)
        assert words[name] in page._said.text()
        assert (page._take.isEnabled(), rows_told(page)) == (False, []), name
    assert fitter.workspace.store.book().offers == before
    page.look(csv_list(tmp_path / "sound.csv"))
    fitter.qtbot.waitUntil(page._take.isEnabled)
    assert rows_told(page)[0].startswith("04 OB2024: £11.80 to £12.98")


def test_every_row_that_will_not_do_is_told_with_its_row_and_its_column(fitter: Fitter, tmp_path: Path) -> None:
    page, before = opened(fitter), fitter.workspace.store.book().offers
    rows = (
        ("Code", "Net price", "Pack", "MOQ", "Item"),
        ("OB2024", "ask", "", "", ""),
        ("OB2024", "9", "", "", ""),
        ("", "", "", "", ""),
        ("OB2027", "=A1*2", "", "", ""),
        ("OB2018", "-4", "", "", ""),
        ("X1", "4", "3 m", "", ""),
        ("X2", "4", "", "2 m", ""),
        ("X3", "nan", "", "", ""),
        ("X4", "99999999", "", "", ""),
        ("X5", "4", "", "", "no-such-item"),
        ("", "4", "", "", ""),
        ("X6", "$4", "", "", ""),
    )
    page.look(csv_list(tmp_path / "list.csv", rows))
    fitter.qtbot.waitUntil(lambda: "0 change, 0 new, 11 refused" in page._said.text())
    number = "is not a number above nought; write the number alone, in the unit that the item is counted in"
    assert rows_told(page) == [
        '02 OB2024: Net price "ask" is not a price',
        "03 OB2024: the code stands in row 2 already",
        "05 OB2027: Net price is a formula, not a price",
        '06 OB2018: Net price "-4" is not a price to pay',
        f'07 X1: Pack "3 m" {number}',
        f'08 X2: MOQ "2 m" {number}',
        '09 X3: Net price "nan" is not a price',
        '10 X4: Net price "99999999" is not a price to pay',
        '11 X5: Item "no-such-item" is no item of the catalogue',
        "12 –: Code is blank",
        '13 X6: Net price "$4" is not in pounds',
    ]
    assert not page._take.isEnabled()
    assert fitter.workspace.store.book().offers == before


def test_a_workbook_with_formulas_macros_links_and_merged_heads_is_read_as_what_it_said_last(fitter: Fitter, tmp_path: Path) -> None:
    page = opened(fitter)
    page.look(strange_workbook(tmp_path / "list.csv"))
    fitter.qtbot.waitUntil(lambda: "1 change, 0 new, 2 refused" in page._said.text())
    assert rows_told(page) == [
        "04 OB2024: Net price is blank, or a formula that gave nothing",
        "06 OB2018: Net price is blank, or a formula that gave nothing",
        "07 OB2027: £8.90 to £9.90, +11.2 %",
    ]


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
