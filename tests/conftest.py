"""What all tests share."""

from __future__ import annotations

import pytest
from hypothesis import settings

# A law holds however busy the machine is: nothing here is timed, speed lives in benchmarks.
settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--snapshots",
        action="store_true",
        help="rewrite the reviewed snapshots instead of comparing",
    )
