"""Every page comes, and Checks says why, where a room cannot be worked out with the catalogue as it is."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.desktop.fitter import Fitter
from tests.desktop.journeys.conftest import fitter
from tundish.desktop.pages.checks import ChecksPage

__all__ = ["fitter"]


def test_a_room_that_cannot_be_worked_out_stands_on_top_of_checks(fitter: Fitter, monkeypatch: pytest.MonkeyPatch) -> None:
    book = fitter.workspace.book
    short = replace(book, roles={role: item for role, item in book.roles.items() if role != "copper 15"})
    monkeypatch.setattr(fitter.workspace.store, "book", lambda _key="": short)
    fitter.open("104")
    worked = fitter.settled()
    assert worked.rooms == ()
    for place in range(10):
        fitter.page(f"Alt+{place}")
    page = fitter.page("Alt+3")
    assert isinstance(page, ChecksPage)
    assert any("copper 15" in (page.table.table_model.cell(place, 1).below or "") for place in range(3))
