"""The database file: its schema, two programs at once, and what is said when it cannot be used."""

from __future__ import annotations

import os
import sqlite3
import subprocess
import sys
from decimal import Decimal
from pathlib import Path

import pytest
import sqlalchemy as sa
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext

from tests.store.earlier import take_back
from tundish.estimate import Job
from tundish.store import database
from tundish.store.database import FILE, SCHEMA, CannotKeepError, CannotOpenError, open_engine
from tundish.store.keep import Store
from tundish.store.offer_search import find_offers
from tundish.store.price_list import old_prices, undo
from tundish.store.tables import META

ROOT = Path(__file__).parents[2]


@pytest.fixture(autouse=True)
def own_home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = tmp_path / "home"
    monkeypatch.setenv("TUNDISH_HOME", str(folder))
    return folder


def child(words: str, *given: str) -> subprocess.Popen[str]:
    """Another program on the same database."""
    return subprocess.Popen([sys.executable, "-c", words, *given], stdout=subprocess.PIPE, text=True, env=dict(os.environ))


def said_by(one: subprocess.Popen[str]) -> str:
    said, _ = one.communicate()
    assert one.returncode == 0
    return said.strip()


def test_the_schema_steps_make_the_tables_that_are_declared() -> None:
    engine = open_engine()
    with engine.connect() as connection:
        # The index of words is a virtual table of SQLite with tables of its own behind it.
        ours = {"include_name": lambda name, kind, _parents: kind != "table" or not str(name).startswith("offer_words")}
        assert compare_metadata(MigrationContext.configure(connection, opts=ours), META) == []
        assert connection.execute(sa.text("SELECT version_num FROM alembic_version")).scalar() == SCHEMA
    engine.dispose()


def test_a_schema_step_that_fails_leaves_nothing_behind(own_home: Path) -> None:
    own_home.mkdir()
    with sqlite3.connect(own_home / FILE) as there:
        there.execute("CREATE TABLE papers (of_another INTEGER)")
    there.close()
    with pytest.raises(CannotOpenError, match="papers"):
        open_engine()
    there = sqlite3.connect(own_home / FILE)
    assert [name for (name,) in there.execute("SELECT name FROM sqlite_master WHERE type = 'table'")] == ["papers"]
    there.close()


def test_what_an_earlier_program_took_in_is_still_undone(own_home: Path) -> None:
    """Schema 6 kept what an import changed as JSON."""
    store = Store()
    before = store.book().offers
    store.close()
    take_back("0006")
    with sqlite3.connect(own_home / FILE) as there:
        there.executescript(TAKEN_IN_BEFORE)
    there.close()
    store = Store()
    assert store.book().offers != before
    assert [(each.code, each.price) for each in find_offers(store, "old9")] == [("OLD9", Decimal(7))]
    assert old_prices(store, "oddmoor", "OB2027") == (("2026-09-14", Decimal("8.90")),)
    assert undo(store, "oddmoor") == 2
    assert store.book().offers == before
    assert not find_offers(store, "old9")
    store.close()


TAKEN_IN_BEFORE = """
INSERT INTO imports VALUES (1, 'oddmoor', 'list.csv', '2026-11-01T10:00:00', '');
INSERT INTO price_changes SELECT 1, 1, id,
    json_object('price', price, 'pack', pack, 'least', least, 'valid_from', valid_from, 'code', code),
    json_object('price', '9.90', 'pack', pack, 'least', least, 'valid_from', '2026-11-01', 'code', code)
    FROM offers WHERE code = 'OB2027';
UPDATE offers SET price = '9.90', valid_from = '2026-11-01' WHERE code = 'OB2027';
INSERT INTO offers (item, supplier, code, pack, price, valid_from, length, width)
    VALUES ('sound-pad', 'oddmoor', 'OLD9', 4, '7', '2026-11-01', 0, 0);
INSERT INTO price_changes VALUES (2, 1, (SELECT MAX(id) FROM offers), 'null',
    '{"price": "7", "pack": 4, "least": 1, "valid_from": "2026-11-01", "code": "OLD9"}');
"""


def test_a_database_of_a_newer_program_is_left_alone(own_home: Path) -> None:
    Store().close()
    with sqlite3.connect(own_home / FILE) as there:
        there.execute("UPDATE alembic_version SET version_num = '0999'")
    there.close()
    before = (own_home / FILE).read_bytes()
    with pytest.raises(CannotOpenError, match="newer Tundish"):
        Store()
    assert (own_home / FILE).read_bytes() == before


def test_a_folder_in_the_place_of_the_file_is_said(own_home: Path) -> None:
    (own_home / FILE).mkdir(parents=True)
    with pytest.raises(CannotOpenError, match="unable to open"):
        Store()


def test_a_home_with_signs_of_an_address_in_its_name_is_a_home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    odd = tmp_path / "jobs? #1 & 50%20"
    monkeypatch.setenv("TUNDISH_HOME", str(odd))
    Store().close()
    assert (odd / FILE).is_file()


@pytest.mark.skipif(not hasattr(os, "setuid"), reason="this system has no user to become")
def test_a_database_that_may_only_be_read_is_said_in_a_sentence(own_home: Path) -> None:
    Store().close()
    for one in own_home.iterdir():
        one.chmod(0o444)
    own_home.chmod(0o555)
    opened = subprocess.run([sys.executable, "-c", OPENING], capture_output=True, text=True, check=False, env=dict(os.environ))
    own_home.chmod(0o755)
    assert opened.stderr == ""
    assert opened.stdout.startswith("CannotOpenError")


OPENING = """
import os
import alembic.command, sqlalchemy.dialects.sqlite, sqlite3
from tundish.errors import TundishError
from tundish.store import keep, tables
if not os.getuid():
    os.setuid(65534)
try:
    keep.Store()
except TundishError as fault:
    print(type(fault).__name__, fault)
"""


def test_a_full_disk_is_said_and_what_was_kept_stays(own_home: Path) -> None:
    store = Store()
    kept = store.add(Job(number="9", title="first"))
    with store._engine.connect() as connection:
        pages = connection.exec_driver_sql("PRAGMA page_count").scalar()
    sa.event.listen(store._engine, "begin", lambda connection: connection.exec_driver_sql(f"PRAGMA max_page_count={pages}"))
    with pytest.raises(CannotKeepError, match=r"full\. Nothing was half done\. Make room"):
        store.save(kept.id, Job(number="9", title="second", note="x" * 5_000_000), kept.revision, "set note")
    opened, revision = store.open(kept.id)
    assert opened.job == Job(number="9", title="first")
    assert revision == 1
    store.close()


def test_a_first_start_without_room_begins_again_the_next_time(monkeypatch: pytest.MonkeyPatch) -> None:
    open_engine().dispose()
    plain = database._begin

    def cramped(connection: sa.Connection) -> None:
        plain(connection)
        connection.exec_driver_sql("PRAGMA max_page_count=40")

    with monkeypatch.context() as now:
        now.setattr(database, "_begin", cramped)
        with pytest.raises(CannotKeepError, match="full"):
            Store()
    store = Store()
    assert [row.number for row in store.jobs()] == ["101", "102", "103", "104"]
    store.close()


def test_a_database_held_by_another_is_said(own_home: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    store = Store()
    sa.event.listen(store._engine, "connect", lambda connection, _: connection.execute("PRAGMA busy_timeout=1"))
    store._engine.dispose()
    other = sqlite3.connect(own_home / FILE, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    with pytest.raises(CannotKeepError, match="Another program is using it"):
        store.add(Job(number="9"))
    other.execute("ROLLBACK")
    other.close()
    assert store.add(Job(number="9")).revision == 1
    store.close()


def test_a_damaged_database_is_said(own_home: Path) -> None:
    store = Store()
    store.close()
    whole = (own_home / FILE).read_bytes()
    (own_home / FILE).write_bytes(whole[:4096] + b"\xff" * (len(whole) - 4096))
    with pytest.raises((CannotOpenError, CannotKeepError), match="put a copy back"):
        Store()


def test_first_starts_at_the_same_moment_make_one_catalogue() -> None:
    opening = "from tundish.store.keep import Store; store = Store(); print(len(store.jobs())); store.close()"
    assert [said_by(one) for one in [child(opening) for _ in range(3)]] == ["4", "4", "4"]


SAVING = """
import sys
from tests.store.earlier import take_back
from tundish.estimate import Job
from tundish.store.keep import Store
store = Store()
job_id, revision, clashes = int(sys.argv[1]), 1, 0
for turn in range(20):
    kept = store.save(job_id, Job(number="9", title=f"{sys.argv[2]} {turn}"), revision, "set title")
    job_id, revision, clashes = kept.id, kept.revision, clashes + kept.clash
print(clashes, job_id, revision)
"""


def test_two_programs_saving_one_job_lose_nothing() -> None:
    store = Store()
    kept = store.add(Job(number="9"))
    said = [said_by(one).split() for one in [child(SAVING, str(kept.id), name) for name in ("left", "right")]]
    assert sum(int(clashes) for clashes, _, _ in said) == 1
    titles = {opened.job.title for opened, _ in (store.open(int(job_id)) for _, job_id, _ in said) if opened.job}
    assert titles == {"left 19", "right 19"}
    store.close()
