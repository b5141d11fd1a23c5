"""A sentence a month on what perfect foresight would have saved, as far as that can be known without the month's own hours of sun."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from polestead.base.hours import MONTH_NAMES
from polestead.daybook.teaching.series import Floats

LEAST_H, LEAST_SHARE = 2.0, 0.05  # less than this is no difference: hours, and of the month's; ours
NOT_KNOWN = (
    "Nobody has written down the hours of sun of the months that were: what is told is what foresight saves in the drawn years' same months, "
    "brought to the log's month factors, glass without snow. It is a span, not what was lost in that very month."
)  # fmt: skip


@dataclass(frozen=True, slots=True, eq=False)
class MonthRuns:
    """One month of the house over drawn years, tipped as the log says and with each day's tilt of most sun known beforehand.

    Attributes:
        did_h, known_h: Engine hours of each year [years].
        fuel_l: Fuel of the first less that of the second [years].
        did_moves: Moves the log holds.
        known_moves: Mean moves of the second in such a month.
        factor: Month factor the sun was brought to.
    """

    did_h: Floats
    known_h: Floats
    fuel_l: Floats
    did_moves: int
    known_moves: float
    factor: float


def drawn_sentence(
    year: int,
    month: int,
    runs: MonthRuns,
    logged_h: float | None = None,
    litres: str = "l",
    per_litre: float = 1.0,
) -> str:
    """What the best tilt of every day, known beforehand, saves in such a month against the tilts of the log.

    Both runs are of the same house on the same drawn sun, so that the house's own error is in both; the log's hours stand beside.

    Args:
        year: Of the month.
        month: 1 to 12.
        runs: Over the drawn years.
        logged_h: Engine hours by the log; None where not written.
        litres: Unit of fuel as the owner knows it.
        per_litre: How many of it a litre is.

    Example:
        >>> runs = MonthRuns(np.array([28.0, 30.0, 35.0]), np.array([23.0, 25.0, 30.0]), np.array([9.0, 10.0, 11.0]), 3, 24.2, 0.93)
        >>> drawn_sentence(2027, 1, runs, 33.0)
        'Jan 2027: in such months knowing each day beforehand saves about 5 engine hours (5 to 5 in eight years of ten) and 10 l of fuel with 24 moves instead of 3; the log says the engine ran 33 hours.'
    """
    saved = runs.did_h - runs.known_h
    mean_h, did_h = float(saved.mean()), float(runs.did_h.mean())
    log = "the log does not say how long the engine ran" if logged_h is None else f"the log says the engine ran {logged_h:.0f} hours"  # fmt: skip
    name = f"{MONTH_NAMES[month - 1]} {year}"
    if did_h < 0.5:
        return f"{name}: nothing to save, in such months the engine is not needed; {log}."
    if mean_h < max(LEAST_H, LEAST_SHARE * did_h):
        return f"{name}: in such months foresight saves next to nothing, your tilts are as good as can be; {log}."
    low, high = (max(float(one), 0.0) for one in np.quantile(saved, (0.1, 0.9)))
    fuel = float(runs.fuel_l.mean()) * per_litre
    return (
        f"{name}: in such months knowing each day beforehand saves about {mean_h:.0f} engine hours ({low:.0f} to {high:.0f} in eight years of ten) "
        f"and {fuel:.0f} {litres} of fuel with {runs.known_moves:.0f} moves instead of {runs.did_moves}; {log}."
    )  # fmt: skip
