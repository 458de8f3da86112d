"""Whether the pipes that were laid do fall."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import PipeRun, Room
from tundish.measure import show_fall
from tundish.rules.decisions import inputs, key_of
from tundish.rules.pipes import served
from tundish.rules.rule import Decision, rule


@rule("closing/fall", source="common practice")
def fall_proven(room: Room, book: Book) -> Iterator[Decision]:
    """The fall of every branch and waste is proven with a level.

    What is worked out is not proven: only a reading on the pipe is.
    """
    runs = room.pipes_of("soil", "waste")
    if runs:
        known = all(run.rise is not None for run in runs)
        falls = ", ".join(f"{served(room, run).name} {_fall(run)}" for run in runs)
        yield Decision(
            key_of(room, "fall"),
            "Fall proven",
            f"Expect {falls}." if known else "Needs branch invert first.",
            "By boarding",
            "Reading, photo",
            falls,
            inputs(room, "survey.stack.branch_invert", "survey.stack.from_left"),
        )


def _fall(run: PipeRun) -> str:
    return "invert not known" if run.rise is None else show_fall(run.rise.value, run.run.value)
