"""One sheet of a workbook: title rows, a table under a frozen head, sums as formulas, and the print set-up."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import ceil
from textwrap import wrap
from typing import TYPE_CHECKING, Final, TypeAlias, cast

from tundish.documents.block import Amount, CellKind, Row, Sums, Table, Value
from tundish.writers.cell import NOTHING, boxes, cells_of, is_number, rounded, shown, total, total_column
from tundish.writers.safe import for_spreadsheet

if TYPE_CHECKING:
    from openpyxl.cell.cell import Cell, MergedCell
    from openpyxl.styles import Alignment, Border, Font, PatternFill
    from openpyxl.worksheet.header_footer import HeaderFooterItem
    from openpyxl.worksheet.properties import PageSetupProperties
    from openpyxl.worksheet.worksheet import Worksheet

AnyCell: TypeAlias = "Cell | MergedCell"
FORMATS: Final[dict[CellKind, str]] = {
    "length": "#,##0",
    "count": "#,##0",
    "number": "General",
    "area": "#,##0.00",
    "metres": "#,##0.00",
    "hours": "#,##0.0",
    "percent": 'General" %"',
    "money": "#,##0.00",
}
FACE: Final = "Calibri"
WIDEST: Final = 60
"""Characters a column is wide at most; longer words wrap."""
NARROWEST: Final = 6
LINE: Final = 13.5
HIGHEST: Final = 409
"""Heights of a line of words and of the highest row, points."""
WORDS_ACROSS: Final = 126  # a hundred letters of Courier New
TITLE_HEIGHT: Final = 21
SUM_ACROSS: Final = 11
"""Characters a sum is taken to have: it is worked out by the program that opens the book."""
_TBC: Final = "To be confirmed"
_LANDSCAPE: Final = 110
"""Characters across from which a sheet is printed sideways."""
_TRAY: Final = "FFE7E3D9"
_EDGE: Final = "FF777367"
_INK: Final = "FF1A2124"
_TITLE_LETTER: Final = 1.5
_EMPTY_COLUMN: Final = 8.4
_MARGIN: Final = 12 / 25.4
_LONGEST_FOOT: Final = (75, 105)
"""Letters that fit beside the number of the page, upright and sideways."""


@dataclass(frozen=True, slots=True)
class Head:
    """What stands over a sheet's table and at the foot of its pages."""

    title: str
    lines: tuple[str, ...]
    foot: str


@dataclass(frozen=True, slots=True)
class Looks:
    """The few styles of a sheet."""

    plain: Font
    strong: Font
    title: Font
    tray: PatternFill
    under: Border
    over: Border
    words: Alignment
    across: Alignment
    figures: Alignment


def fill_sheet(sheet: Worksheet, table: Table, head: Head, sums: Sums | None = None) -> None:
    """The table under its head, and the sums that begin with its money under it."""
    looks = _looks()
    extra = [name for name, wanted in ((_TBC, any(row.tbc for row in table.rows)), ("Note", any(row.note for row in table.rows))) if wanted]
    _title(sheet, head, looks)
    first = len(head.lines) + 3
    for place, words in enumerate([*(column.head for column in table.columns), *extra], start=1):
        cell = _write(sheet, first, place, words, looks)
        cell.font, cell.fill = looks.strong, looks.tray
        if place - 1 in _of_figures(table):
            cell.alignment = looks.figures
    last = _rows(sheet, table, first, extra, looks) if table.rows or not sums else first
    if table.totals:
        last += 1
        _totals(sheet, table, (first + 1, last), looks)
    if sums:
        last = _sums(sheet, (table, sums), (first + 1, last), looks)
    columns = max(len(table.columns) + len(extra), 1)
    _columns(sheet, (first, last), columns)
    sheet.freeze_panes = f"A{first + 1}"
    _print(sheet, head, first, f"A1:{_letter(_titled(sheet, head, columns))}{last}")


def fill_words(sheet: Worksheet, lines: Sequence[str], head: Head) -> None:
    """Lines of text under a head, each in a cell of its own."""
    looks = _looks(face="Courier New")
    _title(sheet, head, _looks())
    first = len(head.lines) + 3
    for number, line in enumerate(lines, start=first):
        _write(sheet, number, 1, line, looks)
    sheet.column_dimensions["A"].width = WORDS_ACROSS
    _print(sheet, head, 0, f"A1:A{max(sheet.max_row, first)}")


def _title(sheet: Worksheet, head: Head, looks: Looks) -> None:
    for row, words in enumerate((head.title, *head.lines), start=1):
        cell = _write(sheet, row, 1, words, looks)
        cell.font = looks.title if row == 1 else looks.plain
        cell.alignment = looks.across
    sheet.row_dimensions[1].height = TITLE_HEIGHT


def _rows(sheet: Worksheet, table: Table, first: int, extra: Sequence[str], looks: Looks) -> int:
    """The rows under the head; gives the last one."""
    if not table.rows:
        _write(sheet, first + 1, 1, NOTHING, looks)
        return first + 1
    figures = _of_figures(table)
    for number, row in enumerate(table.rows, start=first + 1):
        if row.group:
            _group(sheet, number, (table, row), looks)
        else:
            for place, (column, value) in enumerate(zip(table.columns, cells_of(table, row), strict=True), start=1):
                _value(sheet, (number, place), value, column.kind, looks).alignment = looks.figures if place - 1 in figures else looks.words
        for place, name in enumerate(extra, start=len(table.columns) + 1):
            words = ("TBC" if row.tbc else "") if name == _TBC else row.note
            _write(sheet, number, place, words, looks).border = looks.under
    _group_sums(sheet, table, first, looks)
    return first + len(table.rows)


def _of_figures(table: Table) -> frozenset[int]:
    """The columns that stand at the right: of numbers, and of amounts with units of their own."""
    cells = ((place, value) for row in table.rows if not row.group for place, value in enumerate(row.cells))
    amounts = {place for place, value in cells if isinstance(value, Amount)}
    return frozenset(amounts | {place for place, column in enumerate(table.columns) if is_number(column.kind)})


def _value(sheet: Worksheet, at: tuple[int, int], value: Value, kind: CellKind, looks: Looks) -> AnyCell:
    number = value.number if isinstance(value, Amount) else rounded(value, kind)
    if number is None:
        words = "☐ " * boxes(value) if kind == "tick" else shown(value, kind)
        cell = _write(sheet, *at, words.strip(), looks)
    else:
        cell = sheet.cell(*at, float(number))
        cell.font, cell.number_format = looks.plain, _with_unit(value) if isinstance(value, Amount) else FORMATS[kind]
    cell.border = looks.under
    return cell


def _with_unit(amount: Amount) -> str:
    """As it is shown: as many places, and the unit after it."""
    places = max(-int(amount.number.as_tuple().exponent), 0)
    return f"#,##0{'.' if places else ''}{'0' * places}" + (f'" {amount.unit}"' if amount.unit else "")


def _group(sheet: Worksheet, number: int, group: tuple[Table, Row], looks: Looks) -> None:
    table, row = group
    for place in range(1, len(table.columns) + 1):
        sheet.cell(number, place).border = looks.under
    cell = _write(sheet, number, 1, row.group, looks)
    cell.font, cell.alignment = looks.strong, looks.across


def _group_sums(sheet: Worksheet, table: Table, first: int, looks: Looks) -> None:
    """Where a heading across carries a number, the sum of the rows under it."""
    starts = [place for place, row in enumerate(table.rows) if row.group]
    for start, end in pairwise((*starts, len(table.rows))):
        for place, (column, value) in enumerate(zip(table.columns, cells_of(table, table.rows[start]), strict=True), start=1):
            number = rounded(value, column.kind)
            summed = place - 1 in table.totals
            if number is None or (summed and end == start + 1):
                continue
            letter = _letter(place)
            formula = f"=SUBTOTAL(9,{letter}{first + 2 + start}:{letter}{first + end})"
            cell = sheet.cell(first + 1 + start, place, formula if summed else float(number))
            cell.font, cell.number_format, cell.alignment = looks.strong, FORMATS[column.kind], looks.figures


def _totals(sheet: Worksheet, table: Table, rows: tuple[int, int], looks: Looks) -> None:
    """The total row."""
    first, number = rows
    label = total_column(table)
    for place, column in enumerate(table.columns):
        cell = sheet.cell(number, place + 1)
        if place in table.totals:
            cell.value = f"={_sum_of(table, place, (first, number - 1))}"
            cell.number_format, cell.alignment = FORMATS[column.kind], looks.figures
        elif place == label:
            cell = _write(sheet, number, place + 1, table.total_label, looks)
        cell.font, cell.border = looks.strong, looks.over


def _sums(sheet: Worksheet, both: tuple[Table, Sums], rows: tuple[int, int], looks: Looks) -> int:
    """Labels and amounts under the table; what is the sum of the amounts above it is a formula. Gives the last row.

    Where the table has a total of its own they go on from it, otherwise the first of them is that total.
    """
    table, sums = both
    first, last = rows
    place = max((number for number, column in enumerate(table.columns) if column.kind == "money"), default=len(table.columns) - 1)
    letter = _letter(place + 1)
    begin = f"{letter}{last}" if table.totals else _sum_of(table, place, (first, last))
    so_far, cells = total(table, place), [begin] if table.rows else []
    for number, (label, amount) in enumerate(sums.rows, start=last + 1):
        is_sum = amount == so_far and (len(cells) > 1 or (cells == [begin] and not table.totals))
        cell = _write(sheet, number, total_column(table) + 1, label, looks)
        cell.alignment = looks.across
        money = sheet.cell(number, place + 1, f"={'+'.join(cells)}" if is_sum else float(amount))
        money.number_format, money.alignment = FORMATS["money"], looks.figures
        money.font = cell.font = looks.strong if number == last + len(sums.rows) else looks.plain
        so_far, cells = (amount, []) if is_sum else (so_far + amount, cells)
        cells.append(f"{letter}{number}")
    return last + len(sums.rows)


def _sum_of(table: Table, column: int, rows: tuple[int, int]) -> str:
    """SUM of a column, or SUBTOTAL where headings across carry sums, which leaves those out."""
    letter = _letter(column + 1)
    headed = (cells_of(table, row)[column] for row in table.rows if row.group)
    carried = any(rounded(value, table.columns[column].kind) is not None for value in headed)
    return f"{'SUBTOTAL(9,' if carried else 'SUM('}{letter}{rows[0]}:{letter}{rows[1]})"


def _write(sheet: Worksheet, row: int, column: int, words: str, looks: Looks) -> AnyCell:
    """Words as words, whatever they begin with."""
    cell = sheet.cell(row, column)
    cell.value = for_spreadsheet(words)
    cell.data_type = "s"
    cell.quotePrefix = words[:1] in tuple("=+-@'")
    cell.font, cell.alignment = looks.plain, looks.words
    return cell


def _columns(sheet: Worksheet, rows: tuple[int, int], columns: int) -> None:
    """Each as wide as what is in it from the head down, headings across and title rows left out."""
    first, last = rows
    for place in range(1, columns + 1):
        widest = max(_length(sheet.cell(row, place)) for row in range(first, last + 1) if not _across(sheet, row, place))
        sheet.column_dimensions[_letter(place)].width = min(max(widest + 3, NARROWEST), WIDEST)
    for row in range(first, last + 1):
        deep = max(_lines(sheet.cell(row, place), sheet.column_dimensions[_letter(place)].width) for place in range(1, columns + 1))
        if deep > 1:
            sheet.row_dimensions[row].height = min(deep * LINE, HIGHEST)


def _lines(cell: AnyCell, width: float) -> int:
    """How many lines the words of a cell take where they wrap."""
    if cell.data_type != "s" or not cell.alignment.wrap_text:
        return 1
    return sum(max(len(wrap(line, round(width) - 3)), 1) for line in str(cell.value).split("\n"))


def _titled(sheet: Worksheet, head: Head, columns: int) -> int:
    """How many columns are printed: as many as are in use, and as the title needs."""
    across = sum(sheet.column_dimensions[_letter(place)].width for place in range(1, columns + 1))
    short = min(len(head.title) * _TITLE_LETTER, WORDS_ACROSS) - across
    return columns + max(ceil(short / _EMPTY_COLUMN), 0)


def _across(sheet: Worksheet, row: int, place: int) -> bool:
    return place == 1 and bool(sheet.cell(row, 1).alignment.wrap_text is False)


def _length(cell: AnyCell) -> int:
    """Characters a cell shows; a formula is as long as a large sum."""
    if cell.data_type == "f":
        return SUM_ACROSS
    if isinstance(cell.value, float):
        return len(f"{cell.value:,.2f}" if "." in cell.number_format else f"{cell.value:,.10g}")
    return max((len(line) for line in str(cell.value or "").split("\n")), default=0)


def _print(sheet: Worksheet, head: Head, repeat: int, area: str) -> None:
    """A4 at the width of the page, the head repeated, the foot with page n of n."""
    across = sum(dimension.width for dimension in sheet.column_dimensions.values())
    sheet.page_setup.paperSize = 9
    sheet.page_setup.orientation = "landscape" if across > _LANDSCAPE else "portrait"
    sheet.page_setup.fitToWidth, sheet.page_setup.fitToHeight = 1, 0
    sheet.sheet_properties.pageSetUpPr = _fitted()
    sheet.page_margins.left = sheet.page_margins.right = _MARGIN
    foot = cast("HeaderFooterItem", sheet.oddFooter)
    most = _LONGEST_FOOT[across > _LANDSCAPE]
    words = for_spreadsheet(head.foot)
    foot.left.text = (words if len(words) <= most else f"{words[: most - 1]}…").replace("&", "&&")
    foot.right.text = "Page &P of &N"
    sheet.print_area = area
    if repeat:
        sheet.print_title_rows = f"{repeat}:{repeat}"


def _fitted() -> PageSetupProperties:
    from openpyxl.worksheet.properties import PageSetupProperties

    return PageSetupProperties(fitToPage=True)


def _letter(column: int) -> str:
    from openpyxl.utils import get_column_letter

    return get_column_letter(column)


def _looks(face: str = FACE) -> Looks:
    from openpyxl.styles import Alignment, Border, Font, PatternFill, Side

    return Looks(
        plain=Font(face, 10),
        strong=Font(face, 10, bold=True),
        title=Font(face, 14, bold=True),
        tray=PatternFill("solid", _TRAY),
        under=Border(bottom=Side("hair", _EDGE)),
        over=Border(top=Side("thin", _INK)),
        words=Alignment(horizontal="left", vertical="top", wrap_text=True, indent=1),
        across=Alignment(horizontal="left", vertical="top", wrap_text=False, indent=1),
        figures=Alignment(horizontal="right", vertical="top"),
    )
