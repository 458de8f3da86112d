"""`tundish demo --to DIR`: the demonstration jobs worked out, with every paper."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from tundish.cli.job_named import open_store
from tundish.cli.papers import write_papers
from tundish.store.codec import ENDING, write_job
from tundish.store.keep import demo_jobs
from tundish.writers.safe import write_whole


def declare(commands: Any) -> None:
    """The words of the command."""
    made: argparse.ArgumentParser = commands.add_parser("demo", help="work the demonstration jobs out and write their papers")
    made.add_argument("--to", required=True, type=Path, metavar="DIR", help="the folder they are written to")
    made.set_defaults(run=run)


def run(asked: argparse.Namespace) -> int:
    """Write a folder a job. The demonstration shows failing checks on purpose, so they are said and the code is 0."""
    store = open_store()
    try:
        book = store.book()
    finally:
        store.close()
    for job in demo_jobs():
        folder = asked.to / f"{job.number} {job.title}"
        write_papers(job, book, folder)
        write_whole(folder / f"{job.number}{ENDING}", write_job(job))
    print(f"The papers are in {asked.to.resolve()}")
    return 0
