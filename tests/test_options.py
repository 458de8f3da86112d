"""Options: what differs is kept, laid over the job as it is, and priced by a real working."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from tundish.catalogue.load import supplied_book
from tundish.estimate import Job, estimate
from tundish.field import Entry, added, describe, put, removed, walk
from tundish.layout.design import Undecided
from tundish.options import Change, Option, differences, with_changes, without_row, words
from tundish.session import Session
from tundish.store.keep import demo_jobs

FAMILY = next(job for job in demo_jobs() if job.number == "102")
WARE = "rooms.0.design.appliances"
BASIN = f"{WARE}.2"
TOPS = st.tuples(st.integers(0, 5), st.integers(200, 900))
NUMBERS = [path for path, declared, _ in walk(FAMILY) if declared.kind == "number"]


def option(name: str, after: Job) -> Option:
    return Option(name=name, changes=differences(FAMILY, after))


@given(st.lists(st.tuples(st.sampled_from(NUMBERS), st.integers(1, 50)), max_size=5), st.booleans())
def test_the_differences_laid_over_give_the_other_job(edits: list[tuple[str, int]], without: bool) -> None:
    after = FAMILY
    for path, value in edits:
        least, most = describe(Job, path).least or 0, describe(Job, path).most or 50
        after = put(after, path, Entry(min(max(value, least), most)))
    if without:
        after = removed(after, "rooms.0.design.appliances", 1)
    assert with_changes(FAMILY, differences(FAMILY, after)) == (after, ())


@given(
    st.lists(st.integers(0, 7), max_size=6), st.lists(st.tuples(st.integers(0, 5), st.integers(200, 900)), max_size=4), st.integers(0, 2)
)
def test_whatever_goes_out_changes_or_comes_in_is_laid_over_to_the_last_row(out: list[int], tops: list[tuple[int, int]], new: int) -> None:
    rows = FAMILY.rooms[0].design.appliances
    many = put(FAMILY, WARE, tuple(replace(each, name=f"{each.name}{turn}") for turn in range(2) for each in rows))
    after = many
    for place in out:
        if place < len(after.rooms[0].design.appliances):
            after = removed(after, WARE, place)
    for place, top in tops:
        if place < len(after.rooms[0].design.appliances):
            after = put(after, f"{WARE}.{place}.top", Entry(top))
    for turn in range(new):
        after = added(after, WARE, replace(rows[0], name=f"new {turn}"))
    assert with_changes(many, differences(many, after)) == (after, ())


def test_an_option_is_priced_as_the_job_it_makes() -> None:
    plain = put(FAMILY, f"{BASIN}.ware", "basin-fethan-500")
    none = removed(FAMILY, "rooms.0.design.appliances", 1)
    worked = estimate(replace(FAMILY, options=(option("the smaller basin", plain), option("without the bidet", none))), supplied_book())
    assert [each.name for each in worked.options] == ["the smaller basin", "without the bidet"]
    assert worked.options[1].price == estimate(none, supplied_book()).price
    assert worked.options[1].price.total < worked.price.total
    assert worked.options[0].changes == ("Model",)


def test_options_never_leak_into_the_job_or_one_another() -> None:
    options = (option("without the bidet", removed(FAMILY, "rooms.0.design.appliances", 1)), option("as it is", FAMILY))
    alone, beside = estimate(FAMILY, supplied_book()), estimate(replace(FAMILY, options=options), supplied_book())
    assert (beside.price, beside.lines, beside.findings) == (alone.price, alone.lines, alone.findings)
    assert beside.options[1].price == alone.price


def test_facts_found_later_reach_every_option() -> None:
    taller = option("taller wall", put(FAMILY, "rooms.0.design.prewall.top", Entry(1300)))
    moved = put(replace(FAMILY, options=(taller,)), "rooms.0.survey.stack.from_left", Entry(1200))
    (priced,) = estimate(moved, supplied_book()).options
    assert priced.price == estimate(put(replace(moved, options=()), "rooms.0.design.prewall.top", Entry(1300)), supplied_book()).price


def test_a_change_that_no_longer_fits_is_said() -> None:
    odd = Option(name="old", changes=(Change(path="rooms.7.name", value='"x"'), Change(path="rooms.0.name", value="{")))
    worked = estimate(replace(FAMILY, options=(odd,)), supplied_book())
    assert [each.path for each in worked.problems] == ["options.0"]
    assert all(each.text.startswith("old: ") for each in worked.problems)
    assert worked.options[0].price == worked.price


def changes(*paths: str) -> tuple[Change, ...]:
    return tuple(Change(path=path, value="1") for path in paths)


def test_a_row_that_is_taken_out_takes_its_changes_along_and_later_rows_move_up() -> None:
    mixed = Option(name="mixed", changes=changes("rooms.0.name", "rooms.1.name", "rooms.2.name", "terms.mark_up", "rooms"))
    gone = Option(name="of that room alone", changes=changes("rooms.1.name"))
    (left,) = without_row((mixed, gone), "rooms", 1)
    assert left.changes == changes("rooms.0.name", "rooms.1.name", "terms.mark_up")


def test_an_option_speaks_of_the_same_appliance_when_another_goes() -> None:
    for place, appliance in enumerate(FAMILY.rooms[0].design.appliances):
        lower = option("lower", put(FAMILY, f"{WARE}.{place}.top", Entry(777)))
        for gone, _ in enumerate(FAMILY.rooms[0].design.appliances):
            session = Session(replace(FAMILY, options=(lower,)))
            session.remove(WARE, gone, "take out")
            if gone == place:
                assert session.job.options == ()
                continue
            made, wrong = with_changes(session.job, session.job.options[0].changes)
            assert wrong == ()
            assert [each.name for each in made.rooms[0].design.appliances if each.top == Entry(777)] == [appliance.name]
            session.undo()
            assert session.job.options == (lower,)


def test_what_an_option_leaves_out_stays_out_and_what_it_brings_in_stays_in_when_a_row_goes() -> None:
    spare = replace(FAMILY.rooms[0].design.appliances[2], name="Basin 2", centre=Entry(2_000))
    after = added(removed(FAMILY, WARE, 1), WARE, spare)
    other = option("two basins", after)
    assert [(each.path, bool(each.value)) for each in other.changes] == [(f"{WARE}.1", False), (f"{WARE}.+", True)]
    session = Session(replace(FAMILY, options=(other,)))
    session.remove(WARE, 0, "take out the pan")
    made, wrong = with_changes(session.job, session.job.options[0].changes)
    assert wrong == ()
    assert [each.name for each in made.rooms[0].design.appliances] == ["Basin 1", "Basin 2"]


def test_facts_found_later_reach_rows_beside_one_that_an_option_leaves_out() -> None:
    without = option("no bidet", removed(FAMILY, WARE, 1))
    moved = put(replace(FAMILY, options=(without,)), f"{WARE}.2.centre", Entry(1_801))
    made, _ = with_changes(moved, without.changes)
    assert made.rooms[0].design.appliances[1].centre == Entry(1_801)


def test_a_choice_left_open_beside_a_row_that_an_option_leaves_out_is_open_in_it_too() -> None:
    open_ = put(FAMILY, "rooms.0.undecided", (Undecided(choice="design.appliances.2.tap", other=""),))
    session = Session(open_)
    session.remove(WARE, 1, "no bidet")
    without = Option(name="no bidet", changes=differences(open_, session.job))
    assert with_changes(open_, without.changes) == (session.job, ())
    assert session.job.rooms[0].undecided == (Undecided(choice="design.appliances.1.tap", other=""),)
    settled = put(session.job, "rooms.0.undecided", ())
    other = differences(open_, settled)
    assert other[-1].path == "rooms.0.undecided"
    assert with_changes(open_, other) == (settled, ())
    (left,) = without_row((Option(name="settled", changes=other),), WARE, 0)
    assert [each.path for each in left.changes] == [f"{WARE}.0"]


def test_a_list_that_an_option_has_whole_loses_the_row_that_goes() -> None:
    rows = FAMILY.rooms[0].design.appliances
    turned = option("other way round", put(FAMILY, WARE, (rows[2], *rows[:2], replace(rows[0], name="WC 9"))))
    assert [each.path for each in turned.changes] == [WARE]
    session = Session(replace(FAMILY, options=(turned,)))
    session.remove(WARE, 1, "take out")
    made, _ = with_changes(session.job, session.job.options[0].changes)
    assert rows[1].name not in [each.name for each in made.rooms[0].design.appliances]
    (left,) = without_row((turned,), WARE, 1)[:1] or (None,)
    assert left is None, "of a row that is not known nothing can be said"


def test_rows_that_go_by_another_edit_are_followed_too() -> None:
    lower = option("lower", put(FAMILY, f"{WARE}.2.top", Entry(777)))
    session = Session(replace(FAMILY, options=(lower,)))
    session.edit("take out two", put(session.job, WARE, session.job.rooms[0].design.appliances[2:]))
    assert [each.path for each in session.job.options[0].changes] == [f"{WARE}.0.top"]


def test_changes_are_said_in_words() -> None:
    spare = replace(FAMILY.rooms[0].design.appliances[2], name="Basin 2")
    after = put(added(removed(FAMILY, WARE, 1), WARE, spare), "rooms.0.design.prewall.top", Entry(1300))
    assert words(FAMILY, differences(FAMILY, after)) == ("Top of pre-wall", "without Bidet 1", "with Basin 2")
    assert words(FAMILY, changes("no.such")) == ("no.such",)
    assert words(FAMILY, (Change(path=f"{WARE}.77", value=""), Change(path=f"{WARE}.+", value="{"))) == (f"{WARE}.77", f"{WARE}.+")


def test_rows_that_cannot_be_taken_in_or_out_are_said() -> None:
    odd = (Change(path=f"{WARE}.+", value='{"kind": "boat"}'), Change(path=f"{WARE}.9", value=""), Change(path=f"{WARE}.x", value=""))
    made, wrong = with_changes(FAMILY, odd)
    assert made == FAMILY
    assert [each.path.startswith(WARE) for each in wrong] == [True, True, True]
