"""What all tests share."""

from __future__ import annotations

import pytest


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--snapshots",
        action="store_true",
        help="rewrite the reviewed snapshots instead of comparing",
    )
