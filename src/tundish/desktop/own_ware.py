"""Ware that the catalogue does not hold: a model begun with the sizes that its kind needs, to be typed from the maker's sheet."""

from __future__ import annotations

from dataclasses import replace
from itertools import count
from typing import Final

from tundish.catalogue.item import Item
from tundish.catalogue.own import OwnItem, OwnSize, with_own
from tundish.desktop.inputs import InputForm
from tundish.desktop.survey_groups import OWN
from tundish.desktop.workspace import Workspace
from tundish.estimate import Job
from tundish.field import Entry, get, put
from tundish.figure import Known
from tundish.layout.appliances.kinds import KINDS
from tundish.layout.design import Appliance

SIZES: Final = {
    "width": "Width",
    "projection": "Out from the wall",
    "stud_spacing": "Studs apart",
    "top_to_studs": "Top down to studs",
    "ceramic": "Ceramic at the fixing",
    "studs_to_outlet": "Studs down to outlet",
    "studs_to_inlet": "Studs up to flush inlet",
    "outlet_insertion": "Pipe into its outlet",
    "inlet_insertion": "Pipe into its inlet",
    "top_to_waste": "Top down to waste",
    "top_to_supply": "Top down to supplies",
    "supply_spacing": "Supplies apart",
}
"""The sizes of a maker's sheet as they are asked for."""


def type_own(workspace: Workspace, path: str) -> None:
    """Begin a model of a job's own for the appliance at a path, and hang it there, as one step.

    Until they are typed its sizes are assumed to be those of the model that hung there.
    """
    appliance: Appliance = get(workspace.job, path)
    kind = KINDS[appliance.kind]
    held = {each.code for each in workspace.job.own_items} | set(workspace.book.items)
    code = next(made for number in count(1) if (made := f"{OWN}{number}") not in held)
    before = with_own(workspace.book, workspace.job.own_items).items.get(appliance.ware)
    sizes = tuple(OwnSize(name=name, value=_assumed(before, name)) for name in kind.all_ware_sizes)
    begun = OwnItem(code=code, kind=kind.ware, sizes=sizes)
    job = replace(workspace.job, own_items=(*workspace.job.own_items, begun))
    workspace.edit(f"type {appliance.name or kind.title} from the maker's sheet", put(job, f"{path}.ware", code), path)


def take_out_own(workspace: Workspace, code: str) -> None:
    """Take a model of the job's own out, and off everything that it was chosen for, as one step."""
    job = replace(workspace.job, own_items=tuple(each for each in workspace.job.own_items if each.code != code))
    for path in hung(job, code):
        job = put(job, f"{path}.ware", "")
    workspace.edit("take out a model of your own", job)


def hung(job: Job, code: str) -> tuple[str, ...]:
    """The paths of the appliances that a model is chosen for."""
    return tuple(
        f"rooms.{place}.design.appliances.{number}"
        for place, room in enumerate(job.rooms)
        for number, each in enumerate(room.design.appliances)
        if each.ware == code
    )


def add_sheet(form: InputForm, job: Job, code: str) -> None:
    """Add the rows of a model of the job's own: what it is, where its sheet was seen, and every size that its kind needs."""
    place, own = next((number, each) for number, each in enumerate(job.own_items) if each.code == code)
    path = f"own_items.{place}"
    form.input(f"{path}.name")
    form.input(f"{path}.sheet")
    for number, size in enumerate(own.sizes):
        words = SIZES.get(size.name, size.name.replace("_", " ").capitalize())
        form.input(f"{path}.sizes.{number}.value", label=words)
    form.input(f"{path}.weight")
    if own.kind == KINDS["wc"].ware:
        form.input(f"{path}.flush")
        form.input(f"{path}.flush_small")


def _assumed(before: Item | None, size: str) -> Entry | None:
    return Entry(before.sizes[size][0], Known.ASSUMED) if before is not None and before.has(size) else None
