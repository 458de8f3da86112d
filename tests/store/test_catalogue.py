"""The catalogue changed and carried: what is typed is judged, what is written reads the same, files stay with their items."""

from __future__ import annotations

from dataclasses import fields, replace
from decimal import Decimal
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tundish.catalogue.book import Book
from tundish.catalogue.item import KitPart, Offer
from tundish.catalogue.load import supplied_book, supplied_kinds, supplied_systems
from tundish.catalogue.sheets import Sheets, as_sheets, from_sheets
from tundish.store.catalogue import ItemRows, keep_item, remove_item, replace_all, rows_of, sheets_of, undo_replace
from tundish.store.catalogue_file import read_catalogue, write_catalogue
from tundish.store.item_files import CannotKeepFileError, attach, attached, body_of, detach
from tundish.store.keep import Store
from tundish.store.ledger import Ledger
from tundish.store.offer_search import find_offers
from tundish.store.price_list import look_at, take_in, undo

WORDS = st.text(st.characters(min_codepoint=32, max_codepoint=0x2FF, exclude_characters="\x7f"), min_size=1, max_size=30).map(
    lambda words: words.strip("\x85\xa0 ").strip() or "Thing"
)
PRICES = st.decimals("0.01", "99999", places=2).filter(lambda price: price > 0)


@st.composite
def books(draw: Any) -> Book:
    """The supplied book with names, offers and kits of every sort."""
    book = supplied_book()
    codes = sorted(draw(st.sets(st.sampled_from(sorted(book.items)), min_size=1, max_size=6)))
    items = dict(book.items) | {code: replace(book.items[code], name=draw(WORDS), sheet=draw(WORDS)) for code in codes}
    offers = dict(book.offers)
    for code in codes:
        if items[code].unit == "each" and supplied_kinds()[items[code].kind].sold == "pack":
            breaks = tuple((packs, draw(PRICES)) for packs in draw(st.lists(st.integers(2, 90), max_size=2)))
            made = Offer(code, "oddmoor", draw(WORDS), draw(st.integers(1, 400)), draw(PRICES), "2026-02-28", least=3, breaks=breaks)
            offers[code] = (replace(made, valid_to="2027-01-01", lead_days=draw(st.none() | st.integers(0, 30))),)
    kits = dict(book.kits)
    if items[codes[0]].unit == "each" and codes[0] not in kits:
        kits["wc-frame-1120"] = (KitPart(codes[0], 2),)
    return replace(book, items=items, offers=offers, kits={kit: parts for kit, parts in kits.items() if kit in items})


@settings(max_examples=8, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(books())
def test_a_catalogue_written_reads_the_same_again(book: Book) -> None:
    sheets = as_sheets(book, supplied_kinds())
    with TemporaryDirectory() as folder:
        for path in (Path(folder, "catalogue.xlsx"), Path(folder, "catalogue")):
            write_catalogue(sheets, path)
            assert {name: [list(line) for line in lines] for name, lines in read_catalogue(path).items()} == sheets
    parts, problems = from_sheets(sheets, supplied_kinds(), supplied_systems())
    assert problems == ()
    assert {item.code: item for _, item in parts.items} == book.items
    assert {offer for _, offer in parts.offers} == {offer for few in book.offers.values() for offer in few}
    assert {supplier.key: supplier for _, supplier in parts.suppliers} == book.suppliers


def test_a_whole_catalogue_is_put_in_place_or_nothing_is(store: Store, tmp_path: Path) -> None:
    before = store.book()
    write_catalogue(sheets_of(store), tmp_path / "mine.xlsx")
    keep_item(store, replace(rows_of(before, "sound-pad"), offers=()), "sound-pad")
    assert not store.book().offers.get("sound-pad")
    assert replace_all(store, read_catalogue(tmp_path / "mine.xlsx")) == ()
    after = store.book()
    assert (after.items, after.roles, after.stock, after.rack) == (before.items, before.roles, before.stock, before.rack)
    assert {code: set(few) for code, few in after.offers.items()} == {code: set(few) for code, few in before.offers.items()}
    assert {kit: set(few) for kit, few in after.kits.items()} == {kit: set(few) for kit, few in before.kits.items()}
    short = {name: lines for name, lines in sheets_of(store).items() if name != "offers"}
    short["items"] = [line for line in short["items"] if line[0] != "sound-pad"]
    told = [f"{each.path}: {each.text}" for each in replace_all(store, short)]
    assert any("the table is not in what was opened" in words for words in told)
    assert any("sound-pad is missing, and there is stock of it" in words for words in told)
    assert store.book().items == before.items


def whole(store: Store) -> tuple[Any, ...]:
    """All that a book says."""
    book = store.book()
    return tuple(getattr(book, each.name) for each in fields(book))


def halved(store: Store) -> Sheets:
    """The catalogue without half of its offers, and one item more."""
    sheets = {name: [list(line) for line in lines] for name, lines in sheets_of(store).items()}
    head, *offers = sheets["offers"]
    pad = next(line for line in sheets["items"] if line[0] == "sound-pad")
    return sheets | {"offers": [head, *offers[::2]], "items": [*sheets["items"], ["pad-more", *pad[1:]]]}


def test_a_catalogue_put_in_place_is_taken_out_again_whole(store: Store, tmp_path: Path) -> None:
    (tmp_path / "l.csv").write_text("code,price\nOB2024,13.00\n", encoding="utf-8")
    first = store.book().offers
    take_in(store, look_at(store, tmp_path / "l.csv", "oddmoor"))
    before = whole(store)
    assert "no catalogue" in undo_replace(store).lower()
    assert replace_all(store, halved(store)) == ()
    assert "pad-more" in store.book().items
    assert undo_replace(store) == ""
    assert whole(store) == before
    assert [each.item for each in find_offers(store, "ob2018")] == ["sound-pad"]
    assert "no catalogue" in undo_replace(store).lower(), "it is undone once"
    assert undo(store, "oddmoor") == 1, "a price list taken in before it can still be undone"
    assert store.book().offers == first


def test_a_catalogue_is_not_taken_out_again_over_what_was_changed_since(store: Store) -> None:
    assert replace_all(store, halved(store)) == ()
    keep_item(store, replace(rows_of(store.book(), "sound-pad"), offers=()), "sound-pad")
    since = whole(store)
    assert "was changed since" in undo_replace(store)
    assert whole(store) == since


def test_a_catalogue_is_not_taken_out_again_from_under_stock(store: Store) -> None:
    assert replace_all(store, halved(store)) == ()
    Ledger(store).move("pad-more", 2, "stock-take")
    since = whole(store)
    assert "there is stock of pad-more" in undo_replace(store)
    assert whole(store) == since


def test_a_new_item_is_typed_sold_and_found(store: Store) -> None:
    rows = ItemRows({"code": "pad-thick", "name": "Thick pad", "kind": store.book().item("sound-pad").kind})
    sold = {"supplier": "oddmoor", "code": "OB9001", "pack": "4", "price": "7.10", "valid_from": "2026-11-01"}
    like = {name: words for name, words in rows_of(store.book(), "sound-pad").item.items() if name not in rows.item}
    rows = replace(rows, item={**like, **rows.item}, offers=(sold,))
    assert keep_item(store, rows) == ()
    assert store.book().offers["pad-thick"][0].price == Decimal("7.10")
    assert [each.code for each in find_offers(store, "thi pad")] == ["OB9001"]
    assert [each.code for each in find_offers(store, "ob9001")] == ["OB9001"]
    assert keep_item(store, replace(rows, item={**rows.item, "name": "Broad mat"}), "pad-thick") == ()
    assert find_offers(store, "thick") == ()
    assert [each.item for each in find_offers(store, "broa mat odd")] == ["pad-thick"]
    assert find_offers(store, ' " * - ') == ()
    assert remove_item(store, "pad-thick") == ""
    assert find_offers(store, "ob9001") == ()


@pytest.mark.parametrize(
    ("change", "why"),
    [
        ({"item": {"name": ""}}, "name is blank"),
        ({"item": {"code": "other"}}, "stays sound-pad"),
        ({"item": {"kind": "nonsense"}}, "is not in kinds.toml"),
        (
            {"offers": ({"supplier": "nobody", "code": "1", "pack": "1", "price": "1.00", "valid_from": "2026-01-01"},)},
            "no supplier nobody",
        ),
        ({"offers": ({"supplier": "oddmoor", "code": "1", "pack": "1", "price": "dear", "valid_from": "2026-01-01"},)}, "pounds and pence"),
        ({"kit": ({"part": "sound-pad", "amount": "1"},)}, "within itself"),
        ({"ends": ({"system": "none", "nominal": "1", "gender": "male"},)}, "is not in systems.toml"),
    ],
)
def test_what_is_wrong_is_told_and_nothing_is_changed(store: Store, change: dict[str, Any], why: str) -> None:
    before, rows = store.book(), rows_of(store.book(), "sound-pad")
    item = {**rows.item, **change.get("item", {})}
    wrong = replace(rows, item=item, **{name: rows_ for name, rows_ in change.items() if name != "item"})
    assert any(why in f"{each.path} {each.text}" for each in keep_item(store, wrong, "sound-pad"))
    assert (store.book().items, store.book().offers) == (before.items, before.offers)


def test_an_item_that_something_rests_on_stays(store: Store) -> None:
    book = store.book()
    role, item = next(iter(book.roles.items()))
    assert f"meant by {role}" in remove_item(store, item)
    meant = set(book.roles.values())
    inside = next(part.item for parts in book.kits.values() for part in parts if part.item not in meant)
    assert "it is in " in remove_item(store, inside)
    held = next(code for code in book.items if code not in {*meant, inside} and code not in book.stock)
    Ledger(store).move(held, 1, "stock-take")
    assert "stays" in remove_item(store, held)
    assert held in store.book().items


def test_pictures_and_makers_sheets_stay_with_their_item(store: Store) -> None:
    sheet = b"%PDF-1.7 of a pad"
    made = attach(store, "sound-pad", "pad.pdf", sheet)
    attach(store, "sound-pad", "pad.pdf", sheet)
    attach(store, "sound-pad", "pad.jpg", b"\xff\xd8\xff picture")
    assert [each.name for each in attached(store, "sound-pad")] == ["pad.jpg", "pad.pdf"]
    assert body_of(store, "sound-pad", made.key) == sheet
    detach(store, "sound-pad", made.key)
    assert [each.name for each in attached(store, "sound-pad")] == ["pad.jpg"]
    with pytest.raises(CannotKeepFileError, match="neither a picture nor a PDF"):
        attach(store, "sound-pad", "pad.exe", b"MZ")
