"""What the tilt drive's supply cannot be."""

from __future__ import annotations

import pytest

from polestead.base.problem import Wrong
from polestead.homestead.demos import demo_path
from polestead.homestead.read import check_text

TEXT = demo_path("hollow-spruce").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("was", "planted", "key"),
    [
        ('stalled = "42 A"', 'stalled = "4.2 A"', "stalled"),
        ('nominal = "12 V"\nbattery_kind', 'nominal = "12.8 V"\nbattery_kind', "nominal"),
        # 8896 N x 6.35 mm/s = 56 W of work; 12 V x 1.4 A = 17 W
        ('running = "14 A"', 'running = "1.4 A"', "running"),
    ],
)
def test_a_supply_that_cannot_be_is_told(was: str, planted: str, key: str) -> None:
    assert was in TEXT
    with pytest.raises(Wrong) as wrong:
        check_text(TEXT.replace(was, planted))
    assert [(one.section, one.key) for one in wrong.value.problems] == [("drive.supply", key)]


def test_a_drive_of_unknown_speed_is_not_weighed_against_its_motor() -> None:
    check_text(TEXT.replace('speed = "0.25 in/s"\n', "").replace('running = "14 A"', 'running = "1.4 A"'))  # fmt: skip
