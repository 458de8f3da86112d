"""The programme in a calendar, read back by an independent reader of the standard's text."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from tests.writers import sample_papers as samples
from tundish.documents.block import Event
from tundish.writers.calendar_file import as_calendar, write_calendar

DAYS = (
    Event("2026-12-07", "Mrs Ø. Vale: First fix", "Copper pipe 15, Soil branch; 2 × clips\nand more", "7-1"),
    Event("2026-12-08", "Frames", key="7-2"),
)


def unfolded(text: bytes) -> list[str]:
    """The lines of RFC 5545: ended by CRLF, none over 75 octets, folded ones put together again."""
    raw = text.decode().split("\r\n")
    assert all(len(line.encode()) <= 75 for line in raw)
    return "\r\n".join(raw).replace("\r\n ", "").split("\r\n")


def test_every_day_is_an_event_of_its_whole_day() -> None:
    lines = unfolded(as_calendar(replace(samples.cut_list(), events=DAYS)))
    assert lines[0] == "BEGIN:VCALENDAR"
    assert lines[-2] == "END:VCALENDAR"
    assert lines.count("BEGIN:VEVENT") == lines.count("END:VEVENT") == 2
    assert "DTSTART;VALUE=DATE:20261207" in lines
    assert "DTEND;VALUE=DATE:20261208" in lines
    assert "SUMMARY:Mrs Ø. Vale: First fix" in lines
    assert "DESCRIPTION:Copper pipe 15\\, Soil branch\\; 2 × clips\\nand more" in lines
    assert len({line for line in lines if line.startswith("UID:")}) == 2


def test_the_same_paper_gives_the_same_bytes(tmp_path: Path) -> None:
    paper = replace(samples.cut_list(), events=DAYS)
    for name in ("one.ics", "two.ics"):
        write_calendar(paper, tmp_path / name)
    assert (tmp_path / "one.ics").read_bytes() == (tmp_path / "two.ics").read_bytes()
