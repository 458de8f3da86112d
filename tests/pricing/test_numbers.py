"""Numbers that follow one another: none twice, and what is missing between is known."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from tundish.pricing.numbers import holes, next_after

numbers = st.lists(st.builds(lambda stem, place: f"{stem}{place}", st.sampled_from(("", "7-", "7-V", "71-")), st.integers(1, 30)))


@given(numbers, st.sampled_from(("", "7-", "7-V", "71-")))
def test_the_next_number_was_never_given_and_leaves_no_hole_of_its_own(given_before: list[str], stem: str) -> None:
    made = next_after(stem, given_before)
    assert made not in given_before
    assert set(holes([*given_before, made])) == set(holes(given_before))


@given(numbers)
def test_what_is_missing_was_not_given_and_nothing_else_is(given_before: list[str]) -> None:
    missing = holes(given_before)
    assert not set(missing) & set(given_before)
    assert holes([*given_before, *missing]) == ()


def test_numbers_of_other_jobs_and_kinds_do_not_count() -> None:
    assert next_after("7-", ["71-9", "7-V4", "17-8", "7-2"]) == "7-3"
    assert next_after("7-", []) == "7-1"
    assert holes(["7-3", "8-1", "words"]) == ("7-1", "7-2")


def test_a_number_of_many_figures_is_read_to_its_end_and_no_further() -> None:
    assert next_after("7-", ["7-" + "9" * 40]) == "7-1"
    assert holes(["7-999999"]) == (), "somebody typed that"
