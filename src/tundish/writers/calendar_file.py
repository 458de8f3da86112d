"""The days of a paper as a calendar file (iCalendar, RFC 5545): one whole-day event for each."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from pathlib import Path

from tundish.documents.block import Document
from tundish.writers.safe import legible, write_whole


def write_calendar(document: Document, path: Path) -> None:
    """Write the events to a file; a paper that speaks of no days gives a calendar without any.

    Raises:
        CouldNotWriteError: the file could not be written; what was there is untouched.
    """
    write_whole(path, as_calendar(document))


def as_calendar(document: Document) -> bytes:
    """The calendar. An event keeps its name from one issue to the next, so that a calendar that has it already moves it."""
    from icalendar import Calendar
    from icalendar import Event as Entry

    made = Calendar()
    made.add("prodid", "-//Tundish//Programme//EN")
    made.add("version", "2.0")
    for event in document.events:
        day = date.fromisoformat(event.date)
        entry = Entry()
        entry.add("uid", f"{document.key}-{event.key}@tundish")
        # A stamp is asked for; the day itself serves, so that the same paper gives the same bytes.
        entry.add("dtstamp", datetime(day.year, day.month, day.day, tzinfo=UTC))
        entry.add("dtstart", day)
        entry.add("dtend", day + timedelta(days=1))
        entry.add("summary", legible(event.title))
        entry.add("description", legible(event.words))
        made.add_component(entry)
    return bytes(made.to_ical())
