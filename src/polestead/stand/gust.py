"""Stands to: the first gust at which a part is at its limit (conventions §12), at every tilt at once."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from polestead.loads.combinations import LoadSet
from polestead.stand.actions import Acting, Met, chosen
from polestead.stand.parts.part import Part
from polestead.stand.setting import Setting

Floats = NDArray[np.float64]
Places = NDArray[np.intp]
_Uses = Callable[[Floats], Floats]  # gust at each of some tilts -> use less 1 [parts, tilts]
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
    """Smallest gust at which any part's use is 1, from every still load with gust^2 times every case of the unit wind.

    Looks upwards in steps; in the step that crosses, the case used most at its upper end is followed down to where its use is
    1; where another case is past its limit there, that one is followed on, until none is.

    Args:
        parts: The parts.
        still: Dead and snow [fields, loads, tilts].
        unit_wind: Of a 1 m/s gust [fields, winds, tilts].

    Returns:
        [tilts] each; a case's number is its load's times the winds, and its wind's.
    """
    looked_at = weakest_of_alike(parts)
    kept = _told_apart(unit_wind)
    blown = chosen(unit_wind, kept)
    bracket = _bracket(looked_at, still, blown)
    gust, every = bracket.high_m_s.copy(), bracket.high
    part, case = np.zeros((2, gust.size), dtype=np.intp)
    open_ = np.arange(gust.size)
    for _ in range(ROUNDS):
        by_case = every.max(axis=0)
        case[open_] = by_case.argmax(axis=0)
        part[open_] = every[:, case[open_], np.arange(open_.size)].argmax(axis=0)
        past = bracket.crossed[open_] & (by_case.max(axis=0) > 1.0 + CLOSE)
        open_, every = open_[past], every[:, :, past]
        if not open_.size:
            break
        gust[open_] = _followed(
            looked_at, still, blown, case[open_], open_, every, gust[open_], bracket
        )
        every = uses(looked_at, _in_gust(still, blown, gust[open_], open_))
    place = np.array([parts.index(one) for one in looked_at], dtype=np.intp)
    load, wind = np.divmod(case, len(kept))
    number = load * len(unit_wind.names) + np.array(kept, dtype=np.intp)[wind]
    return Crossing(gust, place[part], number, parts)


def _told_apart(unit_wind: Acting) -> tuple[int, ...]:
    """The cases that repeat no earlier one at every tilt."""
    values = unit_wind.values
    sums = values.sum(axis=(0, 2)).tolist()
    kept: list[int] = []
    for case, figure in enumerate(sums):
        alike = (one for one in kept if sums[one] == figure)
        if not any(np.array_equal(values[:, one], values[:, case]) for one in alike):
            kept.append(case)
    return tuple(kept)


def _in_gust(still: Acting, unit_wind: Acting, gust: Floats, columns: Places) -> Acting:
    """What acts at some tilts, each in its own gust: every load with every wind, without their names."""
    calm, blown, tilt_deg = still.values, unit_wind.values, unit_wind.tilt_deg
    if columns.size != tilt_deg.size:  # not all of them, in order
        calm, blown, tilt_deg = calm[:, :, columns], blown[:, :, columns], tilt_deg[columns]
    values = calm[:, :, None] + (np.square(gust) * blown)[:, None]
    return Acting((), (), tilt_deg, values.reshape(len(values), -1, columns.size))


def _followed(
    parts: tuple[Part, ...],
    still: Acting,
    unit_wind: Acting,
    case: Places,
    columns: Places,
    every: Floats,
    high: Floats,
    bracket: _Bracket,
) -> Floats:
    """Where the use of one case of its own at each tilt is 1 [columns].

    Args:
        parts: Looked at; those under their limit everywhere at the upper end are left out.
        still: As in ``first_crossing``.
        unit_wind: The same.
        case: Followed at each of the columns.
        columns: Tilts.
        every: Uses at the upper end [parts, cases, columns].
        high: Upper end [columns].
        bracket: Whose lower end it is.
    """
    over = every[:, case, np.arange(columns.size)]
    under = bracket.low(case, columns)
    beyond = np.asarray((over > 1.0).any(axis=1))
    some = tuple(part for part, out in zip(parts, beyond, strict=True) if out)
    load, wind = np.divmod(case, unit_wind.values.shape[1])
    calm, blown = (
        Acting((), (), acting.tilt_deg[columns], acting.values[:, row, columns][:, None])
        for acting, row in ((still, load), (unit_wind, wind))
    )

    def at(gust: Floats) -> Floats:
        acting = _in_gust(calm, blown, gust, np.arange(columns.size))
        return uses(some, acting)[:, 0] - 1.0

    return _close_in(at, bracket.low_m_s[columns], high, under[beyond] - 1.0, over[beyond] - 1.0)


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


@dataclass(frozen=True, eq=False)
class _Bracket:
    """Below and above the first crossing; both ends are 0 where it is crossed in still air, both the ceiling where never.

    Attributes:
        low_m_s, high_m_s: Its ends [tilts].
        crossed: Whether it is crossed between them [tilts].
        still: Uses in still air [parts, loads, tilts].
        winds: Cases of wind to a load.
        half: Uses at half the ceiling [parts, cases, tilts].
        high: Uses at the upper end [parts, cases, tilts].
    """

    low_m_s: Floats
    high_m_s: Floats
    crossed: NDArray[np.bool_]
    still: Floats
    winds: int
    half: Floats
    high: Floats

    def low(self, case: Places, columns: Places) -> Floats:
        """Uses at the lower end, in a case of its own at each of some tilts [parts, columns]."""
        calm = self.still[:, case // self.winds, columns]
        return np.where(self.low_m_s[columns] > 0.0, self.half[:, case, columns], calm)


def _bracket(parts: tuple[Part, ...], still: Acting, unit_wind: Acting) -> _Bracket:
    """Still air, half the ceiling, and the ceiling where that is not enough.

    In gust squared every use is the size of a straight line, or grows with sizes of straight lines: what is under 1 is one
    piece, and a coarse look finds its end.
    """
    tilts = np.arange(unit_wind.tilt_deg.size)
    winds = len(unit_wind.names)
    calm = uses(parts, still)
    half = uses(parts, _in_gust(still, unit_wind, np.full(tilts.size, CEILING_M_S / 2.0), tilts))
    past, over, high = _worst(calm) > 1.0, _worst(half) > 1.0, half
    low_m_s, high_m_s = np.zeros(tilts.size), np.where(past, 0.0, CEILING_M_S / 2.0)
    on = np.flatnonzero(~past & ~over)
    crossed = ~past
    if past.any():
        high = np.where(past, np.repeat(calm, winds, axis=1), half)
    if on.size:
        top = uses(parts, _in_gust(still, unit_wind, np.full(on.size, CEILING_M_S), on))
        crossed[on] = _worst(top) > 1.0
        low_m_s[on], high_m_s[on] = (
            np.where(crossed[on], CEILING_M_S / 2.0, CEILING_M_S),
            CEILING_M_S,
        )
        high = high.copy()
        high[:, :, on] = top
    return _Bracket(low_m_s, high_m_s, crossed, calm, winds, half, high)


def _close_in(at: _Uses, low: Floats, high: Floats, under: Floats, over: Floats) -> Floats:
    """Root of the worst use - 1 in each bracket, in gust squared.

    A line is drawn for every part and the nearest crossing tried, the end that stays counted half; every fifth round halves.

    Args:
        at: Use - 1 [parts, tilts] at each gust.
        low: Lower end [tilts].
        high: Upper end [tilts].
        under: Use - 1 at the lower [parts, tilts].
        over: The same at the upper.
    """
    low2, high2 = np.square(low), np.square(high)
    best, side = high2, np.zeros(low.size)
    for count in range(ROUNDS):
        wide = high2 - low2
        line = np.isfinite(over).all(axis=0) & (count % 5 != 4)
        rise = np.where(line & (over > 0.0), over - under, np.inf)
        far = np.where(np.isfinite(rise), -under / rise, 1.0).min(axis=0)
        best = np.clip(low2 + wide * np.where(line, far, 0.5), low2, high2)
        found = at(np.sqrt(best))
        worst = found.max(axis=0)
        if (np.abs(worst) < CLOSE).all() or wide.max() < 1e-12:
            break
        above = worst > 0.0
        # Illinois: an end that stays twice running is drawn to as if half as far off
        under = np.where(above, np.where(side > 0.0, under / 2.0, under), found)
        over = np.where(above, found, np.where(side < 0.0, over / 2.0, over))
        low2, high2 = np.where(above, low2, best), np.where(above, best, high2)
        side = np.where(above, 1.0, -1.0)
    return np.asarray(np.sqrt(best))
