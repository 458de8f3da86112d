"""A cut list of its own from a file: what is read, and what is told of one that cannot be."""

from __future__ import annotations

from pathlib import Path

import pytest

from tundish.cutting.plan import Bar
from tundish.cutting.question import BadQuestionError, Question
from tundish.store.cut_file import read_cut_file

HEAD = "what,mark,length,width,count,price\n"
BAR = "bar,strut,3000,,,11.80\n"


def read(tmp_path: Path, text: str, name: str = "list.csv") -> Question:
    (tmp_path / name).write_text(text, encoding="utf-8")
    return read_cut_file(tmp_path / name, 3.0, 0.0)


@pytest.mark.parametrize("apart", [",", ";", "\t"])
def test_cells_may_be_set_apart_by_commas_semicolons_or_tabs(tmp_path: Path, apart: str) -> None:
    asked = read(tmp_path, ("\ufeff" + HEAD + "piece,A,1200,,3,\n" + BAR).replace(",", apart))
    assert [(piece.mark, piece.length, piece.count) for piece in asked.pieces] == [("A", 1200, 3)]
    assert asked.bars == (Bar(3000, 1180, None, "strut"),)


def test_a_row_that_does_not_say_what_it_is_is_a_piece_and_an_empty_one_is_nothing(tmp_path: Path) -> None:
    asked = read(tmp_path, HEAD + ",A,1200,,3,\n,,,,,\n" + BAR)
    assert [(piece.mark, piece.count) for piece in asked.pieces] == [("A", 3)]


@pytest.mark.parametrize(
    ("row", "told"),
    [
        (",A,0,,3,", "row 2, length: should be more than nought"),
        (",A,-5,,3,", "row 2, length: should be more than nought"),
        (",A,nan,,3,", "row 2, length"),
        (",A,1e999,,3,", "row 2, length"),
        (",A,99999999,,3,", "row 2, length"),
        (",A,long,,3,", "row 2, length: 'long' is not a length"),
        (",A,700,,2.5,", "row 2, count"),
        ("plank,A,700,,2,", "row 2, what: should be piece, bar, sheet, offcut, not 'plank'"),
    ],
)
def test_what_is_wrong_is_told_by_row_and_column(tmp_path: Path, row: str, told: str) -> None:
    with pytest.raises(BadQuestionError, match=told):
        read(tmp_path, f"{HEAD}{row}\n{BAR}")


def test_two_units_in_a_list_are_told(tmp_path: Path) -> None:
    with pytest.raises(BadQuestionError, match=r"row 3, length: 700 mm is in mm, and row 2, length is in m: use one unit"):
        read(tmp_path, HEAD + ",A,1.2 m,,3,\n,B,700 mm,,1,\n")


def test_what_is_no_list_is_told_shortly(tmp_path: Path) -> None:
    (tmp_path / "picture.csv").write_bytes(b"\x7fELF\0\0\xff")
    with pytest.raises(BadQuestionError, match=r"picture\.csv is no text"):
        read_cut_file(tmp_path / "picture.csv", 3.0, 0.0)
    with pytest.raises(BadQuestionError) as told:
        read(tmp_path, ",".join(f"column {one}" for one in range(100)))
    assert len(str(told.value)) < 200
    with pytest.raises(BadQuestionError, match="is not JSON"):
        read(tmp_path, "{", "list.json")
