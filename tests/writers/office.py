"""An office program that opens workbooks and works them out afresh, where there is one."""

from __future__ import annotations

import shutil
import subprocess
from collections.abc import Sequence
from pathlib import Path

import pytest

OFFICE = shutil.which("soffice")
needs_office = pytest.mark.skipif(OFFICE is None, reason="LibreOffice is not installed: no office program to open the workbook with")


def opened(books: Sequence[bytes], folder: Path, ending: str) -> list[Path]:
    """The workbooks as the office program saves them in a format, by its own name for it."""
    paths = [folder / f"book{number}.xlsx" for number in range(len(books))]
    for path, book in zip(paths, books, strict=True):
        path.write_bytes(book)
    profile, out = (folder / "profile").as_uri(), folder / "out"
    arguments = [f"-env:UserInstallation={profile}", "--headless", "--convert-to", ending, "--outdir", str(out), *map(str, paths)]
    subprocess.run([str(OFFICE), *arguments], check=True, capture_output=True, timeout=240)
    return [out / f"{path.stem}.{ending.split(':', maxsplit=1)[0]}" for path in paths]
