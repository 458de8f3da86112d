#!/usr/bin/env python3
"""Sets Tundish up, if need be, and opens it on the demo job: `python3 installer/run.py`.

Words after it go to the program; `--set-up-only` sets up and stops. Without a screen the demo job's papers are written instead.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path

import setting_up

PAPERS = Path.home() / "Tundish demo papers"


def main(words: list[str]) -> int:
    """The exit code of the program, or 1 where it could not be set up."""
    python = setting_up.set_up("", {**setting_up.DRAWING, **setting_up.SCREEN})
    if words == ["--set-up-only"]:
        return 0
    if setting_up.has_screen(sys.platform, os.environ):
        if not words:
            setting_up.say("Opening the window ...")
        return setting_up.start(python, ["tundish", *words])
    if words:
        return setting_up.start(python, ["tundish", *words], {"QT_QPA_PLATFORM": "offscreen", **os.environ})
    return write_papers(python)


def write_papers(python: Path) -> int:
    """The exit code of writing the demo job's papers; says where they are."""
    setting_up.say("There is no screen here, so the demo job's papers are written instead ...")
    code = setting_up.start(python, ["tundish", "demo", "--to", str(PAPERS)])
    if code == 0:
        setting_up.say(f"The papers are in {PAPERS}")
    return code


if __name__ == "__main__":
    sys.exit(setting_up.guarded(lambda: main(sys.argv[1:])))
