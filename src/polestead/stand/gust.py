"""Stands to: the first gust at which a part is at its limit (conventions §12), at every tilt at once."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from polestead.loads.combinations import LoadSet
from polestead.stand.actions import Acting, Met
from polestead.stand.parts.part import Part
from polestead.stand.setting import Setting

Floats = NDArray[np.float64]
Places = NDArray[np.intp]
_Uses = Callable[[Floats], Floats]  # gust at each tilt -> use [parts, cases, tilts]
STEP_M_S = 4.0  # of the look upwards for the first crossing
CEILING_M_S = 120.0  # no gust on record is stronger; who stands to it is told so
CLOSE = 1e-9  # of the use
ROUNDS = 80


@dataclass(frozen=True, eq=False)
class Crossing:
    """First crossing at each tilt.

    Attributes:
        gust_m_s: [tilts]; 0 where a part is past its limit without wind, the ceiling where none is reached.
        part: Index of the part that is at its limit [tilts].
        case: Index of the case, in the actions of the part's own set [tilts].
        parts: The parts.
    """

    gust_m_s: Floats
    part: Places
    case: Places
    parts: tuple[Part, ...]

    def gives(self, tilt: int) -> Part:
        """The part that gives first at a tilt."""
        return self.parts[int(self.part[tilt])]

    def first(self, tilt: int) -> str:
        """Its name."""
        return self.gives(tilt).name


def uses(parts: tuple[Part, ...], acting: Acting) -> Floats:
    """Use of every part [parts, cases, tilts]; what is no number counts as endless."""
    shape = acting.values.shape[1:]
    every = np.stack([np.broadcast_to(part.use(acting), shape) for part in parts])
    return np.where(np.isnan(every), np.inf, every)


def crossing_of(setting: Setting, parts: tuple[Part, ...], gusts: Mapping[LoadSet, Met]) -> Crossing:  # fmt: skip
    """First crossing of parts that are checked in several sets of combinations.

    Args:
        setting: The mount.
        parts: At least one.
        gusts: The gust as each set meets it.
    """
    found: Crossing | None = None
    for loads, gust in gusts.items():
        some = tuple(part for part in parts if setting.set_of(part.loads) == loads)
        if some:
            here = first_crossing(some, gust.calm, gust.gusting)
            found = here if found is None else earlier(found, here)
    if found is None:
        message = "no part to look at"
        raise ValueError(message)
    return found


def first_crossing(parts: tuple[Part, ...], still: Acting, unit_wind: Acting) -> Crossing:
    """Smallest gust at which any part's use is 1, from still and gust^2 times the unit wind.

    Looks upwards in steps, then closes in on the first step that crosses, by false position with bisection as its guard.

    Args:
        parts: The parts.
        still: Dead and snow; cases as the wind's.
        unit_wind: Of a 1 m/s gust.

    Returns:
        [tilts] each.
    """

    def all_at(some: tuple[Part, ...]) -> _Uses:
        return lambda gust: uses(
            some, unit_wind.with_values(still.values + np.square(gust) * unit_wind.values)
        )

    low, high, crossed = _bracket(all_at(parts), len(unit_wind.tilt_deg))
    past = all_at(parts)(high).max(axis=(1, 2)) > 1.0
    some = tuple(part for part, gives in zip(parts, past, strict=True) if gives) or parts
    gust = np.where(crossed, _close_in(all_at(some), low, high, crossed), high)
    every = all_at(parts)(gust)
    flat = every.reshape(-1, every.shape[-1]).argmax(axis=0)
    part, case = np.unravel_index(flat, every.shape[:2])
    return Crossing(gust, part, case, parts)


def earlier(one: Crossing, other: Crossing) -> Crossing:
    """The first crossing of both sets of parts together."""
    later = other.gust_m_s < one.gust_m_s
    return Crossing(
        np.where(later, other.gust_m_s, one.gust_m_s),
        np.where(later, other.part + len(one.parts), one.part),
        np.where(later, other.case, one.case),
        one.parts + other.parts,
    )


def _worst(every: Floats) -> Floats:
    return np.asarray(every.max(axis=(0, 1)))


def _bracket(at: _Uses, tilts: int) -> tuple[Floats, Floats, NDArray[np.bool_]]:
    """Step below and above the first crossing; both 0 where it is crossed in still air, both the ceiling where never."""
    low, high = np.full(tilts, CEILING_M_S), np.full(tilts, CEILING_M_S)
    open_ = _worst(at(np.zeros(tilts))) <= 1.0
    low[~open_] = high[~open_] = 0.0
    crossed = np.zeros(tilts, dtype=bool)
    for gust in np.arange(STEP_M_S, CEILING_M_S + STEP_M_S / 2.0, STEP_M_S):
        now = open_ & (_worst(at(np.full(tilts, gust))) > 1.0)
        low[now], high[now] = gust - STEP_M_S, gust
        crossed |= now
        open_ &= ~now
        if not open_.any():
            break
    return low, high, crossed


def _close_in(at: _Uses, low: Floats, high: Floats, wanted: NDArray[np.bool_]) -> Floats:
    """Root of use - 1 in each bracket: every third round halves it, the others draw a line (in gust squared)."""
    low2, high2 = np.square(low), np.square(high)
    under = np.where(wanted, _worst(at(low)) - 1.0, -1.0)
    over = np.where(wanted, _worst(at(high)) - 1.0, 1.0)
    best = high2
    for count in range(ROUNDS):
        line = np.isfinite(over) & (count % 3 != 2)
        drawn = low2 - under * (high2 - low2) / np.where(line, over - under, 1.0)
        best = np.clip(np.where(line, drawn, (low2 + high2) / 2.0), low2, high2)
        found = np.where(wanted, _worst(at(np.sqrt(best))) - 1.0, 0.0)
        if (np.abs(found) < CLOSE).all() or (high2 - low2).max() < 1e-12:
            break
        above = found > 0.0
        high2, over = np.where(above, best, high2), np.where(above, found, over)
        low2, under = np.where(above, low2, best), np.where(above, under, found)
    return np.asarray(np.sqrt(best))
