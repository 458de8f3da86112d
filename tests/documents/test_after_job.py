"""After the job, on paper and in a workbook."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from tundish.catalogue.load import supplied_book
from tundish.documents.after_job import build
from tundish.documents.block import Table
from tundish.estimate import Estimate, estimate
from tundish.field import Entry
from tundish.pricing.took import After, TookHours, TookLine, finished
from tundish.store.keep import demo_jobs
from tundish.writers.text import as_text


@cache
def made() -> Estimate:
    return estimate(next(each for each in demo_jobs() if each.number == "101"), supplied_book())


def with_after(after: After) -> Estimate:
    return replace(made(), job=replace(made().job, after=after))


def table(worked: Estimate, title: str) -> Table:
    return next(each for each in build(worked).blocks if isinstance(each, Table) and each.title == title)


def test_nothing_said_leaves_the_hours_blank() -> None:
    rows = table(made(), "Hours").rows
    assert len(rows) == 6
    assert all(row.cells[3] is None and row.cells[4] is None for row in rows)
    assert "Not finished yet. The hours of 0 of 6 stages are said." in as_text(build(made()))


def test_hours_stand_beside_the_estimate_with_who_worked_and_who_helped() -> None:
    after = After(
        hours=(
            TookHours(stage="frames", who="M. T.", hours=Entry(6.25)),
            TookHours(stage="frames", who="Mate", hours=Entry(6.0), helped=True),
            TookHours(stage="boarding", who="S. O.", hours=Entry(3.5, low=3, high=4, tbc=True)),
            TookHours(stage="first fix", who="M. T."),
        )
    )
    rows = {row.cells[0]: row for row in table(with_after(after), "Hours").rows}
    frames = rows["Frames and pre-wall"]
    assert (frames.cells[1], frames.cells[3], frames.tbc) == ("M. T. 6.25, Mate 6 (helped)", 6.25, False)
    assert frames.cells[4] == round(6.25 - float(frames.cells[2] or 0), 2)  # type: ignore[arg-type]
    assert (rows["Boarding and tiling"].cells[1], rows["Boarding and tiling"].tbc) == ("S. O. 3 to 4", True)
    assert (rows["First fix"].cells[1], rows["First fix"].cells[3], rows["First fix"].tbc) == ("M. T. TBC", None, True)
    assert rows["Together"].cells[3] == 9.75


def test_a_finished_job_tells_when_and_the_amounts_that_were_said() -> None:
    line = next(each for each in made().lines if each.amount.unit == "each")
    row = TookLine(item=line.item.code, what=line.item.name, unit="each", took=Entry(line.amount.value + 2))
    after = finished(After(lines=(row,)), made().price.stages, made().lines, made().book.figures, "2026-12-11")
    (told,) = table(with_after(after), "Amounts that were said").rows
    assert told.cells[0] == line.item.name
    assert getattr(told.cells[3], "words", "") == "2"
    assert "Finished Fri 11 Dec 2026." in as_text(build(with_after(after)))
