"""Where a writer gets the bytes of photographs: from whoever asks for the paper."""

from __future__ import annotations

from collections.abc import Callable

Pictures = Callable[[str], bytes | None]
"""The bytes of a picture by its key, None where it is not kept."""


def none_kept(_: str) -> bytes | None:
    """No pictures are at hand: papers say where each would stand."""
    return None
