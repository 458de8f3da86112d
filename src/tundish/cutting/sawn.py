"""Pieces that are cut already: what the job remembers of them, and plans that leave them as they are and plan the rest round them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from tundish.catalogue.item import Offer, RackPiece
from tundish.cutting.plan import Bar, BarCut, BarPlan, Piece, slant
from tundish.field import Entry, flag, length, records, text
from tundish.rules.rule import Cut


@dataclass(frozen=True, slots=True, kw_only=True)
class Rest:
    """A part of a sheet that is still whole: its corner from the sheet's own corner, and its size."""

    x: Entry | None = length("From the left")
    y: Entry | None = length("From below")
    long: Entry | None = length("Length")
    wide: Entry | None = length("Width")


@dataclass(frozen=True, slots=True, kw_only=True)
class Sawn:
    """One piece that was cut: from which bar or sheet (a rack key, or "N1" for the first new one), sizes of both, and the offer's code.

    A piece of a sheet has its place (`x`, `y`, its size as it lay) and what was whole of the sheet after it (`rests`). `rest_gone`:
    what was left is on the rack, or thrown away, and is not planned with any more.
    """

    item: str = text("Item")
    mark: str = text("Piece")
    long: Entry | None = length("Length")
    bar: str = text("Bar")
    bar_long: Entry | None = length("Length of the bar")
    code: str = text("Supplier's code", "Empty for a bar from the rack.")
    rest_gone: bool = flag("Rest is gone", default=False)
    wide: Entry | None = length("Width")
    bar_wide: Entry | None = length("Width of the sheet")
    x: Entry | None = length("From the left")
    y: Entry | None = length("From below")
    rests: tuple[Rest, ...] = records("Still whole", Rest)

    @property
    def whole(self) -> bool:
        """Whether it says all that a plan needs."""
        placed = self.bar_wide is None or bool(self.wide and self.wide.value > 0 and self.x and self.y and self.bar_wide.value > 0)
        sized = bool(self.long and self.long.value > 0 and self.bar_long and self.bar_long.value > 0)
        return bool(self.item and self.mark and self.bar) and sized and placed


@dataclass(frozen=True, slots=True)
class Started:
    """A bar with pieces cut from it: what it was, the pieces by their place in the plan, and what is left of it, mm."""

    bar: str
    source: int
    pieces: tuple[int, ...]
    rest: float
    gone: bool


Source = Offer | RackPiece
PAID_FOR = "paid for"
"""Where a bar lies that was bought and begun, and is not on offer any more."""


def sources_with(done: Sequence[Sawn], sources: tuple[Source, ...], offers: Sequence[Offer] = ()) -> tuple[Source, ...]:
    """The sources with those that what is cut already came from, though they are off the rack, or dearer now than another's.

    Of `offers` a source that was bought keeps its price; where it is not on offer any more, it is taken to be paid for.
    """
    made = list(sources)
    for one in done:
        if source_of(one, made) is None and one.bar_long is not None:
            bought = next((offer for offer in offers if one.code and offer.code == one.code), None)
            wide = one.bar_wide.value if one.bar_wide else 0.0
            if bought is not None and bought.cut_to_length:
                bought = bought.cut_at(one.bar_long.value)
            made.insert(0, bought or RackPiece(one.bar, one.item, one.bar_long.value, wide, place=PAID_FOR if one.code else "rack"))
    return tuple(made)


def started(done: Sequence[Sawn], cuts: Sequence[Cut], sources: Sequence[Source], kerf: float) -> tuple[Started, ...]:
    """The bars that were begun, in the order they were begun; a piece that is not wanted any more only shortens its bar."""
    made = []
    marks = [cut.mark for cut in cuts]
    aslant = {cut.mark: cut.mitres * slant(kerf) for cut in cuts}
    for bar in dict.fromkeys(one.bar for one in done):
        mine = [one for one in done if one.bar == bar]
        whole = mine[0].bar_long.value if mine[0].bar_long else 0.0
        rest = whole - sum((one.long.value if one.long else 0.0) + kerf + aslant.get(one.mark, 0.0) for one in mine)
        source = source_of(mine[0], sources)
        pieces = tuple(marks.index(one.mark) for one in mine if one.mark in marks)
        made.append(Started(bar, source or 0, pieces, max(rest, 0.0), any(one.rest_gone for one in mine)))
    return tuple(made)


def plan_round(
    pieces: tuple[Piece, ...],
    stock: tuple[Bar, ...],
    begun: tuple[Started, ...],
    plan: Callable[[tuple[Piece, ...], tuple[Bar, ...]], BarPlan],
) -> BarPlan:
    """A plan of all pieces over the whole stock, in which what was cut stays where it is; bars begun come first."""
    fixed = {place for one in begun for place in one.pieces}
    free = [place for place in range(len(pieces)) if place not in fixed]
    rests = [one for one in begun if one.rest >= 1 and not one.gone]
    # A rack piece that was begun is no longer there whole.
    taken = {one.source for one in begun if stock[one.source].offcut}
    whole = [place for place in range(len(stock)) if place not in taken]
    offered = (*(Bar(one.rest, 0, 1, one.bar, offcut=True) for one in rests), *(stock[place] for place in whole))
    answer = plan(tuple(pieces[place] for place in free), offered)
    on_rest = {cut.bar: cut for cut in answer.cuts if cut.bar < len(rests)}
    cuts = []
    for one in begun:
        more = on_rest.get(rests.index(one)) if one in rests else None
        rest = 0.0 if one.gone else more.remainder if more else one.rest
        cuts.append(BarCut(one.source, (*one.pieces, *(free[place] for place in (more.pieces if more else ()))), rest))
    cuts += [
        BarCut(whole[cut.bar - len(rests)], tuple(free[place] for place in cut.pieces), cut.remainder)
        for cut in answer.cuts
        if cut.bar >= len(rests)
    ]
    spent = sum(stock[one.source].cost_pence for one in begun)
    return replace(
        answer,
        stock=stock,
        pieces=pieces,
        cuts=tuple(cuts),
        cost_pence=answer.cost_pence + spent,
        bound_pence=answer.bound_pence + spent,
        unplaced=tuple(free[place] for place in answer.unplaced),
    )


def carried_on(plan: BarPlan, begun: tuple[Started, ...]) -> BarPlan | None:
    """The same plan with the bars begun first, where all that was cut lies on its bars as planned; None where it does not."""
    left = list(plan.cuts)
    first = []
    for one in begun:
        wanted = set(one.pieces)
        fits = [cut for cut in left if cut.bar == one.source and wanted and wanted <= set(cut.pieces)]
        cut = next((each for each in fits if not one.gone or wanted == set(each.pieces)), None)
        if cut is None:
            return None
        left.remove(cut)
        rest = tuple(place for place in cut.pieces if place not in wanted)
        first.append(BarCut(cut.bar, (*one.pieces, *rest), 0.0 if one.gone else cut.remainder))
    return replace(plan, cuts=(*first, *left))


def source_of(one: Sawn, sources: Sequence[Source]) -> int | None:
    """Where the source of a bar stands: by its offer's code, or its key on the rack."""
    name = one.code or one.bar
    names = (source.key if isinstance(source, RackPiece) else source.code for source in sources)
    return next((place for place, each in enumerate(names) if each in {name, one.bar}), None)
