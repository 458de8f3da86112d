"""Working the job out off the window's thread: the latest job wins, one that is older is left in the middle."""

from __future__ import annotations

import logging
import sys
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass
from functools import partial
from threading import Event
from typing import Final

from PySide6.QtCore import QObject, QTimer, Signal

from tundish.catalogue.book import Book
from tundish.cutting.plan import Effort
from tundish.cutting.plans import CutPlan
from tundish.errors import NotWantedError
from tundish.estimate import Estimate, Job, estimate

LOG = logging.getLogger(__name__)
SWITCH_S: Final = 0.0005
"""How long the worker may keep the window waiting for its turn: a tenth of what is usual, so that a drag keeps up beside it."""
QUIET_MS: Final = 150
"""The best cut plans are looked for once nothing was asked for so long: they may not stand in the way of the next quick answer."""


@dataclass(frozen=True, slots=True)
class Answer:
    """An estimate, the turn it was asked in, and how hard its cut plans were looked for."""

    turn: int
    effort: Effort
    estimate: Estimate


class Recalculate(QObject):
    """One worker. A sound answer comes at once (`ready`), after a quiet moment others with better cut plans (`better`).

    Those are the best that are found soon, and then what comes nearest to a proof. Whatever is asked next ends the search at once.
    """

    ready = Signal(object)
    better = Signal(object)
    searching = Signal(bool)
    """Whether a proof is being looked for, which can be stopped."""
    _came = Signal(object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        sys.setswitchinterval(SWITCH_S)
        self._worker = ThreadPoolExecutor(1, thread_name_prefix="estimate")
        self._turn = 0
        self._told_to_stop = Event()
        self._proving = False
        self._asked: Callable[[Effort], Estimate] | None = None
        self._waiting: Future[None] | None = None
        self._quiet = QTimer(self)
        self._quiet.setSingleShot(True)
        self._quiet.setInterval(QUIET_MS)
        self._quiet.timeout.connect(self._look_for_best)
        self._came.connect(self._take)

    @property
    def busy(self) -> bool:
        """Whether an answer is still to come; a proof that is looked for is not waited for."""
        return self._quiet.isActive() or (not self._proving and self._waiting is not None and not self._waiting.done())

    @property
    def proving(self) -> bool:
        """Whether a proof is being looked for."""
        return self._proving and self._waiting is not None and not self._waiting.done()

    @property
    def trying(self) -> bool:
        """Whether what was asked last was only tried."""
        return self._asked is None

    def ask(self, job: Job, book: Book, near: Estimate | None = None, *, best: bool = True) -> None:
        """Work this job out; whatever was asked before is not wanted any more. Not `best`: the quick answer, `near` another, is enough."""
        self.leave_off()
        self._turn += 1
        if self._waiting is not None:
            self._waiting.cancel()
        self._told_to_stop = Event()
        turn = self._turn
        work = partial(estimate, job, book, stop=self._told_to_stop.is_set, wanted=lambda: turn == self._turn, near=near)
        self._asked = work if best else None
        self._proving = False
        self._waiting = self._worker.submit(self._work, self._turn, Effort.QUICK, partial(work, Effort.QUICK))

    def leave_off(self) -> None:
        """Look for no better cut plans any more; what was found so far is still handed over."""
        self._told_to_stop.set()
        self._quiet.stop()
        self.searching.emit(False)

    def stop(self) -> None:
        """Let the worker end; called before the window goes."""
        self.leave_off()
        self._turn += 1
        self._worker.shutdown(wait=True, cancel_futures=True)

    def _work(self, turn: int, effort: Effort, work: Callable[[], Estimate]) -> None:
        if turn != self._turn:
            return
        try:
            answer = Answer(turn, effort, work())
        except NotWantedError:
            return
        except Exception:
            # The engine promises never to raise; if it does the window must live, and the fault must be found.
            LOG.exception("the estimate failed")
            return
        self._came.emit(answer)

    def _take(self, answer: Answer) -> None:
        if answer.turn != self._turn:
            return
        if answer.effort is not Effort.QUICK:
            self._take_better(answer)
            return
        if self._asked is not None:
            self._quiet.start()
        self.ready.emit(answer.estimate)

    def _take_better(self, answer: Answer) -> None:
        more = answer.effort is Effort.BEST and not self._told_to_stop.is_set() and not all(_settled(each) for each in answer.estimate.cuts)
        self.searching.emit(more)
        if more:
            self._look(Effort.PROOF)
        self.better.emit(answer.estimate)

    def _look_for_best(self) -> None:
        self._look(Effort.BEST)

    def _look(self, effort: Effort) -> None:
        if self._asked is not None:
            self._proving = effort is Effort.PROOF
            self._waiting = self._worker.submit(self._work, self._turn, effort, partial(self._asked, effort))


def _settled(plan: CutPlan) -> bool:
    """Whether looking further could neither save nor prove anything."""
    return plan.plan.proven or not plan.plan.cost_pence
