"""The finished jobs of the store, and norms that were taken over from them: each time at once, named, and put back at once."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from tundish.catalogue.load import supplied_book
from tundish.pricing.suggested import FinishedJob
from tundish.store import shelf
from tundish.store.codec import read_job

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from tundish.store.keep import Store

_MARK: Final = b'"finished"'
"""What the kept job of every finished one holds: the others need not be read."""


@dataclass(frozen=True, slots=True)
class Taken:
    """Norms of a stage that were taken over from finished jobs: on which day, from how many jobs, multiplied by what."""

    stage: str
    factor: float
    jobs: int
    made: str


def finished_jobs(store: Store) -> tuple[FinishedJob, ...]:
    """Every job that is finished, put away or not, the demonstration left out."""

    def work(connection: Connection) -> list[Any]:
        from sqlalchemy import select

        from tundish.store.tables import jobs, revisions

        query = select(jobs.c.id, revisions.c.body).join(
            revisions, (revisions.c.job == jobs.c.id) & (revisions.c.revision == jobs.c.revision)
        )
        return [(row.id, row.body) for row in connection.execute(query.order_by(jobs.c.id)) if _MARK in row.body]

    return tuple(_finished(store.work(work)))


def taken(store: Store) -> tuple[Taken, ...]:
    """What was taken over and not put back, oldest first."""
    return tuple(Taken(each["stage"], each["factor"], each["jobs"], each["made"]) for each in store.setting(shelf.TAKEN_NORMS) or ())


def take_over(store: Store, new: Taken, norms: Mapping[str, float], shown: Mapping[str, float]) -> bool:
    """Take norms over, all of them or none: only while those there are stand as they were `shown`, so that no press counts twice."""

    def work(connection: Connection) -> bool:
        before = _overruled(connection)
        supplied = supplied_book().figures
        if any((before[key][0] if key in before else supplied[key].value) != shown[key] for key in norms):
            return False
        _put(connection, {key: (value, new.made) for key, value in norms.items()})
        was = {key: list(before[key]) if key in before else None for key in norms}
        record = {"stage": new.stage, "factor": new.factor, "jobs": new.jobs, "made": new.made, "was": was, "now": dict(norms)}
        shelf.keep_setting(connection, shelf.TAKEN_NORMS, [*_records(connection), record])
        return True

    return store.work(work)


def before_taking(store: Store, stage: str) -> dict[str, float]:
    """What each norm of a stage would be, were it put back as it was before it was last taken over; without what was changed since."""

    def work(connection: Connection) -> dict[str, float]:
        last, supplied = _last(connection, stage), supplied_book().figures
        back = _unchanged(connection, last) if last is not None else {}
        return {key: supplied[key].value if was is None else was[0] for key, was in back.items()}

    return store.work(work)


def put_back(store: Store, stage: str) -> int:
    """Put the norms of a stage back as they were before they were last taken over; gives how many were: what was changed since stays."""

    def work(connection: Connection) -> int:
        last = _last(connection, stage)
        if last is None:
            return 0
        back = _unchanged(connection, last)
        _put(connection, back)
        shelf.keep_setting(connection, shelf.TAKEN_NORMS, [each for each in _records(connection) if each != last])
        return len(back)

    return store.work(work)


def _last(connection: Connection, stage: str) -> dict[str, Any] | None:
    """The last time that norms of a stage were taken over; None where none stand so."""
    return next((each for each in reversed(_records(connection)) if each["stage"] == stage), None)


def _unchanged(connection: Connection, record: Mapping[str, Any]) -> dict[str, Any]:
    """What overruled each norm before, or None, of those that still are as they were taken over."""
    now = _overruled(connection)
    return {key: was for key, was in record["was"].items() if key in now and now[key][0] == record["now"][key]}


def _finished(rows: list[Any]) -> Iterator[FinishedJob]:
    for number, body in rows:
        job = read_job(body).job
        if job is not None and job.after.finished and not job.demo:
            yield FinishedJob(f"Job {job.number}" if job.number else job.client.name or job.title or f"Job #{number}", job.after)


def _records(connection: Connection) -> list[dict[str, Any]]:
    return list(shelf.setting(connection, shelf.TAKEN_NORMS) or ())


def _overruled(connection: Connection) -> dict[str, tuple[float, str]]:
    from sqlalchemy import select

    from tundish.store.tables import overruled

    return {row.key: (row.value, row.changed) for row in connection.execute(select(overruled))}


def _put(connection: Connection, values: Mapping[str, Any]) -> None:
    """Put a value with its day in place of what overrules each figure, or nothing."""
    from sqlalchemy import delete, insert

    from tundish.store.tables import overruled

    connection.execute(delete(overruled).where(overruled.c.key.in_(list(values))))
    rows = [{"key": key, "value": value[0], "changed": value[1]} for key, value in values.items() if value is not None]
    if rows:
        connection.execute(insert(overruled), rows)
