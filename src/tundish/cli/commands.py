"""What can be typed, and the exit code of each: 0 done, 1 the job has failing checks, 2 bad input or usage."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence

from tundish import __version__
from tundish.cli import demo, papers, schema, set_inputs, show, why
from tundish.cli.job_named import BadInputError
from tundish.errors import TundishError

_COMMANDS = (demo, papers, show, why, set_inputs, schema)


def run(words: Sequence[str]) -> int:
    """Run one command; trouble is said on the error stream in a sentence, never as a traceback."""
    asked = parser().parse_args(words)
    try:
        return int(asked.run(asked))
    except BadInputError as bad:
        print(bad, file=sys.stderr)
        return 2
    except (TundishError, OSError) as fault:
        print(f"tundish: {fault}", file=sys.stderr)
        return 2


def parser() -> argparse.ArgumentParser:
    """Every command with its words."""
    made = argparse.ArgumentParser(
        prog="tundish", description="Survey, set out, price and print a wall-hung bathroom. Without a command: the window."
    )
    made.add_argument("--version", action="version", version=f"tundish {__version__}")
    made.add_argument("--selfcheck", metavar="FILE.png", help="open the window on the demo job, save its picture, print one JSON line")
    commands = made.add_subparsers(dest="command", required=True, metavar="COMMAND")
    for each in _COMMANDS:
        each.declare(commands)
    return made
