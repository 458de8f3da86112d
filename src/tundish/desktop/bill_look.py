"""A bill that came as a file, looked at in the window: nothing is kept of it."""

from __future__ import annotations

from pathlib import Path
from typing import Final

from tundish.desktop.workspace import Workspace
from tundish.errors import TundishError

MOST_TOLD: Final = 6
"""Of what does not agree; the command line tells all."""


def look_at_bill(workspace: Workspace, path: Path) -> str:
    """Say what a bill is; gives everything about it to be looked at before it is paid, or nothing where it agrees."""
    from tundish.store.bill_beside import bill_beside
    from tundish.store.bill_file import read_bill_file

    try:
        beside = bill_beside(workspace.store, read_bill_file(path))
    except TundishError as fault:
        return str(fault)
    workspace.said.emit(f"{beside.says}{'' if beside.problems else ': it agrees'}")
    more = len(beside.problems) - MOST_TOLD
    rest = f"; and {more} more, which tundish bill tells" if more > 0 else ""
    return f"{'; '.join(beside.problems[:MOST_TOLD])}{rest}"
