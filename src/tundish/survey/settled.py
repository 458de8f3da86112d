"""What was settled before the wall was closed, by whom and how it was shown."""

from __future__ import annotations

from dataclasses import dataclass

from tundish.field import Entry, amount, choice, date, text

STATES = ("open", "asked", "settled", "not needed")


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
