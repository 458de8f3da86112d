"""The same PDF in fewer bytes: streams are compressed, and all that is no stream in object streams (ISO 32000-1, 7.5.7 and 7.5.8)."""

from __future__ import annotations

import re
import zlib
from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import pairwise
from struct import pack
from typing import Final

MOST: Final = 200
"""Objects that are compressed together: a reader takes them out together too."""
_PLAIN: Final = re.compile(rb"<<((?:(?!/Filter|>>).)*?)/Length (\d+)((?:(?!/Filter|>>).)*)>>\s*?stream\r?\n", re.DOTALL)
"""How a stream begins that nothing was done to: what is said of it before its length and after."""
_FAR: Final = re.compile(rb"<([0-9A-F]{5,6})>")
_STEP: Final = 50
"""Objects begin at multiples of this: round numbers are alike, and where they begin is then packed in fewer bytes than blanks are."""
_ENTRY: Final = 20
_OFFSET: Final = 10
_WITHIN: Final = 2
_ROW: Final = 7
"""Bytes in a row of the table of where they stand."""
_UP: Final = b"\x02"
"""A row is written as what it is more than the one above (PNG's filter of that name)."""
_FREE: Final = (0, 0, 65_535)
_WHOLE: Final = 1


def packed(made: bytes, more: Callable[[int], Mapping[int, bytes]] = lambda _: {}) -> bytes:
    """The PDF with its objects packed; `made` has one plain table of where they stand and nothing encrypted, as the canvas writes it.

    `more` gives further objects by their numbers, from the first that is free, and such as take the place of others.
    """
    start = int(made[made.rindex(b"startxref") + len(b"startxref") :].split()[0])
    trailer = made[made.index(b"trailer", start) :]
    bodies = dict(_objects(made, start))
    bodies |= more(len(bodies) + 1)
    loose = [number for number in bodies if not bodies[number].endswith(b"endstream")]
    file = bytearray(made[: made.index(b"1 0 obj")])
    places = {0: _FREE}
    for number, body in bodies.items():
        if body.endswith(b"endstream"):
            places[number] = (_WHOLE, len(file), 0)
            file += _object(number, _smaller(body))
    size = len(bodies) + 1
    for first in range(0, len(loose), MOST):
        some = loose[first : first + MOST]
        places |= {number: (_WITHIN, size, place) for place, number in enumerate(some)}
        places[size] = (_WHOLE, len(file), 0)
        file += _object(size, _together(some, [bodies[number] for number in some]))
        size += 1
    at = len(file)
    places[size] = (_WHOLE, at, 0)
    rows = [bytes(_ROW), *(pack(">BIH", *places[number]) for number in range(size + 1))]
    kept = b"".join(_UP + bytes((one - above) & 255 for above, one in zip(*pair, strict=True)) for pair in pairwise(rows))
    named = b" ".join(re.findall(rb"/(?:Root|Info) \d+ 0 R|/ID \s*\[.*?\]", trailer, re.DOTALL))
    file += _object(
        size, _stream(b"/Type /XRef /W [1 4 2] /DecodeParms <</Predictor 12 /Columns %d>> /Size %d %s" % (_ROW, size + 1, named), kept)
    )
    return bytes(file) + b"startxref\n%d\n%%%%EOF\n" % at


def _objects(made: bytes, table: int) -> Iterator[tuple[int, bytes]]:
    """Each object by its number, without what it stands between."""
    head = re.compile(rb"xref\s+0 (\d+)\s+").match(made, table)
    if head is None:
        return
    starts = [int(made[place : place + _OFFSET]) for place in range(head.end() + _ENTRY, head.end() + _ENTRY * int(head[1]), _ENTRY)]
    ends = dict(pairwise(sorted((*starts, table))))
    for number, start in enumerate(starts, start=1):
        body = made[start : ends[start]]
        yield number, body[body.index(b"obj") + 3 : body.rindex(b"endobj")].strip()


def _smaller(body: bytes) -> bytes:
    """A stream compressed, if it is not yet."""
    plain = _PLAIN.match(body)
    if plain is None:
        return body
    words = body[plain.end() : plain.end() + int(plain[2])]
    return _stream(plain[1] + plain[3], _FAR.sub(_paired, words) if words.startswith(b"/CIDInit") else words)


def _paired(found: re.Match[bytes]) -> bytes:
    """A letter past U+FFFF in UTF-16, as what says which letters a font draws has it (9.10.3); the canvas writes its number."""
    return b"<%s>" % chr(int(found[1], 16)).encode("utf-16-be").hex().encode("ascii")


def _together(numbers: Sequence[int], bodies: Sequence[bytes]) -> bytes:
    """Objects as one stream: where each begins, then all of them."""
    heads, made, at = [], [], 0
    for number, body in zip(numbers, bodies, strict=True):
        heads.append(b"%d %d" % (number, at))
        made.append(body.ljust(-(-(len(body) + 1) // _STEP) * _STEP))
        at += len(made[-1])
    head = b" ".join(heads) + b"\n"
    return _stream(b"/Type /ObjStm /N %d /First %d" % (len(numbers), len(head)), head + b"".join(made))


def _stream(of: bytes, words: bytes) -> bytes:
    kept = zlib.compress(words, 9)
    return b"<<%s /Filter /FlateDecode /Length %d>>\nstream\n%s\nendstream" % (of, len(kept), kept)


def _object(number: int, body: bytes) -> bytes:
    return b"%d 0 obj\n%s\nendobj\n" % (number, body)
