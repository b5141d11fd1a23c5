"""A sentence a month on what perfect foresight would have saved."""

from __future__ import annotations

from dataclasses import dataclass

from polestead.base.hours import MONTH_NAMES

LEAST_H, LEAST_SHARE = 2.0, 0.05  # less than this is no difference: hours, and of the month's; ours


@dataclass(frozen=True, slots=True)
class MonthRun:
    """One month of the house by one way of tipping, on the sun that really came.

    Attributes:
        engine_h: Engine hours.
        fuel_l: Litres of fuel, None where not worked.
        moves: Times the array was moved.
    """

    engine_h: float
    fuel_l: float | None
    moves: int


def foresight_sentence(
    year: int,
    month: int,
    did: MonthRun,
    best: MonthRun,
    logged_h: float | None = None,
    litres: str = "l",
    per_litre: float = 1.0,
) -> str:
    """What the best tilt of every day, known beforehand, would have saved against what he did.

    Both runs are of the same house on the same sun, so that the house's own error is in both; the log's hours stand beside.

    Args:
        year: Of the month.
        month: 1 to 12.
        did: With the tilts of the log.
        best: With the best tilt of every day.
        logged_h: Engine hours by the log; None where not written.
        litres: Unit of fuel as the owner knows it.
        per_litre: How many of it a litre is.

    Example:
        >>> foresight_sentence(2027, 1, MonthRun(31.0, 60.0, 3), MonthRun(26.0, 50.0, 24), 33.0)
        'Jan 2027: knowing each day beforehand would have saved about 5 engine hours and 10 l of fuel with 24 moves instead of 3; the log says the engine ran 33 hours.'
    """
    saved_h = did.engine_h - best.engine_h
    log = "the log does not say how long the engine ran" if logged_h is None else f"the log says the engine ran {logged_h:.0f} hours"  # fmt: skip
    name = f"{MONTH_NAMES[month - 1]} {year}"
    if did.engine_h <= 0.0 and best.engine_h <= 0.0:
        return f"{name}: no tilt would have saved anything, the engine was not needed; {log}."
    if saved_h < max(LEAST_H, LEAST_SHARE * did.engine_h):
        return f"{name}: perfect foresight would have saved next to nothing, you tipped it as well as could be; {log}."
    fuel = ""
    if did.fuel_l is not None and best.fuel_l is not None:
        fuel = f" and {(did.fuel_l - best.fuel_l) * per_litre:.0f} {litres} of fuel"
    return f"{name}: knowing each day beforehand would have saved about {saved_h:.0f} engine hours{fuel} with {best.moves} moves instead of {did.moves}; {log}."
