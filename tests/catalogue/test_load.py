"""A folder of tables becomes a book, or nothing and the reasons."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from decimal import Decimal
from pathlib import Path

import pytest

from tundish.catalogue import load
from tundish.catalogue.load import BadCatalogueError, load_catalogue, supplied_book
from tundish.figure import Known

Spoil = Callable[[str, str, str], None]


def told(folder: Path) -> list[str]:
    book, problems = load_catalogue(folder)
    assert (book is None) == bool(problems)
    return [f"{each.path}: {each.text}" for each in problems]


def test_a_book_holds_what_the_tables_say(folder: Path) -> None:
    book, problems = load_catalogue(folder)
    assert problems == ()
    assert book is not None
    pan = book.item("pan-ondel-530")
    assert (pan.name, pan.kind, pan.group, pan.unit) == ("Ondel 530 pan", "wc pan", "Frames and sanitaryware", "each")
    assert pan.size("top_to_studs").value == 95
    assert (pan.size("flush").unit, pan.size("flush").known, pan.size("flush").note) == ("l", Known.MAKER, "demonstration sheet S1")
    assert book.item("urinal-brodwel-330").size("top_to_studs").value == -340
    assert [(end.system, end.nominal, end.diameter, end.gender) for end in book.item("soil-adaptor-90-110").ends] == [
        ("continental drain", "90", 90.0, "female"),
        ("soil", "110", 110.0, "male"),
    ]
    assert book.role("strut").code == "strut-41x21"
    assert ("tie-rod-medium", 2.0) in {(part.item, part.amount) for part in book.kits["frame-wc-1120"]}
    assert [(one.length, one.price) for one in book.offers["strut-41x41"]] == [
        (2000, Decimal("14.60")),
        (3000, Decimal("20.40")),
        (6000, Decimal("39.20")),
    ]
    assert book.suppliers["oddmoor"].carriage == Decimal("25.00")
    assert book.stock["sound-pad"] == 6
    assert [(piece.key, piece.length, piece.width, piece.place) for piece in book.rack if piece.item == "board-cement-12"] == [
        ("R4", 640, 400, "lock-up")
    ]


def test_a_book_is_dated_by_its_latest_price_or_figure(folder: Path, spoil: Spoil) -> None:
    spoil("rulebook/space.toml", 'valid_from = "2026-11-01"', 'valid_from = "2027-02-01"')
    book, _ = load_catalogue(folder)
    assert book is not None
    assert book.date == "2027-02-01"


def test_a_figure_knows_its_source_and_may_have_a_day_of_its_own(folder: Path, spoil: Spoil) -> None:
    spoil("rulebook/drainage.toml", 'unit = "mm/m"', 'unit = "mm/m"\nvalid_from = "2026-12-24"')
    book, _ = load_catalogue(folder)
    assert book is not None
    least = book.figures["drainage.wc_fall_least"]
    assert (least.value, least.supplied, least.unit, least.valid_from, least.changed) == (18, 18, "mm/m", "2026-12-24", "")
    assert least.source.startswith("Approved Document H")
    assert book.figures["drainage.wc_fall_most"].valid_from == "2026-11-01"


def test_a_table_saved_by_a_spreadsheet_is_read(folder: Path) -> None:
    path = folder / "catalogue" / "stock.csv"
    path.write_bytes(b"\xef\xbb\xbf" + path.read_text(encoding="utf-8").replace("\n", "\r\n").encode() + b",\r\n")
    assert told(folder) == []


def test_every_problem_is_told_at_once(folder: Path, spoil: Spoil) -> None:
    spoil("catalogue/stock.csv", "sound-pad,6", "sound-pad,six")
    spoil("catalogue/roles.csv", "grout,grout-white", "grout,grout-purple")
    spoil("rulebook/space.toml", "value = 400", 'value = "four hundred"')
    assert [each.partition(": ")[2] for each in told(folder)] == [
        'amount: "six" is not a number such as 12.5',
        "value: four hundred is not a number",
        "there is no item grout-purple",
    ]


def test_a_row_with_a_fault_makes_no_trouble_elsewhere(folder: Path, spoil: Spoil) -> None:
    spoil("catalogue/items/boards.csv", "board-cement-12,Cement board 12,board", "board-cement-12,Cement board 12,bord")
    assert told(folder) == ['boards.csv:2: kind: "bord" is not in kinds.toml']


def test_without_kinds_nothing_else_is_judged(folder: Path) -> None:
    (folder / "catalogue" / "kinds.toml").write_text("[strut\n", encoding="utf-8")
    (problem,) = told(folder)
    assert problem.startswith("kinds.toml: is not sound TOML: ")


def test_an_empty_folder_is_told(tmp_path: Path) -> None:
    assert told(tmp_path) == [
        "kinds.toml: is missing",
        "rulebook: is missing: the folder beside the catalogue with one TOML file for each family of rules",
    ]


def test_missing_tables_are_told(folder: Path) -> None:
    shutil.rmtree(folder / "catalogue" / "items")
    for name in ("offers.csv", "kits.csv", "roles.csv", "stock.csv", "rack.csv", "ends.csv"):
        (folder / "catalogue" / name).unlink()
    found = told(folder)
    assert "items: is missing: the folder with one CSV file for each family of items" in found
    assert "offers.csv: is missing" in found
    assert "rack.csv: is missing" in found


def test_a_file_that_is_no_text_is_told(folder: Path) -> None:
    (folder / "catalogue" / "stock.csv").write_bytes(b"item,amount\nsound-pad\xff,6\n")
    assert any(each.startswith("stock.csv: cannot be read as UTF-8 text: ") for each in told(folder))


def test_the_supplied_book_is_read_once() -> None:
    assert supplied_book() is supplied_book()


def test_a_damaged_installation_says_what_is_wrong(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(load, "resource", lambda: tmp_path)
    with pytest.raises(BadCatalogueError, match=r"the supplied catalogue cannot be used: kinds\.toml: is missing; rulebook: is missing"):
        supplied_book.__wrapped__()
