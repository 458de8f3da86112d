"""Stock-take: many lines at once, lengths and weights too, each difference with its reason."""

from __future__ import annotations

from PySide6.QtWidgets import QApplication

from tests.desktop.fitter import Fitter
from tests.desktop.spoken_names import nameless
from tundish.desktop.boxes import Box
from tundish.desktop.pages.stock_take import StockTakePage
from tundish.store.ledger import STOCK_TAKE, Ledger


def opened(fitter: Fitter) -> StockTakePage:
    fitter.window.show_page("stock")
    fitter.press("Count many")
    page = fitter.window.page("stock_take")
    assert isinstance(page, StockTakePage)
    return page


def line(page: StockTakePage, item: str) -> tuple[Box, Box]:
    return next((counted, why) for holding, counted, why in page._lines if holding.item == item)


def test_many_lines_are_entered_at_once_each_with_its_reason(fitter: Fitter) -> None:
    page, ledger = opened(fitter), Ledger(fitter.workspace.store)
    by_length = next(one.code for one in fitter.workspace.book.items.values() if one.unit == "mm")
    by_weight = next(one.code for one in fitter.workspace.book.items.values() if one.unit == "kg")
    for item, counted, why in (("sound-pad", "4", "two used on 099"), (by_length, "3,450", ""), (by_weight, "1.44", "left from a job")):
        boxes = line(page, item)
        boxes[0].setText(counted)
        boxes[1].setText(why)
    fitter.press("Enter all", page)
    assert page._said.text() == "Entered: 3 counted, 3 differ; 1 not explained."
    stock = fitter.workspace.book.stock
    assert (stock["sound-pad"], stock[by_length], stock[by_weight]) == (4, 3450, 1.44)
    notes = {each.item: each.note for each in ledger.movements() if each.what == STOCK_TAKE}
    assert notes["sound-pad"] == "ledger 6, counted 4: two used on 099"
    assert notes[by_length].endswith("not explained")
    assert line(page, "sound-pad")[0].text() == ""


def piece(page: StockTakePage, key: str) -> tuple[Box, Box]:
    return next((counted, why) for each, counted, why in page._pieces if each.key == key)


def test_offcuts_are_counted_by_their_size_and_keep_their_key(fitter: Fitter) -> None:
    page, store = opened(fitter), fitter.workspace.store
    sizes = {each.key: (each.length, each.width) for each in store.book().rack}
    for key, counted, why in (("R1", "0", "cut on 099"), ("R2", "700", ""), ("R4", "600 x 400", "corner broken"), ("R5", "1,850", "")):
        piece(page, key)[0].setText(counted)
        piece(page, key)[1].setText(why)
    fitter.press("Enter all", page)
    assert page._said.text() == "Entered: 4 counted, 3 differ; 1 not explained."
    after = {each.key: (each.length, each.width) for each in store.book().rack}
    assert after == {key: size for key, size in sizes.items() if key != "R1"} | {"R2": (700, 0), "R4": (600, 400)}
    notes = {each.note for each in Ledger(store).movements() if each.what == STOCK_TAKE}
    assert f"rack {sizes['R1'][0]:g}, found gone: cut on 099" in notes
    assert "rack 640 × 400, found 600 × 400: corner broken" in notes


def test_one_side_of_a_board_is_no_size(fitter: Fitter) -> None:
    page, before = opened(fitter), Ledger(fitter.workspace.store).movements()
    piece(page, "R4")[0].setText("600")
    fitter.press("Enter all", page)
    assert page._said.text() == "1 line is no amount: nothing was entered."
    assert Ledger(fitter.workspace.store).movements() == before


def test_one_line_that_is_no_amount_stops_them_all(fitter: Fitter) -> None:
    page, before = opened(fitter), Ledger(fitter.workspace.store).movements()
    line(page, "sound-pad")[0].setText("4")
    line(page, "elbow-15")[0].setText("a few")
    fitter.press("Enter all", page)
    assert page._said.text() == "1 line is no amount: nothing was entered."
    assert Ledger(fitter.workspace.store).movements() == before
    assert line(page, "sound-pad")[0].text() == "4"


def test_what_is_being_typed_keeps_the_keyboard_when_figures_come(fitter: Fitter) -> None:
    fitter.open("101")
    estimate, page = fitter.settled(), opened(fitter)
    counted, _ = line(page, "sound-pad")
    counted.setFocus()
    counted.setText("4")
    fitter.workspace.estimate_ready.emit(estimate)
    assert line(page, "sound-pad")[0] is counted
    assert QApplication.focusWidget() is counted
    Ledger(fitter.workspace.store).move("sound-pad", -2, STOCK_TAKE)
    fitter.workspace.estimate_ready.emit(estimate)
    assert [(holding.amount, box.text()) for holding, box, _ in page._lines if holding.item == "sound-pad"] == [(4, "4")]


def test_every_control_has_a_name(fitter: Fitter) -> None:
    assert nameless(opened(fitter)) == []
