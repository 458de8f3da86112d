"""From an empty job to a price: the plain cloakroom, typed in as a fitter would."""

from __future__ import annotations

from typing import Final

from tests.desktop.fitter import Fitter
from tundish import measure
from tundish.catalogue.load import supplied_book
from tundish.cutting.plan import Effort
from tundish.desktop.forms import FormRow
from tundish.desktop.pages.pricing import PricingPage
from tundish.desktop.pages.survey import SurveyPage
from tundish.estimate import Job, estimate
from tundish.field import Entry, Field, get, walk
from tundish.store.keep import demo_jobs
from tundish.survey.floor import Layer
from tundish.survey.wall import Opening

ADD: Final = {"wc": "Add WC", "basin": "Add Basin", "bidet": "Add Bidet", "urinal": "Add Urinal"}


def cloakroom() -> Job:
    return next(job for job in demo_jobs() if job.number == "101")


def as_typed(declared: Field, value: object, names: dict[str, str]) -> str:
    """What a fitter types for a value: the bare number, the item's name, the words."""
    match value:
        case Entry():
            return f"{value.value:g}"
        case bool():
            return "yes" if value else "no"
        case None:
            return ""
        case _:
            return names.get(str(value), "none" if not value else str(value)) if declared.kind == "item" else str(value)


def row_of(page: SurveyPage | PricingPage, path: str) -> FormRow:
    page.go_to(path)
    return page.form.row(path)


def fill(fitter: Fitter, page: SurveyPage | PricingPage, job: Job, start: str) -> int:
    """Type every input below a path that is not already as it should be; says how many were typed."""
    names = {code: item.name for code, item in supplied_book().items.items()}
    typed = 0
    for path, declared, value in walk(get(job, start), start):
        before = get(fitter.workspace.job, path)
        same = before.value == value.value if isinstance(before, Entry) and isinstance(value, Entry) else before == value
        if not same:
            fitter.type_into(row_of(page, path), as_typed(declared, value, names))
            typed += 1
    return typed


def test_a_cloakroom_is_priced_from_an_empty_job(fitter: Fitter) -> None:
    wanted = cloakroom()
    survey_of = wanted.rooms[0].survey
    fitter.page("Alt+0")
    fitter.press("Start a survey")
    page = fitter.window.page("survey")
    assert isinstance(page, SurveyPage)

    for group in ("room", "wall", "stack", "water", "existing"):
        fill(fitter, page, wanted, f"rooms.0.survey.{group}")
    page.go_to("rooms.0.survey.floor.kind")
    for _ in survey_of.floor.build_up:
        fitter.press("Add a layer")
    fill(fitter, page, wanted, "rooms.0.survey.floor")
    page.go_to("rooms.0.survey.openings.0.kind")
    for _ in survey_of.openings:
        fitter.press("Add an opening")
    fill(fitter, page, wanted, "rooms.0.survey.openings.0") if survey_of.openings else None
    page.go_to("rooms.0.design.appliances.0.kind")
    for appliance in wanted.rooms[0].design.appliances:
        fitter.press(ADD[appliance.kind])
    for place, _ in enumerate(wanted.rooms[0].design.appliances):
        fill(fitter, page, wanted, f"rooms.0.design.appliances.{place}")
    for group in ("prewall", "finish", "floor"):
        fill(fitter, page, wanted, f"rooms.0.design.{group}")

    fitter.settled()
    assert fitter.price().startswith("Materials only"), "labour is not priced until a rate is typed"
    fitter.page("Alt+7")
    terms = fitter.window.page("pricing")
    assert isinstance(terms, PricingPage)
    fill(fitter, terms, wanted, "terms")

    shown = fitter.settled()
    expected = estimate(wanted, supplied_book(), Effort.BEST)
    assert measure.show_money(expected.price.total) in fitter.price()
    assert [(line.item.code, line.amount.value) for line in shown.lines] == [(line.item.code, line.amount.value) for line in expected.lines]
    assert Layer in {type(each) for each in fitter.workspace.job.rooms[0].survey.floor.build_up}
    assert all(isinstance(each, Opening) for each in fitter.workspace.job.rooms[0].survey.openings)
