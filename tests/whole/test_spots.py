"""Spots ranked together, weather in blocks, and the climate leant to its error."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from polestead.answer.spots import spots_of
from polestead.answer.stands import stand_only, strongback_kg_of
from polestead.answer.supply import Skies
from polestead.answer.winter import HouseOnSun, if_off_of
from polestead.homestead.demos import demo_path
from polestead.homestead.model import Spot, View
from polestead.homestead.read import read_homestead
from polestead.mount.geometry import geometry_of
from polestead.mount.schedule import two_tilts

OWNERS = read_homestead(demo_path("hollow-spruce"))
FILE = OWNERS.homestead
GEOMETRY = geometry_of(FILE.mount, FILE.array, strongback_kg_of(FILE.mount, FILE.array))
PLAN = two_tilts(FILE.mount.winter_tilt_deg, FILE.mount.summer_tilt_deg, FILE.place.latitude_deg)


def spot(name: str, run: str = "220 ft", **more: object) -> Spot:
    return Spot.model_validate({"name": name, "run_length": run, **more})


def ranked(*spots: Spot):
    from dataclasses import replace

    owners = replace(OWNERS, homestead=FILE.model_copy(update={"spot": spots}))
    return spots_of(owners, GEOMETRY, PLAN, stand_only(OWNERS), 1)


def test_a_file_without_other_spots_ranks_none() -> None:
    assert ranked() == ()


def test_sun_run_soil_and_height_are_weighed_together() -> None:
    wood = {"readings": ("100 deg, 3 fists, trees", "260 deg, 3 fists, trees")}
    told = ranked(
        spot("in the wood", "60 ft", view=wood),
        spot("open field", "900 ft", view={}),
        spot("too low a limit", "200 ft", view={}, height_limit="12 ft"),
        spot("wet clay", "200 ft", view={}, soil="clay or silt"),
    )
    by_name = {one.name: one for one in told}
    assert [one.rank for one in told] == [1, 2, 3, 4, 5]
    assert by_name["in the wood"].winter_wh < 0.8 * by_name["as drawn"].winter_wh
    assert by_name["too low a limit"].breaks == ("height limit",)
    assert by_name["wet clay"].breaks == ("pier",)
    assert by_name["wet clay"].pier_use > 1.0 >= by_name["as drawn"].pier_use
    assert (
        max(by_name["as drawn"].rank, by_name["open field"].rank, by_name["in the wood"].rank) == 3
    )
    assert by_name["open field"].drop_share > 3.0 * by_name["as drawn"].drop_share
    for one in told:
        assert one.working.result.value == pytest.approx(one.winter_wh)


def test_the_same_spot_twice_is_told_as_the_same() -> None:
    view = FILE.view.model_dump(by_alias=True)
    twin = Spot.model_construct(
        name="twin", run_length_m=FILE.run.length_m, view=FILE.view, soil=None, frost_soil=None, height_limit_m=None
    )  # fmt: skip
    one, two = ranked(twin)
    assert one.winter_wh == two.winter_wh
    assert one.same_as_best
    assert two.same_as_best
    assert isinstance(View.model_validate({}), View)
    assert "skyline" in view


def test_years_drawn_again_are_the_years_that_were_kept() -> None:
    few = HouseOnSun(FILE, Skies(FILE, Path(), GEOMETRY, 30, 1), 1.0)
    many = HouseOnSun(FILE, Skies(FILE, Path(), GEOMETRY, 110, 1), 1.0)
    first, again = few.under(PLAN).engine_hours, many.under(PLAN).engine_hours
    assert again.shape == (110, 12)
    np.testing.assert_array_equal(first[:25], again[:25])  # a block begins with its own first year


def test_a_darker_climate_costs_engine_hours_and_a_brighter_one_saves_them() -> None:
    house = HouseOnSun(FILE, Skies(FILE, Path(), GEOMETRY, 25, 1), 1.0)
    leaned = house.leaned(PLAN, lambda lean: Skies(FILE, Path(), GEOMETRY, 25, 1, lean))
    off = if_off_of(PLAN, leaned)
    assert off is not None
    now = house.under(PLAN).engine_hours.sum(axis=1).mean()
    assert off.brighter_with.mean < now < off.darker_with.mean
    assert off.brighter_without.mean < off.darker_without.mean


def test_a_last_winter_no_factor_explains_is_told_and_not_used() -> None:
    last = FILE.household.last_winter.model_copy(update={"engine_hours": 8000.0, "fuel_l": None})
    odd = FILE.model_copy(
        update={"household": FILE.household.model_copy(update={"last_winter": last})}
    )
    house = HouseOnSun(odd, Skies(odd, Path(), GEOMETRY, 25, 1))
    assert house.use_fit is not None
    assert house.use_fit.at_edge
    assert house.use_factor == 1.0


def test_the_polar_night_leaves_the_engine_alone_with_the_house() -> None:
    north = FILE.model_copy(
        update={
            "place": FILE.place.model_copy(update={"latitude_deg": 70.5, "longitude_deg": 25.0, "clock_offset_hours": 1.0})
        }
    )  # fmt: skip
    skies = Skies(north, Path(), GEOMETRY, 3, 1)
    house = HouseOnSun(north, skies, 1.0)
    with_new, without = house.under(PLAN), house.without()
    december = 11
    assert with_new.sun_used_wh[:, december].max() < 1000.0
    np.testing.assert_allclose(
        with_new.engine_hours[:, december], without.engine_hours[:, december], rtol=0.15
    )
    assert with_new.engine_hours[:, 6].max() == 0.0


def test_the_owner_may_ask_for_the_other_sky() -> None:
    other = FILE.model_copy(update={"climate": FILE.climate.model_copy(update={"sky": "perez"})})
    plain = HouseOnSun(FILE, Skies(FILE, Path(), GEOMETRY, 5, 1), 1.0).sun_wh_year(PLAN)
    perez = HouseOnSun(other, Skies(other, Path(), GEOMETRY, 5, 1), 1.0).sun_wh_year(PLAN)
    assert perez != plain
    assert perez == pytest.approx(plain, rel=0.05)
