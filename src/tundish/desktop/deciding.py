"""Settling decisions before the wall is closed: what a record says, and the job with it."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tundish.desktop import standing
from tundish.estimate import Job
from tundish.field import Entry, NoSuchInputError, describe, get, put
from tundish.rules.readings import of_record
from tundish.rules.rule import Decision, Proof
from tundish.survey.settled import CLOSED, OWN, OwnRow, Settled, next_key


@dataclass(frozen=True, slots=True)
class Wall:
    """Whether the wall is closed; by whom, when, and why if not everything was settled."""

    closed: bool
    who: str = ""
    when: str = ""
    reason: str = ""


def recorded(job: Job, decision: Decision, record: Settled) -> Job:
    """The job with a record in place of an older one; settling clears what rests on it of its TBC."""
    kept = _with(job, replace(record, decision=decision.key, rests_on=decision.rests_on))
    if record.state == "settled":
        for path in decision.paths:
            kept = _confirmed(kept, path)
    return kept


def wanting(record: Settled, proof: Proof | None = None) -> str:
    """What a record still lacks, in a sentence, or nothing; a test is settled by readings that prove it, and by nothing else."""
    if record.state in {"asked", "settled"} and not record.who.strip():
        return "Say who was asked." if record.state == "asked" else "Say who settled it."
    if record.state == "settled" and proof is not None:
        return of_record(proof, record)
    if record.state == "settled" and not record.evidence.strip():
        return "Say how it was shown: a reading, a photo, a signed sheet."
    if record.state == "not needed" and not record.evidence.strip():
        return "Say why it is not needed."
    return ""


def fell_back(decision: Decision, job: Job) -> str:
    """Why a decision that was settled is open again, or nothing."""
    record = standing.record_of(decision, job)
    if record is None or record.state not in standing.CHOSEN:
        return ""
    if record.rests_on == decision.rests_on:
        wrong = of_record(decision.proof, record) if decision.proof is not None and record.state == "settled" else ""
        return f"Open again: {wrong}" if wrong else ""
    return f"Open again: was {record.rests_on or 'nothing'}, now {decision.rests_on or 'nothing'}"


def wall(job: Job) -> Wall:
    """How the wall stands."""
    record = next((each for each in job.settled if each.decision == CLOSED), None)
    if record is None:
        return Wall(closed=False)
    return Wall(record.state == "settled", record.who, record.when, record.evidence)


def with_wall(job: Job, state: Wall) -> Job:
    """The job with its wall closed, or open again."""
    word = "settled" if state.closed else "open"
    return _with(job, Settled(decision=CLOSED, state=word, who=state.who, when=state.when, evidence=state.reason))


def with_own_row(job: Job, row: OwnRow) -> Job:
    """The job with one more row of the fitter's own."""
    return replace(job, own_rows=(*job.own_rows, replace(row, key=next_key(job.own_rows, job.settled))))


def without_own_row(job: Job, decision: Decision) -> Job:
    """The job without a row of the fitter's own, and without what was recorded of it."""
    rows = tuple(each for each in job.own_rows if each.key != decision.key)
    return replace(job, own_rows=rows, settled=tuple(each for each in job.settled if each.decision != decision.key))


def is_own(decision: Decision | None) -> bool:
    """Whether the fitter added a row himself."""
    return decision is not None and decision.key.startswith(OWN)


def _with(job: Job, record: Settled) -> Job:
    others = tuple(each for each in job.settled if each.decision != record.decision)
    return replace(job, settled=(*others, record))


def _confirmed(job: Job, path: str) -> Job:
    try:
        declared, entry = describe(Job, path), get(job, path)
    except NoSuchInputError:
        return job
    if declared.kind != "number" or (entry is None and declared.usual is None):
        return job
    before = entry if isinstance(entry, Entry) else None
    return put(job, path, standing.confirmed(declared, before))
