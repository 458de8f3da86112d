"""A paper as one plain HTML page: to send, to read on a telephone, to have read aloud. Nothing in it is fetched or run."""

from __future__ import annotations

import re
from base64 import b64encode
from collections.abc import Callable, Iterable, Iterator
from html import escape
from pathlib import Path
from typing import Any, Final

from tundish.catalogue.trader import COLOURS
from tundish.documents.block import (
    Block,
    Document,
    Facts,
    FillIn,
    Heading,
    NextPage,
    Paragraph,
    Picture,
    Points,
    Row,
    RulerCheck,
    SideBySide,
    Sketch,
    Sums,
    Table,
    TrueSize,
)
from tundish.documents.drawing import Words
from tundish.writers.cell import NOTHING, boxes, cells_of, is_number, pounds, shown, total_cells
from tundish.writers.pdf_pen import COLOUR
from tundish.writers.pictures import LOGO, Pictures, none_kept
from tundish.writers.safe import legible, write_whole
from tundish.writers.svg import WIDE, as_svg, code_of

_OVERLONG: Final = re.compile(r"\S{30}(?=\S)")
_STYLE: Final = """
body { font: 1rem/1.5 "Atkinson Hyperlegible Next", "Noto Sans", "DejaVu Sans", sans-serif; color: #1a2124; background: #fff;
  max-width: 48rem; margin: 0 auto; padding: 1rem; overflow-wrap: break-word; } main { overflow-x: auto; }
header { display: flex; justify-content: space-between; flex-wrap: wrap; gap: 0 2rem; border-bottom: 2px solid #1a2124; }
header p, footer p { margin: 0.2rem 0; } h1 { font-size: 1.4rem; margin: 0; } h2 { font-size: 1.15rem; }
table { border-collapse: collapse; width: 100%; margin: 1rem 0; } caption { text-align: left; font-weight: 700; }
th, td { text-align: left; vertical-align: top; padding: 0.3rem 0.5rem; border-bottom: 1px solid #777367; }
.n { text-align: right; font-variant-numeric: tabular-nums; } .strong, tfoot td { font-weight: 700; } .quiet, .note { color: #4a5256; }
.note { font-size: 0.9rem; } .box { border: 1px solid #1a2124; padding: 0.5rem 1rem; margin: 1rem 0; } .tbc { border: 1px dashed #7a4f00;
  padding: 0 0.3rem; font-size: 0.8rem; } .line { display: inline-block; min-width: 14rem;
  border-bottom: 1px solid #1a2124; } td .line { min-width: 2.5rem; width: 100%; }
dl { display: flex; flex-wrap: wrap; gap: 0.5rem 2rem; } dt { font-weight: 700; } dd { margin: 0; } .side { display: grid;
  grid-template-columns: repeat(auto-fit, minmax(18rem, 1fr)); gap: 0 2rem; } figure { margin: 1rem 0; } svg, img { max-width: 100%; }
.logo { max-height: 3rem; max-width: 10rem; }
footer { border-top: 1px solid #777367; margin-top: 2rem; color: #4a5256; font-size: 0.9rem; }
"""
_TBC: Final = ' <span class="tbc">TBC</span>'


def write_html(document: Document, path: Path, printed: str, pictures: Pictures = none_kept) -> None:
    """Write the paper to a file as one HTML page in UTF-8.

    Raises:
        CouldNotWriteError: the file could not be written; what was there is untouched.
    """
    write_whole(path, as_html(document, printed, pictures).encode())


def as_html(document: Document, printed: str = "", pictures: Pictures = none_kept) -> str:
    """The whole page."""
    title = f"{document.title} {document.number}".strip()
    demo = '<p class="strong">DEMO</p>' if document.demo else ""
    body = "\n".join(_Page(pictures).blocks(document.blocks))
    said = f"<p>Printed {_words(printed)}</p>" if printed else ""
    return f"""<!DOCTYPE html>
<html lang="en-GB">
<head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">
<title>{_words(document.name or title)}</title>
<style>{_STYLE}{_coloured(document.colour)}</style></head>
<body>
{demo}<header>
{_logo(document, pictures)}<div><p class="strong">{_words(document.sender)}</p><p class="note">{_words(document.trade)}</p></div>
<div><h1>{_words(title)}</h1><p class="note">{_words(document.subtitle)}</p></div></header>
<main>
{body}
</main>
<footer><p>{_words(document.foot)}</p>{said}</footer>
</body>
</html>
"""


def _coloured(name: str) -> str:
    """The head in another colour than black."""
    code = code_of(COLOUR[name])
    return "" if name == COLOURS[0] else f"header {{ border-color: {code}; }} header h1, header .strong {{ color: {code}; }}"


class _Page:
    """Writes blocks; photographs are looked up as they come."""

    def __init__(self, pictures: Pictures) -> None:
        self._pictures = pictures
        self._wide = WIDE
        self._written: dict[type[Block], Callable[[Any], Iterator[str]]] = {
            Heading: _heading,
            Paragraph: _paragraph,
            Points: _points,
            Sums: _sums,
            Facts: _facts,
            Table: _table,
            Sketch: self._sketch,
            SideBySide: self._side_by_side,
            FillIn: _fill_in,
            Picture: self._picture,
            TrueSize: _true_size,
        }

    def blocks(self, blocks: Iterable[Block]) -> Iterator[str]:
        """Every block; page ends and rulers are of paper only."""
        for block in blocks:
            if not isinstance(block, NextPage | RulerCheck):
                yield from self._written[type(block)](block)

    def _side_by_side(self, block: SideBySide) -> Iterator[str]:
        self._wide = WIDE / 2
        yield '<div class="side"><div>'
        yield from self.blocks(block.left)
        yield "</div><div>"
        yield from self.blocks(block.right)
        yield "</div></div>"
        self._wide = WIDE

    def _sketch(self, sketch: Sketch) -> Iterator[str]:
        caption = "".join(f"<figcaption>{_words(words)}</figcaption>" for words in (sketch.caption, sketch.told) if words)
        yield f"<figure>{as_svg(sketch.drawing, self._wide)}{caption}</figure>"

    def _picture(self, picture: Picture) -> Iterator[str]:
        found = self._pictures(picture.key)
        words = _words(picture.caption or "Photograph")
        if found is None:
            yield f"<p>[photograph: {words}]</p>"
        else:
            yield f'<figure><img alt="{words}" src="{_data(found)}"><figcaption>{words}</figcaption></figure>'


def _logo(document: Document, pictures: Pictures) -> str:
    found = pictures(LOGO)
    return f'<img class="logo" alt="Logo of {_words(document.sender)}" src="{_data(found)}">' if found else ""


def _data(jpeg: bytes) -> str:
    return f"data:image/jpeg;base64,{b64encode(jpeg).decode()}"


def _words(text: str) -> str:
    """Text as typed, never markup; its lines kept."""
    return escape(legible(text)).replace("\n", "<br>")


def _parted(text: str) -> str:
    """The words of a cell; an overlong one may go on in the next line, so that it does not push the others off the page."""
    return "<wbr>".join(_words(piece) for piece in _OVERLONG.sub("\\g<0>\0", text).split("\0"))


def _heading(heading: Heading) -> Iterator[str]:
    level = min(heading.level + (heading.level == 1), 6)
    yield f"<h{level}>{_words(heading.text)}</h{level}>"


def _paragraph(paragraph: Paragraph) -> Iterator[str]:
    kinds = {"caution": ' class="box"', "note": ' class="note"', "strong": ' class="strong"', "plain": ""}
    yield f"<p{kinds[paragraph.tone]}>{_words(paragraph.text)}</p>"


def _points(points: Points) -> Iterator[str]:
    if points.title:
        yield f'<p class="strong">{_words(points.title)}</p>'
    yield f"<ul>{''.join(f'<li>{_words(item)}</li>' for item in points.items)}</ul>"


def _sums(sums: Sums) -> Iterator[str]:
    last = len(sums.rows) - 1
    rows = (
        f'<tr{" class=strong" if place == last else ""}><th scope="row">{_words(label)}</th>'
        f'<td class="n">{pounds(amount, sign=place == last)}</td></tr>'
        for place, (label, amount) in enumerate(sums.rows)
    )
    yield f"<table>{''.join(rows)}</table>"


def _facts(facts: Facts) -> Iterator[str]:
    yield f"<dl>{''.join(f'<div><dt>{_words(head)}</dt>{_lines(lines)}</div>' for head, lines in facts.columns)}</dl>"


def _lines(lines: Iterable[str]) -> str:
    return "".join(f"<dd>{_words(line)}</dd>" for line in lines)


def _fill_in(box: FillIn) -> Iterator[str]:
    yield f'<div class="box"><p class="strong">{_words(box.title)}</p>'
    yield from (f"<p>{_words(words)}</p>" for words in box.sentences)
    yield from (f'<p>{_words(label)} <span class="line">&nbsp;</span></p>' for label in box.lines)
    yield "</div>"


def _true_size(block: TrueSize) -> Iterator[str]:
    yield f'<p class="box">Print the PDF of this: {_words(block.title)} is only true there. {_words(block.warning)}</p>'
    said = dict.fromkeys(mark.text for mark in block.drawing.marks if isinstance(mark, Words))
    yield f"<p>{_words('; '.join(said))}</p>"


def _table(table: Table) -> Iterator[str]:
    yield "<table>"
    if table.title:
        yield f"<caption>{_words(table.title)}</caption>"
    heads = (f'<th scope="col"{_kind(table, place)}>{_words(column.head)}</th>' for place, column in enumerate(table.columns))
    yield f"<thead><tr>{''.join(heads)}</tr></thead><tbody>"
    if not table.rows:
        yield f'<tr><td colspan="{len(table.columns)}">{NOTHING}</td></tr>'
    for row in table.rows:
        yield from _row(table, row)
    yield "</tbody>"
    if table.totals:
        cells = (f"<td{_kind(table, place)}>{_words(words)}</td>" for place, words in enumerate(total_cells(table)))
        yield f"<tfoot><tr>{''.join(cells)}</tr></tfoot>"
    yield "</table>"


def _row(table: Table, row: Row) -> Iterator[str]:
    wide, mark = len(table.columns), _TBC if row.tbc else ""
    if row.group:
        yield f'<tr><th scope="rowgroup" colspan="{wide}">{_words(row.group)}{mark}</th></tr>'
    if not row.group or any(is_number(each.kind) and shown(cell, each.kind) for each, cell in zip(table.columns, row.cells, strict=False)):
        cells = "".join(
            f"<td{_kind(table, place)}>{_cell(table, place, cell)}{mark if place == 0 and not row.group else ''}</td>"
            for place, cell in enumerate(cells_of(table, row))
        )
        yield f"<tr>{cells}</tr>"
    if row.note:
        yield f'<tr><td class="note" colspan="{wide}">{_words(row.note)}</td></tr>'


def _cell(table: Table, place: int, cell: Any) -> str:
    match table.columns[place].kind:
        case "tick":
            return "☐ " * boxes(cell)
        case "blank":
            return '<span class="line">&nbsp;</span>'
        case kind:
            return _parted(shown(cell, kind))


def _kind(table: Table, place: int) -> str:
    column = table.columns[place]
    kinds = [*(["n"] if is_number(column.kind) else []), *([column.tone] if column.tone != "plain" else [])]
    return f' class="{" ".join(kinds)}"' if kinds else ""
