"""`tundish cut`: a cut list of its own, from JSON or CSV."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tundish.cli.commands import run

BARS = """what,mark,length,count,price
piece,S1,700,3,
piece,S2,1200,1,
bar,strut,3000,,11.80
offcut,R1,1300,1,
"""
SHEETS = """what,mark,length,width,count,price,turn
piece,B1,600,400,2,,no
sheet,board,1200,800,,24.00,
"""


def written(folder: Path, text: str, name: str = "list.csv") -> str:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return str(path)


def test_a_table_of_bars_is_told_bar_by_bar(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["cut", written(tmp_path, BARS)]) == 0
    out = capsys.readouterr().out
    assert "1. R1, 1,300 mm: S2 1,200; scrap 97" in out
    assert "2. strut, 3,000 mm: S1 700, S1 700, S1 700; keep 891" in out
    assert "New stock £11.80, proven best." in out


def test_a_sheet_is_told_cut_by_cut(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["cut", written(tmp_path, SHEETS), "--trim", "5"]) == 0
    out = capsys.readouterr().out
    assert "Trim 5 off all four edges." in out
    assert "2. The 600 × 790 at 400 from the foot, gives B1." in out
    assert out.count("gives B1") == 2


def test_as_json_it_says_stock_pieces_cost_and_bound(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    asked = {"kind": "1d", "kerf": 2, "stock": [{"length": 3000, "cost": 900, "qty": None}], "pieces": [{"length": 700, "qty": 3}]}
    assert run(["cut", written(tmp_path, json.dumps(asked), "list.json"), "--seconds", "5", "--json"]) == 0
    assert json.loads(capsys.readouterr().out) == {"plan": [{"stock": 0, "cuts": [0, 0, 0]}], "cost": 900, "bound": 900, "proven": True}


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (BARS.replace("1200", "1.2 m"), "row 3, length: 1.2 m is in m, and row 2, length is in mm: use one unit in a list"),
        (BARS.replace("1200", "long"), "row 3, length: 'long' is not a length"),
        (BARS.replace("11.80", "x"), "row 4, price: 'x' is not an amount of money"),
        (BARS.replace("S1,700,3", "S1,700,many"), "row 2, count: 'many' is not a whole number"),
        (BARS.replace("piece,S1", "thing,S1"), "row 2, what: should be piece, bar, sheet, offcut, not 'thing'"),
        ("a,b\n1,2\n", "row 1: the columns should be what, mark"),
    ],
)
def test_what_is_wrong_is_said_by_row_and_column(tmp_path: Path, capsys: pytest.CaptureFixture[str], text: str, told: str) -> None:
    assert run(["cut", written(tmp_path, text)]) == 2
    said = capsys.readouterr()
    assert told in said.err
    assert not said.out


def test_pieces_longer_than_any_bar_are_said_with_the_ways_out(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["cut", written(tmp_path, BARS.replace("1200", "3500"))]) == 1
    assert "No stock for: S2 3,500." in capsys.readouterr().out


def test_what_is_no_json_is_said(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["cut", written(tmp_path, "{", "list.json")]) == 2
    assert "list.json is not JSON" in capsys.readouterr().err
