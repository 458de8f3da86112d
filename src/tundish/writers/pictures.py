"""Where a writer gets the bytes of photographs and of the trader's logo: from whoever asks for the paper."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

Pictures = Callable[[str], bytes | None]
"""The bytes of a picture by its key, None where it is not kept."""
LOGO: Final = "logo"
"""The key of the trader's logo."""


def none_kept(_: str) -> bytes | None:
    """No pictures are at hand: papers say where each would stand."""
    return None
