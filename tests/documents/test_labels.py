"""Labels and the stock-take sheet."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

from tests.writers.reading import texts
from tundish.catalogue.book import Book
from tundish.catalogue.trader import Trader
from tundish.cutting.plan import BarPlan
from tundish.documents import labels, stock_take
from tundish.documents.block import Sketch, Table
from tundish.documents.drawing import Words
from tundish.estimate import Estimate
from tundish.writers.pdf import pdf_bytes
from tundish.writers.text import as_text


def test_every_piece_has_its_label_with_its_length_large_and_the_job(worked: dict[str, Estimate]) -> None:
    made = labels.labels(worked["101"])
    for plan in worked["101"].cuts:
        for cut in plan.cuts:
            label = next(each for each in made if each.piece == cut.mark)
            assert len(re.findall(rf"\b{re.escape(cut.what)}\b", label.what, re.IGNORECASE)) == 1
            assert label.what.endswith(plan.item.name)
            assert label.job == "job 101"
            assert label.tbc == cut.length.tbc


def test_offcuts_to_keep_get_one_too(worked: dict[str, Estimate]) -> None:
    keep = worked["101"].book.figure("cutting.keep").value
    kept = [bar for plan in worked["101"].cuts if isinstance(plan.plan, BarPlan) for bar in plan.plan.kept(keep)]
    sheets = [rest for plan in worked["101"].cuts if not isinstance(plan.plan, BarPlan) for rest in plan.plan.kept()]
    assert sum(each.piece == "Keep" for each in labels.labels(worked["101"])) == len(kept) + len(sheets)


def test_they_stand_four_across_at_true_size_and_what_must_wait_says_so(worked: dict[str, Estimate]) -> None:
    sheet = labels.build(worked["102"])
    rows = [block for block in sheet.blocks if isinstance(block, Sketch)]
    count = len(labels.labels(worked["102"]))
    assert len(rows) == -(-count // 4)
    assert {row.scale for row in rows} == {1}
    sizes = [mark.size for mark in rows[0].drawing.marks if isinstance(mark, Words)]
    assert max(sizes) > 2 * min(sizes)
    assert "do not cut yet" in as_text(sheet)


def test_what_a_label_says_is_printed_once_and_read_out_once(worked: dict[str, Estimate]) -> None:
    sheet, first = labels.build(worked["101"]), labels.labels(worked["101"])[0]
    printed = " ".join(texts(pdf_bytes(sheet, "2026-11-25 09:00")))
    assert printed.count(f"{first.piece} {first.size}") == 0  # the two stand under one another, never as a line of words
    assert as_text(sheet).count(f"{first.piece} {first.size}, ") == 1
    assert "Scale 1:1" not in printed


def test_what_is_too_long_for_a_line_goes_on_in_a_second(worked: dict[str, Estimate]) -> None:
    marks = [mark for block in labels.build(worked["104"]).blocks if isinstance(block, Sketch) for mark in block.drawing.marks]
    words = [mark for mark in marks if isinstance(mark, Words)]
    assert not [mark.text for mark in words if mark.text.endswith("…")]
    assert all(len(mark.text) <= labels.FITS for mark in words)
    assert all(1 < mark.y < labels.HIGH for mark in words)


def test_a_name_without_end_keeps_within_its_label(changed: Callable[..., Estimate]) -> None:
    endless = replace(labels.labels(changed("101"))[0], what="pipe " * 50, where="W" * 200)
    drawn = [mark for mark in labels.drawn((endless,)).marks if isinstance(mark, Words)]
    assert all(len(mark.text) <= labels.FITS and 1 < mark.y < labels.HIGH for mark in drawn)
    assert sum(mark.text.endswith("…") for mark in drawn) == 2
    assert drawn[-1].text == "job 101"


def test_the_stock_take_sheet_has_every_holding_by_place_and_room_to_write(book: Book) -> None:
    held = (stock_take.Held("sound-pad", "van", "", 6), stock_take.Held("sound-pad", "site", "101", 2))
    sheet = stock_take.build(replace(book, trader=Trader(colour="blue")), held, book.rack, "2026-11-25")
    assert (sheet.colour, sheet.sender) == ("blue", "Your name here"), "never an invented name on a paper of the user's own"
    tables = [block for block in sheet.blocks if isinstance(block, Table)]
    assert [table.title for table in tables] == ["Van", "Site", "Offcuts on the rack"]
    assert "job 101" in as_text(sheet)
    assert len(tables[-1].rows) == len(book.rack)
