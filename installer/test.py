#!/usr/bin/env python3
"""Sets Tundish up, if need be, with what its tests need, and runs them: `python3 installer/test.py`.

Words after it go to pytest; `--set-up-only` sets up and stops. No screen is needed.
"""

from __future__ import annotations

import os
import sys

import setting_up


def main(words: list[str]) -> int:
    """The exit code of the tests, or 1 where they could not be set up."""
    python = setting_up.set_up("test", setting_up.DRAWING)
    if words == ["--set-up-only"]:
        return 0
    setting_up.say("Running the tests ...")
    spread = ["-n", "2", "--dist", "loadfile"]
    return setting_up.start(python, ["pytest", *spread, *words], {**os.environ, "QT_QPA_PLATFORM": "offscreen"})


if __name__ == "__main__":
    sys.exit(setting_up.guarded(lambda: main(sys.argv[1:])))
