"""The kinds of appliance there are. A new one is a file beside this, a line here, and rows in the catalogue."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from tundish.layout.appliances import accessible_wc, basin, bidet, shower_valve, urinal, wall_spout, wc
from tundish.layout.appliances.kind import Kind

KINDS: Final[Mapping[str, Kind]] = {
    each.key: each for each in (wc.KIND, basin.KIND, bidet.KIND, urinal.KIND, accessible_wc.KIND, shower_valve.KIND, wall_spout.KIND)
}
