"""Work done beside the window's thread, one piece after the other, with the answer handed back on it."""

from __future__ import annotations

import logging
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from typing import Any, TypeVar

from PySide6.QtCore import QObject, Signal

from tundish.errors import TundishError

LOG = logging.getLogger(__name__)
T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class _Answer:
    then: Callable[[Any], None]
    failed: Callable[[str], None]
    value: Any
    fault: str


class Aside(QObject):
    """One worker that is made when first asked."""

    _came = Signal(object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._worker: ThreadPoolExecutor | None = None
        self._waiting = 0
        self._stopped = False
        self._came.connect(self._take)

    @property
    def busy(self) -> bool:
        """Whether an answer is still to come."""
        return self._waiting > 0

    @property
    def stopped(self) -> bool:
        """Whether nobody waits for answers any more."""
        return self._stopped

    def ask(self, work: Callable[[], T], then: Callable[[T], None], failed: Callable[[str], None]) -> None:
        """Do the work; then `then` has the answer, or `failed` a sentence that says why there is none."""
        if self._stopped:
            return
        if self._worker is None:
            self._worker = ThreadPoolExecutor(1, thread_name_prefix="aside")
        self._waiting += 1
        self._worker.submit(self._work, work, then, failed)

    def stop(self) -> None:
        """Let the worker end; called before the window goes."""
        self._stopped = True
        if self._worker is not None:
            self._worker.shutdown(wait=True, cancel_futures=True)

    def _work(self, work: Callable[[], Any], then: Callable[[Any], None], failed: Callable[[str], None]) -> None:
        try:
            answer = _Answer(then, failed, work(), "")
        except TundishError as fault:
            answer = _Answer(then, failed, None, str(fault))
        except Exception as fault:
            # The window must live, and the fault must be found.
            LOG.exception("work beside the window failed")
            answer = _Answer(then, failed, None, f"It could not be done ({type(fault).__name__}). Nothing of the job is lost.")
        self._came.emit(answer)

    def _take(self, answer: _Answer) -> None:
        self._waiting -= 1
        if self._stopped:
            return
        if answer.fault:
            answer.failed(answer.fault)
        else:
            answer.then(answer.value)
