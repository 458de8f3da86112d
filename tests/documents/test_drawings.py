"""Drawings say what was worked out: pieces that are named are drawn, nothing lies out of sight, sizes are the figures."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace

import pytest

from tests.published.asking import room_of
from tundish import measure
from tundish.documents import pipe_drawing, plan_drawing, ware_drawing
from tundish.documents.drawing import KEPT, Box, Dimension, Drawing, Ellipse, Line, Mark, Shape, Style, Words, moved
from tundish.documents.section_drawing import section
from tundish.documents.shortfalls import shortfalls
from tundish.documents.survey_sketch import follow
from tundish.documents.wall_drawing import ALL, CLIENT_VIEW, Show, elevation, frame_key
from tundish.documents.wall_sheet import EMPTY, plan_line, wall_sheet
from tundish.estimate import Estimate
from tundish.field import Entry
from tundish.layout.design import User
from tundish.layout.room import Room
from tundish.layout.work_out import work_out_all
from tundish.survey.shape import Obstacle
from tundish.survey.wall import Side
from tundish.writers.pdf_drawing import bounds
from tundish.writers.pdf_type import MM

ROOM_FOR_WORDS = 60.0
"""How far words may stand off what they belong to, mm."""
MAKERS: dict[str, Callable[[Room], Drawing]] = {
    "elevation": elevation,
    "strip": plan_drawing.strip,
    "whole room": plan_drawing.whole_room,
    "wall sheet": wall_sheet,
    "section": section,
}


def corners(mark: Mark) -> Iterator[tuple[float, float]]:
    match mark:
        case Line() | Dimension():
            yield from ((mark.x1, mark.y1), (mark.x2, mark.y2))
        case Box():
            yield from ((mark.x, mark.y), (mark.x + mark.width, mark.y + mark.height))
        case Ellipse():
            yield from ((mark.x - mark.half_width, mark.y - mark.half_height), (mark.x + mark.half_width, mark.y + mark.half_height))
        case Shape():
            yield from mark.points
        case Words():
            yield mark.x, mark.y


def said(drawing: Drawing) -> list[str]:
    return [mark.text for mark in drawing.marks if isinstance(mark, Words)]


def sizes(drawing: Drawing, figure: str) -> list[Dimension]:
    return [mark for mark in drawing.marks if isinstance(mark, Dimension) and mark.figure == figure]


def styles(marks: Iterable[Mark]) -> set[Style]:
    return {mark.style for mark in marks if not isinstance(mark, Dimension)}


def owned(drawing: Drawing) -> set[str]:
    return {mark.piece for mark in drawing.marks if mark.piece}


@pytest.mark.parametrize("name", MAKERS)
def test_nothing_is_drawn_out_of_sight(name: str, room: Room) -> None:
    drawing = MAKERS[name](room)
    left, low, wide, high = drawing.extent
    for mark in drawing.marks:
        for x, y in corners(mark):
            assert left - ROOM_FOR_WORDS <= x <= left + wide + ROOM_FOR_WORDS, mark
            assert low - ROOM_FOR_WORDS <= y <= low + high + ROOM_FOR_WORDS, mark


@pytest.mark.parametrize("name", MAKERS)
def test_boxes_and_ellipses_have_a_size(name: str, room: Room) -> None:
    for mark in MAKERS[name](room).marks:
        if isinstance(mark, Box):
            assert mark.width >= 0, mark
            assert mark.height >= 0, mark


@pytest.mark.parametrize("name", ["elevation", "wall sheet"])
def test_every_piece_that_can_be_chosen_is_drawn_and_has_a_name(name: str, room: Room) -> None:
    drawing = MAKERS[name](room)
    keys = [key for key, _ in drawing.pieces]
    assert len(set(keys)) == len(keys)
    assert all(spoken for _, spoken in drawing.pieces)
    assert set(keys) <= owned(drawing)


def test_every_appliance_frame_pipe_and_member_can_be_chosen(room: Room) -> None:
    keys = {key for key, _ in elevation(room).pieces}
    asked = {placed.key for placed in room.placed} | {frame_key(placed) for placed in room.placed}
    built_in = {each.key for each in room.recesses}
    stack = {"stack"} if pipe_drawing.stack_here(room) else set()
    assert keys == asked | built_in | stack | {pipe.key for pipe in room.pipes} | {member.mark for member in room.members}


def test_appliances_are_named_from_the_left(room: Room) -> None:
    names = [spoken for _, spoken in elevation(room).pieces[: len(room.placed)]]
    assert names == [placed.name for placed in sorted(room.placed, key=lambda each: each.centre.value)]


def test_appliances_hang_at_their_height_on_their_centre(room: Room) -> None:
    for placed in room.placed:
        shapes = [mark for mark in elevation(room).marks if isinstance(mark, Shape) and mark.piece == placed.key]
        points = [point for shape in shapes for point in shape.points]
        xs = [x for x, _ in points]
        assert (min(xs) + max(xs)) / 2 == pytest.approx(placed.centre.value)
        assert max(xs) - min(xs) == pytest.approx(placed.ware.size("width").value)
        if placed.kind != "urinal":
            assert max(y for _, y in points) == pytest.approx(placed.figures["top"].value)


def test_studs_are_crossed_where_they_are_drilled(room: Room) -> None:
    for placed in room.placed:
        apart, height = placed.ware.size("stud_spacing").value, placed.figures["studs"].value
        crosses = [
            (mark.x1 + mark.x2) / 2
            for mark in elevation(room).marks
            if isinstance(mark, Line) and mark.piece == placed.key and mark.style == "ink" and mark.y1 == mark.y2 == height
        ]
        assert sorted(crosses) == pytest.approx([placed.centre.value - apart / 2, placed.centre.value + apart / 2])


def test_widths_add_up_to_the_room_and_say_what_they_are(room: Room) -> None:
    below = [mark for mark in elevation(room).marks if isinstance(mark, Dimension) and mark.y1 == mark.y2]
    assert sum(mark.x2 - mark.x1 for mark in below) == pytest.approx(room.width.value)
    assert [mark.text for mark in below] == [measure.show_length(mark.x2 - mark.x1) for mark in below]


def test_the_height_of_the_wall_is_written_from_the_floor_that_is_asked_for(room: Room) -> None:
    (bare,) = sizes(elevation(room), "top_of_prewall")
    (finished,) = sizes(elevation(room, Show(finish=True)), "top_of_prewall")
    assert bare.text == measure.show_length(room.top.value)
    assert finished.text == measure.show_length(room.top.value - room.finished_floor.value)
    assert bare.tbc == room.top.tbc


def test_the_client_sees_ware_and_tiles_only(room: Room) -> None:
    drawing = elevation(room, CLIENT_VIEW)
    assert styles(drawing.marks).isdisjoint({"steel", "timber", "soil", "hot", "cold", "datum"})
    assert not [mark for mark in drawing.marks if isinstance(mark, Dimension)]
    assert {placed.name for placed in room.placed}.isdisjoint(said(drawing))
    assert [key for key, _ in drawing.pieces] == [*(placed.key for placed in room.placed), *(each.key for each in room.recesses)]


@pytest.mark.parametrize(("show", "gone"), [(Show(tiles=False), "tile"), (Show(pipes=False), "soil"), (Show(marks=False), "ink")])
def test_each_layer_can_be_left_out(show: Show, gone: Style, room: Room) -> None:
    built_in = {each.key for each in room.recesses}
    there, left = ({mark for mark in elevation(room, each).marks if mark.piece not in built_in} for each in (ALL, show))
    hung = bool(room.placed)
    assert (gone in styles(there)) == (hung or gone == "tile")
    assert gone not in styles(left)


def test_without_ware_no_appliance_can_be_chosen(room: Room) -> None:
    assert {key for key, _ in elevation(room, Show(ware=False)).pieces}.isdisjoint(placed.key for placed in room.placed)


def test_what_is_not_confirmed_is_dashed_and_says_so(room: Room) -> None:
    for show in (ALL, CLIENT_VIEW):
        drawing = elevation(room, show)
        open_ = [placed for placed in room.placed if not placed.choice.in_hand]
        assert sum("TBC" in words for words in said(drawing)) == len(open_)
        for placed in room.placed:
            drawn = styles(mark for mark in drawing.marks if isinstance(mark, Shape) and mark.piece == placed.key)
            assert drawn == ({"ware"} if placed.choice.in_hand else {"tbc"})


def test_ware_below_the_finished_floor_is_drawn_in_red(changed: Callable[..., Estimate]) -> None:
    sunk = changed("101", rooms__0__design__appliances__0__top=Entry(100.0)).rooms[0]
    at_floor = [mark for mark in elevation(sunk).marks if isinstance(mark, Line) and mark.style == "fails"]
    assert [mark.y1 for mark in at_floor] == [sunk.finished_floor.value]


def test_supplies_carry_their_letter(room: Room) -> None:
    words = said(elevation(room))
    assert ("H" in words) == bool(room.pipes_of("hot"))
    assert ("C" in words) == bool(room.pipes_of("cold"))


def test_buried_members_are_dashed(worked: dict[str, Estimate]) -> None:
    (room,) = worked["101"].rooms
    buried = {member.mark for member in room.members if member.z < 0}
    drawn = {mark.piece: mark.style for mark in elevation(room).marks if isinstance(mark, Box) and mark.piece in buried}
    assert drawn == dict.fromkeys(buried, "hidden")


def test_an_empty_wall_says_how_to_begin(changed: Callable[..., Estimate]) -> None:
    empty = changed("101", rooms__0__design__appliances=()).rooms[0]
    assert EMPTY in said(wall_sheet(empty))
    assert said(elevation(empty, CLIENT_VIEW)) == []
    assert math.isfinite(sum(plan_drawing.strip(empty).extent))


def test_elevation_and_plan_share_one_sheet_and_do_not_meet(room: Room) -> None:
    sheet, front = wall_sheet(room), elevation(room)
    left, low, wide, high = sheet.extent
    assert (left, wide) == (front.extent[0], front.extent[2])
    assert low + high == pytest.approx(front.extent[1] + front.extent[3])
    assert plan_line(room) == front.extent[1]
    count = len(front.marks)
    assert sheet.marks[:count] == front.marks
    strip = [y for mark in sheet.marks[count:] for _, y in corners(mark)]
    assert max(strip) <= plan_line(room)


def test_the_plan_stands_under_the_elevation_on_the_same_centres(room: Room) -> None:
    for placed in room.placed:
        (line,) = [
            mark
            for mark in plan_drawing.strip(room).marks
            if isinstance(mark, Line) and mark.style == "datum" and mark.x1 == placed.centre.value
        ]
        assert line.x1 == line.x2
        outline = next(mark for mark in plan_drawing.strip(room).marks if isinstance(mark, Shape) and mark.piece == placed.key)
        out = -min(y for _, y in outline.points)
        assert out == pytest.approx(room.figures["finished_face"].value + placed.ware.size("projection").value)


def test_the_plan_says_how_deep_the_pre_wall_is(room: Room) -> None:
    (depth,) = sizes(plan_drawing.strip(room), "finished_face")
    assert depth.text == measure.show_length(room.figures["finished_face"].value)
    assert depth.tbc == room.depth.tbc


@pytest.mark.parametrize("show", [Show(steel=False), Show(pipes=False), Show(ware=False)])
def test_the_plan_leaves_layers_out_too(show: Show, room: Room) -> None:
    whole, left = plan_drawing.strip(room).marks, plan_drawing.strip(room, show).marks
    assert set(left) <= set(whole)
    assert len(left) < len(whole) or (show.steel and not room.placed)


def test_the_whole_room_has_its_sizes_and_openings(room: Room) -> None:
    drawing = plan_drawing.whole_room(room)
    over_all = [max(each) - min(each) for each in zip(*room.corners, strict=True)]
    assert [measure.show_length(each) for each in over_all] == [mark.text for mark in drawing.marks if isinstance(mark, Dimension)][-2:]
    assert [each.text for each in sizes(drawing, "width")] == [measure.show_length(over_all[0])] * (room.width.value == over_all[0])
    kinds = [opening.kind for opening in room.plan.survey.openings]
    assert sorted(words for words in said(drawing) if words in {"door", "window"}) == sorted(kinds)


@pytest.mark.parametrize("wall", ["A", "B", "C", "D"])
@pytest.mark.parametrize("hinge", ["left", "right"])
@pytest.mark.parametrize("swing", ["into the room", "out of the room"])
def test_a_door_swings_a_quarter_on_its_side_of_the_wall(wall: str, hinge: str, swing: str, changed: Callable[..., Estimate]) -> None:
    door = "rooms__0__survey__openings__0__"
    changes = {f"{door}wall": wall, f"{door}hinge": hinge, f"{door}swing": swing, f"{door}from_left": Entry(100.0)}
    room = changed("101", **changes).rooms[0]
    wide, deep = room.width.value, room.plan.survey.room.depth
    assert isinstance(deep, Entry)
    (leaf,) = [mark for mark in plan_drawing.whole_room(room).marks if isinstance(mark, Shape) and mark.style == "room"]
    hung = leaf.points[0]
    reach = {round(math.dist(hung, point), 6) for point in leaf.points[1:]}
    assert reach == {686.0}
    middle = leaf.points[len(leaf.points) // 2]
    inside = 0 < middle[0] < wide and -deep.value < middle[1] < 0
    assert inside == (swing == "into the room")


def test_a_window_and_a_door_of_unknown_swing_have_no_leaf(changed: Callable[..., Estimate]) -> None:
    for change in ({"rooms__0__survey__openings__0__kind": "window"}, {"rooms__0__survey__openings__0__swing": "slides"}):
        marks = plan_drawing.whole_room(changed("101", **change).rooms[0]).marks
        assert not [mark for mark in marks if isinstance(mark, Shape) and mark.style == "room"]


def test_clear_floor_is_drawn_in_front_of_each_appliance_as_its_check_went(one: Estimate) -> None:
    room, *others = one.rooms
    asked = [each for each in one.findings if each.rule == plan_drawing.CLEAR and each.least is not None]
    drawing = plan_drawing.whole_room(room, ALL, one.findings, tuple(others))
    assert sum(words.endswith(" clear") for words in said(drawing)) == len(asked) > 0


def test_too_little_floor_is_drawn_in_red(changed: Callable[..., Estimate]) -> None:
    tight = changed("101", rooms__0__survey__room__depth=Entry(1000.0))
    assert "fails" in styles(plan_drawing.whole_room(tight.rooms[0], ALL, tight.findings).marks)


@pytest.mark.parametrize(
    ("deep", "half", "style", "words"),
    [(2600.0, 750.0, "room", "turning 1,500"), (1600.0, None, "fails", "turning {} of 1,500: {} short")],
)
def test_where_a_wheelchair_turns_is_drawn_and_in_red_what_is_short(
    deep: float, half: float | None, style: str, words: str, changed: Callable[..., Estimate]
) -> None:
    users = (User(name="Nan", person="wheelchair user"),)
    job = changed(
        "101", rooms__0__design__users=users, rooms__0__survey__room__depth=Entry(deep), rooms__0__survey__room__width=Entry(2400.0)
    )
    (check,) = [each for each in job.findings if each.rule == plan_drawing.TURNING]
    assert check.has is not None
    drawing = plan_drawing.whole_room(job.rooms[0], ALL, job.findings)
    (circle,) = [mark for mark in drawing.marks if isinstance(mark, Ellipse) and mark.half_width > 400]
    assert circle.half_width == (half or check.has.value / 2)
    assert circle.style == style
    short = measure.show_length(1500 - check.has.value)
    assert words.format(measure.show_length(check.has.value), short) in said(drawing)
    assert check.spot == (circle.x, -circle.y)


def test_the_section_shows_the_figures_of_the_stack(room: Room) -> None:
    drawing = section(room)
    for name in ("depth", "stack_from_wall", "branch_invert"):
        (found,) = sizes(drawing, name)
        assert found.text == measure.show_length(room.figures[name].value if name != "depth" else room.depth.value)
    assert room.plan.survey.floor.kind in said(drawing)


def test_the_input_being_typed_is_picked_out(room: Room) -> None:
    assert "chosen" in styles(section(room, "survey.stack.branch_invert").marks)
    assert "chosen" not in styles(section(room).marks)


def test_a_room_without_branch_or_floor_build_up_has_a_section(changed: Callable[..., Estimate]) -> None:
    bare = changed("101", rooms__0__survey__stack__branch_invert=None, rooms__0__survey__floor__build_up=()).rooms[0]
    drawing = section(bare)
    assert "branch invert" not in said(drawing)
    assert "floor" not in styles(drawing.marks)


@pytest.mark.parametrize(
    ("path", "title"),
    [
        ("survey.room.width", "Plan of the room"),
        ("survey.room.height", "Wall A, looking at it"),
        ("survey.openings.0.width", "Plan of the room"),
        ("design.appliances.0.centre", "Wall A, looking at it"),
        ("survey.water.cold_from_left", "Plan of the room"),
        ("survey.stack.branch_invert", "Section at the stack, wall A on the left"),
    ],
)
def test_the_drawing_follows_the_input_being_typed(path: str, title: str, room: Room) -> None:
    of_the_wall = path.startswith("design") or "on the left" in title
    assert follow(room, path).title == (title.replace("all A", f"all {room.wall}") if of_the_wall else title)


def test_a_missed_fall_is_drawn_on_its_branch(worked: dict[str, Estimate]) -> None:
    hall = worked["103"]
    marks = elevation(hall.rooms[0], ALL, hall.findings).marks
    assert any(mark.style == "fails" for mark in marks if isinstance(mark, Line))
    assert [mark.text for mark in marks if isinstance(mark, Words) and mark.style == "fails" and mark.text.startswith("fall ")] == [
        "fall 6.0 short"
    ]


def test_elbow_room_that_is_missed_is_drawn_to_the_wall(worked: dict[str, Estimate]) -> None:
    family = worked["102"]
    (room,) = family.rooms
    marks = list(shortfalls(room, family.findings, 60))
    spans = [(mark.x1, mark.x2) for mark in marks if isinstance(mark, Line) and mark.y1 == mark.y2]
    assert spans == [(0.0, 390.0)]
    assert [mark.text for mark in marks if isinstance(mark, Words)] == ["10 short"]


def test_neighbours_too_close_are_drawn_between_them(changed: Callable[..., Estimate]) -> None:
    tight = changed("102", rooms__0__design__appliances__1__centre=Entry(800.0))
    (room,) = tight.rooms
    drawn = list(shortfalls(room, tight.findings, 60))
    assert any(isinstance(mark, Words) and mark.text.endswith("short") for mark in drawn)
    assert {mark.style for mark in drawn if not isinstance(mark, Dimension)} == {"fails"}


def test_a_missed_check_that_is_no_gap_on_the_wall_is_not_drawn_there(changed: Callable[..., Estimate]) -> None:
    tight = changed("101", rooms__0__survey__room__depth=Entry(1000.0))
    front_only = [each for each in tight.findings if each.rule == plan_drawing.CLEAR]
    assert [each for each in front_only if (each.spare or 0) < 0]
    assert list(shortfalls(tight.rooms[0], front_only, 60)) == []


def test_a_floor_without_build_up_is_not_banded(changed: Callable[..., Estimate]) -> None:
    bare = changed("101", rooms__0__survey__floor__build_up=()).rooms[0]
    assert "floor" not in styles(elevation(bare).marks)


def test_a_datum_above_the_picture_is_left_out(changed: Callable[..., Estimate]) -> None:
    low = changed("101", rooms__0__design__appliances=(), rooms__0__design__prewall__top=Entry(700.0)).rooms[0]
    assert not [words for words in said(elevation(low)) if words.startswith("datum")]


def test_a_waste_beside_the_stack_is_drawn_upright(changed: Callable[..., Estimate]) -> None:
    (room,) = changed("101").rooms
    (waste,) = room.pipes_of("waste")
    upright = replace(waste, route=((600.0, 90.0, 700.0), (610.0, 90.0, 500.0)))
    pipes = tuple(upright if each is waste else each for each in room.pipes)
    (shape,) = [mark for mark in elevation(replace(room, pipes=pipes)).marks if isinstance(mark, Shape) and mark.piece == waste.key]
    xs, ys = [x for x, _ in shape.points], [y for _, y in shape.points]
    assert (max(ys) - min(ys), max(xs) - min(xs)) == (200.0, 10.0 + waste.size)


def test_what_is_well_has_no_red(worked: dict[str, Estimate]) -> None:
    assert list(shortfalls(worked["101"].rooms[0], worked["101"].findings, 60)) == []


def test_marks_are_moved_whole() -> None:
    marks: tuple[Mark, ...] = (
        Line(0, 1, 2, 3, "ink", "a"),
        Box(0, 1, 2, 3, "wall", "b", filled=False),
        Shape(((0, 1), (2, 3)), "ware", "c"),
        Ellipse(0, 1, 2, 3, "soil", "d", filled=False),
        Words(0, 1, "words", 3.0, "tbc", "end", bold=True, turned=True, piece="e", figure="f"),
        Dimension(0, 1, 2, 3, "2", "g", "h", tbc=True),
    )
    there = moved(marks, 10, 100)
    assert moved(there, -10, -100) == marks
    for before, after in zip(marks, there, strict=True):
        pairs = list(zip(corners(before), corners(after), strict=True))
        step = (10, 100)
        if isinstance(before, Box | Ellipse | Line | Shape | Words | Dimension):
            assert {(round(to[0] - at[0]), round(to[1] - at[1])) for at, to in pairs} == {step}


def test_a_long_name_keeps_off_its_neighbours_and_the_walls_on_every_drawing(changed: Callable[..., Estimate]) -> None:
    long = "The children's own little basin by the window"
    made = changed("104", rooms__0__design__appliances__1__name=long, rooms__0__survey__obstacles=(Obstacle(name=long),))
    drawings = [make(room) for room in made.rooms for make in (elevation, plan_drawing.whole_room)]
    named = [mark for each in drawings for mark in each.marks if words_of(mark) == long]
    assert len(named) > 2
    for mark in named:
        assert isinstance(mark, Words)
        for scale in (12.5, 20, 50):
            left, _, right, _ = bounds(mark, MM / scale) or (0, 0, 0, 0)
            least, _, most, _ = bounds(replace(mark, text=long[:KEPT], most=0), MM / scale) or (0, 0, 0, 0)
            assert right - left <= max(mark.most * MM / scale, most - least)
            assert mark.most < made.rooms[0].width.value


def test_the_name_of_an_opening_is_whole_however_narrow_it_is_and_a_line_leads_there(worked: dict[str, Estimate]) -> None:
    room = next(each for each in worked["104"].rooms if each.recesses)
    named = {mark.text: mark for mark in elevation(room).marks if isinstance(mark, Words) and mark.names}
    for each in room.recesses:
        mark, middle = named[each.name], each.left.value + each.width.value / 2
        assert mark.most > each.width.value, "it may stand out over both sides"
        assert mark.most / 2 < min(middle, room.width.value - middle), "and never past the wall"
        assert mark.names is not None
        assert mark.names[0] == middle
        assert each.bottom.value <= mark.names[1] <= each.bottom.value + each.height.value


def test_a_niche_is_seen_from_above_as_deep_as_it_is_tiled_and_an_access_opening_as_a_line(worked: dict[str, Estimate]) -> None:
    room = next(each for each in worked["104"].rooms if each.recesses)
    marks = plan_drawing.strip(room).marks
    face = room.figures["finished_face"].value
    for each in room.recesses:
        (mark,) = [mark for mark in marks if isinstance(mark, Box | Line) and mark.piece == each.key]
        if isinstance(mark, Box):
            assert each.depth is not None
            assert (mark.x, mark.y, mark.width, mark.height) == (each.left.value, -face, each.width.value, each.depth.value)
        else:
            assert each.kind == "hatch"
            assert (mark.x1, mark.x2) == (each.left.value, each.left.value + each.width.value)


def test_the_bare_floor_of_the_section_is_named_below_the_stack(worked: dict[str, Estimate]) -> None:
    drawing = section(worked["102"].rooms[0])
    named = next(mark for mark in drawing.marks if words_of(mark) == "chipboard on joists")
    stack = next(mark for mark in drawing.marks if isinstance(mark, Box) and mark.piece == "stack")
    for scale in (16, 20):
        _, low, _, high = bounds(named, MM / scale) or (0, 0, 0, 0)
        assert high < stack.y * MM / scale
        assert low > drawing.extent[1] * MM / scale


def words_of(mark: Mark) -> str:
    return mark.text if isinstance(mark, Words) else ""


def test_the_rail_and_the_back_rest_of_an_accessible_wc_are_drawn_where_they_are_fixed() -> None:
    """Drop-down rail 320 beside the pan at 680, 765 out; back rest 640 wide about the pan's middle, 160 out (demonstration sheets)."""
    aids = {"rail": "rail-hamlow-600", "drop_rail": "rail-hamlow-drop-765", "back_rest": "back-rest-hamlow"}
    plain = {"kind": "accessible wc", "name": "WC 1", "centre": 500, "ware": "pan-tisbel-750", "frame": "frame-wc-1120"}
    accessible, _ = room_of({"design.appliances.0": plain | {"seat": "seat-tisbel-ring"} | aids})
    high, face = accessible.finished_floor.value + 680, accessible.figures["finished_face"].value
    (one,) = [each for each in accessible.placed if each.name == "WC 1"]
    front = [(each.x, each.x + each.width, each.y + each.height / 2) for each in ware_drawing.aids(one) if isinstance(each, Box)]
    assert front == [(180, 820, high), (765, 875, high)]
    above = [(each.x, each.x + each.width, -each.y) for each in ware_drawing.aids_above(one, face) if isinstance(each, Box)]
    assert above == [(765, 875, face + 765), (180, 820, face + 160)]
    assert list(ware_drawing.aids(accessible.placed[1])) == []


ACROSS = {
    "design.prewall.stands": "across its left-hand corner",
    "design.prewall.setback": 700,
    "design.appliances": [{"kind": "wc", "name": "WC 1", "top": 420, "ware": "pan-ondel-530", "frame": "frame-wc-1120"}],
    "survey.wall.construction": "timber stud",
}


def test_struts_on_the_walls_of_a_corner_are_drawn_as_they_lie() -> None:
    """Walls of the corner are turned 45 from its front: S2 is 500 long, and from 350 to 850 along wall A in the plan."""
    room, _ = room_of(ACROSS)
    seen = next(mark for mark in elevation(room).marks if isinstance(mark, Box) and mark.piece == "S2")
    assert seen.width == pytest.approx(500 * math.sqrt(0.5))
    lies = next(mark for mark in plan_drawing.whole_room(room).marks if isinstance(mark, Shape) and mark.piece == "S2")
    assert sorted(lies.points) == [pytest.approx(each, abs=0.1) for each in ((350, -21), (350, 0), (850, -21), (850, 0))]


def test_the_whole_room_shows_a_pre_wall_across_its_corner() -> None:
    """Its board stands off the line from 700 along wall D to 700 along wall A: as far along the one as along the other."""
    room, _ = room_of(ACROSS)
    board = next(mark for mark in plan_drawing.whole_room(room).marks if isinstance(mark, Shape) and mark.style == "board" and mark.filled)
    along, out = (sorted(abs(place[axis]) for place in board.points) for axis in (0, 1))
    assert along == pytest.approx(out, abs=0.1)
    assert along[-1] - along[0] > 600


def test_the_stack_of_a_corner_stands_in_the_room_where_it_was_measured() -> None:
    """250 along wall A and 130 out of it, in the plan of the whole room and, from the front, 120 x 0.70711 right of its middle."""
    room, _ = room_of(ACROSS | {"survey.stack.from_left": 250, "survey.stack.from_wall": 130})
    (ring, _) = (mark for mark in plan_drawing.whole_room(room).marks if isinstance(mark, Ellipse) and mark.piece == "stack")
    assert (ring.x, ring.y) == pytest.approx((250, -130), abs=0.01)
    seen = next(mark for mark in elevation(room).marks if isinstance(mark, Box) and mark.piece == "stack")
    assert seen.x + 55 == pytest.approx(room.width.value / 2 + 120 * math.sqrt(0.5), abs=0.01)
    past, _ = room_of(ACROSS | {"survey.stack.from_left": 1200, "survey.stack.from_wall": 130})
    assert not [mark for mark in elevation(past).marks if mark.piece == "stack"]


def test_a_waste_goes_round_the_corner_in_the_whole_room(changed: Callable[..., Estimate]) -> None:
    """From the basin on wall B, 2,400 along wall A, round the corner and along wall A to the stack at 2,080; on wall B it ends there."""
    first, second, *_ = changed("104", rooms__0__design__appliances__1__drains_to="").rooms
    (waste,) = second.pipes_of("waste")
    drawn = plan_drawing.whole_room(first, others=(second,)).marks
    laid = [place for mark in drawn if isinstance(mark, Shape) and mark.piece == "1/basin-1.waste" for place in mark.points]
    assert min(x for x, _ in laid) == pytest.approx(2080 - waste.size / 2, abs=1)
    assert max(x for x, _ in laid) < 2400
    assert waste.from_wall is not None
    seen = [x for mark in elevation(second).marks if isinstance(mark, Shape) and mark.piece == waste.key for x, _ in mark.points]
    assert min(seen) == pytest.approx(waste.from_wall.value, abs=0.1)


def test_the_word_at_a_door_keeps_off_its_wall(worked: dict[str, Estimate]) -> None:
    """The door of the family bathroom is in wall B, which runs down the right of the plan."""
    room = worked["102"].rooms[0]
    (door,) = [mark for mark in plan_drawing.whole_room(room).marks if words_of(mark) == "door"]
    assert isinstance(door, Words)
    assert door.anchor == "end"
    assert door.x < room.width.value
    (window,) = [mark for mark in plan_drawing.whole_room(room).marks if words_of(mark) == "window"]
    assert isinstance(window, Words)
    assert window.anchor == "middle"


BEHIND = {"survey.stack.behind": True, "survey.stack.from_wall": 330, "survey.stack.branch_invert": 80}


@pytest.mark.parametrize("name", MAKERS)
def test_a_stack_behind_the_wall_is_drawn_there_and_seen(name: str) -> None:
    room, _ = room_of(BEHIND)
    test_nothing_is_drawn_out_of_sight(name, room)


def test_a_stack_behind_the_wall_stands_on_its_other_side() -> None:
    room, _ = room_of(BEHIND)
    (plain, *_) = [mark for mark in plan_drawing.strip(room).marks if isinstance(mark, Ellipse) and mark.piece == "stack"]
    (whole, *_) = [mark for mark in plan_drawing.whole_room(room).marks if isinstance(mark, Ellipse) and mark.piece == "stack"]
    assert (plain.y, whole.y) == (330, 330)
    assert sizes(section(room), "stack_from_wall")[0].text == "330"


def test_what_was_found_behind_a_wall_is_sketched_there() -> None:
    entry = {"name": "old waste", "size": "40", "from_left": 900, "from_wall": 200, "invert": 300, "behind": True}
    room, _ = room_of({**BEHIND, "survey.entries": [entry]})
    (typed,) = [mark for mark in follow(room, "survey.entries.0.from_wall").marks if isinstance(mark, Dimension) and mark.piece == "chalk"]
    assert typed.text == "200"
    assert max(typed.y1, typed.y2) == pytest.approx(200)
    assert min(typed.y1, typed.y2) == pytest.approx(0)


def test_the_letters_of_short_walls_stand_before_them_with_a_line_to_each(changed: Callable[..., Estimate]) -> None:
    """A nib 60 wide and 100 deep at the wall opposite: D, E and F are its three sides, C and G the wall on either side of it."""
    spans = ((1500, 90), (900, 90), (100, 90), (60, 270), (100, 270), (1440, 90), (1500, 90))
    walls = tuple(Side(length=Entry(long), corner=Entry(angle)) for long, angle in spans)
    room = changed("101", rooms__0__survey__walls=walls, rooms__0__survey__room__width=Entry(2400)).rooms[0]
    assert room.closed
    letters = {mark.text: mark for mark in plan_drawing.whole_room(room).marks if isinstance(mark, Words) and len(mark.text) == 1}
    assert {letter: mark.names for letter, mark in letters.items() if mark.names} == {
        "D": (1500, -1450),
        "E": (1470, -1400),
        "F": (1440, -1450),
    }
    assert [(letters[each].x, letters[each].y) for each in "DEF"] == [(1630, -1450), (1470, -1270), (1310, -1450)]
    assert letters["C"].y < -1500


def test_a_branch_through_the_floor_is_drawn_down_into_it_and_ringed_in_plan() -> None:
    drain = {"name": "drain", "size": "110", "from_left": 1000, "from_wall": 80, "invert": -200, "under": True}
    room, _ = room_of({"survey.entries": [drain], "design.appliances.0.drains_to": "drain"})
    lowest = min(y for mark in elevation(room).marks if mark.piece == "wc-1.soil" for _, y in corners(mark))
    assert -200 < lowest < 0, "into the floor, and no lower than that is drawn"
    for drawing in (plan_drawing.strip(room), plan_drawing.whole_room(room)):
        (ring,) = [mark for mark in drawing.marks if isinstance(mark, Ellipse) and mark.piece == "wc-1.soil"]
        assert (ring.x, ring.y, ring.half_width) == pytest.approx((1000, -80, 55))


JOINED = {
    "design.appliances": [],
    "design.further": [{"name": "corner", "wall": "A", "stands": "across its left-hand corner", "setback": 900, "top": 1200}],
}


def test_a_run_and_what_stands_across_its_corner_are_drawn_without_a_gap() -> None:
    """Both are 24 thick and end in one mitre: where the frame fronts meet, 675 along and 225 out of wall A, and at the tiles' face."""
    room, book = room_of(JOINED)
    run, corner = work_out_all(room.plan, book)
    drawn = plan_drawing.whole_room(run, others=(corner,)).marks
    one, other = [
        {(round(x, 1), round(-y, 1)) for x, y in mark.points}
        for mark in drawn
        if isinstance(mark, Shape) and mark.style == "board" and mark.filled
    ]
    assert len(one & other) == 2
    assert (675.0, 225.0) in one & other


def test_each_elevation_shows_and_names_what_its_front_goes_on_into() -> None:
    room, book = room_of(JOINED)
    run, corner = work_out_all(room.plan, book)
    for each, name, span in ((run, "corner", (0, 675)), (corner, "wall A", (954.59, 1272.79))):
        drawing = elevation(each)
        (beside,) = [mark for mark in drawing.marks if isinstance(mark, Box) and mark.style == "hidden" and mark.height > 1000]
        assert (beside.x, beside.x + beside.width) == pytest.approx(span, abs=0.01)
        assert name in said(drawing)
        above = next(mark for mark in drawing.marks if isinstance(mark, Box) and mark.style == "wall" and mark.y == each.top.value)
        assert above.x <= span[0]
        assert above.x + above.width >= span[1]
        ahead = [mark for mark in plan_drawing.strip(each).marks if isinstance(mark, Line) and mark.style == "hidden"]
        assert len(ahead) == 1
        assert abs(ahead[0].x2 - ahead[0].x1) == pytest.approx(abs(ahead[0].y2 - ahead[0].y1)), "at 45°"
