"""What all tests share."""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import settings

from tests.browser import CHROMIUM, FLAGS

# A law holds however busy the machine is: nothing here is timed, speed lives in benchmarks.
settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--snapshots",
        action="store_true",
        help="rewrite the reviewed snapshots instead of comparing",
    )


def pytest_configure(config: pytest.Config) -> None:
    """Name one folder in which the processes of this run share the demos' answers (tests/answers.py)."""
    if not hasattr(config, "workerinput"):
        os.environ["POLESTEAD_TESTS_SHARED"] = tempfile.mkdtemp(prefix="polestead-tests-")


@pytest.hookimpl(optionalhook=True)
def pytest_configure_node(node: Any) -> None:
    node.workerinput["shared"] = os.environ["POLESTEAD_TESTS_SHARED"]


def pytest_sessionstart(session: pytest.Session) -> None:
    given = getattr(session.config, "workerinput", None)
    if given is not None:
        os.environ["POLESTEAD_TESTS_SHARED"] = given["shared"]


def pytest_unconfigure(config: pytest.Config) -> None:
    if not hasattr(config, "workerinput"):
        shutil.rmtree(os.environ.pop("POLESTEAD_TESTS_SHARED", ""), ignore_errors=True)


@pytest.fixture(scope="module")
def chromium() -> Iterator[Any]:
    """The browser, launched once for each file of tests that looks at a page."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        yield browser
        browser.close()
