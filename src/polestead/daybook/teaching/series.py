"""The log and what was expected of its days, as series side by side."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

import numpy as np
from numpy.typing import NDArray

from polestead.base.problem import Problem, Wrong

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Days = NDArray[np.datetime64]
Ints = NDArray[np.int64]

LEAST_SHARE = 0.02  # of the expected: less is counted as this; the logarithm of nothing says nothing more; ours
MOST_SHARE = (
    5.0  # of the expected: more is a slipped point or another array, and is set aside; ours
)
LEAST_SD = 0.02  # no day's sun is known better than that; ours
FULL = 0.97  # charge from which a battery may have turned the array away; ours


@dataclass(frozen=True, slots=True, eq=False)
class Seen:
    """What the log says, one value a day; what nobody looked at is not a number.

    Attributes:
        day: Days that have a line, rising, each once [days].
        made_wh: What the array made.
        charge: The highest charge seen that day, 0 to 1.
        dawn_charge: Charge in the morning.
        snow: True where snow was seen on the glass.
        cleaned: True where it rained hard or the glass was washed; False where not, or not told.
        engine_h: The engine ran.
        fuel_l: Fuel burnt or filled.
    """

    day: Days
    made_wh: Floats
    charge: Floats
    dawn_charge: Floats
    snow: Bools
    cleaned: Bools
    engine_h: Floats
    fuel_l: Floats

    @property
    def days(self) -> int:
        """How many days have a line."""
        return int(self.day.size)


@dataclass(frozen=True, slots=True, eq=False)
class Expected:
    """What was to be expected on the same days, from the sun of the day as far as it is known.

    Attributes:
        made_wh: What the array would make at the tilt it stood at, with nothing wrong and a battery that takes all [days].
        log_sd: Standard deviation of the logarithm of that: small on a clear day, wide under broken cloud [days].
        low_sun_share: Share of it that comes as beam over the trees of the skyline's edge, where they could take it [days].
        fills: True where the household is expected to fill the battery that day [days].
        dawn_charge: Charge expected in the morning; not a number where not worked [days].
        engine_h: Engine hours expected; not a number where not worked [days].
        mean_wh: Plain mean of what the array would make, of which many days' sum is made; over ``made_wh``, the middle on a
            logarithmic scale, where the sky is not known [days].
        dawn_sd, engine_sd: How far dawn charge and engine hours stray from the expected in that season; ones where not worked [days].
    """

    made_wh: Floats
    log_sd: Floats
    low_sun_share: Floats
    fills: Bools
    dawn_charge: Floats
    engine_h: Floats
    mean_wh: Floats
    dawn_sd: Floats
    engine_sd: Floats


@dataclass(frozen=True, slots=True, eq=False)
class Paired:
    """Expected against seen, day by day, on a logarithmic scale.

    A day on which the battery was full says only *at least*: the array was turned away and could have made more.

    Attributes:
        day: Days that count [days].
        number: The same, counted from the first day of 1970 [days].
        month: Month of each, 0 = January [days].
        year: Year of each [days].
        miss: Logarithm of seen over expected [days].
        log_sd: What it may miss by [days].
        at_least: True where the battery was full: the miss is a lower bound [days].
        low_sun_share: As expected [days].
        snow: True where snow was seen on the glass: told apart, not tested [days].
        set_aside: Days left out, and why.
    """

    day: Days
    number: Ints
    month: Ints
    year: Ints
    miss: Floats
    log_sd: Floats
    at_least: Bools
    low_sun_share: Floats
    snow: Bools
    set_aside: tuple[str, ...]

    @property
    def days(self) -> int:
        """How many days count."""
        return int(self.day.size)


def seen_of(
    day: Days | list[date],
    made_wh: Floats,
    *,
    charge: Floats | None = None,
    dawn_charge: Floats | None = None,
    snow: Bools | None = None,
    cleaned: Bools | None = None,
    engine_h: Floats | None = None,
    fuel_l: Floats | None = None,
) -> Seen:
    """A log from what there is; what is left out was not looked at.

    Args:
        day: Days with a line, rising.
        made_wh: What the array made [days].
        charge: Highest charge of the day.
        dawn_charge: Charge in the morning.
        snow: Snow on the glass.
        cleaned: Hard rain or a wash.
        engine_h: Engine hours.
        fuel_l: Fuel.

    Raises:
        Wrong: For a day that stands twice, days out of order, values that cannot be, or series of unlike length.

    Example:
        >>> seen_of([date(2026, 1, 1), date(2026, 1, 2)], np.array([4000.0, 5000.0])).days
        2
    """
    days = np.asarray(day, dtype="datetime64[D]")
    size = days.size
    nothing, never = np.full(size, np.nan), np.zeros(size, dtype=bool)
    seen = Seen(
        days,
        np.asarray(made_wh, dtype=float),
        nothing if charge is None else np.asarray(charge, dtype=float),
        nothing if dawn_charge is None else np.asarray(dawn_charge, dtype=float),
        never if snow is None else np.asarray(snow, dtype=bool),
        never if cleaned is None else np.asarray(cleaned, dtype=bool),
        nothing if engine_h is None else np.asarray(engine_h, dtype=float),
        nothing if fuel_l is None else np.asarray(fuel_l, dtype=float),
    )
    problems = [*_order_problems(days), *_value_problems(seen)]
    if problems:
        raise Wrong(problems)
    return seen


def expected_of(
    made_wh: Floats,
    log_sd: Floats,
    *,
    low_sun_share: Floats | None = None,
    fills: Bools | None = None,
    dawn_charge: Floats | None = None,
    engine_h: Floats | None = None,
    mean_wh: Floats | None = None,
) -> Expected:
    """What was expected, from what there is.

    Args:
        made_wh: Expected of each day [days].
        log_sd: Standard deviation of its logarithm [days].
        low_sun_share: Share that comes low over trees; left out: none.
        fills: Days the battery is expected to fill; left out: none.
        dawn_charge: Expected charge in the morning; left out: not worked.
        engine_h: Expected engine hours; left out: not worked.
        mean_wh: Plain mean; left out: as the middle.
    """
    size = np.asarray(made_wh).size
    nothing = np.full(size, np.nan)
    return Expected(
        np.asarray(made_wh, dtype=float),
        np.asarray(log_sd, dtype=float),
        np.zeros(size) if low_sun_share is None else np.asarray(low_sun_share, dtype=float),
        np.zeros(size, dtype=bool) if fills is None else np.asarray(fills, dtype=bool),
        nothing if dawn_charge is None else np.asarray(dawn_charge, dtype=float),
        nothing if engine_h is None else np.asarray(engine_h, dtype=float),
        np.asarray(made_wh if mean_wh is None else mean_wh, dtype=float),
        np.ones(size),
        np.ones(size),
    )


def paired(seen: Seen, expected: Expected) -> Paired:
    """Lay expected and seen side by side.

    A day counts as *at least* where a charge of ``FULL`` or more was seen, or, where nobody read the charge, where the
    household is expected to fill the battery.

    Args:
        seen: The log.
        expected: Of the same days.

    Raises:
        Wrong: If the two are of unlike length.
    """
    if expected.made_wh.size != seen.days:
        raise Wrong([_problem("expected", f"{expected.made_wh.size} days", f"{seen.days} days, as the log", "Work it for the log's own days.")])  # fmt: skip
    written = np.isfinite(seen.made_wh)
    worked = np.isfinite(expected.made_wh) & (expected.made_wh > 0.0) & np.isfinite(expected.log_sd)
    share = np.divide(
        seen.made_wh, expected.made_wh, out=np.full(seen.days, np.nan), where=written & worked
    )
    absurd = share > MOST_SHARE
    counts = written & worked & ~absurd
    full = np.where(np.isnan(seen.charge), expected.fills, seen.charge >= FULL)
    day = seen.day[counts]
    month = day.astype("datetime64[M]").astype(np.int64)
    told = (
        (int((~written).sum()), "without a figure for what the array made"),
        (int((written & ~worked).sum()), "for which nothing could be expected"),
        (
            int(absurd.sum()),
            f"with over {MOST_SHARE:.0f} times the expected: a slipped point, or another array",
        ),
    )
    return Paired(
        day,
        day.astype(np.int64),
        month % 12,
        1970 + month // 12,
        np.log(np.maximum(share[counts], LEAST_SHARE)),
        np.maximum(expected.log_sd[counts], LEAST_SD),
        full[counts].astype(bool),
        np.clip(np.nan_to_num(expected.low_sun_share[counts]), 0.0, 1.0),
        seen.snow[counts],
        tuple(f"{count} days {why}." for count, why in told if count),
    )


def _order_problems(days: Days) -> list[Problem]:
    step = np.diff(days.astype(np.int64))
    twice = sorted({str(day) for day in days[1:][step == 0]})
    if twice:
        return [_problem("day", ", ".join(twice[:5]), "one line a day", "Put the lines of a day together first.")]  # fmt: skip
    if (step < 0).any():
        return [_problem("day", "days out of order", "oldest first", "Sort the lines by day.")]
    return []


def _value_problems(seen: Seen) -> list[Problem]:
    spans = (
        ("made_wh", 0.0, 1e9, "0 Wh or more"),
        ("charge", 0.0, 1.0, "0 to 100 %"),
        ("dawn_charge", 0.0, 1.0, "0 to 100 %"),
        ("engine_h", 0.0, 24.0, "0 to 24 hours a day"),
        ("fuel_l", 0.0, 1e5, "0 litres or more"),
    )
    problems = []
    for key, least, most, allowed in spans:
        values = getattr(seen, key)
        if values.shape != (seen.days,):
            problems.append(_problem(key, f"{values.size} values", f"{seen.days}, one a day", "Give one a day."))  # fmt: skip
            continue
        bad = np.isinf(values) | (values < least) | (values > most)
        problems += [_problem(key, f"{values[nth]:g} on {seen.day[nth]}", allowed, "Look again, or leave it out.") for nth in np.flatnonzero(bad)[:3]]  # fmt: skip
    return problems


def _problem(key: str, given: str, allowed: str, do: str) -> Problem:
    return Problem("log", key, given, allowed, do)
