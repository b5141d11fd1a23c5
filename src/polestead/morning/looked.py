"""What the owner saw, read from his words."""

from __future__ import annotations

import re
from datetime import datetime

from polestead.base.problem import Problem, Wrong
from polestead.base.quantity import NotAQuantity, read_quantity
from polestead.morning.basis import Facts
from polestead.morning.clock import PlaceClock
from polestead.morning.forecast.by_eye import read_blows
from polestead.morning.seen import GLASS, Away, Glass, Reading, Seen

MOST_DAYS = 60.0
BEYOND_DEG = 1.0  # past the end of the travel a reading may lie; ours


def seen_of(
    at: datetime, clock: PlaceClock, facts: Facts, lies: str | None, charge: str | None, age: str, away: str, blows: str | None, snow: str,
    travel_deg: tuple[float, float] = (0.0, 90.0),
) -> Seen:  # fmt: skip
    """All he saw, or all that is wrong with it.

    Args:
        at: Standard time of the place.
        clock: His.
        facts: Of the homestead.
        lies: Tilt, as ``62``.
        charge: As ``78 %``.
        age: How long ago it was read.
        away: ``home``, ``till dark``, ``2 days``.
        blows: As ``35 mph`` or by eye.
        snow: ``bare``, ``dusted``, ... or how deep.
        travel_deg: Least and steepest tilt of the mount.

    Raises:
        Wrong: With everything that is wrong.
    """
    problems: list[Problem] = []
    tilt = _figure("--lies", f"{lies} deg" if lies and re.fullmatch(r"\s*\d+(\.\d+)?\s*", lies) else lies, "angle", travel_deg[0] - BEYOND_DEG, travel_deg[1] + BEYOND_DEG, f"a tilt of its travel, {travel_deg[0]:.0f} to {travel_deg[1]:.0f}", problems, "Look again: the array cannot lie there. Is it a mark of the rod, or another figure?")  # fmt: skip
    share = _figure("--charge", charge, "share", 0.0, 1.0, "a charge as 78 %", problems)
    age_s = _figure("--age", age, "time", 0.0, 86400.0 * 400.0, "a time as 3 h or 2 days", problems)
    gust: float | None = None
    if blows is not None:
        try:
            gust, _ = read_blows(blows, facts.exposure, facts.anemometer_share)
        except Wrong as wrong:
            problems += wrong.problems
    glass, depth = _glass(snow, problems)
    where = Away()
    try:
        where = read_away(away)
    except Wrong as wrong:
        problems += wrong.problems
    if problems:
        raise Wrong(problems)
    return Seen(
        at=at,
        lies=None if tilt is None else Reading(tilt),
        charge=None if share is None else Reading(share, (age_s or 0.0) / 3600.0),
        glass=glass,
        snow_m=depth,
        blows_m_s=gust,
        away=where,
        clock=clock,
    )


def _figure(key: str, text: str | None, dimension: str, least: float, most: float, allowed: str, problems: list[Problem], ask: str = "Look again.") -> float | None:  # fmt: skip
    if text is None:
        return None
    try:
        value = read_quantity(text, dimension)
    except NotAQuantity as wrong:
        problems.append(Problem("", key, text, allowed, f"{wrong}."))
        return None
    if not least <= value <= most:
        problems.append(Problem("", key, text, allowed, ask))
        return None
    return value


def _glass(text: str, problems: list[Problem]) -> tuple[Glass, float | None]:
    for word in GLASS:
        if text.strip().lower() == word:
            return word, None
    depth = _figure("--snow", text, "length", 0.0, 5.0, f"{', '.join(GLASS)}, or how deep, as 2 in", problems)  # fmt: skip
    return ("bare" if depth == 0.0 else "covered"), depth


def read_away(text: str) -> Away:
    """Where he is today.

    Args:
        text: ``home``, ``till dark`` or ``2 days``.

    Raises:
        Wrong: None of these.

    Example:
        >>> read_away("2 days").days, read_away("till dark").till_dark
        (2.0, True)
    """
    words = " ".join(text.lower().split())
    if words == "home":
        return Away()
    if words in ("till dark", "until dark"):
        return Away("till dark", till_dark=True)
    days = re.fullmatch(r"(\d+(?:\.\d+)?) ?(?:days?|nights?)", words)
    if days is not None and 0.0 < float(days[1]) <= MOST_DAYS:
        return Away(words, days=max(float(round(float(days[1]))), 1.0))
    raise Wrong([Problem("", "--away", text, "home, till dark, or so many days up to 60", "Write one of these.")])  # fmt: skip
