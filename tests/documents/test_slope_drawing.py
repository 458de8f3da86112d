"""What comes down from the ceiling is seen: over the floor in plan, and before the face of a pre-wall."""

from __future__ import annotations

from collections.abc import Callable

from tundish.documents.drawing import Drawing, Line, Shape, Words
from tundish.documents.plan_drawing import whole_room
from tundish.documents.survey_sketch import follow
from tundish.documents.wall_drawing import elevation, view_height
from tundish.estimate import Estimate
from tundish.field import Entry
from tundish.layout.room import Room
from tundish.survey.shape import Slope
from tundish.survey.wall import Opening

Changed = Callable[..., Estimate]


def under(changed: Changed, **slope: object) -> Room:
    made = {name: Entry(float(value)) if isinstance(value, int) else value for name, value in slope.items()}
    return changed("101", rooms__0__survey__slopes=(Slope(**made),)).rooms[0]  # type: ignore[arg-type]


def line_of(drawing: Drawing) -> list[tuple[float, float, float, float]]:
    named = {mark.text for mark in drawing.marks if isinstance(mark, Words)}
    assert any("at wall" in text for text in named)
    shapes = [mark for mark in drawing.marks if isinstance(mark, Shape) and mark.style == "wall" and len(mark.points) == 4]
    lines = [mark for mark in drawing.marks if isinstance(mark, Line) and mark.style == "ink"]
    return [(each.x1, each.y1, each.x2, each.y2) for each in lines if any((each.x1, each.y1) == shape.points[0] for shape in shapes)]


def test_a_ceiling_that_comes_down_over_the_pre_wall_cuts_off_its_corner(changed: Changed) -> None:
    """From 900 at wall D, its left, to the full height 1,500 out; as far up as the wall is drawn."""
    room = under(changed, wall="D", at_wall=900, reach=1500)
    head, high = view_height(room), room.plan.survey.room.height
    assert isinstance(high, Entry)
    ((left, low, right, top),) = line_of(elevation(room))
    assert (left, low, top) == (0, 900, head)
    assert round(right, 6) == round(1500 * (head - 900) / (high.value - 900), 6)


def test_a_beam_is_level_over_its_own_width(changed: Changed) -> None:
    room = under(changed, kind="beam", wall="A", from_left=400, width=300, at_wall=1000, reach=400)
    assert line_of(elevation(room)) == [(400, 1000, 700, 1000)]


def test_what_does_not_come_so_low_or_so_near_is_not_before_the_wall(changed: Changed) -> None:
    for slope in ({"wall": "A", "at_wall": 2300, "reach": 900}, {"wall": "C", "at_wall": 900, "reach": 300}):
        drawn = elevation(under(changed, **slope))
        assert not [mark for mark in drawn.marks if isinstance(mark, Words) and "sloping ceiling" in mark.text]


def test_the_plan_and_the_wall_say_where_it_is_and_how_low(changed: Changed) -> None:
    slope = Slope(kind="stair soffit", from_left=Entry(200), width=Entry(600), at_wall=Entry(1400), reach=Entry(800))
    window = Opening(kind="window", from_left=Entry(300), width=Entry(500), height=Entry(600), sill=Entry(700))
    room = changed("101", rooms__0__survey__slopes=(slope,), rooms__0__survey__openings=(window,)).rooms[0]
    plan, face = whole_room(room), follow(room, "survey.openings.0.sill")
    (over,) = [mark for mark in plan.marks if isinstance(mark, Shape) and mark.style == "hidden"]
    assert set(over.points) == {(200, -800), (800, -800), (800, 0), (200, 0)}
    assert (200, 1400, 800, 1400) in [(mark.x1, mark.y1, mark.x2, mark.y2) for mark in face.marks if isinstance(mark, Line)]
    for drawing in (plan, face):
        assert "stair soffit, 1,400 at the wall" in {mark.text for mark in drawing.marks if isinstance(mark, Words)}
