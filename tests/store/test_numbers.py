"""Numbers across all jobs: none is given twice, and one that is not in use says why."""

from __future__ import annotations

import sqlite3
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest

from tests.store.earlier import take_back
from tundish.estimate import Job
from tundish.pricing.invoice import Charge, Invoice, credit, next_number
from tundish.pricing.variation import Variation
from tundish.store.bills import bills_of, gaps_of
from tundish.store.database import FILE, home
from tundish.store.keep import Store
from tundish.store.ledger import Ledger
from tundish.store.numbers import BILL, QUOTE, VARIATION, NumberTakenError
from tundish.store.papers import Paper

BILLED = Invoice(number="7-1", what="With your acceptance", charges=(Charge(what="all", net=Decimal(10), percent=Decimal(20)),))
QUOTED = Paper("quote", "Quote 7 Smith", "pdf", 1, "2026-11-12T19:40:00", "words", b"")


def numbers(store: Store, kind: str) -> list[str]:
    return [each.number for each in store.numbers(kind)]


def test_a_bill_that_was_undone_keeps_its_number_and_says_why_until_it_comes_back(store: Store) -> None:
    job = Job(number="7")
    kept = store.add(job)
    billed = replace(job, invoices=(BILLED,))
    store.save(kept.id, billed, 1, "make invoice 7-1")
    (one,) = store.numbers(BILL)
    assert (one.number, one.what, one.gone) == ("7-1", "Invoice, With your acceptance, £12.00", "")
    store.save(kept.id, job, 2, "undone: make invoice 7-1")
    (one,) = store.numbers(BILL)
    assert (bool(one.gone), one.why) == (True, "undone: make invoice 7-1")
    assert next_number("7", (), numbers(store, BILL)) == "7-2"
    store.save(kept.id, billed, 3, "make invoice 7-1")
    (one,) = store.numbers(BILL)
    assert (one.gone, one.why) == ("", "")


def test_bills_credit_notes_and_variations_are_kept_apart(store: Store) -> None:
    note = credit(BILLED, "7-2", "2026-12-01")
    store.add(Job(number="7", invoices=(BILLED, note), variations=(Variation(number="7-V1"),)))
    assert [each.what for each in store.numbers(BILL)] == ["Invoice, With your acceptance, £12.00", "Credit note for 7-1, −£12.00"]
    assert numbers(store, VARIATION) == ["7-V1"]
    assert len(store.numbers()) == 3


def test_two_jobs_of_one_number_never_give_one_bill_number_twice(store: Store) -> None:
    store.add(Job(number="7", invoices=(BILLED,)))
    other = store.add(Job(number="7"))
    made = next_number("7", (), numbers(store, BILL))
    assert made == "7-2"
    store.save(other.id, Job(number="7", invoices=(replace(BILLED, number=made),)), 1, "make invoice")
    assert numbers(store, BILL) == ["7-1", "7-2"]


def test_a_quote_goes_out_under_the_number_of_one_job_alone(store: Store) -> None:
    one, other = store.add(Job(number="7")).id, store.add(Job(number="7")).id
    store.issue(one, QUOTED, "7")
    store.issue(one, QUOTED, "7")
    assert numbers(store, QUOTE) == ["7"]
    with pytest.raises(NumberTakenError, match="A quote 7 went out for another job"):
        store.issue(other, QUOTED, "7")
    assert store.issued(other) == ()
    store.issue(other, QUOTED, "7a")
    nameless = store.add(Job()).id
    store.issue(nameless, QUOTED, "a")
    assert numbers(store, QUOTE) == ["7", "7a"]


def test_a_new_job_has_a_number_that_nothing_was_kept_under(store: Store) -> None:
    assert store.next_job_number() == "105"
    kept = store.add(Job(number="205", invoices=(replace(BILLED, number="205-1"),)))
    store.save(kept.id, Job(number="Smith"), 1, "set Job number")
    assert store.next_job_number() == "206", "a bill was given under 205"
    Ledger(store).move(next(iter(store.book().items)), 1, "goods in", job="210")
    assert store.next_job_number() == "211"


def test_numbers_given_before_they_were_kept_are_found(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TUNDISH_HOME", str(tmp_path))
    store = Store()
    job = Job(number="7", variations=(Variation(number="7-V1"),))
    kept = store.add(job)
    store.save(kept.id, replace(job, invoices=(BILLED,)), 1, "make invoice 7-1")
    store.save(kept.id, job, 2, "undone")
    store.issue(kept.id, QUOTED, "7")
    store.close()
    take_back("0008")
    with sqlite3.connect(tmp_path / FILE) as there:
        assert not there.execute("SELECT name FROM sqlite_master WHERE name = 'numbers'").fetchall()
    there.close()
    store = Store()
    assert [(each.number, bool(each.gone)) for each in store.numbers()] == [("7-V1", False), ("7-1", True), ("7", False)]
    store.close()


def test_the_list_of_bills_leaves_the_demonstration_out_and_tells_why_a_number_is_gone(store: Store) -> None:
    store.add(Job(number="9", demo="yes", invoices=(replace(BILLED, number="9-1"),)))
    kept = store.add(Job(number="7", invoices=(BILLED,)))
    store.save(kept.id, Job(number="7"), 1, "undone: make invoice 7-1")
    again = store.add(Job(number="8", invoices=(replace(BILLED, number="8-1"),)))
    store.put_away(again.id, away=True)
    billed, (gone,) = bills_of(store)
    assert [each.invoice.number for each in billed] == ["8-1"]
    assert (gone.number, gone.what) == ("7-1", "Invoice, With your acceptance, £12.00")
    assert gone.why.startswith("Undone: make invoice 7-1, ")
    assert gaps_of(store, again.id) == ()
    (words,) = gaps_of(store, kept.id)
    assert words.startswith("7-1 is not given again. Invoice, With your acceptance, £12.00, ")


def test_a_number_whose_job_is_no_longer_there_stays_given(store: Store) -> None:
    kept = store.add(Job(number="7", invoices=(BILLED,)))
    with sqlite3.connect(home() / FILE) as there:
        there.execute("PRAGMA foreign_keys=ON")
        there.execute("DELETE FROM jobs WHERE id = ?", (kept.id,))
    there.close()
    _, (gone,) = bills_of(store)
    assert (gone.number, gone.why) == ("7-1", "Its job is no longer here")
    assert next_number("7", (), numbers(store, BILL)) == "7-2"
    assert store.next_job_number() == "105"
