"""The rod gauge: where on the rod each degree of tilt lies, for a strip to hold beside it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import pi

import numpy as np

from polestead.base.problem import Problem, Wrong
from polestead.base.show import inches
from polestead.homestead.model import Drive
from polestead.mount.linkage import COLD_SLOWER, rod_arm_m, rod_length_m
from polestead.mount.pins import as_measured

TELLS_LITTLE_M = 0.0007  # of rod for a degree: under it the eye cannot part two ticks
READ_M = 0.004  # how well a rod is read with a tape: common practice, no source


@dataclass(frozen=True, slots=True)
class Mark:
    """A tilt on the gauge.

    Attributes:
        tilt_deg: The tilt.
        rod_m: Rod that shows there.
        words: What stands at it; empty for a plain degree.
    """

    tilt_deg: float
    rod_m: float
    words: str = ""


@dataclass(frozen=True, slots=True)
class TapeLine:
    """One line of the table for him without a printer.

    Attributes:
        tilt_deg: The tilt.
        rod_m: Rod that shows.
        from_s, to_s: How long the key is held from the flattest tilt: at the drive's rated speed, and loaded in the cold;
            None where the speed is not known or the table is unproved.
    """

    tilt_deg: float
    rod_m: float
    from_s: float | None
    to_s: float | None


@dataclass(frozen=True, slots=True)
class Gauge:
    """Everything the strip and its table say.

    Attributes:
        degrees: Every whole degree of the travel, flattest first.
        stops: The two ends of the travel.
        holes: Lock holes, by number.
        stances: Storm flat and snow steep, and what else is named.
        tells_little: Spans of tilt in which a degree moves the rod so little that a level is read instead.
        longest_m: Largest rod on the strip.
        proved: Two measured pairs far apart lie on it.
        pairs: How many pairs were measured.
        table: Every five degrees and both ends.
    """

    degrees: tuple[Mark, ...]
    stops: tuple[Mark, Mark]
    holes: tuple[Mark, ...]
    stances: tuple[Mark, ...]
    tells_little: tuple[tuple[float, float], ...]
    longest_m: float
    proved: bool
    pairs: int
    table: tuple[TapeLine, ...]


def gauge_of(
    drive: Drive,
    least_tilt_deg: float,
    steepest_tilt_deg: float,
    stances: Sequence[tuple[str, float]] = (),
    holes_deg: Sequence[float] = (),
) -> Gauge:
    """The gauge of a drive over its travel, on its measured pairs where there are any.

    Source: plane geometry of the two pins (``linkage``).

    Args:
        drive: As in the file.
        least_tilt_deg: Flattest tilt, where the stop is [deg].
        steepest_tilt_deg: Steepest tilt [deg].
        stances: Name and tilt of what is written on it [deg].
        holes_deg: Tilts at which the lock's pin fits [deg].
    """
    fitted, fit = as_measured(drive)
    whole = np.arange(np.ceil(least_tilt_deg - 1e-9), np.floor(steepest_tilt_deg + 1e-9) + 1.0)

    def mark(tilt_deg: float, words: str = "") -> Mark:
        at = np.array([tilt_deg])
        return Mark(tilt_deg, float(rod_length_m(fitted, at)[0]) - fitted.retracted_length_m, words)

    degrees = tuple(mark(float(tilt)) for tilt in whole)
    stops = (mark(least_tilt_deg, "stop"), mark(steepest_tilt_deg, "stop"))
    proved = fit is not None and fit.proved
    ends = {least_tilt_deg, steepest_tilt_deg}
    rows = sorted(ends | {float(t) for t in whole if t % 5.0 == 0.0})
    return Gauge(
        degrees=degrees,
        stops=stops,
        holes=tuple(mark(tilt, str(nth)) for nth, tilt in enumerate(sorted(holes_deg), start=1)),
        stances=tuple(mark(tilt, name) for name, tilt in stances),
        tells_little=_tells_little(fitted, whole),
        longest_m=max(one.rod_m for one in (*degrees, *stops)),
        proved=proved,
        pairs=0 if fit is None else fit.pairs,
        table=tuple(_line(fitted, mark(tilt), least_tilt_deg, proved) for tilt in rows),
    )


def tilt_at_rod(gauge: Gauge, rod_m: float) -> float:
    """Tilt at which so much rod shows, between the gauge's degrees.

    Source: the gauge itself, read backwards.

    Args:
        gauge: Of the drive.
        rod_m: Rod that shows [m].

    Returns:
        Tilt [deg].

    Raises:
        Wrong: No tilt of the travel shows it, two do, or the rod tells little there: the level is read instead.
    """
    marks = sorted({*gauge.degrees, *gauge.stops}, key=lambda one: one.tilt_deg)
    found = [
        low.tilt_deg + (high.tilt_deg - low.tilt_deg) * (rod_m - low.rod_m) / (high.rod_m - low.rod_m)
        for low, high in pairwise(marks)
        if low.rod_m != high.rod_m and min(low.rod_m, high.rod_m) <= rod_m <= max(low.rod_m, high.rod_m)
    ]  # fmt: skip
    if not found:
        least, most = (pick(marks, key=lambda one: one.rod_m) for pick in (min, max))
        for end in (least, most):
            if abs(rod_m - end.rod_m) <= READ_M:
                return end.tilt_deg
        allowed = f"{1000.0 * least.rod_m:.0f} to {1000.0 * most.rod_m:.0f} mm ({inches(least.rod_m)} to {inches(most.rod_m)} in)"
        raise Wrong([Problem("drive", "rod", f"{1000.0 * rod_m:.0f} mm of rod", allowed, "Measure from the tube's end to the edge named on the gauge, or write the tilt by level.")])  # fmt: skip
    little = any(low - 1.0 <= tilt <= high + 1.0 for tilt in found for low, high in gauge.tells_little)  # fmt: skip
    if little or max(found) - min(found) > 1.0:
        given = " or ".join(f"{tilt:.0f} deg" for tilt in sorted({round(tilt) for tilt in found}))
        raise Wrong([Problem("drive", "rod", f"{1000.0 * rod_m:.0f} mm of rod, which may be {given}", "a tilt by level", "Here the rod tells little: write the tilt the level shows.")])  # fmt: skip
    return sum(found) / len(found)


def _line(drive: Drive, at: Mark, least_tilt_deg: float, proved: bool) -> TapeLine:
    if drive.speed_m_s is None or not proved:
        return TapeLine(at.tilt_deg, at.rod_m, None, None)
    path = rod_length_m(drive, np.linspace(least_tilt_deg, at.tilt_deg, 91))
    seconds = float(np.abs(np.diff(path)).sum()) / drive.speed_m_s
    return TapeLine(at.tilt_deg, at.rod_m, seconds, COLD_SLOWER * seconds)


def _tells_little(drive: Drive, whole: np.ndarray) -> tuple[tuple[float, float], ...]:
    """Spans of whole degrees in which the rod moves less than the eye parts."""
    thin = np.abs(rod_arm_m(drive, whole)) * pi / 180.0 < TELLS_LITTLE_M
    spans: list[tuple[float, float]] = []
    for tilt, is_thin in zip(whole.tolist(), thin.tolist(), strict=True):
        if is_thin and spans and spans[-1][1] == tilt - 1.0:
            spans[-1] = (spans[-1][0], tilt)
        elif is_thin:
            spans.append((tilt, tilt))
    return tuple(spans)
