"""What copper fittings are soldered with."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import Figure, number, total
from tundish.rules.joining import item_of
from tundish.rules.rule import Asked, Need, rule


@rule(
    "water/solder",
    figures=("water.solder_joint", "water.flux_joint"),
    source="what a joint takes from memory; lead-free for drinking water: Water Fittings Regulations 1999, schedule 2, from memory",
    reads="needs",
)
def solder(asked: Asked, book: Book) -> Iterator[Need]:
    """Copper fittings are soldered, lead-free: so much of a reel and of a tub of flux for each joint.

    By the sockets for copper of the fittings on the list; valves and connectors are screwed. Who presses or pushes them sets both figures
    to nought.
    """
    sockets = [_sockets(need, book) for need in asked.needs]
    found = [each for each in sockets if each is not None]
    joints = total(found, "Joints to solder") if found else number(0, "each", "Joints to solder")
    for role in ("solder", "flux"):
        amount = joints * book.figure(f"water.{role}_joint")
        if amount.value > 0:
            yield Need(amount.named(f"{role.capitalize()}, all joints"), "first fix", "joints of copper", role=role)


def _sockets(need: Need, book: Book) -> Figure | None:
    """How many sockets for copper the fittings of a need have together."""
    item = item_of(need, book)
    if item is None or item.kind != "water fitting":
        return None
    each = sum(end.system == "copper" and end.gender == "female" for end in item.ends)
    return (need.amount * number(each, "", "Sockets of each")).named(f"{item.name}, {need.why}") if each else None
