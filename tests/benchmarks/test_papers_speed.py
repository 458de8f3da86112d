"""How long all papers of the family bathroom take, against as many strings, lines and rectangles on a bare canvas in the same run."""

from __future__ import annotations

import sys
from collections.abc import Callable, Sequence
from statistics import median
from time import process_time

from tests.benchmarks.bare_papers import counted, drawn_bare, listening
from tundish.catalogue.load import supplied_book
from tundish.documents.index import build_all
from tundish.estimate import Estimate, estimate
from tundish.store.keep import demo_jobs
from tundish.writers.pdf import pdf_bytes

ROUNDS = 15


def test_all_papers_of_the_family_bathroom() -> None:
    """Target: from the estimate to the bytes of every PDF, tagged and all, in at most twice what the bare canvas takes.

    By turns, in time of the processor, so that whatever else the machine does falls on neither. Bare: the same words in the same
    faces, as many pages, and none of the measuring, breaking of lines, colours, other outlines, clipping and tags of ours.
    """
    family = estimate(next(job for job in demo_jobs() if job.number == "102"), supplied_book())
    with listening() as papers:
        written = ours(family)
    spent: dict[str, list[float]] = {"ours": [], "bare": [], "packed": []}
    for _ in range(ROUNDS):
        assert timed(spent["ours"], lambda: ours(family)) == written
        least = timed(spent["bare"], lambda: [drawn_bare(pages) for pages in papers])
        timed(spent["packed"], lambda: [drawn_bare(pages, spelt=False) for pages in papers])
    count = ", ".join(f"{number:,} {what}" for what, number in counted(papers).items())
    time = {name: median(times) for name, times in spent.items()}
    sys.stderr.write(
        f"\n{len(written)} papers ({count}): bare {time['bare'] * 1e3:.0f} ms, ours {time['ours'] * 1e3:.0f} ms, "
        f"{time['ours'] / time['bare']:.2f} times; a bare canvas packed as ours {time['packed'] * 1e3:.0f} ms, "
        f"{time['ours'] / time['packed']:.2f} times; {sum(map(len, written)) / 1e3:,.0f} kB against {sum(map(len, least)) / 1e3:,.0f}\n"
    )


def ours(family: Estimate) -> Sequence[bytes]:
    return [pdf_bytes(document, "25 Nov 2026, 09:00") for document in build_all(family)]


def timed(times: list[float], work: Callable[[], Sequence[bytes]]) -> Sequence[bytes]:
    begun = process_time()
    done = work()
    times.append(process_time() - begun)
    return done
