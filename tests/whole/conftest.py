"""The demos worked once a session, and the comparison with reviewed snapshots."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest

from polestead.answer.answer import Answer, answer_of
from polestead.homestead.demos import demo_path
from polestead.homestead.read import read_homestead

FOLDER = Path(__file__).parent / "snapshots"


@cache
def worked(name: str) -> Answer:
    """The whole answer of a demo, as `polestead answer` works it."""
    return answer_of(read_homestead(demo_path(name)))


@pytest.fixture
def answer_to() -> Callable[[str], Answer]:
    return worked


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
