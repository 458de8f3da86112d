"""Price lists: read whatever they look like, refused row by row in words, taken in whole, undone whole."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.store.lists import csv_list, ods_list, strange_workbook, xlsx_list
from tundish.store import price_list, price_rows, sheet_rows
from tundish.store.catalogue import replace_all, sheets_of
from tundish.store.keep import Store
from tundish.store.offer_search import find_offers
from tundish.store.packed import CannotReadListError
from tundish.store.price_fates import money
from tundish.store.price_list import NothingToUndoError, columns_of, heads_in, look_at, old_prices, take_in, undo
from tundish.store.sheet_rows import Block, blocks_of


@pytest.mark.parametrize("sign", [",", ";", "\t", "|"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_csv_of_any_delimiter_and_encoding_reads_the_same(store: Store, tmp_path: Path, sign: str, encoding: str) -> None:
    fates = look_at(store, csv_list(tmp_path / "list.csv", sign=sign, encoding=encoding), "oddmoor").fates
    assert [(each.code, each.fate) for each in fates] == [("OB2024", "changed"), ("OB2027", "unchanged"), ("ZZ1", "not used")]
    assert fates[0].why == "£11.80 to £12.98, +10.0 %"


@pytest.mark.parametrize("make", [xlsx_list, ods_list])
@pytest.mark.parametrize("name", ["list.xlsx", "list.ods", "wrong.csv"])
def test_a_spreadsheet_is_known_by_its_bytes_not_its_name(store: Store, tmp_path: Path, make: object, name: str) -> None:
    made = make(tmp_path / "made")  # type: ignore[operator]  # one of the two above
    made.rename(tmp_path / name)
    fates = look_at(store, tmp_path / name, "oddmoor").fates
    assert [each.fate for each in fates] == ["changed", "unchanged", "not used"]


def test_decimal_commas_are_seen_from_the_column(store: Store, tmp_path: Path) -> None:
    rows = (("Code", "Price"), ("OB2024", "1.012,98"), ("OB2027", "8,90"), ("A", "ask"), ("B", "12"), ("C", ""))
    first, second, *_ = look_at(store, csv_list(tmp_path / "l.csv", rows, ";"), "oddmoor").fates
    assert (first.price, second.fate) == (Decimal("1012.98"), "unchanged")


def test_every_row_that_will_not_do_says_why(store: Store, tmp_path: Path) -> None:
    rows = (
        ("Code", "Price", "Pack", "Item"),
        ("OB2024", "ask", "", ""),
        ("OB2024", "9", "", ""),
        ("OB2027", "=A1*2", "", ""),
        ("", "3", "", ""),
        ("X1", "-4", "", ""),
        ("X2", "4", "ten", ""),
        ("X3", "4", "10", "no-such-item"),
        ("X4", "4", "10", "sound-pad"),
        ("X5", "", "", ""),
    )
    fates = look_at(store, csv_list(tmp_path / "l.csv", rows), "oddmoor").fates
    assert [each.fate for each in fates] == ["refused"] * 7 + ["new", "refused"]
    assert [each.why for each in fates] == [
        'Price "ask" is not a price',
        "the code stands in row 2 already",
        "Price is a formula, not a price",
        "Code is blank",
        'Price "-4" is not a price to pay',
        'Pack "ten" is not a number above nought',
        'Item "no-such-item" is no item of the catalogue',
        "for sound-pad",
        "Price is blank, or a formula that gave nothing",
    ]


def test_taken_in_whole_and_undone_whole_with_the_old_prices_kept(store: Store, tmp_path: Path) -> None:
    before = store.book().offers
    rows = (("Teil", "Preis", "Ours"), ("OB2024", "13.00", ""), ("NEW9", "4.00", "sound-pad"))
    columns = {"code": "Teil", "price": "Preis", "item": "Ours"}
    path = csv_list(tmp_path / "l.csv", rows)
    with pytest.raises(CannotReadListError, match="no row names a column"):
        look_at(store, path, "oddmoor")
    take_in(store, look_at(store, path, "oddmoor", columns, "2026-12-01"))
    assert {each.price for each in store.book().offers["strut-41x21"] if each.code == "OB2024"} == {Decimal("13.00")}
    assert "NEW9" in {each.code for each in store.book().offers["sound-pad"]}
    assert old_prices(store, "oddmoor", "OB2024") == (("2026-09-14", Decimal("11.80")),)
    assert {each.fate for each in look_at(store, path, "oddmoor").fates} == {"unchanged"}, "the columns are remembered"
    assert undo(store, "oddmoor") == 2
    assert store.book().offers == before
    with pytest.raises(NothingToUndoError):
        undo(store, "oddmoor")


def test_a_price_list_that_breaks_off_when_taken_in_changes_nothing(store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(price_list, "MOST_HELD", 3)
    monkeypatch.setattr(price_rows, "_BATCH", 4)
    rows = (("code", "price", "item"), ("OB2024", "13.00", ""), *((f"N{place}", "1.00", "sound-pad") for place in range(9)))
    preview = look_at(store, csv_list(tmp_path / "l.csv", rows), "oddmoor")
    before = store.book().offers
    monkeypatch.setattr(sheet_rows, "_FEW", 2)
    monkeypatch.setattr(price_list, "blocks_of", lambda path: breaking_off(path, after=8))
    with pytest.raises(CannotReadListError, match="broke off"):
        take_in(store, preview)
    assert store.book().offers == before
    assert not find_offers(store, "n1"), "nor is anything of it found"
    with pytest.raises(NothingToUndoError):
        undo(store, "oddmoor")
    monkeypatch.undo()
    take_in(store, look_at(store, tmp_path / "l.csv", "oddmoor"))
    assert [each.code for each in find_offers(store, "n8")] == ["N8"], "what is taken in is found"
    assert undo(store, "oddmoor") == 10
    assert store.book().offers == before
    assert not find_offers(store, "n8")


def breaking_off(path: Path, after: int) -> Iterator[Block]:
    for block in blocks_of(path):
        if block.first > after:
            raise CannotReadListError(path, "it broke off")
        yield block


def test_nothing_is_undone_where_another_offer_stands_in_the_place_of_one(store: Store, tmp_path: Path) -> None:
    """The catalogue opened from a file has its offers in other places."""
    rows = (("code", "price", "item"), ("N'1", "4.00", "sound-pad"), ("OB2024", "4.00", ""))
    take_in(store, look_at(store, csv_list(tmp_path / "l.csv", rows), "oddmoor"))
    sheets = {name: [list(line) for line in lines] for name, lines in sheets_of(store).items()}
    head, *offers = sheets["offers"]
    price = head.index("price")
    swapped = [[*line[:price], "4.00", *line[price + 1 :]] for line in reversed(offers)]
    assert replace_all(store, {**sheets, "offers": [head, *swapped]}) == ()
    before = store.book().offers
    with pytest.raises(NothingToUndoError, match="nothing was undone"):
        undo(store, "oddmoor")
    assert store.book().offers == before


@pytest.mark.parametrize(
    ("cell", "most", "words"),
    [
        ("8,90", "7.10", 'Price "8,90" is written otherwise than the other prices: they have a decimal point'),
        ("8.90", "7,10", 'Price "8.90" is written otherwise than the other prices: they have a decimal comma'),
        ("€8.90", "7.10", 'Price "€8.90" is not in pounds'),
        ("8.90 per m", "7.10", 'Price "8.90 per m" is not a price'),
    ],
)
def test_a_price_unlike_the_others_is_refused_and_never_a_hundred_times_too_dear(
    store: Store, tmp_path: Path, cell: str, most: str, words: str
) -> None:
    rows = (("Code", "Price"), ("OB2027", cell), *((f"A{place}", most) for place in range(3)))
    fate = look_at(store, csv_list(tmp_path / "l.csv", rows, ";"), "oddmoor").fates[0]
    assert (fate.row, fate.code, fate.fate, fate.why) == (2, "OB2027", "refused", words)


def test_two_units_in_one_list_are_told_where_they_stand(store: Store, tmp_path: Path) -> None:
    rows = (("Code", "Price", "Pack", "MOQ"), ("OB2018", "9", "4", "1"), ("OB2027", "9", "3 m", "1"), ("OB2024", "9", "3000", "2 m"))
    fates = look_at(store, csv_list(tmp_path / "l.csv", rows), "oddmoor").fates
    assert [(each.row, each.fate) for each in fates] == [(2, "changed"), (3, "refused"), (4, "refused")]
    assert fates[1].why.startswith('Pack "3 m" is not a number above nought; write the number alone')
    assert fates[2].why.startswith('MOQ "2 m" is not a number above nought; write the number alone')


def test_formulas_macros_and_links_of_a_workbook_are_read_as_what_they_said_last_and_never_run(store: Store, tmp_path: Path) -> None:
    """A formula that nothing worked out, or that came to an error, gives no price; macros and links are left lying."""
    strange_workbook(tmp_path / "l.xlsm")
    fates = {each.code: each for each in look_at(store, tmp_path / "l.xlsm", "oddmoor").fates}
    assert {code: each.row for code, each in fates.items()} == {"OB2024": 4, "OB2018": 6, "OB2027": 7}
    assert fates["OB2024"].why == "Net price is blank, or a formula that gave nothing"
    assert fates["OB2018"].why == fates["OB2024"].why
    assert fates["OB2027"].fate == "changed"


def test_heads_are_offered_to_be_mapped_and_what_is_not_in_the_list_stays_so(store: Store, tmp_path: Path) -> None:
    rows = (("Able's list", "", "", ""), ("Teil", "Preis", "Pack", "VE"), ("OB2018", "6,40", "999", "4"))
    path = csv_list(tmp_path / "l.csv", rows, ";")
    assert heads_in(path) == ("Teil", "Preis", "Pack", "VE")
    columns = {"code": "Teil", "price": "Preis", "pack": "VE", "least": "", "item": ""}
    take_in(store, look_at(store, path, "oddmoor", columns))
    assert [each.pack for each in store.book().offers["sound-pad"] if each.code == "OB2018"] == [4]
    assert columns_of(store, "oddmoor") == columns
    (fate,) = look_at(store, path, "oddmoor", {**columns, "pack": ""}).fates
    assert fate.fate == "unchanged"


def test_a_list_longer_than_is_held_is_read_again_when_taken_in(store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(price_list, "MOST_HELD", 3)
    rows = (("code", "price", "item"), *((f"N{place}", f"{place + 1}.00", "sound-pad") for place in range(9)))
    path = csv_list(tmp_path / "l.csv", rows)
    preview = look_at(store, path, "oddmoor")
    assert (len(preview.fates), preview.count("new")) == (3, 9)
    take_in(store, preview)
    assert {f"N{place}" for place in range(9)} <= {each.code for each in store.book().offers["sound-pad"]}
    assert undo(store, "oddmoor") == 9
    preview = look_at(store, path, "oddmoor")
    csv_list(path, (*rows, ("N99", "1.00", "sound-pad")))
    with pytest.raises(CannotReadListError, match="changed since it was looked at"):
        take_in(store, preview)


@pytest.mark.parametrize("rows", [99, 100, 101, 205])
def test_every_row_of_many_gets_its_own_price_and_has_its_old_one_back(store: Store, tmp_path: Path, rows: int) -> None:
    """They go into the database a hundred to a statement, and what is over one by one."""
    path = tmp_path / "l.csv"
    for times in (1, 2):
        lines = ((f"N{place}", f"{place * times + 1}", f"{place + 2}", "sound-pad") for place in range(rows))
        take_in(store, look_at(store, csv_list(path, (("code", "price", "pack", "item"), *lines)), "oddmoor", day=f"2026-12-0{times}"))
    assert ours(store) == {f"N{place}": (Decimal(place * 2 + 1), place + 2, "2026-12-02") for place in range(rows)} | {
        "N0": (1, 2, "2026-12-01")
    }
    assert undo(store, "oddmoor") == rows - 1
    assert ours(store) == {f"N{place}": (Decimal(place + 1), place + 2, "2026-12-01") for place in range(rows)}


def ours(store: Store) -> dict[str, tuple[Decimal, float, str]]:
    offers = store.book().offers["sound-pad"]
    return {each.code: (each.price, each.pack, str(each.valid_from)) for each in offers if each.code.startswith("N")}


def test_rows_come_a_few_at_a_time(tmp_path: Path) -> None:
    path = tmp_path / "long.csv"
    path.write_text("code,price\n" + "A,1\n" * 100_000)
    met = 0
    for block in blocks_of(path):
        assert (block.first, block.count < 1000) == (met + 1, True)
        met += block.count
    assert met == 100_001


@given(st.text(max_size=20), st.booleans())
def test_whatever_stands_in_a_price_cell_is_a_price_or_words(words: str, comma: bool) -> None:
    found = money(words, comma=comma)
    assert found if isinstance(found, str) else found > 0
