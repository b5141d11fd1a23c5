"""The working of the headline gust."""

from __future__ import annotations

import re

import pytest

from polestead.homestead.demos import demo_names, demo_path
from polestead.homestead.read import read_homestead
from polestead.stand.stand import stand_of


@pytest.mark.parametrize("name", demo_names())
def test_the_headlines_working_ends_in_the_gust_told_and_its_use_is_one(name: str) -> None:
    h = read_homestead(demo_path(name)).homestead
    stand = stand_of(h.place, h.array, h.mount, h.footing, h.drive, h.lock)
    working = stand.first_gives_working
    assert working.result.value == stand.first_gives_m_s
    assert stand.first_gives in working.title
    (use,) = [step.value for step in working.steps if step.word == "use"]
    assert use == pytest.approx(1.0, abs=1e-6)


@pytest.mark.parametrize("name", demo_names())
def test_rest_and_gust_add_up_as_printed(name: str) -> None:
    h = read_homestead(demo_path(name)).homestead
    stand = stand_of(h.place, h.array, h.mount, h.footing, h.drive, h.lock)
    sums = [step for step in stand.first_gives_working.steps if "per gust squared" in step.word]
    assert sums
    for step in sums:
        rest, gust, per = (
            float(part)
            for part in re.fullmatch(r"(\S+) \+ (\S+)\^2 x (\S+)", step.formula).groups()
        )  # type: ignore[union-attr]
        assert rest + gust**2 * per == pytest.approx(step.value, rel=2e-4, abs=1.0)
