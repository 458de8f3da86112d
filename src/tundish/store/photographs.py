"""Photographs of a job: kept in the database under the digest of their bytes, and carried in its job file.

Only what the program itself makes of a picture is taken: JPEG of a bounded size. Whoever shows one still reads it with care.
"""

from __future__ import annotations

import base64
import binascii
import hashlib
from collections.abc import Mapping
from typing import TYPE_CHECKING, Final

from tundish.estimate import Job
from tundish.field import Problem

if TYPE_CHECKING:
    from sqlalchemy import Connection

MEDIA: Final = "image/jpeg"
MOST_BYTES: Final = 4_000_000
"""What one kept picture may take: at 1,600 px it never does."""
SECTION: Final = "pictures"
"""Where a job file keeps them, by their keys, in base64 (RFC 4648)."""
_BEGINS: Final = b"\xff\xd8\xff"  # the start of every JPEG


def key_of(body: bytes) -> str:
    """The key that a picture is kept by: the SHA-256 of its bytes."""
    return hashlib.sha256(body).hexdigest()


def is_kept_kind(body: bytes) -> bool:
    """Whether bytes are of the kind and size that is kept."""
    return body.startswith(_BEGINS) and len(body) <= MOST_BYTES


def named_in(job: Job) -> tuple[str, ...]:
    """The keys of the photographs that a job names, each once."""
    return tuple(dict.fromkeys(each.picture for room in job.rooms for each in room.survey.photographs if each.picture))


def to_section(job: Job, pictures: Mapping[str, bytes]) -> dict[str, str]:
    """The section of a job file: those of the pictures that the job names."""
    return {key: base64.b64encode(pictures[key]).decode("ascii") for key in named_in(job) if key in pictures}


def from_section(given: object) -> tuple[dict[str, bytes], tuple[Problem, ...]]:
    """The pictures of a job file's section, and what was left out of it and why: a damaged picture stops no job."""
    if not isinstance(given, dict):
        return {}, (Problem(SECTION, "should be a group of pictures by their keys; it is left out"),)
    made: dict[str, bytes] = {}
    left_out: list[Problem] = []
    for key, words in given.items():
        body = _decoded(words)
        if body is None or not is_kept_kind(body) or key_of(body) != key:
            left_out.append(Problem(f"{SECTION}.{key[:12]}", "is not the picture that was kept; it is left out"))
        else:
            made[key] = body
    return made, tuple(left_out)


def keep(connection: Connection, job_id: int, pictures: Mapping[str, bytes]) -> None:
    """Keep pictures with a job; one that is there already is kept once."""
    from sqlalchemy import insert, select

    from tundish.store.tables import photographs

    there = set(connection.execute(select(photographs.c.key).where(photographs.c.job == job_id)).scalars())
    rows = [{"job": job_id, "key": key, "media": MEDIA, "body": body} for key, body in pictures.items() if key not in there]
    if rows:
        connection.execute(insert(photographs), rows)


def one(connection: Connection, job_id: int, key: str) -> bytes | None:
    """The bytes of one picture of a job, or None."""
    from sqlalchemy import select

    from tundish.store.tables import photographs

    query = select(photographs.c.body).where((photographs.c.job == job_id) & (photographs.c.key == key))
    found: bytes | None = connection.execute(query).scalar()
    return found


def of(connection: Connection, job_id: int) -> dict[str, bytes]:
    """Every picture kept with a job, by key."""
    from sqlalchemy import select

    from tundish.store.tables import photographs

    rows = connection.execute(select(photographs.c.key, photographs.c.body).where(photographs.c.job == job_id).order_by(photographs.c.key))
    return {row.key: row.body for row in rows}


def _decoded(words: object) -> bytes | None:
    if not isinstance(words, str) or len(words) > MOST_BYTES * 4 // 3 + 4:
        return None
    try:
        return base64.b64decode(words, validate=True)
    except (binascii.Error, ValueError):
        return None
