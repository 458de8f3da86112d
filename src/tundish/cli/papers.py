"""`tundish papers JOB --to DIR`: every paper of a job as PDF, as a spreadsheet where it is a table, as DXF where it is drawn to scale."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Mapping
from datetime import datetime
from pathlib import Path
from typing import Any

from tundish.catalogue.book import Book
from tundish.cli.job_named import opened_named
from tundish.cutting.plan import Effort
from tundish.documents.index import build_all
from tundish.estimate import Estimate, Job, estimate


def declare(commands: Any) -> None:
    """The words of the command."""
    made: argparse.ArgumentParser = commands.add_parser("papers", help="write every paper of a job")
    made.add_argument("job", help="a job file, or the number of a job")
    made.add_argument("--to", required=True, type=Path, metavar="DIR", help="the folder they are written to")
    made.set_defaults(run=run)


def run(asked: argparse.Namespace) -> int:
    """Write them; 1 when a check fails, with the papers written and marked."""
    opened, book = opened_named(asked.job)
    return write_papers(opened.job or Job(), book, asked.to, opened.pictures)


def write_papers(job: Job, book: Book, folder: Path, pictures: Mapping[str, bytes] | None = None) -> int:
    """Write every paper of one job with its photographs, say where, and give the exit code."""
    from tundish.writers.index import write
    from tundish.writers.pdf_letters import notice

    worked = estimate(job, book, Effort.BEST)
    folder.mkdir(parents=True, exist_ok=True)
    printed = datetime.now().strftime("%Y-%m-%d %H:%M")
    for document in build_all(worked):
        formats = ("pdf", *(("xlsx",) if document.tables_only else ()), *(("dxf",) if document.drawn else ()))
        for path in write(document, folder, formats, printed, (pictures or {}).get):
            print(path)
        if told := notice(document):
            print(f"{document.name}: {told}", file=sys.stderr)
    return verdict(worked)


def verdict(worked: Estimate) -> int:
    """0, or 1 with the failing checks and problems said on the error stream."""
    failing = [finding for finding in worked.findings if finding.state == "fails"]
    for problem in worked.problems:
        print(f"{problem.path}: {problem.text}", file=sys.stderr)
    for finding in failing:
        print(f"fails: {finding.place}: {finding.title}. {finding.message}", file=sys.stderr)
    return 1 if failing else 0
