"""The tilt drive's supply on the page, and the demos' own through 25 years."""

from __future__ import annotations

from functools import cache

import pytest

from polestead.answer.stands import strongback_kg_of
from polestead.answer.supply import Skies
from polestead.answer.tilt_drive import drive_supply_of
from polestead.homestead.demos import demo_names, demo_path
from polestead.homestead.model import Homestead
from polestead.homestead.read import read_homestead
from polestead.mount.geometry import geometry_of
from polestead.sheets.wires.tilt_drive import tilt_drive_lines


@cache
def under_its_sky(name: str) -> tuple[Homestead, Skies]:
    owners = read_homestead(demo_path(name))
    file = owners.homestead
    geometry = geometry_of(file.mount, file.array, strongback_kg_of(file.mount, file.array))
    return file, Skies(file, owners.path.parent, geometry, 25, 1)


@pytest.mark.parametrize("name", demo_names())
def test_each_demo_carries_its_drive_through_25_winters(name: str) -> None:
    file, skies = under_its_sky(name)
    told = drive_supply_of(file, skies)
    assert told is not None
    assert [check.name for check in told.checks if not check.holds] == []
    assert told.years.years == 25
    assert told.darker is not None
    assert told.darker.lowest_charge <= told.years.lowest_charge
    for style in ("feet", "metric"):
        lines = "\n".join(tilt_drive_lines(told, style)).splitlines()
        assert max(len(line) for line in lines) <= 78
        assert not any("NO:" in line for line in lines)


def test_lithium_at_the_mesa_and_a_small_panel_at_the_lake_do_not_hold() -> None:
    for name, change in (
        ("cinder-mesa", {"battery_kind": "lithium iron phosphate", "battery_ah": 20.0}),
        ("hollow-spruce", {"panel_w": 20.0}),
    ):
        file, skies = under_its_sky(name)
        assert file.drive is not None
        assert file.drive.supply is not None
        supply = file.drive.supply.model_copy(update=change)
        other = file.model_copy(update={"drive": file.drive.model_copy(update={"supply": supply})})
        told = drive_supply_of(other, skies)
        assert told is not None
        assert any(not check.holds for check in told.checks)
        lines = "\n".join(tilt_drive_lines(told, "feet")).splitlines()
        assert any("NO:" in line for line in lines)
        assert max(len(line) for line in lines) <= 78


def test_nothing_in_the_file_is_a_sentence() -> None:
    file, skies = under_its_sky("hollow-spruce")
    bare = file.model_copy(update={"drive": None})
    assert drive_supply_of(bare, skies) is None
    lines = "\n".join(tilt_drive_lines(None, "feet"))
    assert "[drive.supply]" in lines
