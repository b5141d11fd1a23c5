"""The gust card as the morning uses it: what a tilt stands to as it is really set, and the way between two tilts."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import ceil, inf, isfinite

from polestead.base.quantity import in_unit, units
from polestead.base.show import Style, gust_step

AT_A_HOLE_DEG = 1.0  # a pin that finds its hole is nowhere else; ours
PROVED_WITHIN_DEG = 2.0  # set by a proved gauge; ours
UNPROVED_WITHIN_DEG = 5.0  # owner's setting error (``stand.setting``)
BY_HAND_M_S = 5.0  # moved by hand, without a drive: in calm air only; ours
TRIED_EVERY_DEG = 5.0


@dataclass(frozen=True, slots=True)
class Card:
    """Gusts at every whole degree of the travel, flattest first.

    Attributes:
        tilts_deg: [tilts].
        locked_m_s: Stands to, with the storm hold in [tilts].
        snow_m_s: The same with half-covering snow [tilts].
        rod_m_s: On the rod alone; empty without a drive [tilts].
        move_m_s: Largest gust in which it may be moved there; empty without a drive [tilts].
        has_lock: Whether the file has a storm hold.
        holes_deg: Where its pin fits; empty: anywhere.
        rod_m: Rod that shows; empty without a drive [tilts].
        key_s_per_m: Seconds of key for a metre of rod, at rated speed and loaded in the cold; None where not known.
        proved: Whether the gauge is proved by two measured pairs.
        steep_deg: Snow steep and hail steep.
        flat_deg: Storm flat.
    """

    tilts_deg: tuple[float, ...]
    locked_m_s: tuple[float, ...]
    snow_m_s: tuple[float, ...]
    rod_m_s: tuple[float, ...]
    move_m_s: tuple[float, ...]
    has_lock: bool
    holes_deg: tuple[float, ...]
    rod_m: tuple[float, ...]
    key_s_per_m: tuple[float, float] | None
    proved: bool
    steep_deg: tuple[float, float]
    flat_deg: float

    def locks_at(self, tilt_deg: float) -> bool:
        """Whether the storm hold goes in there."""
        if not self.has_lock:
            return False
        near = (abs(hole - tilt_deg) <= AT_A_HOLE_DEG for hole in self.holes_deg)
        return not self.holes_deg or any(near)

    def within_deg(self, tilt_deg: float) -> float:
        """How far off it may stand from where it was meant to."""
        if self.holes_deg and self.locks_at(tilt_deg):
            return AT_A_HOLE_DEG
        return PROVED_WITHIN_DEG if self.proved else UNPROVED_WITHIN_DEG

    def stands_to_m_s(self, tilt_deg: float, under_snow: bool = False) -> float:
        """What a tilt stands to: the weakest within the error it is set with; nothing off the travel.

        Args:
            tilt_deg: Where it is meant to be.
            under_snow: Whether snow lies on it.
        """
        first, last = self.tilts_deg[0], self.tilts_deg[-1]
        if not first - 1.0 <= tilt_deg <= last + 1.0:
            return 0.0
        gusts = self.locked_m_s if self.locks_at(tilt_deg) else (self.rod_m_s or self.locked_m_s)
        within = self.within_deg(tilt_deg)
        least = inf
        for place, tilt in enumerate(self.tilts_deg):
            if abs(tilt - tilt_deg) <= within + 0.5:
                least = min(least, gusts[place])
                if under_snow:
                    least = min(least, self.snow_m_s[place])
        return least if isfinite(least) else 0.0

    def path_under_m_s(self, one_deg: float | None, other_deg: float) -> float:
        """Least moving gust of the way, from anywhere where the start is not known.

        A way that touches a degree counts it whole, and half a degree at either end.
        """
        if not self.move_m_s:
            return BY_HAND_M_S
        ends = (self.tilts_deg[0], self.tilts_deg[-1]) if one_deg is None else (one_deg, other_deg)
        low, high = min(*ends, other_deg) - 0.5, max(*ends, other_deg) + 0.5
        on_way = [gust for tilt, gust in zip(self.tilts_deg, self.move_m_s, strict=True) if low <= tilt <= high]  # fmt: skip
        return min(on_way, default=0.0)

    def rod_at_m(self, tilt_deg: float) -> float | None:
        """Rod that shows at a tilt of the travel."""
        if not self.rod_m or not self.tilts_deg[0] <= tilt_deg <= self.tilts_deg[-1]:
            return None
        after = next(n for n, tilt in enumerate(self.tilts_deg) if tilt >= tilt_deg)
        if after == 0 or self.tilts_deg[after] == tilt_deg:
            return self.rod_m[after]
        t0, t1 = self.tilts_deg[after - 1], self.tilts_deg[after]
        share = (tilt_deg - t0) / (t1 - t0)
        return self.rod_m[after - 1] + share * (self.rod_m[after] - self.rod_m[after - 1])

    def rod_travel_m(self, one_deg: float, other_deg: float) -> float | None:
        """How far the rod runs on the way, there and back counted where it turns."""
        one, other = self.rod_at_m(one_deg), self.rod_at_m(other_deg)
        if one is None or other is None:
            return None
        low, high = sorted((one_deg, other_deg))
        ends = (one, other) if one_deg <= other_deg else (other, one)
        between = [rod for tilt, rod in zip(self.tilts_deg, self.rod_m, strict=True) if low < tilt < high]  # fmt: skip
        path = [ends[0], *between, ends[1]]
        return sum(abs(b - a) for a, b in pairwise(path))

    def tried(self, *also: float) -> Iterator[float]:
        """Tilts worth trying, flattest first: every five degrees, the holes, and those named."""
        first, last = self.tilts_deg[0], self.tilts_deg[-1]
        fives = (TRIED_EVERY_DEG * n for n in range(ceil(first / TRIED_EVERY_DEG), int(last // TRIED_EVERY_DEG) + 1))  # fmt: skip
        every = {first, last, *fives, *self.holes_deg, *also}
        yield from sorted(tilt for tilt in every if first <= tilt <= last)


def in_step_m_s(gust_m_s: float, style: Style) -> float:
    """A gust it stands to, as shown: rounded down (conventions §13), in m/s."""
    return gust_step(gust_m_s, style) * units()[unit_of(style)].factor


def up_m_s(gust_m_s: float, style: Style) -> float:
    """A gust that acts, as shown: rounded up to the whole mph or m/s, in m/s."""
    return up(gust_m_s, style) * units()[unit_of(style)].factor


def up(gust_m_s: float, style: Style) -> float:
    """The same in the owner's unit."""
    return float(ceil(in_unit(gust_m_s, unit_of(style)) - 1e-6))


def unit_of(style: Style) -> str:
    """The owner's unit of wind."""
    return "mph" if style == "feet" else "m/s"
