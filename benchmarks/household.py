"""The hourly house, compiled, against its plain-Python twin doing the same sums."""

from __future__ import annotations

import time

import numpy as np
from tests.household.fabricated import air, household, sun
from tests.household.twin import Twin

from polestead.base.hours import working_year
from polestead.household.bank import bank_of, inside_of, motor_of
from polestead.household.kernel import run_years
from polestead.household.uses import uses_by_hour_w

YEARS = 50
WANTED = 40.0


def run() -> list[tuple[str, float, float]]:
    """Seconds per hour worked of the twin over those of the compiled loop, one year against many; results held equal."""
    house, year = household(), working_year(7)
    plan = (
        bank_of(house.battery),
        inside_of(house.inverter),
        motor_of(house.engine, house.battery, 500.0),
    )
    power, outdoors, uses = sun(YEARS), air(YEARS), uses_by_hour_w(house.use_list, 7)
    limits, efficiencies = np.array([80.0]), np.array([0.97])
    month, clock = year.month - 1, np.array(year.hour)

    def ours(years: int) -> np.ndarray:
        sunny = np.ascontiguousarray(power[None, :years])
        return run_years(*plan, limits, efficiencies, sunny, uses, outdoors[:years], month, clock)[
            2
        ]

    ours(1)  # compiled or read from the cache before the clock starts
    start = time.perf_counter()
    charges = ours(YEARS)
    fast = (time.perf_counter() - start) / ((YEARS + 1) * uses.size)

    twin = Twin(*plan).run(
        limits.tolist(), efficiencies.tolist(), [power[:1].tolist()], uses.tolist(), outdoors[:1].tolist(), month.tolist(),
        clock.tolist(),
    )  # fmt: skip
    start = time.perf_counter()
    *_, (_, _, theirs) = twin
    slow = (time.perf_counter() - start) / (2 * uses.size)
    np.testing.assert_allclose(charges[0], theirs, atol=1e-9, rtol=0.0)
    return [("household loop against its plain-Python twin, per hour", slow / fast, WANTED)]
