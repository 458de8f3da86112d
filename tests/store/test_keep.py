"""The store: jobs by revision, the book, stock and papers, whole at every moment."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest

from tundish.catalogue.load import supplied_book
from tundish.catalogue.trader import Trader
from tundish.documents.said import Said
from tundish.estimate import MOST_STEPS, Job
from tundish.pricing.variation import Agreed, Basis, Offer, PricedRow
from tundish.store.database import FILE, CannotOpenError, home
from tundish.store.keep import Store, demo_jobs
from tundish.store.ledger import Ledger
from tundish.store.papers import Paper


@pytest.fixture(autouse=True)
def own_home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = tmp_path / "home"
    monkeypatch.setenv("TUNDISH_HOME", str(folder))
    return folder


def test_the_first_start_brings_the_demonstration() -> None:
    store = Store()
    assert [row.number for row in store.jobs()] == ["101", "102", "103", "104"]
    job_id = store.find("101")
    assert job_id is not None
    opened, revision = store.open(job_id)
    assert revision == 1
    assert opened.job in demo_jobs()
    store.close()


def test_a_second_start_adds_nothing(store: Store) -> None:
    store.close()
    again = Store()
    assert len(again.jobs()) == 4
    again.close()


def test_the_book_comes_back_as_it_was_supplied(store: Store) -> None:
    book, supplied = store.book(), supplied_book()
    assert book.items == supplied.items
    assert book.roles == supplied.roles
    assert {kit: set(parts) for kit, parts in book.kits.items()} == {kit: set(parts) for kit, parts in supplied.kits.items()}
    assert book.offers == supplied.offers
    assert book.suppliers == supplied.suppliers
    assert book.figures == supplied.figures
    assert (dict(book.stock), book.rack) == (dict(supplied.stock), supplied.rack)


def test_each_save_is_a_revision_and_a_clash_keeps_both(store: Store) -> None:
    kept = store.add(Job(number="7", title="first"))
    second = store.save(kept.id, Job(number="7", title="second"), kept.revision, "set title")
    assert (second.id, second.revision, second.clash) == (kept.id, 2, False)

    late = store.save(kept.id, Job(number="7", title="from elsewhere"), kept.revision, "set title")
    assert late.clash
    titles = {store.open(job_id)[0].job.title for job_id in (kept.id, late.id) if store.open(job_id)[0].job}  # type: ignore[union-attr]
    assert titles == {"second", "from elsewhere"}


def test_old_revisions_go_but_for_those_a_paper_was_issued_from(store: Store) -> None:
    kept = store.add(Job(number="7"))
    store.issue(kept.id, Paper("quote", "Quote 7", "pdf", kept.revision, "2026-11-25T10:00:00", "text", b"%PDF"))
    for revision in range(1, MOST_STEPS + 5):
        store.save(kept.id, Job(number="7", title=str(revision)), revision, "set title")
    assert {1, MOST_STEPS + 5} <= store.revisions(kept.id)
    assert 2 not in store.revisions(kept.id)
    (paper,) = store.issued(kept.id)
    assert (paper.body, paper.revision) == (b"%PDF", 1)


def test_there_is_no_such_job(store: Store) -> None:
    opened, revision = store.open(999)
    assert opened.job is None
    assert revision == 0
    assert store.find("no such number") is None


def test_a_job_is_put_away_and_its_place_remembered(store: Store) -> None:
    first = store.jobs()[0].id
    store.put_away(first, away=True)
    store.remember_place(first, "checks")
    row = next(row for row in store.jobs() if row.id == first)
    assert (row.put_away, row.place) == (True, "checks")


def test_a_rule_figure_is_overruled_and_put_back(store: Store) -> None:
    store.overrule("drainage.waste_fall", 22.0)
    changed = store.book().figures["drainage.waste_fall"]
    assert (changed.value, bool(changed.changed), changed.supplied) == (22.0, True, supplied_book().figures["drainage.waste_fall"].value)
    store.overrule("drainage.waste_fall", None)
    assert store.book().figures == supplied_book().figures


def test_stock_is_the_sum_of_its_movements(store: Store) -> None:
    code = next(iter(store.book().stock))
    before = store.book().stock[code]
    Ledger(store).move(code, 5, "goods in")
    Ledger(store).move(code, -2, "used")
    assert store.book().stock[code] == before + 3


def test_settings_and_the_traders_details_are_kept(store: Store) -> None:
    assert store.setting("look") is None
    store.keep_setting("look", {"scheme": "dark"})
    store.keep_setting("look", {"scheme": "light"})
    assert store.setting("look") == {"scheme": "light"}
    store.keep_trader(Trader(name="A. Fitter", phone="01632 960111"))
    assert store.book().trader == Trader(name="A. Fitter", phone="01632 960111")


def test_a_file_that_is_no_database_is_said_in_a_sentence(own_home: Path) -> None:
    own_home.mkdir()
    (own_home / FILE).write_bytes(b"not a database at all, " * 100)
    with pytest.raises(CannotOpenError, match="cannot be opened"):
        Store()


def test_a_home_that_is_a_file_is_said_in_a_sentence(own_home: Path) -> None:
    own_home.write_text("a file stands here")
    with pytest.raises(CannotOpenError, match="cannot be opened"):
        Store()


def test_an_address_that_leads_nowhere_is_said_in_a_sentence() -> None:
    with pytest.raises(CannotOpenError):
        Store("sqlite:////no/such/folder/tundish.db")


def test_the_home_without_a_word_from_the_user_is_the_systems(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("TUNDISH_HOME")
    assert home().name == "Tundish"


def test_opening_what_is_up_to_date_needs_no_migration_library(own_home: Path) -> None:
    Store().close()
    words = "import sys; from tundish.store.keep import Store; Store().close(); print('alembic' in sys.modules)"
    said = subprocess.run([sys.executable, "-c", words], capture_output=True, text=True, check=True, env=dict(os.environ))
    assert said.stdout.strip() == "False"


SAVING = """
import itertools
from tundish.estimate import Job
from tundish.store.ledger import Ledger
from tundish.store.keep import Store
store = Store()
kept = store.add(Job(number="9"))
for revision in itertools.count(1):
    store.save(kept.id, Job(number="9", note="x" * 5000 + str(revision)), revision, "set note")
    print(revision, flush=True)
"""


def test_killed_while_saving_the_last_word_said_is_on_disk() -> None:
    child = subprocess.Popen([sys.executable, "-c", SAVING], stdout=subprocess.PIPE, text=True, env=dict(os.environ))
    assert child.stdout is not None
    said = 0
    for line in child.stdout:
        said = int(line)
        if said >= 25:
            os.kill(child.pid, signal.SIGKILL if hasattr(signal, "SIGKILL") else signal.SIGTERM)
            break
    child.wait()
    child.stdout.close()

    store = Store()
    job_id = store.find("9")
    assert job_id is not None
    opened, revision = store.open(job_id)
    assert opened.job is not None
    assert revision >= said + 1
    assert opened.job == replace(opened.job, note="x" * 5000 + str(revision - 1))
    store.close()


def test_more_used_than_was_there_is_shown_and_buys_nothing_more(store: Store) -> None:
    code = next(iter(store.book().stock))
    Ledger(store).move(code, -store.book().stock[code] - 2, "used")
    assert store.book().stock[code] == -2
    Ledger(store).move(code, 2, "stock-take")
    assert code not in store.book().stock


def test_tenths_that_come_and_go_leave_nothing(store: Store) -> None:
    code = next(code for code in store.book().items if code not in store.book().stock)
    for amount in (0.1, 0.2, -0.3):
        Ledger(store).move(code, amount, "counted")
    assert code not in store.book().stock


def test_a_figure_that_is_no_longer_in_the_rule_book_is_passed_over(store: Store) -> None:
    store.overrule("no.such.figure", 3.0)
    assert store.book().figures == supplied_book().figures


def test_a_paper_keeps_every_byte(store: Store) -> None:
    job_id = store.jobs()[0].id
    body = bytes(range(256)) * 50
    store.issue(job_id, Paper("quote", "Quote", "pdf", 1, "2026-11-25T10:00:00", "Total £1", body))
    assert store.issued(job_id) == (Paper("quote", "Quote", "pdf", 1, "2026-11-25T10:00:00", "Total £1", body),)
    assert store.issued(job_id + 1) == ()


def test_a_quote_keeps_what_it_said_why_and_what_it_offered(store: Store) -> None:
    job_id, job = store.jobs()[0].id, demo_jobs()[0]
    row = PricedRow(what="Frames <&> \u202etfel", net=Decimal("12.50"), percent=Decimal(20))
    offer = Agreed(on="2026-12-01", rows=(row,), basis=Basis(rooms=job.rooms, terms=job.terms))
    said = (Said("Frames", (("Price, £", "12.50"), ("", "=1+1"))), Said("Paragraph"))
    paper = Paper(
        "quote",
        "Quote",
        "pdf",
        1,
        "2026-12-01T10:00:00",
        "text",
        b"",
        said,
        "The client\nasked.",
        (Offer("", offer), Offer("with rail", offer)),
    )
    store.issue(job_id, paper)
    assert store.issued(job_id) == (paper,)
