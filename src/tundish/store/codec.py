"""The job file: JSON with a format and a version, read whole or not at all, with every problem named.

What the program does not know in a file is kept with the job and written back, so that nothing of anybody's is lost.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Final

from tundish.estimate import Job
from tundish.field import Problem
from tundish.plain import Plain, from_plain, schema, to_plain
from tundish.store.photographs import SECTION, from_section, to_section
from tundish.store.upgrade import VERSION, upgraded

FORMAT: Final = "tundish job"
ENDING: Final = ".tundish"
MOST_BYTES: Final = 100_000_000
"""With its photographs; without them a job takes some hundred kilobytes."""
MOST_DEPTH: Final = 40
_HEAD: Final = ("format", "version", SECTION)
_SIGNS: Final = re.compile(r'"[^"\\]*+(?:\\.[^"\\]*+)*+(?:"|\Z)|[\[{]|[\]}]', re.DOTALL)


@dataclass(frozen=True, slots=True)
class Opened:
    """What became of a job file: the job, or the problems that stopped it; `notes` are what was not known and is kept, or left out.

    `pictures` are the bytes of its photographs by key.
    """

    job: Job | None
    problems: tuple[Problem, ...] = ()
    notes: tuple[Problem, ...] = ()
    pictures: Mapping[str, bytes] = field(default_factory=dict)


def read_job_file(path: Path) -> Opened:
    """A job from a job file, of which no more is read than a job file may hold; never raises for what the system or the file says."""
    try:
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except OSError as fault:
        return _stopped("", f"cannot be read: {(fault.strerror or str(fault)).lower()}")
    return read_job(data)


def read_job(data: bytes) -> Opened:
    """A job from the bytes of a job file; never raises for what the file may hold."""
    plain, problems = _parsed(data)
    if problems:
        return Opened(None, problems)
    if not isinstance(plain, dict) or plain.get("format") != FORMAT:
        return _stopped("format", f'is not a job file: it should begin with "format": "{FORMAT}"')
    version = plain.get("version")
    if isinstance(version, bool) or not isinstance(version, int) or version < 1:
        return _stopped("version", "should be the whole number of the file's version, 1 or more")
    if version > VERSION:
        return _stopped(
            "version", f"is {version}, made by a newer program; this one reads up to {VERSION}. Update the program and open it again"
        )
    body = {name: value for name, value in upgraded(plain, version).items() if name not in _HEAD}
    job, found, unknown = from_plain(Job, body)
    found = (*found, *_cannot_be_kept(unknown))
    if job is None or found:
        return Opened(None, found)
    kept = tuple((path, json.dumps(value, ensure_ascii=False, sort_keys=True)) for path, value in sorted(unknown.items()))
    notes = tuple(Problem(path, "is not known to this version; it is kept as it is and not used") for path, _ in kept)
    pictures, left_out = from_section(plain.get(SECTION, {}))
    return Opened(replace(job, kept=kept), (), (*notes, *left_out), pictures)


def write_job(job: Job, pictures: Mapping[str, bytes] | None = None) -> bytes:
    """A job as the bytes of a job file, in a fixed order; of `pictures` those that it names go with it."""
    plain: dict[str, Plain] = {"format": FORMAT, "version": VERSION, **to_plain(job)}
    section = to_section(job, pictures or {})
    if section:
        plain[SECTION] = dict(section)
    for path, words in job.kept:
        _put_back(plain, [word.replace("~1", ".").replace("~0", "~") for word in path.split(".")], json.loads(words))
    return (json.dumps(plain, ensure_ascii=False, indent=1) + "\n").encode()


def job_schema() -> dict[str, object]:
    """The JSON Schema of a job file."""
    made = schema(Job)
    properties: dict[str, object] = {"format": {"const": FORMAT}, "version": {"type": "integer", "minimum": 1, "maximum": VERSION}}
    properties[SECTION] = {
        "type": "object",
        "description": "photographs by the SHA-256 of their bytes",
        "additionalProperties": {"type": "string", "contentEncoding": "base64", "contentMediaType": "image/jpeg"},
    }
    inner = made["properties"]
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Tundish job",
        "type": "object",
        "required": ["format", "version"],
        "properties": properties | (inner if isinstance(inner, dict) else {}),
    }


class _FileError(Exception):
    """Something wrong with the file before any of it can be understood."""


def _stopped(path: str, text: str) -> Opened:
    return Opened(None, (Problem(path, text),))


def _parsed(data: bytes) -> tuple[object, tuple[Problem, ...]]:
    twice: list[str] = []
    try:
        plain = json.loads(_text(data), object_pairs_hook=lambda pairs: _once(pairs, twice), parse_constant=_no_constant)
    except _FileError as fault:
        return None, (Problem("", str(fault)),)
    except json.JSONDecodeError as fault:
        return None, (Problem("", f"line {fault.lineno}, character {fault.colno}: not JSON ({fault.msg.lower()})"),)
    except ValueError as fault:  # a number of thousands of digits
        return None, (Problem("", f"cannot be read: {fault}"),)
    return plain, tuple(Problem(name, "stands twice in one group: keep one of them") for name in dict.fromkeys(twice))


def _text(data: bytes) -> str:
    if len(data) > MOST_BYTES:
        raise _FileError(f"is larger than {MOST_BYTES / 1e6:,.0f} MB; a job file never is")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        raise _FileError(f"is not UTF-8 text (byte {fault.start:,}): save it as UTF-8, or open the file the program wrote") from fault
    if not text.strip():
        raise _FileError("is empty")
    if _depth(text) > MOST_DEPTH:
        raise _FileError(f"is nested more than {MOST_DEPTH} deep; a job never is")
    return text


def _cannot_be_kept(unknown: Mapping[str, object]) -> Iterator[Problem]:
    for path, value in unknown.items():
        try:
            json.dumps({path: value}, ensure_ascii=False, allow_nan=False).encode()
        except ValueError:  # half a character, or a number too large to be one
            yield Problem(ascii(path)[1:-1], "is not known to this version, and holds what cannot be written back: take it out")


def _once(pairs: Iterable[tuple[str, object]], twice: list[str]) -> dict[str, object]:
    made: dict[str, object] = {}
    for name, value in pairs:
        if name in made:
            twice.append(name)
        made[name] = value
    return made


def _no_constant(name: str) -> object:
    raise _FileError(f"holds {name}, which is not a number that can be measured")


def _depth(text: str) -> int:
    """How deep brackets nest, words left out."""
    deepest = depth = 0
    for found in _SIGNS.finditer(text):
        sign = found[0]
        if sign in {"[", "{"}:
            depth += 1
            deepest = max(deepest, depth)
        elif sign in {"]", "}"}:
            depth -= 1
    return deepest


def _put_back(plain: dict[str, Plain] | list[Plain], words: list[str], value: Plain) -> None:
    """Put what was not understood where it stood; where its place in a list has gone, it is let go with it."""
    word, rest = words[0], words[1:]
    if isinstance(plain, list):
        inner = plain[int(word)] if word.isdecimal() and int(word) < len(plain) else None
    elif not rest:
        plain.setdefault(word, value)
        return
    else:
        inner = plain.get(word) if rest[0].isdecimal() else plain.setdefault(word, {})
    if isinstance(inner, dict | list):
        _put_back(inner, rest, value)
