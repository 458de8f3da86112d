"""If it were different: what a few neighbouring values of an input would change, worked out beside the window."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QObject, QTimer

from tundish import measure, plain
from tundish.desktop.receipt import ReceiptLine, Section
from tundish.desktop.ways import OF_DRAIN
from tundish.desktop.ways import section as ways_section
from tundish.estimate import Job
from tundish.field import Entry, Field, NoSuchInputError, describe, get
from tundish.layout.undecided import as_held

if TYPE_CHECKING:
    from tundish.catalogue.book import Book
    from tundish.desktop.where_from import WhereFrom
    from tundish.desktop.workspace import Workspace
    from tundish.if_it_were import FigureChange, Outcome
    from tundish.kit_or_loose import Finish
    from tundish.rules.rule import WayOut

WAIT_MS: Final = 250
"""It is worked out once the keyboard has rested on a figure so long."""
STEPS: Final = ((100, 10.0), (20, 5.0), (0, 1.0))
"""From which value on, how far apart neighbouring values are tried."""
MOST_NAMED: Final = 2
OF_FRAME: Final = ".frame"
OF_CHECK: Final = "check:"


class Different(QObject):
    """Fills the late part of Where from; an answer for a figure that is no longer shown is dropped."""

    def __init__(self, workspace: Workspace, column: WhereFrom) -> None:
        super().__init__(column)
        self._workspace, self._column = workspace, column
        self._path, self._title, self._turn = "", "", 0
        self._wait = QTimer(self)
        self._wait.setSingleShot(True)
        self._wait.setInterval(WAIT_MS)
        self._wait.timeout.connect(self._ask)

    def show(self, path: str, title: str = "") -> None:
        """Speak of the input at a path under a title, "" for none; what is shown of the same input stays until the new answer comes."""
        self._title = title
        self._turn += 1
        if path != self._path:
            self._column.show_late(None)
        self._path = path
        if path:
            self._wait.start()
        else:
            self._wait.stop()

    def _ask(self) -> None:
        path, title, turn = self._path, self._title, self._turn
        job, book = self._workspace.job, self._workspace.book
        if not self._column.isVisible() or self._workspace.shown is not job:
            return
        beside = self._workspace.beside

        def wanted() -> bool:
            return turn == self._turn and self._workspace.job is job and not beside.stopped

        beside.ask(
            lambda: section(job, book, (path, title), wanted) if wanted() else None,
            lambda found: self._take(found, turn),
            lambda _words: self._take(None, turn),
        )

    def _take(self, found: Section | None, turn: int) -> None:
        if turn == self._turn:
            self._column.show_late(found)


def section(job: Job, book: Book, asked: tuple[str, str], wanted: Callable[[], bool]) -> Section | None:
    """What the neighbours of an input's value would change, a line for each; None where there are none.

    `asked`: the path of the input, and the title. What is not `wanted` any more is left in the middle, with a NotWantedError.
    """
    from tundish.if_it_were import if_it_were

    path, title = asked
    if path.startswith(OF_CHECK):
        return ways(job, book, (int(path.removeprefix(OF_CHECK)), title), wanted)
    if path.endswith(OF_FRAME):
        return kits(job, book, path, wanted)
    try:
        if path.endswith(OF_DRAIN):
            return ways_section(job, book, path)
        declared, entry = describe(Job, path), get(job, path)
        values = tuple(neighbours(declared, entry))
        outcomes = if_it_were(job, book, path, values, wanted) if values else ()
    except NoSuchInputError:
        return None
    lines = tuple(_line(each, measure.show_amount(each.value.value, declared.unit), path) for each in outcomes)
    return Section(title, lines) if lines else None


def ways(job: Job, book: Book, asked: tuple[int, str], wanted: Callable[[], bool]) -> Section | None:
    """What each way out of a check would change besides, by the place of the check; None where all they do is put parts on the list."""
    from tundish.estimate import estimate

    place, title = asked
    findings = estimate(job, book, wanted=wanted).findings
    found = findings[place].ways_out if place < len(findings) else ()
    lines = tuple(_way_line(job, book, way, wanted) for way in found if not way.adds)
    return Section(title, lines) if lines else None


def _way_line(job: Job, book: Book, way: WayOut, wanted: Callable[[], bool]) -> ReceiptLine:
    from tundish.if_it_were import if_it_were

    declared = describe(Job, way.path)
    value, _ = plain.check(declared, as_held(declared, way.value), way.path)
    (outcome,) = if_it_were(job, book, way.path, (value,), wanted)
    return _line(outcome, way.words.partition(":")[0], way.path)


def kits(job: Job, book: Book, path: str, wanted: Callable[[], bool]) -> Section | None:
    """Kit or loose: what it takes to finish with each frame that an appliance can hang on, the best first; None where there is but one."""
    from tundish.estimate import estimate
    from tundish.kit_or_loose import finishes, framed

    one = next((each for each in framed(estimate(job, book, wanted=wanted)) if f"{each.path}{OF_FRAME}" == path), None)
    if one is None:
        return None
    lines = tuple(_finish_line(each) for each in finishes(job, book, one, wanted))
    return Section(f"Kit or loose? {one.name}: all that is bought, with carriage", lines)


def _finish_line(one: Finish) -> ReceiptLine:
    tone = "fails" if one.fails else "tbc" if one.looks or one.unpriced else "settled"
    return ReceiptLine("", one.name, measure.show_money(one.cost), one.reasons, tone=tone)


def neighbours(declared: Field, entry: Entry | None) -> Iterator[Entry]:
    """A few values about the one an input has, or about its usual one, within what it may be; a choice has none."""
    if declared.kind != "number":
        return
    now = entry.value if entry is not None else declared.usual
    if now is None:
        return
    step = next(step for least, step in STEPS if abs(now) >= least)
    before = entry or Entry(float(now), declared.known)
    for value in (now - 2 * step, now - step, now + step, now + 2 * step):
        if (declared.least is None or value >= declared.least) and (declared.most is None or value <= declared.most):
            yield replace(before, value=value, low=None, high=None, typed="", readings=())


def _line(outcome: Outcome, label: str, path: str) -> ReceiptLine:
    breaks = [each.after.title for each in outcome.findings if each.breaks and each.after]
    mends = [each.before.title for each in outcome.findings if each.mends and each.before]
    said, tone = ("breaks", "fails") if breaks or outcome.problems else ("mends", "settled") if mends else ("checks as now", "ink2")
    notes = [*(f"{title} no longer passes" for title in breaks[:MOST_NAMED]), *(f"{title} passes" for title in mends[:MOST_NAMED])]
    notes += [each.text for each in outcome.problems[:1]]
    named = [words for each in outcome.figures if (words := _moved(each, path))]
    notes += named[:MOST_NAMED]
    if len(named) > MOST_NAMED:
        more = len(named) - MOST_NAMED
        notes.append(f"{more} more figures" if more > 1 else "1 more figure")
    notes = notes or [f"{each.title}: {each.why}" for each in outcome.decisions[:MOST_NAMED]]
    return ReceiptLine("", label, said, _joined(notes), tone=tone)


def _joined(notes: Iterable[str]) -> str:
    return "; ".join(notes) or "nothing changes"


def _moved(change: FigureChange, path: str) -> str:
    before, after = change.before, change.after
    if before is None or after is None or not after.label or after.path == path:
        return ""
    was, now = (measure.show_amount(each.value, each.unit) for each in (before, after))
    return f"{after.label} {was} to {now}" if was != now else ""
