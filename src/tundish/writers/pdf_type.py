"""Type on paper: the faces, how wide their words are, and how words break into lines. All in points."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Final, Literal

from tundish.writers.pdf_face import Face, read
from tundish.writers.pdf_letters import MAIN, drawable, drawn_by

Weight = Literal["Regular", "Medium", "SemiBold", "Bold"]
MM: Final = 72 / 25.4
"""Points in a millimetre."""
LEADING: Final = 1.32
"""Line to line, as a multiple of the size."""


@dataclass(frozen=True, slots=True)
class Type:
    """How words are set: weight, size, colour."""

    weight: Weight = "Regular"
    size: float = 9.5
    colour: str = "ink"

    @property
    def leading(self) -> float:
        """Line to line."""
        return self.size * LEADING

    def width(self, text: str) -> float:
        """How wide the text is on one line."""
        return width_of(face(self.weight), drawable(text), self.size)

    def lines(self, text: str, width: float, most: int = 0) -> tuple[str, ...]:
        """The text broken into lines no wider than the width; a word wider than that is broken too.

        With `most` no more lines than that: the last of them ends with … where something is left out.
        """
        kept = drawable(text)
        if "\n" not in kept and width_of(face(self.weight), kept, self.size) <= width:
            return (kept,)
        made = tuple(line for part in kept.split("\n") for line in _wrapped(part, self, width))
        if not most or len(made) <= most:
            return made
        last = made[most - 1]
        return (*made[: most - 1], last[: _fitting(last, self, width - self.width("…"))].rstrip() + "…")

    def cut(self, text: str, width: float) -> str:
        """The text on one line, cut short with … where it is too wide."""
        kept = drawable(text).replace("\n", " ")
        if self.width(kept) <= width:
            return kept
        return kept[: _fitting(kept, self, width - self.width("…"))].rstrip() + "…"


def face(weight: Weight) -> Face:
    """The face of a weight."""
    return read(f"{MAIN}-{weight}")


def width_of(face: Face, text: str, size: float) -> float:
    """How wide drawable text is."""
    return _thousandths(face, text) * size / 1000


@lru_cache(maxsize=4_000)
def _thousandths(face: Face, text: str) -> float:
    """How wide the drawable text is: the same words are measured to place a column, to break lines and to set them."""
    widths = face.widths
    try:
        return sum([widths[letter] for letter in text])
    except KeyError:
        return sum(_width(face, letter) for letter in text)


def _width(face: Face, letter: str) -> float:
    return drawn_by(face, letter).widths.get(letter, face.otherwise)


def _wrapped(text: str, kind: Type, width: float) -> Iterator[str]:
    setting, space = face(kind.weight), kind.width(" ")
    line: list[str] = []
    left = width
    for word in text.split(" "):
        wide = width_of(setting, word, kind.size)
        if line and wide + space > left:
            yield " ".join(line)
            line, left = [], width
        if wide > width:
            *full, word = _broken(word, kind, width)  # noqa: PLW2901
            yield from full
            wide = width_of(setting, word, kind.size)
        left -= wide + space if line else wide
        line.append(word)
    yield " ".join(line)


def _broken(word: str, kind: Type, width: float) -> Iterator[str]:
    """One word in pieces no wider than the width, parted after a hyphen where one fits."""
    start = 0
    while start < len(word):
        most = max(_fitting(word, kind, width, start), 1)
        end = start + most
        if end < len(word):
            end = word.rfind("-", start, end) + 1 or end
        yield word[start:end]
        start = end


def _fitting(text: str, kind: Type, width: float, start: int = 0) -> int:
    """How many characters from the start fit the width."""
    setting = face(kind.weight)
    left = width * 1000 / kind.size
    for place in range(start, len(text)):
        left -= _width(setting, text[place])
        if left < 0:
            return place - start
    return len(text) - start
