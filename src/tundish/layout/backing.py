"""What carries the frames behind and beneath: wall struts over the studs of the wall, and noggins between the joists."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from tundish.catalogue.book import Book
from tundish.figure import Figure, number
from tundish.layout.design import NOGGINS, SELF_STANDING
from tundish.layout.inputs import Inputs
from tundish.layout.makers import size
from tundish.layout.outline import TIMBER, Outline
from tundish.layout.rails import longest_bar
from tundish.layout.room import Member, Placed
from tundish.survey.floor import ON_JOISTS
from tundish.survey.wall import STUDS_OF_TIMBER, Wall


@dataclass(frozen=True, slots=True)
class WallStuds:
    """The studs of the wall: `places` are their centres from the left wall, one at each corner of the room among them."""

    first: Figure
    apart: Figure
    width: Figure
    places: tuple[float, ...]


def wall_studs(outline: Outline, inputs: Inputs) -> WallStuds | None:
    """The studs of the wall, or None where it is solid."""
    if not outline.on_wall_studs or outline.standing.corner is not None:
        return None
    return studs_of((outline.standing.wall, outline.standing.wall_at), outline.width, inputs)


def studs_of(found: tuple[Wall, str], width: Figure, inputs: Inputs) -> WallStuds:
    """The studs of a wall so wide; `found`: what it was found to be, and where that is put in."""
    wall, at = found
    apart, first = inputs.sure(wall, "stud_centres", at), inputs.sure(wall, "first_stud", at)
    count = max(0, int((width.value - first.value) // apart.value) + 1)
    between = [first.value + place * apart.value for place in range(count)]
    return WallStuds(first, apart, width, (0.0, *(each for each in between if 0 < each < width.value), width.value))


def wall_struts(outline: Outline, placed: Sequence[Placed], studs: WallStuds | None, book: Book) -> Iterator[Member]:
    """A strut behind the brackets of each frame, from wall stud to wall stud; those that would overlap at one height are one.

    It is cut clear of the side walls, and ends behind the pre-wall where its outer stud does; on a noggin, where these are chosen.
    """
    if studs is None or outline.standing.prewall.built_of == SELF_STANDING:
        return
    face, depth = outline.strut.sizes["face"][0], outline.strut.sizes["depth"][0]
    over, longest = book.figure("prewall.strut_overhang"), longest_bar(outline.strut, book)
    hides = _hides(outline, studs, book.figure("prewall.end_gap"))
    for count, strut in enumerate(_joined(placed, studs, longest - 2 * over.value), 1):
        x, length = _behind(studs, (strut.left, strut.right), over, hides)
        names = ", ".join(each.name for each in strut.held)
        z = strut.held[0].figures["bracket"].value - face / 2
        where = f"on the wall, behind {names}"
        made = Member(f"S{count}", "wall strut", "strut", length.named(f"Wall strut, {names}"), "x", x, 0.0, z, (face, depth), where)
        under = tuple(place - x for place in studs.places[strut.left : strut.right + 1])
        bears = tuple(min(max(each, 0.0), length.value) for each in under)
        yield replace(made, bears=bears, beside=() if bears == under else under, pulled=tuple(_pulls(made, strut.held)))


def crossed(studs: WallStuds, x: float, length: Figure) -> Iterator[float]:
    """The wall studs that a strut crosses, from its left end."""
    return (place - x for place in studs.places if x <= place <= x + length.value)


def ends(studs: WallStuds, one: float, other: float) -> tuple[int, int]:
    """The wall studs left of one bracket and right of the other, by their places."""
    places = studs.places
    left = min(max(0, bisect_right(places, one) - 1), len(places) - 2)
    return left, min(max(left + 1, bisect_left(places, other)), len(places) - 1)


def reaching(studs: WallStuds, between: tuple[int, int], over: Figure) -> tuple[float, Figure]:
    """Left end and length of a strut that reaches from one wall stud to another and a little past both, cut back to the room."""
    places, (left, right) = studs.places, between
    start, end = places[left] - over.value, places[right] + over.value
    if start > 0 and end < studs.width.value:
        return start, _bays(studs, right - left) + over + over
    first, last = _past(studs, between, over)
    return first.value, last - first


def _pulls(strut: Member, held: Sequence[Placed]) -> Iterator[tuple[str, float]]:
    """Both brackets of each frame that lies on the strut whole."""
    for each in held:
        at = [each.figures[f"bracket_{side}"].value - strut.x for side in ("left", "right")]
        if at[0] >= 0 and at[1] <= strut.length.value:
            yield from ((each.key, place) for place in at)


def floor_noggins(outline: Outline, placed: Sequence[Placed], inputs: Inputs, book: Book) -> Iterator[Member]:
    """A noggin under each foot of each frame, where the floor lies on joists."""
    floor = outline.plan.survey.floor
    if floor.kind not in ON_JOISTS or not placed:
        return
    length = (inputs.sure(floor, "joist_centres", "survey.floor") - book.figure("prewall.joist_width")).named("Floor noggin")
    item = book.role("floor noggin")
    across, up = size(item, "face", "Thickness of noggin").value, size(item, "depth", "Depth of noggin").value
    into_wall = floor.joists_run == "into the wall"
    count = 0
    for each in placed:
        for foot, x in enumerate(_feet(each), 1):
            count += 1
            y = outline.depth.value - each.frame.sizes["depth"][0] / 2
            where = f"under foot {foot} of {each.name}"
            if into_wall:
                place = (x - length.value / 2, y - across / 2)
                yield Member(f"K{count}", "floor noggin", "floor noggin", length, "x", *place, -up, (up, across), where)
            else:
                place = (x - across / 2, y - length.value / 2)
                yield Member(f"K{count}", "floor noggin", "floor noggin", length, "y", *place, -up, (across, up), where)


def rail_noggins(outline: Outline, placed: Sequence[Placed], supports: Sequence[Figure], book: Book) -> Iterator[Member]:
    """A noggin behind every place where a drop-down rail or a back rest is fixed, in the bay between two supports that holds it."""
    seen: set[tuple[float, float]] = set()
    for each in placed:
        for what, x, z in rail_places(each, book):
            bay = next((bay for bay in pairwise(supports) if bay[0].value <= x <= bay[1].value), None)
            made = noggin_in(outline, bay, z, what, book) if bay is not None and (bay[0].value, z) not in seen else None
            if bay is not None and made is not None:
                seen.add((bay[0].value, z))
                yield replace(made, mark=f"G{len(seen)}", where=f"behind the {what}")


def noggin_in(outline: Outline, bay: tuple[Figure, Figure], z: float, what: str, book: Book) -> Member | None:
    """A noggin, without its mark and place, between two supports with its middle at a height; None where there is no room for one."""
    item = book.role(TIMBER) if outline.timber else outline.strut
    (left, right), face = bay, size(item, "face", "Face of noggin")
    if right.value - left.value <= face.value:
        return None
    role, section = TIMBER if outline.timber else "strut", (item.sizes["face"][0], item.sizes["depth"][0])
    length, y = (right - left - face).named(f"Noggin, {what}"), outline.depth.value - section[1]
    return Member("", "rail noggin", role, length, "x", left.value + face.value / 2, y, z - section[0] / 2, section, "")


def rail_places(placed: Placed, book: Book) -> Iterator[tuple[str, float, float]]:
    """What of its rails is fixed to the pre-wall, and where: along the wall and up it."""
    figures, rest = placed.figures, placed.choice.back_rest
    if "drop_rail" in figures:
        yield f"drop-down rail of {placed.name}", figures["drop_rail_from_left"].value, figures["drop_rail"].value
    if "back_rest" in figures:
        out = book.item(rest).sizes["spacing"][0] / 2
        for side in (-1, 1):
            yield f"back rest of {placed.name}", placed.centre.value + side * out, figures["back_rest"].value


@dataclass(frozen=True, slots=True)
class _Hides:
    """From where to where along its wall a pre-wall hides a strut, and how much further the outer studs may be: at a side wall.

    `on_noggin`: whether a strut whose outer stud lies beyond ends here, on a noggin.
    """

    left: Figure
    right: Figure
    beyond: tuple[float, float]
    on_noggin: bool


def _hides(outline: Outline, studs: WallStuds, ease: Figure) -> _Hides:
    run, wall = outline.run, outline.standing.wall
    left = ease if run.at_wall[0] else run.start + ease
    right = (studs.width if run.at_wall[1] else run.end) - ease
    beyond = ease.value * run.at_wall[0], ease.value * run.at_wall[1]
    on_noggin = outline.standing.prewall.backing == NOGGINS and wall.construction in STUDS_OF_TIMBER
    return _Hides(left.named("Left-hand end of strut"), right.named("Right-hand end of strut"), beyond, on_noggin)


def _behind(studs: WallStuds, between: tuple[int, int], over: Figure, hides: _Hides) -> tuple[float, Figure]:
    """Left end and length of a strut, cut back to where its pre-wall hides it."""
    first, last = _past(studs, between, over)
    left, right = (studs.places[place] for place in between)
    cut_left = first.value < hides.left.value and (hides.on_noggin or left >= hides.left.value - hides.beyond[0])
    cut_right = last.value > hides.right.value and (hides.on_noggin or right <= hides.right.value + hides.beyond[1])
    if not cut_left and not cut_right:
        return reaching(studs, between, over)
    first, last = hides.left if cut_left else first, hides.right if cut_right else last
    return first.value, last - first


def _past(studs: WallStuds, between: tuple[int, int], over: Figure) -> tuple[Figure, Figure]:
    """Where a strut ends past its outer studs, or at the corners of the room."""
    start, end = studs.places[between[0]] - over.value, studs.places[between[1]] + over.value
    first = (_stud(studs, between[0]) - over).named("Left end of strut") if start > 0 else number(0, label="Left-hand corner")
    return first, _stud(studs, between[1]) + over if end < studs.width.value else studs.width


@dataclass(frozen=True, slots=True)
class _Strut:
    """The frames that one strut holds, and the wall studs at its ends by their places."""

    held: tuple[Placed, ...]
    left: int
    right: int


def _joined(placed: Sequence[Placed], studs: WallStuds, longest: float) -> list[_Strut]:
    """Left to right; one reaches on over the next as long as they meet at the same height and a bar is long enough."""
    made: list[_Strut] = []
    for each in placed:
        left, right = ends(studs, each.figures["bracket_left"].value, each.figures["bracket_right"].value)
        at = next((place for place, one in enumerate(made) if left <= one.right and _level(one.held[0], each)), None)
        if at is not None and studs.places[max(right, made[at].right)] - studs.places[made[at].left] <= longest:
            one = made[at]
            made[at] = _Strut((*one.held, each), min(left, one.left), max(right, one.right))
        else:
            made.append(_Strut((each,), left, right))
    return made


def _level(one: Placed, other: Placed) -> bool:
    return abs(one.figures["bracket"].value - other.figures["bracket"].value) < 1


def _stud(studs: WallStuds, place: int) -> Figure:
    """The centre of one of the wall studs between the corners."""
    along = round((studs.places[place] - studs.first.value) / studs.apart.value)
    return studs.first + _bays(studs, along) if along else studs.first


def _bays(studs: WallStuds, count: int) -> Figure:
    return (studs.apart * number(count, "", "Bays between wall studs")).named(f"Wall studs apart, {count} times")


def _feet(placed: Placed) -> list[float]:
    """Where the feet stand: under the legs, and evenly between where there are more."""
    count = int(placed.frame.sizes["feet"][0])
    out = placed.frame.sizes["width"][0] / 2 - placed.frame.sizes["leg"][0] / 2
    if count < 2:  # noqa: PLR2004 - a single foot stands under the middle
        return [placed.centre.value] * count
    return [placed.centre.value - out + 2 * out * place / (count - 1) for place in range(count)]
