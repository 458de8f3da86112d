"""A room of thirty walls, its pre-wall in front of the last, through the whole flow: every paper is made, and names that wall."""

from __future__ import annotations

from pathlib import Path
from typing import Any, Final

import pytest

from tundish.catalogue.load import supplied_book
from tundish.documents.drawing import Words
from tundish.documents.index import build_all
from tundish.documents.plan_drawing import whole_room
from tundish.estimate import Estimate, Job, estimate
from tundish.field import Entry, put
from tundish.plain import from_plain, to_plain
from tundish.store.keep import demo_jobs
from tundish.survey.wall import Opening, Side, wall_letter
from tundish.writers.index import FORMATS, write
from tundish.writers.text import as_text

STEPS: Final = 14
LAST: Final = "AD"
CORNERS: Final = ((3_000, 90), *((length, corner) for _ in range(STEPS) for length, corner in ((300, 90), (50, 270))))
"""Wall B, then fourteen steps of 300 along and 50 further off; the last of them ends at the wall that closes the room."""
WALLS: Final = (*CORNERS[:-1], (3_000 + 50 * (STEPS - 1), 90))


@pytest.fixture(scope="module")
def job() -> Job:
    made = next(job for job in demo_jobs() if job.number == "101")
    made = put(made, "rooms.0.survey.walls", tuple(Side(length=Entry(length), corner=Entry(corner)) for length, corner in WALLS))
    made = put(made, "rooms.0.survey.room.width", Entry(300.0 * STEPS))
    made = put(made, "rooms.0.survey.openings", (Opening(kind="window", wall="Y", from_left=Entry(0), width=Entry(100)),))
    for path in ("design.prewall", "survey.stack", "survey.water"):
        made = put(made, f"rooms.0.{path}.wall", LAST)
    return made


@pytest.fixture(scope="module")
def worked(job: Job) -> Estimate:
    return estimate(job, supplied_book())


def test_it_is_worked_out_at_that_wall(worked: Estimate) -> None:
    (room,) = worked.rooms
    assert not worked.problems
    assert room.wall == LAST
    assert room.width.value == 3_650
    assert [side.letter for side in room.sides] == [wall_letter(place) for place in range(30)]
    assert room.outfalls[0].from_left.value == room.plan.survey.stack.from_left.value  # type: ignore[union-attr]


def test_every_wall_has_its_letter_on_the_plan(worked: Estimate) -> None:
    drawn = [mark.text for mark in whole_room(worked.rooms[0]).marks if isinstance(mark, Words)]
    assert {wall_letter(place) for place in range(30)} <= set(drawn)


def test_every_paper_is_made_and_the_setting_out_names_the_wall(worked: Estimate, tmp_path: Path) -> None:
    papers = {paper.key: paper for paper in build_all(worked)}
    assert all(as_text(paper) for paper in papers.values())
    assert f"Wall {LAST}" in as_text(next(paper for key, paper in papers.items() if key == "survey"))
    made = [
        file
        for key in papers
        if key.startswith(("setting", "survey"))
        for file in write(papers[key], tmp_path, FORMATS, "2026-11-25 09:00")
    ]
    assert all(file.stat().st_size for file in made)


def test_its_job_file_is_read_again(job: Job) -> None:
    read, problems, unknown = from_plain(Job, to_plain(job))
    assert (read, problems, unknown) == (job, (), {})
    for wrong in ("a", "A1", "", "ABCD", 3):
        file: Any = to_plain(job)
        file["rooms"][0]["survey"]["stack"]["wall"] = wrong
        read, problems, _ = from_plain(Job, file)
        assert read is None
        assert "is no wall: A, B, C…" in problems[0].text
