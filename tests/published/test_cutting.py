"""Published optima of two-dimensional cutting: the most that one sheet is worth, every cut from edge to edge, pieces repeated at will.

Beasley's sets of 1985 (gcut) and Christofides and Whitlock's of 1977 (cgcut), as given in public collections of instances.
"""

from __future__ import annotations

import pytest

from tundish.cutting.boards import as_nesting
from tundish.cutting.lattice import Lattice
from tundish.cutting.plan import Piece, Sheet

GCUT1 = ((167, 184), (114, 118), (167, 152), (83, 140), (70, 86), (143, 166), (120, 160), (66, 148), (87, 141), (69, 165))
CGCUT1 = ((8, 4, 66), (3, 7, 35), (8, 2, 24), (3, 4, 17), (3, 3, 11), (3, 2, 8), (2, 1, 2))
CASES = (
    pytest.param((250, 250), tuple((long, wide, long * wide) for long, wide in GCUT1), False, 56_460, id="gcut1"),
    pytest.param((250, 250), tuple((long, wide, long * wide) for long, wide in GCUT1), True, 58_136, id="gcut1, turned at will"),
    pytest.param((15, 10), CGCUT1, False, 249, id="cgcut1"),
)


@pytest.mark.parametrize(("sheet", "pieces", "turn", "most"), CASES)
def test_one_sheet_is_worth_what_is_published(
    sheet: tuple[int, int], pieces: tuple[tuple[int, int, int], ...], turn: bool, most: int
) -> None:
    cut = [Piece(str(place), long, width=wide, turn=turn) for place, (long, wide, _) in enumerate(pieces)]
    nest, too_large = as_nesting(cut, [Sheet(*sheet, 1)], 0.0, 0.0)
    assert too_large == ()
    prices = [float(pieces[size.copies[0]][2]) for size in nest.sizes]
    lattice = Lattice(nest)
    values = lattice.values(prices)
    (kind,) = [place for place, board in enumerate(nest.boards) if board.sheets]
    assert lattice.worths(values)[kind] == pytest.approx(most)
    layout = lattice.layout(values, prices, kind)
    assert sum(prices[spot.size] for spot in layout.spots) == pytest.approx(most), "and it can be sawn so"
