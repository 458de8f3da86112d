"""`tundish papers JOB --to DIR`: every paper of a job as PDF, as a spreadsheet where it is a table, as DXF where it is drawn to scale.

A paper that says what its last issue said is printed as that. Another is a draft and says so, unless it is to be issued now.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path
from typing import Any

from tundish import issuing
from tundish.catalogue.book import Book
from tundish.cli.job_named import BadInputError, is_file, opened_named
from tundish.cutting.plan import Effort
from tundish.documents.block import Document
from tundish.documents.index import build_all
from tundish.estimate import Estimate, Job, estimate
from tundish.field import Problem
from tundish.issuing import Made
from tundish.store.keep import Store
from tundish.store.placed import placed_of
from tundish.writers.index import path_of
from tundish.writers.pictures import Pictures


def declare(commands: Any) -> None:
    """The words of the command."""
    made: argparse.ArgumentParser = commands.add_parser("papers", help="write every paper of a job")
    made.add_argument("job", help="a job file, or the number of a job")
    made.add_argument("--to", required=True, type=Path, metavar="DIR", help="the folder they are written to")
    made.add_argument(
        "--issue", action="append", default=[], metavar="PAPER", help="issue this one, by its key: quote, heights… (may be given again)"
    )
    made.add_argument("--why", default="", metavar="WORDS", help="why the quote changes, for the one that takes another's place")
    made.set_defaults(run=run)


def run(asked: argparse.Namespace) -> int:
    """Write them; 1 when a check fails, with the papers written and marked."""
    opened, book = opened_named(asked.job)
    job = opened.job or Job()
    job = replace(job, why_revised=asked.why) if asked.why else job
    worked, store = estimate(job, book, Effort.BEST), Store()
    try:
        of = _Of(store, 0 if is_file(asked.job) else store.find(asked.job) or 0, worked)
        made = of.made()
        _check(asked, of, made)
        asked.to.mkdir(parents=True, exist_ok=True)
        for each in made:
            of.write(each, asked.to, opened.pictures.get, issue=each.document.key in asked.issue)
    finally:
        store.close()
    return verdict(worked)


@dataclass(frozen=True, slots=True)
class _Of:
    """A job worked out, and its place in the store; 0 for one of a file."""

    store: Store
    id: int
    worked: Estimate

    def made(self) -> tuple[Made, ...]:
        if not self.id:
            return issuing.make(self.worked)
        placed = placed_of(self.store, self.store.key_of(self.id), self.worked)
        return issuing.make(self.worked, self.store.issued(self.id), placed)

    def write(self, made: Made, folder: Path, pictures: Pictures, *, issue: bool) -> None:
        """One paper: as it was issued, as a draft, or as it is issued now."""
        issued = self.store.issued(self.id, made.document.key) if self.id else ()
        draft = not issue and not issuing.is_issued(made, issued)
        document = issuing.as_draft(made.document) if draft else made.document
        _write(document, folder, pictures)
        if issue:
            self._issue(made, path_of(document, folder, "pdf"))

    def _issue(self, made: Made, path: Path) -> None:
        _, revision = self.store.open(self.id)
        self.store.issue(self.id, issuing.as_paper(made, "pdf", revision, path.read_bytes()), made.document.number)
        kept = self.store.open(self.id)[0].job
        if made.why and kept is not None and kept.why_revised:
            label = f"issue {made.document.title.lower()} {made.document.number}"
            self.store.save(self.id, replace(kept, why_revised=""), revision, label)


def _check(asked: argparse.Namespace, of: _Of, made: Sequence[Made]) -> None:
    """Refuse what cannot be issued, before anything is written."""
    keys = [each.document.key for each in made]
    why = [f'"{key}" is none of its papers: {", ".join(keys)}' for key in asked.issue if key not in keys]
    if asked.issue and not of.id:
        why.append("is a file: papers are issued of a job in the database")
    if asked.issue and of.worked.job.begun.on:
        why.append("has an option that is being made: keep it or drop it first")
    why += [
        "has a quote out: say with --why what the client is to read about the new one"
        for each in made
        if each.document.key in asked.issue and issuing.asks_why(each) and not each.why
    ]
    if why:
        raise BadInputError(asked.job, [Problem("", words) for words in why])


def write_papers(job: Job, book: Book, folder: Path, pictures: Mapping[str, bytes] | None = None) -> int:
    """Write every paper of one job with its photographs, say where, and give the exit code."""
    worked = estimate(job, book, Effort.BEST)
    folder.mkdir(parents=True, exist_ok=True)
    for document in build_all(worked):
        _write(document, folder, (pictures or {}).get)
    return verdict(worked)


def verdict(worked: Estimate) -> int:
    """0, or 1 with the failing checks and problems said on the error stream."""
    failing = [finding for finding in worked.findings if finding.state == "fails"]
    for problem in worked.problems:
        print(f"{problem.path}: {problem.text}", file=sys.stderr)
    for finding in failing:
        print(f"fails: {finding.place}: {finding.title}. {finding.message}", file=sys.stderr)
    return 1 if failing else 0


def _write(document: Document, folder: Path, pictures: Pictures) -> None:
    from tundish.writers.index import write
    from tundish.writers.pdf_letters import notice

    formats = (
        "pdf",
        *(("xlsx",) if document.tables_only else ()),
        *(("dxf",) if document.drawn else ()),
        *(("ics",) if document.events else ()),
    )
    for path in write(document, folder, formats, datetime.now().strftime("%Y-%m-%d %H:%M"), pictures):
        print(path)
    if told := notice(document):
        print(f"{document.name}: {told}", file=sys.stderr)
