"""What was settled before the wall was closed, by whom and how it was shown."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import count
from typing import Final

from tundish.field import Entry, amount, choice, date, text

STATES = ("open", "asked", "settled", "not needed")
CLOSED: Final = "closed"
"""The decision under which closing the wall itself is kept."""
OWN: Final = "own/"
"""What the keys of rows begin with that the fitter added."""
BY: Final = ("By first fix", "By boarding")


@dataclass(frozen=True, slots=True, kw_only=True)
class Settled:
    """The record of one decision. `decision` is the key the rules gave it; `rests_on` is what it was settled for, word for word.

    `start`, `end`: the readings of a test, in the unit that it is read in; `minutes` between them.
    """

    decision: str = text("Decision")
    state: str = choice("State", STATES)
    who: str = text("Who")
    when: str = date("When")
    evidence: str = text("Shown by", "Reading, photograph, signed sheet.")
    rests_on: str = text("Rests on")
    start: Entry | None = amount("Gauge at the start", "")
    end: Entry | None = amount("Gauge at the end", "")
    minutes: Entry | None = amount("Minutes held", "")


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnRow:
    """Something that the fitter wants settled before the wall is closed, besides what the rules ask for. `key` never changes."""

    key: str = text("Key")
    what: str = text("To settle")
    why: str = text("Why")
    by: str = choice("By", BY)
    shown_by: str = text("To be shown by")


def wall_closed(records: Iterable[Settled]) -> Settled | None:
    """The record of the closed wall; None while it is open."""
    return next((each for each in records if each.decision == CLOSED and each.state == "settled"), None)


def next_key(rows: Iterable[OwnRow], records: Iterable[Settled]) -> str:
    """A key for one more row of one's own: none that a row has, or had when something was recorded of it."""
    taken = {each.key for each in rows} | {each.decision for each in records}
    return next(key for number in count(1) if (key := f"{OWN}{number}") not in taken)
