"""The weather of a homestead's place, and the guard of the sign of its longitude."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from polestead.homestead.model import Climate, Place
from polestead.site.sunpath import SunPath
from polestead.site.weather import WeatherYears


@dataclass(frozen=True, slots=True)
class PlaceInWords:
    """What the owner reads to see that the place is his.

    Attributes:
        words: The place's own climate in a sentence or two (coldest and warmest month, sunniest and darkest).
        land_map: A coarse land map as lines of text with the place marked.
        doubts: What does not fit together (record low against the table, clock against longitude).
    """

    words: str
    land_map: tuple[str, ...]
    doubts: tuple[str, ...]


def clock_offset_hours(place: Place) -> float:
    """Local standard time minus UTC: the file's, else from the longitude."""
    raise NotImplementedError


def place_in_words(place: Place) -> PlaceInWords:
    """The guard: raises ``Wrong`` where the point lies in the sea."""
    raise NotImplementedError


def weather_of(
    place: Place, climate: Climate, path: SunPath, folder: Path, years: int = 100, seed: int = 1
) -> WeatherYears:
    """The weather the homestead file asks for: its file, or synthetic years from the shipped table.

    Args:
        folder: Folder of the homestead file, for a weather file named in it.
    """
    raise NotImplementedError
