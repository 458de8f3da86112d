"""Options: what differs is kept, laid over the job as it is, and priced by a real working."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from tundish.catalogue.load import supplied_book
from tundish.estimate import Job, estimate
from tundish.field import Entry, describe, put, removed, walk
from tundish.options import Change, Option, differences, with_changes, without_room
from tundish.store.keep import demo_jobs

FAMILY = next(job for job in demo_jobs() if job.number == "102")
BASIN = "rooms.0.design.appliances.2"
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


def test_a_room_that_is_taken_out_takes_its_changes_along_and_later_rooms_move_up() -> None:
    def changes(*paths: str) -> tuple[Change, ...]:
        return tuple(Change(path=path, value="1") for path in paths)

    mixed = Option(name="mixed", changes=changes("rooms.0.name", "rooms.1.name", "rooms.2.name", "terms.mark_up", "rooms"))
    gone = Option(name="of that room alone", changes=changes("rooms.1.name"))
    (left,) = without_room((mixed, gone), 1)
    assert left.changes == changes("rooms.0.name", "rooms.1.name", "terms.mark_up")
