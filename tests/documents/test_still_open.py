"""Whether a paper is still open is seen from what it is made of: words alone neither open nor settle it."""

from __future__ import annotations

import pytest

from tests.documents.test_quote import blocks_of
from tundish.documents.block import Block, Column, Paragraph, Points, Row, SideBySide, Sketch, Table, TrueSize
from tundish.documents.drawing import Box, Dimension, Drawing, Mark, Words
from tundish.documents.index import build
from tundish.documents.still_open import still_open
from tundish.estimate import Estimate


def table(*, tbc: bool) -> Table:
    return Table((Column("Item"),), (Row(("TBC, the maker's name",)), Row(("Pan",), tbc)))


def drawn(*marks: Mark) -> Drawing:
    return Drawing("Wall", (Box(0, 0, 10, 10, "wall"), *marks), (0, 0, 10, 10))


@pytest.mark.parametrize(
    "block",
    [
        table(tbc=True),
        Points("Still to be confirmed", ("The floor",), tbc=True),
        Sketch(drawn(Dimension(0, 0, 5, 0, "5", tbc=True))),
        Sketch(drawn(Words(1, 1, "TBC", style="tbc"))),
        TrueSize(drawn(), "Studs", warning="TBC: do not drill"),
        TrueSize(drawn(Box(0, 0, 5, 5, "tbc")), "Studs"),
    ],
)
def test_what_is_to_be_confirmed_leaves_a_paper_open_wherever_it_stands(block: Block) -> None:
    assert still_open((Paragraph("Settled"), block))
    assert still_open((SideBySide((Paragraph("Settled"),), (block,)),))


@pytest.mark.parametrize(
    "block",
    [
        table(tbc=False),
        Points("Still to be confirmed", ()),
        Paragraph("TBC Ltd. supplied it"),
        Sketch(drawn(Dimension(0, 0, 5, 0, "5"), Words(1, 1, "TBC 20"))),
        TrueSize(drawn(), "Studs"),
    ],
)
def test_words_alone_open_nothing(block: Block) -> None:
    assert not still_open((block,))


def test_a_quote_is_open_where_its_list_of_what_is_to_be_confirmed_is(worked: dict[str, Estimate]) -> None:
    """Job 103 hangs a pan that is not in hand; in 101 everything is settled."""
    for number, tbc in (("103", True), ("101", False)):
        (quote,) = build("quote", worked[number])
        assert [each.tbc for each in blocks_of(quote) if isinstance(each, Points) and "to be confirmed" in each.title] == [tbc]
        assert still_open(quote.blocks) is tbc
