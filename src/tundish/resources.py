"""Where the shipped files are: rule figures, the demo catalogue and jobs, fonts, icons."""

from __future__ import annotations

from pathlib import Path


def resource(*parts: str) -> Path:
    """The path of a shipped file or folder, found alike in a checkout, an installed wheel and a frozen build."""
    here = Path(__file__)
    shipped = here.with_suffix("")
    folder = shipped if shipped.is_dir() else here.parents[2] / "resources"
    return folder.joinpath(*parts)
