"""The one style sheet, made from the tokens for a look."""

from __future__ import annotations

from typing import Final

from tundish.desktop import tokens
from tundish.desktop.look import Look

ROLES: Final = ("figure", "title", "section", "body", "bodyStrong", "table", "tableStrong", "note", "noteStrong", "amount", "price")
TONES: Final = ("ink2", "slateText", "slateText2", "chalk", "settled", "tbc", "fails")


def stylesheet(look: Look) -> str:
    """The rules for the plain controls; what paints itself takes its colours from the look directly."""
    return "".join((_words(look), _frames(look), _buttons(look), _boxes(look), _lists(look), _bars(look)))


def _words(look: Look) -> str:
    roles = "".join(_role(look, role) for role in ROLES)
    tones = "".join(f'QLabel[tone="{tone}"]{{color:{look.hex(tone)}}}' for tone in TONES)
    return roles + tones


def _role(look: Look, role: str) -> str:
    size, weight = tokens.type_size(role)
    return f'QLabel[role="{role}"]{{font-size:{look.px(size)}px;font-weight:{weight}}}'


def _frames(look: Look) -> str:
    card = f"background:{look.hex('sheet')};border:1px solid {look.hex('hairline')};border-radius:6px"
    note = f"border-radius:{look.px(4)}px;padding:{look.px(6)}px {look.px(9)}px"
    return f"""
    QMainWindow{{background:{look.hex("plaster")}}}
    QFrame[kind="card"]{{{card}}}
    *[kind="foot"]{{background:{look.hex("tray")};border:none;border-top:1px solid {look.hex("edge")};
        border-bottom-left-radius:5px;border-bottom-right-radius:5px}}
    QFrame[kind="sectionHead"]{{border:none;border-top:1px solid {look.hex("hairline")};margin-top:{look.px(5)}px}}
    QFrame[kind="groupHead"]{{background:{look.hex("tray")};border:none}}
    QFrame[kind="find"]{{background:{look.hex("plaster")};border:1px solid {look.hex("edge")};border-radius:6px}}
    QFrame[kind="note"]{{background:{look.hex("plaster")};border:1px solid {look.hex("hairline")};{note}}}
    QFrame[kind="warning"],QFrame[kind="note"]{{margin-top:{look.px(4)}px}}
    QFrame[kind="warning"]{{background:{look.hex("tbcWash")};border:1px solid {look.hex("tbc")};{note}}}
    QFrame[kind="bad"]{{background:{look.hex("failsWash")};border:1px solid {look.hex("fails")};{note}}}
    QScrollArea,QScrollArea>QWidget>QWidget[kind="clear"]{{background:transparent;border:none}}
    QToolTip{{background:{look.hex("tray")};color:{look.hex("ink")};border:1px solid {look.hex("edge")};padding:4px}}"""


def _buttons(look: Look) -> str:
    space = f"min-height:{look.control - 2}px;padding:0 {look.px(12)}px;border-radius:{look.px(4)}px"
    type_ = f"font-size:{look.px(13)}px;font-weight:600"
    return f"""
    QPushButton{{{space};{type_};outline:none;color:{look.hex("ink")};background:{look.hex("sheet")};border:1px solid {look.hex("edge")}}}
    QPushButton:hover,QPushButton:open{{background:{look.hex("tray")}}}
    QPushButton:pressed,QPushButton:checked{{background:{look.hex("chalkWash")};border-color:{look.hex("chalk")}}}
    QPushButton:disabled{{color:{look.hex("edge")};background:{look.hex("tray")};border-color:{look.hex("hairline")}}}
    QPushButton[kind="main"]{{color:{look.hex("onChalk")};background:{look.hex("chalk")};border-color:{look.hex("chalk")}}}
    QPushButton[kind="main"]:hover{{border-color:{look.hex("ink")}}}
    QPushButton[kind="main"]:pressed{{border:2px solid {look.hex("ink")}}}
    QPushButton[kind="main"]:disabled{{color:{look.hex("edge")};background:{look.hex("tray")};border-color:{look.hex("hairline")}}}
    QPushButton::menu-indicator{{image:none;width:0}}
    QMenu{{background:{look.hex("sheet")};border:1px solid {look.hex("edge")};padding:4px 0}}
    QMenu::item{{padding:{look.px(6)}px {look.px(24)}px {look.px(6)}px {look.px(16)}px;color:{look.hex("ink")}}}
    QMenu::item:selected{{background:{look.hex("chalkWash")}}}
    QMenu::item:disabled{{color:{look.hex("edge")}}}
    QMenu::separator{{height:1px;background:{look.hex("hairline")};margin:4px 8px}}"""


def _boxes(look: Look) -> str:
    space = f"min-height:{look.px(28) if not look.roomy else look.px(40)}px;border-radius:{look.px(4)}px"
    base = f"color:{look.hex('ink')};background:{look.hex('sheet')};border:1px solid {look.hex('edge')}"
    chosen = f"selection-background-color:{look.hex('chalk')};selection-color:{look.hex('onChalk')}"
    return f"""
    QLineEdit,QPlainTextEdit{{{space};{base};{chosen};padding:0 {look.px(8)}px}}
    QPlainTextEdit{{padding:{look.px(4)}px}}
    QLineEdit:focus,QPlainTextEdit:focus{{border-color:{look.hex("chalk")}}}
    QLineEdit:disabled{{color:{look.hex("ink2")};background:{look.hex("tray")};border-color:{look.hex("hairline")}}}
    QLineEdit[figure="yes"]{{font-weight:500}}
    QLineEdit[state="bad"]{{color:{look.hex("fails")};border-color:{look.hex("fails")}}}
    QLineEdit[state="tbc"]{{border:1px dashed {look.hex("tbc")}}}"""


def _lists(look: Look) -> str:
    rows = f"color:{look.hex('ink')};background:{look.hex('sheet')};border:none;outline:none"
    return f"""
    QTableView,QListView{{{rows};font-size:{look.px(13)}px;selection-background-color:{look.hex("chalkWash")};selection-color:{look.hex("ink")}}}
    QHeaderView{{background:transparent;border:none}}
    QFileDialog QHeaderView::section{{background:{look.hex("tray")};color:{look.hex("ink")};border:none;
        padding:{look.px(4)}px {look.px(8)}px}}
    QComboBox QAbstractItemView{{border:1px solid {look.hex("edge")};padding:2px}}
    QComboBox QAbstractItemView::item{{min-height:{look.px(28)}px;padding:0 {look.px(8)}px}}"""


def _bars(look: Look) -> str:
    width = look.px(12)
    return f"""
    QScrollBar:vertical{{background:transparent;width:{width}px;margin:0}}
    QScrollBar:horizontal{{background:transparent;height:{width}px;margin:0}}
    QScrollBar::handle{{background:{look.hex("edge")};border-radius:2px;margin:4px}}
    QScrollBar::handle:vertical{{min-height:{look.px(32)}px}}
    QScrollBar::handle:horizontal{{min-width:{look.px(32)}px}}
    QScrollBar::handle:hover{{background:{look.hex("ink2")};margin:3px}}
    QScrollBar::add-line,QScrollBar::sub-line{{width:0;height:0}}
    QScrollBar::add-page,QScrollBar::sub-page{{background:transparent}}
    QProgressBar{{background:{look.hex("tray")};border:1px solid {look.hex("edge")};border-radius:{look.px(4)}px}}
    QProgressBar::chunk{{background:{look.hex("chalk")};border-radius:{look.px(3)}px}}"""
