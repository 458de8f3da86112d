"""The papers that can be made from an estimate, in the order a job needs them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Final

from tundish.documents import (
    after_job,
    closing_sheet,
    cut_list,
    drilling_template,
    hand_over,
    heights_agreed,
    invoice,
    labels,
    materials,
    order_list,
    programme,
    quote,
    setting_out,
    statement,
    survey_blank,
    survey_sheet,
    terms_sheet,
    variation,
)
from tundish.documents.block import Document
from tundish.estimate import Estimate

NAMES: Final = (
    ("quote", "Quote"),
    ("terms", "Terms"),
    ("variations", "Variations"),
    ("heights", "Heights we agree"),
    ("setting-out", "Setting-out sheets, one a wall"),
    ("template", "Drilling template"),
    ("materials", "Materials list"),
    ("cut-list", "Cut list"),
    ("labels", "Labels"),
    ("orders", "Order lists"),
    ("programme", "Programme"),
    ("survey-blank", "Survey sheet, blank"),
    ("survey", "Survey sheet"),
    ("closing", "Closing sheet"),
    ("hand-over", "Hand-over"),
    ("invoices", "Invoices"),
    ("after", "After the job"),
    ("statement", "Statement of account"),
)


def build(key: str, estimate: Estimate) -> tuple[Document, ...]:
    """The papers behind one name: one, or one a supplier for the orders, one a wall for the setting out, one a bill."""
    if key in _SEVERAL:
        return _SEVERAL[key](estimate)
    return (_ONE[key](estimate),)


def build_all(estimate: Estimate, placed: Sequence[order_list.Placed] | None = None) -> tuple[Document, ...]:
    """Every paper of a job; `placed` are its orders as they are drafted and were sent, else there is a draft for each supplier."""
    return tuple(
        document for key, _ in NAMES for document in (build(key, estimate) if key != "orders" else order_list.build_all(estimate, placed))
    )


_SEVERAL: Final[dict[str, Callable[[Estimate], tuple[Document, ...]]]] = {
    "setting-out": setting_out.build_all,
    "orders": order_list.build_all,
    "invoices": invoice.build_all,
    "statement": statement.build_all,
    "variations": variation.build_all,
}
_ONE: Final[dict[str, Callable[[Estimate], Document]]] = {
    "quote": quote.build,
    "terms": terms_sheet.build,
    "heights": heights_agreed.build,
    "template": drilling_template.build,
    "materials": materials.build,
    "cut-list": cut_list.build,
    "labels": labels.build,
    "programme": programme.build,
    "survey-blank": survey_blank.build,
    "survey": survey_sheet.build,
    "closing": closing_sheet.build,
    "hand-over": hand_over.build,
    "after": after_job.build,
}
