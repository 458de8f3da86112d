"""Letters that the type of papers lacks: which reserve face draws them, how Arabic ones join, in which order they stand on the line.

Two more faces are kept for them (resources/fonts/README.md), read and put into a paper only where it has such letters. What no face
draws prints as the replacement sign, and `lacking` says what it was.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from functools import cache, lru_cache
from itertools import groupby
from typing import Final

from tundish.documents.block import Document
from tundish.writers.pdf_face import Face, read
from tundish.writers.safe import legible

REPLACED: Final = "\ufffd"
MAIN: Final = "AtkinsonHyperlegibleNextTabular"
RESERVES: Final = ("NotoEmoji-Regular", "DejaVuSans")
_NEAR: Final = str.maketrans({"′": "'", "″": '"', "⌀": "Ø", "→": "->", "\u2011": "-", "\u2009": " ", "\u202f": "\xa0"})
"""Signs the type does not draw, and what says the same."""
_NOT_DRAWN: Final = re.compile("[\ufe00-\ufe0f\U0001f3fb-\U0001f3ff\U000e0100-\U000e01ef]")
"""What only picks a look of the letter before: a colour of skin, a kind of drawing."""
_ARABIC: Final = re.compile("[\u0600-\u06ff]")
_JOINED: Final = re.compile("[\ufb50-\ufdff\ufe70-\ufefc]")
"""Arabic letters as they look within a word (presentation forms)."""
_LEFTWARD: Final = re.compile("[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefc]")
"""Letters that are read from right to left."""


def drawable(text: str) -> str:
    """The text as the faces can draw it, in the order it is read: what none of them has is the replacement sign."""
    return text if text.isascii() and text.isprintable() else _drawable(text)


def lacking(text: str) -> str:
    """The letters of a text that no face draws, each once, in their order."""
    return "".join(dict.fromkeys(letter for letter in _plain(text) if not _drawn(letter)))


def notice(document: Document) -> str:
    """What is to be said of a paper with letters that no face draws; nothing where there are none."""
    letters = lacking("".join(dict.fromkeys("".join(_texts(document)))))
    return f"No type here has {' '.join(letters)}: printed as {REPLACED}" if letters else ""


def on_the_line(text: str) -> str:
    """Drawable text from left to right as it stands on a line (the bidirectional algorithm, Unicode annex 9)."""
    if not is_leftward(text):
        return text
    from bidi.algorithm import get_display  # type: ignore[import-untyped]

    return str(get_display(text))


def is_leftward(text: str) -> bool:
    """Whether any letter of it is read from right to left."""
    return not text.isascii() and _LEFTWARD.search(text) is not None


def as_read(text: str) -> str:
    """Drawable text in the letters that were typed."""
    return _JOINED.sub(lambda found: unicodedata.normalize("NFKC", found[0]), text)


def pieces(face: Face, text: str) -> tuple[tuple[Face, str], ...]:
    """The text in pieces of one face each."""
    if all(letter in face.widths for letter in text):
        return ((face, text),)
    return tuple((each, "".join(letters)) for each, letters in groupby(text, lambda letter: drawn_by(face, letter)))


def drawn_by(face: Face, letter: str) -> Face:
    """The face that draws a letter: this one, or the first reserve that has it."""
    return face if letter in face.widths else next((each for each in reserves() if letter in each.widths), face)


@cache
def reserves() -> tuple[Face, ...]:
    """The reserve faces, read when first needed."""
    return tuple(read(name, whole=False) for name in RESERVES)


@lru_cache(maxsize=2_000)
def _drawable(text: str) -> str:
    kept = "".join(letter if _drawn(letter) else REPLACED for letter in _plain(text))
    if not _ARABIC.search(kept):
        return kept
    joined = _joined(kept)
    return joined if all(map(_drawn, joined)) else kept


def _plain(text: str) -> str:
    near = _NOT_DRAWN.sub("", legible(text).translate(_NEAR))
    return "".join(letter for letter in near if unicodedata.category(letter) != "Cf")


def _drawn(letter: str) -> bool:
    main = read(f"{MAIN}-Regular").widths
    return letter == "\n" or letter in main or any(letter in each.widths for each in reserves())


def _joined(text: str) -> str:
    """Arabic letters as they look beside one another; vowel signs stay."""
    from arabic_reshaper import ArabicReshaper  # type: ignore[import-untyped]

    return str(ArabicReshaper({"delete_harakat": False, "ARABIC LIGATURE ALLAH": False}).reshape(text))


def _texts(value: object) -> Iterator[str]:
    """Every text in a paper, at any depth."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, tuple):
        for each in value:
            yield from _texts(each)
    elif is_dataclass(value):
        for field in fields(value):
            yield from _texts(getattr(value, field.name))
