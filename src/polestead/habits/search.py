"""Exact search of moves over the days of the year: dynamic programming, round and round the calendar."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from polestead.base.hours import DAYS, MONTH_STARTS, between_months

Floats = NDArray[np.float64]
Moves = tuple[tuple[int, int], ...]
# the 1st and the 15th of each month, counted from 0
ROUND_DAYS = tuple(sorted([*MONTH_STARTS, *(day + 14 for day in MONTH_STARTS)]))
ROUND_COSTS = 0.002  # share of the worth that may be given for round dates; ours


def best_moves(
    worth: Floats, moves: int, per_move: float = 0.0, no_move: NDArray[np.bool_] | None = None
) -> Moves:
    """The days and tilts of at most so many moves that are worth most, in a year that follows itself.

    Dynamic programming over days; for each tilt that holds over New Year, the best worth so far by number of moves made and
    tilt held is carried from day to day.  Exact: nothing is tried twice and nothing left out.

    Args:
        worth: Of each tilt on each day; minus infinity where it may not stand [days, tilts].
        moves: Most moves in a year; 1 and 0 both mean that it is set once and stays.
        per_move: What a move costs, in the unit of worth.
        no_move: Days on which nobody is there to move it [days].

    Returns:
        (day counted from 0, index of the tilt) in order; one pair on day 0 where it stays.

    Raises:
        ValueError: No tilt may stand on some day, or none can be kept.

    Example:
        >>> worth = np.zeros((6, 2))
        >>> worth[:3, 0] = worth[3:, 1] = 1.0
        >>> best_moves(worth, 2)
        ((0, 0), (3, 1))
    """
    days, tilts = worth.shape
    most = moves if moves >= 2 else 0
    tie = 1e-12 * float(np.abs(worth[np.isfinite(worth)]).sum() + 1.0)
    cost = per_move + tie  # fewer moves where more would change nothing
    held = np.full((tilts, most + 1, tilts), -np.inf)  # tilt of New Year, moves made, tilt held
    held[np.arange(tilts), 0, np.arange(tilts)] = worth[0]
    came_from = np.full((days, tilts, most + 1), -1, dtype=np.int16)
    moved = np.zeros((days, tilts, most + 1, tilts), dtype=np.bool_)
    for day in range(1, days):
        if most and (no_move is None or not no_move[day]):
            best = held.max(axis=2)
            came_from[day] = held.argmax(axis=2)
            switched = np.full_like(held, -np.inf)
            switched[:, 1:] = best[:, :-1, None] - cost
            moved[day] = switched > held
            held = np.maximum(held, switched)
        held = held + worth[day]
    return _traced(held, came_from, moved, most, cost, no_move)


def _traced(
    held: Floats,
    came_from: NDArray[np.int16],
    moved: NDArray[np.bool_],
    most: int,
    cost: float,
    no_move: NDArray[np.bool_] | None,
) -> Moves:
    """The year's end joined to its start, and the way back."""
    ends = held.copy()
    joins = most and (no_move is None or not no_move[0])
    for first in range(
        ends.shape[0]
    ):  # a last tilt that is not the first is a move on New Year's day
        other = np.arange(ends.shape[2]) != first
        ends[first, most, other] = -np.inf
        if joins:
            ends[first, :most, other] -= cost
        else:
            ends[first][:, other] = -np.inf
    if not np.isfinite(ends.max()):
        message = "no tilt may stand all year, and there are too few moves to change it"
        raise ValueError(message)
    first, made, last = (int(n) for n in np.unravel_index(int(np.argmax(ends)), ends.shape))
    found, tilt = [], last
    for day in range(moved.shape[0] - 1, 0, -1):
        if moved[day, first, made, tilt]:
            found.append((day, tilt))
            tilt, made = int(came_from[day, first, made - 1]), made - 1
    if last != first:
        found.append((0, first))
    return tuple(reversed(found)) or ((0, first),)


def worth_of(worth: Floats, moves: Moves) -> float:
    """What given moves are worth in a year that follows itself, moving itself left out.

    Args:
        worth: [days, tilts].
        moves: (day counted from 0, index of the tilt) in order.
    """
    days = np.array([day for day, _ in moves])
    tilts = np.array([tilt for _, tilt in moves])
    held = tilts[np.searchsorted(days, np.arange(worth.shape[0]), side="right") - 1]
    return float(worth[np.arange(worth.shape[0]), held].sum())


def on_round_dates(worth: Floats, moves: Moves, costs: float = ROUND_COSTS) -> Moves:
    """The same moves on the 1st or the 15th of a month, where that gives away hardly anything.

    Args:
        worth: [365, tilts].
        moves: As found.
        costs: Share of the worth that may be given.

    Returns:
        Moves, each on the better of the two round dates about it; as found where that costs more.
    """
    if len(moves) < 2:
        return moves
    limit = worth_of(worth, moves) * (1.0 - costs)
    rounded = list(moves)
    for nth, (day, tilt) in enumerate(moves):
        place = int(np.searchsorted(ROUND_DAYS, day, side="right"))
        near = {ROUND_DAYS[place - 1], ROUND_DAYS[place % len(ROUND_DAYS)]}
        tried = [tuple(sorted([*rounded[:nth], (other, tilt), *rounded[nth + 1 :]])) for other in sorted(near)]  # fmt: skip
        fits = [one for one in tried if len({d for d, _ in one}) == len(moves)]
        if not fits:
            return moves
        best = max(fits, key=lambda one: worth_of(worth, one))
        if [t for _, t in best] != [t for _, t in rounded]:  # it went over New Year
            return moves
        rounded = list(best)
    return tuple(rounded) if worth_of(worth, tuple(rounded)) >= limit else moves


def by_day(by_month: Floats) -> Floats:
    """Monthly figures laid over the days of the calendar year, in a straight line between the middles of the months.

    Args:
        by_month: January first [12, ...].

    Returns:
        [365, ...].
    """
    flat = np.asarray(by_month, dtype=np.float64).reshape(12, -1)
    days = np.arange(DAYS) + 0.5
    columns = [between_months(column, days) for column in flat.T]
    return np.array(columns).T.reshape(DAYS, *np.shape(by_month)[1:])


def allowed_angles(
    tilts_deg: Floats,
    least_tilt_deg: float,
    steepest_tilt_deg: float,
    edge_m: Floats | None = None,
    wanted_edge_m: Floats | None = None,
    stands_m_s: Floats | None = None,
    wanted_stands_m_s: Floats | None = None,
) -> NDArray[np.bool_]:
    """Which tilts may stand on which day: travel, clearance over lying snow, gust, as plain numbers from the rooms above.

    Args:
        tilts_deg: [tilts].
        least_tilt_deg: Of the travel.
        steepest_tilt_deg: Of the travel.
        edge_m: Lowest edge over the ground at each tilt [tilts].
        wanted_edge_m: What it must be on each day [365].
        stands_m_s: Gust each tilt stands to [tilts].
        wanted_stands_m_s: Gust it must stand to on each day [365].

    Returns:
        [365, tilts].
    """
    inside = (tilts_deg >= least_tilt_deg - 1e-9) & (tilts_deg <= steepest_tilt_deg + 1e-9)
    allowed = np.tile(inside, (DAYS, 1))
    if edge_m is not None and wanted_edge_m is not None:
        allowed &= edge_m[None, :] >= wanted_edge_m[:, None]
    if stands_m_s is not None and wanted_stands_m_s is not None:
        allowed &= stands_m_s[None, :] >= wanted_stands_m_s[:, None]
    return allowed
