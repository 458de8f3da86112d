"""`tundish set JOB PATH=VALUE… [--out FILE]`: change inputs of a job by path, as typed in the window."""

from __future__ import annotations

import argparse
import json
from pathlib import Path
from typing import Any

from tundish import typed
from tundish.cli.job_named import BadInputError, opened_named
from tundish.estimate import Job
from tundish.field import Field, NoSuchInputError, Problem, describe
from tundish.session import Session
from tundish.store.codec import write_job
from tundish.writers.safe import write_whole


def declare(commands: Any) -> None:
    """The words of the command."""
    made: argparse.ArgumentParser = commands.add_parser("set", help="change inputs of a job")
    made.add_argument("job", help="a job file, or the number of a job")
    made.add_argument(
        "changes",
        nargs="+",
        metavar="PATH=VALUE",
        help='such as rooms.0.survey.stack.branch_invert=176, or ="2.38 m", or ={"value": 28, "tbc": true}',
    )
    made.add_argument("--out", type=Path, metavar="FILE", help="the job file to write; without it the job is printed")
    made.set_defaults(run=run)


def run(asked: argparse.Namespace) -> int:
    """Change them all, or none when one cannot be."""
    opened, _ = opened_named(asked.job)
    session = Session(opened.job or Job())
    problems = [problem for words in asked.changes for problem in _change(session, words)]
    if problems:
        raise BadInputError(asked.job, problems)
    if asked.out:
        write_whole(asked.out, write_job(session.job, opened.pictures))
        print(asked.out)
    else:
        print(write_job(session.job, opened.pictures).decode(), end="")
    return 0


def _change(session: Session, words: str) -> tuple[Problem, ...]:
    path, sign, given = words.partition("=")
    if not sign or not path:
        return (Problem(words, "should be PATH=VALUE"),)
    try:
        declared = describe(Job, path)
    except NoSuchInputError as missing:
        return (Problem(path, str(missing)),)
    value, problem = _value(declared, given)
    return (Problem(path, problem),) if problem else session.set(path, value)


def _value(declared: Field, given: str) -> tuple[object, str]:
    """What was typed, as the value of an input, or the words that say why not."""
    if declared.kind == "number" and given.startswith("{"):
        try:
            return json.loads(given), ""
        except ValueError:
            return None, f"{given[:40]} is not a number with what is known of it"
    return typed.taken(declared, given, None)
