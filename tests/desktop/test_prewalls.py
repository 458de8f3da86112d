"""Pre-walls taken out: options speak of the pre-walls and appliances that are left."""

from __future__ import annotations

from dataclasses import replace

from tundish.desktop.prewalls import prewall_out
from tundish.layout.design import PreWall
from tundish.options import Change, Option
from tundish.store.keep import demo_jobs

DESIGN = "rooms.0.design"


def changes(*paths: str) -> tuple[Change, ...]:
    return tuple(Change(path=f"{DESIGN}.{path}" if path else "rooms.0.name", value='"1"') for path in paths)


def test_options_speak_of_the_pre_walls_and_appliances_that_are_left() -> None:
    job = next(each for each in demo_jobs() if each.number == "102")
    ware = job.rooms[0].design.appliances
    design = replace(job.rooms[0].design, further=(PreWall(wall="B"), PreWall(wall="C")), appliances=(*ware[:2], replace(ware[2], on="2")))
    said = changes("prewall.name", "further.0.name", "further.1.name", "appliances.0.top", "appliances.2.top", "")
    kept = Option(name="all", changes=(*said, Change(path=f"{DESIGN}.further.1", value=""), Change(path=f"{DESIGN}.further.0", value="")))
    alone = Option(name="first alone", changes=changes("prewall.name", "appliances.0.name"))
    job = replace(job, rooms=(replace(job.rooms[0], design=design),), options=(kept, alone))
    first = prewall_out(job, DESIGN, 0)
    assert [each.name for each in first.rooms[0].design.appliances] == [ware[2].name]
    (left,) = first.options
    out = Change(path=f"{DESIGN}.further.0", value="")
    assert left.changes == (*changes("prewall.name", "further.0.name", "appliances.0.top", ""), out)
    second = prewall_out(job, DESIGN, 1)
    assert second.options[0].changes == (*changes("prewall.name", "further.0.name", "appliances.0.top", ""), out)
    assert second.options[1] == alone
