"""XML that comes from somebody else: what refers to other files, swells, nests without end or is too large is refused before it is read."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from pathlib import Path
from typing import Final
from xml.parsers import expat

from tundish.errors import TundishError

MOST_BYTES: Final = 5_000_000
MOST_DEPTH: Final = 40
MOST_PARTS: Final = 200_000
SPACES: Final = {
    "cac": "urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2",
    "cbc": "urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2",
}
"""The namespaces of every UBL 2 document, by their usual prefixes."""


class NotSoundError(TundishError):
    """A file cannot be read as XML: the message says why, as the end of a sentence."""


def root_of(path: Path) -> ET.Element:
    """The root of a file without a document type. Raises NotSoundError."""
    try:
        with path.open("rb") as file:
            body = file.read(MOST_BYTES + 1)
    except OSError as fault:
        raise NotSoundError((fault.strerror or str(fault)).lower()) from fault
    if len(body) > MOST_BYTES:
        raise NotSoundError(f"it is larger than {MOST_BYTES // 1_000_000} MB")
    _look_over(body)
    return ET.fromstring(body)  # noqa: S314  # it was seen to declare nothing


def words(parent: ET.Element, path: str) -> str:
    """The words at a path below a part, "" where there are none."""
    return (parent.findtext(path, "", SPACES) or "").strip()


def _look_over(body: bytes) -> None:
    depth = parts = 0

    def refuse(*_said: object) -> None:
        raise NotSoundError("it declares a document type, which no such file does")

    def begins(_name: str, _said: object) -> None:
        nonlocal depth, parts
        depth, parts = depth + 1, parts + 1
        if depth > MOST_DEPTH:
            raise NotSoundError(f"it is nested more than {MOST_DEPTH} deep, which no such file is")
        if parts > MOST_PARTS:
            raise NotSoundError(f"it has more than {MOST_PARTS:,} parts, which no such file has")

    def ends(_name: str) -> None:
        nonlocal depth
        depth -= 1

    look = expat.ParserCreate()
    look.StartDoctypeDeclHandler, look.StartElementHandler, look.EndElementHandler = refuse, begins, ends
    try:
        look.Parse(body, True)
    except (expat.ExpatError, ValueError, LookupError) as fault:
        raise NotSoundError(f"it is no sound XML: {fault}") from fault
