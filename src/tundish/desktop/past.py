"""What was done, and taken back, before a job was opened: it can be undone and done again too, and such a step says where it acted."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from tundish.estimate import MOST_STEPS, Job
from tundish.options import differences
from tundish.session import Session, Step

if TYPE_CHECKING:
    from tundish.store.history import KeptStep
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
    """The steps from before, the last first, and those taken back, the next first; the job that one leads to is read when it is wanted."""

    def __init__(self, store: Store, job_id: int) -> None:
        self._store, self._job_id = store, job_id
        self._steps = list(store.steps(job_id))
        self._ahead = list(store.steps_ahead(job_id))
        self.again: Step | None = None
        """The step that was done again last, or is about to be."""

    def undo_label(self, session: Session) -> str:
        """What would be undone next, or nothing."""
        return session.undo_label or (self._steps[0].label if self._steps else "")

    def redo_label(self, session: Session) -> str:
        """What would be done again next, or nothing."""
        return session.redo_label or (self._ahead[0].label if self._ahead else "")

    def shorten(self, done: int, *, new: bool) -> None:
        """So many steps were done since: no more are kept in all than can be undone. After a `new` one nothing is done again."""
        del self._steps[max(MOST_STEPS - done, 0) :]
        if new:
            self._ahead.clear()

    def reach_back(self, session: Session) -> None:
        """Have the session undo what was done before, once nothing else is left that it could."""
        if not session.done and (found := self._next(self._steps)) is not None:
            session.done.append(_step(found[0], found[1], session.job))

    def reach_ahead(self, session: Session) -> None:
        """Have the session do again what was taken back before, once nothing else is left that it could."""
        if not session.undone and (found := self._next(self._ahead)) is not None:
            session.undone.append(_step(found[0], session.job, found[1]))
        self.again = session.undone[-1] if session.undone else None

    def _next(self, kept: list[KeptStep]) -> tuple[str, Job] | None:
        step = kept.pop(0) if kept else None
        other = self._store.at(self._job_id, step.other) if step else None
        if step is None or other is None:
            kept.clear()
            return None
        return step.label, other


def _step(label: str, before: Job, after: Job) -> Step:
    changed = differences(before, after)
    return Step(label, before, after, changed[0].path if changed else "")


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
