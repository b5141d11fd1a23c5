"""Aiming the pole: solar noon by the clock, the shadow it throws, and the compass beside it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from math import radians, tan

from polestead.base.source import Source
from polestead.base.working import Step, Working
from polestead.homestead.model import Place
from polestead.site.noon import clock_words, solar_noon
from polestead.site.place import clock_offset_hours
from polestead.sun.compass import PastTheModel, declination_deg

LOWEST_DEG = 3.0  # under it a shadow is too long and faint to aim by: ours
SUN = Source("Reda & Andreas, NREL/TP-560-34302", "through pvlib")
FIELD = Source("World Magnetic Model 2020 and 2025", "through pygeomag")


@dataclass(frozen=True, slots=True)
class Aim:
    """What the aim card says on one date.

    Attributes:
        on: The date.
        noon_clock_h: Solar noon, local standard time.
        noon: The same as hours and minutes.
        sun_height_deg: Of the sun then.
        shadow_to_deg: True bearing in which a plumb thing's shadow lies then, 0 north or 180 south; None: no shadow to aim by.
        shadow_per_m: Length of the shadow of each metre of height; None the same.
        turns_deg_per_min: How fast the shadow turns then: what a minute's error of the watch costs.
        facing_deg: Wanted, from true north.
        off_shadow_deg: From the sun's own bearing at noon to where the glass shall look, + clockwise.
        declination_deg: How far east of true north a compass points; None past the model's years.
        compass_deg: What the compass shows in the wanted direction; None the same.
        working: How they were found.
    """

    on: date
    noon_clock_h: float
    noon: str
    sun_height_deg: float
    shadow_to_deg: float | None
    shadow_per_m: float | None
    turns_deg_per_min: float
    facing_deg: float
    off_shadow_deg: float
    declination_deg: float | None
    compass_deg: float | None
    working: Working


def aim_of(place: Place, facing_deg: float, on: date) -> Aim:
    """Solar noon, shadow and compass on one date.

    Source: SPA for the sun; World Magnetic Model for the compass.

    Args:
        place: Where, and its clock.
        facing_deg: Where the glass shall look, from true north [deg].
        on: The date.
    """
    offset = clock_offset_hours(place)
    noon = solar_noon(place.latitude_deg, place.longitude_deg, place.elevation_m, offset, on)
    sun_deg = 180.0 if 90.0 < noon.azimuth_deg < 270.0 else 0.0
    low = noon.height_deg < LOWEST_DEG
    shadow = None if low else 1.0 / tan(radians(noon.height_deg))
    try:
        east: float | None = declination_deg(place.latitude_deg, place.longitude_deg, place.elevation_m, on)  # fmt: skip
    except PastTheModel:
        east = None
    compass = None if east is None else (facing_deg - east) % 360.0
    off = (facing_deg - sun_deg + 180.0) % 360.0 - 180.0
    steps = [
        Step("solar noon, hours after midnight, standard time", "tn", f"of {on.isoformat()}", noon.clock_h, "h", SUN),
        Step("height of the sun then", "h", "", noon.height_deg, "deg", SUN),
    ]  # fmt: skip
    if east is not None and compass is not None:
        steps += [
            Step("a compass points east of true north by", "D", "", east, "deg", FIELD),
            Step("so it shows, where the glass shall look", "b", f"{facing_deg:.1f} - ({east:.2f})", compass, "deg", FIELD),
        ]  # fmt: skip
    return Aim(
        on, noon.clock_h, clock_words(noon.clock_h), noon.height_deg, None if low else (sun_deg + 180.0) % 360.0, shadow,
        noon.turns_deg_per_min, facing_deg, off, east, compass, Working("aim by solar noon", tuple(steps)),
    )  # fmt: skip
