"""How a job came to be as it is: step by step, as its revisions tell, without what was taken back meanwhile."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from sqlalchemy import Connection

MOST_STEPS: Final = 200
"""How many steps of a job are kept."""
UNDONE: Final = "undone: "
"""What the label of a revision begins with that takes a step back: it comes from the revision that was gone back to."""


@dataclass(frozen=True, slots=True)
class KeptStep:
    """One step, and the revision that it began from."""

    label: str
    before: int


def steps(connection: Connection, job_id: int) -> tuple[KeptStep, ...]:
    """The steps that led to the job as it is, the last first."""
    kept = _kept(connection, job_id)
    way = [(at, *kept[at]) for at in _way(kept)]
    return tuple(KeptStep(label, before) for _, before, label in way if before in kept and not label.startswith(UNDONE))


def begun_from(connection: Connection, job_id: int, revision: int, label: str, *, joined: bool) -> int:
    """The revision that the next step begins from: where the last one did if it is joined to it or takes it back."""
    if not joined and not label.startswith(UNDONE):
        return revision
    kept = _kept(connection, job_id)
    last = next((at for at in _way(kept) if not kept[at][1].startswith(UNDONE)), revision)
    return kept[last][0] if last in kept else 0


def thin_out(connection: Connection, job_id: int) -> None:
    """Let go of the revisions that no step leads over, but for those that a paper was issued from."""
    from sqlalchemy import delete, select

    from tundish.store.tables import papers, revisions

    kept = _kept(connection, job_id)
    needed = {one for at in _way(kept) for one in (at, kept[at][0])}
    needed |= set(connection.execute(select(papers.c.revision).where(papers.c.job == job_id)).scalars())
    gone = kept.keys() - needed
    if gone:
        connection.execute(delete(revisions).where((revisions.c.job == job_id) & revisions.c.revision.in_(gone)))


def _kept(connection: Connection, job_id: int) -> dict[int, tuple[int, str]]:
    """The revisions that are kept: the one that each began from, and its label."""
    from sqlalchemy import select

    from tundish.store.tables import revisions

    columns = select(revisions.c.revision, revisions.c.from_revision, revisions.c.label)
    rows = connection.execute(columns.where(revisions.c.job == job_id))
    return {row.revision: (row.from_revision, row.label) for row in rows}


def _way(kept: dict[int, tuple[int, str]]) -> Iterator[int]:
    """The revisions that the last one came over, the last first, as far back as steps are kept."""
    at, done = max(kept, default=0), 0
    while at in kept and done < MOST_STEPS:
        yield at
        done += not kept[at][1].startswith(UNDONE)
        at = kept[at][0]
