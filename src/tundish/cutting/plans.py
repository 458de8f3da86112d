"""The cut plans of a job: for every line that is cut from bars or sheets, what is cut from what."""

from __future__ import annotations

import math
from collections.abc import Callable, Hashable, Iterator, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import partial
from typing import Any, Final, NamedTuple, TypeVar

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item, Offer, RackPiece
from tundish.cutting.bars import plan_bars
from tundish.cutting.near import nearer
from tundish.cutting.plan import Bar, BarPlan, Effort, Piece, Sheet, SheetPlan
from tundish.cutting.sawn import PAID_FOR, Sawn, carried_on, plan_round, sources_with, started
from tundish.cutting.sawn_sheets import begun_sheets, carried_on_sheets, fixed_pieces, plan_sheets_round
from tundish.cutting.sheets import plan_sheets
from tundish.cutting.until import Stop, never
from tundish.figure import number
from tundish.rules.rule import Cut
from tundish.takeoff.line import Line


@dataclass(frozen=True, slots=True)
class CutPlan:
    """How one item is cut. `cuts` stands beside `plan.pieces` and `sources` beside `plan.stock`, place for place."""

    item: Item
    cuts: tuple[Cut, ...]
    sources: tuple[Offer | RackPiece, ...]
    plan: BarPlan | SheetPlan
    begun: tuple[str, ...] = ()
    """The bars already begun: the first of `plan.cuts`, name for name."""
    done: frozenset[str] = frozenset()
    """The marks of the pieces that are cut."""

    @property
    def too_long(self) -> tuple[Cut, ...]:
        """Pieces that no stock is large enough for, or that nobody offers stock for."""
        return tuple(self.cuts[place] for place in dict.fromkeys(self.plan.unplaced))

    @property
    def from_rack(self) -> tuple[RackPiece, ...]:
        """The pieces of the rack that it cuts from."""
        used = zip(self.sources, self.plan.used(), strict=True)
        return tuple(source for source, count in used if count and isinstance(source, RackPiece))


def plans(
    lines: tuple[Line, ...],
    book: Book,
    effort: Effort = Effort.QUICK,
    sawn: tuple[Sawn, ...] = (),
    stop: Stop = never,
    near: tuple[CutPlan, ...] = (),
) -> tuple[CutPlan, ...]:
    """One plan for every line with pieces to cut, in the order of the lines; pieces already `sawn` stay as they are.

    A piece whose length may still change is planned at its longest. Pieces without length are left out. Told
    to `stop`, every plan is the best found until then, and none of them is remembered. What was cut in plans `near` is cut so again
    where that costs less; in quick plans where it costs no more. Once anything is cut a quick plan stays as it was in plans `near`,
    though a better one was found: that is offered, and not taken with the next piece that is marked.
    """
    how = _How(effort, stop, begun=bool(sawn))
    shown = {each.item.code: each for each in near} if sawn and effort is Effort.QUICK else {}
    cut = [line for line in lines if any(need.cuts for need in line.needs)]
    made = tuple(_still(line, book, _of(line, sawn), shown) or _remembered(line, book, how, _of(line, sawn)) for line in cut)
    if sawn or not near:
        return made
    before = {each.item.code: each.plan for each in near}
    look = partial(_bars, kerf=book.figure("cutting.kerf").value, keep=book.figure("cutting.keep").value, how=_How(Effort.QUICK, stop))
    return tuple(_near(each, nearer(each.plan, before.get(each.item.code), look), effort) for each in made)


def _near(made: CutPlan, plan: BarPlan | SheetPlan, effort: Effort) -> CutPlan:
    return replace(made, plan=plan) if effort is Effort.QUICK or plan.cost_pence < made.plan.cost_pence else made


class _How(NamedTuple):
    """How hard to look, until when, and whether anything of the job is cut."""

    effort: Effort
    stop: Stop
    begun: bool = False

    def ways(self) -> tuple[Effort, ...]:
        """Whose answers serve, the best first.

        Before anything is cut only what was looked for just as hard, so that the same question has the same answer; then the best that
        was found for it, for bars are bought and marked by it.
        """
        return _as_good(self.effort) if self.begun else (self.effort,)


_PLANNED: Final[dict[tuple[str, bool, Effort], tuple[Line, Book, tuple[Sawn, ...], CutPlan]]] = {}
"""The last answer for each item, with the line it was made of: lines that did not change are the same objects."""


def _of(line: Line, sawn: tuple[Sawn, ...]) -> tuple[Sawn, ...]:
    return tuple(one for one in sawn if one.item == line.item.code and one.whole)


def _still(line: Line, book: Book, sawn: tuple[Sawn, ...], shown: Mapping[str, CutPlan]) -> CutPlan | None:
    """The plan that is shown, with what was cut of it since; none where it is for other pieces or stock, or less of it is cut now."""
    before = shown.get(line.item.code)
    done = frozenset(one.mark for one in sawn)
    if (
        before is None
        or not before.done <= done <= {cut.mark for cut in before.cuts}
        or _asked(line, book, sawn) != (before.cuts, before.sources)
    ):
        return None
    if done == before.done:
        return before
    plan = _carried_on(before, sawn)
    return None if plan is None else replace(before, plan=plan, begun=tuple(dict.fromkeys(one.bar for one in sawn)), done=done)


def _remembered(line: Line, book: Book, how: _How, sawn: tuple[Sawn, ...]) -> CutPlan:
    for way in how.ways():
        held = _PLANNED.get((line.item.code, line.own, way))
        if held is not None and held[0] is line and held[1] is book and held[2] == sawn:
            return held[3]
    made = _as_before(line, book, how, sawn) or _plan(line, book, how, sawn)
    if not how.stop():
        _PLANNED[line.item.code, line.own, how.effort] = (line, book, sawn, made)
    return made


def _as_good(effort: Effort) -> tuple[Effort, ...]:
    return tuple(way for way in reversed(Effort) if way >= effort)


def _as_before(line: Line, book: Book, how: _How, sawn: tuple[Sawn, ...]) -> CutPlan | None:
    """The plan that was in use, with more of it cut: nothing is moved under the saw while all is cut as planned."""
    for way in _as_good(how.effort):
        held = _PLANNED.get((line.item.code, line.own, way))
        if not sawn or held is None or held[0] is not line or held[1] is not book:
            continue
        before = held[3]
        if sources_with(sawn, before.sources) != before.sources or any(one.mark not in {cut.mark for cut in before.cuts} for one in sawn):
            continue
        plan = _carried_on(before, sawn)
        if plan is not None:
            names = tuple(dict.fromkeys(one.bar for one in sawn))
            return replace(before, plan=plan, begun=names, done=frozenset(one.mark for one in sawn))
    return None


def _carried_on(before: CutPlan, sawn: tuple[Sawn, ...]) -> BarPlan | SheetPlan | None:
    old = before.plan
    if isinstance(old, SheetPlan):
        return carried_on_sheets(old, begun_sheets(sawn, [cut.mark for cut in before.cuts], before.sources))
    return carried_on(old, started(sawn, before.cuts, before.sources, old.kerf))


def _plan(line: Line, book: Book, how: _How, sawn: tuple[Sawn, ...]) -> CutPlan:
    cuts, sources = _asked(line, book, sawn)
    pieces = tuple(_piece(cut) for cut in cuts)
    plan = (_round_sheets if _of_sheets(cuts) else _round_bars)(pieces, (cuts, sources, sawn, _worth(line.item, book)), book, how)
    return CutPlan(line.item, cuts, sources, plan, tuple(dict.fromkeys(one.bar for one in sawn)), frozenset(one.mark for one in sawn))


def _asked(line: Line, book: Book, sawn: tuple[Sawn, ...]) -> tuple[tuple[Cut, ...], tuple[Offer | RackPiece, ...]]:
    """What is to be cut, and what it can be cut from."""
    cuts = tuple(cut for cut in line.cuts if cut.length.high > 0 and (cut.width is None or cut.width.high > 0))
    sheets = _of_sheets(cuts)
    offers = book.offers.get(line.item.code, ())
    if not sheets:
        cuts += tuple(_loose(line, max((offer.length for offer in offers if offer.length), default=math.inf)))
    sources = _sources(line.item, book, () if sheets else tuple(_piece(cut) for cut in cuts))
    return cuts, sources_with(sawn, sources, offers)


def _of_sheets(cuts: tuple[Cut, ...]) -> bool:
    return any(cut.width is not None for cut in cuts)


_Given = tuple[tuple[Cut, ...], tuple[Offer | RackPiece, ...], tuple[Sawn, ...], Decimal]
"""What is cut, what from, what of it is cut already, and what a mm or square metre of the rack is worth, pounds."""


def _round_sheets(pieces: tuple[Piece, ...], given: _Given, book: Book, how: _How) -> SheetPlan:
    cuts, sources, sawn, worth = given
    stock = tuple(_sheet(source, worth) for source in sources)
    marks = [cut.mark for cut in cuts]
    look = partial(_sheets, kerf=book.figure("cutting.sheet_kerf").value, how=how)
    return plan_sheets_round(fixed_pieces(pieces, marks, sawn), stock, begun_sheets(sawn, marks, sources), look)


def _round_bars(pieces: tuple[Piece, ...], given: _Given, book: Book, how: _How) -> BarPlan:
    cuts, sources, sawn, worth = given
    kerf, keep = book.figure("cutting.kerf").value, book.figure("cutting.keep").value
    begun = started(sawn, cuts, sources, kerf)
    look = partial(_bars, kerf=kerf, keep=keep, how=how)
    return plan_round(_fixed(pieces, cuts, sawn), tuple(_bar(source, worth) for source in sources), begun, look)


def _loose(line: Line, longest: float) -> Iterator[Cut]:
    """What is asked for by length and not cut to size: as whole bars and what is then missing, L1, L2…, so that it is bought as well."""
    count = 0
    for need in line.needs:
        left = need.amount.high if not need.cuts and need.amount.unit == "mm" else 0.0
        while left > 0:
            count += 1
            length = min(left, longest)
            left -= length
            whole = need.amount if need.amount.high <= longest else number(length, "mm", need.why)
            yield Cut(f"L{count}", whole, need.why, need.place)


def _fixed(pieces: tuple[Piece, ...], cuts: tuple[Cut, ...], sawn: tuple[Sawn, ...]) -> tuple[Piece, ...]:
    """The pieces, those that are cut at the length they were cut to."""
    long = {one.mark: one.long.value for one in sawn if one.long is not None}
    return tuple(
        replace(piece, length=long[cut.mark]) if long.get(cut.mark, 0) > 0 else piece for piece, cut in zip(pieces, cuts, strict=True)
    )


def _bars(pieces: tuple[Piece, ...], stock: tuple[Bar, ...], kerf: float, keep: float, how: _How) -> BarPlan:
    return _known((pieces, stock, kerf, keep), how, lambda: plan_bars(pieces, stock, kerf, keep, how.effort, how.stop))


def _sheets(pieces: tuple[Piece, ...], stock: tuple[Sheet, ...], kerf: float, how: _How) -> SheetPlan:
    return _known((pieces, stock, kerf), how, lambda: plan_sheets(pieces, stock, kerf, 0.0, how.effort, how.stop))


_MOST_KNOWN: Final = 512
_KNOWN: Final[dict[Hashable, Any]] = {}
_Plan = TypeVar("_Plan", BarPlan, SheetPlan)


def _known(question: Hashable, how: _How, answer: Callable[[], _Plan]) -> _Plan:
    """The answer to a question asked before, or a new one, which is remembered unless it was broken off."""
    for way in how.ways():
        known: _Plan | None = _KNOWN.get((question, way))
        if known is not None:
            return known
    found = answer()
    while len(_KNOWN) >= _MOST_KNOWN:
        _KNOWN.pop(next(iter(_KNOWN)), None)
    if not how.stop():
        _KNOWN[question, how.effort] = found
    return found


def _sources(item: Item, book: Book, bars: tuple[Piece, ...]) -> tuple[Offer | RackPiece, ...]:
    """The rack first, then the cheapest offer of each size; for bars also of each length that a supplier may cut them to.

    Nobody orders tenths of a millimetre, so what is cut to length is of whole ones.
    """
    rack = [piece for piece in book.rack if piece.item == item.code and bool(piece.width) != bool(bars)]
    lengths = {float(math.ceil(piece.length)) for piece in bars}
    cheapest: dict[tuple[float, float], Offer] = {}
    # Where nothing may be bought, the plan still says how it would be cut; nothing is then bought for it.
    offers = book.on_offer(item.code) or book.offers.get(item.code, ())
    for offer in (one for each in offers for one in _sizes(each, lengths)):
        size = (offer.length, offer.width)
        if offer.length and bool(offer.width) != bool(bars) and (size not in cheapest or offer.price < cheapest[size].price):
            cheapest[size] = offer
    return (*rack, *(cheapest[size] for size in sorted(cheapest)))


def _sizes(offer: Offer, lengths: set[float]) -> Iterator[Offer]:
    if offer.cut_to_length:
        yield from (offer.cut_at(length) for length in sorted(lengths) if length <= offer.length)
    else:
        yield offer


def _piece(cut: Cut) -> Piece:
    # Marks and places stay in `cuts`: equal pieces then make equal questions, and a plan already found is found again.
    width = 0.0 if cut.width is None else cut.width.high
    return Piece("", cut.length.high, width=width, turn=cut.turn, tbc=not cut.length.settled, mitres=cut.mitres)


def _worth(item: Item, book: Book) -> Decimal:
    """What a mm of bar, or a square metre of sheet, from the rack costs a job: a share of the least that new costs, pounds."""
    share = Decimal(str(book.figure("cutting.rack_worth").value)) / 100
    new = (offer.price / Decimal(str(offer.holds)) for offer in book.offers.get(item.code, ()) if offer.length) if share else ()
    return share * min(new, default=Decimal(0))


def _bar(source: Offer | RackPiece, worth: Decimal) -> Bar:
    if isinstance(source, RackPiece):
        return Bar(source.length, _pence(source, worth * Decimal(str(source.length))), 1, source.key, offcut=True)
    return Bar(source.length, int(source.price * 100), None, source.code)


def _sheet(source: Offer | RackPiece, worth: Decimal) -> Sheet:
    if isinstance(source, RackPiece):
        pence = _pence(source, worth * Decimal(str(source.length * source.width / 1e6)))
        return Sheet(source.length, source.width, pence, 1, source.key, offcut=True)
    return Sheet(source.length, source.width, int(source.price * 100), None, source.code)


def _pence(source: RackPiece, worth: Decimal) -> int:
    return 0 if source.place == PAID_FOR else round(worth * 100)
