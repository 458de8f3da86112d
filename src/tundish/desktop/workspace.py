"""What the window works on: the store, the open job with its history, the book, and the estimate as it comes.

Pages read from here and change the job through `set`, `add`, `remove` and `edit`; they hear of every change by its signals.
"""

from __future__ import annotations

import gc
from collections.abc import Callable, Mapping
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QObject, QTimer, Signal

from tundish.desktop.aside import Aside
from tundish.desktop.job_line import BARE
from tundish.desktop.past import Past, gone_out, where
from tundish.desktop.recalculate import Recalculate
from tundish.errors import TundishError
from tundish.estimate import Estimate, Job
from tundish.field import Problem
from tundish.layout.room import Room
from tundish.session import LOCKED, Session, Step, locked
from tundish.store.history import UNDONE

if TYPE_CHECKING:
    from tundish.catalogue.book import Book
    from tundish.figure import Figure
    from tundish.store.codec import Opened
    from tundish.store.keep import Store
    from tundish.store.papers import Paper

OPEN_JOB: Final = "open job"
"""The setting that says which job is open; it is cleared when the window is closed as it should be."""
FOLLOW_MS: Final = 200
"""While something is moved, the whole estimate follows at most so often."""


class Workspace(QObject):
    """One open job over one store."""

    job_opened = Signal()
    job_closed = Signal()
    job_changed = Signal(object)
    """The `Step` that was done, undone or redone."""
    estimate_ready = Signal(object)
    """The `Estimate` to show; also stored as `estimate`."""
    tried = Signal()
    """What is on trial is another, or is no longer tried."""
    better_offered = Signal(object)
    """An `Estimate` with cheaper cut plans, while the cut list is in use."""
    working = Signal(bool)
    searching = Signal(bool)
    """Whether better cut plans are still being looked for."""
    saved = Signal(str, bool)
    floor_changed = Signal(str)
    room_changed = Signal(int)
    jobs_changed = Signal()
    issued = Signal()
    """A paper of the job went out and is kept."""
    said = Signal(str)

    def __init__(self, store: Store, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.store = store
        self.book: Book = store.book()
        self._key = ""
        self.session: Session | None = None
        self.estimate: Estimate | None = None
        self.job_id = self.revision = self.room_place = self.wall_place = 0
        self.floor = BARE
        self.cut_list_in_use = False
        self.paper = "quote"
        """The key of the paper that is shown, or wanted, on Paper."""
        # What gives the figures that a page shows beside the estimate, by the kind of id they are asked for by.
        self.told: dict[str, Callable[[str], Figure | None]] = {}
        self.aside, self.beside = Aside(self), Aside(self)  # beside: long workings that are only looked at; no press waits for them
        self._past = Past(store, 0)
        self._last = Job()
        self._trial: Job | None = None
        self._settled: Estimate | None = None  # what was shown last while nothing was held
        self._taken: tuple[object, ...] = ()
        self._quotes: tuple[Paper, ...] | None = None
        self._follow = QTimer(self)
        self._follow.setSingleShot(True)
        self._follow.setInterval(FOLLOW_MS)
        self._follow.timeout.connect(self._ask_of_trial)
        self._recalculate = Recalculate(self)
        self._recalculate.ready.connect(self._show)
        self._recalculate.better.connect(self._show_better)
        self._recalculate.searching.connect(self.searching)

    @property
    def job(self) -> Job:
        """The open job, or an empty one."""
        return self.session.job if self.session else Job()

    @property
    def shown(self) -> Job:
        """The job as it is to be seen: what is on trial while something is held, else the open job."""
        return self.job if self._trial is None else self._trial

    @property
    def trying(self) -> bool:
        """Whether something is held, and what is seen is on trial."""
        return self._trial is not None

    @property
    def room(self) -> Room | None:
        """The chosen room as worked out at the pre-wall that is looked at, when it has been."""
        rooms = [room for room in self.estimate.rooms if room.path == self.room_path] if self.estimate else []
        return next((room for room in rooms if room.place == self.wall_place), rooms[0] if rooms else None)

    @property
    def room_path(self) -> str:
        """The path of the chosen room's inputs, such as "rooms.0"."""
        return f"rooms.{self.room_place}"

    @property
    def busy(self) -> bool:
        """Whether figures are being worked out."""
        return self._recalculate.busy

    @property
    def proving(self) -> bool:
        """Whether a proof of the cut plans is being looked for."""
        return self._recalculate.proving

    @property
    def undo_label(self) -> str:
        """What undo would take back, or nothing: of what was done before the job was opened too."""
        return self._past.undo_label(self.session) if self.session else ""

    @property
    def redo_label(self) -> str:
        """What would be done again, or nothing: of what was taken back before the job was opened too."""
        return self._past.redo_label(self.session) if self.session else ""

    def open(self, job_id: int) -> tuple[Problem, ...]:
        """Open a job of the store; the problems are what stopped it, or nothing."""
        opened, revision = self.store.open(job_id)
        if opened.job is None:
            return opened.problems
        self._become(opened.job, job_id, revision)
        self._say_notes(opened)
        if self.held_up:
            self.said.emit(self.held_up)
        return ()

    def take_in(self, job: Job, pictures: Mapping[str, bytes] | None = None) -> None:
        """Keep a job that came from a file or was just started, with its photographs, and open it."""
        kept = self.store.add(job, pictures)
        self.jobs_changed.emit()
        self._become(job, kept.id, kept.revision)

    def open_file(self, path: Path) -> tuple[Problem, ...]:
        """Open a job file: a new job of the store, or the problems that stopped it."""
        from tundish.store.codec import read_job_file

        opened = read_job_file(path)
        if opened.job is None:
            return opened.problems
        number = opened.job.number
        there = bool(self._of_number(number))
        self.take_in(opened.job, opened.pictures)
        self._say_notes(opened)
        if there:
            self.said.emit(f"A job {number} was here already: give one of the two a number of its own, or put one away.")
        return ()

    def close_job(self) -> None:
        """Leave the job; it is on disk already."""
        self.session = self._quotes = None
        self._hold(None)
        self.estimate = None
        self.job_id = 0
        self.store.keep_setting(OPEN_JOB, 0)
        self.job_closed.emit()

    def set(self, path: str, value: object, *, joined: bool = False) -> tuple[Problem, ...]:
        """Set one input of the open job; what cannot be taken comes back in words."""
        return self._done(self.session.set(path, value, joined=joined)) if self.session else ()

    def add(self, path: str, one: object, label: str) -> bool:
        """Add a record to a list of the open job; whether it could be, else the reason is said."""
        return self.session is not None and not self._done(self.session.add(path, one, label))

    def remove(self, path: str, place: int, label: str) -> bool:
        """Take a record out of a list of the open job; whether it could be, else the reason is said."""
        return self.session is not None and not self._done(self.session.remove(path, place, label))

    def edit(self, label: str, job: Job, path: str = "", *, joined: bool = False) -> bool:
        """Replace the job by another as one named step, whether it could be; `joined`: as part of the step before it at that path."""
        return self.session is not None and not self._done(self.session.edit(label, job, path, joined=joined))

    def try_out(self, job: Job) -> None:
        """Show the job as it would be while something is held; nothing is kept. The estimate follows as fast as it can be worked out."""
        if locked(self.job, job):
            self.said.emit(LOCKED)
            return
        self._hold(job)
        self.tried.emit()
        if not self._follow.isActive():
            self._follow.start()

    def keep_trial(self, label: str, path: str) -> None:
        """Put down what was held: the job as it was tried becomes one named step."""
        job = self._trial
        self._hold(None)
        self._follow.stop()
        if job is not None and job != self.job:
            self.edit(label, job, path)
        elif job is not None:
            self.tried.emit()
            self._ask()

    def end_trial(self) -> None:
        """Nothing is held any more: the job is as it was, unless it was edited meanwhile."""
        if self._trial is not None:
            self._hold(None)
            self._follow.stop()
            self.tried.emit()
            self._ask()

    def undo(self) -> None:
        """Take the last step back; not where a bill or a variation that went out would go with it."""
        if not self.session:
            return
        self._past.reach_back(self.session)
        out = gone_out(self.store, self.job_id, self.session.done[-1]) if self.session.done else ""
        if out:
            self.said.emit(out)
        elif step := self.session.undo():
            self.said.emit(f"Undone{where(step)}: {step.label}")

    def redo(self) -> None:
        """Do the last step again that was taken back."""
        if self.session:
            self._past.reach_ahead(self.session)
        if self.session and (step := self.session.redo()):
            self.said.emit(f"Done again{where(step)}: {step.label}")

    def choose_room(self, place: int) -> None:
        """Work on another room."""
        if place != self.room_place:
            self.room_place, self.wall_place = place, 0
            self.room_changed.emit(place)

    def choose_wall(self, place: int) -> None:
        """Look at another pre-wall of the room."""
        if place != self.wall_place:
            self.wall_place = place
            self.room_changed.emit(self.room_place)

    def choose_floor(self, floor: str) -> None:
        """Show heights from the other floor."""
        if floor != self.floor:
            self.floor = floor
            self.floor_changed.emit(floor)

    def issue(self, job_id: int, paper: Paper, number: str = "") -> None:
        """Keep a paper that went out under a number, of the open job or of the one that it was made from."""
        self.store.issue(job_id, paper, number)
        self._quotes = None
        self.issued.emit()

    @property
    def quotes(self) -> tuple[Paper, ...]:
        """The quotes that were issued for the open job, oldest first."""
        if self._quotes is None:
            self._quotes = self.store.issued(self.job_id, "quote") if self.job_id else ()
        return self._quotes

    @property
    def held_up(self) -> str:
        """Why nothing may be issued, accepted or ordered now, or nothing: what is shown is an option that is being made, not the job."""
        return "An option is being made: keep it or drop it on Pricing first." if self.job.begun.on else ""

    def leave_off(self) -> None:
        """Look for no better cut plans any more."""
        self._recalculate.leave_off()

    def use_better(self, estimate: Estimate) -> None:
        """Take the better cut plans that were offered; they are used again without asking while their pieces stay the same."""
        self._taken = tuple(each.plan.cuts for each in estimate.cuts)
        self._show(estimate)

    @property
    def job_key(self) -> str:
        """What stock and orders know the open job by; nothing where none is open."""
        return self._key if self.job_id else ""

    def book_has_changed(self) -> None:
        """Read the book again after prices, stock, rules or the trader's details changed, and work the job out with it."""
        self.book = self.store.book(self.job_key)
        self._ask()

    def remember_place(self, place: str) -> None:
        """Keep where the user is in the job, to start there again."""
        if self.job_id:
            self.store.remember_place(self.job_id, place)

    def close(self) -> None:
        """Leave everything as it should be: the worker ended, the database closed."""
        self._hold(None)
        for worker in (self._recalculate, self.aside, self.beside):
            worker.stop()
        self.store.keep_setting(OPEN_JOB, 0)
        self.store.close()

    def _hold(self, job: Job | None) -> None:
        """What is on trial; while there is any, nobody looks for garbage: that would keep the hand waiting."""
        (gc.enable if job is None else gc.disable)()
        self._trial = job

    def _done(self, problems: tuple[Problem, ...]) -> tuple[Problem, ...]:
        if any(each.text == LOCKED for each in problems):
            self.said.emit(LOCKED)
        return problems

    def _become(self, job: Job, job_id: int, revision: int) -> None:
        self._quotes = None
        self._hold(None)
        self.session, self._last, self._past = Session(job), job, Past(self.store, job_id)
        self.session.listeners.append(self._changed)
        self.job_id, self.revision = job_id, revision
        self.room_place = 0
        self.estimate = self._settled = None
        self._know()
        self.store.keep_setting(OPEN_JOB, job_id)
        self.job_opened.emit()
        self._ask()

    def _changed(self, step: Step) -> None:
        self._save(step)
        if self.room_place >= len(self.job.rooms):
            self.room_place, self.wall_place = max(len(self.job.rooms) - 1, 0), 0
        self.job_changed.emit(step)
        self._ask()
        if step.before.number != step.after.number and len(self._of_number(self.job.number)) > 1:
            self.said.emit(f"Another job is {self.job.number} too: their papers would be mixed up. Give this one another number.")

    def _of_number(self, number: str) -> tuple[int, ...]:
        return tuple(row.id for row in self.store.jobs() if number and row.number == number)

    def _save(self, step: Step) -> None:
        now = datetime.now().strftime("%H:%M")
        done, again = self.job is step.after, step is self._past.again
        joined, self._last = done and step.before is not self._last, self.job
        try:
            label = step.label if done else f"{UNDONE}{step.label}"
            kept = self.store.save(self.job_id, self.job, self.revision, label, joined=joined, again=again)
        except TundishError as fault:
            self.saved.emit(f"Not saved since {now}", True)
            self.said.emit(str(fault))
            return
        if kept.clash:
            self.said.emit("Somebody else saved this job meanwhile: both are kept, and you go on in yours.")
            self.jobs_changed.emit()
        self.job_id, self.revision = kept.id, kept.revision
        if kept.clash or step.before.number != step.after.number:
            self._know()
        self._past.shorten(len(self.session.done) if self.session else 0, new=done and not again)
        self.saved.emit(f"Saved {now}", False)

    def _know(self) -> None:
        """Read what stock and orders know the job by now, and the book for it."""
        self._key = self.store.key_of(self.job_id)
        self.book = self.store.book(self._key)

    def _ask(self) -> None:
        if self.session:
            self.working.emit(True)
            self._recalculate.ask(self.job, self.book, self._settled)

    def _ask_of_trial(self) -> None:
        if self._trial is not None and (self._recalculate.trying and self._recalculate.busy):
            self._follow.start()
        elif self._trial is not None:
            self._recalculate.ask(self._trial, self.book, self._settled, best=False)

    def _show(self, estimate: Estimate) -> None:
        self.estimate = estimate
        self._settled = estimate if self._trial is None else self._settled
        self.working.emit(False)
        self.estimate_ready.emit(estimate)

    def _show_better(self, estimate: Estimate) -> None:
        now = self.estimate
        others = {each.plan.cuts for each in estimate.cuts} - {each.plan.cuts for each in now.cuts} if now else set()
        if not self.cut_list_in_use or others <= set(self._taken):
            self._show(estimate)
        else:
            self.better_offered.emit(estimate)

    def _say_notes(self, opened: Opened) -> None:
        if opened.notes:
            paths = ", ".join(note.path for note in opened.notes[:3])
            self.said.emit(f"Kept, but not known to this version: {paths}")
