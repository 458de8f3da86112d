"""What decides what: every input of a job that is still open, what it moves, and by when it must be settled. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from tundish.estimate import Estimate
from tundish.figure import Figure, rests_on
from tundish.pricing.terms import Terms
from tundish.ranges import alone, may_be
from tundish.rules.rule import STAGES, Finding, Need, Stage
from tundish.takeoff.line import Line


@dataclass(frozen=True, slots=True)
class OpenInput:
    """One open input, or choice, and what rests on it.

    `input` of a choice has its alternatives as the note and no value of its own; `otherwise` says in words what no range can show of it.
    `figures`: what it moves to be seen, by room and name, with their ranges over all that is open. `lines`: whose amount or a cut length
    may change. `findings`: whose verdict turns on it. `settle_by`: the first stage that needs what it moves, None where nothing bought or
    checked does; `day` as ISO, where agreed.
    """

    input: Figure
    figures: tuple[tuple[str, str, Figure], ...]
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]
    settle_by: Stage | None
    day: str
    otherwise: tuple[str, ...] = ()
    choice: bool = False

    @property
    def path(self) -> str:
        """The path of the input."""
        return self.input.path


def open_inputs(worked: Estimate) -> tuple[OpenInput, ...]:
    """Every open input that moves anything and every open choice, those to be settled first first.

    It moves what its figure is a term of; what only a count steps over (one clip more) is not among a figure's terms and not told.
    """
    found: dict[str, Figure] = {each.choice.path: each.choice for each in worked.otherwise}
    stages: dict[str, set[Stage]] = {each.choice.path: set() for each in worked.otherwise}
    words: dict[str, list[str]] = {path: [] for path in found}
    for one in worked.otherwise:
        stages[one.choice.path].update(one.stages)
        words[one.choice.path] += one.words
    figures, lines, findings = _figures(worked, found), _lines(worked, found, stages), _findings(worked, found, stages)
    made = (
        OpenInput(
            each,
            tuple(figures.get(path, ())),
            tuple(lines.get(path, ())),
            tuple(findings.get(path, ())),
            *_by(stages.get(path, ()), worked),
            tuple(words.get(path, ())),
            path in words,
        )
        for path, each in found.items()
    )
    return tuple(sorted(made, key=lambda one: STAGES.index(one.settle_by) if one.settle_by else len(STAGES)))


def _figures(worked: Estimate, found: dict[str, Figure]) -> dict[str, list[tuple[str, str, Figure]]]:
    """The figures that each open input moves."""
    moved: dict[str, list[tuple[str, str, Figure]]] = {}
    for room in worked.rooms:
        for name, figure in room.figures.items():
            for path in _open((figure,), found):
                if path != figure.path and _to_be_seen(figure, path):
                    moved.setdefault(path, []).append((room.name, name, figure))
    return moved


def _to_be_seen(figure: Figure, path: str) -> bool:
    """Whether what an input alone moves of a figure can be read; one without a range may move it by anything."""
    low, high = alone(figure, path)
    return low == high or bool(may_be(replace(figure, low=low, high=high)))


def _lines(worked: Estimate, found: dict[str, Figure], stages: dict[str, set[Stage]]) -> dict[str, list[Line]]:
    """The lines that each open input moves, with the stages of what it moves of them."""
    moved: dict[str, list[Line]] = {}
    for line in worked.lines:
        paths = [(path, need.stage) for need in line.needs for path in _open(_of(need), found)]
        for path, stage in paths:
            stages.setdefault(path, set()).add(stage)
        # The amount too: another alternative of a choice may ask for the same for a reason that the needs there are do not have.
        for path in dict.fromkeys((*(path for path, _ in paths), *_open((line.amount,), found))):
            moved.setdefault(path, []).append(line)
    return moved


def _findings(worked: Estimate, found: dict[str, Figure], stages: dict[str, set[Stage]]) -> dict[str, list[Finding]]:
    """The checks whose verdict turns on each open input."""
    turns: dict[str, list[Finding]] = {}
    for finding in worked.findings:
        for leaf in finding.depends_on:
            turns.setdefault(found.setdefault(leaf.path, leaf).path, []).append(finding)
            stages.setdefault(leaf.path, set()).add("first fix" if finding.group == "Falls" else "frames")
    return turns


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
