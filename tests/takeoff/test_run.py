"""The rule book run over rooms: everything said is stamped, needs become lines with every reason, nothing makes it raise."""

from __future__ import annotations

import cProfile
import math
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish.catalogue.book import Book
from tundish.catalogue.load import supplied_book
from tundish.field import Entry, describe, fields_of, put
from tundish.figure import number
from tundish.layout.appliances.kinds import KINDS
from tundish.layout.design import Appliance, Hatch, Niche, PreWall, RoomPlan
from tundish.layout.room import Room
from tundish.layout.work_out import work_out, work_out_all
from tundish.plain import check
from tundish.rules.book import RULES
from tundish.rules.rule import LABOUR, Asked, Caution, Cut, Decision, Finding, Need, Rule, Said, rule
from tundish.takeoff.run import RoomTake, merge, run_room, stamped, steady

WC = Appliance(kind="wc", name="WC 1", ware="pan-ondel-530", frame="frame-wc-1120", own=True)
PLAN = put(RoomPlan(name="Bathroom"), "design.appliances", (WC,))


@pytest.fixture(scope="module")
def book() -> Book:
    return supplied_book()


@pytest.fixture(scope="module")
def room(book: Book) -> Room:
    return work_out(PLAN, book, "rooms.0")


def need(amount: float, item: str, **more: Any) -> Need:
    return Need(number(amount, "each", "of it"), "frames", "it is needed", item=item, **more)


def saying(*said: Said, key: str = "test/one") -> Rule:
    @rule(key, source="a test")
    def says(room: Room, book: Book) -> Iterator[Said]:
        """Something is said."""
        yield from said

    return says


def test_what_is_said_carries_its_rule_and_its_place(room: Room, book: Book) -> None:
    finding = Finding("Fall", "Falls", "passes", None, "Maker", "a sheet", place="WC 1")
    decision = Decision("heights", "Heights", "agreed", "By boarding", "a signature", "420")
    take = run_room(room, book, (saying(need(1, "sound-pad"), finding, Caution("Dust", "Wear a mask"), decision),))
    assert [(one.rule, one.place) for one in take.needs] == [("test/one", "Bathroom")]
    assert [(one.rule, one.place) for one in take.findings] == [("test/one", "Bathroom, WC 1")]
    assert [(one.rule, one.place) for one in take.cautions] == [("test/one", "Bathroom")]
    assert [one.rule for one in take.decisions] == ["test/one"]
    assert take.problems == ()


def test_the_second_pass_reads_what_the_first_asked_for(room: Room, book: Book) -> None:
    @rule("test/two", source="a test", reads="needs")
    def twice(asked: Asked, book: Book) -> Iterator[Need]:
        """Two for each need."""
        yield need(2 * len(asked.needs), "wall-foot")

    take = run_room(room, book, (twice, saying(need(1, "sound-pad"), need(3, "sound-pad"))))
    assert {line.item.code: line.amount.value for line in take.lines} == {"sound-pad": 4, "wall-foot": 4}


def test_a_line_keeps_every_reason(room: Room, book: Book) -> None:
    cut = Cut("U1", number(900), "upright")
    bar = Need(number(900, "mm", "Upright"), "frames", "uprights", item="strut-41x21", cuts=(cut,))
    take = run_room(room, book, (saying(bar, need(1, "sound-pad"), replace(bar, why="rails", cuts=())),))
    strut, pad = merge([take])
    assert (strut.amount.value, strut.amount.label, strut.because) == (1800, "Strut 41 × 21, slotted", "uprights; rails")
    assert strut.cuts == (cut,)
    assert [term.figure.label for term in strut.amount.terms] == ["Upright", "Upright"]
    assert pad.because == "it is needed"


def test_roles_and_codes_of_one_item_are_one_line_and_hours_are_none(room: Room, book: Book) -> None:
    by_role = Need(number(2, "each"), "frames", "by role", role="sound pad")
    hours = Need(number(2, "h"), "frames", "hours", role=LABOUR)
    take = run_room(room, book, (saying(by_role, hours, need(1, "sound-pad")),))
    assert [(line.item.code, line.amount.value) for line in take.lines] == [("sound-pad", 3)]
    assert hours.amount in [one.amount for one in take.needs]


def test_what_the_client_supplies_is_a_line_of_its_own(room: Room, book: Book) -> None:
    take = run_room(room, book, (saying(need(1, "pan-ondel-530", own=True), need(2, "pan-ondel-530")),))
    assert [(line.own, line.amount.value) for line in merge([take])] == [(True, 1), (False, 2)]


def test_a_job_has_one_term_for_each_room(room: Room, book: Book) -> None:
    rules = (saying(need(1, "sound-pad"), need(3, "sound-pad")),)
    takes = [run_room(replace(room, name=name), book, rules) for name in ("Bathroom", "Cloakroom")]
    (line,) = merge(takes)
    assert line.amount.value == 8
    assert [(term.figure.label, term.figure.value) for term in line.amount.terms] == [("Bathroom", 4), ("Cloakroom", 4)]
    assert [one.place for one in line.needs] == ["Bathroom", "Bathroom", "Cloakroom", "Cloakroom"]


def test_each_of_many_rooms_takes_as_many_steps_as_one(book: Book) -> None:
    """Counted in calls of functions, which no other load on the machine changes; the first room warms what is kept between rooms."""

    def calls(many: int) -> float:
        rooms = [work_out(PLAN, book, f"rooms.{place}") for place in range(many)]
        profile = cProfile.Profile()
        profile.enable()
        for each in rooms:
            run_room(each, book)
        profile.disable()
        return sum(int(entry.callcount) for entry in profile.getstats()) / many

    calls(1)
    assert calls(10) == pytest.approx(calls(1), rel=0.01)


def test_no_room_needs_nothing() -> None:
    assert merge([]) == ()


@pytest.mark.parametrize(
    ("said", "told"),
    [
        (need(1, "no-such"), "the catalogue and rule book do not hold an item no-such"),
        (Need(number(1, "each"), "frames", "why", role="no such role"), "do not hold anything for 'no such role'"),
        (
            Need(number(1, "m"), "frames", "why", item="sound-pad"),
            "It asks for m, and Sound pad for foot or bracket, 8 mm rubber is counted in each",
        ),
        (Need(number(1, ""), "frames", "why", item="sound-pad"), "It asks for a number"),
    ],
)
def test_a_need_that_the_catalogue_cannot_meet_is_a_problem_and_the_rest_is_kept(room: Room, book: Book, said: Need, told: str) -> None:
    take = run_room(room, book, (saying(said, need(1, "wall-foot")),))
    assert [line.item.code for line in take.lines] == ["wall-foot"]
    assert [one for one in take.needs if one.item != "wall-foot"] == []
    (problem,) = take.problems
    assert problem.path == "rooms.0"
    assert problem.text.startswith("Bathroom: Something is said. ")
    assert told in problem.text


def test_a_sheet_is_asked_for_by_its_area(room: Room, book: Book) -> None:
    piece = Cut("B1", number(900), "board", width=number(600))
    area = Need(number(0.54, "m²"), "boarding", "front", item="board-cement-12", cuts=(piece,))
    assert run_room(room, book, (saying(area),)).problems == ()
    assert len(run_room(room, book, (saying(replace(area, cuts=())),)).problems) == 1


def test_a_rule_that_meets_a_gap_in_the_book_is_a_problem_and_the_others_still_speak(room: Room, book: Book) -> None:
    @rule("test/gap", source="a test")
    def gap(room: Room, book: Book) -> Iterator[Need]:
        """It wants a figure."""
        yield need(1, "sound-pad")
        yield Need(book.figure("no.such"), "frames", "why", item="sound-pad")

    take = run_room(room, book, (gap, saying(need(1, "wall-foot"))))
    assert [line.item.code for line in take.lines] == ["sound-pad", "wall-foot"]
    assert [one.text for one in take.problems] == [
        "Bathroom: It wants a figure. This could not be worked out: the catalogue and rule book do not hold a rule figure no.such."
    ]


def test_the_supplied_book_leaves_no_rule_at_a_loss(room: Room, book: Book) -> None:
    take = run_room(room, book)
    assert take.problems == ()
    assert {one.rule for one in take.needs} <= {each.key for each in RULES}
    assert "frame-wc-1120" in {line.item.code for line in take.lines}


def test_an_empty_book_is_all_problems_and_no_exception(room: Room) -> None:
    take = run_room(room, Book({}, {}, {}, {}, {}, {}))
    assert take.lines == ()
    assert take.problems


NUMBERS = (
    "survey.room.width",
    "survey.room.height",
    "survey.wall.stud_centres",
    "survey.floor.joist_centres",
    "survey.stack.from_left",
    "survey.existing.appliances",
    "design.prewall.depth",
    "design.prewall.run",
    "design.prewall.from_left",
    "design.prewall.top",
    "design.finish.layers",
    "design.finish.joint",
    "design.appliances.0.centre",
    "design.appliances.0.top",
)
CHOICES = ("survey.wall.construction", "survey.floor.kind", "survey.stack.pipe", "design.prewall.built_of", "design.prewall.height")


@st.composite
def plans(draw: st.DrawFn) -> RoomPlan:
    book = supplied_book()
    hung = []
    for _ in range(draw(st.integers(1, 3))):
        kind = KINDS[draw(st.sampled_from(tuple(KINDS)))]
        codes = [draw(st.sampled_from([one.code for one in book.of_kind(each)])) for each in (kind.ware, kind.frame)]
        chosen: dict[str, Any] = {name: book.of_kind(of)[0].code for name, of in kind.extras}
        hung.append(Appliance(kind=kind.key, ware=codes[0], frame=codes[1], **chosen))
    plan = put(RoomPlan(), "design.appliances", tuple(hung))
    for path in draw(st.lists(st.sampled_from(NUMBERS), unique=True)):
        declared = describe(RoomPlan, path)
        assert declared.most is not None
        value = draw(st.integers(math.ceil(declared.least or 0), math.floor(declared.most)))
        plan = put(plan, path, check(declared, value, path)[0])
    for path in CHOICES:
        plan = put(plan, path, draw(st.sampled_from(describe(RoomPlan, path).options)))
    if draw(st.booleans()):
        plan = put(plan, "design.prewall.niches", (_wild(draw, Niche()),))
        plan = put(
            plan, "design.prewall.hatches", (_wild(draw, Hatch(item=draw(st.sampled_from(["panel-white-200", "panel-tiled-450", ""])))),)
        )
    if draw(st.booleans()):
        stands = draw(st.sampled_from(describe(PreWall, "stands").options))
        further = _wild(draw, PreWall(wall=draw(st.sampled_from("BCD")), stands=stands, niches=(_wild(draw, Niche()),)))
        plan = put(plan, "design.further", (further,))
        plan = put(plan, "design.appliances.0.on", draw(st.sampled_from(["1", "2"])))
    tile = draw(st.sampled_from([one.code for one in book.of_kind("tile")]))
    board = draw(st.sampled_from([one.code for one in book.of_kind("board")]))
    return put(put(plan, "design.finish.tile", tile), "design.finish.board", board)


def _wild(draw: st.DrawFn, record: Any) -> Any:
    """A record with any lengths that its limits allow, some left blank."""
    for name, declared in fields_of(type(record)).items():
        if declared.kind == "number" and draw(st.booleans()):
            value = draw(st.integers(math.ceil(declared.least or 0), math.floor(min(declared.most or 3_000, 3_000))))
            record = put(record, name, Entry(value))
    return record


@settings(max_examples=100)
@given(plans())
def test_whatever_was_typed_lines_add_up_and_nothing_raises(plan: RoomPlan) -> None:
    for room in work_out_all(plan, supplied_book()):
        _adds_up(run_room(room, supplied_book()))


def _adds_up(take: RoomTake) -> None:
    assert take.problems == ()
    for line in take.lines:
        parts = math.fsum(one.amount.value for one in line.needs)
        assert line.amount.value == pytest.approx(parts)
        assert line.amount.low <= line.amount.value <= line.amount.high
        assert line.amount.low >= 0
    for one in take.needs:
        if one.cuts:
            sizes = [cut.length.value * (1 if cut.width is None else cut.width.value / 1e6) for cut in one.cuts]
            assert one.amount.value == pytest.approx(math.fsum(sizes))


def test_a_pre_wall_without_depth_has_no_edges_to_trim(book: Book) -> None:
    plan = put(put(PLAN, "design.prewall.from_left", Entry(400)), "design.prewall.depth", Entry(0))
    take = run_room(work_out(plan, book, "rooms.0"), book)
    assert not [problem for problem in take.problems if "trim" in problem.text]


def test_lines_that_did_not_change_stay_the_same_objects(book: Book) -> None:
    before = run_room(work_out(PLAN, book, "rooms.0"), book)
    higher = run_room(work_out(put(PLAN, "design.prewall.top", Entry(1290)), book, "rooms.0"), book)
    kept = steady(higher, before)
    assert kept == higher, "only the identity of equal lines changes"
    old = {line.item.code: line for line in before.lines}
    same = [line for line in kept.lines if line is old.get(line.item.code)]
    assert len(same) > len(kept.lines) / 2
    assert [line.item.code for line in kept.lines if line not in before.lines]
    assert steady(higher, None) is higher


def test_what_is_stamped_keeps_all_else() -> None:
    for one in (
        Need(number(2, "each"), "frames", "why", "role", "item", "", (), own=True, rule="", work="any"),
        Caution("Dust", "Wear a mask"),
    ):
        assert stamped(one, "family/rule", "Room") == replace(one, rule="family/rule", place="Room")
    need = Need(number(2, "each"), "frames", "why", place="WC 1")
    assert stamped(need, "family/rule", "Room") == replace(need, rule="family/rule", place="Room, WC 1")
