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
_Uses = Callable[
    [Floats, Places], Floats
]  # gust at each of some tilts -> use [parts, cases, tilts]
STEPS = 2  # of the look upwards for the first crossing
CEILING_M_S = 120.0  # no gust on record is stronger; who stands to it is told so
CLOSE = 1e-7  # of the use
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

    def one_tilt(self, place: int) -> Crossing:
        """The same at one tilt."""
        here = slice(place, place + 1)
        return Crossing(self.gust_m_s[here], self.part[here], self.case[here], self.parts)

    def gives(self, tilt: int) -> Part:
        """The part that gives first at a tilt."""
        return self.parts[int(self.part[tilt])]

    def first(self, tilt: int) -> str:
        """Its name."""
        return self.gives(tilt).name


def uses(parts: tuple[Part, ...], acting: Acting) -> Floats:
    """Use of every part [parts, cases, tilts]; what is no number counts as endless."""
    shape = acting.values.shape[1:]
    every = np.empty((len(parts), *shape))
    for row, part in enumerate(parts):
        every[row] = part.use(acting)
    if np.isnan(every).any():
        every[np.isnan(every)] = np.inf
    return every


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

    Looks upwards in steps; in the step that crosses, the case used most at its upper end is followed down to where its use is
    1; where another case is past its limit there, that one is followed on, until none is.

    Args:
        parts: The parts.
        still: Dead and snow; cases as the wind's.
        unit_wind: Of a 1 m/s gust.

    Returns:
        [tilts] each.
    """
    looked_at = weakest_of_alike(parts)
    still, unit_wind = _told_apart(still, unit_wind)
    tilts = np.arange(unit_wind.tilt_deg.size)
    low, high, crossed = _bracket(looked_at, still, unit_wind)
    gust, open_ = np.where(crossed, high, low), tilts[crossed]
    for _ in range(ROUNDS):
        if not open_.size:
            break
        every = uses(looked_at, _in_gust(still, unit_wind, gust[open_], open_))
        worst = every.max(axis=(0, 1))
        past = worst > 1.0 + CLOSE
        open_ = open_[past]
        if open_.size:
            case = every.max(axis=0)[:, past].argmax(axis=0)
            beyond = np.asarray((every[:, case, past] > 1.0).any(axis=1))
            some = tuple(part for part, over in zip(looked_at, beyond, strict=True) if over)
            gust[open_] = _followed(some, still, unit_wind, case, open_, low[open_], gust[open_])
    every = uses(looked_at, _in_gust(still, unit_wind, gust, tilts))
    flat = every.reshape(-1, every.shape[-1]).argmax(axis=0)
    part, case = np.unravel_index(flat, every.shape[:2])
    place = np.array([parts.index(one) for one in looked_at], dtype=np.intp)
    return Crossing(gust, place[part], _number(unit_wind)[case], parts)


def _told_apart(still: Acting, unit_wind: Acting) -> tuple[Acting, Acting]:
    """Both without the cases that repeat an earlier one at every tilt; names tell which case of the whole each is."""
    both = np.concatenate([still.values, unit_wind.values])
    sums = both.sum(axis=(0, 2))
    kept: list[int] = []
    for case in range(sums.size):
        alike = (one for one in kept if sums[one] == sums[case])
        if not any(np.array_equal(both[:, one], both[:, case]) for one in alike):
            kept.append(case)
    names, sides = tuple(str(case) for case in kept), tuple(unit_wind.sides[case] for case in kept)
    return (
        Acting(names, sides, still.tilt_deg, still.values[:, kept]),
        Acting(names, sides, unit_wind.tilt_deg, unit_wind.values[:, kept]),
    )


def _number(acting: Acting) -> Places:
    """Which case of the whole each case is."""
    return np.array([int(name) for name in acting.names], dtype=np.intp)


def _in_gust(still: Acting, unit_wind: Acting, gust: Floats, columns: Places) -> Acting:
    """What acts at some tilts, each in its own gust."""
    if columns.size == unit_wind.tilt_deg.size:  # all of them, in order
        values = still.values + np.square(gust) * unit_wind.values
        return unit_wind.with_values(values)
    values = still.values[:, :, columns] + np.square(gust) * unit_wind.values[:, :, columns]
    return Acting(unit_wind.names, unit_wind.sides, unit_wind.tilt_deg[columns], values)


def _followed(
    parts: tuple[Part, ...],
    still: Acting,
    unit_wind: Acting,
    case: Places,
    columns: Places,
    low: Floats,
    high: Floats,
) -> Floats:
    """Where the use of one case of its own at each tilt is 1 [columns]."""
    calm, gusting = (
        Acting(("",), ("",), acting.tilt_deg[columns], acting.values[:, case, columns][:, None, :])
        for acting in (still, unit_wind)
    )

    def at(gust: Floats, some: Places) -> Floats:
        return uses(parts, _in_gust(calm, gusting, gust, some))

    return _close_in(at, low, high)


def weakest_of_alike(parts: tuple[Part, ...]) -> tuple[Part, ...]:
    """Of parts that bear the same force, each against one number, the weakest only: no other of them gives first."""
    least: dict[object, Part] = {}
    for part in parts:
        key = (part.demand, part.loads) if part.limit is not None else part
        other = least.get(key)
        if other is None or (part.limit or 0.0) < (other.limit or 0.0):
            least[key] = part
    return tuple(least.values())


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


def _bracket(
    parts: tuple[Part, ...], still: Acting, unit_wind: Acting
) -> tuple[Floats, Floats, NDArray[np.bool_]]:
    """Below and above the first crossing; both 0 where it is crossed in still air, both the ceiling where never.

    In gust squared every use is the size of a straight line, or grows with sizes of straight lines: what is under 1 is one
    piece, and a coarse look finds its end.
    """
    levels = np.linspace(0.0, CEILING_M_S, STEPS + 1)
    tilts = unit_wind.tilt_deg.size
    fields, cases, _ = still.values.shape
    values = still.values[:, :, None, :] + np.square(levels)[:, None] * unit_wind.values[:, :, None, :]  # fmt: skip
    at = Acting(
        unit_wind.names, unit_wind.sides, np.tile(unit_wind.tilt_deg, levels.size),
        values.reshape(fields, cases, -1),
    )  # fmt: skip
    over = _worst(uses(parts, at)).reshape(levels.size, tilts) > 1.0
    past, which = over[0], over.argmax(axis=0)
    crossed = over.any(axis=0) & ~past
    high = np.where(crossed, levels[which], np.where(past, 0.0, CEILING_M_S))
    low = np.where(crossed, high - levels[1], high)
    return low, high, crossed


def _close_in(at: _Uses, low: Floats, high: Floats) -> Floats:
    """Root of use - 1 in each bracket, in gust squared: a line drawn, the end that stays counted half; every fifth round halves."""
    low2, high2, every = np.square(low), np.square(high), np.arange(low.size)
    under, over = _worst(at(low, every)) - 1.0, _worst(at(high, every)) - 1.0
    best, side = high2, np.zeros(low.size)
    for count in range(ROUNDS):
        line = np.isfinite(over) & (count % 5 != 4)
        drawn = low2 - under * (high2 - low2) / np.where(line, over - under, 1.0)
        best = np.clip(np.where(line, drawn, (low2 + high2) / 2.0), low2, high2)
        found = _worst(at(np.sqrt(best), every)) - 1.0
        if (np.abs(found) < CLOSE).all() or (high2 - low2).max() < 1e-12:
            break
        above = found > 0.0
        # Illinois: an end that stays twice running is drawn to as if half as far off
        under = np.where(above, np.where(side > 0.0, under / 2.0, under), found)
        over = np.where(above, found, np.where(side < 0.0, over / 2.0, over))
        low2, high2 = np.where(above, low2, best), np.where(above, best, high2)
        side = np.where(above, 1.0, -1.0)
    return np.asarray(np.sqrt(best))
