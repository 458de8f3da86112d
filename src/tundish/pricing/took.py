"""After the job: the hours and amounts that it really took, as typed, beside what was estimated. What was not typed is not nothing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from tundish.catalogue.book import RuleFigure
from tundish.field import Entry, amount, date, flag, read, records, text
from tundish.field import choice as one_of
from tundish.figure import Figure, Known, number, total
from tundish.pricing.norms import norms_of, parts, unrounded
from tundish.pricing.price import StagePrice
from tundish.rules.rule import STAGE_NAMES, STAGES
from tundish.takeoff.line import Line

MOST_HOURS = 5_000


@dataclass(frozen=True, slots=True, kw_only=True)
class TookHours:
    """The hours of one person at one stage; blank hours are still to be said. Who only helped is told apart: norms are of the work."""

    stage: str = one_of("Stage", STAGES)
    who: str = text("Who")
    hours: Entry | None = amount("Hours it took", "h", most=MOST_HOURS, known=Known.TYPED)
    helped: bool = flag("Only helped")


@dataclass(frozen=True, slots=True, kw_only=True)
class TookLine:
    """How much of one item it really took, in the item's unit, beside what was worked out when it was typed or the job was finished."""

    item: str = text("Item", "The code of an item of the catalogue.")
    what: str = text("What", "Its name as it was then.")
    unit: str = text("Unit")
    estimated: Entry | None = amount("Estimated", "")
    took: Entry | None = amount("Took", "", known=Known.TYPED)


@dataclass(frozen=True, slots=True, kw_only=True)
class ByNorm:
    """The hours that one norm came to in the estimate, and what it stood at; without a norm, the hours of rules of one's own."""

    stage: str = one_of("Stage", STAGES)
    norm: str = text("Norm", "The key of the figure.")
    what: str = text("What", "What it is called.")
    value: Entry | None = amount("Stood at", "")
    hours: Entry | None = amount("Hours by it", "h")


@dataclass(frozen=True, slots=True, kw_only=True)
class After:
    """What a job took. Once it is `finished` it keeps what was estimated and the norms that it was estimated at."""

    finished: str = date("Finished on")
    hours: tuple[TookHours, ...] = records("Hours it took", TookHours)
    lines: tuple[TookLine, ...] = records("Amounts it took", TookLine)
    by_norm: tuple[ByNorm, ...] = records("As estimated", ByNorm)


@dataclass(frozen=True, slots=True)
class Beside:
    """What was estimated, beside what it took (None: not said, or not for everybody); `rows` are what was typed of it."""

    key: str
    name: str
    estimated: Figure
    took: Figure | None
    rows: tuple[TookHours, ...] = ()

    @property
    def more(self) -> Figure | None:
        """How much more it took, below nothing where it took less."""
        return None if self.took is None else (self.took - self.estimated).named(f"{self.name}, more than estimated")


def stages_beside(after: After, stages: Sequence[StagePrice]) -> tuple[Beside, ...]:
    """Every stage with hours estimated or typed, the estimate before it was rounded up; of a finished job as it was then."""
    estimated = _kept(after) if after.finished else {each.stage: unrounded(each.hours).named("Estimated") for each in stages}
    typed = {each.stage for each in after.hours}
    return tuple(
        Beside(stage, STAGE_NAMES[stage], estimated.get(stage, number(0, "h", "By norms")), _took(after, stage), _rows(after, stage))
        for stage in STAGES
        if stage in typed or (stage in estimated and estimated[stage].high > 0)
    )


def lines_beside(after: After, lines: Iterable[Line]) -> tuple[Beside, ...]:
    """Every line of the list, then what was typed of others; of a finished job what was typed is beside what was worked out then."""
    typed = {each.item: (place, each) for place, each in enumerate(after.lines)}
    listed = tuple(lines)
    return (*_on_the_list(after, typed, listed), *_of_others(typed, {each.item.code for each in listed}))


def with_hours(after: After, row: TookHours) -> After:
    """With somebody's hours at a stage in place of what was said of them before."""
    places = [place for place, each in enumerate(after.hours) if _same(each, row)]
    if not places:
        return replace(after, hours=(*after.hours, row))
    return replace(after, hours=(*after.hours[: places[0]], row, *after.hours[places[0] + 1 :]))


def without_hours(after: After, row: TookHours) -> After:
    """Without what was said of somebody's hours at a stage."""
    return replace(after, hours=tuple(each for each in after.hours if not _same(each, row)))


def with_amount(after: After, row: TookLine) -> After:
    """With what it took of an item; a row without an amount takes it out again."""
    others = tuple(each for each in after.lines if each.item != row.item)
    return replace(after, lines=others if row.took is None else (*others, row))


def finished(after: After, stages: Sequence[StagePrice], lines: Iterable[Line], figures: Mapping[str, RuleFigure], day: str) -> After:
    """The job finished on a day: what was estimated is kept beside what it took, with the norms it was estimated at."""
    found = {each.item.code: each for each in lines}
    kept = tuple(
        replace(each, estimated=Entry(found[each.item].amount.value, Known.WORKED_OUT)) if each.item in found else each
        for each in after.lines
    )
    return replace(after, finished=day, lines=kept, by_norm=tuple(_by_norm(stages, figures)))


def not_finished(after: After) -> After:
    """Not finished after all: what was typed stays, and stands beside the estimate as it is now."""
    return replace(after, finished="", by_norm=())


def _by_norm(stages: Sequence[StagePrice], figures: Mapping[str, RuleFigure]) -> Iterator[ByNorm]:
    for each in stages:
        for part in parts(each.hours, norms_of(each.stage, figures)):
            hours = Entry(part.hours, Known.WORKED_OUT)
            if part.norm is None:
                yield ByNorm(stage=each.stage, hours=hours)
            else:
                yield ByNorm(
                    stage=each.stage, norm=part.norm.key, what=part.norm.label, value=Entry(part.norm.value, Known.RULE), hours=hours
                )


def _kept(after: After) -> dict[str, Figure]:
    made: dict[str, list[Figure]] = {}
    for place, each in enumerate(after.by_norm):
        hours = read(each, "hours", f"after.by_norm.{place}")
        if hours is not None:
            made.setdefault(each.stage, []).append(hours.named(each.what or "By rules of my own"))
    return {stage: total(hours, "Estimated", "h") for stage, hours in made.items()}


def _rows(after: After, stage: str) -> tuple[TookHours, ...]:
    return tuple(each for each in after.hours if each.stage == stage)


def _took(after: After, stage: str) -> Figure | None:
    """All hours of work at a stage, helpers left out; None where nobody's are said, or somebody's are still to be."""
    working = [(place, each) for place, each in enumerate(after.hours) if each.stage == stage and not each.helped]
    said = [(each, read(each, "hours", f"after.hours.{place}")) for place, each in working]
    known = [hours.named(each.who or "Hours") for each, hours in said if hours is not None]
    return total(known, "Took", "h") if known and len(known) == len(said) else None


def _on_the_list(after: After, typed: dict[str, tuple[int, TookLine]], lines: Iterable[Line]) -> Iterator[Beside]:
    for line in lines:
        place, row = typed.get(line.item.code, (0, None))
        then = None if row is None or not after.finished else read(row, "estimated", f"after.lines.{place}")
        worked_out = line.amount if then is None else replace(then, unit=line.amount.unit)
        yield Beside(line.item.code, line.item.name, worked_out, _amount(row, place, line.amount.unit))


def _of_others(typed: dict[str, tuple[int, TookLine]], listed: set[str]) -> Iterator[Beside]:
    for code, (place, row) in typed.items():
        if code not in listed:
            then = read(row, "estimated", f"after.lines.{place}")
            worked_out = number(0, row.unit, "Not on the list") if then is None else replace(then, unit=row.unit)
            yield Beside(code, row.what or code, worked_out, _amount(row, place, row.unit))


def _amount(row: TookLine | None, place: int, unit: str) -> Figure | None:
    found = None if row is None else read(row, "took", f"after.lines.{place}")
    return None if found is None else replace(found, unit=unit)


def _same(one: TookHours, other: TookHours) -> bool:
    return one.stage == other.stage and one.who.strip().casefold() == other.who.strip().casefold()
