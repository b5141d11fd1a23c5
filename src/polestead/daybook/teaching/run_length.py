"""How long a sequential test runs on average: what a false-alarm budget asks of its threshold, and how long a fault waits.

The run of a test is a Markov chain on a grid of its own value (Brook & Evans 1972, Biometrika 59:539).
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache

import numpy as np
from numpy.typing import NDArray

from polestead.base.source import Source

Floats = NDArray[np.float64]

BROOK_EVANS = Source("Brook & Evans 1972, Biometrika 59:539", "run length as a Markov chain", "memory")  # fmt: skip
PAGE = Source("Page 1954, Biometrika 41:100", "cumulative sum", "memory")
SHIRYAEV_ROBERTS = Source("Shiryaev 1963; Roberts 1966, Technometrics 8:411; Pollak 1985, Ann. Statist. 13:206", "sum of likelihood ratios", "memory")  # fmt: skip
CELLS = 400
LOWEST = -12.0  # of the logarithm of the sum of ratios: under it the sum is as good as nothing


def cusum_run(reference: float, threshold: float, shift: float = 0.0, cells: int = CELLS) -> float:
    """Mean run of a one-sided cumulative sum S <- max(0, S + z - k), told at S >= h, begun at nothing.

    Source: Page 1954; Brook & Evans 1972.

    Args:
        reference: k, in standard deviations.
        threshold: h, in standard deviations.
        shift: Mean of z; nothing where nothing is wrong.
        cells: Of the grid.

    Example:
        >>> round(cusum_run(0.5, 5.0), -1), round(cusum_run(0.5, 5.0, 1.0), 1)
        (930.0, 10.4)
    """
    width = 2.0 * threshold / (2 * cells - 1)
    middles = np.asarray(width * np.arange(cells), dtype=float)
    edges = np.concatenate(
        [middles - 0.5 * width, [threshold]]
    )  # the first cell takes all under it

    def passes(at: Floats) -> Floats:
        return _passes(edges, at + shift - reference, 1.0)

    return _mean_run(passes, middles, middles[:1])


def cusum_threshold(reference: float, run: float) -> float:
    """Threshold h with which a one-sided cumulative sum is wrong once in `run` steps on average.

    Args:
        reference: k, in standard deviations.
        run: Steps from one false alarm to the next.

    Example:
        >>> round(cusum_threshold(0.5, 335.4), 2)
        4.0
    """
    from scipy.optimize import brentq

    return float(brentq(lambda h: np.log(cusum_run(reference, h, cells=120) / run), 0.05, 30.0))


def ratio_sum_run(
    watched: float, threshold: float, shift: float = 0.0, cells: int = CELLS
) -> float:
    """Mean run of R <- (1 + R) x exp(d z - d^2 / 2), told at R >= A, begun at nothing.

    Source: Shiryaev 1963, Roberts 1966; R less the steps gone is a martingale while nothing is wrong, so that the run is
    at least A (Pollak 1985).  The grid is on the logarithm of R.

    Args:
        watched: d, the shift the test is made for, in standard deviations.
        threshold: A.
        shift: Mean of z.
        cells: Of the grid.

    Example:
        >>> round(ratio_sum_run(1.0, 560.37) / 1000.0, 2)
        1.0
    """
    edges = np.linspace(LOWEST, np.log(threshold), cells + 1)
    middles = 0.5 * (edges[1:] + edges[:-1])
    drift = watched * shift - 0.5 * watched**2

    def passes(at: Floats) -> Floats:
        return _passes(edges, np.log1p(np.exp(at)) + drift, watched)

    return _mean_run(passes, middles, np.array([-np.inf]))


@cache
def waits(watched: float, threshold: float) -> float:
    """Mean days until a lasting fault of the size watched for is told, by the sum of ratios.

    Args:
        watched: Size of the fault, in standard deviations of a day freed of its memory.
        threshold: Of the sum of ratios.
    """
    return ratio_sum_run(watched, threshold, watched, cells=200)


def _passes(edges: Floats, middle: Floats, sd: float) -> Floats:
    """Chance to go from each place to each cell [places, cells]."""
    from scipy.special import ndtr

    below = ndtr((edges[None, :] - middle[:, None]) / sd)
    below[:, 0] = 0.0  # all that falls under the lowest edge stays in the lowest cell
    return np.asarray(np.diff(below, axis=1))


def _mean_run(passes: Callable[[Floats], Floats], middles: Floats, start: Floats) -> float:
    left = np.eye(middles.size) - passes(middles)
    runs = np.linalg.solve(left, np.ones(middles.size))
    return float(1.0 + passes(start)[0] @ runs)
