"""The hand-over: everything fitted, where it is reached, what was recorded and what was not."""

from __future__ import annotations

from dataclasses import replace

from tundish.documents import hand_over
from tundish.documents.block import Document, Picture, Points, SideBySide, Table
from tundish.estimate import Estimate
from tundish.field import put
from tundish.survey.settled import Settled
from tundish.survey.shape import Photograph
from tundish.writers.text import as_text


def rows(made: Document, head: str) -> list[tuple[object, ...]]:
    """The rows of the tables whose first head is this."""
    return [row.cells for block in made.blocks if isinstance(block, Table) and block.columns[0].head == head for row in block.rows]


def test_everything_that_hangs_is_listed_with_the_sheet_it_was_set_out_by(one: Estimate) -> None:
    found = rows(hand_over.build(one), "Fitted")
    names = {cells[1] for cells in found}
    for room in one.rooms:
        for placed in room.placed:
            assert {placed.ware.name, placed.frame.name} <= names
            assert (placed.name, placed.ware.name, placed.ware.sheet) in found
            for code in (placed.choice.seat, placed.choice.plate, placed.choice.tap):
                assert not code or one.book.item(code).name in names


def test_plates_supplies_and_hatches_are_found_from_the_left_and_above_the_clients_floor(worked: dict[str, Estimate]) -> None:
    job = worked["104"]
    found = {str(cells[0]): cells[1:3] for cells in rows(hand_over.build(job), "What")}
    wall = next(room for room in job.rooms if any(each.kind == "hatch" for each in room.recesses))
    hatch = next(each for each in wall.recesses if each.kind == "hatch")
    assert found[hatch.name][1] == hatch.bottom.value - wall.finished_floor.value
    wc = next(each for each in wall.placed if each.choice.plate)
    assert found[f"Flush plate, {wc.name}"] == (f"{wc.centre.value:g}", wc.figures["plate"].value - wall.finished_floor.value)


def test_a_test_stands_with_its_reading_or_as_not_recorded(worked: dict[str, Estimate]) -> None:
    job = worked["102"]
    decision = job.decisions[0]
    record = Settled(decision=decision.key, state="settled", evidence="6.0 bar, 6.0 bar after 60 minutes", who="M. T.", when="2026-11-20")
    made = hand_over.build(replace(job, job=replace(job.job, settled=(record,))))
    found = {str(cells[0]): cells[1:] for cells in rows(made, "Test")}
    assert found[decision.title] == ("6.0 bar, 6.0 bar after 60 minutes", "M. T.", "Fri 20 Nov 2026")
    assert all(cells == ("not recorded", "–", "–") for name, cells in found.items() if name != decision.title)
    assert len(rows(made, "Test")) == len(job.decisions)


def test_the_stop_valve_is_as_it_was_written_down_or_asked_for(worked: dict[str, Estimate]) -> None:
    def told(made: Document) -> tuple[str, ...]:
        return next(block.items for block in made.blocks if isinstance(block, Points) and block.title == "To turn the water off")

    assert told(hand_over.build(worked["101"])) == ("Cloakroom: Kitchen, under the sink; turns and holds.",)
    job = worked["101"].job
    silent = replace(job, rooms=tuple(put(plan, "survey.water.stop_valve", "") for plan in job.rooms))
    assert told(hand_over.build(replace(worked["101"], job=silent)))[0].startswith("Where the stop valve is was not written down")


def test_only_photographs_of_the_finished_work_are_handed_over(worked: dict[str, Estimate]) -> None:
    job = worked["101"].job
    taken = (Photograph(picture="a", note="open wall", of="before closing"), Photograph(picture="b", note="done", of="when finished"))
    shown = replace(job, rooms=(put(job.rooms[0], "survey.photographs", taken), *job.rooms[1:]))
    made = hand_over.build(replace(worked["101"], job=shown))
    pictures = [
        each.key
        for block in made.blocks
        if isinstance(block, SideBySide)
        for each in (*block.left, *block.right)
        if isinstance(each, Picture)
    ]
    assert pictures == ["b"]


def test_no_price_and_no_cost_is_in_it(one: Estimate) -> None:
    text = as_text(hand_over.build(one)).lower()
    assert not [word for word in ("£", "mark-up", "hours") if word in text]
