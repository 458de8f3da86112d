"""The quote says what the client buys and what is open, and keeps what the job costs to itself."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.writers.reading import texts
from tundish.catalogue.trader import Trader
from tundish.documents import quote
from tundish.documents.block import Block, Document, FillIn, Paragraph, Points, Row, SideBySide, Sums, Table
from tundish.estimate import Client, Estimate, Job, OptionPrice, estimate
from tundish.field import Entry, put
from tundish.measure import show_money
from tundish.pricing.terms import Extra
from tundish.varying import agree
from tundish.writers.pdf import pdf_bytes
from tundish.writers.text import as_text

EXTRA = (Extra(what="A look at the floor", amount=Decimal(80)),)


def blocks_of(document: Document) -> Iterator[Block]:
    for block in document.blocks:
        if isinstance(block, SideBySide):
            yield from (*block.left, *block.right)
        else:
            yield block


def points(document: Document, title: str) -> tuple[str, ...]:
    (found,) = [block for block in blocks_of(document) if isinstance(block, Points) and block.title == title]
    return found.items


def flowing(document: Document) -> str:
    return " ".join(as_text(document).split())


def cautions(document: Document) -> list[str]:
    return [block.text for block in blocks_of(document) if isinstance(block, Paragraph) and block.tone == "caution"]


def test_its_rows_add_up_to_what_is_paid(one: Estimate) -> None:
    made = quote.build(one)
    (table,) = [block for block in blocks_of(made) if isinstance(block, Table)]
    (sums,) = [block for block in blocks_of(made) if isinstance(block, Sums)]
    rows = sum((Decimal(str(row.cells[2])) for row in table.rows), Decimal(0))
    assert rows + one.price.vat == sums.rows[-1][1] == one.price.total


def test_hours_costs_and_mark_up_are_not_in_it(changed: Callable[..., Estimate]) -> None:
    # Costs so odd that none of them is met by chance.
    made = changed("101", terms__mark_up=Entry(37.0), terms__labour_rate=Decimal("43.21"), terms__contingency=Entry(7.0))
    words = as_text(quote.build(made))
    kept = [made.price.materials_cost, made.price.kept, Decimal("43.21"), made.price.kept_an_hour]
    kept += [amount for each in made.price.stages for amount in (each.materials, each.mark_up, each.labour, each.contingency)]
    shown = set(re.findall(r"[\d,]+\.\d\d", words))
    assert shown.isdisjoint(f"{amount:,.2f}" for amount in kept if amount)
    assert "hour" not in words.lower()
    assert "37 %" not in words


def test_who_is_not_registered_says_nothing_of_vat(changed: Callable[..., Estimate]) -> None:
    assert "VAT" in as_text(quote.build(changed("101")))
    assert "VAT" not in as_text(quote.build(changed("101", terms__vat="not registered")))


def test_failing_checks_are_marked(worked: dict[str, Estimate]) -> None:
    assert cautions(quote.build(worked["103"])) == ["Checks not passed yet: Fall of WC branch. Not to be signed before they are."]
    assert cautions(quote.build(worked["101"])) == []


def test_labour_that_is_not_priced_is_said(changed: Callable[..., Estimate]) -> None:
    assert points(quote.build(changed("101", terms__labour_rate=None)), "Not in this price")[0] == "Labour: not priced yet"
    assert "Labour: not priced yet" not in points(quote.build(changed("101")), "Not in this price")


def test_what_nobody_sells_is_named_as_not_priced(worked: dict[str, Estimate]) -> None:
    short = replace(worked["101"], price=replace(worked["101"].price, not_priced=("Elbow 15",)))
    assert "Elbow 15: not priced yet" in points(quote.build(short), "Not in this price")


def test_what_the_client_supplies_is_not_in_the_price(worked: dict[str, Estimate]) -> None:
    assert "Fethan 600 basin, which you supply" in points(quote.build(worked["102"]), "Not in this price")


def test_what_is_open_is_listed_and_what_is_settled_said(worked: dict[str, Estimate]) -> None:
    assert "Family bathroom: finished floor 26 to 34 mm above the floor as it is" in points(
        quote.build(worked["102"]), "Still to be confirmed"
    )
    assert points(quote.build(worked["101"]), "Nothing to be confirmed") == ("Everything this price rests on is settled",)


def test_the_client_signs_the_number_and_the_sum(one: Estimate) -> None:
    (box,) = [block for block in blocks_of(quote.build(one)) if isinstance(block, FillIn)]
    assert f"quote {one.job.number} at £{one.price.total:,.2f}" in box.title


def test_a_job_without_rooms_number_or_dates_can_be_quoted(changed: Callable[..., Estimate]) -> None:
    bare = changed("101", rooms=(), number="", terms__quoted="", terms__start="", client=Client(), terms__extras=EXTRA)
    words = as_text(quote.build(bare))
    assert "Accepted: this quote at £96.00" in words
    assert "Good for" not in words
    assert "Start" not in words


def test_each_pre_wall_is_described_as_it_is_itself(worked: dict[str, Estimate]) -> None:
    for room in worked["104"].rooms:
        full = room.prewall.height == "full"
        assert ("a full-height false wall" in quote.described(room)) == full
        assert ("tiled shelf on top" in quote.described(room)) == (not full and room.prewall.shelf)
    assert {room.prewall.height for room in worked["104"].rooms} == {"part", "full"}


def test_an_open_floor_is_said_once_for_a_room_of_several_pre_walls(worked: dict[str, Estimate]) -> None:
    floors = [each for each in points(quote.build(worked["104"]), "Still to be confirmed") if "finished floor" in each]
    assert floors == ["Bathroom: finished floor 10 to 17 mm above the floor as it is"]


def test_a_room_without_ware_is_described(changed: Callable[..., Estimate]) -> None:
    made = changed("101", rooms__0__design__appliances=())
    assert quote.described(made.rooms[0]).endswith("It hides the pipes that run behind it.")
    assert "Heights of the tops" not in as_text(quote.build(made))


@pytest.mark.parametrize("name", ["<b>Ann</b> & Sons", "=1+1", "{0} %s \\n", "Zoë Ñandú", "</para>", "A" * 300])
def test_hostile_names_are_printed_as_they_were_typed(name: str, jobs: dict[str, Job], changed: Callable[..., Estimate]) -> None:
    made = changed("101", client=replace(jobs["101"].client, name=name))
    shown = "".join(texts(pdf_bytes(quote.build(made), ""))).replace("\n", "").replace(" ", "")
    assert name[:40].replace(" ", "") in shown


@settings(max_examples=15)
@given(name=st.text(max_size=40), address=st.text(max_size=80))
def test_whatever_the_client_is_called_a_paper_is_made(name: str, address: str, worked: dict[str, Estimate]) -> None:
    base = worked["101"]
    made = quote.build(replace(base, job=replace(base.job, client=Client(name=name, address=address))))
    assert pdf_bytes(made, "").startswith(b"%PDF")


def test_the_traders_own_name_stands_on_a_demonstration_too(worked: dict[str, Estimate]) -> None:
    base = worked["101"]
    own = replace(base, book=replace(base.book, trader=Trader(name="Own Name")))
    assert quote.build(own).sender == "Own Name"
    assert quote.build(base).sender == "M. Tarrowby"


def test_the_traders_colour_is_on_papers_before_their_name_is(worked: dict[str, Estimate]) -> None:
    base = worked["102"]
    coloured = quote.build(replace(base, book=replace(base.book, trader=Trader(colour="green"))))
    assert (coloured.colour, coloured.sender) == ("green", "M. Tarrowby")


def test_a_trader_without_a_name_is_asked_for_it(changed: Callable[..., Estimate]) -> None:
    made = quote.build(changed("101", demo=""))
    assert made.sender == "Your name here"
    assert not made.demo


def test_an_accepted_quote_is_not_signed_again_and_says_what_is_not_agreed(one: Estimate, changed: Callable[..., Estimate]) -> None:
    agreed = agree(one, "2026-12-01")
    first = quote.build(replace(one, job=replace(one.job, agreed=agreed)))
    assert not [block for block in first.blocks if isinstance(block, FillIn)]
    said = f"Accepted on Tue 1 Dec 2026 at {show_money(one.price.total)}."
    assert first.blocks[-1] == Paragraph(said, "strong")
    dearer = changed("101", terms__labour_rate=Decimal(400))
    later = quote.build(replace(dearer, job=replace(dearer.job, agreed=agreed)))
    assert [words for words in cautions(later) if words.startswith(said) and words.endswith("that is not agreed.")]


def test_a_quote_of_nothing_is_not_to_be_signed(changed: Callable[..., Estimate]) -> None:
    made = quote.build(changed("101", rooms=()))
    words = as_text(made)
    assert "nothing to accept" in words
    assert "When you pay" not in words
    assert "Everything this price rests on is settled" not in words
    assert not [block for block in made.blocks if isinstance(block, FillIn)]


def test_how_vat_was_rounded_stands_wherever_an_amount_of_it_does(worked: dict[str, Estimate]) -> None:
    said = "VAT at 20 %, rounded half up"
    assert said in flowing(quote.build(worked["101"]))
    assert said not in flowing(quote.build(worked["103"])), "who is not registered charges none"


def test_vat_that_the_client_accounts_for_says_how_it_was_rounded_too(changed: Callable[..., Estimate]) -> None:
    way = "on the total, down to the penny"
    made = changed("101", terms__vat="registered, reverse charge", terms__client_is="a business", terms__vat_rounding=way)
    assert "VAT is on the total, rounded down to the penny" in flowing(quote.build(made))


def test_who_ticks_an_option_does_not_sign_for_the_other_sum(worked: dict[str, Estimate]) -> None:
    plain = worked["101"]
    priced = OptionPrice("Taller", "", ("taller",), plain.price, ())
    (box,) = [block for block in blocks_of(quote.build(replace(plain, options=(priced,)))) if isinstance(block, FillIn)]
    assert box.title.endswith("including VAT, or with what is ticked under Or choose, at its price")


def test_a_paper_of_a_job_without_a_name_has_a_foot_without_a_dot(changed: Callable[..., Estimate]) -> None:
    bare = changed("101", number="", title="", client=Client())
    assert quote.build(bare).foot == "Quote"


def test_a_quote_says_until_when_and_on_what_prices_it_rests(worked: dict[str, Estimate]) -> None:
    said = flowing(quote.build(worked["101"]))
    for piece in ("Quoted Tue 17 Nov 2026", "Good for 26 days, to Sun 13 Dec", "on goods priced from Mon 14 Sep"):
        assert piece in said, piece
    ours = replace(worked["101"], buying=replace(worked["101"].buying, purchases=()))
    assert "on goods priced" not in flowing(quote.build(ours))


def test_a_floor_that_is_tiled_is_in_it_by_its_room_where_others_are_not(worked: dict[str, Estimate]) -> None:
    assert "Boards, waterproofing, tiles, grout and trim; the floor tiled" in [row.cells[1] for row in rows_of(worked["101"])]
    assert "Boards, waterproofing, tiles, grout and trim" in [row.cells[1] for row in rows_of(worked["102"])]
    first = worked["101"].job.rooms[0]
    two = replace(worked["101"].job, rooms=(first, replace(put(first, "design.floor.tile", ""), name="Lobby")))
    said = [row.cells[1] for row in rows_of(estimate(two, worked["101"].book))]
    assert "Boards, waterproofing, tiles, grout and trim; the floor of Cloakroom tiled" in said


def rows_of(of: Estimate) -> tuple[Row, ...]:
    """The rows of the table of work."""
    return next(block.rows for block in quote.build(of).blocks if isinstance(block, Table))
