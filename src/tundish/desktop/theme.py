"""Puts a look on the whole program: Fusion, one palette and one style sheet, all from the tokens."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QPalette
from PySide6.QtWidgets import QApplication

from tundish.desktop import fonts, look
from tundish.desktop.look import Look
from tundish.desktop.stylesheet import stylesheet

_Role = QPalette.ColorRole
ROLES: Final = {
    _Role.Window: "plaster",
    _Role.WindowText: "ink",
    _Role.Base: "sheet",
    _Role.AlternateBase: "plaster",
    _Role.Text: "ink",
    _Role.PlaceholderText: "ink2",
    _Role.Button: "sheet",
    _Role.ButtonText: "ink",
    _Role.BrightText: "fails",
    _Role.Highlight: "chalk",
    _Role.HighlightedText: "onChalk",
    _Role.Link: "chalk",
    _Role.LinkVisited: "chalk",
    _Role.Accent: "chalk",
    _Role.ToolTipBase: "tray",
    _Role.ToolTipText: "ink",
    _Role.Light: "sheet",
    _Role.Midlight: "tray",
    _Role.Mid: "hairline",
    _Role.Dark: "edge",
    _Role.Shadow: "edge",
}
"""Which token each palette role takes, so that Qt's own dialogs follow too."""


def application(arguments: Sequence[str]) -> QApplication:
    """The application, in the Fusion style: asked for by argument, since Python's view of a style takes 6 ms to make."""
    name, *rest = arguments or ["tundish"]
    return QApplication([name, "-style", "fusion", *rest])


def apply(app: QApplication, wanted: Look) -> None:
    """Wear a look everywhere, at once; windows that are open are laid out and painted again."""
    fonts.load()
    look.wear(wanted)
    app.setFont(look.font("body"))
    app.setPalette(palette(wanted))
    app.setStyleSheet(stylesheet(wanted))


def palette(wanted: Look) -> QPalette:
    """The palette of a look."""
    made = QPalette()
    for role, token in ROLES.items():
        made.setColor(role, QColor(wanted.hex(token)))
    for role in (_Role.Text, _Role.WindowText, _Role.ButtonText):
        made.setColor(QPalette.ColorGroup.Disabled, role, QColor(wanted.hex("edge")))
    return made


def desktop_scheme(app: QApplication) -> str:
    """The scheme the desktop asks for, "light" or "dark"; light where it does not say."""
    return "dark" if app.styleHints().colorScheme() == Qt.ColorScheme.Dark else "light"
