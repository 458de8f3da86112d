"""Pipes that are there already: the stack, the supplies, and what comes out."""

from __future__ import annotations

from dataclasses import dataclass

from tundish.field import Entry, amount, choice, flag, length, text, which_wall

_BEHIND = "It stands outside, or in the next room: pipes go through the wall to it. Its distance is then from this face, the wall included."
CONDITIONS = ("sound", "to be looked at", "poor")


@dataclass(frozen=True, slots=True, kw_only=True)
class Stack:
    """The soil stack that the new branches run to."""

    pipe: str = choice("Pipe", ("plastic 110", "cast iron 100"), "Outside diameter and material of the stack.")
    diameter: Entry | None = length(
        "Outside diameter", least=40, most=300, likely=(75, 170), usual=110, help="Round it with a tape, divided by 3.14."
    )
    wall: str = which_wall("At wall", "The wall that its place is measured along.")
    from_left: Entry | None = length("Centre from left wall", usual=150, likely=(60, 6_000), help="To the plaster, not to the skirting.")
    from_wall: Entry | None = length(
        "Centre from the wall", most=2_000, usual=130, likely=(60, 600), help="To the plaster, not to the skirting."
    )
    behind: bool = flag("Behind the wall", _BEHIND)
    branch_invert: Entry | None = length(
        "Branch invert", least=-1_000, most=3_000, likely=(20, 400),
        help="Bottom of the bore, not of the pipe; from the bare floor.",
    )  # fmt: skip
    condition: str = choice("Condition", CONDITIONS)
    room_above: Entry | None = length(
        "Straight pipe free for a new branch", most=5_000, likely=(100, 2_000), usual=600,
        help="Bare, without a joint or a bend, where it enters.",
    )  # fmt: skip
    vent: str = choice(
        "Vented", ("not known", "above the roof", "by a valve inside"), "An air admittance valve stands in the roof space or in a boxing."
    )
    valve_air: Entry | None = amount("Air of that valve", "l/s", most=500, help="As marked on it.")
    others: Entry | None = amount(
        "Other discharge units on it",
        "l/s",
        most=1_000,
        help="The sum of what else drains into it.",
    )
    shared: bool = flag("Shared stack", "Others above or below use it: agree times, and nobody flushes while it is open.")
    note: str = text("Note")


@dataclass(frozen=True, slots=True, kw_only=True)
class WasteEntry:
    """Another place where a discharge could go: a boss, a second stack, a pipe through the floor."""

    name: str = text("Called", "Old basin waste, stack in the kitchen…")
    size: str = choice("Pipe", ("110", "50", "40", "32"), "Nominal size, in mm.")
    wall: str = which_wall("At wall", "The wall that its place is measured along.")
    from_left: Entry | None = length("Centre from its left end", usual=300, likely=(60, 6_000))
    from_wall: Entry | None = length("Centre from the wall", most=2_000, usual=130, likely=(0, 600))
    behind: bool = flag("Behind the wall", _BEHIND)
    under: bool = flag("Under the floor", "A new hole through the floor leads to it; its invert is then minus, below the bare floor.")
    floor_thick: Entry | None = length(
        "Floor thick there", least=5, most=1_000, likely=(15, 400),
        help="Boards, or slab and screed. Blank: as is usual.",
    )  # fmt: skip
    invert: Entry | None = length(
        "Invert", least=-1_000, most=3_000, likely=(-100, 600), help="Bottom of its bore above the bare floor, or minus."
    )
    condition: str = choice("Condition", CONDITIONS)
    note: str = text("Note")


@dataclass(frozen=True, slots=True, kw_only=True)
class Water:
    """Where hot and cold come into the void, along the wall, at floor level."""

    wall: str = which_wall("At wall", "The wall that their places are measured along.")
    cold_size: str = choice("Cold pipe", ("15", "22"), "Nominal size, in mm.")
    hot_size: str = choice("Hot pipe", ("15", "22"), "Nominal size, in mm.")

    cold_from_left: Entry | None = length("Cold from left wall", usual=300)
    hot_from_left: Entry | None = length("Hot from left wall", usual=350)
    pressure: Entry | None = amount(
        "Standing pressure", "bar", most=16, likely=(0.5, 6), usual=3, help="With a gauge on the nearest tap, everything shut."
    )
    behind: bool = flag(
        "Come through the wall",
        "Hot and cold are on the other side of the wall: new holes are made for them. Otherwise they are in the void.",
    )
    stop_valve: str = text("Stop valve", "Where it is and whether it holds.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Existing:
    """What is taken out first."""

    appliances: Entry | None = amount("Appliances to take out", "each", most=50, usual=0, whole=True)
    tiles_off_m2: Entry | None = amount("Tiles to take off", "m²", most=500, usual=0)
    other_waste_m3: Entry | None = amount("Other waste", "m³", most=50, usual=0, help="Boxing, plaster, floor: as it will lie in a heap.")
    built: str = choice("Built", ("not known", "before 2000", "2000 or later"), "Materials from before 2000 may hold asbestos.")
    electrics: str = text("Electrics seen", "Cables, fan, light, socket near the wall.")
