"""What a run along a wall and the pre-wall across its corner take where they are joined: each thing once."""

from __future__ import annotations

import math
from collections.abc import Iterable

import pytest

from tests.published.asking import room_of
from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.layout.work_out import work_out_all
from tundish.rules.beside_tiles import trim_for
from tundish.rules.boards.joint_tape import joint_tape
from tundish.rules.boards.tanking import tanking
from tundish.rules.faces import boarded_area, front_of
from tundish.rules.fixings.wall_strut import wall_strut_fixings
from tundish.rules.loads.wall_pull import wall_pull
from tundish.rules.prewall.capping import capping
from tundish.rules.prewall.joins import joins
from tundish.rules.prewall.moved import moved
from tundish.rules.prewall.nuts import nuts
from tundish.rules.pulls import held_by, pull_on
from tundish.rules.rule import Asked, Finding, Need, Rule
from tundish.rules.tiling.sealant import sealant
from tundish.rules.tiling.trim import trim

CORNER = {"wall": "A", "stands": "across its left-hand corner", "setback": 900, "top": 1200}
MITRE = math.tan(math.radians(22.5))
"""What a millimetre of depth takes off at the mitre of a square corner."""


def pair(**changes: object) -> tuple[Room, Room, Book]:
    """The plain room's run along wall A, empty, 225 deep and 1,200 high, joined at 675 to one across its left-hand corner."""
    asked = {"design.appliances": [], "design.further": [CORNER], **{name.replace("__", "."): value for name, value in changes.items()}}
    room, book = room_of(asked)
    run, corner = work_out_all(room.plan, book)
    return run, corner, book


def asked_of(rule: Rule, room: Room, book: Book, role: str) -> list[Need]:
    said: Iterable[object] = rule.says(Asked(room, ()) if rule.reads != "room" else room, book)
    return [each for each in said if isinstance(each, Need) and role in {each.role, each.item}]


def test_one_bead_stands_in_the_join_and_none_at_the_mitre_of_the_shelf() -> None:
    """Millilitres a metre are as the rule has them; here by the metre.

    The run: 1,715.06 along the floor, 1,200 up the join and up the far wall, 1,725 + 93.20 along the back of its shelf, 249 at its end.
    The corner: 968.65 along the floor, 1,200 up wall D, along both walls 2 x 933.94 less 249 x (1 + 0.41421).
    """
    run, corner, book = pair()
    ml = book.figure("tiling.sealant_ml_m").value
    (one,), (other,) = (asked_of(sealant, room, book, "sealant") for room in (run, corner))
    assert one.amount.value / ml == pytest.approx((1715.06 + 1200 * 2 + 1725 + 93.20 + 249) / 1000, abs=1e-4)
    assert other.amount.value / ml == pytest.approx((968.65 + 1200 + 2 * 933.94 - 249 * (1 + MITRE)) / 1000, abs=1e-4)


def test_the_trim_goes_on_round_the_join() -> None:
    """24 of finish and a trim so thick: at its face it is 24 x 0.41421 shorter than the frame front, at its back the trim's own more."""
    run, corner, book = pair()
    item = trim_for(run, book)
    thick = item.size("thickness").value
    for room, front in ((run, 1725.0), (corner, 954.59)):
        (need,) = asked_of(trim, room, book, item.code)
        (edge,) = need.cuts
        assert edge.length.value == pytest.approx(front - (24 - thick) * MITRE, abs=0.01)
        assert edge.where.endswith("end cut to 22.5°")


def test_tape_covers_the_join_once() -> None:
    """Up the join as high as the boards, along the mitre of the shelf 225 x 1.08239, and along both front edges."""
    run, corner, book = pair()
    one, other = (sum(each.amount.value for each in asked_of(joint_tape, room, book, "joint tape")) for room in (run, corner))
    high = front_of(run).height.value
    assert one + other == pytest.approx(1725 + 954.59 + high + 225 * 1.08239 + _joints(run) + _joints(corner), abs=0.1)
    bare_run, bare_corner, _ = pair(design__prewall__from_left=1000)
    both = [sum(each.amount.value for each in asked_of(tanking, room, book, "tanking tape")) for room in (run, corner)]
    apart = [sum(each.amount.value for each in asked_of(tanking, room, book, "tanking tape")) for room in (bare_run, bare_corner)]
    assert both[0] == pytest.approx(1725 * 2 + 2 * high + 225 * 1.08239, abs=0.1)
    assert both[1] == pytest.approx(954.59 * 2 + high, abs=0.1)
    assert apart[1] == pytest.approx(1272.79 * 2 + 2 * high, abs=0.1)


def _joints(room: Room) -> float:
    front = front_of(room)
    return front.height.value * (len({each.x for each in front.boards}) - 1) + front.width.value * (
        len({each.z for each in front.boards}) - 1
    )


def test_boards_cover_both_fronts_and_one_shelf() -> None:
    run, corner, _ = pair()
    high = front_of(run).height.value
    shelf = 900**2 / 2 + 225 * (1500 + 225 / 2)
    assert boarded_area(run).value + boarded_area(corner).value == pytest.approx(((1725 + 954.59) * high + shelf) / 1e6, abs=1e-4)


def test_a_capping_is_mitred_and_measured_along_its_back() -> None:
    """As tiled 1,715.06; at the wall, 249 behind the face, 103.14 longer."""
    run, corner, book = pair(design__prewall__shelf=False, design__further=[CORNER | {"shelf": False}])
    assert run.capping is not None
    assert run.capping.length.value == pytest.approx(1715.06 + 249 * MITRE, abs=0.01)
    (need,) = asked_of(capping, run, book, run.capping.item.code)
    assert need.cuts[0].where == "top of the pre-wall; left end mitred 22.5° to wall A (2)"
    (beads,) = asked_of(sealant, run, book, "sealant")
    ml = book.figure("tiling.sealant_ml_m").value
    long, deep = run.capping.length.value, run.capping.depth.value
    assert beads.amount.value / ml == pytest.approx(
        (front_of(run).tiled_width.value + 2 * front_of(run).tiled_height.value + 4 * long + deep) / 1000
    )
    assert corner.capping is not None
    assert corner.capping.length.value == pytest.approx(front_of(corner).tiled_width.value + 249 * MITRE, abs=0.01)


def test_nobody_is_told_that_a_run_put_in_from_the_left_wall_was_moved() -> None:
    run, _, book = pair(design__prewall__from_left=0)
    assert not list(moved.says(run, book))


WC = {"kind": "wc", "top": 420, "ware": "pan-ondel-530", "frame": "frame-wc-1120"}


def over_studs(wall: str, **changes: object) -> tuple[Room, Room, Book]:
    """Across a corner of 1,000, the wall studs 400 apart; the frame of the run is 1,050 from the corner, and both struts want one stud."""
    corner = CORNER | {"wall": "A", "setback": 1000}
    centre = 1050 if wall == "A" else 2200 - 1050
    hung = [WC | {"name": "WC 1", "centre": centre}, WC | {"name": "WC 2", "on": "2"}]
    asked = {"design.appliances": hung, "design.further": [corner], "design.prewall.wall": wall, "survey.wall.construction": "timber stud"}
    room, book = room_of(asked | changes)
    run, across = work_out_all(room.plan, book)
    return run, across, book


@pytest.mark.parametrize("wall", ["A", "D"])
def test_struts_of_both_that_lie_over_one_another_on_one_wall_are_one(wall: str) -> None:
    """On wall A the run's went from 750 to 1,650, the corner's from 350 to 850: one from 350 to 1,650 over the studs at 400 to 1,600.

    On wall D, 2,200 long, both went to the stud at 1,600, the run's from that at 800.
    """
    run, across, book = over_studs(wall)
    (strut,) = (each for each in run.members if each.what == "wall strut")
    (left,) = (each for each in across.members if each.what == "wall strut")
    assert left.turn * (1 if wall == "A" else -1) < 0, "the one on the corner's other wall is its own still"
    start, long, studs = (350, 1300, (50, 450, 850, 1250)) if wall == "A" else (750, 900, (50, 450, 850))
    assert [strut.x, strut.length.value] == pytest.approx([start, long])
    assert strut.bears == pytest.approx(studs)
    assert run.figures[strut.mark] == strut.length
    ((one, place),) = ((one, place) for key, place in strut.pulled for one, _ in run.also_held if one.key == key)
    assert one.name == "WC 2"
    (beside,) = across.beside
    assert (beside.mark, beside.left) == (strut.mark, strut.x)
    assert beside.right == pytest.approx(strut.x + long)
    assert not [each for each in joins.says(run, book) if isinstance(each, Finding)]
    assert strut.where.endswith("and on behind wall A (2), WC 2" if wall == "A" else "and on behind wall A, WC 2")
    assert 0 < place < long


def test_what_the_corner_hangs_on_the_strut_of_the_run_is_held_and_bolted_there() -> None:
    """Two tie rods of the run's frame and one of the corner's; on its other wall the corner has one. Four studs with two screws."""
    run, across, book = over_studs("A")
    (strut,) = (each for each in run.members if each.what == "wall strut")
    held = held_by(run, strut)
    assert [one.name for one in held] == ["WC 1", "WC 2"]
    (left,) = (each for each in across.members if each.what == "wall strut")
    assert pull_on(run, book, held[1], strut).value == pytest.approx(pull_on(across, book, held[1], left).value)
    apart = over_studs("A", **{"design.further": [CORNER | {"wall": "A", "setback": 1000, "strut": "strut-41x41"}]})
    for one, other, more in ((run, apart[0], 1), (across, apart[1], -1)):
        (bolts,), (before,) = (asked_of(nuts, room, book, "channel bolt") for room in (one, other))
        assert bolts.amount.value - before.amount.value == more
    (screws,) = [each for each in wall_strut_fixings.says(run, book) if isinstance(each, Need)]
    assert screws.amount.value == 8
    assert any("WC 1, WC 2" in each.place for each in wall_pull.says(run, book) if isinstance(each, Finding))


def test_struts_that_are_not_alike_are_told() -> None:
    """Both want the stud at 800: they lie over one another from 750 to 850."""
    corner = CORNER | {"wall": "A", "setback": 1000, "strut": "strut-41x41"}
    run, across, book = over_studs("A", **{"design.further": [corner]})
    (other,) = run.beside
    theirs = next(each for each in across.members if each.mark == other.mark)
    assert run.line.on_wall(across.line.in_plan(theirs.x, theirs.y)) == pytest.approx((other.left, 0), abs=0.01)
    (told,) = [each for each in joins.says(run, book) if isinstance(each, Finding)]
    assert (told.title, told.state) == ("Wall struts at the join", "look")
    assert told.has is not None
    assert told.has.value == pytest.approx(100)
    assert "350 to 1,650 along the wall, 1,300 long" in told.message
