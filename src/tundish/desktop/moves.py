"""What can be moved on a pre-wall, and the sizes that say where it is, each tied to the input that holds it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

from tundish import measure, typed
from tundish.desktop.canvas.spots import Said
from tundish.documents.wall_drawing import frame_key
from tundish.estimate import Job
from tundish.field import Entry, describe, get
from tundish.figure import Figure, Known
from tundish.layout.recesses import Recess
from tundish.layout.room import Backed, Placed, Room


@dataclass(frozen=True, slots=True)
class Size:
    """One size that can be typed: the input holds `start + sign × size`."""

    label: str
    path: str
    shown: float
    start: float = 0.0
    sign: int = 1


@dataclass(frozen=True, slots=True)
class Thing:
    """Something that can be moved: an appliance, a niche, an access opening, a noggin.

    `sizes` in the order D steps through them: the first is moved along the wall, the second up and down. `left` and `right` are its
    edges, and `top_words` what is moved up and down.
    """

    key: str
    name: str
    path: str
    kind: str
    left: float
    right: float
    sizes: tuple[Size, ...]
    top_words: str

    @property
    def along(self) -> Size:
        """Where it is along the wall."""
        return self.sizes[0]

    @property
    def up(self) -> Size:
        """How high it is above the finished floor."""
        return self.sizes[1]

    @property
    def middle(self) -> float:
        """Its middle along the wall."""
        return (self.left + self.right) / 2


def things(room: Room) -> tuple[Thing, ...]:
    """Everything that can be moved, left to right."""
    made = [_appliance(room, placed) for placed in room.placed]
    made += [_recess(room, each) for each in room.recesses]
    made += [_backed(room, each) for each in room.backed]
    return tuple(sorted(made, key=lambda each: each.left))


def thing_of(room: Room, piece: str) -> Thing | None:
    """What a piece of the drawing is or, as a frame, belongs to; None for what follows from others."""
    frames = {frame_key(each): each.key for each in room.placed}
    return next((each for each in things(room) if piece and each.key == frames.get(piece, piece)), None)


def sizes(room: Room, placed: Placed) -> tuple[Size, ...]:
    """The sizes of an appliance in the order D steps through them."""
    return _appliance(room, placed).sizes


def size_of(room: Room, figure: str, at: tuple[float, float], *, finish: bool) -> Size | None:
    """The size that a dimension between two places shows, by the figure it names; None for one that follows from others.

    `finish`: heights are written from the finished floor.
    """
    low, high = at
    placed = next((each for each in room.placed if figure == f"{each.key}.centre"), None)
    shell, floor = f"{room.path}.survey.room", 0.0 if finish else room.finished_floor.value
    if placed is not None:
        centre = f"{placed.path}.centre"
        if abs(placed.centre.value - high) < _SAME:
            return Size(f"{placed.name} {_apart(room, low)}", centre, high - low, low)
        return Size(f"{placed.name} {_apart(room, high)}", centre, high - low, high, -1)
    known = {
        "top_of_prewall": Size("Top of pre-wall", f"{room.prewall_path}.top", high - low, -floor),
        "finished_face": Size("Wall to finished face", f"{room.prewall_path}.depth", high - low, -room.thickness.value),
        "width": Size("Width along wall A", f"{shell}.width", high - low),
        "room_depth": Size("Depth from wall A", f"{shell}.depth", high - low),
    }
    return known.get(figure)


def prewall_sizes(room: Room, *, finish: bool) -> tuple[Size, ...]:
    """The sizes of the pre-wall itself, for when none of its pieces is chosen: its top, and how deep it is.

    `finish`: its top is written from the finished floor.
    """
    zero = room.finished_floor.value if finish else 0.0
    ends = {"top_of_prewall": (zero, room.top.value), "finished_face": (0.0, room.figures["finished_face"].value)}
    found = (size_of(room, figure, at, finish=finish) for figure, at in ends.items())
    return tuple(size for size in found if size is not None)


def taken(job: Job, size: Size, words: str) -> tuple[Entry | None, str]:
    """The input's new value for what was typed as a size, and what is wrong with it."""
    entry, problem = typed.taken(describe(Job, size.path), words, get(job, size.path))
    if problem or not isinstance(entry, Entry):
        return None, problem or "Type a length"
    ends = [None if each is None else size.start + size.sign * each for each in (entry.low, entry.high)]
    low, high = ends if size.sign > 0 else reversed(ends)
    return replace(entry, value=size.start + size.sign * entry.value, low=low, high=high), ""


def moved(job: Job, path: str, value: float) -> Entry:
    """The input at another value; how it is known stays, unless it was only assumed."""
    before, declared = get(job, path), describe(Job, path)
    least, most = declared.least, declared.most
    value = max(value if least is None else max(value, least), -_FAR) if most is None else min(max(value, least or 0.0), most)
    if not isinstance(before, Entry):
        return Entry(value, declared.known)
    known = declared.known if before.known is Known.ASSUMED else before.known
    return replace(before, value=value, known=known, low=None, high=None, typed="", readings=())


def held(job: Job, size: Size) -> float:
    """The value of the input as the job holds it; where it is blank, as it is drawn."""
    entry = get(job, size.path)
    return entry.value if isinstance(entry, Entry) else size.shown


def step_words(thing: Thing, by: float, *, along: bool) -> str:
    """What a move is called in the history: "move WC 1 20 mm", "raise top of pan, WC 1, 10 mm"."""
    far = measure.show_length(abs(by))
    return f"move {thing.name} {far} mm" if along else f"{'raise' if by > 0 else 'lower'} {thing.top_words}, {far} mm"


def place_words(thing: Thing) -> str:
    """Where a thing is and how it moves, for a screen reader."""
    along, up = measure.show_length(thing.along.shown), measure.show_length(thing.up.shown)
    return f"{along} millimetres from left wall, {up} above finished floor. Left and right move it along, up and down change its height."


def figure_of(room: Room, piece: str) -> str:
    """The key of the figure that says where a piece is, or how long; `input:PATH` where that is an input alone."""
    if not piece:
        return ""
    here = {each.key: each.path for each in room.recesses} | {each.key: each.path for each in room.backed}
    if piece in here:
        return f"input:{here[piece]}.from_left"
    for placed in room.placed:
        if piece in {placed.key, frame_key(placed)}:
            return f"{placed.key}.{'centre' if piece == placed.key else 'frame_top'}"
    pipe = next((each for each in room.pipes if each.key == piece), None)
    if pipe is None:
        return piece
    falls = pipe.rise is not None and pipe.kind in {"soil", "waste"}
    return f"{pipe.serves}.fall" if falls else f"{pipe.key}.level" if pipe.level is not None else ""


def said(room: Room, pieces: Iterable[tuple[str, str]]) -> dict[str, Said]:
    """What a screen reader says of pieces beside their names: where what can be moved is, and one figure of any other."""
    movable = {each.key: Said(place_words(each), each.along.shown) for each in things(room)}
    figures = {piece: room.figures.get(figure_of(room, piece)) for piece, _ in pieces}
    fixed = {piece: Said(_amount_words(figure)) for piece, figure in figures.items() if figure is not None}
    return fixed | movable


def _amount_words(figure: Figure) -> str:
    words = f"{figure.label}, {measure.show_amount(figure.value, figure.unit, with_unit=True)}"
    return f"{words}, to be confirmed" if figure.tbc else words


_SAME = 0.5
_FAR = 1e6


def _apart(room: Room, x: float) -> str:
    """From what a dimension is taken: a wall or the centre of a neighbour."""
    near = next((each for each in room.placed if abs(each.centre.value - x) < _SAME), None)
    if near is not None:
        return f"from {near.name}, centre to centre"
    return "from left wall" if x < room.width.value / 2 else "from right wall"


def _appliance(room: Room, placed: Placed) -> Thing:
    x, name, centre = placed.centre.value, placed.name, f"{placed.path}.centre"
    half, height = placed.ware.size("width").value / 2, placed.figures["top"].value - room.finished_floor.value
    words = placed.figures["top"].label
    made = (
        Size(f"{name} from left wall", centre, x),
        Size(f"{name}, top above finished floor", f"{placed.path}.top", height),
        *_gaps(room, placed),
        Size(f"{name} from right wall", centre, room.width.value - x, room.width.value, -1),
    )
    return Thing(placed.key, name, placed.path, placed.kind, x - half, x + half, made, words[:1].lower() + words[1:])


def _recess(room: Room, each: Recess) -> Thing:
    name, path, width = each.name, each.path, each.width.value
    left, bottom = each.left.value, each.bottom.value - room.finished_floor.value
    more = [("width", each.width), ("height", each.height), ("depth", each.depth)] if each.kind == "niche" else []
    made = (
        Size(f"{name}, left edge from left wall", f"{path}.from_left", left),
        Size(f"{name}, bottom above finished floor", f"{path}.bottom", bottom),
        Size(f"{name}, right edge from right wall", f"{path}.from_left", room.width.value - left - width, room.width.value - width, -1),
        *(Size(f"{name}, {what}", f"{path}.{what}", figure.value) for what, figure in more if figure is not None),
    )
    return Thing(each.key, name, path, each.kind, left, left + width, made, f"bottom of {name}")


def _backed(room: Room, each: Backed) -> Thing:
    name, path, reach, left = each.name, each.path, each.reach.value, each.left.value
    made = (
        Size(f"{name}, left end from left wall", f"{path}.from_left", left),
        Size(f"{name}, middle above finished floor", f"{path}.level", each.level.value - room.finished_floor.value),
        Size(f"{name}, right end from right wall", f"{path}.from_left", room.width.value - left - reach, room.width.value - reach, -1),
        Size(f"{name}, length", f"{path}.reach", reach),
    )
    return Thing(each.key, name, path, "noggin", left, left + reach, made, f"middle of {name}")


def _gaps(room: Room, placed: Placed) -> Iterator[Size]:
    centre, half = f"{placed.path}.centre", placed.ware.size("width").value / 2
    for left, right in pairwise(room.placed):
        if placed is right:
            edge = left.centre.value + left.ware.size("width").value / 2
            yield Size(f"{placed.name}, gap to {left.name}", centre, placed.centre.value - half - edge, edge + half, 1)
        elif placed is left:
            edge = right.centre.value - right.ware.size("width").value / 2
            yield Size(f"{placed.name}, gap to {right.name}", centre, edge - placed.centre.value - half, edge - half, -1)
