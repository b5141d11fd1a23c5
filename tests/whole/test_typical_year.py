"""A whole measured-like year, the file the sky library ships, hour by hour against that library: plane, cell, diode."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pvlib
import pytest
from pvlib.atmosphere import get_relative_airmass
from pvlib.irradiance import get_total_irradiance
from pvlib.pvsystem import calcparams_desoto, max_power_point
from pvlib.temperature import faiman

from polestead.base.hours import working_year
from polestead.homestead.demos import demo_path
from polestead.homestead.read import read_homestead
from polestead.modules.diode import GAP_CHANGE_PER_K, fitted_diode
from polestead.modules.power import KEPT, array_power_w
from polestead.site.files_in import weather_file
from polestead.site.sunpath import sun_path
from polestead.sun.plane import plane_at_tilts_w_m2
from polestead.sun.view import OpenSky

FILE = Path(pvlib.__file__).parent / "data" / "703165TY.csv"
PATH = sun_path(55.317, -160.517, 7.0, -9.0)
TILTS = np.array([10.0, 40.0, 70.0])


@pytest.fixture(scope="module")
def year():
    if not FILE.exists():
        pytest.skip("the library no longer ships its example year")
    return weather_file(FILE, working_year(7), 55.317, -160.517, -9.0, 7.0, PATH)


@pytest.mark.parametrize(("ours", "theirs"), [("hay-davies", "haydavies"), ("perez", "perez")])
def test_the_plane_in_every_hour(year, ours: str, theirs: str) -> None:
    parts = [np.asarray(p[0], dtype=float) for p in (year.global_w_m2, year.beam_w_m2, year.diffuse_w_m2)]  # fmt: skip
    found = plane_at_tilts_w_m2(
        PATH, OpenSky(np.ones(8760), 1.0), *parts, TILTS, 180.0, np.full(8760, 0.25), ours
    )
    wanted = get_total_irradiance(
        TILTS[:, None], 180.0, PATH.zenith_deg, PATH.azimuth_deg, parts[1], parts[0], parts[2], dni_extra=PATH.extra_w_m2,
        airmass=get_relative_airmass(PATH.zenith_deg), albedo=0.25, model=theirs,
    )["poa_global"]  # fmt: skip
    day = PATH.zenith_deg < 90.0
    assert np.abs(found - wanted)[:, day].max() < 0.5
    assert found[:, day].sum(axis=1) == pytest.approx(wanted[:, day].sum(axis=1), rel=1e-4)


def test_cell_and_diode_in_every_hour(year) -> None:
    sheet = read_homestead(demo_path("hollow-spruce")).homestead.array.module
    diode = fitted_diode(sheet)
    light, air = (
        np.asarray(year.global_w_m2[0], dtype=float),
        np.asarray(year.air_c[0], dtype=float),
    )
    ours = array_power_w(sheet, 1, light, air, through_glass=True) / KEPT.value
    cells = faiman(light, air, 1.0)
    lit = light > 0.5
    numbers = calcparams_desoto(
        light[lit], cells[lit], alpha_sc=diode.current_per_k_a, a_ref=diode.ideality_v, I_L_ref=diode.light_current_a,
        I_o_ref=diode.saturation_current_a, R_sh_ref=diode.shunt_ohm, R_s=diode.series_ohm, EgRef=diode.gap_ev, dEgdT=GAP_CHANGE_PER_K,
    )  # fmt: skip
    theirs = max_power_point(*numbers)["p_mp"] * sheet.power_w / diode.power_w
    assert (
        np.abs(ours[lit] - theirs).max() < 2e-3 * sheet.power_w
    )  # the grid is read in straight lines
    assert ours[lit].sum() == pytest.approx(theirs.sum(), rel=1e-3)
