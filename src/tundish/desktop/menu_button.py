"""A push button that opens a menu, with a small chevron that says so."""

from __future__ import annotations

from PySide6.QtCore import QRect, QSize
from PySide6.QtGui import QPainter, QPaintEvent

from tundish.desktop import icons, look
from tundish.desktop.words import PushButton

CHEVRON = 12


class MenuButton(PushButton):
    """A button with a menu."""

    def __init__(self, text: str, glyph: str, *, main: bool = False) -> None:
        super().__init__(text)
        self.setAccessibleName(text)
        self._tone = "onChalk" if main else "ink"
        if main:
            self.setProperty("kind", "main")
        self.setIcon(icons.icon(glyph, self._tone))
        side = look.now().px(18)
        self.setIconSize(QSize(look.now().px(24), side))

    def whole_hint(self) -> QSize:
        """How large it wants to be, its chevron with it."""
        return super().whole_hint() + QSize(look.now().px(CHEVRON + 8), 0)

    def beside_glyph(self) -> int:
        """What stands beside its glyph: the chevron too."""
        return super().beside_glyph() + look.now().px(CHEVRON + 8)

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        side = look.now().px(CHEVRON)
        at = QRect(self.width() - side - look.now().px(7), (self.height() - side) // 2, side, side)
        icons.draw(QPainter(self), at, "chevd", self._tone)
