"""What a rule is, and what it may say: needs, findings, cautions, and decisions to settle before the wall is closed."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Literal

from tundish.figure import Figure
from tundish.layout.room import Room

Stage = Literal["strip out", "first fix", "frames", "boarding", "second fix", "making good"]
STAGES: tuple[Stage, ...] = ("strip out", "first fix", "frames", "boarding", "second fix", "making good")
STAGE_NAMES = {
    "strip out": "Strip out and make safe",
    "first fix": "First fix",
    "frames": "Frames and pre-wall",
    "boarding": "Boarding and tiling",
    "second fix": "Sanitaryware and second fix",
    "making good": "Making good and clear away",
}
State = Literal["passes", "look", "fails", "cannot tell"]
SetBy = Literal["Regulation", "Guidance", "Maker", "Own rule"]
LABOUR = "labour"
"""The role under which hours are asked for."""


@dataclass(frozen=True, slots=True)
class Cut:
    """One piece to be cut: its mark, finished length (and width, for a sheet), what it is and where it goes."""

    mark: str
    length: Figure
    what: str
    where: str = ""
    width: Figure | None = None
    turn: bool = True


@dataclass(frozen=True, slots=True)
class Need:
    """So much of something, and why. Either `role` (filled from the book) or `item` (a code) names it.

    `cuts`: the pieces, for what is cut from bars or sheets; the amount is then their total length, or the sheets' area.
    `own`: the client supplies it, so it is listed and not priced.
    """

    amount: Figure
    stage: Stage
    why: str
    role: str = ""
    item: str = ""
    place: str = ""
    cuts: tuple[Cut, ...] = ()
    own: bool = False
    rule: str = ""


@dataclass(frozen=True, slots=True)
class WayOut:
    """One change that would mend a finding: words with the side effects, and the input to set."""

    words: str
    path: str
    value: float


@dataclass(frozen=True, slots=True)
class Finding:
    """A check: what there is, what is needed (at least, at most), and what follows from it.

    `message` says what to do where it does not pass. The state given holds for the value; `tbc` comes from the figure.
    """

    title: str
    group: Literal["Falls", "Void", "Clearances", "Loads and tiles", "Water"]
    state: State
    has: Figure | None
    set_by: SetBy
    source: str
    least: Figure | None = None
    most: Figure | None = None
    message: str = ""
    place: str = ""
    ways_out: tuple[WayOut, ...] = ()
    rule: str = ""

    @property
    def tbc(self) -> bool:
        """Whether it rests on figures that are not confirmed."""
        return any(each.tbc for each in (self.has, self.least, self.most) if each is not None)

    @property
    def spare(self) -> float | None:
        """Room to spare, in the figure's own unit: below zero is the shortfall."""
        if self.has is None:
            return None
        room = [self.has.value - self.least.value] if self.least else []
        room += [self.most.value - self.has.value] if self.most else []
        return round(min(room), 6) if room else None


@dataclass(frozen=True, slots=True)
class Caution:
    """A warning for where the work can hurt someone; it defers to local codes, makers and licensed practice."""

    title: str
    words: str
    place: str = ""
    rule: str = ""


@dataclass(frozen=True, slots=True)
class Decision:
    """Something to settle while the wall is open. `rests_on` is what it is settled for: a change of it opens it again."""

    key: str
    title: str
    why: str
    by: Literal["By first fix", "By boarding"]
    shown_by: str
    rests_on: str
    paths: tuple[str, ...] = ()
    rule: str = ""


Said = Need | Finding | Caution | Decision


@dataclass(frozen=True, slots=True)
class Rule:
    """A rule of the book. `reads` tells which pass it runs in: the room, or what the first pass asked for."""

    key: str
    family: str
    sentence: str
    more: str
    source: str
    figures: tuple[str, ...]
    reads: Literal["room", "needs"]
    says: Callable[..., Iterable[Said]]


@dataclass(frozen=True, slots=True)
class Asked:
    """What the second pass reads: the room, and the needs of the first pass."""

    room: Room
    needs: tuple[Need, ...]


def rule(
    key: str, *, source: str, figures: tuple[str, ...] = (), reads: Literal["room", "needs"] = "room"
) -> Callable[[Callable[..., Iterable[Said]]], Rule]:
    """Make a rule of a function `(room or asked, book) -> needs, findings, cautions, decisions`.

    The first line of its docstring is the sentence the user reads; the rest is for the reference page.
    """

    def made(says: Callable[..., Iterable[Said]]) -> Rule:
        words = (says.__doc__ or "").strip().split("\n", 1)
        more = words[1].strip() if len(words) > 1 else ""
        return Rule(key, key.partition("/")[0], words[0].strip(), more, source, figures, reads, says)

    return made


def judge(has: Figure, least: Figure | None, most: Figure | None, else_: State = "fails") -> State:
    """Whether a figure's value lies within its limits; `else_` when it does not."""
    low = least is None or has.value >= least.value - _GRACE
    high = most is None or has.value <= most.value + _GRACE
    return "passes" if low and high else else_


_GRACE = 1e-6
