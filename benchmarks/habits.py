"""Four moves over the days of a year by dynamic programming, against trying choices one by one."""

from __future__ import annotations

import time
from itertools import combinations

import numpy as np

from polestead.habits.search import best_moves, worth_of

WANTED = 1.0


def run() -> list[tuple[str, float, float]]:
    """A second over the time for thirty years of climate at 91 tilts; and the time of every choice tried, scaled up, over ours."""
    rng = np.random.default_rng(1)
    season = 1.0 - 0.5 * np.cos(2.0 * np.pi * (np.arange(365) - 172.0) / 365.0)
    best = 40.0 + 25.0 * np.cos(2.0 * np.pi * (np.arange(365) - 355.0) / 365.0)
    tilts = np.arange(91.0)
    years = season * rng.uniform(0.1, 1.0, (30, 365))
    worth = (years.sum(axis=0)[:, None]) * np.cos(np.radians(tilts[None, :] - best[:, None]))
    best_moves(worth[:20, :4], 2)
    start = time.perf_counter()
    found = best_moves(worth, 4)
    ours = time.perf_counter() - start

    small = worth[::30, ::15]  # 13 days, 7 tilts: two moves tried one by one
    start = time.perf_counter()
    tried = 0
    most = -np.inf
    for days in combinations(range(small.shape[0]), 2):
        for a in range(small.shape[1]):
            for b in range(small.shape[1]):
                tried += 1
                if a != b:
                    most = max(most, worth_of(small, ((days[0], a), (days[1], b))))
    each = (time.perf_counter() - start) / tried
    start = time.perf_counter()
    same = best_moves(small, 2)
    quick = time.perf_counter() - start
    assert abs(worth_of(small, same) - most) < 1e-9 * abs(most)
    assert len(found) == 4
    return [
        ("a second over four moves, 365 days, 91 tilts", 1.0 / ours, WANTED),
        (
            "two moves of 13 days and 7 tilts: every choice tried over ours",
            each * tried / quick,
            WANTED,
        ),
    ]
