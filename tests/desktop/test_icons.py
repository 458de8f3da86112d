"""Glyphs are drawn in the colours of the moment, sharp on every screen."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QSize
from PySide6.QtGui import QIcon, QImage
from PySide6.QtWidgets import QApplication

from tundish.desktop import icons, look, theme
from tundish.desktop.look import Look
from tundish.figure import Known
from tundish.resources import resource

NAMES = sorted(file.stem for file in resource("ui", "icons").glob("*.svg"))


def darkest(image: QImage) -> str:
    """The colour of the most solid pixel."""
    points = ((x, y) for x in range(image.width()) for y in range(image.height()))
    return max((image.pixelColor(*at) for at in points), key=lambda colour: colour.alpha()).name().upper()


@pytest.mark.parametrize("name", NAMES)
def test_every_glyph_can_be_drawn(qapp: QApplication, name: str) -> None:
    image = icons.pixmap(name, "ink", 24).toImage()
    assert any(image.pixelColor(x, y).alpha() > 200 for x in range(24) for y in range(24))


def test_every_way_to_know_a_figure_has_a_mark() -> None:
    assert set(icons.SOURCES) == {str(known) for known in Known}
    assert set(icons.SOURCES.values()) <= set(NAMES)


def test_an_icon_made_before_follows_a_change_of_scheme(qapp: QApplication) -> None:
    made = icons.icon("add", "chalk")
    size = QSize(24, 24)
    assert darkest(made.pixmap(size).toImage()) == look.now().hex("chalk")
    theme.apply(qapp, Look("dark"))
    assert darkest(made.pixmap(size).toImage()) == Look("dark").hex("chalk") != Look().hex("chalk")


def test_an_icon_that_cannot_be_used_is_drawn_in_the_edge_colour(qapp: QApplication) -> None:
    drawn = icons.icon("add", "ink").pixmap(QSize(24, 24), 1.0, QIcon.Mode.Disabled).toImage()
    assert darkest(drawn) == look.now().hex("edge")


def test_a_glyph_has_twice_the_pixels_on_a_screen_of_scale_two(qapp: QApplication) -> None:
    assert icons.icon("print").pixmap(QSize(20, 20), 2.0).size() == QSize(40, 40)
