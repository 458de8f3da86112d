"""Writing a paper in several formats."""

from __future__ import annotations

import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from tests.writers import sample_papers as samples
from tundish.writers.index import FORMATS, NoSuchFormatError, write
from tundish.writers.safe import CouldNotWriteError


def test_a_paper_is_written_in_every_format(tmp_path: Path) -> None:
    files = write(samples.cut_list(), tmp_path / "new" / "folder", FORMATS, samples.PRINTED)
    assert [file.name for file in files] == [f"Cut list 047.{ending}" for ending in ("pdf", "xlsx", "txt", "csv", "dxf", "html", "ics")]
    assert [file.read_bytes()[:4] for file in files] == [b"%PDF", b"PK\x03\x04", b"M. T", b'\xef\xbb\xbf"', b"  0\n", b"<!DO", b"BEGI"]


def test_every_format_says_what_it_suits() -> None:
    assert all(each.suits and each.ending for each in FORMATS.values())


def test_an_unknown_format_writes_nothing(tmp_path: Path) -> None:
    with pytest.raises(NoSuchFormatError, match=r'"docx" is not a format.*pdf, xlsx, text, csv, dxf, html, ics'):
        write(samples.cut_list(), tmp_path / "new", ("pdf", "docx"), "")
    assert not (tmp_path / "new").exists()


def test_a_name_no_system_takes_is_made_one(tmp_path: Path) -> None:
    (file,) = write(replace(samples.cut_list(), name="../Cut: list?"), tmp_path, ("text",), "")
    assert file == tmp_path / "Cut list.txt"


def test_a_folder_that_cannot_be_made_is_said(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way", encoding="utf-8")
    with pytest.raises(CouldNotWriteError, match="the folder is not a folder"):
        write(samples.cut_list(), tmp_path / "file" / "folder", ("text",), "")


def test_the_list_of_formats_loads_no_file_library() -> None:
    code = "import sys, tundish.writers.index; print([name for name in ('reportlab', 'openpyxl', 'PIL', 'ezdxf') if name in sys.modules])"
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, env={"PYTHONPATH": "src", "PATH": ""})
    assert ran.stdout.strip() == "[]"
