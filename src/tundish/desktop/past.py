"""What was done to a job before it was opened: it can be undone too, and an undone step says where it acted."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from tundish.estimate import Job
from tundish.options import differences
from tundish.session import MOST_STEPS, Step

if TYPE_CHECKING:
    from tundish.store.keep import Store

PAGES: Final = {
    "survey": "Survey",
    "design": "Setting out",
    "client": "Survey",
    "by_hand": "Materials",
    "sawn": "Cutting",
    "terms": "Pricing",
    "settled": "Before closing",
    "after": "After",
}
"""On which page what is changed is looked at, by the part of the job or of the room."""


class Past:
    """The steps from before, the last first; the job that one began from is read when it is undone."""

    def __init__(self, store: Store, job_id: int) -> None:
        self._store, self._job_id = store, job_id
        self._steps = list(store.steps(job_id))

    @property
    def label(self) -> str:
        """What is undone next of it, or nothing."""
        return self._steps[0].label if self._steps else ""

    def shorten(self, done: int) -> None:
        """So many steps were done since: no more are kept in all than can be undone."""
        del self._steps[max(MOST_STEPS - done, 0) :]

    def take(self, now: Job) -> Step | None:
        """The last of the steps, which led to the job as it is now; None when there is none."""
        if not self._steps:
            return None
        kept = self._steps.pop(0)
        before = self._store.at(self._job_id, kept.before)
        if before is None:
            self._steps.clear()
            return None
        changed = differences(before, now)
        return Step(kept.label, before, now, changed[0].path if changed else "")


def where(step: Step) -> str:
    """On which page a step acted, as " on Setting out"; nothing where that is not one page."""
    parts = step.path.split(".")
    page = PAGES.get("".join(parts[2:3]) if parts[0] == "rooms" else parts[0], "")
    return f" on {page}" if page else ""


def gone_out(store: Store, job_id: int, step: Step) -> str:
    """Why a step cannot be taken back, or nothing: the client has a paper that it made."""
    made = [("invoice", each.number) for each in step.after.invoices if each.number not in {one.number for one in step.before.invoices}]
    had = {one.number for one in step.before.variations}
    made += [("variation", each.number) for each in step.after.variations if each.number not in had]
    out = next(((kind, number) for kind, number in made if store.issued(job_id, f"{kind}-{number}")), None)
    if out is None:
        return ""
    how = "take it back by a credit note" if out[0] == "invoice" else "withdraw it"
    return f"{out[0].capitalize()} {out[1]} went out, so it is not undone: {how} on Pricing."
