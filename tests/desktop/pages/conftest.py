"""The pages are tried in the real window, on a database of their own."""

from __future__ import annotations

from tests.desktop.journeys.conftest import fitter

__all__ = ["fitter"]
