"""The bundled type draws what the program writes, and its figures line up."""

from __future__ import annotations

import pytest
from PySide6.QtGui import QFont, QFontInfo, QFontMetricsF, QRawFont
from PySide6.QtWidgets import QApplication

from tundish.desktop import fonts, look, tokens
from tundish.resources import resource

WRITTEN = "£€½¼¾×÷−–—…°²³≥≤≈·ØøÉé’“”'\"0123456789,.%"


@pytest.mark.parametrize("weight", fonts.WEIGHTS)
def test_every_sign_the_program_writes_is_in_the_face(qapp: QApplication, weight: str) -> None:
    face = QRawFont(str(resource("fonts", f"AtkinsonHyperlegibleNextTabular-{weight}.ttf")), 14)
    assert face.isValid()
    assert [sign for sign in WRITTEN if not face.supportsCharacter(ord(sign))] == []


@pytest.mark.parametrize("weight", [400, 500, 600, 700])
def test_figures_are_all_as_wide_as_each_other(qapp: QApplication, weight: int) -> None:
    fonts.load()
    face = QFont(tokens.families())
    face.setPixelSize(100)
    face.setWeight(QFont.Weight(weight))
    assert QFontInfo(face).family() == tokens.families()[0]
    widths = {QFontMetricsF(face).horizontalAdvance(figure * 10) for figure in "0123456789"}
    assert max(widths) - min(widths) < 1


def test_the_window_wears_the_bundled_type(qapp: QApplication) -> None:
    fonts.load()
    assert {QFontInfo(look.font(role)).family() for role in ("body", "title", "figure", "amount")} == {tokens.families()[0]}
