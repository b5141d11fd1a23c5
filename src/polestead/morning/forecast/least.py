"""The least gust that words not understood may mean: odd wording makes no line bolder than plain wording."""

from __future__ import annotations

import re
from difflib import get_close_matches

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
_CHILL = re.compile(r"wind[ -]?chill(?:s| factor)?(?:\s+(?:of|to|near|down to))?(?:\s*[-+]?\d+(?:\.\d+)?)?|wind farms?|winding")  # fmt: skip
_WEATHER = re.compile(r"gust|wind|storm|weather|thunder|squall|gale|tornado|blow|hail|blizzard|hurricane")  # fmt: skip
_STORM = r"(?:thunder ?|snow ?|wind ?|ice ?)?(?:storms?|gales?|squalls?|hurricanes?|tornado(?:e?s)?|winds?|blizzards?)"
_WARNING = r"(?:\s*(?:warnings?|watch(?:es)?|advisor(?:y|ies)|alerts?))"
_OFF = r"(?:lifted|cancell?ed|expired|ended|dropped|called off|passed|gone|unlikely|(?:is |are )?not expected)"
# what says that there is none; "lifted to a hurricane warning" does not, nor does what goes on after it
_NONE = (
    re.compile(rf"\b(?:no|without|not an?|zero)(?: more| further| longer| severe| strong| high| damaging)* {_STORM}{_WARNING}?(?: (?:today|tonight|expected|forecast))?\s*$"),
    re.compile(rf"\b{_STORM}{_WARNING}? (?:(?:is|are|was|were|has|have|been|now|all) )*{_OFF}\s*$"),
    re.compile(rf"\b{_STORM}{_WARNING}? (?:(?:is|are|now|all) )+over\s*$|\b{_STORM}{_WARNING} over\s*$"),
)  # fmt: skip
_LIKE = 0.8  # so like a word of a storm a slip of the fingers is; ours


def lacks_unit(part: str) -> bool:
    """Whether a part speaks of wind in a figure without a unit.

    Args:
        part: Not understood; folded.

    Example:
        >>> lacks_unit("isolated gusts 60"), lacks_unit("gusts over 60 mph"), lacks_unit("snow 4")
        (True, False, False)
    """
    said = _said(part)
    if not _OF_WIND.search(said) or any(pattern.search(said) for pattern, _ in _WITH_UNIT):
        return False
    return bool(_BARE.search(_FORCE.sub(" ", said)))


def least_gust(part: str, feet: bool, unit: str = "") -> tuple[float, bool]:
    """Largest gust a part may mean, and whether it speaks of a storm, or of wind in figures that are none.

    Args:
        part: Not understood; folded.
        feet: The owner's units: of a figure without a unit, the hardest of kt and mph, else of m/s, kt and km/h, that blows on land.
        unit: Of a figure without one, where that is tried.

    Example:
        >>> gust, storm = least_gust("gusts over 70 mph", True)
        >>> round(gust / 0.44704, 3), storm
        (70.0, False)
        >>> least_gust("tornado", True), least_gust("purple", True), least_gust("severe cold", True)
        ((0.0, True), (0.0, False), (0.0, False))
        >>> least_gust("no storms", True), least_gust("storm warning lifted", True), least_gust("storm warning lifted to red", True)
        ((0.0, False), (0.0, False), (0.0, True))
    """
    part = _said(part)
    rows = _storms(part)
    found = [float(row["least_m_s"]) for row in rows]
    with_unit: list[tuple[float, str]] = []
    rest = part
    for pattern, known in _WITH_UNIT:
        with_unit += [(float(one[1]), known) for one in pattern.finditer(rest)]
        rest = pattern.sub(" ", rest)
    units = [known for _, known in with_unit]
    of_wind = bool(_OF_WIND.search(part) or units)
    forces = [float(one[1] or one[2]) for one in _FORCE.finditer(rest)]
    found += [0.836 * (force + 1.0) ** 1.5 * GUST_OVER_MEAN for force in forces if force <= 12.0]
    bare = [float(one[1]) for one in _BARE.finditer(_FORCE.sub(" ", rest))]
    if not of_wind and _NOT_WIND.search(part):
        bare = []
    over_mean = 1.0 if _GUST.search(part) or not of_wind else GUST_OVER_MEAN
    beyond = any(force > 12.0 for force in forces)
    for value, known in with_unit:
        speed = value * known_units()[known].factor * over_mean
        found.append(min(speed, MOST_M_S))
    for value in bare:
        tried = units or ([unit] if unit else ["kt", "mph"] if feet else ["m/s", "kt", "km/h"])
        speeds = [value * known_units()[one].factor * over_mean for one in tried]
        on_land = [speed for speed in speeds if speed <= MOST_M_S]
        beyond = beyond or not on_land
        found += [max(on_land)] if on_land else []
    largest = max(found, default=0.0)
    return largest, bool(rows) or beyond or (of_wind and largest == 0.0 and bool(part))


def _said(part: str) -> str:
    """A part without what is of no wind, or says that there is none; a decimal comma a point."""
    part = re.sub(r"(?<=\d),(?=\d)", ".", part)
    part = _CHILL.sub(" ", part)
    for pattern in _NONE:
        part = pattern.sub(" ", part)
    return " ".join(part.split())


def _storms(part: str) -> list[dict[str, str]]:
    """Words of a storm in a part; one that is of any weather counts beside a word of wind or weather; a slip of the fingers too."""
    every = table("morning", "forecast/storms")
    weather = bool(_WEATHER.search(part))
    found = [row for row in every if row["word"] in part and (row["alone"] == "yes" or weather)]
    if found:
        return found
    alone = [row["word"] for row in every if row["alone"] == "yes" and len(row["word"]) >= 5 and " " not in row["word"]]  # fmt: skip
    like = {near for word in re.findall(r"\b(?!wind|blow)[a-z']{5,}", part) for near in get_close_matches(word, alone, 1, _LIKE)}  # fmt: skip
    return [row for row in every if row["word"] in like]
