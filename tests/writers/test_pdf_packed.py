"""A PDF made small: nothing of it is lost, and a long list can still be sent from a telephone."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from decimal import Decimal

import pytest

from tests.writers import sample_papers as samples
from tests.writers.heard import parts, tagged, unmarked
from tests.writers.reading import darkness, objects, texts
from tundish.documents.block import Column, Document, Row, Table
from tundish.writers.pdf import pdf_bytes
from tundish.writers.pdf_packed import packed

MOST_BYTES = 300_000
"""What a paper without photographs may weigh."""


def plain(monkeypatch: pytest.MonkeyPatch, paper: Document) -> bytes:
    """The paper as it is before it is packed: every object by itself, with a plain table of where they stand."""
    with monkeypatch.context() as patch:
        patch.setattr("tundish.writers.pdf.packed", one_by_one)
        return pdf_bytes(paper, samples.PRINTED)


def one_by_one(made: bytes, more: Callable[[int], Mapping[int, bytes]]) -> bytes:
    found = re.findall(rb"(\d+) 0 obj\n(.*?)\s*endobj\n", made, re.DOTALL)
    bodies = {int(number): body for number, body in found}
    bodies |= more(len(bodies) + 1)
    file, places = made[: made.index(b"1 0 obj")], []
    for number in sorted(bodies):
        places.append(b"%010d 00000 n \n" % len(file))
        file += b"%d 0 obj\n%s\nendobj\n" % (number, bodies[number])
    named = re.findall(rb"/(?:Root|Info) \d+ 0 R|/ID\s*\[.*?\]", made[made.rindex(b"trailer") :], re.DOTALL)
    table = b"xref\n0 %d\n0000000000 65535 f \n%s" % (len(bodies) + 1, b"".join(places))
    return file + table + b"trailer\n<</Size %d %s>>\nstartxref\n%d\n%%%%EOF\n" % (len(bodies) + 1, b" ".join(named), len(file))


@pytest.mark.parametrize("paper", [*samples.papers(), samples.order(200)], ids=lambda paper: paper.name)
def test_what_is_packed_is_seen_and_heard_as_it_was(paper: Document, monkeypatch: pytest.MonkeyPatch) -> None:
    before = plain(monkeypatch, paper)
    made = packed(before)
    assert len(made) < len(before)
    assert texts(made) == texts(before)
    assert darkness(made) == darkness(before)
    assert tagged(made) == tagged(before) == (True, "en-GB")
    assert parts(made) == parts(before)


def test_every_object_is_there_once(monkeypatch: pytest.MonkeyPatch) -> None:
    before = plain(monkeypatch, samples.order(400))
    made = packed(before)
    assert before.count(b"endstream") + made.count(b"/ObjStm") + 1 == made.count(b" 0 obj\n")
    whole = re.findall(rb"\d+ 0 obj\n(.*?)\s*endobj", before, re.DOTALL)
    inside = objects(made)
    assert len(whole) > 2_000
    assert all(body.strip() in inside for body in whole if not body.strip().endswith(b"endstream"))


def test_a_thousand_lines_still_weigh_little() -> None:
    few, many = (len(pdf_bytes(samples.order(rows), samples.PRINTED)) for rows in (200, 1_000))
    assert few < MOST_BYTES / 3
    assert many < MOST_BYTES


def test_so_does_a_whole_order_list_of_a_thousand_lines_that_all_differ_and_is_still_read_out_row_by_row() -> None:
    made = pdf_bytes(samples.order_of_all_kinds(1_000), samples.PRINTED)
    assert len(made) < MOST_BYTES
    rows = [row for page in parts(made) for row in page.every("TR")]
    assert len(rows) == 1 + 1_000 + 1
    assert all(len(row.parts) == 10 for row in rows)
    assert [cell.told for cell in rows[1].parts][-1] == "box to tick"
    assert unmarked(made) == []


def test_lines_that_all_differ_do_too() -> None:
    names = [f"{number * 7_919 % 100_003:06} tee reducing {number % 97} by {number % 53}" for number in range(200)]
    rows = tuple(Row((name, Decimal(number) / 7)) for number, name in enumerate(names))
    made = pdf_bytes(samples.paper(Table((Column("Item"), Column("Price", "money")), rows)), "")
    assert len(made) < MOST_BYTES / 3
