"""The rule book: every rule there is, by family. A new rule is a file, one line of import and one line in the list."""

from __future__ import annotations

from typing import Final

from tundish.rules.rule import Rule

RULES: Final[tuple[Rule, ...]] = (
)
