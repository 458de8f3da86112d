"""What stock, rack and orders know each job by: its number, and they go with it when the job is given another."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from sqlalchemy import Connection

_PLACE: Final = "#"
"""Before the place in the store of a job that has no number to itself."""


def keys(connection: Connection) -> dict[int, str]:
    """The key of every job, by its place in the store: no two have one, whatever they are numbered.

    The first job of a number is known by it; one without a number, and each further one of the same, by its place.
    """
    from sqlalchemy import select

    from tundish.store.tables import jobs

    known: dict[str, int] = {}
    for job_id, number in connection.execute(select(jobs.c.id, jobs.c.number).order_by(jobs.c.id)):
        own = number and number not in known and not number.startswith(_PLACE)
        known[number if own else f"{_PLACE}{job_id}"] = job_id
    return {job_id: key for key, job_id in known.items()}


def follow(connection: Connection, before: Mapping[int, str]) -> None:
    """Let all that is kept for jobs go with those whose key is not what it was `before`."""
    from sqlalchemy import case, update

    from tundish.store.tables import movements, orders, rack

    now = keys(connection)
    moved = {key: now[job_id] for job_id, key in before.items() if now[job_id] != key}
    for table in (orders, movements, rack) if moved else ():
        # All in one step: where two jobs change numbers each gets its own.
        connection.execute(update(table).where(table.c.job.in_(moved)).values(job=case(moved, value=table.c.job)))
