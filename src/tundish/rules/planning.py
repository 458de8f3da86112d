"""What every check of strength says."""

from __future__ import annotations

from typing import Final

FIRST: Final = "A check for planning; makers' instructions and a chartered or licensed person come first."
