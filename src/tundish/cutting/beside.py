"""A second engine for sheets, if it is installed (the extra `cutting`): it looks beside ours for as long as there is time.

Its plans are not the same every time, so it is asked only where a time was set; what it finds is checked before it is used.
"""

from __future__ import annotations

import os
import sys
import threading
from concurrent.futures import Future, ThreadPoolExecutor
from contextlib import suppress
from importlib import import_module
from importlib.util import find_spec
from typing import Any, Final

from tundish.cutting.attempts import Plan
from tundish.cutting.boards import Layout, Nesting, Spot
from tundish.cutting.until import Timed

_MOST_PIECES: Final = 400
_LEAST_SECONDS: Final = 0.05
_MILLI: Final = 1000
_STAGES: Final = 3
_SAW: Final = 0
_ENGINE: Final = "packingsolver.rectangleguillotine"
_SCRAP: Final = -1
_BACK: Final = 4


def look_beside(nest: Nesting) -> Future[Plan] | None:
    """A plan being looked for in a thread of its own; nothing without the extra, without a time, or for more pieces than it can plan."""
    if not isinstance(nest.stop, Timed) or sum(nest.demand) > _MOST_PIECES or find_spec("packingsolver") is None:
        return None
    worker = ThreadPoolExecutor(1, thread_name_prefix="beside")
    looking = worker.submit(_look, nest, nest.stop.left())
    worker.shutdown(wait=False)
    return looking


def taken(nest: Nesting, looking: Future[Plan] | None) -> Plan:
    """What was found, if it is sound; nothing otherwise."""
    plan = looking.result() if looking else ()
    return plan if _sound(nest, plan) else ()


def _look(nest: Nesting, seconds: float) -> Plan:
    if seconds < _LEAST_SECONDS:
        return ()
    _step_back()
    engine: Any = import_module(_ENGINE)
    asked = engine.InstanceBuilder()
    alike = len(nest.boards) == 1 and nest.boards[0].count is None
    # Where all sheets are alike it has a search of its own for the fewest: twice as often the best within a second.
    asked.set_objective(engine.Objective.BinPacking if alike else engine.Objective.VariableSizedBinPacking)
    # It refuses stock for nothing: money is multiplied, and an offcut costs one.
    for board in nest.boards:
        copies = sum(nest.demand) if board.count is None else board.count
        asked.add_bin_type(board.length, board.width, cost=float(max(1, board.cost * _MILLI)), copies=max(copies, 0))
    for size in nest.sizes:
        asked.add_item_type(*size.ways[0], copies=size.count, oriented=len(size.ways) == 1)
    asked.set_number_of_stages(_STAGES)
    asked.set_cut_type(engine.CutType.NonExact)
    asked.set_first_stage_orientation(engine.CutOrientation.Any)
    asked.set_cut_thickness(_SAW)
    how = engine.OptimizeParameters()
    how.time_limit = seconds
    how.verbosity_level = 0
    found = engine.optimize(asked.build(), how).solution
    return tuple(_layouts(nest, found)) if found.full() else ()


def _step_back() -> None:
    """Let ours, and the window, go first where the processors are few: its four threads would leave one of ours a fifth."""
    if sys.platform == "linux":  # there a thread has a priority of its own, which those that it starts have too
        with suppress(OSError):
            os.setpriority(os.PRIO_PROCESS, threading.get_native_id(), os.getpriority(os.PRIO_PROCESS, 0) + _BACK)


def _layouts(nest: Nesting, found: Any) -> list[Layout]:
    made = []
    for place in range(found.number_of_different_bins()):
        sheet = found.bin(place)
        leaves = [node for node in sheet.nodes if not node.children and node.d > 0]
        spots = [Spot(node.item_type_id, node.l, node.b, node.r - node.l, node.t - node.b) for node in leaves if node.item_type_id >= 0]
        rests = [Spot(_SCRAP, node.l, node.b, node.r - node.l, node.t - node.b) for node in leaves if node.item_type_id < 0]
        kept = tuple(rest for rest in rests if rest.length > nest.kerf and rest.width > nest.kerf)
        counts = tuple(sum(spot.size == size for spot in spots) for size in range(len(nest.sizes)))
        layout = Layout(sheet.bin_type_id, counts, tuple(spots), kept, nest.gain(sheet.bin_type_id, kept))
        made += [layout] * sheet.copies
    return made


def _sound(nest: Nesting, plan: Plan) -> bool:
    """Whether it cuts just what was asked, each piece lying as it may, inside sheets that there are, without overlap."""
    if not plan or tuple(map(sum, zip(*(layout.counts for layout in plan), strict=True))) != nest.demand:
        return False
    for kind, board in enumerate(nest.boards):
        mine = [layout for layout in plan if layout.kind == kind]
        if board.count is not None and len(mine) > board.count:
            return False
        if not all(_lies(nest, layout, (board.length, board.width)) for layout in mine):
            return False
    return True


def _lies(nest: Nesting, layout: Layout, room: tuple[int, int]) -> bool:
    inside = all(
        (spot.length, spot.width) in nest.sizes[spot.size].ways and spot.x + spot.length <= room[0] and spot.y + spot.width <= room[1]
        for spot in layout.spots
    )
    apart = all(
        one.x + one.length <= other.x or other.x + other.length <= one.x or one.y + one.width <= other.y or other.y + other.width <= one.y
        for place, one in enumerate(layout.spots)
        for other in layout.spots[:place]
    )
    return inside and apart
