"""The one window: it builds the regions, shows pages made when first asked for, and answers the keys of every page."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

import shiboken6
from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QApplication, QMainWindow, QWidget

from tundish.desktop import icons, keys, look, theme, tokens
from tundish.desktop.focus_ring import FocusRing
from tundish.desktop.frame import Frame
from tundish.desktop.job_line import BARE, FINISH
from tundish.desktop.page import Page
from tundish.desktop.spoken import Speaker
from tundish.desktop.stops import first_stop

NAME: Final = "Tundish"


class MainWindow(QMainWindow):
    """One window on one job. Pages are added by key and made when first shown."""

    page_asked = Signal(str)
    page_shown = Signal(str)
    figure_asked = Signal(str)
    look_changed = Signal(object)
    """The `Look` now worn, after the text was made larger or smaller here."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._makers: dict[str, Callable[[], QWidget]] = {}
        self._titles: dict[str, str] = {}
        self._pages: dict[str, QWidget] = {}
        self._current = ""
        self._figure: QWidget | None = None
        self._helped: QWidget | None = None
        self.frame = Frame(self)
        self.job_line, self.run = self.frame.job_line, self.frame.run
        self.tally, self.where_from = self.frame.tally, self.frame.where_from
        self.setCentralWidget(self.frame)
        self.setWindowTitle(NAME)
        self.setWindowIcon(icons.icon("tundish", "chalk"))
        self.setMinimumSize(*tokens.region("minimum_window"))
        self.resize(*tokens.region("design_window"))
        self._ring = FocusRing(self)
        self._speaker = Speaker(self)
        self._acts = self._named_acts()
        self._connect()

    def add_page(self, key: str, title: str, page: QWidget | Callable[[], QWidget]) -> None:
        """Add a page: ready made, or what makes it, which is called when the page is first shown."""
        self._titles[key] = title
        if isinstance(page, QWidget):
            self._take_in(key, page)
        else:
            self._makers[key] = page

    def show_page(self, key: str) -> None:
        """Show a page, with the keyboard in its first unanswered box; a key that was never added is passed over."""
        if key not in self._titles:
            return
        if key not in self._pages:
            self._take_in(key, self._makers.pop(key)())
        page = self._pages[key]
        self._current = key
        self._figure = None
        focused = QApplication.focusWidget()
        if focused is not None and self._holds(self.frame.pages, focused):
            focused.clearFocus()  # else the page would have the keyboard before it is asked where it starts
        self.frame.pages.setCurrentWidget(page)
        self.run.set_current(key)
        self.show_page_help()
        self.page_shown.emit(key)
        self._focus_page()

    def show_page_help(self) -> None:
        """Say beside the page what may be done on it, in place of a figure that was asked about."""
        page = self._pages.get(self._current)
        if isinstance(page, Page) and page.help_sentences:
            self.where_from.show_help(self._titles[self._current], page.help_sentences)

    def page(self, key: str) -> QWidget | None:
        """A page that has been made, or None."""
        return self._pages.get(key)

    @property
    def current(self) -> str:
        """The key of the page shown, "" before the first."""
        return self._current

    def set_title(self, words: str) -> None:
        """What the desktop's title bar says after the program's name."""
        self.setWindowTitle(f"{NAME}: {words}" if words else NAME)

    def announce(self, words: str) -> None:
        """Say a change to a screen reader, politely."""
        self._speaker.say(words)

    def text_size(self, steps: int) -> None:
        """Make the text that many steps larger, or smaller where negative."""
        wanted = look.now().larger(steps)
        app = QApplication.instance()
        if wanted != look.now() and isinstance(app, QApplication):
            theme.apply(app, wanted)
            self.look_changed.emit(wanted)

    def _take_in(self, key: str, page: QWidget) -> None:
        self._pages[key] = page
        self.frame.pages.addWidget(page)
        if isinstance(page, Page):
            page.page_asked.connect(self.page_asked)
            page.figure_asked.connect(self.figure_asked)

    def _connect(self) -> None:
        self.run.page_asked.connect(self.page_asked)
        self.page_asked.connect(self.show_page)
        self.where_from.leave_asked.connect(self._back_to_figure)
        self.frame.where_from_moved.connect(self._back_to_figure)
        for key in keys.KEYS:
            made = QShortcut(QKeySequence(key.keys), self)
            made.setObjectName(key.act)
            made.activated.connect(self._key_pressed)
        app = QApplication.instance()
        if isinstance(app, QApplication):
            app.focusChanged.connect(self._focus_moved)

    def _named_acts(self) -> dict[str, Callable[[], None]]:
        return {
            "next region": self._next_region,
            "last region": self._last_region,
            "where from": self._ask_where_from,
            "floor": self._other_floor,
            "undo": self.job_line.undo_asked.emit,
            "redo": self.job_line.redo_asked.emit,
            "find": self.job_line.find_asked.emit,
            "print": self.job_line.print_asked.emit,
            "larger": self._larger,
            "smaller": self._smaller,
            "help": self._help,
        }

    def _key_pressed(self) -> None:
        act = self.sender().objectName()
        if act.startswith(keys.PAGE):
            self.page_asked.emit(act.removeprefix(keys.PAGE))
        else:
            self._acts[act]()

    def _larger(self) -> None:
        self.text_size(1)

    def _smaller(self) -> None:
        self.text_size(-1)

    def _other_floor(self) -> None:
        self.job_line.floor_asked.emit(BARE if self.job_line.floor() == FINISH else FINISH)

    def _ask_where_from(self) -> None:
        if self.frame.where_from_shown and self._holds(self.where_from, QApplication.focusWidget()):
            self._back_to_figure()
        else:
            self.frame.open_where_from()

    def _back_to_figure(self) -> None:
        self.frame.leave_where_from()
        if self._figure is not None and shiboken6.isValid(self._figure) and self._figure.isVisible():
            self._figure.setFocus(Qt.FocusReason.ShortcutFocusReason)
        else:
            self._focus_page()

    def _help(self) -> None:
        focused = QApplication.focusWidget()
        again = focused is not None and focused is self._helped
        self._helped = None if again else focused
        if again:
            self.where_from.show_help("Keys", keys.sentences())
        elif focused is not None:
            words = focused.whatsThis() or focused.accessibleDescription() or focused.toolTip()
            again_words = "F1 again lists the keys."
            self.where_from.show_help(focused.accessibleName() or NAME, (words, again_words) if words else (again_words,))

    def _next_region(self) -> None:
        self._step_region(1)

    def _last_region(self) -> None:
        self._step_region(-1)

    def _step_region(self, step: int) -> None:
        column = self.where_from if self.frame.where_from_shown else self.frame.strip
        regions: list[QWidget] = [self.frame.pages, column, self.tally, self.job_line, self.run]
        focused = QApplication.focusWidget()
        place = next((i for i, region in enumerate(regions) if self._holds(region, focused)), 0 if step > 0 else 1)
        for further in range(1, len(regions) + 1):
            if self._enter(regions[(place + step * further) % len(regions)]):
                return

    def _enter(self, region: QWidget) -> bool:
        """Put the keyboard into a region; says whether there was a place for it."""
        if region is self.frame.pages:
            self._back_to_figure()
            return True
        if region is self.where_from:
            self.where_from.focus_first()
            return True
        stop = self.run.entry(self._current) if region is self.run and self._current in keys.page_keys() else first_stop(region)
        if stop is None:
            return False
        stop.setFocus(Qt.FocusReason.ShortcutFocusReason)
        return True

    def _focus_page(self) -> None:
        page = self._pages.get(self._current)
        if page is None:
            return
        stop = (page.first_box() if isinstance(page, Page) else None) or first_stop(page)
        if stop is not None:
            stop.setFocus(Qt.FocusReason.OtherFocusReason)

    def _focus_moved(self, _old: QWidget | None, new: QWidget | None) -> None:
        if new is not None and self._holds(self.frame.pages, new):
            self._figure = new
        if new is not self._helped:
            self._helped = None

    @staticmethod
    def _holds(region: QWidget, widget: QWidget | None) -> bool:
        return widget is not None and (region is widget or region.isAncestorOf(widget))
