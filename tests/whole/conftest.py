"""Comparison with reviewed snapshots."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

FOLDER = Path(__file__).parent / "snapshots"


@pytest.fixture
def same_as_reviewed(request: pytest.FixtureRequest) -> Callable[[str, str], None]:
    def compare(name: str, text: str) -> None:
        path = FOLDER / name
        if request.config.getoption("--snapshots"):
            path.parent.mkdir(exist_ok=True)
            path.write_text(text, encoding="utf-8")
        assert text == path.read_text(encoding="utf-8"), (
            f"{name} has changed: read the difference, then make snapshots"
        )

    return compare
