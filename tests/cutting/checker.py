"""An independent check of cut plans: from the plan alone, sharing nothing with how it was made."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from tundish.cutting.plan import BarPlan, Piece, Place, Rect, SheetCut, SheetPlan

NEAR = 1e-5


class Box(NamedTuple):
    left: float
    bottom: float
    right: float
    top: float


def faults_of_bars(plan: BarPlan) -> list[str]:
    found = list(_pieces(plan.pieces, (piece for cut in plan.cuts for piece in cut.pieces), plan.unplaced))
    found += _stock([bar.count for bar in plan.stock], [cut.bar for cut in plan.cuts])
    for place, cut in enumerate(plan.cuts):
        lengths = [plan.pieces[piece].length for piece in cut.pieces]
        used = sum(lengths) + plan.kerf * (len(lengths) - 1)
        length = plan.stock[cut.bar].length
        if not lengths:
            found.append(f"bar {place} is taken and not cut")
        if used > length + NEAR:
            found.append(f"bar {place} is overfull: {used} of {length}")
        if not math.isclose(cut.remainder, max(0.0, length - used - plan.kerf), abs_tol=NEAR):
            found.append(f"bar {place} leaves {length - used - plan.kerf}, not {cut.remainder}")
        if any(after > before + 0.1 for before, after in pairwise(lengths)):
            found.append(f"bar {place} is not cut longest first")
    cost = sum(plan.stock[cut.bar].cost_pence for cut in plan.cuts)
    return found + _money(cost, plan)


def faults_of_sheets(plan: SheetPlan) -> list[str]:
    found = list(_pieces(plan.pieces, (place.piece for cut in plan.cuts for place in cut.places), plan.unplaced))
    found += _stock([sheet.count for sheet in plan.stock], [cut.sheet for cut in plan.cuts])
    for number, cut in enumerate(plan.cuts):
        found += [f"sheet {number}: {fault}" for fault in _sheet(plan, cut)]
    cost = sum(plan.stock[cut.sheet].cost_pence for cut in plan.cuts)
    return found + _money(cost, plan)


def _pieces(pieces: Sequence[Piece], cut: Iterable[int], unplaced: Iterable[int]) -> Iterator[str]:
    asked = Counter({index: piece.count for index, piece in enumerate(pieces)})
    planned = Counter(cut) + Counter(unplaced)
    if +asked != planned:
        yield f"pieces asked {dict(asked)}, planned {dict(planned)}"


def _stock(counts: Sequence[int | None], taken: Sequence[int]) -> Iterator[str]:
    for kind, many in Counter(taken).items():
        most = counts[kind]
        if most is not None and many > most:
            yield f"stock {kind} is taken {many} times, there are {most}"


def _money(cost: int, plan: BarPlan | SheetPlan) -> list[str]:
    found = []
    if cost != plan.cost_pence:
        found.append(f"costs {cost}, not {plan.cost_pence}")
    if plan.bound_pence > cost:
        found.append(f"costs {cost}, which is under the bound {plan.bound_pence}")
    if plan.proven and plan.bound_pence != cost:
        found.append(f"proven at {cost}, bound {plan.bound_pence}")
    return found


def _sheet(plan: SheetPlan, cut: SheetCut) -> Iterator[str]:
    sheet = plan.stock[cut.sheet]
    inside = Box(plan.trim, plan.trim, sheet.length - plan.trim, sheet.width - plan.trim)
    if not cut.places:
        yield "taken and not cut"
    for place in cut.places:
        piece = plan.pieces[place.piece]
        size = (piece.width, piece.length) if place.turned else (piece.length, piece.width)
        if (place.length, place.width) != size:
            yield f"piece {place.piece} is {size}, lies as {place.length} x {place.width}"
        if place.turned and not piece.turn:
            yield f"piece {place.piece} may not be turned"
    parts: list[Place | Rect] = [*cut.places, *cut.remainders]
    boxes = [Box(part.x, part.y, part.x + part.length, part.y + part.width) for part in parts]
    for box in boxes:
        over = max(inside.left - box.left, inside.bottom - box.bottom, box.right - inside.right, box.top - inside.top)
        if over > NEAR:
            yield f"{box} is outside {inside}"
        if box.right - box.left <= 0 or box.top - box.bottom <= 0:
            yield f"{box} is nothing"
    if not _sawn(boxes, plan.kerf):
        yield "no cuts from edge to edge part the pieces"
    area = sum(part.length * part.width for part in parts)
    whole = (inside.right - inside.left) * (inside.top - inside.bottom)
    if plan.kerf == 0 and not math.isclose(area, whole, rel_tol=1e-6):
        yield f"pieces and remainders are {area} of {whole}"


def _sawn(boxes: Sequence[Box], kerf: float) -> bool:
    """Whether cuts from edge to edge, each a kerf wide, part all boxes; any such cut will do for a start."""
    if len(boxes) <= 1:
        return True
    for axis in (0, 1):
        groups = _parted(sorted(boxes, key=lambda box: box[axis]), axis, kerf)
        if len(groups) > 1:
            return all(_sawn(group, kerf) for group in groups)
    return False


def _parted(boxes: Sequence[Box], axis: int, kerf: float) -> list[list[Box]]:
    groups: list[list[Box]] = []
    end = -math.inf
    for box in boxes:
        if box[axis] >= end + kerf - NEAR:
            groups.append([])
        groups[-1].append(box)
        end = max(end, box[axis + 2])
    return groups
