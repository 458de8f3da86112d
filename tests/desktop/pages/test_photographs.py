"""Photographs in the window: added from files and dropped, seen, described, taken out, printed; bad files told in words."""

from __future__ import annotations

import struct
import zlib
from pathlib import Path

import pytest
from PySide6.QtCore import QBuffer, QIODevice, QMimeData, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import QColor, QDragEnterEvent, QDropEvent, QImage, qRgb
from PySide6.QtWidgets import QApplication, QFileDialog, QWidget

from tests.desktop.fitter import WAIT_MS, Fitter
from tests.desktop.spoken_names import nameless
from tundish.desktop.chips import Chip
from tundish.desktop.pages.paper import PaperPage
from tundish.desktop.pages.survey import SurveyPage
from tundish.desktop.photographs import Adder, Small
from tundish.survey.shape import Photograph

LISTED = "rooms.0.survey.photographs"
RED, BLUE = QColor(200, 30, 30), QColor(30, 30, 200)


def picture(wide: int, high: int, kind: str = "JPEG", words: str = "") -> bytes:
    """A picture, its left half red and its right half blue."""
    image = QImage(wide, high, QImage.Format.Format_RGB32)
    image.fill(RED)
    for y in range(high):
        for x in range(wide // 2, wide):
            image.setPixel(x, y, qRgb(BLUE.red(), BLUE.green(), BLUE.blue()))
    if words:
        image.setText("Location", words)
    device = QBuffer()
    device.open(QIODevice.OpenModeFlag.WriteOnly)
    assert image.save(device, kind, 90)  # type: ignore[call-overload]  # a device is taken too
    return bytes(device.data().data())


def with_exif(jpeg: bytes, turned: int) -> bytes:
    """The JPEG as a camera writes it: turned, with its day and a place."""
    day, place = b"2026:03:04 09:10:11\x00", b"51.5N 0.1W"
    rows = struct.pack(">HHHII", 2, 0x0112, 3, 1, turned << 16) + struct.pack(">HHII", 0x0132, 2, len(day), 38)
    body = b"Exif\x00\x00MM\x00*\x00\x00\x00\x08" + rows + b"\x00\x00\x00\x00" + day + place
    return jpeg[:2] + b"\xff\xe1" + struct.pack(">H", len(body) + 2) + body + jpeg[2:]


def png_that_says(wide: int, high: int) -> bytes:
    def part(kind: bytes, body: bytes) -> bytes:
        return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))

    head = struct.pack(">IIBBBBB", wide, high, 8, 2, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + part(b"IHDR", head) + part(b"IDAT", zlib.compress(b"\x00" * 1000)) + part(b"IEND", b"")


def opened(fitter: Fitter) -> SurveyPage:
    fitter.open("101")
    fitter.settled()
    page = fitter.page("Alt+1")
    assert isinstance(page, SurveyPage)
    chip = next(each for each in page.findChildren(Chip) if each.choice.key == "photographs")
    chip.click()
    return page


def taken(fitter: Fitter) -> tuple[Photograph, ...]:
    return fitter.workspace.job.rooms[0].survey.photographs


def seen(page: SurveyPage) -> list[Small]:
    return [each for each in page.findChildren(Small) if each.isVisible()]


def add(fitter: Fitter, page: SurveyPage, monkeypatch: pytest.MonkeyPatch, *files: Path) -> str:
    """Add files by the dialog; gives what was said when they were taken."""
    monkeypatch.setattr(QFileDialog, "getOpenFileNames", lambda *_args, **_named: ([str(each) for each in files], ""))
    said: list[str] = []
    fitter.workspace.said.connect(said.append)
    fitter.press("Add photographs", page)
    fitter.qtbot.waitUntil(lambda: len(said) > 1, timeout=WAIT_MS)
    fitter.workspace.said.disconnect(said.append)
    return said[-1]


def kept(fitter: Fitter, place: int = 0) -> QImage:
    body = fitter.workspace.store.photograph(fitter.workspace.job_id, taken(fitter)[place].picture)
    assert body is not None
    return QImage.fromData(body)


def test_a_large_turned_picture_is_kept_small_upright_with_its_day_and_no_place(
    fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "stack.jpg"
    file.write_bytes(with_exif(picture(2_000, 1_000), turned=6))
    assert add(fitter, opened(fitter), monkeypatch, file) == "Kept: a photograph"
    (one,) = taken(fitter)
    assert (one.name, one.of, one.when) == ("stack.jpg", "on survey", "2026-03-04")
    image = kept(fitter)
    assert (image.width(), image.height()) == (800, 1_600)
    assert image.pixelColor(400, 100).red() > 150, "turned a quarter to the right: what was left is at the top"
    assert image.pixelColor(400, 1_500).blue() > 150
    body = fitter.workspace.store.photograph(fitter.workspace.job_id, one.picture)
    assert body is not None
    assert b"Exif" not in body
    assert b"51.5N" not in body


def test_words_within_a_picture_are_not_kept(fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = tmp_path / "plan.png"
    file.write_bytes(picture(40, 30, "PNG", "at 4 Quern Lane"))
    assert b"Quern" in file.read_bytes()
    add(fitter, opened(fitter), monkeypatch, file)
    body = fitter.workspace.store.photograph(fitter.workspace.job_id, taken(fitter)[0].picture)
    assert body is not None
    assert body.startswith(b"\xff\xd8\xff")
    assert b"Quern" not in body


def test_files_are_dropped_on_the_page_and_seen_small(fitter: Fitter, tmp_path: Path) -> None:
    page = opened(fitter)
    names = ("one.jpg", "two.png")
    (tmp_path / names[0]).write_bytes(picture(300, 200))
    (tmp_path / names[1]).write_bytes(picture(200, 300, "PNG"))
    dropped = QMimeData()
    dropped.setUrls([QUrl.fromLocalFile(str(tmp_path / name)) for name in names])
    adder = page.findChildren(Adder)[0]
    hands = (Qt.DropAction.CopyAction, dropped, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier)
    QApplication.sendEvent(adder, QDragEnterEvent(QPoint(20, 20), *hands))
    QApplication.sendEvent(adder, QDropEvent(QPointF(20, 20), *hands))
    fitter.qtbot.waitUntil(lambda: len(taken(fitter)) == len(names), timeout=WAIT_MS)
    assert tuple(each.name for each in taken(fitter)) == names
    fitter.qtbot.waitUntil(lambda: [each.picture is not None for each in seen(page)] == [True, True], timeout=WAIT_MS)
    shapes = [each.picture.width() > each.picture.height() for each in seen(page) if each.picture is not None]
    assert shapes == [True, False]


def test_each_says_what_it_shows_and_when_and_can_be_taken_out(fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = opened(fitter)
    file = tmp_path / "stack.jpg"
    file.write_bytes(picture(64, 48))
    add(fitter, page, monkeypatch, file)
    fitter.type_into(page.form.row(f"{LISTED}.0.note"), "stack, tape at 189")
    fitter.type_into(page.form.row(f"{LISTED}.0.of"), "before closing")
    fitter.type_into(page.form.row(f"{LISTED}.0.when"), "3 Dec 2026")
    (one,) = taken(fitter)
    assert (one.note, one.of, one.when) == ("stack, tape at 189", "before closing", "2026-12-03")
    out = next(each for each in page.findChildren(QWidget) if each.accessibleName().startswith("Take out photograph 1"))
    out.click()  # type: ignore[attr-defined]  # it is a button
    assert taken(fitter) == ()
    fitter.undo()
    assert taken(fitter) == (one,)
    fitter.qtbot.waitUntil(lambda: len(seen(page)) == 1, timeout=WAIT_MS)
    assert nameless(page) == []


def test_a_picture_that_is_there_already_is_kept_once(fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = opened(fitter)
    file = tmp_path / "stack.jpg"
    file.write_bytes(picture(64, 48))
    add(fitter, page, monkeypatch, file)
    add(fitter, page, monkeypatch, file)
    assert len(taken(fitter)) == 1


def test_what_cannot_be_taken_is_told_in_words_and_the_rest_is_taken(
    fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = opened(fitter)
    whole = picture(400, 300)
    given = {
        "notes.jpg": b"not a picture at all",
        "drawing.svg": b'<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"/>',
        "wide.png": png_that_says(60_000, 60_000),
        "cut.jpg": whole[: len(whole) // 2],
        "cut.png": picture(400, 300, "PNG")[:400],
        "fine.jpg": whole,
    }
    wanted = {
        "notes.jpg": "is not a picture that can be opened here",
        "drawing.svg": "is not a picture that can be opened here",
        "wide.png": "is 60,000 by 60,000 pixels",
        "cut.jpg": "is cut short",
        "cut.png": "is damaged or cut short",
    }
    for name, body in given.items():
        (tmp_path / name).write_bytes(body)
    for name, words in wanted.items():
        assert f"{name} {words}" in add(fitter, page, monkeypatch, tmp_path / name)
    assert taken(fitter) == ()
    large = tmp_path / "large.jpg"
    with large.open("wb") as file:
        file.truncate(200_000_000)
    said = add(fitter, page, monkeypatch, large, tmp_path / "gone.jpg", tmp_path / "fine.jpg")
    assert said.startswith("Kept: a photograph. large.jpg is 200 MB, and a photograph is 60 at most")
    assert "gone.jpg cannot be read: no such file" in said
    assert [each.name for each in taken(fitter)] == ["fine.jpg"]


def test_a_photograph_before_closing_is_on_the_closing_sheet_and_in_its_pdf(
    fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = opened(fitter)
    file = tmp_path / "behind.jpg"
    file.write_bytes(picture(320, 240))
    add(fitter, page, monkeypatch, file)
    fitter.type_into(page.form.row(f"{LISTED}.0.note"), "valves, tape at 900")
    fitter.type_into(page.form.row(f"{LISTED}.0.of"), "before closing")
    fitter.settled()
    fitter.workspace.paper = "closing"
    paper = fitter.page("Alt+8")
    assert isinstance(paper, PaperPage)
    fitter.qtbot.waitUntil(lambda: paper._paper() is not None and bool(paper._pdf), timeout=WAIT_MS)
    made = paper._paper()
    assert made is not None
    assert "valves, tape at 900" in made.text
    assert b"/Subtype /Image" in paper._pdf
