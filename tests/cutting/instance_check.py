"""Whether a plan given as plain data cuts a list given as plain data: it knows the two formats and nothing of the program."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from typing import Any

NEAR = 1e-3
Box = tuple[float, float, float, float]


def faults(asked: Mapping[str, Any], answer: Mapping[str, Any]) -> list[str]:
    """Everything that is wrong with the answer; nothing where it can be sawn and costs what it says."""
    found = list(_counts(asked, answer))
    cost = sum(asked["stock"][row["stock"]]["cost"] for row in answer["plan"])
    if cost != answer["cost"]:
        found.append(f"costs {cost}, not {answer['cost']}")
    if answer["bound"] > cost or (answer["proven"] and answer["bound"] != cost):
        found.append(f"bound {answer['bound']} and proven {answer['proven']} do not go with {cost}")
    check = _bar if asked["kind"] == "1d" else _sheet
    for number, row in enumerate(answer["plan"]):
        found += [f"{number}: {fault}" for fault in check(asked, row)]
    return found


def _counts(asked: Mapping[str, Any], answer: Mapping[str, Any]) -> Iterator[str]:
    cut = Counter(piece for row in answer["plan"] for piece in (row["cuts"] if "cuts" in row else [place[0] for place in row["places"]]))
    wanted = Counter({index: piece["qty"] for index, piece in enumerate(asked["pieces"])})
    if cut != +wanted:
        yield f"pieces asked for and cut differ by {(wanted - cut) + (cut - wanted)}"
    for kind, count in Counter(row["stock"] for row in answer["plan"]).items():
        most = asked["stock"][kind]["qty"]
        if most is not None and count > most:
            yield f"stock {kind} is taken {count} times of {most}"


def _bar(asked: Mapping[str, Any], row: Mapping[str, Any]) -> Iterator[str]:
    lengths = [asked["pieces"][piece]["length"] for piece in row["cuts"]]
    used = sum(lengths) + (len(lengths) - 1) * asked["kerf"]
    if not lengths or used > asked["stock"][row["stock"]]["length"] + NEAR:
        yield f"{used} of {asked['stock'][row['stock']]['length']}"


def _sheet(asked: Mapping[str, Any], row: Mapping[str, Any]) -> Iterator[str]:
    stock, trim = asked["stock"][row["stock"]], asked["trim"]
    boxes: list[Box] = []
    for piece, x, y, w, h in row["places"]:
        size = (asked["pieces"][piece]["w"], asked["pieces"][piece]["h"])
        if not any(math.isclose(w, a, abs_tol=NEAR) and math.isclose(h, b, abs_tol=NEAR) for a, b in _ways(size, turn=asked["rotate"])):
            yield f"piece {piece} is {size} and lies as {w} x {h}"
        if min(x, y) < trim - NEAR or x + w > stock["w"] - trim + NEAR or y + h > stock["h"] - trim + NEAR:
            yield f"piece {piece} is outside"
        boxes.append((x, y, x + w, y + h))
    if not boxes or not _sawn(boxes, asked["kerf"]):
        yield "no cuts from edge to edge part the pieces"


def _ways(size: tuple[float, float], *, turn: bool) -> tuple[tuple[float, float], ...]:
    return (size, size[::-1]) if turn else (size,)


def _sawn(boxes: Sequence[Box], kerf: float) -> bool:
    if len(boxes) == 1:
        return True
    for axis in (0, 1):
        row = sorted(boxes, key=lambda box: box[axis])
        ends = [row[0][axis + 2]]
        for box in row[1:]:
            ends.append(max(ends[-1], box[axis + 2]))
        breaks = [place + 1 for place, (one, box) in enumerate(zip(ends[:-1], row[1:], strict=True)) if box[axis] >= one + kerf - NEAR]
        if breaks:
            return all(_sawn(row[start:stop], kerf) for start, stop in pairwise([0, *breaks, len(row)]))
    return False
