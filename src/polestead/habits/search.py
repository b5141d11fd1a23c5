"""Exact search of moves over the half-months of the year."""

from __future__ import annotations

from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from polestead.base.hours import MONTH_DAYS

Floats = NDArray[np.float64]
HALVES = 24


def half_month_days() -> tuple[int, ...]:
    """Calendar day on which each half-month starts (the 1st and the 16th).

    Example:
        >>> half_month_days()[:4], len(half_month_days())
        ((1, 16, 32, 47), 24)
    """
    firsts = np.concatenate([[1], 1 + np.cumsum(MONTH_DAYS)[:-1]])
    return tuple(int(day) for first in firsts for day in (first, first + 15))


def by_half_month(by_month: Floats) -> Floats:
    """Monthly sums spread over half-months, in a straight line between the middles of the months, month sums kept.

    Args:
        by_month: [12, ...].

    Returns:
        [24, ...].
    """
    before, after = np.roll(by_month, 1, axis=0), np.roll(by_month, -1, axis=0)
    early, late = 0.75 * by_month + 0.25 * before, 0.75 * by_month + 0.25 * after
    whole = early + late
    share = np.divide(early, whole, out=np.full_like(whole, 0.5), where=whole > 0.0)
    halves = np.empty((HALVES, *by_month.shape[1:]))
    halves[0::2], halves[1::2] = by_month * share, by_month * (1.0 - share)
    return halves


def best_moves(worth: Floats, moves: int) -> tuple[tuple[int, int], ...]:
    """The dates and tilts of so many moves that are worth most, every choice tried.

    Args:
        worth: Worth of each tilt in each half-month [24, tilts].
        moves: How many moves in a year, 1 to 4.

    Returns:
        (half-month in which the move is made, index of the tilt) in order of the half-month.  Fewer moves where more
        would change nothing.
    """
    sums = np.concatenate(
        [np.zeros((1, worth.shape[1])), np.cumsum(np.tile(worth, (2, 1)), axis=0)]
    )
    if moves == 1:
        return ((0, int(np.argmax(worth.sum(axis=0)))),)
    starts = np.arange(HALVES)
    best = np.zeros((HALVES, HALVES))
    tilt = np.zeros((HALVES, HALVES), dtype=np.int64)
    for start in starts:
        for end in starts:
            stretch = sums[end + (HALVES if end <= start else 0)] - sums[start]
            tilt[start, end] = np.argmax(stretch)
            best[start, end] = stretch[tilt[start, end]]
    choices = np.array(list(combinations(range(HALVES), moves)))
    ends = np.roll(choices, -1, axis=1)
    choice = int(np.argmax(best[choices, ends].sum(axis=1)))
    found = [(int(a), int(tilt[a, b])) for a, b in zip(choices[choice], ends[choice], strict=True)]
    return without_repeats(tuple(found))


def without_repeats(found: tuple[tuple[int, int], ...]) -> tuple[tuple[int, int], ...]:
    """Leave out a move to the tilt that already holds."""
    kept = tuple(
        move for nth, move in enumerate(found) if move[1] != found[nth - 1][1]
    )  # the first follows the last, over New Year
    return kept or (found[0],)
