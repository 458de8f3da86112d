"""Figures remember: whatever a term turns out to be, the answer was inside its range, and its working gives it again."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import reduce
from typing import TypeAlias, TypeVar

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tundish.errors import TundishError
from tundish.figure import (
    Figure,
    Known,
    NoFigureError,
    Reason,
    UnitsDifferError,
    between,
    converted,
    largest,
    number,
    rests_on,
    round_up,
    smallest,
    times_units,
    together,
    total,
    where_from,
    without,
    worked_again,
)

T = TypeVar("T")
Recipe: TypeAlias = "int | tuple[str, Recipe, Recipe]"
Ends = tuple[float, float, float]
Ways = Mapping[str, Callable[[T, T], T]]
LEAVES = 5


def worked(recipe: Recipe, leaves: Sequence[T], ways: Ways[T]) -> T:
    """One recipe for figures, for plain numbers and for sizes alike."""
    if isinstance(recipe, int):
        return leaves[recipe]
    way, one, other = recipe
    return ways[way](worked(one, leaves, ways), worked(other, leaves, ways))


def recipes(ways: Ways[T]) -> st.SearchStrategy[Recipe]:
    start: st.SearchStrategy[Recipe] = st.integers(0, LEAVES - 1)
    return st.recursive(start, lambda inner: st.tuples(st.sampled_from(sorted(ways)), inner, inner), max_leaves=6)


def ends_of(one: st.SearchStrategy[float]) -> st.SearchStrategy[list[Ends]]:
    each = st.tuples(one, one, one).map(lambda three: (min(three), sorted(three)[1], max(three)))
    return st.lists(each | one.map(lambda value: (value, value, value)), min_size=LEAVES, max_size=LEAVES)


def figures(ends: list[Ends]) -> list[Figure]:
    return [between(value, low, high, "", f"leaf {place}") for place, (low, value, high) in enumerate(ends)]


def within(figure: Figure) -> Iterable[Figure]:
    """A figure and all that it rests on, each once."""
    waiting, seen = [figure], dict[int, Figure]()
    while waiting:
        one = waiting.pop()
        if id(one) not in seen:
            seen[id(one)] = one
            waiting += (term.figure for term in one.terms)
    return seen.values()


def ceiling(value: float, step: float) -> float:
    return math.ceil(value / step) * step


FIGURE_WAYS: Ways[Figure] = {
    "+": lambda a, b: a + b,
    "−": lambda a, b: a - b,
    "×": lambda a, b: a * b,
    "most": largest,
    "least": smallest,
    "total": lambda a, b: total((a, b, a)),
    "named": lambda a, b: (a + b).named("both"),
    "up": lambda a, b: round_up(a + b, 7),
    "up to": lambda a, b: round_up(a, number(3, "") + largest(b, number(0, ""))),
    "less": lambda a, _: 100 - a * 2 + 1,
}
NUMBER_WAYS: Ways[float] = {
    "+": lambda a, b: a + b,
    "−": lambda a, b: a - b,
    "×": lambda a, b: a * b,
    "most": max,
    "least": min,
    "total": lambda a, b: a + b + a,
    "named": lambda a, b: a + b,
    "up": lambda a, b: ceiling(a + b, 7),
    "up to": lambda a, b: ceiling(a, 3 + max(b, 0)),
    "less": lambda a, _: 100 - a * 2 + 1,
}


@given(recipes(FIGURE_WAYS), ends_of(st.integers(-30, 30).map(float)), st.data())
def test_whatever_the_terms_turn_out_to_be_the_answer_was_in_range(recipe: Recipe, ends: list[Ends], data: st.DataObject) -> None:
    answer = worked(recipe, figures(ends), FIGURE_WAYS)
    turned_out = [float(data.draw(st.integers(int(low), int(high)))) for low, _, high in ends]
    assert answer.low <= worked(recipe, turned_out, NUMBER_WAYS) <= answer.high
    assert answer.value == worked(recipe, [value for _, value, _ in ends], NUMBER_WAYS)


@given(recipes(FIGURE_WAYS), ends_of(st.floats(-1000, 1000)))
def test_every_figure_has_its_value_in_its_range_and_its_working_gives_it_again(recipe: Recipe, ends: list[Ends]) -> None:
    for each in within(worked(recipe, figures(ends), FIGURE_WAYS)):
        assert each.low <= each.value <= each.high
        assert worked_again(each) == each.value


@given(st.data())
def test_ranges_hold_for_any_size_of_number_and_for_division(data: st.DataObject) -> None:
    size = data.draw(st.sampled_from([1e-9, 1e-3, 1.0, 1e4, 1e9]))
    ends = [(low * size, value * size, high * size) for low, value, high in data.draw(ends_of(st.floats(-1, 1)))]
    under = data.draw(ends_of(st.floats(0.2, 3)))[0]
    divisor = between(under[1], under[0], under[2], "", "divisor")
    below = under[0] + data.draw(st.floats(0, 1)) * (under[2] - under[0])
    chosen = {way: FIGURE_WAYS[way] for way in ("+", "−", "×", "most", "least", "total", "named")}
    recipe = data.draw(recipes(chosen | {"÷": FIGURE_WAYS["+"]}))

    answer = worked(recipe, figures(ends), {**chosen, "÷": lambda a, b: (a + b) / divisor})
    shares = data.draw(st.lists(st.floats(0, 1), min_size=LEAVES, max_size=LEAVES))
    turned_out = [min(high, low + share * (high - low)) for (low, _, high), share in zip(ends, shares, strict=True)]
    found = worked(recipe, turned_out, {**NUMBER_WAYS, "÷": lambda a, b: (a + b) / below})
    sizes = [max(abs(low), abs(high)) for low, _, high in ends]
    largest_at_work = worked(recipe, sizes, {**NUMBER_WAYS, "−": lambda a, b: a + b, "least": max, "÷": lambda a, b: (a + b) / under[0]})
    near = 1e-9 * largest_at_work
    assert answer.low - near <= found <= answer.high + near


@given(st.floats(-1e6, 1e6), st.floats(0.01, 1e4))
def test_rounding_up_reaches_the_figure_with_less_than_a_step_to_spare(value: float, step: float) -> None:
    up = round_up(number(value), step)
    near = 1e-9 * max(abs(value), step)
    assert value - near <= up.value < value + step + near
    assert abs(up.value / step - round(up.value / step)) < 1e-6 + 1e-12 * abs(value) / step  # thirteen digits are kept
    assert worked_again(up) == up.value


def replayed(reason: Reason) -> float:
    """What a reader with pencil and paper gets from the last lines of a working alone."""
    if not reason.children:
        return reason.figure.value
    steps: Ways[float] = {**NUMBER_WAYS, "÷": lambda a, b: a / b, "most of": max, "least of": min, "packs of": ceiling}
    values = [(each.sign, replayed(each)) for each in reason.children]
    return reduce(lambda so_far, each: steps[each[0]](so_far, each[1]), values[1:], values[0][1])


def last_lines(reason: Reason) -> Iterator[Figure]:
    for each in reason.children:
        yield from last_lines(each)
    if not reason.children:
        yield reason.figure


def used(recipe: Recipe) -> set[int]:
    return {recipe} if isinstance(recipe, int) else used(recipe[1]) | used(recipe[2])


@given(recipes({way: FIGURE_WAYS[way] for way in FIGURE_WAYS if way != "less"}), ends_of(st.integers(-30, 30).map(float)))
def test_the_last_lines_of_a_working_account_for_the_whole_figure(recipe: Recipe, ends: list[Ends]) -> None:
    leaves = figures(ends)
    tree = where_from(worked(recipe, leaves, FIGURE_WAYS))
    lines = list(last_lines(tree))
    assert replayed(tree) == tree.figure.value
    assert {place for place, leaf in enumerate(leaves) if any(line is leaf for line in lines)} == used(recipe)
    assert all(line in leaves or line.settled for line in lines)


def test_a_receipt_adds_up_in_one_column() -> None:
    top, down, floor = (number(420, label="Top of pan"), number(95, label="Down to studs"), number(28, label="Floor build-up"))
    studs = (top - down + floor).named("Fixing studs")
    assert studs.value == 353
    assert [(line.sign, line.figure.label, line.figure.value) for line in where_from(studs).children] == [
        ("+", "Top of pan", 420),
        ("−", "Down to studs", 95),
        ("+", "Floor build-up", 28),
    ]


def test_a_named_figure_stays_one_line_in_the_working_of_others() -> None:
    above = (number(420) - number(95)).named("Above finished floor", "as agreed")
    assert [term.figure.label for term in (above + number(28)).terms] == ["Above finished floor", ""]
    assert above.note == "as agreed"
    assert above.named("Studs").note == "as agreed"
    assert len((above * 2 * 3).terms) == 3
    assert len(((above * 2).named("Pair") * 3).terms) == 2
    assert len((above * 2 + number(1)).terms) == 2
    assert len(((above + number(1)) * 2).terms) == 2


def test_plain_numbers_may_stand_on_either_side() -> None:
    ten = number(10)
    assert (5 + ten).value == 15
    assert (ten + 5).value == 15
    assert (25 - ten).value == 15
    assert (ten - 5).value == 5
    assert (2 * ten).value == 20
    assert (ten / 4).value == 2.5
    assert [figure.unit for figure in (5 + ten, 25 - ten, 2 * ten, ten / 4)] == ["mm"] * 4
    assert worked_again(25 - ten) == 15


def test_binary_dust_is_taken_off_at_any_size() -> None:
    assert (number(0.1) + number(0.2)).value == 0.3
    assert (number(100_000.1) - number(100_000)).value == 0.1
    assert total([number(0.1)] * 10).value == 1
    assert (number(0.3) - number(0.1) - number(0.2)).value == 0
    assert round_up(number(0.1) + number(0.2), 0.1).value == 0.3
    assert str((number(0) * -5).value) == "0.0"
    assert (number(1) / number(48) / number(210e9)).value == pytest.approx(1 / 48 / 210e9)


def test_a_total_of_nothing_is_nought_of_its_unit() -> None:
    assert total([], "Strut", "m") == number(0, "m", "Strut")
    assert total([number(2, "kg"), number(3, "kg")], "Weight").unit == "kg"
    assert worked_again(total([number(2), number(3)])) == 5


def test_what_is_not_confirmed_runs_downhill() -> None:
    open_, firm = between(28, 26, 31), number(420)
    for figure in (
        firm + open_,
        firm - open_,
        firm * open_,
        firm / open_,
        total([firm, open_]),
        round_up(open_, 10),
        converted(open_, "m"),
    ):
        assert figure.tbc
        assert not figure.settled
    assert (firm + firm).settled
    assert not between(3, 3, 3).settled
    assert (open_ + firm).named("x").tbc


@pytest.mark.parametrize(
    ("pick", "low", "high", "tbc"),
    [
        (largest, 5, 9, False),
        (largest, 5, 10, True),
        (largest, 5, 12, True),
        (smallest, 11, 15, False),
        (smallest, 10, 15, True),
        (smallest, 8, 15, True),
    ],
)
def test_only_a_term_that_can_still_decide_keeps_a_choice_open(pick: Callable[..., Figure], low: float, high: float, *, tbc: bool) -> None:
    found = pick(number(10), between((low + high) / 2, low, high), label="Depth")
    assert found.tbc is tbc
    assert found.label == "Depth"
    if not tbc:
        assert (found.low, found.value, found.high) == (10, 10, 10)


def test_a_range_of_packs() -> None:
    tiles = round_up(between(41, 38, 47, "each"), 12, "Tiles")
    assert (tiles.low, tiles.value, tiles.high) == (48, 48, 48)
    loose = round_up(between(41, 38, 50, "each"), between(12, 10, 12, "each"))
    assert (loose.low, loose.value, loose.high) == (38, 48, 62)
    assert round_up(number(0), 12).value == 0


def test_different_units_do_not_add_up() -> None:
    length, weight = number(10, "mm", "Depth"), number(3, "kg")
    faults: list[Callable[[], object]] = [
        lambda: length + weight,
        lambda: weight - length,
        lambda: total([length, weight]),
        lambda: largest(length, weight),
        lambda: smallest(weight, length),
        lambda: round_up(length, weight),
        lambda: converted(weight, "mm"),
    ]
    for fault in faults:
        with pytest.raises(UnitsDifferError, match="'kg'"):
            fault()
    with pytest.raises(TundishError, match="Depth is in 'mm', another in 'kg'"):
        _ = length + weight


def test_what_cannot_be_a_figure_is_said() -> None:
    none = between(1, -1, 2, label="Run")
    faults: list[tuple[Callable[[], object], str]] = [
        (lambda: number(math.nan), "nan is not a finite number"),
        (lambda: between(1, 0, math.inf), "inf is not a finite number"),
        (lambda: between(5, 1, 4, label="Tile"), "Tile: 5 is not between 1 and 4"),
        (lambda: number(1) / none, "cannot be divided by Run, which may be zero"),
        (lambda: number(1).named("Drop") / 0, "Drop cannot be divided by a figure, which may be zero"),
        (lambda: number(1e200) * number(1e200), "inf is not a finite number"),
        (lambda: round_up(number(1), 0), "cannot be rounded up to steps of 0"),
        (lambda: round_up(number(1), none), "cannot be rounded up to steps of -1"),
        (largest, "the most of nothing"),
        (lambda: smallest(label="Gap"), "Gap: the least of nothing"),
    ]
    for fault, words in faults:
        with pytest.raises(NoFigureError, match=words):
            fault()


@pytest.mark.parametrize(
    ("one", "other", "power", "unit"),
    [
        ("mm", "mm", 1, "mm²"),
        ("mm²", "mm²", 1, "mm⁴"),
        ("mm⁴", "mm²", -1, "mm²"),
        ("m", "m²", 1, "m³"),
        ("mm", "m", -1, "mm/m"),
        ("mm/m", "m", 1, "mm"),
        ("kg/m²", "m²", 1, "kg"),
        ("kg", "m²", -1, "kg/m²"),
        ("mm", "mm", -1, ""),
        ("", "", 1, ""),
        ("", "m", -1, "1/m"),
        ("1/m", "m", 1, ""),
        ("kN", "mm", 1, "kN·mm"),
        ("mm", "kN", 1, "kN·mm"),
        ("kN·mm", "mm", -1, "kN"),
        ("l/s", "s", 1, "l"),
        ("kg/m²", "m", -1, "kg/m³"),
        ("m⁵", "m⁵", 1, "m¹⁰"),
    ],
)
def test_units_multiply_and_divide(one: str, other: str, power: int, unit: str) -> None:
    assert times_units(one, other, power) == unit
    if power == 1:
        assert (number(2, one) * number(3, other)).unit == unit
    else:
        assert (number(2, one) / number(3, other)).unit == unit


UNITS = st.lists(st.tuples(st.sampled_from(["mm", "m", "kg", "kN", "each", "h", "£"]), st.sampled_from([1, -1])), max_size=4).map(
    lambda parts: reduce(lambda unit, part: times_units(unit, *part), parts, "")
)


@given(UNITS, UNITS, UNITS)
def test_units_do_not_mind_in_which_order_they_are_multiplied(one: str, other: str, third: str) -> None:
    assert times_units(one, other) == times_units(other, one)
    assert times_units(times_units(one, other), third) == times_units(one, times_units(other, third))
    assert times_units(times_units(one, other), other, -1) == one
    assert times_units(one, one, -1) == ""


@pytest.mark.parametrize(
    ("value", "unit", "into", "expected"),
    [
        (9055, "mm", "m", 9.055),
        (9.055, "m", "mm", 9055),
        (1_234_500, "mm²", "m²", 1.2345),
        (1.2345, "m²", "mm²", 1_234_500),
        (100, "kg", "kN", 0.980665),
        (0.980665, "kN", "kg", 100),
        (310, "ml", "l", 0.31),
        (1500, "N", "kN", 1.5),
        (15, "%", "", 0.15),
        (0.15, "", "%", 15),
    ],
)
def test_a_figure_turns_into_another_unit(value: float, unit: str, into: str, expected: float) -> None:
    figure = converted(between(value, value, value * 2, unit, "Amount").named("Amount", "by tape"), into)
    assert (figure.value, figure.unit, figure.label, figure.note) == (expected, into, "Amount", "by tape")
    assert figure.high == 2 * expected
    assert worked_again(figure) == figure.value
    assert where_from(figure).children[-1].figure.known is Known.RULE


def test_a_figure_already_in_the_unit_is_left_as_it_is() -> None:
    metres = number(2, "m", "Run")
    assert converted(metres, "m") == metres
    assert converted(metres, "m", "Length").label == "Length"
    assert converted(number(2000) + number(500), "m", "Run").terms[-1].sign == "×"


def test_what_was_measured_is_its_own_working() -> None:
    tape = number(2380, "mm", "Width", Known.MEASURED)
    assert worked_again(tape) == 2380
    assert where_from(tape) == Reason("", tape, ())


def test_a_figure_names_every_input_it_rests_on_once() -> None:
    tile, bed = replace(between(10, 8, 12), path="tile"), replace(number(3), path="bed")
    top = tile + bed + tile
    assert [each.path for each in rests_on(top, tile)] == ["tile", "bed"]
    assert [each.path for each in rests_on(top, only_open=True)] == ["tile"]


FLOOR = replace(between(23, 21, 28, label="Finished floor"), path="floor")
OVER = replace(between(5, 4, 9, label="Over"), path="over")


def test_an_input_above_and_below_a_line_moves_once() -> None:
    leans = 12 * (FLOOR + 1090).named("Bracket") / (FLOOR + 1210).named("Top")
    assert (leans.low, leans.high) == pytest.approx((12 * 1111 / 1238, 12 * 1118 / 1231))
    sure = together(leans)
    assert (sure.low, sure.value, sure.high) == pytest.approx((12 * 1111 / 1231, 12 * 1113 / 1233, 12 * 1118 / 1238))
    assert (sure.terms, sure.tbc) == (leans.terms, True)


@given(st.floats(21, 28), st.floats(4, 9))
def test_whatever_shared_inputs_turn_out_to_be_the_answer_is_inside(floor: float, over: float) -> None:
    def worked(one: Figure, other: Figure) -> Figure:
        top = (one + 100 + other).named("Top")
        return (top * 2 - one - other * 3) / (one + 7)

    sure, answer = together(worked(FLOOR, OVER)), worked(number(floor), number(over)).value
    assert sure.low - 1e-9 <= answer <= sure.high + 1e-9


def test_what_is_picked_from_several_keeps_its_range() -> None:
    picked = smallest(FLOOR, number(25), label="Lower") - FLOOR / 2
    assert together(picked) == picked
    assert together(number(4)) == number(4)


def test_a_term_left_out_is_not_added_and_taken_off() -> None:
    top = (FLOOR + number(420, label="Top wanted")).named("Top")
    studs = (FLOOR + number(420, label="Top wanted") - number(95, label="Down")).named("Studs")
    assert without(top, FLOOR) == number(420, label="Top wanted")
    left = without(studs, FLOOR)
    assert (left.value, left.settled) == (325, True)
    assert [term.sign for term in left.terms] == ["+", "−"]
    assert rests_on(left, only_open=True) == ()


def test_what_is_no_term_is_taken_off() -> None:
    typed = number(440, label="Typed")
    assert without(typed, FLOOR) == typed - FLOOR
    taken = (number(420, label="Top") - FLOOR).named("Below the floor")
    assert without(taken, FLOOR) == taken - FLOOR
