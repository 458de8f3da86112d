"""Papers written by the command line."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from tundish.__main__ import main
from tundish.catalogue.load import supplied_book
from tundish.cli.papers import write_papers
from tundish.field import put
from tundish.store import logo
from tundish.store.keep import Store, demo_jobs


def test_papers_carry_the_logo_that_is_kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TUNDISH_HOME", str(tmp_path / "home"))
    image, kept = Image.new("RGB", (80, 40), (200, 30, 30)), BytesIO()
    image.save(kept, "JPEG")
    store = Store()
    logo.keep(store, kept.getvalue())
    store.close()
    assert main(["papers", "101", "--to", str(tmp_path / "papers")]) == 0
    written = list((tmp_path / "papers").glob("*.pdf"))
    assert written
    assert all(b"/Subtype /Image" in file.read_bytes() for file in written)


def test_a_letter_that_cannot_be_printed_is_said_for_each_paper_it_is_on(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("TUNDISH_HOME", str(tmp_path / "home"))
    job = next(each for each in demo_jobs() if each.number == "101")
    write_papers(put(job, "client.name", "Mrs 漢 כהן"), supplied_book(), tmp_path / "papers")
    told = [line for line in capsys.readouterr().err.splitlines() if "No type here has" in line]
    assert "Quote 101 כהן: No type here has 漢: printed as �" in told
    assert not any("כ" in line.split(": ", 1)[1] for line in told)
