from __future__ import annotations

import re
from datetime import date, timedelta

import numpy as np
import pytest

from polestead.daybook.teaching.engine import months_beside, use_factor_after
from polestead.daybook.teaching.expected import trees_of
from polestead.daybook.teaching.series import seen_of
from polestead.daybook.teaching.trees import Growth, growth_lines, light_lines
from polestead.homestead.demos import demo_path
from polestead.homestead.read import check_text
from polestead.homestead.write import changed_text

TEXT = demo_path("hollow-spruce").read_text(encoding="utf-8")
FAR = changed_text(TEXT, {("view", "skyline", "3", "away"): "150 ft"})
TAKEN = Growth((0.0, 0.5, 1.0), (0.0, -0.1, -0.3))


def _written(text: str, line: str):
    """The file with the very words of a proposal put in."""
    number = re.search(r"number (\d+)", line)
    key, value = re.search(r'(\w+) = ("?[^"(:]+"?)', line.rsplit(": ", 1)[-1] if number else line).groups()  # fmt: skip
    path = ("view", "skyline", number.group(1), key) if number else ("household", key)
    given = value.strip('"') if '"' in value else float(value)
    return check_text(changed_text(text, {path: given}, grow=True))[0]


def test_the_light_is_proposed_at_a_key_the_file_has() -> None:
    (line,) = light_lines(trees_of(check_text(TEXT)[0].view), 0.6)
    assert _written(TEXT, line).view.skyline[2].lets_through_winter == pytest.approx(0.09)


@pytest.mark.parametrize("style", ["feet", "metric"])
def test_growth_is_proposed_at_a_key_the_file_has(style: str) -> None:
    (line,) = growth_lines(trees_of(check_text(FAR)[0].view), TAKEN, -0.2, style)
    assert _written(FAR, line).view.skyline[2].grows_m == pytest.approx(0.75, abs=0.05)


def test_growth_without_a_distance_asks_for_it_and_too_much_of_it_for_a_look() -> None:
    trees = trees_of(check_text(TEXT)[0].view)
    assert "write away first" in growth_lines(trees, None, -0.2, "feet")[0]
    far = trees_of(check_text(FAR)[0].view)
    assert "look what stands there" in growth_lines(far, TAKEN, -0.5, "feet")[0]


def test_the_use_factor_is_proposed_at_a_key_the_file_has() -> None:
    days = [date(2026, 1, 1) + timedelta(days=n) for n in range(31)]
    seen = seen_of(days, np.full(31, np.nan), engine_h=np.full(31, 2.0))
    factors = np.array([0.6, 1.0, 1.8])
    hours = np.array([np.full((25, 12), 40.0 * f) for f in factors]) + np.random.default_rng(1).normal(0, 3, (3, 25, 12))  # fmt: skip
    found = use_factor_after((1.0, 0.8, 1.25), months_beside(seen, hours[1]), factors, hours)
    assert found.proposed
    assert _written(TEXT, found.sentence).household.use_factor == pytest.approx(found.factor, abs=0.01)  # fmt: skip
