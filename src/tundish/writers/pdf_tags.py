"""The parts of a paper, for a reader that hears it: headings, paragraphs, lists, tables, figures, in reading order.

Tagged PDF, ISO 32000-1 clauses 14.6 to 14.8. What is drawn outside any part (rules, washes, heads of later pages) is marked as an
artifact, which such a reader leaves out.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Literal

from tundish.writers.safe import one_line

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

Kind = Literal["Document", "H1", "H2", "H3", "P", "L", "LI", "Lbl", "LBody", "Table", "Caption", "TR", "TH", "TD", "Figure"]


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

    def __init__(self, canvas: Canvas) -> None:
        self._canvas = canvas
        self._top = Tag("Document")
        self._parts: dict[Tag, list[Tag | tuple[int, int]]] = {self._top: []}
        """What each part is made of: other parts, and places on pages (page, number on it)."""
        self._pages: list[list[Tag]] = [[]]
        self._held = False
        self._loose = False

    @contextmanager
    def within(self, tag: Tag) -> Iterator[None]:
        """What is drawn now is of this part; within another, it is of that one."""
        if self._held:
            yield
            return
        page = self._pages[-1]
        number = len(page)
        page.append(tag)
        self.hold(tag)
        self._parts[tag].append((len(self._pages) - 1, number))
        with self._marked(f"/{tag.kind} <</MCID {number}>> BDC"):
            yield

    @contextmanager
    def aside(self) -> Iterator[None]:
        """What is drawn now is of no part."""
        with self._marked("/Artifact BMC"):
            yield

    def hold(self, tag: Tag) -> None:
        """Give a part its place in reading order now, before anything of it is drawn."""
        if tag not in self._parts:
            self._parts[tag] = []
            inside = tag.inside or self._top
            self.hold(inside)
            self._parts[inside].append(tag)

    def ready(self) -> None:
        """Something is about to be drawn: outside any part it is an artifact."""
        if not self._held and not self._loose:
            self._canvas.addLiteral("/Artifact BMC")
            self._loose = True

    def close(self) -> None:
        """End what is open of no part: needed before the state of the canvas is kept or put back."""
        if self._loose:
            self._canvas.addLiteral("EMC")
            self._loose = False

    def page_ends(self) -> None:
        """What is drawn from now on stands on the next page."""
        self.close()
        self._pages.append([])

    def write(self) -> None:
        """Put the parts into the document; its pages are all drawn."""
        from reportlab.pdfbase.pdfdoc import PDFArrayCompact, PDFDictionary, PDFName

        document: Any = self._canvas._doc  # type: ignore[attr-defined]  # noqa: SLF001 - the canvas has no other door to it
        pages = document.Pages.pages[: len(self._pages)]
        made = {tag: PDFDictionary() for tag in self._parts}
        root = PDFDictionary({"Type": PDFName("StructTreeRoot"), "ParentTreeNextKey": len(pages)})
        document.Catalog.StructTreeRoot = root
        document.Catalog.MarkInfo = PDFDictionary({"Marked": "true"})
        refer = document.Reference
        root["K"] = refer(made[self._top])
        owners: list[Any] = []
        for number, page in enumerate(pages):
            page.__NoDefault__ = [*page.__NoDefault__, "StructParents", "Tabs"]
            page.StructParents, page.Tabs = number, PDFName("S")
            owners += [number, refer(PDFArrayCompact([refer(made[tag]) for tag in self._pages[number]]))]
        root["ParentTree"] = refer(PDFDictionary({"Nums": PDFArrayCompact(owners)}))
        for tag, entry in made.items():
            entry["P"] = refer(root if tag is self._top else made[tag.inside or self._top])
            _describe(entry, tag)
            self._fill(entry, tag, lambda part: refer(made[part] if isinstance(part, Tag) else pages[part]))

    def _fill(self, entry: Any, tag: Tag, refer: Callable[[Tag | int], Any]) -> None:
        """What a part is made of: other parts, places on the page of its first words, and places on other pages."""
        from reportlab.pdfbase.pdfdoc import PDFArrayCompact, PDFDictionary, PDFName

        own: int | None = None
        made: list[Any] = []
        for part in self._parts[tag]:
            if isinstance(part, Tag):
                made.append(refer(part))
                continue
            page, number = part
            own = page if own is None else own
            other = {"Type": PDFName("MCR"), "Pg": refer(page), "MCID": number}
            made.append(number if page == own else PDFDictionary(other))
        entry["K"] = made[0] if len(made) == 1 else PDFArrayCompact(made)
        if own is not None:
            entry["Pg"] = refer(own)

    @contextmanager
    def _marked(self, begin: str) -> Iterator[None]:
        self.close()
        self._canvas.addLiteral(begin)
        self._held = True
        yield
        self._held = False
        self._canvas.addLiteral("EMC")


def _describe(entry: Any, tag: Tag) -> None:
    """The kind of a part, what is said in its place, and what a table's reader or a figure's needs to know."""
    from reportlab.pdfbase.pdfdoc import PDFArrayCompact, PDFDictionary, PDFName, PDFString

    entry["S"] = PDFName(tag.kind)
    if tag.told:
        entry["Alt"] = PDFString(one_line(tag.told))
    kept: dict[str, Any] = {}
    if tag.scope:
        kept["Scope"] = PDFName(tag.scope)
    if tag.across > 1:
        kept["ColSpan"] = tag.across
    if tag.box:
        kept["BBox"] = PDFArrayCompact(tag.box)
    if kept:
        entry["A"] = PDFDictionary({"O": PDFName("Layout" if tag.box else "Table"), **kept})
