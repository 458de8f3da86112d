"""Records that are made by the thousand at every edit: figures and their terms, and what rules say."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeVar, dataclass_transform

Kind = TypeVar("Kind")


@dataclass_transform(frozen_default=True)
def record(kind: type[Kind]) -> type[Kind]:
    """A frozen dataclass with slots, as the type checker sees it, which is what keeps it frozen.

    Guarded at run time as well, as all other records are, each takes four times as long to make: a call for every field.
    """
    return dataclass(slots=True, unsafe_hash=True)(kind)
