"""What a rule is, and what it may say: needs, findings, cautions, and decisions to settle before the wall is closed."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Literal

from tundish.figure import Figure, rests_on
from tundish.layout.room import Room
from tundish.layout.tiles import Hole
from tundish.layout.walls import Point
from tundish.record import record

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
Verdict = Literal["always", "depends", "never", "cannot tell"]
"""Over everything that its figures may still turn out to be, a check passes always, never, or that depends."""
Reads = Literal["room", "needs", "list"]
SetBy = Literal["Regulation", "Guidance", "Maker", "Own rule"]
LABOUR = "labour"
"""The role under which hours are asked for."""


@dataclass(frozen=True, slots=True)
class Cut:
    """One piece to be cut: its mark, finished length (and width, for a sheet), what it is and where it goes.

    `mitres` of its ends, for a bar, are cut at 45 degrees; the length is then over the long points. `slants`, for a sheet: the lines
    that the rectangle is then sawn along aslant, length and width from its corner, and `holes` through it, as it hangs.
    """

    mark: str
    length: Figure
    what: str
    where: str = ""
    width: Figure | None = None
    turn: bool = True
    mitres: int = 0
    slants: tuple[tuple[Point, Point], ...] = ()
    holes: tuple[Hole, ...] = ()

    @property
    def tbc(self) -> bool:
        """Whether either of its sizes is still to be confirmed."""
        return self.length.tbc or (self.width is not None and self.width.tbc)


@record
class Need:
    """So much of something, and why. Either `role` (filled from the book) or `item` (a code) names it.

    `cuts`: the pieces, for what is cut from bars or sheets; the amount is then their total length, or the sheets' area.
    `own`: the client supplies it, so it is listed and not priced. `work`, of hours: the part of the stage that they are for, where
    another may do it than the rest; empty: the stage.
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
    work: str = ""


@dataclass(frozen=True, slots=True)
class WayOut:
    """One change that would mend a finding: words with the side effects, and the input to set, to a number or to words.

    `adds`: instead of that, so much of each item is put on the list by hand, `value` being the reason.
    """

    words: str
    path: str
    value: float | str
    adds: tuple[tuple[str, float], ...] = ()


@dataclass(frozen=True, slots=True)
class Weighed:
    """What holds of a check over all that may still be chosen, and the open inputs and choices that its verdict turns on."""

    verdict: Verdict
    turns_on: tuple[Figure, ...] = ()


@record
class Finding:
    """A check: what there is, what is needed (at least, at most), and what follows from it.

    `message` says what to do where it does not pass. The state given holds for the value; `tbc` comes from the figure. `weighed`: where
    choices are open, what the check made with each of them comes to, which the ranges of its figures alone cannot tell. `spot`: the
    middle of what there is, in plan of the room, where that is drawn.
    """

    title: str
    group: Literal["Falls", "Joints", "Void", "Clearances", "Loads and tiles", "Water", "Noise"]
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
    weighed: Weighed | None = None
    spot: tuple[float, float] | None = None

    @property
    def tbc(self) -> bool:
        """Whether it rests on figures that are not confirmed, or turns on a choice."""
        return any(each.tbc for each in self.figures) or self.verdict == "depends"

    @property
    def figures(self) -> tuple[Figure, ...]:
        """What there is and what is needed, as far as there are any."""
        return tuple(each for each in (self.has, self.least, self.most) if each is not None)

    @property
    def verdict(self) -> Verdict:
        """What holds of it over everything its figures may still turn out to be; an open input without a range may be anything."""
        if self.weighed is not None:
            return self.weighed.verdict
        if self.has is None or self.state == "cannot tell":
            return "cannot tell"
        if all(each.settled for each in self.figures):
            return "always" if self.state == "passes" else "never"
        if len(self.figures) == 1 or self._unbounded:
            return "depends"
        return _over_the_range(self.has, self.least, self.most)

    @property
    def open_inputs(self) -> tuple[Figure, ...]:
        """The inputs still to be settled that it rests on."""
        return rests_on(*self.figures, only_open=True)

    @property
    def verdict_words(self) -> str:
        """The verdict as it is read: passes whatever is decided; depends on: Tile thickness; nothing where nothing is open."""
        verdict = self.verdict
        if verdict == "depends":
            names = ", ".join(dict.fromkeys(each.label for each in self.depends_on))
            return f"depends on: {names}" if names else "depends on what is still open"
        return f"{_WORDS[self.state]} whatever is decided" if verdict != "cannot tell" and self.open_inputs else ""

    @property
    def depends_on(self) -> tuple[Figure, ...]:
        """The open inputs that its verdict turns on: where it holds over all ranges, those alone that have none."""
        if self.weighed is not None:
            return self.weighed.turns_on
        if self.verdict != "depends" or self.has is None:
            return ()
        over = len(self.figures) > 1 and _over_the_range(self.has, self.least, self.most) != "depends"
        return (over and self._unbounded) or self.open_inputs

    @property
    def _unbounded(self) -> tuple[Figure, ...]:
        return tuple(each for each in self.open_inputs if each.low == each.high)

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
class Proof:
    """What the readings of a test must be: the least it starts at, the most it may lose, and for how many minutes at least it is held."""

    least: Figure
    loss: Figure
    minutes: Figure


@dataclass(frozen=True, slots=True)
class Decision:
    """Something to settle while the wall is open. `rests_on` is what it is settled for: a change of it opens it again.

    `place`: the room, or the pre-wall of it, that it is settled for. `proof`: what the readings must be, where it is settled by a test.
    """

    key: str
    title: str
    why: str
    by: Literal["By first fix", "By boarding"]
    shown_by: str
    rests_on: str
    paths: tuple[str, ...] = ()
    rule: str = ""
    place: str = ""
    proof: Proof | None = None

    def titled(self, *, several: bool) -> str:
        """Its title, with its place where there are several and it is of one."""
        return f"{self.title}, {self.place}" if several and self.place else self.title


Said = Need | Finding | Caution | Decision


@dataclass(frozen=True, slots=True)
class Rule:
    """A rule of the book. `reads` tells which pass it runs in: the room, what the first pass asked for, or all that is on the list.

    `whole`: it speaks of the whole room, and so once however many pre-walls the room has. `prints`: the papers that have its
    cautions beside the setting-out sheet, which has all of its wall.
    """

    key: str
    family: str
    sentence: str
    more: str
    source: str
    figures: tuple[str, ...]
    reads: Reads
    says: Callable[..., Iterable[Said]]
    whole: bool = False
    prints: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Asked:
    """What later passes read: the room, and the needs of the first pass, or all that is on the list."""

    room: Room
    needs: tuple[Need, ...]


def rule(
    key: str, *, source: str, figures: tuple[str, ...] = (), reads: Reads = "room", whole: bool = False, prints: tuple[str, ...] = ()
) -> Callable[[Callable[..., Iterable[Said]]], Rule]:
    """Make a rule of a function `(room or asked, book) -> needs, findings, cautions, decisions`.

    The first line of its docstring is the sentence the user reads; the rest is for the reference page.
    """

    def made(says: Callable[..., Iterable[Said]]) -> Rule:
        words = (says.__doc__ or "").strip().split("\n", 1)
        more = words[1].strip() if len(words) > 1 else ""
        return Rule(key, key.partition("/")[0], words[0].strip(), more, source, figures, reads, says, whole, prints)

    return made


def judge(has: Figure, least: Figure | None, most: Figure | None, else_: State = "fails") -> State:
    """Whether a figure's value lies within its limits; `else_` when it does not."""
    low = least is None or has.value >= least.value - _GRACE
    high = most is None or has.value <= most.value + _GRACE
    return "passes" if low and high else else_


def _over_the_range(has: Figure, least: Figure | None, most: Figure | None) -> Verdict:
    sure = (least is None or has.low >= least.high - _GRACE) and (most is None or has.high <= most.low + _GRACE)
    if sure:
        return "always"
    never = (least is not None and has.high < least.low - _GRACE) or (most is not None and has.low > most.high + _GRACE)
    return "never" if never else "depends"


_GRACE = 1e-6
_WORDS = {"passes": "passes", "look": "to look at", "fails": "fails", "cannot tell": ""}
