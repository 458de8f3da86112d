"""Hanging the appliances on the pre-wall: their items found, their figures worked, their tie rods chosen."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

from tundish import measure
from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.field import put
from tundish.figure import Figure, Known
from tundish.layout import settings
from tundish.layout.appliances.kind import LEVELS, Hung, Kind, figures_of, set_on
from tundish.layout.appliances.kinds import KINDS
from tundish.layout.bracket_turns import turned
from tundish.layout.design import BY_RULE, PREWALLS, SELF_STANDING, Appliance
from tundish.layout.inputs import Inputs
from tundish.layout.makers import size
from tundish.layout.outline import Outline
from tundish.layout.people import suggested
from tundish.layout.room import Placed


@dataclass(frozen=True, slots=True)
class _Site:
    outline: Outline
    book: Book
    inputs: Inputs
    tie_rods: tuple[Item, ...]


def place(outline: Outline, book: Book, inputs: Inputs) -> tuple[Placed, ...]:
    """Every appliance of this pre-wall that can be hung, left to right; the others are left out and told."""
    site = _Site(outline, book, inputs, book.of_kind("tie rod"))
    keys: set[str] = set()
    seen: Counter[str] = Counter()
    placed = []
    for number, choice in enumerate(outline.plan.design.appliances):
        where = f"design.appliances.{number}"
        kind = KINDS.get(choice.kind)
        if kind is None:
            inputs.tell(f"{where}.kind", f"'{choice.kind}' is not a kind of appliance: choose {', '.join(KINDS)}")
            continue
        seen[kind.key] += 1
        name = choice.name.strip() or f"{kind.title} {seen[kind.key]}"
        key = _slug(name) or f"{_slug(kind.key)}-{seen[kind.key]}"
        if key in keys:
            inputs.tell(f"{where}.name", f"Another appliance is called {name}: give each a name of its own")
            key = next(other for count in range(2, len(keys) + 3) if (other := f"{key}-{count}") not in keys)
        keys.add(key)
        if _on(name, choice, where, site) != outline.standing.place:
            continue
        found = _items(kind, choice, where, site)
        if found is not None and (centre := _centre(name, where, choice, found[1], site)) is not None:
            placed.append(Placed(key, f"{inputs.path}.{where}", choice, name, kind.as_kind, *found, centre, {}, None))
    in_order = sorted(placed, key=lambda each: each.centre.value)
    return turned(in_order, outline, book, lambda one: _hung(KINDS[one.choice.kind], one, site))


def _on(name: str, choice: Appliance, where: str, site: _Site) -> int:
    """Which pre-wall it stands on: the first where there is no such pre-wall."""
    place = PREWALLS.index(choice.on) if choice.on in PREWALLS else 0
    if place <= len(site.outline.plan.design.further):
        return place
    site.inputs.tell(f"{where}.on", f"{name}: there is no pre-wall {choice.on}; it is put on the first")
    return 0


def _hung(kind: Kind, found: Placed, site: _Site) -> Placed:
    where, inputs = found.path.removeprefix(f"{site.inputs.path}."), site.inputs
    choice, seat = _extras(kind, found.choice, where, site)
    packing = None
    if choice.packers is not None:
        packing = settings.own(inputs.sure(choice, "packers", where), choice)
    wanted = _wanted(kind, choice, where, (site, seat))
    hung = Hung(
        found.name, found.ware, found.frame, seat, found.centre, wanted, site.outline, site.book, choice,
        inputs.sure(choice, "head", where), packing,
        lambda name, figure: inputs.settled(f"{found.key}.{name}", figure), found.bracket_why, dict(_levels(kind, found, where, site)),
    )  # fmt: skip
    if choice.pads == BY_RULE and not kind.on_bar:
        hung = replace(hung, choice=replace(choice, pads=set_on(hung)))
    figures = figures_of(kind, hung)
    made = replace(found, choice=hung.choice, figures=figures)
    if kind.on_bar:
        return made
    rod = _rod(made, where, site)
    if rod is not None:
        left = size(rod, "reach_most", "Tie rod reaches at most") - max(made.reaches, key=lambda each: each.value)
        left = settings.own(left, choice) if choice.tie_rod == rod.code else left
        figures["thread_left"] = inputs.settled(f"{found.key}.thread_left", left.named(f"Thread left in the nut, {found.name}"))
    return replace(made, tie_rod=rod)


def _levels(kind: Kind, found: Placed, where: str, site: _Site) -> Iterator[tuple[str, Figure]]:
    """The heights that were chosen for its pipes; those of pipes that it has not are left out."""
    for end, (given, made) in LEVELS.items():
        figure = site.inputs.number(found.choice, given, where) if end in kind.ends else None
        if figure is not None:
            yield made, figure.named(f"{_LEVEL_WORDS[end]}, {found.name}")


_LEVEL_WORDS: Final = {"hot": "Hot along the wall", "cold": "Cold along the wall", "waste": "Waste enters the stack"}


def _rod(one: Placed, where: str, site: _Site) -> Item | None:
    """The tie rod of the trader's own choice where it can be used, else the one by rule."""
    if site.outline.standing.prewall.built_of == SELF_STANDING:
        return None
    if one.choice.tie_rod:
        found = site.inputs.item(site.book, one.choice.tie_rod, ("tie rod",), f"{where}.tie_rod")
        if found is not None and site.inputs.complete(found, ("reach_least", "reach_most"), f"{where}.tie_rod"):
            return found
    kit = {part.item for part in site.book.in_kit(one.frame.code)}
    return settings.tie_rod(one.reaches, site.tie_rods, kit)


def _items(kind: Kind, choice: Appliance, where: str, site: _Site) -> tuple[Item, Item] | None:
    ware = site.inputs.item(site.book, choice.ware, (kind.ware,), f"{where}.ware")
    frame = site.inputs.item(site.book, choice.frame, (kind.frame,), f"{where}.frame")
    if ware is None or frame is None:
        return None
    known = (
        site.inputs.complete(ware, kind.all_ware_sizes, f"{where}.ware"),
        site.inputs.complete(frame, kind.all_frame_sizes, f"{where}.frame"),
    )
    return (ware, frame) if all(known) else None


def _centre(name: str, where: str, choice: Appliance, frame: Item, site: _Site) -> Figure | None:
    """Where it stands, or None, told, where there is no pre-wall to carry it."""
    run = site.outline.run
    centre = (_in_corner(choice, where, site) or site.inputs.sure(choice, "centre", where)).named(f"{name} from left wall")
    wide, left, right = frame.sizes["width"][0], run.start.value, run.end.value
    in_join = site.outline.standing.corner is not None and any(run.joined)  # what is told of it there is a check, with a way out
    if wide > run.length.value and not in_join:
        shown = measure.show_length(wide), measure.show_length(run.length.value)
        site.inputs.tell(f"{where}.frame", f"{name}: its frame is {shown[0]} wide, the pre-wall {shown[1]}; it is left out")
        return None
    if not left <= centre.value <= right:
        shown = measure.show_length(centre.value), f"{measure.show_length(left)} to {measure.show_length(right)}"
        site.inputs.tell(f"{where}.centre", f"{name}: its centre at {shown[0]} is not on the pre-wall, {shown[1]}; it is left out")
        return None
    least, most = left + wide / 2, right - wide / 2
    if not least <= centre.value <= most and not in_join:
        shown = measure.show_length(least), measure.show_length(most)
        site.inputs.tell(
            f"{where}.centre", f"{name}: its frame stands past the end of the pre-wall; set its centre from {shown[0]} to {shown[1]}"
        )
    return centre


def _in_corner(choice: Appliance, where: str, site: _Site) -> Figure | None:
    """Across a corner it stands in the middle, where both brackets reach a wall; None along a wall."""
    corner = site.outline.standing.corner
    if corner is None:
        return None
    middle = corner.run / 2
    if choice.centre is not None and abs(choice.centre.value - middle.value) > 1:
        shown = measure.show_length(middle.value)
        site.inputs.tell(f"{where}.centre", f"Across a corner it stands in the middle, {shown}; that is used. Leave it blank")
    return middle


def _extras(kind: Kind, choice: Appliance, where: str, site: _Site) -> tuple[Appliance, Item | None]:
    """The choice without the seat, plate or tap that there is not, and the seat."""
    seat: Item | None = None
    for name, item_kind in kind.extras:
        code: str = getattr(choice, name)
        if not code:
            continue
        found = site.inputs.item(site.book, code, (item_kind,), f"{where}.{name}")
        if found is not None and name == "seat" and not site.inputs.complete(found, ("thickness",), f"{where}.seat"):
            found = None
        if found is None:
            choice = put(choice, name, "")
        elif name == "seat":
            seat = found
    return choice, seat


def _wanted(kind: Kind, choice: Appliance, where: str, given: tuple[_Site, Item | None]) -> Figure:
    """The height asked for its top, or the usual one; of a kind whose seat has the usual height, the seat comes off it."""
    site, seat = given
    wanted = site.inputs.number(choice, "top", where)
    if wanted is None:
        path = f"{site.inputs.path}.{where}.top"
        usual = site.book.figure(f"heights.{kind.figure}")
        advised = suggested(kind.as_kind, site.outline.plan.design.users, site.book, path)
        wanted = advised or replace(usual, known=Known.ASSUMED, tbc=True, path=path, note=f"usual height; {usual.note}")
        if seat is not None and (kind.to_seat or advised is not None):
            wanted = wanted - size(seat, "thickness", "Seat")
    return wanted.named(f"{kind.top}, finished floor")


def _slug(name: str) -> str:
    return "-".join("".join(letter if letter.isalnum() else " " for letter in name.lower()).split())
