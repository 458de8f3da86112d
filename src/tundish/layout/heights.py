"""The chain of heights of a pre-wall, from the bare floor: finished floor, datum, its top, the top of its steel."""

from __future__ import annotations

from dataclasses import dataclass

from tundish import measure
from tundish.catalogue.book import Book
from tundish.figure import Figure, total
from tundish.layout.design import PreWall
from tundish.layout.inputs import Inputs
from tundish.layout.standing import Standing
from tundish.survey.floor import Floor


@dataclass(frozen=True, slots=True)
class Tops:
    """The top of the pre-wall as tiled, the top of its frame of steel or timber, and how much of it is tiled above the finished floor."""

    prewall: Figure
    steel: Figure
    above_floor: Figure


@dataclass(frozen=True, slots=True)
class OnTop:
    """What lies on the steel of a pre-wall of part height, top down; `edge` is how much of that the front's tiles stop beneath."""

    layers: tuple[Figure, ...]
    edge: Figure | None = None


def finished_floor(floor: Floor, inputs: Inputs) -> Figure:
    """The sum of the layers that will lie on the bare floor."""
    layers = [
        inputs.sure(layer, "thickness", f"survey.floor.build_up.{place}").named(layer.what or f"Layer {place + 1}")
        for place, layer in enumerate(floor.build_up)
    ]
    return total(layers, "Floor build-up")


def datum(floor: Figure, book: Book) -> Figure:
    """The line snapped on the wall at a whole height above the finished floor."""
    return (floor + book.figure("layout.datum")).named("Datum line")


def part_height(standing: Standing, floor: Figure, height: Figure, on_top: OnTop, inputs: Inputs) -> Tops:
    """The tops of a pre-wall of part height: the shelf's tiles, bed and boards lie on the steel, or a capping."""
    prewall = standing.prewall
    wanted = inputs.sure(prewall, "top", standing.at).named("Top of pre-wall, finished floor")
    reached, above_floor = floor + wanted, wanted
    if reached.value > height.value:
        shown = measure.show_length(reached.value), measure.show_length(height.value)
        inputs.tell(
            f"{standing.at}.top", f"The pre-wall would reach {shown[0]} above the bare floor, the ceiling is at {shown[1]}: lower its top"
        )
        reached, above_floor = total([height]), _above(height, floor)
    worked = reached.named("Top of pre-wall")
    top = inputs.settled(f"{standing.lead}top_of_prewall", worked)
    if top is not worked:
        reached, above_floor = top, _above(top, floor)
    steel = reached
    for layer in on_top.layers:
        steel = steel - layer
    if on_top.edge is not None:
        above_floor = (above_floor - on_top.edge).named("Underside of the capping above finished floor")
    return Tops(top, inputs.settled(f"{standing.lead}top_of_steel", steel.named(_name(prewall))), above_floor)


def full_height(standing: Standing, floor: Figure, height: Figure, book: Book, inputs: Inputs) -> Tops:
    """The tops of a pre-wall that goes to the ceiling, its steel short of it by a gap."""
    worked = total([height], "Top of pre-wall")
    top = inputs.settled(f"{standing.lead}top_of_prewall", worked)
    reached = height if top is worked else top
    steel = (reached - book.figure("prewall.ceiling_gap")).named(_name(standing.prewall))
    return Tops(top, inputs.settled(f"{standing.lead}top_of_steel", steel), _above(reached, floor))


def _above(height: Figure, floor: Figure) -> Figure:
    return (height - floor).named("Ceiling above finished floor")


def _name(prewall: PreWall) -> str:
    return "Top of studwork" if prewall.built_of == "timber" else "Top of steel"
