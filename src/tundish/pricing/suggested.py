"""What finished jobs say that the norms of a stage should be: the middle of what they took over what the norms as they stand give.

The middle one is not moved by one odd job, however odd. The hours of each job are carried over from the norms it was estimated at to
those that stand now, norm by norm, so that jobs from before and after a change speak of the same norms.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from tundish.catalogue.book import RuleFigure
from tundish.figure import Figure, Known, number, total
from tundish.pricing.norms import norms_of
from tundish.pricing.took import After, stages_beside
from tundish.rules.rule import STAGE_NAMES, STAGES, Stage

LEAST_JOBS: Final = 3
"""Fewer say nothing: of two, neither is the odd one (common practice of taking a middle)."""


@dataclass(frozen=True, slots=True)
class FinishedJob:
    """A job that is finished, by the name it is told by."""

    name: str
    after: After


@dataclass(frozen=True, slots=True)
class Suggested:
    """For a stage, how many times as long as by the norms each job took, least first; `factor` is what the norms should be multiplied by.

    No factor: too few jobs say anything of the stage.
    """

    stage: Stage
    ratios: tuple[Figure, ...]
    factor: Figure | None

    @property
    def name(self) -> str:
        """What the stage is called."""
        return STAGE_NAMES[self.stage]

    @property
    def worth(self) -> bool:
        """Whether it says anything else than that the norms are right."""
        return self.factor is not None and abs(self.factor.value - 1) >= _NEAR


def suggested(jobs: Iterable[FinishedJob], figures: Mapping[str, RuleFigure]) -> tuple[Suggested, ...]:
    """What the jobs say of every stage, the same record of a job counted once."""
    apart = {each.after: each for each in jobs if each.after.finished}
    found = tuple(ratio for each in apart.values() for ratio in _ratios(each, figures))
    return tuple(_of_stage(stage, (ratio for of, ratio in found if of == stage)) for stage in STAGES)


def norms_taken(suggestion: Suggested, figures: Mapping[str, RuleFigure]) -> dict[str, float]:
    """The norms of the stage as they are suggested, to four figures; none where nothing is suggested."""
    factor = suggestion.factor
    if factor is None or not suggestion.worth:
        return {}
    return {each.key: float(f"{each.value * factor.value:.4g}") for each in norms_of(suggestion.stage, figures)}


def _of_stage(stage: Stage, found: Iterable[Figure]) -> Suggested:
    ratios = tuple(sorted(found, key=lambda each: (each.value, each.label)))
    return Suggested(stage, ratios, _middle(ratios) if len(ratios) >= LEAST_JOBS else None)


def _middle(ratios: tuple[Figure, ...]) -> Figure:
    half = len(ratios) // 2
    words, told = f"The middle of {len(ratios)} jobs", ", ".join(f"{each.label} × {each.value:.2f}" for each in ratios)
    if len(ratios) % 2:
        return total([ratios[half].named(ratios[half].label, f"of {told}")], words, "")
    two = (ratios[half - 1] + ratios[half]).named("The two in the middle", f"of {told}")
    return (two / number(2, "", "of two")).named(words)


def _ratios(job: FinishedJob, figures: Mapping[str, RuleFigure]) -> Iterator[tuple[str, Figure]]:
    """What each stage took over what the norms give now: none where it was not said for sure, or where the norms give nothing.

    What the trader's own rules allowed for is taken off first: they are no norms, and stay as they are.
    """
    now, fixed = _now(job.after, figures)
    for beside in stages_beside(job.after, ()):
        if beside.took is None or not beside.took.settled:
            continue
        own = fixed.get(beside.key, [])
        took = beside.took - total(own, "By rules of my own", "h") if own else beside.took
        by_norms = total(now.get(beside.key, []), "By the norms as they are", "h")
        if took.value > 0 and by_norms.value > 0:
            yield beside.key, (took.named("Took") / by_norms).named(job.name)


def _now(after: After, figures: Mapping[str, RuleFigure]) -> tuple[dict[str, list[Figure]], dict[str, list[Figure]]]:
    """What was estimated of each stage, carried over to the norms as they are; and what rests on none of them."""
    now: dict[str, list[Figure]] = {}
    fixed: dict[str, list[Figure]] = {}
    for each in after.by_norm:
        norm = figures.get(each.norm)
        if each.hours is None:
            continue
        if norm is None:
            fixed.setdefault(each.stage, []).append(number(each.hours.value, "h", each.what or "By rules of my own"))
        elif each.value is not None and each.value.value > 0:
            carried = each.hours.value * norm.value / each.value.value
            now.setdefault(each.stage, []).append(number(carried, "h", norm.label, Known.RULE))
    return now, fixed


_NEAR: Final = 0.005
