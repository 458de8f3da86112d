"""The readings of a test before the wall is closed: whether they prove what they should, and how they are told."""

from __future__ import annotations

from tundish.measure import show_number
from tundish.rules.rule import Decision, Proof
from tundish.survey.settled import Settled

_GRACE = 1e-9


def judged(proof: Proof, start: float | None, end: float | None, minutes: float | None) -> str:
    """What is wrong with the readings of a test, in a sentence; nothing where they prove it."""
    if start is None or end is None or minutes is None:
        return "Read the gauge at the start and at the end, and the minutes between."
    if start < proof.least.value - _GRACE:
        why = f": {proof.least.note}" if proof.least.note else ""
        return f"It has to start at {_shown(proof.least.value, proof.least.unit)} at least{why}."
    if start - end > proof.loss.value + _GRACE:
        return f"It fell by {_shown(round(start - end, 6), proof.loss.unit)}: find the leak, mend it and test again."
    if minutes < proof.minutes.value - _GRACE:
        return f"It has to be held for {_bare(proof.minutes.value)} minutes at least."
    return ""


def of_record(proof: Proof, record: Settled) -> str:
    """What is wrong with the readings that a record holds."""
    return judged(proof, *(None if each is None else each.value for each in (record.start, record.end, record.minutes)))


def shown_by(decision: Decision, record: Settled) -> str:
    """How something was shown, for paper and list: the readings of a test, then what else was written."""
    proof, (start, end, minutes) = decision.proof, (record.start, record.end, record.minutes)
    if proof is None or start is None or end is None or minutes is None:
        return record.evidence
    unit = proof.least.unit
    first, last = (_shown(each.value, unit) for each in (start, end))
    read = f"{first}, after {_bare(minutes.value)} minutes {last}"
    return f"{read}; {record.evidence}" if record.evidence else read


def _shown(value: float, unit: str) -> str:
    """A reading with all its places, so that what is asked for is never rounded to less."""
    return f"{show_number(value, None)} {unit}"


def _bare(value: float) -> str:
    return show_number(value, None)
