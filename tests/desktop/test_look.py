"""A look gives sizes and colours; the whole program wears one at a time."""

from __future__ import annotations

import pytest
from PySide6.QtGui import QColor, QPalette
from PySide6.QtWidgets import QApplication, QLabel
from pytestqt.qtbot import QtBot

from tundish.desktop import look, theme, tokens
from tundish.desktop.look import Look
from tundish.desktop.stylesheet import stylesheet
from tundish.desktop.words import label


def test_text_goes_up_and_down_its_four_steps_and_no_further() -> None:
    assert [Look(percent=100).larger(steps).percent for steps in (-1, 0, 1, 2, 3, 4)] == [100, 100, 115, 130, 150, 150]


def test_rows_and_controls_grow_with_the_text_and_when_roomy() -> None:
    assert (Look().row(28), Look(percent=150).row(28), Look(roomy=True).row(28)) == (28, 42, 44)
    assert (Look().control, Look(roomy=True).control) == (34, 44)


def test_strong_lines_turn_pale_ink_and_hairlines_up() -> None:
    assert Look(strong=True).hex("ink2") == Look().hex("ink")
    assert Look(strong=True).hex("hairline") == Look().hex("edge")
    assert Look(strong=True).hex("chalk") == Look().hex("chalk")


@pytest.mark.parametrize("scheme", tokens.SCHEMES)
def test_the_palette_is_made_of_tokens(qapp: QApplication, scheme: str) -> None:
    theme.apply(qapp, Look(scheme))
    assert qapp.palette().color(QPalette.ColorRole.Window) == QColor(Look(scheme).hex("plaster"))
    assert qapp.palette().color(QPalette.ColorRole.Text) == QColor(Look(scheme).hex("ink"))
    assert look.now().scheme == scheme


def test_a_label_grows_with_the_text_size(qapp: QApplication, qtbot: QtBot) -> None:
    title: QLabel = label("Setting out", "title")
    qtbot.addWidget(title)
    title.ensurePolished()
    before = title.sizeHint().width()
    theme.apply(qapp, Look(percent=150))
    assert title.sizeHint().width() == pytest.approx(before * 1.5, rel=0.05)


def test_the_style_sheet_names_no_colour_that_is_not_a_token() -> None:
    for scheme in tokens.SCHEMES:
        sheet = stylesheet(Look(scheme))
        codes = {sheet[place : place + 7] for place, sign in enumerate(sheet) if sign == "#"}
        assert codes <= set(tokens.colours(scheme).values())
