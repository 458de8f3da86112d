"""What is drawn on a page, in the operators of a PDF's own language (ISO 32000-1, 8.2 and 9.4): few and short ones. All in points.

The canvas would say the same at more length: words one after the other here share a text object, a type that goes on is not named
again, and a place is given as how far it is from the one before.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final, Literal

from tundish.writers.pdf_face import Face
from tundish.writers.pdf_letters import pieces

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

Where = Literal["nowhere", "about marks", "in a mark"]
_ROUND: Final = 0.5523
"""How far the handles of a quarter of a circle reach, as a part of its half axes."""
_TENTHS: Final = 10
"""Words are placed to a tenth of a point: a thirtieth of a millimetre."""
_SPELT: Final = re.compile(r"[^\x20-\x7e]|[()\\]")


@dataclass(frozen=True, slots=True)
class Setting:
    """Where words begin on the page, and in which type."""

    x: float
    y: float
    face: Face
    size: float


class Operators:
    """Writes on the page of a canvas that is drawn on now. Marks are put about what is drawn, never across the ends of a text object."""

    def __init__(self, canvas: Canvas) -> None:
        self._put = canvas.addLiteral
        self._document: Any = canvas._doc  # type: ignore[attr-defined]  # noqa: SLF001 - the canvas has no other door to it
        self._mark, self._marked = "", False
        self._again: Callable[[str], str] = _same
        self._where: Where = "nowhere"
        self._first: dict[str, str] = {}
        self._spelt: dict[tuple[str, str], tuple[tuple[str, str], ...]] = {}
        self.forget()

    def forget(self) -> None:
        """The state of the page was put back: no type is set."""
        self._type = ("", 0.0)

    def page_ends(self) -> None:
        """End what is open: the canvas begins another page."""
        self.part()
        self.forget()

    def begin(self, mark: str, again: Callable[[str], str] | None = None) -> None:
        """Mark what is drawn from now on; `again` gives the mark to go on with where it has to be parted."""
        self._mark, self._again, self._marked = mark, again or _same, False

    def end(self) -> None:
        """End the mark; where nothing was drawn under it, it is there all the same."""
        if not self._marked:
            self._put(f"{self._mark} EMC")
        else:
            if self._where == "in a mark":
                self._put("ET")
                self._where = "nowhere"
            self._put("EMC")
        self._mark, self._marked = "", False

    def part(self) -> None:
        """End the text object: what comes is no words, or the state of the page is kept or put back."""
        if self._where == "nowhere":
            return
        if self._where == "about marks" and self._marked:
            self._put("EMC")
            self._mark, self._marked = self._again(self._mark), False
        self._put("ET")
        self._where = "nowhere"

    def state(self, words: str) -> None:
        """A colour, a width, a dash: of what comes, whatever it is."""
        self._put(words)

    def draw(self, words: str) -> None:
        """Anything but words."""
        self.part()
        self.open()
        self._put(words)

    def open(self) -> None:
        """Write the mark, if it is still to be written."""
        if self._mark and not self._marked:
            self._put(self._mark)
            self._marked = True

    def words(self, at: Setting, text: str) -> None:
        """Drawable words from a point on, as they stand from left to right."""
        if self._where == "nowhere":
            self._put("BT")
            self._where = "in a mark" if self._marked else "about marks"
            self._from = (0, 0)
        self.open()
        place = round(at.x * _TENTHS), round(at.y * _TENTHS)
        step = f"{(place[0] - self._from[0]) / _TENTHS:g} {(place[1] - self._from[1]) / _TENTHS:g} Td"
        self._from = place
        for name, spelt in self._spell(at.face, text):
            if self._type != (name, at.size):
                step = f"{name} {at.size:g} Tf {step}"
                self._type = (name, at.size)
            self._put(f"{step}({spelt})Tj")
            step = ""

    def line(self, x1: float, y1: float, x2: float, y2: float) -> None:
        """A straight line."""
        self.draw(f"{x1:.2f} {y1:.2f} m {x2:.2f} {y2:.2f} l S")

    def ruled(self, ends: Iterable[tuple[float, float, float, float]], boxes: Iterable[tuple[float, float, float, float]]) -> None:
        """Straight lines by their ends and rectangles by corner and size, as one path."""
        lines = (f"{x1:.2f} {y1:.2f} m {x2:.2f} {y2:.2f} l" for x1, y1, x2, y2 in ends)
        made = (*lines, *(f"{x:.2f} {y:.2f} {wide:.2f} {high:.2f} re" for x, y, wide, high in boxes))
        if made:
            self.draw("\n".join((*made, "S")))

    def box(self, x: float, y: float, wide: float, high: float, how: str) -> None:
        """A rectangle; `how` is how paths are painted: S its edge, f its inside, B both."""
        self.draw(f"{x:.2f} {y:.2f} {wide:.2f} {high:.2f} re {how}")

    def round_box(self, box: tuple[float, float, float, float], radius: float, how: str) -> None:
        """A rectangle with round corners."""
        x, y, wide, high = box
        right, top, near = x + wide, y + high, radius * (1 - _ROUND)
        self.draw(
            f"{x + radius:.2f} {y:.2f} m {right - radius:.2f} {y:.2f} l "
            f"{right - near:.2f} {y:.2f} {right:.2f} {y + near:.2f} {right:.2f} {y + radius:.2f} c {right:.2f} {top - radius:.2f} l "
            f"{right:.2f} {top - near:.2f} {right - near:.2f} {top:.2f} {right - radius:.2f} {top:.2f} c {x + radius:.2f} {top:.2f} l "
            f"{x + near:.2f} {top:.2f} {x:.2f} {top - near:.2f} {x:.2f} {top - radius:.2f} c {x:.2f} {y + radius:.2f} l "
            f"{x:.2f} {y + near:.2f} {x + near:.2f} {y:.2f} {x + radius:.2f} {y:.2f} c h {how}"
        )

    def ellipse(self, x: float, y: float, halves: tuple[float, float], how: str) -> None:
        """An ellipse by its centre and half axes."""
        across, up = halves
        along, rise = across * _ROUND, up * _ROUND
        self.draw(
            f"{x + across:.2f} {y:.2f} m "
            f"{x + across:.2f} {y + rise:.2f} {x + along:.2f} {y + up:.2f} {x:.2f} {y + up:.2f} c "
            f"{x - along:.2f} {y + up:.2f} {x - across:.2f} {y + rise:.2f} {x - across:.2f} {y:.2f} c "
            f"{x - across:.2f} {y - rise:.2f} {x - along:.2f} {y - up:.2f} {x:.2f} {y - up:.2f} c "
            f"{x + along:.2f} {y - up:.2f} {x + across:.2f} {y - rise:.2f} {x + across:.2f} {y:.2f} c h {how}"
        )

    def path(self, points: Iterable[tuple[float, float]], how: str, *, closed: bool) -> None:
        """A line through points."""
        (x, y), *rest = points
        made = (f"{x:.2f} {y:.2f} m", *(f"{across:.2f} {up:.2f} l" for across, up in rest))
        self.draw(f"{' '.join(made)} {'h ' if closed else ''}{how}")

    def _spell(self, face: Face, text: str) -> Sequence[tuple[str, str]]:
        """The text in the letters of the fonts that are put into this paper, with the name of each there."""
        known = self._spelt.get((face.name, text))
        if known is None:
            known = self._spelt[face.name, text] = tuple(self._letters(face, text))
        return known

    def _letters(self, face: Face, text: str) -> Iterator[tuple[str, str]]:
        if text.isascii() and text.isprintable():  # as it is, in the first font of a face that is whole
            if face.name not in self._first:
                ((subset, _),) = face.font.splitString(" ", self._document)
                self._first[face.name] = face.font.getSubsetInternalName(subset, self._document)
            yield self._first[face.name], _escaped(text)
            return
        for each, piece in pieces(face, text):
            for subset, letters in each.font.splitString(piece, self._document):
                yield each.font.getSubsetInternalName(subset, self._document), _escaped(letters.decode("latin-1"))


def _same(mark: str) -> str:
    return mark


def _escaped(letters: str) -> str:
    return _SPELT.sub(lambda found: f"\\{found[0]}" if found[0] in "()\\" else f"\\{ord(found[0]):03o}", letters)
