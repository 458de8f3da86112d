"""Settings: the trader's details, the look, and where things are kept."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFileDialog, QLabel

from tests.desktop.fitter import WAIT_MS, Fitter
from tests.desktop.hands import click
from tests.desktop.pages.test_photographs import picture
from tests.desktop.spoken_names import nameless
from tundish.desktop import kept_look, look
from tundish.desktop.boxes import TickBox
from tundish.desktop.chips import Chip
from tundish.desktop.kept_look import Chosen
from tundish.desktop.pages.settings import SettingsPage
from tundish.store import logo


def opened(fitter: Fitter) -> SettingsPage:
    fitter.window.show_page("settings")
    page = fitter.window.page("settings")
    assert isinstance(page, SettingsPage)
    return page


def chip(page: SettingsPage, words: str) -> Chip:
    return next(each for each in page.findChildren(Chip) if each.text() == words)


def test_the_traders_name_is_kept_and_stands_in_the_book(fitter: Fitter) -> None:
    page = opened(fitter)
    fitter.type_into(page.form.row("name"), "P. Marlbeck")
    assert fitter.workspace.book.trader.name == "P. Marlbeck"
    assert fitter.workspace.store.book().trader.name == "P. Marlbeck"


def test_an_address_has_several_lines(fitter: Fitter) -> None:
    page = opened(fitter)
    fitter.type_into(page.form.row("address"), "1 Kiln Yard\nHarrowmere")
    assert fitter.workspace.book.trader.address == "1 Kiln Yard\nHarrowmere"


def listening(fitter: Fitter) -> list[str]:
    """What is said from now on."""
    said: list[str] = []
    fitter.workspace.said.connect(said.append)
    return said


def head(page: SettingsPage, fitter: Fitter) -> QImage:
    """The head of a paper as it is shown, once it is."""
    fitter.qtbot.waitUntil(lambda: not fitter.workspace.aside.busy, timeout=WAIT_MS)
    return page.logo.pixmap().toImage()


def red(image: QImage) -> int:
    """How many of its points are plainly red."""
    colours = [image.pixelColor(x, y) for x in range(0, image.width(), 2) for y in range(0, image.height(), 2)]
    return sum(each.red() > 150 and each.green() < 90 and each.blue() < 90 for each in colours)


def test_a_logo_is_chosen_seen_as_printed_kept_and_taken_away(fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page, file, said = opened(fitter), tmp_path / "sign.png", listening(fitter)
    file.write_bytes(picture(800, 400, "PNG"))
    assert red(head(page, fitter)) == 0
    assert not page.logo.away.isEnabled()
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: (str(file), ""))
    click(page.logo.choose)
    assert red(head(page, fitter)) > 20
    assert logo.kept(fitter.workspace.store)
    assert said == ["sign.png stands at the head of every paper"]
    assert page.logo.accessibleName().endswith("with your logo")
    click(page.logo.away)
    assert red(head(page, fitter)) == 0
    assert logo.kept(fitter.workspace.store) is None


def test_a_file_that_is_no_picture_is_said_and_the_logo_before_it_stays(fitter: Fitter, tmp_path: Path) -> None:
    page, good, bad, said = opened(fitter), tmp_path / "sign.png", tmp_path / "sign.svg", listening(fitter)
    good.write_bytes(picture(80, 40, "PNG"))
    bad.write_text("<svg/>")
    page.logo.take(good)
    page.logo.take(bad)
    assert red(head(page, fitter)) > 20
    assert said[-1].startswith("sign.svg is not a picture")


def test_the_head_follows_a_name_as_it_is_typed(fitter: Fitter) -> None:
    page = opened(fitter)
    before = head(page, fitter)
    fitter.type_into(page.form.row("name"), "P. Marlbeck")
    assert head(page, fitter) != before
    assert "P. Marlbeck" in page.logo.accessibleName()


def test_the_colour_of_papers_is_chosen_seen_as_printed_and_kept(fitter: Fitter) -> None:
    page = opened(fitter)
    assert red(head(page, fitter)) == 0
    click(chip(page, "Red"))
    assert red(head(page, fitter)) > 20
    assert fitter.workspace.store.book().trader.colour == "red"
    assert chip(page, "Red").isChecked()


def test_how_vat_is_usually_rounded_is_kept_and_a_new_job_begins_with_it(fitter: Fitter) -> None:
    page = opened(fitter)
    fitter.type_into(page.form.row("vat_rounding"), "line by line, to the nearest penny")
    assert fitter.workspace.book.trader.vat_rounding == "line by line, to the nearest penny"
    assert fitter.workspace.job.terms.vat_rounding == "on the total, to the nearest penny", "a job keeps its own"
    fitter.window.show_page("jobs")
    fitter.press("Start a survey", fitter.window.page("jobs"))
    assert fitter.workspace.job.terms.vat_rounding == "line by line, to the nearest penny"


def test_the_look_changes_at_once_and_is_kept(fitter: Fitter) -> None:
    page = opened(fitter)
    click(chip(page, "Dark"))
    click(chip(page, "115 %"))
    click(next(each for each in page.findChildren(TickBox) if each.text().startswith("Strong lines")))
    assert (look.now().scheme, look.now().percent, look.now().strong, look.now().roomy) == ("dark", 115, True, False)
    assert kept_look.chosen(fitter.workspace.store) == Chosen("dark", 115, roomy=False, strong=True)


def test_a_text_size_changed_by_a_key_is_kept_and_shown(fitter: Fitter) -> None:
    page = opened(fitter)
    QTest.keyClick(fitter.window, Qt.Key.Key_Plus, Qt.KeyboardModifier.ControlModifier)
    assert kept_look.chosen(fitter.workspace.store).percent == 115
    assert chip(page, "115 %").isChecked()


def test_a_kept_look_that_makes_no_sense_is_the_usual_one(fitter: Fitter) -> None:
    for nonsense in (None, 7, {"scheme": "pink", "percent": 90, "roomy": "yes"}):
        fitter.workspace.store.keep_setting(kept_look.SETTING, nonsense)
        assert kept_look.chosen(fitter.workspace.store) == Chosen()


def test_it_says_where_everything_is_kept(fitter: Fitter, tmp_path: Path) -> None:
    page = opened(fitter)
    assert str(tmp_path / "home" / "tundish.db") in [each.text() for each in page.findChildren(QLabel)]


def test_every_control_has_a_name(fitter: Fitter) -> None:
    assert nameless(opened(fitter)) == []
