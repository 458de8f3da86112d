"""The programme: which day what is done, who is there, and what must be on site."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from tundish import measure
from tundish.documents import programme_drawing
from tundish.documents.block import Block, Column, Document, Event, Paragraph, Row, Sketch, Table
from tundish.documents.paper import care, paper
from tundish.estimate import Estimate
from tundish.pricing.labour import YOU
from tundish.pricing.price import Day
from tundish.rules.rule import STAGE_NAMES

_COLUMNS = (
    Column("Day", "text", 1.3, "strong"),
    Column("Work", "text", 2.6),
    Column("Who", "text", 1.2),
    Column("On site by then", "text", 3.4, "quiet"),
    Column("Done", "tick", 0.5),
)
_MOST_NAMED = 6
WORKS = {"tiling": "tiles", "second fix": "second fix", "boarding": "boards"}
"""What comes after a wait, in the words of the programme."""


def build(estimate: Estimate) -> Document:
    """The days of a job, as a picture and one by one; hours stay with the trader."""
    days = estimate.price.programme
    rows = tuple(Row((day_words(day), work_words(day), _who(day, estimate), _on_site(day, days, estimate), "")) for day in days)
    notes = (
        "Weekends are left out; bank holidays and the days of others are for you to move.",
        *_visits(estimate),
        *_waits(estimate),
        *_reach(estimate),
    )
    picture = (Sketch(programme_drawing.drawn(days), scale=1, told=programme_drawing.told(days)),) if days else ()
    told = (Paragraph(each, "note") for each in notes)
    blocks: tuple[Block, ...] = (*picture, Table(_COLUMNS, rows), *told, *care(estimate, "programme", "To arrange before the work begins"))
    made = paper(estimate, "programme", "Programme", blocks)
    job = made.number or made.name
    events = (Event(day.date, _title(day, estimate), _event_words(day, estimate), f"{job}-{day.number}") for day in days if day.date)
    return replace(made, events=tuple(events))


def day_words(day: Day) -> str:
    """What a day is called: its date, or its number while there is no start."""
    return measure.show_date(day.date) if day.date else f"Day {day.number}"


def work_words(day: Day) -> str:
    """What is done on a day."""
    then = day.then[:1].lower() + day.then[1:]
    return day.waits or ", then ".join(each for each in (*dict.fromkeys(name for name, _ in day.work), then) if each)


def needs_two(estimate: Estimate) -> bool:
    """Whether anything on the job weighs more than one should lift."""
    return any(caution.title == "Weights to lift" for caution in estimate.cautions)


def _visits(estimate: Estimate) -> Iterator[str]:
    """Where the work is parted into visits: each with its days and what it comes after."""
    visits = estimate.price.visits
    for visit in visits if len(visits) > 1 else ():
        on = [day_words(day) for day in estimate.price.programme if day.visit == visit.number]
        yield f"Visit {visit.number}, {visit.why}: {on[0]}{f' to {on[-1]}' if len(on) > 1 else ''}."


def _waits(estimate: Estimate) -> Iterator[str]:
    """What has to dry, for how long, and who says so; what dries overnight or over a weekend costs no day."""
    for wait in estimate.price.waits:
        by = " or ".join(WORKS.get(work, work) for work in wait.before)
        says = wait.hours.note or next(term.figure.note for term in wait.hours.terms if term.figure.value == wait.hours.value)
        yield f"{wait.what}: {measure.show_amount(wait.hours.value, 'h')} hours before {by}. {says[:1].upper()}{says[1:]}."


def _reach(estimate: Estimate) -> Iterator[str]:
    fewest, most = estimate.price.reach
    if fewest < most:
        yield f"It may take {fewest} to {most} days: inputs that its hours rest on are still to be confirmed."


def _event_words(day: Day, estimate: Estimate) -> str:
    """Who is there, what must be on site by then, and whether the days may still move."""
    days = estimate.price.programme
    lines = [f"On site: {_who(day, estimate)}"]
    if brought := _on_site(day, days, estimate):
        lines.append(f"There by then: {brought}")
    return "\n".join([*lines, *_reach(estimate)])


def _title(day: Day, estimate: Estimate) -> str:
    return ": ".join(word for word in (estimate.job.client.name or estimate.job.title, work_words(day)) if word)


def _who(day: Day, estimate: Estimate) -> str:
    if day.waits:
        return "nobody"
    names = {name for name, _ in day.work}
    people = dict.fromkeys(each.name for stage in estimate.price.stages if stage.name in names for each in stage.people)
    if len(people) > 1:
        return ", ".join("I" if each == YOU else each for each in people)
    lifts = {STAGE_NAMES["frames"], STAGE_NAMES["boarding"], STAGE_NAMES["second fix"]} & names
    return "two, to lift" if needs_two(estimate) and lifts else "one"


def _on_site(day: Day, days: tuple[Day, ...], estimate: Estimate) -> str:
    """What the stages that begin on a day take, bought first; the longest list is cut short and says so."""
    before = {name for earlier in days[: day.number - 1] for name, _ in earlier.work}
    names = list(dict.fromkeys(_taken({name for name, _ in day.work} - before, estimate)))
    more = f" and {len(names) - _MOST_NAMED} more: see the materials list" if len(names) > _MOST_NAMED else ""
    return ", ".join(names[:_MOST_NAMED]) + more


def _taken(stages: set[str], estimate: Estimate) -> Iterator[str]:
    bought = sorted(estimate.buying.purchases, key=lambda each: -each.cost)
    for purchase in bought:
        if any(STAGE_NAMES[need.stage] in stages for need in purchase.line.needs):
            yield purchase.line.item.name
