"""Text and files made safe."""

from __future__ import annotations

import errno
import os
import re
import unicodedata
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tundish.writers.safe import CouldNotWriteError, file_name, for_csv, for_spreadsheet, legible, one_line, write_whole


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        ("plain", "plain"),
        ("two\r\nlines\rthree", "two\nlines\nthree"),
        ("a\tb", "a b"),
        ("bell\x07 null\x00 escape\x1b[31m", "bell null escape[31m"),
        ("e\u0301", "é"),
        ("turned \u202eround\u202c", "turned round"),
        ("half \ud83d", "half �"),
        ("£ ½ م 😀", "£ ½ م 😀"),
    ],
)
def test_what_cannot_be_shown_goes(typed: str, kept: str) -> None:
    assert legible(typed) == kept


@given(st.text())
def test_legible_text_has_no_controls_and_stays_as_it_is(typed: str) -> None:
    kept = legible(typed)
    assert legible(kept) == kept
    assert not any(unicodedata.category(character) in {"Cc", "Cs"} for character in kept.replace("\n", ""))
    assert "\n" not in one_line(typed)


@pytest.mark.parametrize(
    "run", ["=1+1", "+1+1", "-1+1", "@SUM(A1)", " =1", "\t=1", "\n=1", "=HYPERLINK(0)", "＝1", "+44 7700 900268", "-", "- pipe"]
)
def test_what_a_spreadsheet_would_run_is_held_back(run: str) -> None:
    assert for_csv(run).startswith("'")


@pytest.mark.parametrize("kept", ["-5", "+120", "-1,234.50", "-5 %", "pan = 420", "a@b", "", "−5", "– nothing", "'quoted"])
def test_what_a_spreadsheet_would_not_run_is_left_alone(kept: str) -> None:
    assert for_csv(kept) == kept


@given(st.text())
def test_no_text_begins_a_formula(typed: str) -> None:
    kept = for_csv(typed)
    assert kept.lstrip()[:1] not in tuple("=@") or kept.startswith("'")
    assert kept.lstrip()[:1] not in tuple("+-") or re.fullmatch(r"[+-]?[\d,]+(\.\d+)?\s?%?", kept)


@given(st.text(max_size=50))
def test_text_for_a_spreadsheet_is_read_back_as_typed(typed: str) -> None:
    stored = for_spreadsheet(typed)
    read = re.sub("_x([0-9A-Fa-f]{4})_", lambda code: chr(int(code[1], 16)), stored)
    assert read == legible(typed)


def test_an_escape_typed_by_hand_is_not_one() -> None:
    assert for_spreadsheet("_x0041_") == "_x005F_x0041_"


def test_a_cell_is_cut_to_what_a_spreadsheet_holds() -> None:
    assert len(for_spreadsheet("x" * 40_000)) == 32_767


@pytest.mark.parametrize(
    ("name", "kept"),
    [
        ("Quote 047-1 Ostlethwaite", "Quote 047-1 Ostlethwaite"),
        ('a/b\\c:d*e?f"g<h>i|j', "a b c d e f g h i j"),
        ("../../etc/passwd", "etc passwd"),
        ("CON", "Paper CON"),
        ("com1.quote", "Paper com1.quote"),
        ("ends with dot. ", "ends with dot"),
        (".hidden", "hidden"),
        ("", "Paper"),
        ("\x00\n ", "Paper"),
        ("Señor Müller", "Señor Müller"),
        ("😀" * 90, "😀" * 50),
    ],
)
def test_a_file_name_suits_all_three_systems(name: str, kept: str) -> None:
    assert file_name(name) == kept


@given(st.text())
def test_any_name_becomes_one_file_in_the_folder(name: str) -> None:
    kept = file_name(name)
    assert kept
    assert not re.search(r'[<>:"/\\|?*\x00-\x1f]', kept)
    assert kept == kept.strip(". ")
    assert len(f"{kept}.xlsx".encode()) <= 255
    assert kept.split(".")[0].upper() not in {"CON", "PRN", "AUX", "NUL", "COM1", "LPT1"}


def test_a_file_is_written_and_replaced_whole(tmp_path: Path) -> None:
    path = tmp_path / "paper.pdf"
    write_whole(path, b"first")
    write_whole(path, b"second")
    assert path.read_bytes() == b"second"
    assert list(tmp_path.iterdir()) == [path]


def test_a_link_stays_a_link(tmp_path: Path) -> None:
    real, link = tmp_path / "real.pdf", tmp_path / "link.pdf"
    real.write_bytes(b"old")
    try:
        link.symlink_to(real)
    except OSError:
        pytest.skip("this system makes no links for its users")
    write_whole(link, b"new")
    assert link.is_symlink()
    assert real.read_bytes() == b"new"


@pytest.mark.parametrize(
    ("fault", "words"),
    [
        (OSError(errno.ENOSPC, "x"), "the disk is full. Make room, or choose another folder, and write it again."),
        (PermissionError(errno.EACCES, "x"), "open in another program"),
        (PermissionError(errno.EPERM, "x"), "open in another program"),
        (OSError(errno.EIO, "Input/output error"), "Input/output error"),
        (OSError("odd"), "odd"),
    ],
)
def test_a_fault_leaves_the_old_file_and_says_why(fault: OSError, words: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "paper.pdf"
    path.write_bytes(b"old")

    def refuse(*_: object) -> None:
        raise fault

    for broken in ("fsync", "replace"):
        with monkeypatch.context() as patch:
            patch.setattr(os, broken, refuse)
            with pytest.raises(CouldNotWriteError) as caught:
                write_whole(path, b"new")
        assert words in str(caught.value)
        assert str(caught.value).startswith(f"paper.pdf was not written to {tmp_path}: ")
        assert path.read_bytes() == b"old"
        assert list(tmp_path.iterdir()) == [path]


def test_a_folder_that_is_not_there_is_said(tmp_path: Path) -> None:
    with pytest.raises(CouldNotWriteError, match="the folder is not there"):
        write_whole(tmp_path / "gone" / "paper.pdf", b"")


def test_a_folder_in_the_place_of_the_file_is_said(tmp_path: Path) -> None:
    (tmp_path / "paper.pdf").mkdir()
    with pytest.raises(CouldNotWriteError, match="was not written"):
        write_whole(tmp_path / "paper.pdf", b"")
    assert [path.name for path in tmp_path.iterdir()] == ["paper.pdf"]
