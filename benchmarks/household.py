"""The hourly house with all its parts, compiled: against its plain-Python twin, against nine million hours a second, on two cores."""

from __future__ import annotations

import os
import time
from concurrent.futures import ThreadPoolExecutor

import numpy as np
from tests.household.fabricated import air, battery, engine, household, sun, use
from tests.household.twin import Twin

from polestead.household.kernel import run_years
from polestead.household.run import plan_of

YEARS = 30
WANTED = 40.0
HOURS_A_SECOND = 9e6


def _house():
    """Every part at work: waiting uses, airing, tank, cold starts, equalizing, a shed."""
    return household(
        bank=battery(temperature_c=None, equalize_every_days=60.0),
        motor=engine(airing_every_days=7.0, starts_in_deep_cold=0.9, tank_l=1500.0),
        uses=[use(), use(500.0, 2.0, 8.0, 18.0, share=3 / 7, waits_days=2.0, name="wash")],
    )


def run() -> list[tuple[str, float, float]]:
    """Ratios; the results of loop and twin are held equal."""
    plan, power, outdoors = plan_of(_house(), 7, 500.0), sun(YEARS)[None], air(YEARS)
    run_years(
        plan, power[:, :1], outdoors[:1]
    )  # compiled or read from the cache before the clock starts
    fast, charges = np.inf, None
    for _ in range(3):
        start = time.perf_counter()
        charges = run_years(plan, power, outdoors)[2]
        fast = min(fast, (time.perf_counter() - start) / ((YEARS + 1) * 8760))

    twin = Twin(plan.bank, plan.inside, plan.motor, plan.waiting).run(
        plan.limits_a.tolist(), plan.efficiencies.tolist(), [power[0, :1].tolist()], plan.uses_w.tolist(), outdoors[:1].tolist(),
        plan.month.tolist(), plan.hour_of_day.tolist(),
    )  # fmt: skip
    start = time.perf_counter()
    *_, (_, _, theirs) = twin
    slow = (time.perf_counter() - start) / (2 * 8760)
    np.testing.assert_allclose(charges[0], theirs, atol=1e-9, rtol=0.0)

    cores = os.cpu_count() or 1
    with ThreadPoolExecutor(cores) as pool:
        start = time.perf_counter()
        list(pool.map(lambda _: run_years(plan, power, outdoors), range(4 * cores)))
        both = (time.perf_counter() - start) / (4 * cores * (YEARS + 1) * 8760)
    return [
        ("household loop against its plain-Python twin, per hour", slow / fast, WANTED),
        (
            "household loop on one core over nine million hours a second",
            1.0 / fast / HOURS_A_SECOND,
            1.0,
        ),
        (f"household loop on {cores} cores over one", fast / both, 0.8 * cores),
    ]
