"""Catalogue: found as you type, changed and kept, judged in words, carried as files, with its pictures and sheets."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest
from PySide6.QtGui import QDesktopServices, QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog, QLabel, QWidget

from tests.desktop.fitter import WAIT_MS, Fitter
from tests.desktop.spoken_names import nameless
from tests.store.lists import csv_list
from tundish.desktop.boxes import Box
from tundish.desktop.pages.catalogue import CataloguePage
from tundish.store.item_files import attached
from tundish.store.price_list import look_at, take_in


def opened(fitter: Fitter) -> CataloguePage:
    fitter.window.show_page("stock")
    fitter.press("Catalogue")
    page = fitter.window.page("catalogue")
    assert isinstance(page, CataloguePage)
    return page


def box(page: QWidget, name: str) -> Box:
    return next(each for each in page.findChildren(Box) if each.accessibleName() == name and not each.isHidden())


def type_in(page: CataloguePage, name: str, words: str) -> None:
    QApplication.processEvents()  # boxes just made are shown with the next turn of the loop
    found = box(page, name)
    found.setFocus()
    found.selectAll()
    QTest.keyClicks(found, words)


def go_to(page: CataloguePage, code: str) -> None:
    page.table.setFocus()
    page.open_item(code)


def test_an_item_is_found_as_you_type_by_its_words_and_by_the_suppliers_code(fitter: Fitter) -> None:
    page = opened(fitter)
    QTest.keyClicks(page.finder, "sound pa")
    assert [each.id for each in page.table.table_model.entries()] == ["sound-pad"]
    page.finder.setText("ob2018")
    assert [each.id for each in page.table.table_model.entries()] == ["sound-pad"]


def test_what_an_item_cost_before_its_last_price_list_is_shown(fitter: Fitter, tmp_path: Path) -> None:
    page, store = opened(fitter), fitter.workspace.store
    page.open_item("strut-41x21")
    assert not page.form._before.isVisibleTo(page)
    path = csv_list(tmp_path / "l.csv", (("Code", "Price"), ("OB2024", "13.00")))
    take_in(store, look_at(store, path, "oddmoor", {"code": "Code", "price": "Price"}, "2026-12-01"))
    fitter.workspace.book_has_changed()
    page.open_item("strut-41x21")
    assert page.form._before.text().endswith("OB2024 was £11.80 from Mon 14 Sep 2026")


def test_what_is_typed_and_not_kept_is_there_again_and_can_be_put_back(fitter: Fitter) -> None:
    page = opened(fitter)
    go_to(page, "sound-pad")
    kept = box(page, "Name").text()
    type_in(page, "Name", "Pad of rubber")
    go_to(page, "strut-41x21")
    assert not page._said.text()
    go_to(page, "sound-pad")
    assert box(page, "Name").text() == "Pad of rubber"
    assert "not kept yet" in page._said.text()
    fitter.press("Put back", page)
    assert box(page, "Name").text() == kept
    go_to(page, "strut-41x21")
    go_to(page, "sound-pad")
    assert not page._said.text()
    fitter.press("New item", page)
    type_in(page, "Name", "A new pad")
    go_to(page, "sound-pad")
    fitter.press("New item", page)
    assert box(page, "Name").text() == "A new pad"
    fitter.press("New item", page)
    assert box(page, "Name").text() == ""


def test_what_is_changed_is_kept_and_what_is_wrong_is_told(fitter: Fitter) -> None:
    page = opened(fitter)
    page.open_item("sound-pad")
    type_in(page, "Name", "Pad of rubber")
    type_in(page, "Offer 1, Price, £", "7.35")
    fitter.press("Keep", page)
    book = fitter.workspace.book
    assert (book.item("sound-pad").name, book.offers["sound-pad"][0].price) == ("Pad of rubber", Decimal("7.35"))
    type_in(page, "Offer 1, Price, £", "dear")
    fitter.press("Keep", page)
    assert 'price: "dear" is not pounds and pence' in page._said.text()
    assert fitter.workspace.book.offers["sound-pad"][0].price == Decimal("7.35")
    fitter.press("Take it out", page)
    assert "stays" in page._said.text()


def test_a_new_item_needs_what_its_kind_says(fitter: Fitter) -> None:
    page = opened(fitter)
    fitter.press("New item", page)
    page.form._kind.choose("wc pan")
    page.form._kind_taken("wc pan")
    type_in(page, "Code", "pan-new")
    type_in(page, "Name", "New pan")
    fitter.press("Keep", page)
    assert "width is blank" in page._said.text()
    assert "pan-new" not in fitter.workspace.book.items


def test_the_catalogue_is_saved_and_opened_again(fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page, before = opened(fitter), fitter.workspace.book.items
    said: list[str] = []
    fitter.workspace.said.connect(said.append)
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(tmp_path / "mine.xlsx"), ""))
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: (str(tmp_path / "mine.xlsx"), ""))
    fitter.press("Save spreadsheet", page)
    fitter.qtbot.waitUntil(lambda: "Saved: mine.xlsx" in said, timeout=WAIT_MS)
    fitter.press("Open file", page)
    fitter.qtbot.waitUntil(lambda: "The catalogue is as in the file" in said, timeout=WAIT_MS)
    assert fitter.workspace.book.items == before
    fitter.press("Undo opening", page)
    assert said[-1] == "The catalogue is as it was"
    assert fitter.workspace.book.items == before
    fitter.press("Undo opening", page)
    assert "No catalogue" in page._said.text()
    (tmp_path / "mine.xlsx").write_bytes(b"PK\x03\x04 nothing")
    fitter.press("Open file", page)
    fitter.qtbot.waitUntil(lambda: "cannot be taken in" in page._said.text(), timeout=WAIT_MS)


def test_a_sheet_is_kept_with_its_item_and_opened_from_the_line_that_rests_on_it(
    fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = opened(fitter)
    page.open_item("sound-pad")
    (tmp_path / "pad.pdf").write_bytes(b"%PDF-1.4 a pad")
    large = QImage(3000, 1500, QImage.Format.Format_RGB32)
    large.fill(0xFF8800)
    large.save(str(tmp_path / "pad.png"))
    page.papers.add(tmp_path / "pad.pdf")
    page.papers.add(tmp_path / "pad.png")
    assert [each.name for each in attached(fitter.workspace.store, "sound-pad")] == ["pad.pdf", "pad.png"]
    (tmp_path / "pad.txt").write_text("words", encoding="utf-8")
    page.papers.add(tmp_path / "pad.txt")
    assert "neither a picture nor a PDF" in page._said.text()

    opened_files: list[str] = []
    monkeypatch.setattr(QDesktopServices, "openUrl", lambda url: opened_files.append(url.toLocalFile()))
    fitter.open("102")
    fitter.settled()
    fitter.page("Alt+4")
    fitter.window.figure_asked.emit("line:sound-pad")
    fitter.window.frame.open_where_from()
    fitter.press("pad.pdf")
    assert Path(opened_files[0]).read_bytes() == b"%PDF-1.4 a pad"
    fitter.press("Open in the catalogue")
    assert fitter.window.current == "catalogue"
    assert box(page, "Code").text() == "sound-pad"


def test_every_box_of_every_offer_has_its_head_above_it(fitter: Fitter) -> None:
    page = opened(fitter)
    for code, offers in (("sound-pad", 2), ("panel-tiled-300", 1)):
        page.open_item(code)
        QApplication.processEvents()
        heads = [each for each in page.form._offers.findChildren(QLabel) if each.text() == "Days to come" and not each.isHidden()]
        boxes = [box(page, f"Offer {number}, Days to come") for number in range(1, offers + 2)]
        assert [
            (each.x(), each.geometry().bottom() < below.y()) for each, below in zip(sorted(heads, key=QLabel.y), boxes, strict=True)
        ] == [(below.x(), True) for below in boxes]


def test_every_control_has_a_name(fitter: Fitter) -> None:
    page = opened(fitter)
    page.open_item("sound-pad")
    assert nameless(page) == []
