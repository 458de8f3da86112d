"""What wood screws hold when they are pulled or pushed aside: EN 1995-1-1:2004+A1:2008, 8.2.2 and 8.7, driven square to the grain.

The equation for withdrawal holds for screws of 6 to 12 with at least six diameters of thread in the timber; others want the maker's figure.
"""

from __future__ import annotations

import math
from typing import Final

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.figure import Figure, number, smallest
from tundish.measure import show_number

SOURCE: Final = "EN 1995-1-1, 8.7.2: withdrawal, kmod and γM of the rule book"
_THIN: Final = 6.0
_THICK: Final = 12.0
_THREADS: Final = 6.0


def withdrawal(diameter: float, thread: float, density: float) -> float:
    """The characteristic pull in N at which one screw comes out: its thread in timber of so many kg/m³, expressions 8.38 to 8.40."""
    strength = 0.52 * diameter**-0.5 * thread**-0.1 * density**0.8
    return float(strength * diameter * thread * min(diameter / 8, 1))


def pull_through(head: float, density: float) -> float:
    """The characteristic pull in N at which a head goes through timber or plywood of so many kg/m³, where its maker gives no strength."""
    return 70e-6 * density**2 * head**2


def lateral(diameter: float, through: float, into: float, density: float, steel: float) -> float:
    """The characteristic force in N across one screw that goes through one timber and so far into another, expressions 8.6 (a) to (f).

    Not predrilled, both of one density, kg/m³, screws of steel of so many N/mm². Its thread's root is taken as 0.6 of its diameter, the
    thinnest that 8.7.2 allows; what the head and the thread add by pulling (the rope effect) is left out.
    """
    across = 1.1 * 0.6 * diameter
    bearing, bends, ratio = 0.082 * density * across**-0.3, 0.3 * steel * across**2.6, into / through

    def tilts(depth: float) -> float:
        return float(1.05 * bearing * depth * across / 3 * (math.sqrt(4 + 12 * bends / (bearing * across * depth**2)) - 1))

    turns = bearing * through * across / 2 * (math.sqrt(1 + 2 * (1 + ratio + ratio**2) + ratio**2) - 1 - ratio)
    modes = bearing * through * across, bearing * into * across, turns, tilts(through), tilts(into)
    return float(min(*modes, 1.15 * math.sqrt(2 * bends * bearing * across)))


def acting(screws: float) -> float:
    """How many screws a group of them holds as: expression 8.41."""
    return float(screws**0.9)


def design_pull(book: Book, characteristic: float, screws: float, where: str = "One screw") -> Figure:
    """What each of a group of screws may be pulled with, kN, where one alone comes out at so many N."""
    one = number(round(characteristic / 1000, 6), "kN", f"{where}, characteristic")
    together = number(round(acting(screws) / screws, 6), "", f"Share of it that each of {show_number(screws)} together holds")
    held = one * together * book.figure("fixings.kmod") / book.figure("fixings.gamma_m")
    return held.named("A wood screw may be pulled with", SOURCE)


def thread_in(fixing: Item, passes: Figure) -> Figure | None:
    """How much thread of a screw lies in the timber behind the layers that it passes; None where its sheet does not give its length."""
    if not fixing.has("thread_length"):
        return None
    beyond = (fixing.size("length") - passes).named("Screw beyond the layers that it passes")
    return smallest(fixing.size("thread_length"), beyond, label="Thread in the timber")


def grips(book: Book, fixing: Item, passes: Figure, screws: float) -> Figure | None:
    """What each of a group of screws may be pulled with where they go into studs, joists or noggins; None where that cannot be worked out.

    The less of what the maker gives and of what EN 1995-1-1 gives, if there are both.
    """
    declared = fixing.size("pull_kn") if fixing.has("pull_kn") else None
    thread, diameter = thread_in(fixing, passes), fixing.bare("diameter")
    if thread is None or not _THIN <= diameter <= _THICK or thread.value < _THREADS * diameter:
        return declared
    density = book.figure("fixings.timber_density").value
    where = f"{show_number(diameter)} × {show_number(thread.value)} of thread in timber of {show_number(density)} kg/m³"
    found = design_pull(book, withdrawal(diameter, thread.value, density), screws, where)
    return found if declared is None or found.value <= declared.value else declared
