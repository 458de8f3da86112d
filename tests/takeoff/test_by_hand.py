"""Lines by hand: added, struck out, set; each keeps its reason and what was worked out, and is there after every change of the job."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish.catalogue.load import supplied_book
from tundish.documents.materials import build
from tundish.estimate import Estimate, Job, estimate
from tundish.field import Entry, put
from tundish.plain import from_plain, to_plain
from tundish.store.keep import demo_jobs
from tundish.takeoff.by_hand import ADDS, SETS, STRIKES, LineByHand
from tundish.takeoff.line import Line
from tundish.writers.text import as_text

BOOK: Final = supplied_book()
CLOAKROOM: Final = next(job for job in demo_jobs() if job.number == "101")


def with_rows(*rows: LineByHand, job: Job = CLOAKROOM) -> Estimate:
    return estimate(replace(job, by_hand=rows), BOOK)


def line(worked: Estimate, code: str) -> Line | None:
    return next((each for each in worked.lines if each.item.code == code), None)


def counted() -> str:
    """An item of the cloakroom that is counted and not cut."""
    return next(each.item.code for each in with_rows().lines if each.item.unit == "each" and not each.cuts and not each.own)


def test_what_is_added_is_bought_with_its_reason_and_comes_on_top_of_what_was_worked_out() -> None:
    code = counted()
    before, after = line(with_rows(), code), line(with_rows(LineByHand(item=code, amount=Entry(3), why="two get lost")), code)
    assert before is not None
    assert after is not None
    assert after.amount.value == before.amount.value + 3
    assert "by hand: two get lost" in after.because


def test_an_item_that_no_rule_asked_for_is_a_line_of_its_own_and_costs() -> None:
    code = next(code for code in BOOK.items if code.startswith("skip"))
    worked = with_rows(LineByHand(item=code, amount=Entry(1), stage="strip out", why="no room for bags"))
    found = line(worked, code)
    assert found is not None
    assert found.amount.value == 1
    assert worked.price.materials_cost > with_rows().price.materials_cost
    assert worked.price.stages[0].materials > with_rows().price.stages[0].materials


def test_a_length_of_bar_is_added_as_a_piece_to_cut() -> None:
    code = next(each.item.code for each in with_rows().lines if each.cuts and each.cuts[0].width is None)
    worked = with_rows(LineByHand(item=code, amount=Entry(700), stage="frames", why="a leg under the shelf"))
    found = line(worked, code)
    assert found is not None
    assert [cut.length.value for cut in found.cuts if cut.mark == "H1"] == [700]
    plan = next(each for each in worked.cuts if each.item.code == code)
    assert "H1" in {cut.mark for cut in plan.cuts}


def test_a_line_struck_out_is_in_no_order_and_still_told() -> None:
    code = counted()
    worked = with_rows(LineByHand(item=code, does=STRIKES, why="the client has them"))
    assert line(worked, code) is None
    assert code not in {each.line.item.code for each in worked.buying.purchases}
    (told,) = worked.by_hand
    assert told.was == line(with_rows(), code).amount  # type: ignore[union-attr]
    assert (told.item.code, told.now, told.why) == (code, None, "the client has them")


def test_a_line_set_keeps_what_was_worked_out_beside_it() -> None:
    code = counted()
    was = line(with_rows(), code)
    now = line(with_rows(LineByHand(item=code, does=SETS, amount=Entry(50), why="a box")), code)
    assert was is not None
    assert now is not None
    assert now.amount.value == 50
    assert sum(need.amount.value for need in now.needs) == pytest.approx(50)
    assert now.amount.note == f"by hand: a box; worked out {was.amount.value:g}"


def test_the_materials_list_tells_what_was_changed_by_hand() -> None:
    code = counted()
    was = line(with_rows(), code)
    assert was is not None
    words = as_text(build(with_rows(LineByHand(item=code, does=STRIKES, why="the client has them"))))
    assert " ".join(f"{was.item.name}: struck out, {was.amount.value:g} worked out; the client has them".split()) in " ".join(words.split())
    assert "Changed by hand" not in as_text(build(with_rows()))


def test_it_is_kept_when_the_room_changes_and_in_the_job_file() -> None:
    code = counted()
    job = replace(CLOAKROOM, by_hand=(LineByHand(item=code, amount=Entry(3), why="spare"),))
    wider = replace(job, rooms=(put(job.rooms[0], "survey.room.width", Entry(1600)),))
    assert [each.item.code for each in estimate(wider, BOOK).by_hand] == [code]
    assert from_plain(Job, to_plain(job))[0] == job


@pytest.mark.parametrize(
    ("row", "path", "said"),
    [
        (LineByHand(item="no such"), "by_hand.0.item", "There is no item no such: choose one of the catalogue"),
        (LineByHand(item="skip-none", does=STRIKES), "by_hand.0.item", "There is no item skip-none"),
        (LineByHand(item="", does=ADDS), "by_hand.0.item", "There is no item named"),
    ],
)
def test_what_cannot_be_changed_is_told_and_changes_nothing(row: LineByHand, path: str, said: str) -> None:
    worked = with_rows(row)
    assert [each.path for each in worked.problems] == [path]
    assert said in worked.problems[0].text
    assert worked.lines == with_rows().lines


def test_sheets_and_lines_that_are_cut_say_what_to_do_instead() -> None:
    sheet = next(each.item.code for each in with_rows().lines if each.cuts and each.cuts[0].width is not None)
    bar = next(each.item.code for each in with_rows().lines if each.cuts and each.cuts[0].width is None)
    told = [
        with_rows(LineByHand(item=sheet, amount=Entry(1))).problems[0].text,
        with_rows(LineByHand(item=bar, does=SETS, amount=Entry(1))).problems[0].text,
        with_rows(LineByHand(item=counted(), does=SETS)).problems[0].text,
    ]
    assert "change the faces they cover" in told[0]
    assert "strike the line out, or add a length" in told[1]
    assert "type how much" in told[2]


@settings(deadline=None, max_examples=20)
@given(st.data())
def test_the_price_adds_up_whatever_is_changed_by_hand(data: st.DataObject) -> None:
    codes = [each.item.code for each in with_rows().lines]
    rows = data.draw(
        st.lists(
            st.builds(
                LineByHand,
                item=st.sampled_from(codes),
                does=st.sampled_from((ADDS, STRIKES, SETS)),
                amount=st.builds(Entry, st.integers(0, 5000).map(float)),
            ),
            max_size=5,
        )
    )
    price = with_rows(*rows).price
    assert price.before_vat == sum(each.price for each in price.stages) + sum(each.amount for each in price.beside)
    assert sum(each.amount for each in price.payments) == price.total
