"""A paper as lines: what is compared is what a reader sees."""

from __future__ import annotations

from decimal import Decimal

from tundish.documents.block import Column, Document, Facts, FillIn, Heading, Paragraph, Points, Row, SideBySide, Sums, Table
from tundish.documents.said import Said
from tundish.writers.said import lines_said


def test_every_kind_of_line_is_said_as_it_is_shown() -> None:
    table = Table(
        (Column("Work"), Column("In it"), Column("Price, £", "money")),
        (Row(("", "", ""), group="Bath"), Row(("Frames", "", Decimal(12)))),
    )
    blocks = (
        Facts((("For", ("Mrs A", "1 Lane")), ("Planned", ()))),
        Heading("Bath"),
        SideBySide((Points("When you pay", ("With your acceptance, 30 %: £5.00", "later")),), (Sums((("You pay", Decimal(12)),)),)),
        table,
        Paragraph("Good for 30 days"),
        FillIn("Signed", (), ("Client",)),
    )
    made = Document("quote", "Quote", "7", "", "", "", "Quote 7", "", blocks)
    assert lines_said(made) == (
        Said("For", (("", "Mrs A, 1 Lane"),)),
        Said("Bath"),
        Said("With your acceptance, 30 %", (("", "£5.00"),)),
        Said("later"),
        Said("You pay", (("", "£12.00"),)),
        Said("Frames", (("Price, £", "12.00"),)),
        Said("Good for 30 days"),
    )
