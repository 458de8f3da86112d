"""A job with boards whose sizes are settled."""

from __future__ import annotations

import pytest

from tundish.catalogue.load import supplied_book
from tundish.estimate import Estimate, estimate
from tundish.store.keep import demo_jobs


@pytest.fixture
def boarded() -> Estimate:
    """The plain cloakroom."""
    job = next(each for each in demo_jobs() if each.number == "101")
    return estimate(job, supplied_book())
