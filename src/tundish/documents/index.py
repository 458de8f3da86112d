"""The papers that can be made from an estimate, in the order a job needs them."""

from __future__ import annotations

from tundish.documents import cut_list, labels, materials, order_list, programme, quote, setting_out
from tundish.documents.block import Document
from tundish.estimate import Estimate

NAMES = (
    ("quote", "Quote"),
    ("setting-out", "Setting-out sheet"),
    ("materials", "Materials list"),
    ("cut-list", "Cut list"),
    ("labels", "Labels"),
    ("orders", "Order lists"),
    ("programme", "Programme"),
)


def build(key: str, estimate: Estimate) -> tuple[Document, ...]:
    """The papers behind one name: one, or for the orders one a supplier."""
    if key == "orders":
        return order_list.build_all(estimate)
    one = {
        "quote": quote.build,
        "setting-out": setting_out.build,
        "materials": materials.build,
        "cut-list": cut_list.build,
        "labels": labels.build,
        "programme": programme.build,
    }
    return (one[key](estimate),)


def build_all(estimate: Estimate) -> tuple[Document, ...]:
    """Every paper of a job."""
    return tuple(document for key, _ in NAMES for document in build(key, estimate))
