"""The store: jobs by revision, the book, the trader's changes and issued papers, each change on disk at once."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from typing import TYPE_CHECKING, Any, TypeVar

from tundish.catalogue.book import Book
from tundish.catalogue.crew import Crew
from tundish.catalogue.load import supplied_book
from tundish.catalogue.own_rules import OwnRule, OwnRules
from tundish.catalogue.trader import Trader
from tundish.estimate import Job
from tundish.field import Problem
from tundish.plain import to_plain
from tundish.resources import resource
from tundish.store import history, job_keys, numbers, papers, photographs, shelf
from tundish.store.codec import ENDING, Opened, read_job, write_job
from tundish.store.database import CannotKeepError, open_engine, why
from tundish.store.history import KeptStep
from tundish.store.numbers import Given
from tundish.store.papers import Paper
from tundish.store.top_up import top_up

if TYPE_CHECKING:
    from sqlalchemy import Connection

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class JobRow:
    """A job in the list: `touched` is ISO date and time; `place` is where its user last was."""

    id: int
    number: str
    client: str
    title: str
    revision: int
    touched: str
    put_away: bool
    place: str


@dataclass(frozen=True, slots=True)
class Saved:
    """Where a job was kept. `clash`: somebody else had saved it meanwhile, so it was kept as a job of its own."""

    id: int
    revision: int
    clash: bool = False


class Store:
    """An open database."""

    def __init__(self, url: str = "") -> None:
        """Open it, at `url` or in the user's folder; a new one gets the demonstration catalogue and jobs.

        An older one gets what the supplied catalogue has gained; `news` says so in words, once.
        """
        self._engine = open_engine(url)
        try:
            self.news = self.work(_start)
        except CannotKeepError:
            self.close()
            raise

    def close(self) -> None:
        """Let go of the file."""
        self._engine.dispose()

    def jobs(self) -> tuple[JobRow, ...]:
        """Every job, last touched first."""

        def work(connection: Connection) -> tuple[JobRow, ...]:
            from sqlalchemy import select

            from tundish.store.tables import jobs

            rows = connection.execute(select(jobs).order_by(jobs.c.touched.desc(), jobs.c.id.desc()))
            return tuple(JobRow(**row._asdict()) for row in rows)

        return self.work(work)

    def find(self, number: str) -> int | None:
        """The id of the job with this number, the last touched of several."""
        return next((row.id for row in self.jobs() if row.number == number), None)

    def key_of(self, job_id: int) -> str:
        """What stock, rack and orders know a job by; nothing for one that is not here."""
        return self.work(lambda connection: job_keys.keys(connection).get(job_id, ""))

    def open(self, job_id: int) -> tuple[Opened, int]:
        """A job with its photographs, and its revision; revision 0 says there is no such job."""

        def work(connection: Connection) -> tuple[Opened, int]:
            from sqlalchemy import select

            from tundish.store.tables import jobs, revisions

            query = select(revisions.c.body, jobs.c.revision).join(
                jobs, (revisions.c.job == jobs.c.id) & (revisions.c.revision == jobs.c.revision)
            )
            row = connection.execute(query.where(jobs.c.id == job_id)).first()
            if row is None:
                return Opened(None, (Problem("", "there is no such job here"),)), 0
            return replace(read_job(row.body), pictures=photographs.of(connection, job_id)), row.revision

        return self.work(work)

    def add(self, job: Job, pictures: Mapping[str, bytes] | None = None) -> Saved:
        """Keep a new job, with its photographs."""
        return self.work(lambda connection: _add(connection, job, pictures or {}))

    def save(self, job_id: int, job: Job, from_revision: int, label: str, *, joined: bool = False, again: bool = False) -> Saved:
        """Keep the next revision of a job; when somebody saved meanwhile both are kept, this one as a job of its own.

        `joined`: it is part of the step before it. `again`: it does the step again that was taken back last.
        """

        def work(connection: Connection) -> Saved:
            from sqlalchemy import select, update

            from tundish.store.tables import jobs

            now = connection.execute(select(jobs.c.revision, jobs.c.number).where(jobs.c.id == job_id)).first()
            if now is None or now.revision != from_revision:
                made = _add(connection, job, photographs.of(connection, job_id))
                return Saved(made.id, made.revision, clash=True)
            revision = from_revision + 1
            known = job_keys.keys(connection) if now.number != job.number else {}
            connection.execute(update(jobs).where(jobs.c.id == job_id).values(revision=revision, touched=_now(), **_columns(job)))
            job_keys.follow(connection, known)
            begun = history.begun_from(connection, job_id, from_revision, label, joined=joined)
            ahead = history.ahead_of(connection, job_id, from_revision, label, again=again)
            _add_revision(connection, (job_id, revision, begun, ahead), job, label)
            numbers.keep(connection, job_id, job, _now(), label)
            history.thin_out(connection, job_id)
            return Saved(job_id, revision)

        return self.work(work)

    def keep_photographs(self, job_id: int, pictures: Mapping[str, bytes]) -> None:
        """Keep photographs with a job, by their keys."""
        self.work(lambda connection: photographs.keep(connection, job_id, pictures))

    def photograph(self, job_id: int, key: str) -> bytes | None:
        """The bytes of one photograph of a job, or None."""
        return self.work(lambda connection: photographs.one(connection, job_id, key))

    def revisions(self, job_id: int) -> frozenset[int]:
        """The revisions of a job that are kept."""

        def work(connection: Connection) -> frozenset[int]:
            from sqlalchemy import select

            from tundish.store.tables import revisions

            return frozenset(connection.execute(select(revisions.c.revision).where(revisions.c.job == job_id)).scalars())

        return self.work(work)

    def steps(self, job_id: int) -> tuple[KeptStep, ...]:
        """The steps that led to a job as it is, the last first."""
        return self.work(lambda connection: history.steps(connection, job_id))

    def steps_ahead(self, job_id: int) -> tuple[KeptStep, ...]:
        """The steps of a job that were taken back and can be done again, the next first."""
        return self.work(lambda connection: history.steps_ahead(connection, job_id))

    def at(self, job_id: int, revision: int) -> Job | None:
        """A job as it was at one of its revisions, or None where that is not kept."""

        def work(connection: Connection) -> Job | None:
            from sqlalchemy import select

            from tundish.store.tables import revisions

            query = select(revisions.c.body).where((revisions.c.job == job_id) & (revisions.c.revision == revision))
            body = connection.execute(query).scalar()
            return read_job(body).job if body is not None else None

        return self.work(work)

    def put_away(self, job_id: int, *, away: bool) -> None:
        """Put a job away, or take it out again."""
        self._change("jobs", job_id, put_away=away)

    def remember_place(self, job_id: int, place: str) -> None:
        """Keep where the user was in a job, to start there again."""
        self._change("jobs", job_id, place=place)

    def book(self, job: str = "") -> Book:
        """The book as it is now for the job of this key: what is kept for other jobs is left out of its stock and rack."""
        return self.work(lambda connection: shelf.read(connection, supplied_book().figures, _now()[:10], job))

    def overrule(self, key: str, value: float | None) -> None:
        """Change a rule figure to the trader's own; None puts the supplied one back."""

        def work(connection: Connection) -> None:
            from sqlalchemy import delete, insert

            from tundish.store.tables import overruled

            connection.execute(delete(overruled).where(overruled.c.key == key))
            if value is not None:
                connection.execute(insert(overruled), [{"key": key, "value": value, "changed": _now()[:10]}])

        self.work(work)

    def issue(self, job_id: int, paper: Paper, number: str = "") -> None:
        """Keep a paper as it was issued, and a quote's number; raises NumberTakenError where a quote of another job went out under it."""

        def work(connection: Connection) -> None:
            if paper.key == numbers.QUOTE:
                numbers.keep_quote(connection, job_id, number, _now())
            papers.keep(connection, job_id, paper, _now()[:10])

        self.work(work)

    def numbers(self, kind: str = "") -> tuple[Given, ...]:
        """Every number that was given in any job, in the order of giving; of one kind where it is said."""
        return self.work(lambda connection: numbers.given(connection, kind))

    def given(self, kind: str) -> tuple[str, ...]:
        """Every number of a kind that was ever given, in any job."""
        return tuple(each.number for each in self.numbers(kind))

    def next_job_number(self) -> str:
        """A job number that nothing was ever kept under."""
        return self.work(numbers.next_job)

    def issued(self, job_id: int, key: str = "") -> tuple[Paper, ...]:
        """The papers issued for a job, oldest first; of one key where it is given."""
        return self.work(lambda connection: papers.of(connection, job_id, key))

    def setting(self, key: str) -> Any:
        """A setting as it was kept, or None."""
        return self.work(lambda connection: shelf.setting(connection, key))

    def keep_setting(self, key: str, body: object) -> None:
        """Keep a setting."""
        self.work(lambda connection: shelf.keep_setting(connection, key, body))

    def keep_trader(self, trader: Trader) -> None:
        """Keep the trader's own details."""
        self.keep_setting("trader", to_plain(trader))

    def keep_crew(self, crew: Crew) -> None:
        """Keep the trader's usual rate and people."""
        self.keep_setting(shelf.CREW, to_plain(crew))

    def keep_own_rules(self, rules: tuple[OwnRule, ...]) -> None:
        """Keep the trader's own rules, in place of those there were."""
        self.keep_setting(shelf.OWN_RULES, to_plain(OwnRules(rules=rules)))

    def _change(self, table: str, row: int, **values: object) -> None:
        def work(connection: Connection) -> None:
            from sqlalchemy import update

            from tundish.store.tables import META

            there = META.tables[table]
            connection.execute(update(there).where(there.c.id == row).values(**values))

        self.work(work)

    def read_raw(self, query: str, given: tuple[object, ...]) -> list[Any] | None:
        """The rows of one look at SQLite without a transaction, for what is asked at every key; None where it is another database."""
        if self._engine.dialect.name != "sqlite":
            return None
        connection = self._engine.raw_connection()
        try:
            # Between transactions the driver holds no lock: a single look is whole by itself.
            cursor = connection.cursor()
            cursor.execute(query, given)
            return list(cursor.fetchall())
        finally:
            connection.close()

    def work(self, work: Callable[[Connection], T]) -> T:
        """Do one thing in one transaction: wholly, or not at all with a sentence that says why."""
        from sqlalchemy.exc import SQLAlchemyError

        try:
            with self._engine.begin() as connection:
                return work(connection)
        except SQLAlchemyError as fault:
            raise CannotKeepError(why(fault)) from fault


def demo_jobs() -> tuple[Job, ...]:
    """The demonstration jobs as supplied."""
    files = sorted(resource("jobs").glob(f"*{ENDING}"))
    opened = (read_job(file.read_bytes()) for file in files)
    return tuple(each.job for each in opened if each.job is not None)


def _start(connection: Connection) -> str:
    if not shelf.is_filled(connection):
        shelf.fill(connection, supplied_book(), _now()[:10])
        for job in reversed(demo_jobs()):
            _add(connection, job, {})
    return top_up(connection, supplied_book())


def _add(connection: Connection, job: Job, pictures: Mapping[str, bytes]) -> Saved:
    from sqlalchemy import insert

    from tundish.store.tables import jobs

    row = connection.execute(insert(jobs).values(revision=1, touched=_now(), put_away=False, place="", **_columns(job)))
    job_id = int(row.inserted_primary_key[0]) if row.inserted_primary_key else 0
    _add_revision(connection, (job_id, 1, 0, 0), job, "new")
    numbers.keep(connection, job_id, job, _now(), "new")
    photographs.keep(connection, job_id, pictures)
    return Saved(job_id, 1)


def _add_revision(connection: Connection, place: tuple[int, int, int, int], job: Job, label: str) -> None:
    from sqlalchemy import insert

    from tundish.store.tables import revisions

    names = ("job", "revision", "from_revision", "ahead")
    row = dict(zip(names, place, strict=True)) | {"label": label, "made": _now(), "body": write_job(job)}
    connection.execute(insert(revisions), [row])


def _columns(job: Job) -> dict[str, str]:
    return {"number": job.number, "client": job.client.name, "title": job.title}


def _now() -> str:
    return datetime.now().isoformat(timespec="seconds")
