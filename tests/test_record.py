"""Records made by the thousand behave as all other records do, and the type checker keeps them frozen."""

from __future__ import annotations

from dataclasses import replace

from tundish.record import record


@record
class Place:
    """Somewhere on a wall."""

    x: float
    name: str = ""


def test_records_of_the_same_are_the_same() -> None:
    assert Place(1.0, "tap") == Place(1.0, "tap") != Place(2.0, "tap")
    assert len({Place(1.0), Place(1.0), Place(2.0)}) == 2


def test_a_changed_record_is_another() -> None:
    one = Place(1.0, "tap")
    assert replace(one, x=2.0) == Place(2.0, "tap")
    assert one.x == 1.0


def test_a_record_holds_nothing_but_its_fields() -> None:
    assert not hasattr(Place(1.0), "__dict__")


def test_the_type_checker_keeps_them_frozen_and_nothing_does_at_run_time() -> None:
    """Were the line allowed, the type checker would find that it ignores nothing."""
    one = Place(1.0)
    one.x = 2.0  # type: ignore[misc]  # read-only
    assert one.x == 2.0
