"""The pages as they are shown in the guide: with TUNDISH_PICTURES=1 the pictures in docs/pictures are made anew."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Final

import pytest
from PySide6.QtGui import QImage

from tests.desktop.fitter import WAIT_MS, Fitter

PICTURES: Final = Path(__file__).parents[3] / "docs" / "pictures"
PAGES: Final = (
    ("Alt+1", "survey"),
    ("Alt+2", "setting-out"),
    ("Alt+3", "checks"),
    ("Alt+4", "materials"),
    ("Alt+5", "cutting"),
    ("Alt+7", "pricing"),
    ("Alt+8", "paper"),
    ("Alt+9", "before-closing"),
)
FEWEST_COLOURS: Final = 40
"""A page that is drawn has more shades than this, of its letters alone."""


def colours(image: QImage) -> int:
    small = image.scaled(400, 300)
    return len({small.pixel(x, y) for x in range(small.width()) for y in range(small.height())})


@pytest.mark.parametrize(("keys", "name"), PAGES, ids=[name for _, name in PAGES])
def test_every_page_shows_the_family_bathroom(keys: str, name: str, fitter: Fitter) -> None:
    fitter.window.resize(1366, 698)
    fitter.open("102")
    fitter.settled()
    page = fitter.page(keys)
    fitter.qtbot.waitUntil(lambda: colours(page.grab().toImage()) > FEWEST_COLOURS, timeout=WAIT_MS)
    if os.environ.get("TUNDISH_PICTURES"):
        fitter.qtbot.wait(500)  # only for the picture: the preview and the sketch come from beside the window
        PICTURES.mkdir(parents=True, exist_ok=True)
        assert fitter.window.grab().save(str(PICTURES / f"{name}.png"))
