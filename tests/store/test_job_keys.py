"""A job keeps its orders, what is kept for it, its photographs and papers, whatever it is numbered; none gets those of another."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tundish.catalogue.item import RackPiece
from tundish.estimate import Job, estimate
from tundish.store.keep import Store
from tundish.store.ledger import GOODS_IN, Ledger
from tundish.store.orders import Orders
from tundish.store.papers import Paper

NUMBERS: Final = ("101", "102", "103", "", "7a", "#2")


def numbered(store: Store, job_id: int, number: str) -> None:
    """Give a job another number, as the window does."""
    opened, revision = store.open(job_id)
    assert opened.job is not None
    store.save(job_id, replace(opened.job, number=number), revision, "set job number")


def kept_for(store: Store, job_id: int) -> tuple[object, ...]:
    """All that is known of a job by its key, and what it would reckon with."""
    key, ledger = store.key_of(job_id), Ledger(store)
    orders = [(each.number, each.supplier, len(each.lines)) for each in Orders(store).all(key)]
    held = sorted((each.item, each.amount) for each in ledger.on_hand() if each.job == key)
    rack = sorted(piece.key for piece, _ in ledger.pieces() if piece.job == key)
    return orders, held, rack, dict(store.book(key).stock), store.issued(job_id)


def furnished(store: Store) -> dict[int, tuple[object, ...]]:
    """What is known of every demonstration job once it has an order, stock and a piece of the rack of its own."""
    ledger = Ledger(store)
    for count, row in enumerate(sorted(store.jobs(), key=lambda row: row.id), 1):
        opened, _ = store.open(row.id)
        picks = [pick for each in estimate(opened.job or Job(), store.book()).buying.purchases for pick in each.picks]
        Orders(store).draft(store.key_of(row.id), "oddmoor", picks[:count])
        ledger.move("sound-pad", count * 10, GOODS_IN, job=store.key_of(row.id))
        ledger.put_by(RackPiece("", "strut-41x21", 1000.0 + count, 0.0, "van rack", store.key_of(row.id)))
        store.issue(row.id, Paper("order", f"Order {count}", "pdf", 1, "2026-12-01T10:00:00", "words", b""))
    return {row.id: kept_for(store, row.id) for row in store.jobs()}


def test_what_is_kept_for_a_job_goes_with_its_number_and_back(store: Store) -> None:
    before = furnished(store)
    job_id = store.find("102") or 0
    for number in ("350", "", "102 b", "102"):
        numbered(store, job_id, number)
        assert {row.id: kept_for(store, row.id) for row in store.jobs()} == before
    assert [order.job for order in Orders(store).all("102")] == ["102"]


@settings(max_examples=15, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(st.tuples(st.integers(0, 2), st.sampled_from(NUMBERS)), max_size=5))
def test_no_job_gets_what_is_anothers_however_they_are_numbered(store: Store, steps: list[tuple[int, str]]) -> None:
    """Numbers given twice, taken away, changed about."""
    before = {row.id: kept_for(store, row.id) for row in store.jobs()} if Orders(store).all() else furnished(store)
    places = sorted(before)
    for place, number in steps:
        numbered(store, places[place], number)
        assert len({store.key_of(each) for each in places}) == len(places)
        assert {each: kept_for(store, each) for each in places} == before
