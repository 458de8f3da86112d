"""The programme's picture: every stage has its bar on its days, and nothing stands outside."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tundish.catalogue.load import supplied_book
from tundish.documents.block import Document
from tundish.documents.drawing import Box, Words
from tundish.documents.programme import build
from tundish.documents.programme_drawing import ACROSS, BESIDE, drawn, stages, told
from tundish.estimate import Estimate, estimate
from tundish.issuing import as_draft
from tundish.pricing.price import Day
from tundish.rules.rule import STAGE_NAMES
from tundish.store.keep import demo_jobs
from tundish.writers.calendar_file import as_calendar
from tundish.writers.text import as_text

WEEK = (
    Day(1, "2026-11-30", (("Strip out", 6.0), ("First fix", 2.0))),
    Day(2, "2026-12-01", (("First fix", 8.0),)),
    Day(3, "2026-12-02", (), "Adhesive and grout cure"),
    Day(4, "2026-12-03", (("Second fix", 3.0),)),
)


def bars(days: tuple[Day, ...]) -> list[Box]:
    return [mark for mark in drawn(days).marks if isinstance(mark, Box) and mark.style == "steel"]


def test_a_bar_is_as_wide_as_its_part_of_the_day() -> None:
    wide = ACROSS / 4
    first, second, whole, last = bars(WEEK)
    assert (first.x, first.width) == pytest.approx((BESIDE, wide * 0.75))
    assert (second.x, second.width) == pytest.approx((BESIDE + wide * 0.75, wide * 0.25))
    assert second.y == whole.y < first.y
    assert (last.x, last.width) == pytest.approx((BESIDE + 3 * wide, wide))


def test_a_wait_is_dashed_and_said() -> None:
    dashed = [mark for mark in drawn(WEEK).marks if isinstance(mark, Box) and mark.style == "hidden"]
    assert [mark.x for mark in dashed] == pytest.approx([BESIDE + ACROSS / 2])
    assert told(WEEK) == "Strip out: 30 Nov; First fix: 30 Nov to 1 Dec; Second fix: 3 Dec; Adhesive and grout cure: 2 Dec"


def test_days_without_a_start_are_numbered() -> None:
    assert told((Day(1, "", (("First fix", 8.0),)), Day(2, "", (("First fix", 1.0),)))) == "First fix: Day 1 to Day 2"


@given(st.lists(st.lists(st.sampled_from(["a", "b", "c"]), min_size=1, max_size=3, unique=True), min_size=1, max_size=90))
def test_everything_lies_within_the_picture_and_every_day_is_full(work: list[list[str]]) -> None:
    days = tuple(Day(place + 1, "", tuple((name, 2.0) for name in names)) for place, names in enumerate(work))
    x, y, wide, high = drawn(days).extent
    boxes = bars(days)
    assert sum(box.width for box in boxes) == pytest.approx(ACROSS)
    assert all(x <= box.x and box.x + box.width <= x + wide + 1e-6 and y <= box.y and box.y + box.height <= y + high for box in boxes)
    right = drawn(days).extent[0] + drawn(days).extent[2]
    assert all(mark.x + mark.width < right for mark in drawn(days).marks if isinstance(mark, Box)), "no edge is cut off on a web page"
    assert [mark.text for mark in drawn(days).marks if isinstance(mark, Words) and mark.anchor == "end"] == list(stages(days))


def demo(number: str) -> Estimate:
    job = next(each for each in demo_jobs() if each.number == number)
    return estimate(job, supplied_book())


@pytest.mark.parametrize("number", ["101", "102", "103", "104"])
def test_the_calendar_file_has_every_day_with_who_and_what_and_the_waits(number: str) -> None:
    """Read back by another reader of the standard's text than the one that wrote it."""
    made = demo(number)
    text = as_calendar(build(made)).decode().replace("\r\n ", "")
    events = [each.partition("END:VEVENT")[0] for each in text.split("BEGIN:VEVENT\r\n")[1:]]
    told = [dict(line.split(":", 1) for line in each.split("\r\n") if ":" in line) for each in events]
    assert [each["DTSTART;VALUE=DATE"] for each in told] == [day.date.replace("-", "") for day in made.price.programme]
    for each, day in zip(told, made.price.programme, strict=True):
        assert each["DESCRIPTION"].startswith("On site: nobody" if day.waits else "On site: ")
        assert (day.waits or day.work[0][0]) in each["SUMMARY"].replace("\\,", ",")
    begins = {name for name, _ in made.price.programme[0].work}
    first = next(
        p for p in sorted(made.buying.purchases, key=lambda one: -one.cost) if {STAGE_NAMES[n.stage] for n in p.line.needs} & begins
    )
    assert first.line.item.name.split(",")[0] in told[0]["DESCRIPTION"]


def test_a_calendar_moves_the_days_of_a_draft_when_the_programme_is_issued_and_issued_again() -> None:
    def names(document: Document) -> list[str]:
        return [line for line in as_calendar(document).decode().replace("\r\n ", "").split("\r\n") if line.startswith("UID")]

    programme = build(demo("103"))
    assert len(set(names(programme))) == len(programme.events)
    assert names(as_draft(programme)) == names(replace(programme, number="103a")) == names(programme)
    assert not set(names(programme)) & set(names(build(demo("102"))))


def test_every_wait_is_told_with_its_hours_and_who_says_so() -> None:
    made = demo("102")
    words = as_text(build(made))
    assert "Tanking dries: 12 hours before tiles" in words
    assert "Common practice: overnight" in words


def test_what_is_still_open_is_told_in_days_on_paper_and_in_the_calendar() -> None:
    made = demo("101")
    open_ = replace(made, price=replace(made.price, reach=(5, 7)))
    paper = build(open_)
    assert "It may take 5 to 7 days" in as_text(paper)
    assert all("It may take 5 to 7 days" in each.words for each in paper.events)
    assert not any("It may take" in each.words for each in build(made).events)
