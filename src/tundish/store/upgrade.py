"""Old job files, brought up one version at a time."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Final

VERSION: Final = 1
Step = Callable[[dict[str, object]], dict[str, object]]
STEPS: Final[Mapping[int, Step]] = {}
"""From each version to the next; the first version has none before it."""


def upgraded(plain: dict[str, object], version: int) -> dict[str, object]:
    """The same file as the present version would have written it."""
    for each in range(version, VERSION):
        plain = STEPS[each](plain)
    return plain
