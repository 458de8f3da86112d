"""On paper no words of a wall lie on others."""

from __future__ import annotations

from itertools import combinations

import pytest

from tests.jobs.crowded import LONG, seven
from tundish.catalogue.load import supplied_book
from tundish.documents.block import Sketch
from tundish.documents.clear_words import overlap
from tundish.documents.setting_out import build
from tundish.estimate import Job, estimate
from tundish.store.keep import demo_jobs
from tundish.writers.pdf_drawing import bounds, cleared
from tundish.writers.pdf_sketch import scale_of
from tundish.writers.pdf_type import MM

WIDE = 186 * MM
JOBS = {"3.2 m": lambda: seven(3200), "4.6 m": lambda: seven(4600), "9 m": lambda: seven(9000), "names": lambda: seven(4600, LONG)} | {
    job.number: (lambda job=job: job) for job in demo_jobs()
}


@pytest.mark.parametrize("name", JOBS)
def test_no_words_of_a_setting_out_sheet_lie_on_others(name: str) -> None:
    job: Job = JOBS[name]()
    worked = estimate(job, supplied_book())
    for room in worked.rooms:
        for sketch in (block for block in build(worked, room).blocks if isinstance(block, Sketch)):
            each = MM / scale_of(sketch.drawing, sketch.scale, WIDE * sketch.share)
            marks = cleared(sketch.drawing, each).marks
            boxes = [(mark, box) for mark in marks if (box := bounds(mark, each))]
            assert [
                (one.text, other.text)  # type: ignore[union-attr]  # only words have bounds
                for (one, first), (other, second) in combinations(boxes, 2)
                if overlap(first, second) > 0.1
            ] == [], room.name
