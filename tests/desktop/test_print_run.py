"""Printing: every page of the paper reaches the printer, here one that prints to a file."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtPrintSupport import QPrinter
from pytestqt.qtbot import QtBot

from tundish.desktop.aside import Aside
from tundish.desktop.pdf_pages import bytes_of, picture
from tundish.desktop.print_run import PrintRun, a4_printer
from tundish.documents.block import Document, Heading, Paragraph


def three_pages() -> bytes:
    blocks = tuple(block for n in range(60) for block in (Heading(f"Part {n}"), Paragraph("Fix the rail. " * 12)))
    return bytes_of(Document("note", "Note", "1", "", "A. Sender", "", "Note 1", "", blocks), "")


def printed(qtbot: QtBot, path: Path, body: bytes) -> tuple[list[str], str]:
    printer = a4_printer()
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setResolution(72)
    printer.setOutputFileName(str(path))
    aside = Aside()
    run = PrintRun(printer, body, aside)
    told: list[str] = []
    run.told.connect(told.append)
    with qtbot.waitSignal(run.done, timeout=20_000) as done:
        run.start()
    aside.stop()
    assert done.args is not None
    return told, done.args[0]


def test_every_page_is_printed_on_a_page_of_its_own(qtbot: QtBot, tmp_path: Path) -> None:
    body = three_pages()
    pages = picture(body, 0, 100).pages
    assert pages > 1
    told, why = printed(qtbot, tmp_path / "out.pdf", body)
    assert why == ""
    assert told == [f"Page {place} of {pages}" for place in range(1, pages + 1)]
    assert picture((tmp_path / "out.pdf").read_bytes(), 0, 100).pages == pages


@pytest.mark.qt_log_ignore(r"QPainter::begin\(\): Returned false", extend=True)
def test_a_printer_that_takes_nothing_is_said_in_a_sentence(qtbot: QtBot, tmp_path: Path) -> None:
    told, why = printed(qtbot, tmp_path / "no folder" / "out.pdf", three_pages())
    assert told == []
    assert why.startswith("The printer did not take it.")
