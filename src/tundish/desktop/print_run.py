"""Printing a paper: its pages one after the other, drawn beside the window and laid on the printer's pages."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QObject, QRectF, Signal
from PySide6.QtGui import QPageLayout, QPageSize, QPainter
from PySide6.QtPrintSupport import QPrinter

from tundish.desktop.aside import Aside
from tundish.desktop.pdf_pages import Picture, picture

MOST_DOTS_AN_INCH: Final = 300
A4_WIDE_INCHES: Final = 210 / 25.4


class PrintRun(QObject):
    """One paper on its way to a printer. `told` says how far it is; `done` says how it ended."""

    told = Signal(str)
    done = Signal(str)

    def __init__(self, printer: QPrinter, body: bytes, aside: Aside, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._printer, self._body, self._aside = printer, body, aside
        self._painter = QPainter()

    def start(self) -> None:
        """Begin; the pages follow one another."""
        self._printer.setFullPage(True)
        if not self._painter.begin(self._printer):
            self.done.emit("The printer did not take it. Nothing was printed; see that it is on, or save as PDF.")
            return
        self._ask(0)

    def _ask(self, place: int) -> None:
        dots = min(self._printer.resolution(), MOST_DOTS_AN_INCH)
        body, wide = self._body, round(A4_WIDE_INCHES * dots)
        self._aside.ask(lambda: picture(body, place, wide), self._lay, self._stop)

    def _lay(self, page: Picture) -> None:
        self.told.emit(f"Page {page.place + 1} of {page.pages}")
        room = self._printer.pageLayout().fullRectPixels(self._printer.resolution())
        self._painter.drawImage(QRectF(0, 0, room.width(), room.height()), page.image)
        if page.place + 1 < page.pages:
            self._printer.newPage()
            self._ask(page.place + 1)
        else:
            self._painter.end()
            self.done.emit("")

    def _stop(self, why: str) -> None:
        self._painter.end()
        self.done.emit(why)


def a4_printer() -> QPrinter:
    """The printer as it is set, on upright A4."""
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setPageSize(QPageSize(QPageSize.PageSizeId.A4))
    printer.setPageOrientation(QPageLayout.Orientation.Portrait)
    return printer
