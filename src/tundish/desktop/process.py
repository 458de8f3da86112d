"""What the system knows of this process: when it began and how much memory it holds."""

from __future__ import annotations

import os
import sys
import time
from pathlib import Path

_IMPORTED = time.monotonic()


def since_start_ms() -> float:
    """Milliseconds since the system began the process; since this module was imported where the system does not say."""
    stat = Path("/proc/self/stat")
    if not stat.exists():
        return (time.monotonic() - _IMPORTED) * 1000
    # The 22nd field is the start in clock ticks since boot; the name before it may hold spaces, so count after its bracket.
    ticks = int(stat.read_text().rpartition(")")[2].split()[19])
    return (time.clock_gettime(time.CLOCK_BOOTTIME) - ticks / os.sysconf("SC_CLK_TCK")) * 1000


def memory_mb() -> float:
    """Memory held, in MB: resident where the system says so, else the most that was held."""
    statm = Path("/proc/self/statm")
    if statm.exists():
        return int(statm.read_text().split()[1]) * os.sysconf("SC_PAGE_SIZE") / 1e6
    if sys.platform == "win32":
        return 0.0
    import resource

    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return most / 1e6 if sys.platform == "darwin" else most / 1e3
