"""Pieces that are cut from sheets: they stay where they lie, and the rest is planned into what is still whole of their sheets."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Final

from tundish.cutting.plan import Piece, Place, Rect, Sheet, SheetCut, SheetPlan
from tundish.cutting.sawn import Rest, Sawn, Source, source_of
from tundish.field import Entry

_NEAR: Final = 0.2
"""How far two places may be apart, mm, and still be the same: sizes are planned to a tenth."""


@dataclass(frozen=True, slots=True)
class Begun:
    """A sheet with pieces cut from it: what it was, where they lay (by their places in the plan), and what is still whole."""

    sheet: str
    source: int
    places: tuple[Place, ...]
    rests: tuple[Rect, ...]
    gone: bool


def begun_sheets(done: Sequence[Sawn], marks: Sequence[str], sources: Sequence[Source]) -> tuple[Begun, ...]:
    """The sheets that were begun, in the order they were begun; a piece that is not wanted any more only takes its room."""
    made = []
    for name in dict.fromkeys(one.bar for one in done):
        mine = [one for one in done if one.bar == name]
        places = tuple(_place(one, marks.index(one.mark)) for one in mine if one.mark in marks)
        gone = any(one.rest_gone for one in mine)
        made.append(Begun(name, source_of(mine[0], sources) or 0, places, () if gone else rests_of(mine[-1]), gone))
    return tuple(made)


def rests_of(one: Sawn) -> tuple[Rect, ...]:
    """What was still whole of a sheet after a piece was cut."""
    sized = ((rest.x, rest.y, rest.long, rest.wide) for rest in one.rests)
    return tuple(Rect(x.value, y.value, long.value, wide.value) for x, y, long, wide in sized if x and y and long and wide)


def as_rests(parts: Iterable[Rect]) -> tuple[Rest, ...]:
    """Parts of a sheet as a job keeps them."""
    return tuple(Rest(x=Entry(one.x), y=Entry(one.y), long=Entry(one.length), wide=Entry(one.width)) for one in parts)


def fixed_pieces(pieces: tuple[Piece, ...], marks: Sequence[str], done: Sequence[Sawn]) -> tuple[Piece, ...]:
    """The pieces, those that are cut at the size they were cut to."""
    cut = {one.mark: _place(one, 0) for one in done}
    return tuple(
        replace(piece, length=cut[mark].length, width=cut[mark].width) if mark in cut else piece
        for piece, mark in zip(pieces, marks, strict=True)
    )


def plan_sheets_round(
    pieces: tuple[Piece, ...],
    stock: tuple[Sheet, ...],
    begun: tuple[Begun, ...],
    plan: Callable[[tuple[Piece, ...], tuple[Sheet, ...]], SheetPlan],
) -> SheetPlan:
    """A plan of all pieces over the whole stock, in which what was cut stays where it is; sheets begun come first."""
    fixed = {place.piece for one in begun for place in one.places}
    free = [place for place in range(len(pieces)) if place not in fixed]
    rests = [(row, rest) for row, one in enumerate(begun) for rest in one.rests if min(rest.length, rest.width) >= 1]
    taken = {one.source for one in begun if stock[one.source].offcut}
    whole = [place for place in range(len(stock)) if place not in taken]
    offered = (
        *(Sheet(rest.length, rest.width, 0, 1, begun[row].sheet, offcut=True) for row, rest in rests),
        *(stock[place] for place in whole),
    )
    answer = plan(tuple(pieces[place] for place in free), offered)
    on_rest = {cut.sheet: cut for cut in answer.cuts if cut.sheet < len(rests)}
    cuts = [SheetCut(one.source, one.places, ()) for one in begun]
    for place, (row, rest) in enumerate(rests):
        more = _moved(on_rest[place], rest, free) if place in on_rest else SheetCut(0, (), (rest,))
        there = cuts[row]
        cuts[row] = replace(there, places=(*there.places, *more.places), remainders=(*there.remainders, *more.remainders))
    cuts += [
        replace(_moved(cut, Rect(0, 0, 0, 0), free), sheet=whole[cut.sheet - len(rests)]) for cut in answer.cuts if cut.sheet >= len(rests)
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


def carried_on_sheets(plan: SheetPlan, begun: tuple[Begun, ...]) -> SheetPlan | None:
    """The same plan with the sheets begun first, where all that was cut lay as planned; None where it did not."""
    left = list(plan.cuts)
    first = []
    for one in begun:
        fits = (cut for cut in left if cut.sheet == one.source and one.places and all(_lies(place, cut) for place in one.places))
        cut = next((each for each in fits if not one.gone or len(each.places) == len(one.places)), None)
        if cut is None:
            return None
        left.remove(cut)
        first.append(replace(cut, remainders=()) if one.gone else cut)
    return replace(plan, cuts=(*first, *left))


def _lies(place: Place, cut: SheetCut) -> bool:
    return any(
        one.piece == place.piece
        and max(abs(one.x - place.x), abs(one.y - place.y), abs(one.length - place.length), abs(one.width - place.width)) <= _NEAR
        for one in cut.places
    )


def _moved(cut: SheetCut, rest: Rect, free: Sequence[int]) -> SheetCut:
    """A sheet cut as it lies within a larger one, its pieces by their places among all."""
    places = tuple(replace(one, piece=free[one.piece], x=one.x + rest.x, y=one.y + rest.y) for one in cut.places)
    return SheetCut(cut.sheet, places, tuple(replace(one, x=one.x + rest.x, y=one.y + rest.y) for one in cut.remainders))


def _place(one: Sawn, piece: int) -> Place:
    x, y, long, wide = (entry.value if entry else 0.0 for entry in (one.x, one.y, one.long, one.wide))
    return Place(piece, x, y, long, wide, turned=False)
