"""What a job asks for, apart from what is recorded of it: options begun, kept, dropped and chosen, and copies. Pure."""

from __future__ import annotations

from dataclasses import replace
from itertools import count
from typing import Final

from tundish.estimate import Begun, Job
from tundish.field import Problem
from tundish.options import Option, differences, followed, with_changes
from tundish.pricing.took import After
from tundish.pricing.variation import Agreed

_ASKED: Final = ("rooms", "terms", "buying", "own_items", "by_hand")
"""What an option may change of a job; the rest is recorded, not asked."""


def begin_option(job: Job) -> Job:
    """The job with its option begun: it is as it is until something is changed."""
    stands = {name: getattr(job, name) for name in _ASKED}
    return replace(job, begun=Begun(on=True, **stands))


def as_it_stands(job: Job) -> Job:
    """The job without what was changed for an option that is being made; what was recorded meanwhile stays."""
    if not job.begun.on:
        return job
    stands = {name: getattr(job.begun, name) for name in _ASKED}
    stands["buying"] = replace(job.begun.buying, accepted=job.buying.accepted, done=job.buying.done)
    return replace(job, begun=Begun(), **stands)


def keep_option(job: Job) -> Job:
    """The job as it stands, with what was changed as one more option; as it stands where nothing was changed."""
    stands = as_it_stands(job)
    changes = differences(stands, replace(job, begun=Begun()))
    if not changes:
        return stands
    names = {each.name for each in job.options}
    name = next(made for number in count(len(names) + 1) if (made := f"Option {number}") not in names)
    return replace(stands, options=(*stands.options, Option(name=name, changes=changes)))


def choose_option(job: Job, place: int) -> tuple[Job, tuple[Problem, ...]]:
    """The job as one of its options has it, which is an option no more; the others speak of what is there then."""
    option, rest = job.options[place], (*job.options[:place], *job.options[place + 1 :])
    made, problems = with_changes(replace(job, options=()), option.changes)
    return replace(made, options=followed(rest, option.changes)), problems


def as_new(job: Job, number: str) -> Job:
    """A job of its own that asks for the same: nothing billed, agreed, cut, bought or settled, and no day of the first goes with it."""
    stands = as_it_stands(job)
    return replace(
        stands,
        number=number,
        terms=replace(stands.terms, quoted="", start="", boarding="", vat_evidence=""),
        buying=replace(stands.buying, by="", accepted="", done=""),
        sawn=(),
        settled=(),
        invoices=(),
        agreed=Agreed(),
        variations=(),
        after=After(),
        begun=Begun(),
        why_varied="",
        why_revised="",
    )
