"""Cut plans drawn: bars to scale, longest piece first; sheets as they lie, with what is left."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby
from string import digits
from typing import Final

from tundish import measure
from tundish.cutting.plan import KEPT_SIDE, BarPlan, Place, Rect, SheetCut, SheetPlan
from tundish.cutting.plans import CutPlan
from tundish.cutting.saw_order import Stroke, strokes
from tundish.documents.drawing import Box, Drawing, Ellipse, Line, Mark, Style, Words
from tundish.rules.rule import Cut

BAR: Final = 120.0
GAP: Final = 60.0
BESIDE: Final = 1500.0
"""What is left free beside the bars for their names and remainders."""
SIZE: Final = 2.4
LETTER: Final = 1.5
"""Height of the words and width of a bold letter, mm of paper."""
TALL: Final = 4.0
"""About how high a bar is on paper at least, so that its words stand within it, mm."""
RING: Final = 1.4
"""How wide the ring round the number of a cut is from its middle, in letters."""
PAGE: Final = 170.0
HALF_PAGE: Final = 80.0
"""About how wide a drawing is set on paper: bars across the page, sheets two by two."""


def bars(plan: CutPlan, keep: float) -> Drawing:
    """Every bar of a plan, one under the other; offcuts worth keeping are dashed, scrap is hatched."""
    if not isinstance(plan.plan, BarPlan):
        raise TypeError(plan.item.code)
    longest = max((plan.plan.stock[cut.bar].length for cut in plan.plan.cuts), default=1000.0)
    marks: list[Mark] = []
    for row, cut in enumerate(plan.plan.cuts):
        y = -row * (BAR + GAP) - BAR
        stock = plan.plan.stock[cut.bar]
        marks.append(Words(-40, y + BAR / 2, bar_name(plan, row), 2.6, anchor="end"))
        x = 0.0
        for place in cut.pieces:
            length = plan.plan.pieces[place].length
            marks += _piece(plan, place, (x, y, length, BAR), (longest + BESIDE) * LETTER / PAGE)
            x += length + plan.plan.kerf
        if cut.remainder > 0:
            style: Style = "keep" if cut.remainder >= keep else "hatch"
            marks.append(Box(stock.length - cut.remainder, y, cut.remainder, BAR, style))
            word = f"{'keep' if style == 'keep' else 'scrap'} {measure.show_length(cut.remainder)}"
            marks.append(Words(longest + 40, y + BAR / 2, word, 2.6, anchor="start"))
    height = len(plan.plan.cuts) * (BAR + GAP)
    return Drawing(
        plan.item.name,
        tuple(marks),
        (-900, -height, longest + BESIDE, height),
        tuple((cut.mark, f"{cut.what} {cut.mark}") for cut in plan.cuts),
    )


def printed(plan: CutPlan, keep: float) -> Drawing:
    """The bars as on paper, where nothing can be drawn larger: pieces too short for their marks share one with their like beside them."""
    drawing = bars(plan, keep)
    letter = drawing.extent[2] * LETTER / PAGE
    wide = {mark.piece: mark.width for mark in drawing.marks if isinstance(mark, Box)}
    tight = [mark for mark in drawing.marks if isinstance(mark, Words) and mark.piece and len(mark.text) * letter > wide[mark.piece]]
    kept = [mark for mark in drawing.marks if mark not in tight]
    for _, run in groupby(tight, lambda mark: (mark.y, wide[mark.piece], mark.piece.rstrip(digits))):
        alike = tuple(run)
        first, last = alike[0], alike[-1]
        words = f"{first.piece}–{last.piece.removeprefix(first.piece.rstrip(digits))}"
        if len(alike) > 1 and len(words) * letter <= last.x - first.x + wide[last.piece] and _one_by_one(alike):
            kept.append(replace(first, text=words, x=(first.x + last.x) / 2))
    left, low, across, high = drawing.extent
    taller = max(1.0, TALL * across / PAGE / BAR)
    return replace(drawing, marks=tuple(_taller(mark, taller) for mark in kept), extent=(left, low * taller, across, high * taller))


def sheet(plan: CutPlan, cut: SheetCut, row: int) -> Drawing:
    """One sheet of a plan with its pieces, what is kept of it (dashed) and what is scrap, and its cuts numbered in their order."""
    done = _of_sheets(plan)
    size = done.stock[cut.sheet]
    longest = max(done.stock[each.sheet].length for each in done.cuts)
    letter = longest * LETTER / HALF_PAGE
    marks: list[Mark] = [Box(0, 0, size.length, size.width, "ink", filled=False)]
    for rest in cut.remainders:
        marks += _rest(rest, letter)
    for place in cut.places:
        marks += _piece(plan, place.piece, (place.x, place.y, place.length, place.width), letter)
        marks += (*_slants(plan.cuts[place.piece], place), *_holes(plan.cuts[place.piece], place))
    for number, stroke in enumerate(strokes(done, cut), 1):
        marks += _numbered(stroke, number, letter)
    title = f"{plan.item.name}, sheet {row + 1}"
    return Drawing(title, tuple(marks), (-20, -20, size.length + 40, size.width + 40))


def bar_name(plan: CutPlan, row: int) -> str:
    """What a bar is called on the list: a new one with its length, or the offcut of the rack."""
    if not isinstance(plan.plan, BarPlan):
        raise TypeError(plan.item.code)
    stock = plan.plan.stock[plan.plan.cuts[row].bar]
    length = measure.show_length(stock.length)
    if stock.offcut:
        return f"Rack {stock.name} · {length}"
    new = sum(not plan.plan.stock[cut.bar].offcut for cut in plan.plan.cuts[: row + 1])
    return f"New {new} · {length}"


def sheet_name(plan: CutPlan, row: int) -> str:
    """What a sheet is called on the list: "Sheet 1" for the first new one, or the offcut of the rack."""
    done = _of_sheets(plan)
    taken = [done.stock[cut.sheet] for cut in done.cuts[: row + 1]]
    return f"Rack {taken[-1].name}" if taken[-1].offcut else f"Sheet {sum(not each.offcut for each in taken)}"


def sheet_title(plan: CutPlan, row: int) -> str:
    """The name of a sheet with its size."""
    done = _of_sheets(plan)
    size = done.stock[done.cuts[row].sheet]
    return f"{sheet_name(plan, row)} · {measure.show_length(size.length)} × {measure.show_length(size.width)}"


def _of_sheets(plan: CutPlan) -> SheetPlan:
    if not isinstance(plan.plan, SheetPlan):
        raise TypeError(plan.item.code)
    return plan.plan


_INSIDE: Final = 0.9
"""How much of a piece its words may take."""


def _piece(plan: CutPlan, place: int, box: tuple[float, float, float, float], letter: float) -> Iterator[Mark]:
    """One piece with its mark, and its size where there is room; `letter` is how long a letter is at the drawing's size."""
    cut = plan.cuts[place]
    done = cut.mark in plan.done
    style: Style = "ware" if done else "tbc" if cut.tbc else _style(plan)
    x, y, length, high = box
    yield Box(x, y, length, high, style, piece=cut.mark)
    words = f"{cut.mark}  {measure.show_length(cut.length.value)}"
    if cut.width is not None:
        words += f" × {measure.show_length(cut.width.value)}"
    if done:
        words += "  cut"
    turned = high > length
    shown = words if len(words) * letter < _INSIDE * max(length, high) else cut.mark
    yield Words(x + length / 2, y + high / 2, shown, SIZE, bold=True, turned=turned, piece=cut.mark)


def _slants(cut: Cut, place: Place) -> Iterator[Mark]:
    """Where a piece is sawn aslant once it is cut out, as it lies on its sheet; left open where that is under its words."""
    for ends in cut.slants:
        (x1, y1), (x2, y2) = ((place.length - up, along) if place.turned else (along, up) for along, up in ends)
        out = abs((x1 + x2) / 2 - place.length / 2) / place.length + abs((y1 + y2) / 2 - place.width / 2) / place.width
        for start, end in ((0.0, 0.4), (0.6, 1.0)) if out < _UNDER else ((0.0, 1.0),):
            at = [(place.x + x1 + (x2 - x1) * share, place.y + y1 + (y2 - y1) * share) for share in (start, end)]
            yield Line(*at[0], *at[1], "ink", piece=cut.mark)


_UNDER: Final = 0.2
"""How near to the middle of its piece a line is under the words, as a share of its sides."""


def _holes(cut: Cut, place: Place) -> Iterator[Mark]:
    """The holes through a piece, as it lies on its sheet."""
    for hole in cut.holes:
        x, y = (place.length - hole.z, hole.x) if place.turned else (hole.x, hole.z)
        yield Ellipse(place.x + x, place.y + y, hole.across / 2, hole.across / 2, "ink", piece=cut.mark, filled=False)


def _rest(rest: Rect, letter: float) -> Iterator[Mark]:
    """What is left of a sheet in one piece; its size where it is kept and there is room."""
    kept = min(rest.length, rest.width) >= KEPT_SIDE
    yield Box(rest.x, rest.y, rest.length, rest.width, "keep" if kept else "hatch")
    words = f"keep {measure.show_length(rest.length)} × {measure.show_length(rest.width)}"
    turned, room = rest.width > rest.length, _INSIDE * max(rest.length, rest.width)
    if kept and len(words) * letter < room:
        yield Words(rest.x + rest.length / 2, rest.y + rest.width / 2, words, SIZE, turned=turned, most=room)


def _numbered(stroke: Stroke, number: int, letter: float) -> Iterator[Mark]:
    """The number of a cut in a ring on its line, near where it begins."""
    part, ring = stroke.part, RING * letter
    along = min(2 * ring, (part.width if stroke.axis == 0 else part.length) / 2)
    x, y = (stroke.at, along) if stroke.axis == 0 else (along, stroke.at)
    yield Ellipse(part.x + x, part.y + y, ring, ring, "ink")
    yield Words(part.x + x, part.y + y, str(number), SIZE, bold=True)


def _taller(mark: Mark, times: float) -> Mark:
    match mark:
        case Box():
            return replace(mark, y=mark.y * times, height=mark.height * times)
        case Words():
            return replace(mark, y=mark.y * times)
        case _:
            return mark


def _one_by_one(run: Sequence[Words]) -> bool:
    """Whether the numbers of the pieces follow one another, so that the first and the last of them say them all."""
    numbers = [int(mark.piece[len(mark.piece.rstrip(digits)) :] or 0) for mark in run]
    return numbers == list(range(numbers[0], numbers[0] + len(numbers)))


def _style(plan: CutPlan) -> Style:
    kind = plan.item.kind
    if "timber" in kind or "noggin" in kind:
        return "timber"
    if "soil" in kind or "waste" in kind:
        return "soil"
    return "steel"
