"""What a rule is made of, and what a finding knows of itself."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest

from tundish.catalogue.book import Book
from tundish.figure import Figure, between, number
from tundish.layout.room import Room
from tundish.rules.rule import Finding, Need, judge, rule

TEN = number(10)


def finding(has: Figure | None, least: Figure | None = None, most: Figure | None = None) -> Finding:
    return Finding("Depth", "Void", "passes", has, "Maker", "a sheet", least, most)


def test_a_rule_takes_its_words_from_its_docstring() -> None:
    @rule("frames/one", source="common practice", figures=("frames.packer",))
    def one(room: Room, book: Book) -> Iterator[Need]:
        """Each frame is one.

        And never two.
        """
        yield from ()

    assert (one.key, one.family, one.sentence, one.more) == ("frames/one", "frames", "Each frame is one.", "And never two.")
    assert (one.source, one.figures, one.reads) == ("common practice", ("frames.packer",), "room")


@pytest.mark.parametrize(
    ("value", "least", "most", "state"),
    [
        (10, 10, None, "passes"),
        (9.9, 10, None, "fails"),
        (10, None, 10, "passes"),
        (10.1, None, 10, "fails"),
        (10, None, None, "passes"),
        (9.9999999, 10, 10, "passes"),
    ],
)
def test_a_figure_is_judged_by_its_limits(value: float, least: float | None, most: float | None, state: str) -> None:
    low, high = (None if each is None else number(each) for each in (least, most))
    assert judge(number(value), low, high) == state


def test_what_misses_guidance_is_to_be_looked_at() -> None:
    assert judge(number(9), TEN, None, "look") == "look"


@pytest.mark.parametrize(
    ("has", "least", "most", "spare"), [(12, 10, None, 2), (12, 10, 13, 1), (9, 10, 13, -1), (15, None, 13, -2), (15, None, None, None)]
)
def test_room_to_spare_is_to_the_nearer_limit(has: float, least: float | None, most: float | None, spare: float | None) -> None:
    low, high = (None if each is None else number(each) for each in (least, most))
    assert finding(number(has), low, high).spare == spare


def test_without_a_figure_there_is_nothing_to_spare() -> None:
    assert finding(None, TEN).spare is None


def test_a_finding_is_to_be_confirmed_when_any_of_its_figures_is() -> None:
    open_ = between(10, 8, 12)
    assert finding(open_, TEN).tbc
    assert finding(TEN, None, open_).tbc
    assert not finding(TEN, TEN).tbc
    assert not finding(None).tbc


@pytest.mark.parametrize(
    ("low", "high", "verdict", "words"),
    [
        (10, 14, "always", "passes whatever is decided"),
        (9, 14, "depends", "depends on: Tile"),
        (5, 9, "never", "fails whatever is decided"),
    ],
)
def test_a_check_is_judged_over_the_whole_range(low: float, high: float, verdict: str, words: str) -> None:
    value = (low + high) / 2
    tile = replace(between(value, low, high, label="Tile"), path="rooms.0.tile")
    state = judge(tile, TEN, None)
    one = replace(finding(tile + number(0), TEN), state=state)
    assert (one.verdict, one.verdict_words) == (verdict, words)


def test_between_two_limits_a_range_must_keep_within_both() -> None:
    inside, over = between(11, 10, 12), between(11, 10, 13)
    assert finding(inside, TEN, number(12)).verdict == "always"
    assert finding(over, TEN, number(12)).verdict == "depends"


def test_an_open_input_without_a_range_may_be_anything() -> None:
    top = replace(number(400, label="Top of pan"), tbc=True, path="rooms.0.top")
    tile = replace(between(10, 8, 12, label="Tile"), path="rooms.0.tile")
    one = finding(top + tile, TEN)
    assert (one.verdict, one.verdict_words) == ("depends", "depends on: Top of pan"), "over the tile alone it passes"


def test_a_settled_check_has_no_words_of_what_may_be_decided() -> None:
    assert (finding(number(12), TEN).verdict, finding(number(12), TEN).verdict_words) == ("always", "")
    assert (finding(None, TEN).verdict, finding(None, TEN).verdict_words) == ("cannot tell", "")
    assert replace(finding(number(9), TEN), state="fails").verdict == "never"


def test_an_open_figure_without_limits_depends_on_itself() -> None:
    assert finding(between(10, 8, 12)).verdict_words == "depends on what is still open"
