"""The view from every spot in the file: skyline, and the sun of the shortest day, the equinox and the longest day."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from polestead.homestead.model import Homestead, View
from polestead.site.place import clock_offset_hours
from polestead.sun.day_seen import DaySeen, day_seen
from polestead.sun.view import Layer, skyline

DRAWN = "as drawn"  # the spot the file itself describes
YEAR = 2026  # of the three days: from year to year the sun differs by less than a minute of arc on them


@dataclass(frozen=True, slots=True, eq=False)
class SpotView:
    """The view from one spot.

    Attributes:
        spot: Its name.
        layers: Rows of things on the skyline.
        days: Shortest day, equinox, longest day.
        noon_deg: Bearing of the noon sun, 180 or 0.
        fist_deg: The owner's own fist.
        eye_m: Height of his eye.
    """

    spot: str
    layers: tuple[Layer, ...]
    days: tuple[DaySeen, DaySeen, DaySeen]
    noon_deg: float
    fist_deg: float
    eye_m: float


def views_of(file: Homestead) -> tuple[SpotView, ...]:
    """The spot the file describes, then its other spots in their order.

    Args:
        file: The homestead.
    """
    every = [(DRAWN, file.view), *((spot.name, spot.view) for spot in file.spot)]
    return tuple(_view_of(file, name, view) for name, view in every)


def solstices(latitude_deg: float, year: int) -> tuple[date, date, date]:
    """Shortest day, equinox, longest day of a half of the earth.

    Example:
        >>> [day.month for day in solstices(-35.0, 2026)]
        [6, 3, 12]
    """
    december, march, june = date(year, 12, 21), date(year, 3, 20), date(year, 6, 21)
    return (december, march, june) if latitude_deg >= 0.0 else (june, march, december)


def _view_of(file: Homestead, name: str, view: View) -> SpotView:
    place, middle_m = file.place, file.mount.hinge_height_m
    at = (place.latitude_deg, place.longitude_deg, place.elevation_m)
    short, even, long = (
        day_seen(view, *at, clock_offset_hours(place), on, middle_m)
        for on in solstices(place.latitude_deg, YEAR)
    )
    return SpotView(name, skyline(view, *at, middle_m), (short, even, long), 180.0 if place.latitude_deg >= 0.0 else 0.0, view.fist_deg, view.eye_m)  # fmt: skip
