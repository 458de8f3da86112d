"""The gauge: a bar past its tick is a need that is met."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QRectF
from PySide6.QtGui import QImage, QPainter
from PySide6.QtWidgets import QApplication

from tundish.desktop import look
from tundish.desktop.cells import Gauge
from tundish.desktop.gauge import TICK, filled, paint_gauge


@given(met=st.floats(min_value=-10, max_value=1000))
def test_the_bar_reaches_the_tick_exactly_where_the_need_is_met(met: float) -> None:
    part = filled(Gauge(met))
    assert 0 <= part <= 1
    assert (part >= TICK) == (met >= 1)


def test_a_range_has_no_bar() -> None:
    assert filled(Gauge(None, 0.2, 0.8, 0.5)) == 0


@pytest.mark.parametrize("gauge", [Gauge(1.5), Gauge(0.5, tone="fails"), Gauge(None, 0.25, 0.75, 0.3, "tbc")])
def test_a_gauge_is_painted_in_its_tone(qapp: QApplication, gauge: Gauge) -> None:
    image = QImage(122, 20, QImage.Format.Format_RGB32)
    image.fill(look.colour("sheet"))
    painter = QPainter(image)
    paint_gauge(painter, QRectF(image.rect()), gauge)
    painter.end()
    colours = {image.pixelColor(x, y).name().upper() for x in range(image.width()) for y in range(image.height())}
    assert {look.now().hex(gauge.tone), look.now().hex("ink")} <= colours
