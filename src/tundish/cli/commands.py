"""What can be typed, and the exit code of each: 0 done, 1 the job has failing checks, 2 bad input or usage."""

from __future__ import annotations

import argparse
import io
import os
import sys
from collections.abc import Sequence

from tundish import __version__
from tundish.cli import bill, cut, demo, papers, prices, schema, set_inputs, show, why
from tundish.cli.job_named import BadInputError
from tundish.errors import TundishError

_COMMANDS = (demo, papers, prices, bill, show, why, set_inputs, schema, cut)


def run(words: Sequence[str]) -> int:
    """Run one command; trouble is said on the error stream in a sentence, never as a traceback."""
    _speak_utf8()
    asked = parser().parse_args(words)
    try:
        code = int(asked.run(asked))
        print(end="", flush=True)
        return code
    except BadInputError as bad:
        print(bad, file=sys.stderr)
        return 2
    except BrokenPipeError:  # who was listening has gone
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 2
    except TundishError as fault:
        print(f"tundish: {fault}", file=sys.stderr)
        return 2
    except OSError as fault:
        print(f"tundish: {fault.filename or 'the system'}: {(fault.strerror or str(fault)).lower()}", file=sys.stderr)
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


def _speak_utf8() -> None:
    # What is piped into a file is the same on every system, and signs such as − never stop a command.
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(encoding="utf-8", errors="replace")
