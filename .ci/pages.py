#!/usr/bin/env python3
"""Write the reference pages of the rule book again, docs/rules: `python .ci/check.py --pages` after a rule or a figure changed."""

from __future__ import annotations

import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT / "src"))

from tundish.catalogue.load import supplied_book  # noqa: E402 - the checkout's own, installed or not
from tundish.rules.book import RULES  # noqa: E402
from tundish.rules.pages import pages  # noqa: E402


def main() -> int:
    """0 when the pages are written; pages of families that are no more are taken away."""
    folder = ROOT / "docs" / "rules"
    folder.mkdir(parents=True, exist_ok=True)
    made = pages(RULES, supplied_book())
    for path in folder.glob("*.md"):
        if path.name not in made:
            path.unlink()
    for name, text in made.items():
        (folder / name).write_text(text, encoding="utf-8")
    print(f"{len(made)} pages in {folder.relative_to(ROOT)}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
