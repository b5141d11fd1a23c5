"""Bearings read off a compass turned to true north, and heights read in fists."""

from __future__ import annotations

from datetime import date

FIRST_YEAR, PAST_YEAR = 2020.0, 2030.0  # of the models at hand


class PastTheModel(ValueError):  # noqa: N818 (what it says)
    """A date for which no model of the earth's field is at hand."""


def declination_deg(
    latitude_deg: float, longitude_deg: float, elevation_m: float, on: date
) -> float:
    """How far east of true north a compass points.

    World Magnetic Model 2020 and 2025 (NOAA and British Geological Survey), through pygeomag.  Iron near by, a vehicle, a wrist
    watch turn a compass much further than the model is off.

    Args:
        latitude_deg: North positive.
        longitude_deg: East positive.
        elevation_m: Over the sea.
        on: The day it was read, 2020 to 2029.

    Returns:
        East positive: true = magnetic + this.

    Raises:
        PastTheModel: Before 2020 or after 2029.

    Example:
        >>> round(declination_deg(48.0, -117.0, 0.0, date(2026, 1, 1)), 1)
        13.8
    """
    from pygeomag import GeoMag

    day = on.timetuple().tm_yday - 1
    year = on.year + day / (366.0 if on.year % 4 == 0 else 365.0)
    if not FIRST_YEAR <= year < PAST_YEAR:
        message = f"{on:%d %b %Y} lies outside {FIRST_YEAR:.0f} to {PAST_YEAR - 1:.0f}, the years of the magnetic models at hand"
        raise PastTheModel(message)
    name = "2020" if year < 2025.0 else "2025"
    model = GeoMag(coefficients_file=f"wmm/WMM_{name}.COF")
    found = model.calculate(
        glat=latitude_deg, glon=longitude_deg, alt=elevation_m / 1000.0, time=year
    )
    return float(found.d)
