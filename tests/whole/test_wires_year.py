"""What each controller would hold back in a year with the new array on it."""

from __future__ import annotations

import pytest

from polestead.answer.stands import layouts_in, strongback_kg_of
from polestead.answer.supply import Skies
from polestead.answer.winter import HouseOnSun
from polestead.answer.wires_year import held_back_by_controller
from polestead.homestead.demos import demo_path
from polestead.homestead.model import Homestead
from polestead.homestead.read import read_homestead
from polestead.mount.geometry import geometry_of
from polestead.mount.schedule import two_tilts

YEARS = 4


def house_on_sun(file: Homestead) -> HouseOnSun:
    geometry = geometry_of(file.mount, file.array, strongback_kg_of(file.mount, file.array))
    skies = Skies(file, demo_path("hollow-spruce").parent, geometry, YEARS, 1)
    return HouseOnSun(file, skies, use_factor=1.0)


def held_back(**limits_a: float) -> tuple[Homestead, dict[str, float]]:
    """Of the demo with other current limits."""
    file = read_homestead(demo_path("hollow-spruce")).homestead
    boxes = tuple(
        one.model_copy(
            update={
                "current_limit_a": limits_a.get(one.name, one.current_limit_a),
                "set_current_a": None,
            }
        )
        for one in file.household.controller
    )
    home = file.household.model_copy(update={"controller": boxes})
    changed = file.model_copy(update={"household": home})
    mount = changed.mount
    plan = two_tilts(mount.winter_tilt_deg, mount.summer_tilt_deg, changed.place.latitude_deg)
    return changed, held_back_by_controller(changed, house_on_sun(changed), plan)


@pytest.mark.slow
def test_a_controller_too_small_holds_back_and_a_large_one_does_not() -> None:
    file, usual = held_back(pole=80.0, roof=60.0)
    _, small = held_back(pole=20.0, roof=400.0)
    assert set(usual) == {one.name for one in file.household.controller}
    # 80 A at a charging bank's 52 V and more bear the whole 3.5 kW; on the roof's 60 A it shares with the old array
    assert usual["pole"] == pytest.approx(0.0, abs=1e3)
    assert usual["roof"] > usual["pole"] + 1e3
    assert small["pole"] > usual["pole"] + 100e3
    assert small["roof"] == pytest.approx(0.0, abs=1e3)
    # never more than the modules could give in a year of full sun hours at the latitude
    assert max(small.values()) < 8 * 440.0 * 2200.0
    rows = layouts_in(file, usual).new
    assert all(one.held_back_year_wh == usual[one.controller] for one in rows)
