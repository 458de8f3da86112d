"""`tundish schema`: the JSON Schema of a job file."""

from __future__ import annotations

import argparse
import json
from typing import Any

from tundish.store.codec import job_schema


def declare(commands: Any) -> None:
    """The words of the command."""
    made: argparse.ArgumentParser = commands.add_parser("schema", help="print the JSON Schema of a job file")
    made.set_defaults(run=run)


def run(asked: argparse.Namespace) -> int:
    """Print it."""
    print(json.dumps(job_schema(), indent=1, ensure_ascii=False))
    return 0
