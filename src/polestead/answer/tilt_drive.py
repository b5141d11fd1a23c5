"""The sky handed to the tilt drive's own supply, hour by hour."""

from __future__ import annotations

import numpy as np

from polestead.answer.supply import BLOCK_YEARS, Skies, Sun
from polestead.homestead.model import DriveSupply, Homestead
from polestead.modules.power import OLD_POWER_CHANGE, rated_power_w
from polestead.sun.snow_on_glass import covered_share, power_left
from polestead.wiring.tilt_drive.result import TiltDrive
from polestead.wiring.tilt_drive.tilt_drive import tilt_drive_of
from polestead.wiring.tilt_drive.years import SupplyYears


def drive_supply_of(file: Homestead, skies: Skies) -> TiltDrive | None:
    """The drive's own supply through the first block of years.

    Args:
        file: The homestead.
        skies: Its weather.

    Returns:
        None where the file has no drive, or the drive no supply.

    Raises:
        Wrong: A wire size no table knows.
    """
    drive = file.drive
    if drive is None or drive.supply is None:
        return None
    sun = next(skies.blocks(BLOCK_YEARS))
    error = sun.weather.winter_error if sun.weather.kind != "measured years" else 0.0
    years = supply_years(drive.supply, file.mount.facing_deg, sun, error)
    return tilt_drive_of(drive, years, file.place.wired_by)


def supply_years(supply: DriveSupply, array_facing_deg: float, sun: Sun, sun_error: float) -> SupplyYears:  # fmt: skip
    """Watts of each watt of its panel, behind skyline and snow.

    The panel hangs on the pole, its low edge in the open: snow finds room to slide.  Its power falls with warmth as an ordinary
    module's does; what dirt, the array's own shade and a plain controller take is the owner's ``panel_kept``.

    Args:
        supply: The section.
        array_facing_deg: Where the array looks; the panel too, unless the file says otherwise.
        sun: A block of years.
        sun_error: Share by which winter sun may be off.
    """
    facing = array_facing_deg if supply.panel_facing_deg is None else supply.panel_facing_deg
    tilts = np.full((1, 365), supply.panel_tilt_deg)
    plane = sun.on_plane_w_m2(tilts, facing, None)
    watts = rated_power_w(1.0, OLD_POWER_CHANGE.value, 1.0, plane, sun.weather.air_c)
    fresh = sun.weather.fresh_snow_m
    if fresh is not None and fresh.any():
        covered = covered_share(fresh, plane, sun.weather.air_c, tilts)
        watts = np.asarray(watts * power_left(covered, 1), dtype=np.float32)
    return SupplyYears(watts, sun.weather.air_c, sun.path.start_month, sun_error)
