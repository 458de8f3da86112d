"""Sheets: which to take and how to cut them from edge to edge, for the least money, then the most useful remainders."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from itertools import takewhile
from typing import TYPE_CHECKING, Final

from tundish.cutting.amounts import attainable, step_of
from tundish.cutting.attempts import MANY, Plan, attempts, tidied, worth_of
from tundish.cutting.beside import look_beside, taken
from tundish.cutting.boards import Layout, Nesting, Spot, as_nesting
from tundish.cutting.fewer import with_fewer
from tundish.cutting.lots import at_once, sheets_in_lots
from tundish.cutting.lots import many as in_many
from tundish.cutting.plan import BadCutError, Effort, Piece, Place, Rect, Sheet, SheetCut, SheetPlan, check_saw
from tundish.cutting.rounding import rounded
from tundish.cutting.until import Share, Stop, Timed, never
from tundish.cutting.whole import TENTHS, Pattern, one_by_one, up

if TYPE_CHECKING:
    from tundish.cutting.optimiser import Choice

_FILLED: Final = 10_000
_FILLED_FIRST: Final = 4_000
_MOST: Final = 600
_LEAST: Final = 20
_AT_ONCE: Final = 500
_MOST_AT_ONCE: Final = 12
_TIDIED: Final = 6
_NEAR: Final = 300
_NEAR_EACH: Final = 5
_NODES: Final = 30
_FIRST: Final = 4
_RUNS: Final = 8
_RUNS_IN_TIME: Final = 400
_MOST_MORE: Final = 80
_MOVES: Final = 2_000
_MOVES_IN_TIME: Final = 1_000_000
_TIME_TO_EMPTY: Final = 0.6
_ROUNDS: Final = (10, 5, 5, 10, 20, 100)


def plan_sheets(
    pieces: Sequence[Piece],
    stock: Sequence[Sheet],
    kerf: float = 0.0,
    trim: float = 0.0,
    effort: Effort = Effort.BEST,
    stop: Stop = never,
) -> SheetPlan:
    """Cut the pieces from the sheets by cuts from edge to edge, mm; `trim` first comes off each edge.

    Sizes are taken to a tenth of a millimetre, pieces up and sheets down. The same question always has the same answer, and
    costs the same in whatever order pieces and stock are named; told to `stop`, it is the best plan
    so far. Raises BadCutError when a piece has no width, or kerf or trim is
    no length.
    """
    check_saw(kerf, trim)
    for piece in pieces:
        if not piece.width:
            raise BadCutError(f"piece {piece.mark}: a piece of sheet needs a width")
    if in_many(pieces):
        return _in_lots(pieces, stock, kerf, trim)
    nest, too_large = as_nesting(pieces, stock, kerf, trim)
    nest = replace(nest, stop=stop)
    plan, bound = _planned(nest, effort)
    ran_out = any(not nest.boards[layout.kind].sheets for layout in plan)
    plan = tuple(layout for layout in plan if nest.boards[layout.kind].sheets)
    cost = nest.cost(plan)
    if ran_out:
        bound = attainable(_placed(nest, plan).load(), 0, cost)
    bound = min(bound, cost)
    cuts, left_over = _cuts(nest, plan, pieces, trim)
    return SheetPlan(
        stock=tuple(stock),
        pieces=tuple(pieces),
        cuts=cuts,
        cost_pence=cost,
        bound_pence=bound,
        proven=bound >= cost and not ran_out,
        unplaced=tuple(sorted((*too_large, *left_over))),
        kerf=kerf,
        trim=trim,
    )


def _in_lots(pieces: Sequence[Piece], stock: Sequence[Sheet], kerf: float, trim: float) -> SheetPlan:
    """A plan by rule of thumb, lot by lot, with the bound of the whole."""
    made = list(sheets_in_lots(pieces, stock, lambda lot, left: plan_sheets(lot, left, kerf, trim, Effort.QUICK, at_once)))
    cost = sum(each.cost_pence for each in made)
    unplaced = tuple(sorted(one for each in made for one in each.unplaced))
    gone = Counter(unplaced)
    placed = [replace(piece, count=piece.count - gone[place]) for place, piece in enumerate(pieces)]
    bound = attainable(as_nesting(placed, stock, kerf, trim)[0].load(), 0, cost)
    cuts = sorted((cut for each in made for cut in each.cuts), key=lambda cut: (not stock[cut.sheet].offcut, cut.sheet))
    proven = bound >= cost and not any(each.unplaced and not each.proven for each in made)
    return SheetPlan(tuple(stock), tuple(pieces), tuple(cuts), cost, min(bound, cost), proven, unplaced, kerf, trim)


def _planned(nest: Nesting, effort: Effort) -> tuple[Plan, int]:
    """A plan, and the least that any could cost."""
    pieces = sum(nest.demand)
    if not pieces:
        return (), 0
    if effort is Effort.QUICK:
        times = max(1, min(_MOST_AT_ONCE, _AT_ONCE // pieces))
        best = min(attempts(nest, times), key=lambda plan: worth_of(nest, plan))
        return best, attainable(nest.load(), 0, nest.cost(best))
    looking = look_beside(nest) if effort is Effort.PROOF else None
    tried = []
    many = effort is Effort.PROOF and pieces > MANY
    for plan in attempts(nest, _times(nest, effort)):
        tried.append(plan)
        if nest.stop():
            break
    best = min(tried, key=lambda plan: worth_of(nest, plan))
    bound = attainable(nest.load(), 0, nest.cost(best))
    if effort is Effort.PROOF and not many:
        best = _fewer(nest, best, bound, 0)
    if bound < nest.cost(best) and not nest.stop() and not many:
        best = min(best, _chosen(nest, best, tried, bound), key=lambda plan: worth_of(nest, plan))
    if effort is Effort.PROOF and bound < nest.cost(best):
        best, bound = _proved(nest, best, tried)
    if bound < nest.cost(best) or (looking and looking.done()):
        other = taken(nest, looking)
        best = min((plan for plan in (best, other) if plan), key=lambda plan: worth_of(nest, plan))
    return (best if nest.stop() else tidied(nest, best, _TIDIED)), min(bound, nest.cost(best))


def _times(nest: Nesting, effort: Effort) -> int:
    """How many attempts come first."""
    pieces = sum(nest.demand)
    if effort is Effort.PROOF and pieces > MANY:
        return _FIRST
    filled = _FILLED_FIRST if effort is Effort.PROOF and _alike(nest) else _FILLED
    return max(_LEAST, min(_MOST, filled // pieces))


def _alike(nest: Nesting) -> bool:
    """Whether all sheets that cost money are of one size."""
    return sum(board.cost > 0 for board in nest.boards) == 1


def _proved(nest: Nesting, best: Plan, tried: Sequence[Plan]) -> tuple[Plan, int]:
    """A plan no dearer, from sheets that the prices of the pieces call for, and the least that they prove."""
    from tundish.cutting.bounding import searched

    bound, settled = 0, nest.cost(best)
    many = sum(nest.demand) > MANY
    rounds = _ROUNDS if many else (sum(_ROUNDS),)
    for place, found in enumerate(searched(nest, settled, [layout for plan in tried for layout in plan], rounds), 1):
        bound = max(bound, found.least)
        if bound >= nest.cost(best):
            break
        best = min(best, rounded(nest, found.taken), key=lambda plan: worth_of(nest, plan))
        if found.made and not nest.stop() and (not many or len(rounds) == place):
            best = min(best, _chosen(nest, best, [*tried, best, found.made], bound), key=lambda plan: worth_of(nest, plan))
    for run in range(1, (_RUNS_IN_TIME if isinstance(nest.stop, Timed) else _RUNS) + 1):
        if bound >= nest.cost(best) or nest.stop():
            break
        if many:
            best = min(best, rounded(nest, found.taken, run), key=lambda plan: worth_of(nest, plan))
            continue
        best = _fewer(nest, best, bound, run)
        more = list(takewhile(lambda _: not nest.stop(), attempts(nest, _MOST_MORE, run)))
        best = min([best, *more], key=lambda plan: worth_of(nest, plan))
        if bound < nest.cost(best) and more:
            best = min(best, _chosen(nest, best, [*more, best, found.made], bound), key=lambda plan: worth_of(nest, plan))
    return best, min(bound, nest.cost(best))


def _fewer(nest: Nesting, best: Plan, bound: int, run: int) -> Plan:
    """The plan with as many sheets fewer as can be found; where one size is bought and time is set, most of the time goes there first."""
    moves = _MOVES
    search = nest
    if isinstance(nest.stop, Timed) and _alike(nest):
        moves, search = _MOVES_IN_TIME, replace(nest, stop=Share(nest.stop, _TIME_TO_EMPTY))
    while bound < nest.cost(best) and not search.stop():
        fewer = with_fewer(search, best, moves, run)
        if nest.cost(fewer) == nest.cost(best):
            break
        best = fewer
    return best


def _chosen(nest: Nesting, best: Plan, tried: Sequence[Plan], bound: int) -> Plan:
    """The cheapest plan that can be made of all sheets that the attempts filled; `best` if none is cheaper."""
    from tundish.cutting.optimiser import Choice

    pool = list({(layout.kind, layout.counts): layout for plan in tried for layout in plan}.values())
    most = max(_NEAR, _NEAR_EACH * len(nest.sizes))
    losses = _choice(Choice(nest.demand, nest.boards), pool).prices().losses
    near = [pool[one] for one in sorted(range(len(pool)), key=losses.__getitem__)[:most]]
    step = step_of(nest.load().kinds)
    amounts, _ = _choice(Choice(nest.demand, nest.boards, nest.stop), near).whole(bound, nest.cost(best) - step, _NODES, between=True)
    chosen = [layout for layout, amount in zip(near, amounts, strict=True) for _ in range(amount)]
    return _trimmed(nest, chosen) if chosen else best


def _choice(choice: Choice, pool: Sequence[Layout]) -> Choice:
    for layout in pool:
        choice.add(Pattern(layout.kind, layout.counts))
    return choice


def _trimmed(nest: Nesting, plan: Sequence[Layout]) -> Plan:
    """The plan without the pieces that it cuts over what was asked: their places are left over."""
    left = list(nest.demand)
    exact = []
    for layout in plan:
        spots: list[Spot] = []
        rests = list(layout.rests)
        for spot in layout.spots:
            (spots if left[spot.size] else rests).append(spot)
            left[spot.size] -= left[spot.size] > 0
        counts = tuple(sum(spot.size == size for spot in spots) for size in range(len(left)))
        if spots:
            exact.append(Layout(layout.kind, counts, tuple(spots), tuple(rests), nest.gain(layout.kind, rests)))
    return tuple(exact)


def _placed(nest: Nesting, plan: Plan) -> Nesting:
    """The problem of the pieces that the plan places."""
    counts = [sum(layout.counts[place] for layout in plan) for place in range(len(nest.sizes))]
    sizes = tuple(replace(size, count=count) for size, count in zip(nest.sizes, counts, strict=True))
    return replace(nest, sizes=sizes)


def _cuts(nest: Nesting, plan: Plan, pieces: Sequence[Piece], trim: float) -> tuple[tuple[SheetCut, ...], tuple[int, ...]]:
    """The plan with each piece and sheet by its place, the rack first; and the pieces left over."""
    copies = [iter(size.copies) for size in nest.sizes]
    sheets = [one_by_one(board.sheets) for board in nest.boards]
    cuts = []
    for layout in sorted(plan, key=lambda one: (not nest.boards[one.kind].offcut, one.kind, one.counts)):
        places = tuple(_place(pieces, next(copies[spot.size]), spot, nest.kerf, trim) for spot in layout.spots)
        saw = nest.kerf
        rests = (
            Rect(spot.x / TENTHS + trim, spot.y / TENTHS + trim, (spot.length - saw) / TENTHS, (spot.width - saw) / TENTHS)
            for spot in sorted(layout.rests, key=lambda rest: (rest.x, rest.y))
        )
        cuts.append(SheetCut(next(sheets[layout.kind]), places, tuple(rests)))
    return tuple(cuts), tuple(piece for one in copies for piece in one)


def _place(pieces: Sequence[Piece], index: int, spot: Spot, saw: int, trim: float) -> Place:
    piece = pieces[index]
    turned = (up(piece.length) + saw, up(piece.width) + saw) != (spot.length, spot.width)
    length, width = (piece.width, piece.length) if turned else (piece.length, piece.width)
    return Place(index, spot.x / TENTHS + trim, spot.y / TENTHS + trim, length, width, turned)
