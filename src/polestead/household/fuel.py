"""What the engine burns: a straight line through two points of its sheet, or a range by fuel."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from polestead.base.problem import Problem, Wrong
from polestead.base.table import table
from polestead.homestead.model import Engine

Floats = NDArray[np.float64]
_FEET_PER_M = 1.0 / 0.3048
_MOST_HEAT_TURNED_TO_POWER = 0.45  # no small engine does better; above it a unit slipped


@dataclass(frozen=True, slots=True)
class FuelLine:
    """Fuel by hours run and energy given.

    Attributes:
        per_hour_l: Burnt by turning, whatever is drawn [l/h].
        per_wh_l: Burnt for each watt-hour given [l/Wh].
    """

    per_hour_l: float
    per_wh_l: float

    def burnt_l(self, hours: Floats, given_wh: Floats) -> Floats:
        """Fuel [l].

        Example:
            >>> FuelLine(0.5, 0.0003).burnt_l(np.array([2.0]), np.array([8000.0])).tolist()
            [3.4]
        """
        return self.per_hour_l * hours + self.per_wh_l * given_wh

    def scaled(self, by: float) -> FuelLine:
        """The same line, so many times as thirsty."""
        return FuelLine(self.per_hour_l * by, self.per_wh_l * by)

    def at_l_h(self, power_w: float) -> float:
        """Burnt per hour at a load [l/h]."""
        return self.per_hour_l + self.per_wh_l * power_w


def fuel_row(fuel: str) -> dict[str, str]:
    """The table's row of a fuel."""
    return next(row for row in table("household", "fuel") if row["fuel"] == fuel)


def heat_wh_per_l(fuel: str) -> float:
    """Heat of burning [Wh/l]; propane's is gross, the others net.

    Example:
        >>> heat_wh_per_l("propane")
        7088.0
    """
    return float(fuel_row(fuel)["heat_wh_per_l"])


def fuel_lines(engine: Engine) -> tuple[FuelLine, FuelLine]:
    """Least and most thirsty line of an engine; both the same where its sheet gives two points.

    With one point of the sheet the fuel's range is laid through that point.

    Args:
        engine: The engine section.

    Returns:
        Least and most thirsty.

    Raises:
        Wrong: If the sheet's figures cannot be.
    """
    full, half = engine.full_load_fuel_l_h, engine.half_load_fuel_l_h
    _refuse_impossible(engine)
    if full is not None and half is not None:
        line = FuelLine(2.0 * half - full, (full - half) / (0.5 * engine.power_w))
        return line, line
    ends = tuple(_default(engine, end) for end in ("least", "most"))
    if full is not None:
        ends = tuple(line.scaled(full / line.at_l_h(engine.power_w)) for line in ends)
    elif half is not None:
        ends = tuple(line.scaled(half / line.at_l_h(0.5 * engine.power_w)) for line in ends)
    return ends[0], ends[1]


def _default(engine: Engine, end: str) -> FuelLine:
    row = fuel_row(engine.fuel)
    idle, more = float(row[f"idle_{end}"]), float(row[f"more_{end}"])
    return FuelLine(idle * engine.power_w / 1000.0, more / 1000.0)


def _refuse_impossible(engine: Engine) -> None:
    """Told together: half load above full load, a line that starts below nothing, more power than heat."""
    full, half = engine.full_load_fuel_l_h, engine.half_load_fuel_l_h
    problems = []
    if full is not None and half is not None and not 0.5 * full <= half < full:
        problems.append(
            Problem(
                "household.engine",
                "half_load_fuel",
                f"{half:.2f} l/h beside {full:.2f} l/h at full load",
                f"{0.5 * full:.2f} to under {full:.2f} l/h",
                "Read both figures again from the maker's sheet.",
            )
        )
    for key, rate, share in (("full_load_fuel", full, 1.0), ("half_load_fuel", half, 0.5)):
        least = share * engine.power_w / (_MOST_HEAT_TURNED_TO_POWER * heat_wh_per_l(engine.fuel))
        if rate is not None and rate < least:
            problems.append(
                Problem(
                    "household.engine",
                    key,
                    f"{rate:.2f} l/h",
                    f"at least {least:.2f} l/h: less {engine.fuel} does not hold that much power",
                    "Look at the unit: litres or gallons, an hour or a day?",
                )
            )
    if problems:
        raise Wrong(problems)


def derated_power_w(rated_w: float, elevation_m: float) -> float:
    """Power of an engine in thin air: 3 % less for each 1,000 ft (a generator manual; seen).

    Args:
        rated_w: On the plate [W].
        elevation_m: Above the sea [m]; below it nothing is gained.

    Returns:
        What it can give [W].

    Example:
        >>> round(derated_power_w(4000.0, 2103.1))
        3172
    """
    return rated_w * max(1.0 - 0.03 * max(elevation_m, 0.0) * _FEET_PER_M / 1000.0, 0.0)


_CUBIC_FEET_PER_GAL = 36.39  # of propane gas from a US gallon of liquid: the same manual (seen)
_L_PER_GAL = 3.785411784
_COLDEST_FIRST = ("f_40", "f_30", "f_10", "f0", "f10", "f20", "f32")  # as engine.TANK_C
_FILLED_TO = 0.8  # a propane tank is full at four fifths of its own volume


def boil_off_l_h(tank_l: float) -> tuple[float, ...]:
    """What a tank of propane boils off, half full, at 40, 30 and 10 F below zero, 0, 10, 20 and 32 F.

    Source: a generator manual's table of the smallest tank by withdrawal and temperature (``tank_sizes.csv``, seen), read the
    other way round; straight lines between, through nothing for a smaller tank, held beyond the largest.  It does not fall with
    warmth (the table's own steps do, by its round tank sizes).

    Args:
        tank_l: Fuel in it when full [l].

    Returns:
        [l/h], coldest first.

    Example:
        A 500 gal tank holds 400 gal and gives 100 cubic feet an hour at -10 F.

        >>> round(boil_off_l_h(400.0 * 3.785411784)[2] / 3.785411784 * 36.39)
        100
    """
    size_gal = tank_l / _FILLED_TO / _L_PER_GAL
    rows = table("household", "tank_sizes")
    cubic_feet = [0.0] + [float(row["cfh"]) for row in rows]
    rates = [
        float(np.interp(size_gal, [0.0] + [float(row[cold]) for row in rows], cubic_feet))
        for cold in _COLDEST_FIRST
    ]
    litres = np.maximum.accumulate(rates) / _CUBIC_FEET_PER_GAL * _L_PER_GAL
    return tuple(float(rate) for rate in litres)
