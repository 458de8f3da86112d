"""What every paper has: its head, its foot and its name."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from tundish import measure
from tundish.catalogue.trader import Trader, demo_trader
from tundish.documents.block import Block, Document, Points
from tundish.estimate import Estimate, Job
from tundish.layout.room import Room
from tundish.rules.book import RULES

UNNAMED: Final = "Your name here"
"""What stands for the trader's name until it is typed."""


def care(estimate: Estimate, key: str, title: str) -> tuple[Block, ...]:
    """The cautions that a paper has beside the setting-out sheet, each once; none where there are none."""
    here = {each.key for each in RULES if key in each.prints}
    told = dict.fromkeys(f"{each.title}: {each.words}" for each in estimate.cautions if each.rule in here)
    return (Points(title, tuple(told)),) if told else ()


def paper(estimate: Estimate, key: str, title: str, blocks: tuple[Block, ...], *, foot: str = "", tables_only: bool = False) -> Document:
    """A document with the trader's head and the job's number and client."""
    job, trader = estimate.job, trader_of(estimate)
    subtitle = ", ".join(word for word in (f"Job {job.number}" if job.number else "", surname(job.client.name), job.title) if word)
    return Document(
        key=key,
        title=title,
        number=job.number,
        subtitle=subtitle,
        sender=trader.name or UNNAMED,
        trade=trader.trade,
        name=" ".join(word for word in (title, job.number, surname(job.client.name)) if word),
        foot=foot or " · ".join(word for word in (title, subtitle) if word),
        blocks=blocks,
        demo=bool(job.demo),
        tables_only=tables_only,
        colour=trader.colour,
    )


def trader_of(estimate: Estimate) -> Trader:
    """Whose name the papers carry; a demonstration job has an invented one until the user's own is typed."""
    trader = estimate.book.trader
    return replace(demo_trader(), colour=trader.colour) if estimate.job.demo and not trader.name else trader


def quote_named(job: Job, nameless: str) -> str:
    """The quote of a job by its number: of the issue that was accepted, once one was; in other words where it has none."""
    number = job.agreed.quote or job.number
    return f"quote {number}" if number else nameless


def wall_title(room: Room) -> str:
    """A room at one of its walls, the wall said once: "Family bathroom, wall A"."""
    words = f"wall {room.wall}"
    return room.name if room.name.endswith(f", {words}") else f"{room.name}, {words}"


def along_wall(x: float, width: float) -> str:
    """A place along a wall from its left end; what is past a corner is said to be round it."""
    if x < 0:
        return f"{measure.show_length(-x)} round the left corner"
    return measure.show_length(x) if x <= width else f"{measure.show_length(x - width)} round the right corner"


def surname(name: str) -> str:
    """The last word of a name, for file names and heads."""
    return name.rsplit(maxsplit=1)[-1] if name.split() else ""


def lines_of(text: str) -> tuple[str, ...]:
    """The lines of a typed text that say something."""
    return tuple(line.strip() for line in text.splitlines() if line.strip())
