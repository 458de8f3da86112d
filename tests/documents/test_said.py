"""What changed between two issues of a paper is told line by line."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from tundish.documents.block import Document, FillIn, Heading, Paragraph, Points, Row
from tundish.documents.said import Changed, Said, Since, as_table, changed, revised_quote

lines = st.lists(st.builds(Said, st.sampled_from("abc"), st.sampled_from(((), (("£", "1"),), (("£", "2"), ("mm", "3"))))), max_size=6)


def line(what: str, **cells: str) -> Said:
    return Said(what, tuple(cells.items()))


def test_a_line_that_says_something_else_shows_what_it_said_and_only_that() -> None:
    (one,) = changed([line("Frames", holds="steel", price="10.00")], [line("Frames", holds="steel", price="12.00")])
    assert one == Changed("Frames", "price: 10.00", "price: 12.00")


def test_what_is_new_and_what_is_gone_is_said() -> None:
    made = changed([line("Bidet", price="90.00"), Said("Painting")], [line("Skip", price="40.00"), Said("Door")])
    assert made == (
        Changed("Skip", "", "price: 40.00"),
        Changed("Door", "", "added"),
        Changed("Bidet", "price: 90.00", "left out"),
        Changed("Painting", "", "left out"),
    )


def test_a_sentence_that_says_it_otherwise_is_one_change() -> None:
    before = [Said("A false wall 1,200 mm high, with a shelf"), Said("Painting")]
    after = [Said("A false wall 1,150 mm high, with a shelf"), Said("Door and frame")]
    assert changed(before, after) == (
        Changed("In words", before[0].what, after[0].what),
        Changed("Door and frame", "", "added"),
        Changed("Painting", "", "left out"),
    )


def test_lines_that_share_a_name_are_told_apart_by_their_order() -> None:
    before = [line("WC", top="420"), line("WC", top="440")]
    assert changed(before, [before[0], line("WC", top="450")]) == (Changed("WC", "top: 440", "top: 450"),)


@given(lines, lines)
def test_nothing_changed_is_told_exactly_when_the_same_is_said_of_everything(before: list[Said], after: list[Said]) -> None:
    def by_name(said: list[Said]) -> dict[str, list[Said]]:
        return {each.what: [one for one in said if one.what == each.what] for each in said}

    assert (not changed(before, after)) == (by_name(before) == by_name(after))
    assert changed(after, after) == ()


def test_more_changes_than_are_shown_are_counted_and_a_drawing_alone_is_named() -> None:
    since = Since("cut list 7", "Tue 1 Dec 10:00")
    table = as_table([Changed(str(place), "1", "2") for place in range(5)], since, 3)
    assert [row.cells[0] for row in table.rows] == ["0", "1", "2", "and 2 more"]
    assert table.title == "Changed since cut list 7 of Tue 1 Dec 10:00"
    assert [row.cells[0] for row in as_table((), since, 3).rows] == ["Only what is drawn"]


def test_a_quote_issued_anew_says_what_it_replaces_and_why_and_is_signed_last() -> None:
    head, body, sign = Heading("Bath"), Paragraph("Words"), FillIn("Accepted: quote 7 at £7.00", (), ("Signed",))
    made = Document("quote", "Quote", "7", "", "", "", "Quote 7", "", (head, body, sign))
    changes = as_table((Changed("Frames", "1", "2"),), since := Since("quote 7", "Tue 1 Dec 10:00", ("You asked.",)), 9)
    blocks = revised_quote(made, "7a", since, changes).blocks
    says = Paragraph("This takes the place of quote 7 of Tue 1 Dec 10:00.", "strong")
    assert blocks == (
        head,
        says,
        Points("Why it is changed", ("You asked.",)),
        body,
        changes,
        replace(sign, title="Accepted: quote 7a at £7.00"),
    )
    assert changes.rows == (Row(("Frames", "1", "2")),)
    assert Points not in {type(block) for block in revised_quote(made, "7a", Since("quote 7", "now"), changes).blocks}
