"""Logs of our own making: weather, errors and faults drawn apart from what the test believes.

Nothing here is taken from the model under test: the sky is a three-state chain, errors are heavy-tailed (Student, 5 degrees of
freedom), remember by .45 from day to day instead of .33, each calendar month of each year has its own offset, the
house's own expectation is off by months in a smooth wave, and the battery fills when there is more than the house takes.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

START = np.datetime64("2026-09-01")
SKY_SD = {
    "eye": (0.09, 0.22, 0.38),
    "measured": (0.05, 0.08, 0.12),
}  # log sd by sky: clear, broken, dull


@dataclass(frozen=True)
class Made:
    day: np.ndarray
    made_wh: np.ndarray
    expected_wh: np.ndarray
    log_sd: np.ndarray
    charge: np.ndarray
    low_sun_share: np.ndarray
    truth_by_month: np.ndarray  # logarithm of what the expectation is off, mean over many years


def season(day: np.ndarray) -> np.ndarray:
    """-1 at the shortest day, 1 at the longest (north)."""
    of_year = (day - day.astype("datetime64[Y]")).astype(int)
    return -np.cos(2.0 * np.pi * (of_year + 10) / 365.25)


def log_of(
    seed: int,
    days: int = 730,
    sun: str = "eye",
    loss=None,  # function of (days since START, low sun share, rng) -> log of what is left
    full_rule: bool = True,
    missing: float = 0.06,
    memory: float = 0.45,
) -> Made:
    rng = np.random.default_rng([20260901, seed])
    at = np.arange(days)
    day = START + at
    wave = season(day)
    sky = np.zeros(days, dtype=int)
    draws = rng.random(days)
    stay = 0.55
    clear_share = 0.30 + 0.10 * wave
    dull_share = 0.35 - 0.08 * wave
    for n in range(days):
        if n and draws[n] < stay:
            sky[n] = sky[n - 1]
        else:
            u = rng.random()
            sky[n] = 0 if u < clear_share[n] else 2 if u < clear_share[n] + dull_share[n] else 1
    sd = np.array(SKY_SD[sun])[sky]
    expected = 9000.0 * (1.0 + 0.35 * wave) * np.array([1.0, 0.6, 0.22])[sky]
    low_share = np.array([1.0, 0.6, 0.1])[sky] * np.clip(0.22 - 0.25 * wave, 0.0, 0.5)
    noise = rng.standard_t(5, days) / np.sqrt(5.0 / 3.0)
    luck = np.empty(days)
    luck[0] = noise[0]
    for n in range(1, days):
        luck[n] = memory * luck[n - 1] + np.sqrt(1.0 - memory**2) * noise[n]
    months = day.astype("datetime64[M]").astype(int)
    of_month = dict(
        zip(
            np.unique(months),
            rng.normal(0.0, 0.03 if sun == "eye" else 0.02, np.unique(months).size),
            strict=True,
        )
    )
    house = rng.normal(0.0, 0.08) + 0.05 * np.cos(2.0 * np.pi * (at / 365.25 + rng.random()))
    true = house + np.array([of_month[m] for m in months]) + sd * luck
    if loss is not None:
        true = true + np.array([loss(n, low_share[n], rng) for n in at])
    could = expected * np.exp(true)
    charge = np.full(days, np.nan)
    made = could
    if full_rule:
        room = 6500.0 * np.exp(rng.normal(0.0, 0.25, days))
        full = could > room
        made = np.where(full, room, could)
        charge = np.where(full, 1.0, rng.uniform(0.5, 0.93, days))
    kept = rng.random(days) >= missing
    calendar = months % 12
    truth = np.array([house[calendar == nth].mean() if (calendar == nth).any() else np.nan for nth in range(12)])  # fmt: skip
    return Made(
        day[kept], made[kept], expected[kept], sd[kept], charge[kept], low_share[kept], truth
    )


FIRST = 760  # day of the log a planted fault begins: two winters are known by then


def slow_dirt(n: int, low: float, rng: np.random.Generator) -> float:
    return float(np.log1p(-min(0.002 * max(n - FIRST, 0), 0.10)))


def step(lost: float):
    return lambda n, low, rng: float(np.log1p(-lost)) if n >= FIRST else 0.0


def snow_week(n: int, low: float, rng: np.random.Generator) -> float:
    return float(np.log(rng.uniform(0.02, 0.15))) if FIRST <= n < FIRST + 7 else 0.0


def trees(n: int, low: float, rng: np.random.Generator) -> float:
    return float(np.log1p(-low * min(0.18 * max(n - FIRST, 0) / 365.25, 0.85)))


FAULTS = {  # name: (loss, strings, days of the log)
    "string of 2": (step(0.5), 2, FIRST + 120),
    "string of 4": (step(0.25), 4, FIRST + 240),
    "dirt of 10 %": (slow_dirt, 2, FIRST + 500),
    "snow week": (snow_week, 2, FIRST + 60),
    "growth of trees": (trees, 2, FIRST + 1500),
}
