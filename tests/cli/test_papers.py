"""Papers written by the command line."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from tundish.__main__ import main
from tundish.store import logo
from tundish.store.keep import Store


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
