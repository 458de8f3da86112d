"""Working the job out off the window's thread: the latest job wins, an answer for an older one is dropped."""

from __future__ import annotations

import logging
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass
from functools import partial

from PySide6.QtCore import QObject, Signal

from tundish.catalogue.book import Book
from tundish.cutting.plan import Effort
from tundish.estimate import Estimate, Job, estimate

LOG = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class Answer:
    """An estimate, the turn it was asked in, and how hard its cut plans were looked for."""

    turn: int
    effort: Effort
    estimate: Estimate


class Recalculate(QObject):
    """One worker. A sound answer comes at once (`ready`), then one with the best cut plans (`better`)."""

    ready = Signal(object)
    better = Signal(object)
    _came = Signal(object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._worker = ThreadPoolExecutor(1, thread_name_prefix="estimate")
        self._turn = 0
        self._waiting: list[Future[None]] = []
        self._came.connect(self._take)

    @property
    def busy(self) -> bool:
        """Whether an answer is still to come."""
        return any(not each.done() for each in self._waiting)

    def ask(self, job: Job, book: Book) -> None:
        """Work this job out; whatever was asked before is not wanted any more."""
        self._turn += 1
        for each in self._waiting:
            each.cancel()
        turn = self._turn
        self._waiting = [self._worker.submit(self._work, turn, effort, partial(estimate, job, book, effort)) for effort in Effort]

    def stop(self) -> None:
        """Let the worker end; called before the window goes."""
        self._turn += 1
        self._worker.shutdown(wait=True, cancel_futures=True)

    def _work(self, turn: int, effort: Effort, work: Callable[[], Estimate]) -> None:
        if turn != self._turn:
            return
        try:
            answer = Answer(turn, effort, work())
        except Exception:
            # The engine promises never to raise; if it does the window must live, and the fault must be found.
            LOG.exception("the estimate failed")
            return
        self._came.emit(answer)

    def _take(self, answer: Answer) -> None:
        if answer.turn == self._turn:
            (self.better if answer.effort is Effort.BEST else self.ready).emit(answer.estimate)
