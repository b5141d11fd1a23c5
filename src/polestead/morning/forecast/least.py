"""The least gust that words not understood may mean: odd wording makes no line bolder than plain wording."""

from __future__ import annotations

import re

from polestead.base.quantity import units as known_units
from polestead.base.table import table
from polestead.morning.forecast.forecast import GUST_OVER_MEAN

MOST_M_S = 100.0  # over it no wind on land blows: no figure, but a storm
_UNITS = (
    (r"mph|m\.p\.h\.?|miles?(?: per | an |/)h(?:our|r)?|miles", "mph"),
    (r"km/?h|kph|kmh|kms?(?: per | an )h(?:our)?|kilomet(?:er|re)s?(?: per | an )hour", "km/h"),
    (r"m/s|mps|met(?:er|re)s?(?: per | a )second", "m/s"),
    (r"kts?|kn|knots?", "kt"),
)
_NUMBER = r"(?<![0-9.:])([0-9]+(?:\.[0-9]+)?)"
_WITH_UNIT = tuple((re.compile(rf"{_NUMBER}\s*(?:{words})(?![a-z])"), unit) for words, unit in _UNITS)  # fmt: skip
_OTHER = r"\s*(?:%|percent|deg|°|[cf]\b|in\b|inch|cm\b|mm\b|ft\b|feet|am\b|pm\b|h\b|hours?|days?|o'?clock|:)"
_BARE = re.compile(rf"{_NUMBER}(?![0-9.]*[0-9])(?!{_OTHER})")
_FORCE = re.compile(r"(?:force|beaufort|bft)\s*(\d{1,2})|(\d{1,2})\s*(?:bft|beaufort)")
_OF_WIND = re.compile(r"gust|wind|gale|squall|blow|breez|force|\d+g\d+|beaufort|bft")
_GUST = re.compile(r"gust|\d+g\d+|squall")
_NOT_WIND = re.compile(r"snow|rain|\blow\b|\bhigh\b|temp|chance|\bmin\b|\bmax\b|cloud")


def least_gust(part: str, feet: bool) -> tuple[float, bool]:
    """Largest gust a part may mean, and whether it speaks of a storm, or of wind in figures that are none.

    Args:
        part: Not understood; folded.
        feet: The owner's units: of a figure without a unit, the hardest of kt and mph, else of m/s, kt and km/h, that blows on land.

    Example:
        >>> gust, storm = least_gust("gusts over 70 mph", True)
        >>> round(gust / 0.44704, 3), storm
        (70.0, False)
        >>> least_gust("tornado", True), least_gust("purple", True)
        ((0.0, True), (0.0, False))
    """
    rows = [row for row in table("morning", "forecast/storms") if row["word"] in part]
    found = [float(row["least_m_s"]) for row in rows]
    with_unit: list[tuple[float, str]] = []
    rest = part
    for pattern, unit in _WITH_UNIT:
        with_unit += [(float(one[1]), unit) for one in pattern.finditer(rest)]
        rest = pattern.sub(" ", rest)
    units = [unit for _, unit in with_unit]
    of_wind = bool(_OF_WIND.search(part) or units)
    forces = [float(one[1] or one[2]) for one in _FORCE.finditer(rest)]
    found += [0.836 * (force + 1.0) ** 1.5 * GUST_OVER_MEAN for force in forces if force <= 12.0]
    bare = [float(one[1]) for one in _BARE.finditer(_FORCE.sub(" ", rest))]
    if not of_wind and _NOT_WIND.search(part):
        bare = []
    over_mean = 1.0 if _GUST.search(part) or not of_wind else GUST_OVER_MEAN
    beyond = any(force > 12.0 for force in forces)
    for value, unit in with_unit:
        speed = value * known_units()[unit].factor * over_mean
        found.append(min(speed, MOST_M_S))
    for value in bare:
        tried = units or (["kt", "mph"] if feet else ["m/s", "kt", "km/h"])
        speeds = [value * known_units()[unit].factor * over_mean for unit in tried]
        on_land = [speed for speed in speeds if speed <= MOST_M_S]
        beyond = beyond or not on_land
        found += [max(on_land)] if on_land else []
    largest = max(found, default=0.0)
    return largest, bool(rows) or beyond or (of_wind and largest == 0.0)
