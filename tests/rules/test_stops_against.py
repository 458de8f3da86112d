"""What a lower run takes where it stops against a pre-wall across its corner, and what that one no longer takes."""

from __future__ import annotations

import math

import pytest

from tests.rules.test_joined import CORNER, asked_of, pair
from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.beside_tiles import trim_for
from tundish.rules.prewall.capping import capping
from tundish.rules.prewall.moved import moved
from tundish.rules.tiling.sealant import sealant
from tundish.rules.tiling.trim import trim

SQRT, FACE = math.sqrt(2), math.tan(math.radians(22.5))


def stopped(**changes: object) -> tuple[Room, Room, Book]:
    """The plain room's run along wall A, 225 deep and 1,200 high, that stops against a front of 1,400; 24 of finish, 2,400 of wall."""
    return pair(**{"design__further": [{**CORNER, "top": 1400}], **changes})


def test_the_join_has_one_bead_and_the_higher_front_one_above_it() -> None:
    """The run: along the floor 2,400 - 675 - 24 x 0.41421 = 1,715.06; up both ends; its shelf's back is 249 shorter, its end 249 aslant.

    The corner: 1,272.79 + 48 along the floor less 352.14 behind the run; up wall D, above the run 200; its shelf's back along both walls.
    """
    run, corner, book = stopped()
    ml = book.figure("tiling.sealant_ml_m").value
    (one,), (other,) = (asked_of(sealant, room, book, "sealant") for room in (run, corner))
    assert one.amount.value / ml == pytest.approx((1715.06 + 2 * 1200 + 1715.06 - 249 + 249 + 249 * SQRT) / 1000, abs=1e-4)
    assert other.amount.value / ml == pytest.approx((1272.79 + 48 - 352.14 + 1400 + 200 + 2 * 933.94) / 1000, abs=1e-4)


def test_the_trim_of_the_shelf_goes_to_the_face_of_the_higher_front() -> None:
    run, _, book = stopped()
    (need,) = asked_of(trim, run, book, trim_for(run, book).code)
    (cut,) = need.cuts
    assert cut.length.value == pytest.approx(2400 - 675 - 24 * FACE)
    assert cut.where == "front edge of the shelf, left end cut to 45°"


def test_a_capping_says_which_end_is_cut() -> None:
    run, _, book = stopped(design__prewall__shelf=False)
    (need,) = asked_of(capping, run, book, run.prewall.capping)
    first, *_ = need.cuts
    assert first.where == "top of the pre-wall; left end cut 45° to wall A (2)"
    assert sum(cut.length.value for cut in need.cuts) == pytest.approx(2400 - 675 - 24 * FACE + 15)
    ends = 2400 - 675 - 24 * FACE + 15
    (bead,) = asked_of(sealant, run, book, "sealant")
    along = 1715.06 + 2 * 1180 + 4 * ends + 264 + 264 * SQRT
    assert bead.amount.value / book.figure("tiling.sealant_ml_m").value == pytest.approx(along / 1000, abs=2e-3)


def test_that_it_starts_where_it_stops_against_the_other_is_no_surprise() -> None:
    run, _, book = stopped(design__prewall__from_left=0)
    assert not list(moved.says(run, book))
