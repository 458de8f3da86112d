"""How a job came to be as it is: step by step, as its revisions tell, and what was taken back and can be done again.

A revision says which one its step began from. One that takes a step back says as well which one it went back from, which is `ahead` of
it; so does one that does a step again, of what is ahead then.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from tundish.estimate import MOST_STEPS

if TYPE_CHECKING:
    from sqlalchemy import Connection

UNDONE: Final = "undone: "
"""What the label of a revision begins with that takes a step back: it comes from the revision that was gone back to."""


@dataclass(frozen=True, slots=True)
class KeptStep:
    """One step, and the revision of the job on its other side: what it began from, or for one that can be done again, what it led to."""

    label: str
    other: int


@dataclass(frozen=True, slots=True)
class _Kept:
    begun: int
    label: str
    ahead: int

    @property
    def back(self) -> bool:
        return self.label.startswith(UNDONE)


def steps(connection: Connection, job_id: int) -> tuple[KeptStep, ...]:
    """The steps that led to the job as it is, the last first."""
    kept = _kept(connection, job_id)
    way = [kept[at] for at in _way(kept)]
    return tuple(KeptStep(each.label, each.begun) for each in way if each.begun in kept and not each.back)


def steps_ahead(connection: Connection, job_id: int) -> tuple[KeptStep, ...]:
    """The steps that were taken back and can be done again, the next first."""
    kept = _kept(connection, job_id)
    taken_back = (kept[at] for at in _ahead(kept))
    return tuple(KeptStep(each.label.removeprefix(UNDONE), each.ahead) for each in taken_back if each.ahead in kept)


def begun_from(connection: Connection, job_id: int, revision: int, label: str, *, joined: bool) -> int:
    """The revision that the next step begins from: where the last one did if it is joined to it or takes it back.

    Never one that takes a step back: the one that it went back to is the same job.
    """
    kept = _kept(connection, job_id)
    if joined or label.startswith(UNDONE):
        last = next((at for at in _way(kept) if not kept[at].back), revision)
        revision = kept[last].begun if last in kept else 0
    while revision in kept and kept[revision].back:
        revision = kept[revision].begun
    return revision


def ahead_of(connection: Connection, job_id: int, revision: int, label: str, *, again: bool) -> int:
    """What is ahead of the revision that comes next: the one that it goes back from, or what is left ahead once a step is done again."""
    if label.startswith(UNDONE):
        return revision
    left = _ahead(_kept(connection, job_id)) if again else iter(())
    next(left, 0)
    return next(left, 0)


def thin_out(connection: Connection, job_id: int) -> None:
    """Let go of the revisions that no step leads over, done or to be done again, but for those that a paper was issued from."""
    from sqlalchemy import delete, select

    from tundish.store.tables import papers, revisions

    kept = _kept(connection, job_id)
    needed = {one for at in _way(kept) for one in (at, kept[at].begun)}
    needed |= {one for at in _ahead(kept) for one in (at, kept[at].ahead)}
    needed |= set(connection.execute(select(papers.c.revision).where(papers.c.job == job_id)).scalars())
    gone = kept.keys() - needed
    if gone:
        connection.execute(delete(revisions).where((revisions.c.job == job_id) & revisions.c.revision.in_(gone)))


def _kept(connection: Connection, job_id: int) -> dict[int, _Kept]:
    """The revisions that are kept."""
    from sqlalchemy import select

    from tundish.store.tables import revisions

    columns = select(revisions.c.revision, revisions.c.from_revision, revisions.c.label, revisions.c.ahead)
    rows = connection.execute(columns.where(revisions.c.job == job_id))
    return {row.revision: _Kept(row.from_revision, row.label, row.ahead) for row in rows}


def _way(kept: dict[int, _Kept]) -> Iterator[int]:
    """The revisions that the last one came over, the last first, as far back as steps are kept."""
    at, done = max(kept, default=0), 0
    while at in kept and done < MOST_STEPS:
        yield at
        done += not kept[at].back
        at = kept[at].begun


def _ahead(kept: dict[int, _Kept]) -> Iterator[int]:
    """The revisions that took back what can be done again, the next first."""
    at = max(kept, default=0)
    while at in kept:
        if kept[at].back:
            yield at
        at = kept[at].ahead
