"""Picture files made ready to be kept: looked at before they are decoded, turned upright, made smaller, and nothing else of them taken.

Where and by what a picture was taken is not kept: only its day. All of it may be done beside the window.
"""

from __future__ import annotations

import re
import stat
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Final

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QSize, Qt
from PySide6.QtGui import QColorSpace, QImage, QImageReader, QPainter

from tundish.errors import TundishError
from tundish.store.photographs import is_kept_kind

MOST_SIDE: Final = 1_600
"""Pixels of the longer side of a picture as it is kept."""
QUALITY: Final = 80
"""Of the JPEG that is kept, out of 100: a tape in the picture can be read."""
MOST_BYTES: Final = 60_000_000
"""What a file from a camera may take."""
MOST_PIXELS: Final = 130_000_000
"""What a camera makes at most; a file that says more is not decoded."""
LONGEST_SIDE: Final = 30_000
KINDS: Final = ("jpeg", "png", "webp", "tiff", "bmp", "heic", "heif")
"""Kinds of pictures that are opened, where the system can; none that draw or reach for other files."""
ENDINGS: Final = ("jpg", "jpeg", "png", "webp", "tif", "tiff", "bmp", "heic", "heif")
_MARKER: Final = re.compile(rb"\xff[^\x00\xd0-\xd7\xff]")
_DAY: Final = re.compile(rb"(\d{4}):(\d\d):(\d\d) \d\d:\d\d:\d\d\x00")
_STARTS_SCAN, _ENDS = 0xDA, 0xD9
_ALONE: Final = frozenset({0x01, *range(0xD0, 0xD9)})


class PictureError(TundishError):
    """A file that cannot be taken as a photograph; the words say why, and what to do where there is something."""


@dataclass(frozen=True, slots=True)
class Taken:
    """A picture ready to be kept: the name of its file, its JPEG, and its day as ISO where the camera noted one."""

    name: str
    body: bytes
    day: str


def from_file(path: Path) -> Taken:
    """A picture file as it is kept. Raises PictureError with a sentence that names the file."""
    data = _bytes_of(path)
    image = _decoded(data, path.name, MOST_SIDE)
    body = _as_jpeg(image)
    if not is_kept_kind(body):
        raise PictureError(f"{path.name} could not be made into a photograph that is kept.")
    return Taken(path.name, body, _day_of(data))


def shown(body: bytes, side: int) -> QImage | None:
    """A kept picture no larger than `side` pixels either way; None where it cannot be shown, as in a job file of others."""
    try:
        return _decoded(body, "", side)
    except PictureError:
        return None


def _bytes_of(path: Path) -> bytes:
    try:
        is_file = stat.S_ISREG(path.stat().st_mode)
        size = path.stat().st_size
        if not is_file:
            raise PictureError(f"{path.name} is not a file: choose the picture itself.")
        if size > MOST_BYTES:
            raise PictureError(_too_many_bytes(path.name, size))
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except OSError as fault:
        raise PictureError(f"{path.name} cannot be read: {(fault.strerror or str(fault)).lower()}.") from fault
    if len(data) > MOST_BYTES:
        raise PictureError(_too_many_bytes(path.name, len(data)))
    return data


def _too_many_bytes(name: str, size: int) -> str:
    return f"{name} is {size / 1e6:,.0f} MB, and a photograph is {MOST_BYTES / 1e6:.0f} at most: make it smaller first."


def _decoded(data: bytes, name: str, side: int) -> QImage:
    """The picture, upright, no larger than `side`; its size is looked at before any of it is decoded."""
    held = QByteArray(data)
    device = QBuffer(held)
    device.open(QIODevice.OpenModeFlag.ReadOnly)
    reader = QImageReader(device)
    reader.setDecideFormatFromContent(True)
    if not reader.canRead() or _kind(reader) not in KINDS:
        raise PictureError(
            f"{name} is not a picture that can be opened here: JPEG, PNG, WebP and TIFF can. On a telephone, share it as JPEG."
        )
    size = reader.size()
    wide, high = size.width(), size.height()
    if size.isEmpty():
        raise PictureError(f"{name} does not say how large it is: it is damaged, or no picture.")
    if max(wide, high) > LONGEST_SIDE or wide * high > MOST_PIXELS:
        raise PictureError(f"{name} is {wide:,} by {high:,} pixels, more than any camera makes: make it smaller first.")
    if _kind(reader) == "jpeg" and not _is_whole(data):
        raise PictureError(f"{name} is cut short: copy it from the camera again.")
    if max(wide, high) > side:
        reader.setScaledSize(size.scaled(QSize(side, side), Qt.AspectRatioMode.KeepAspectRatio).expandedTo(QSize(1, 1)))
    reader.setAutoTransform(True)
    image = reader.read()
    if image.isNull():
        raise PictureError(f"{name} is damaged or cut short: copy it from the camera again.")
    return _plain(image)


def _kind(reader: QImageReader) -> str:
    return bytes(reader.format().data()).decode("ascii", "replace")


def _plain(image: QImage) -> QImage:
    """Only what is to be seen: on white where it can be seen through, in the usual colours, without any words kept with it."""
    if image.colorSpace().isValid():
        image.convertToColorSpace(QColorSpace(QColorSpace.NamedColorSpace.SRgb))
    made = QImage(image.size(), QImage.Format.Format_RGB32)
    made.fill(Qt.GlobalColor.white)
    painter = QPainter(made)
    painter.drawImage(0, 0, image)
    painter.end()
    return made


def _as_jpeg(image: QImage) -> bytes:
    device = QBuffer()
    device.open(QIODevice.OpenModeFlag.WriteOnly)
    image.save(device, "JPEG", QUALITY)  # type: ignore[call-overload]  # a device is taken too
    return bytes(device.data().data())


def _is_whole(data: bytes) -> bool:
    """Whether a JPEG reaches its end: a decoder fills what is missing with grey and says nothing (ISO/IEC 10918-1, B.1)."""
    place = 2
    while place + 4 <= len(data):
        found = _MARKER.search(data, place)
        if found is None:
            return False
        kind = data[found.start() + 1]
        if kind == _ENDS:
            return True
        place = found.end()
        if kind not in _ALONE:
            # What is in a segment is no marker; after the head of a scan its picture follows, searched for the next.
            place += int.from_bytes(data[place : place + 2], "big")
    return data[place : place + 2] == bytes((0xFF, _ENDS))


def _day_of(data: bytes) -> str:
    """The earliest day that the camera noted at the head of the file (Exif), "" where there is none."""
    days = []
    for found in _DAY.finditer(data[:65_536]):
        try:
            days.append(date(*map(int, found.groups())).isoformat())
        except ValueError:
            continue
    return min(days, default="")
