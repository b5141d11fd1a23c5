"""The browser, launched once for each file of tests that looks at a page."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest

from tests.web.browser import CHROMIUM, FLAGS


@pytest.fixture(scope="module")
def chromium() -> Iterator[Any]:
    from playwright.sync_api import sync_playwright

    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        yield browser
        browser.close()
