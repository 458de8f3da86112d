"""The parts of a paper, for a reader that hears it: headings, paragraphs, lists, tables, figures, in reading order.

Tagged PDF, ISO 32000-1 clauses 14.6 to 14.8. What is drawn outside any part (rules, washes, heads of later pages) is marked as an
artifact, which such a reader leaves out.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Any, Final, Literal

from tundish.writers.pdf_letters import as_read, is_leftward
from tundish.writers.pdf_operators import Operators
from tundish.writers.safe import one_line

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

Kind = Literal["Document", "H1", "H2", "H3", "P", "L", "LI", "Lbl", "LBody", "Table", "Caption", "TR", "TH", "TD", "Figure"]

_ARTIFACT: Final = "/Artifact BMC"


@dataclass(frozen=True, slots=True, eq=False)
class Tag:
    """One part of a paper, within another; two are never the same, however alike.

    `told` is said in place of what is drawn. `scope` is what the head of a table is the head of, `across` how many columns a cell
    takes, `box` where a figure stands on its page: left, low, right, high in points.
    """

    kind: Kind
    inside: Tag | None = None
    told: str = ""
    scope: Literal["", "Column", "Row"] = ""
    across: int = 1
    box: tuple[float, float, float, float] | None = None


class Tags:
    """Marks what is drawn on a canvas as a part of the paper. Parts stand in the order in which they are first drawn."""

    def __init__(self, canvas: Canvas, operators: Operators) -> None:
        self._canvas = canvas
        self._operators = operators
        self._top = Tag("Document")
        self._parts: dict[Tag, list[Tag | tuple[int, int]]] = {self._top: []}
        """What each part is made of: other parts, and places on pages (page, number on it)."""
        self._pages: list[list[Tag]] = [[]]
        self._leaves: list[str] = []
        self._root = 0
        self._held: Tag | bool = False
        self._loose = False
        self._words: dict[Tag, list[str]] = {}
        """What is written in each part, line by line in the order it is read."""

    @contextmanager
    def within(self, tag: Tag) -> Iterator[None]:
        """What is drawn now is of this part; within another, it is of that one."""
        if self._held:
            yield
            return
        self.hold(tag)
        self._begin(self._next(tag), lambda _: self._next(tag))
        self._held = tag
        yield
        self._end()

    @contextmanager
    def aside(self) -> Iterator[None]:
        """What is drawn now is of no part."""
        self._begin(_ARTIFACT)
        yield
        self._end()

    def hold(self, tag: Tag) -> None:
        """Give a part its place in reading order now, before anything of it is drawn."""
        if tag not in self._parts:
            inside = tag.inside or self._top
            self.hold(inside)
            self._parts[tag] = []
            self._parts[inside].append(tag)

    def ready(self) -> None:
        """Something is about to be drawn: outside any part it is an artifact."""
        if not self._held and not self._loose:
            self._operators.begin(_ARTIFACT)
            self._loose = True

    def read(self, words: str) -> bool:
        """Words are about to be drawn that are read as they are given, whatever order they stand in; gives whether others went before."""
        if not isinstance(self._held, Tag) or self._held.told:
            return False
        lines = self._words.setdefault(self._held, [])
        lines.append(words)
        return len(lines) > 1

    def close(self) -> None:
        """End what is open of no part: needed before the state of the canvas is kept or put back."""
        if self._loose:
            self._operators.end()
            self._loose = False

    def page_ends(self) -> None:
        """What is drawn from now on stands on the next page."""
        self.close()
        self._pages.append([])

    def write(self) -> None:
        """Say in the document that it has parts; its pages are all drawn."""
        document: Any = self._canvas._doc  # type: ignore[attr-defined]  # noqa: SLF001 - the canvas has no other door to it
        pages = document.Pages.pages[: len(self._pages)]
        self._leaves = [document.Reference(page).format(document).decode("ascii") for page in pages]
        document.Catalog.StructTreeRoot = document.Reference(b"null", "Parts")
        document.Catalog.MarkInfo = "<</Marked true>>"
        self._root = document.objectcounter
        for number, page in enumerate(pages):
            page.__NoDefault__ = [*page.__NoDefault__, "StructParents", "Tabs"]
            page.StructParents, page.Tabs = number, "/S"

    def objects(self, first: int) -> dict[int, bytes]:
        """The parts as objects of the file by their numbers, from the first that is free; and the root of them, which has its own.

        They go past the canvas: there are thousands, and it takes longer to put one together than to draw what it speaks of.
        """
        alike = sorted(self._parts, key=lambda tag: tag.kind)  # side by side they are packed in fewer bytes
        numbers = {tag: f"{number} 0 R" for number, tag in enumerate(alike, start=first)}
        count = len(self._leaves)
        owners = " ".join(f"{page} [{' '.join(map(numbers.__getitem__, tags))}]" for page, tags in enumerate(self._pages[:count]))
        nums = f"/ParentTree <</Nums [{owners}]>> /ParentTreeNextKey {count}"
        made = {self._root: f"<</Type /StructTreeRoot /K {numbers[self._top]} {nums}>>".encode("ascii")}
        for number, tag in enumerate(alike, start=first):
            inside = f"{self._root} 0 R" if tag is self._top else numbers[tag.inside or self._top]
            within = _made_of(self._parts[tag], numbers, self._leaves)
            made[number] = f"<</S /{tag.kind} /P {inside}{within}{_told(tag, self._words.get(tag, ()))}>>".encode("ascii")
        return made

    def _next(self, tag: Tag) -> str:
        """The mark of a further piece of a part on this page."""
        page = self._pages[-1]
        number = len(page)
        page.append(tag)
        self._parts[tag].append((len(self._pages) - 1, number))
        return f"/{tag.kind}<</MCID {number}>>BDC"

    def _begin(self, mark: str, again: Callable[[str], str] | None = None) -> None:
        self.close()
        self._operators.begin(mark, again)
        self._held = True

    def _end(self) -> None:
        self._held = False
        self._operators.end()


def _made_of(parts: Sequence[Tag | tuple[int, int]], numbers: Mapping[Tag, str], leaves: Sequence[str]) -> str:
    """What a part is made of: other parts, places on the page of its first words, and places on other pages."""
    own: int | None = None
    made: list[str] = []
    for part in parts:
        if isinstance(part, Tag):
            made.append(numbers[part])
            continue
        page, number = part
        own = page if own is None else own
        made.append(str(number) if page == own else f"<</Type /MCR /Pg {leaves[page]} /MCID {number}>>")
    kids = made[0] if len(made) == 1 else f"[{' '.join(made)}]"
    return f" /K {kids}" if own is None else f" /K {kids} /Pg {leaves[own]}"


def _told(tag: Tag, lines: Sequence[str]) -> str:
    """What is said in the place of a part, and what a table's reader or a figure's needs to know.

    Words that run from right to left stand on the page from left to right; how they are read is said beside.
    """
    words = f" /Alt {_quoted(tag.told)}" if tag.told else ""
    if any(map(is_leftward, lines)):
        words = f" /ActualText {_quoted(as_read(' '.join(lines)))}"
    scope = f" /Scope /{tag.scope}" if tag.scope else ""
    across = f" /ColSpan {tag.across}" if tag.across > 1 else ""
    box = f" /BBox [{' '.join(f'{each:.2f}' for each in tag.box)}]" if tag.box else ""
    kept = f" /A <</O /{'Layout' if box else 'Table'}{scope}{across}{box}>>" if scope or across or box else ""
    return words + kept


@lru_cache(maxsize=1_000)
def _quoted(text: str) -> str:
    from reportlab.pdfbase.pdfdoc import DummyDoc, PDFString

    return bytes(PDFString(one_line(text)).format(DummyDoc())).decode("ascii")
