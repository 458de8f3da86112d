"""The pages are tried in the real window, on a database of their own."""

from __future__ import annotations

import pytest

from tests.desktop.journeys.conftest import fitter
from tundish.cutting.plans import CutPlan
from tundish.desktop import recalculate

__all__ = ["fitter"]


@pytest.fixture(autouse=True)
def no_proof(monkeypatch: pytest.MonkeyPatch) -> None:
    """What a page shows does not turn on the search for a proof, which would go on beside every test; the journeys have it."""

    def settled(plan: CutPlan) -> bool:
        return True

    monkeypatch.setattr(recalculate, "_settled", settled)
