"""The bundled type, brought in once: without it every row height would depend on the machine."""

from __future__ import annotations

from functools import cache
from typing import Final

from PySide6.QtGui import QFontDatabase

from tundish.resources import resource

WEIGHTS: Final = ("Regular", "Medium", "SemiBold", "Bold")


@cache
def load() -> tuple[str, ...]:
    """Bring the four weights in and give the families they made; none when a file is missing, and the stand-ins serve."""
    files = [resource("fonts", f"AtkinsonHyperlegibleNextTabular-{weight}.ttf") for weight in WEIGHTS]
    made = [QFontDatabase.addApplicationFont(str(file)) for file in files]
    return tuple(family for each in made if each >= 0 for family in QFontDatabase.applicationFontFamilies(each))
