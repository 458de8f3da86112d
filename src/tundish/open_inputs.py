"""What decides what: every input of a job that is still open, what it moves, and by when it must be settled. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from tundish.estimate import Estimate
from tundish.figure import Figure, rests_on
from tundish.pricing.terms import Terms
from tundish.rules.rule import STAGES, Finding, Need, Stage
from tundish.takeoff.line import Line


@dataclass(frozen=True, slots=True)
class OpenInput:
    """One open input and what rests on it.

    `figures`: by room and name, with their ranges. `lines`: whose amount or a cut length may change. `findings`: whose verdict turns
    on it. `settle_by`: the first stage that needs what it moves, None where nothing bought or checked does; `day` as ISO, where agreed.
    """

    input: Figure
    figures: tuple[tuple[str, str, Figure], ...]
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]
    settle_by: Stage | None
    day: str

    @property
    def path(self) -> str:
        """The path of the input."""
        return self.input.path


def open_inputs(worked: Estimate) -> tuple[OpenInput, ...]:
    """Every open input that moves anything, those to be settled first first.

    It moves what its figure is a term of; what only a count steps over (one clip more) is not among a figure's terms and not told.
    """
    figures: dict[str, list[tuple[str, str, Figure]]] = {}
    lines: dict[str, list[Line]] = {}
    findings: dict[str, list[Finding]] = {}
    stages: dict[str, set[Stage]] = {}
    found: dict[str, Figure] = {}
    for room in worked.rooms:
        for name, figure in room.figures.items():
            for each in _open((figure,), found):
                if each != figure.path:
                    figures.setdefault(each, []).append((room.name, name, figure))
    for line in worked.lines:
        moved = [(path, need.stage) for need in line.needs for path in _open(_of(need), found)]
        for path, stage in moved:
            stages.setdefault(path, set()).add(stage)
        for path in dict.fromkeys(path for path, _ in moved):
            lines.setdefault(path, []).append(line)
    for finding in worked.findings:
        for leaf in finding.depends_on:
            findings.setdefault(found.setdefault(leaf.path, leaf).path, []).append(finding)
            stages.setdefault(leaf.path, set()).add("first fix" if finding.group == "Falls" else "frames")
    made = (
        OpenInput(
            each,
            tuple(figures.get(path, ())),
            tuple(lines.get(path, ())),
            tuple(findings.get(path, ())),
            *_by(stages.get(path, ()), worked),
        )
        for path, each in found.items()
    )
    return tuple(sorted(made, key=lambda one: STAGES.index(one.settle_by) if one.settle_by else len(STAGES)))


def _open(figures: Iterable[Figure], found: dict[str, Figure]) -> Iterator[str]:
    for each in rests_on(*figures, only_open=True):
        if not each.settled:
            yield found.setdefault(each.path, each).path


def _of(need: Need) -> tuple[Figure, ...]:
    sizes = (size for cut in need.cuts for size in (cut.length, cut.width) if size is not None)
    return (need.amount, *sizes)


def _by(stages: Iterable[Stage], worked: Estimate) -> tuple[Stage | None, str]:
    first = min(stages, key=STAGES.index, default=None)
    return first, _day(first, worked.job.terms)


def _day(stage: Stage | None, terms: Terms) -> str:
    """The day agreed for a stage: boarding has its own; what comes before it begins on the day of the planned start."""
    if stage == "boarding":
        return terms.boarding
    return terms.start if stage in {"strip out", "first fix", "frames"} else ""
