"""One day of sun past the skyline: when it stands clear, what takes it and when."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from itertools import groupby
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from polestead.homestead.model import View
from polestead.site.day_path import day_path
from polestead.sun.view import BEARINGS, STEP_DEG, Layer, skyline

Floats = NDArray[np.float64]
SHORT_GAP_MIN = 15  # a clear stretch shorter than this between two lost ones counts as lost; ours
CLEAR = -1


@dataclass(frozen=True, slots=True)
class Lost:
    """A stretch of the day with something before the sun.

    Attributes:
        from_h, to_h: Local standard time, hours after midnight.
        what: Ground (with hills and buildings), or trees.
        bearing_deg: Of the sun at its middle, from true north.
        lets_through: Share of the beam that comes past all the same.
    """

    from_h: float
    to_h: float
    what: Literal["ground", "trees"]
    bearing_deg: float
    lets_through: float


@dataclass(frozen=True, slots=True, eq=False)
class DaySeen:
    """The sun of one day, minute by minute while it is over a level horizon.

    Attributes:
        on: The date.
        clock_h: Local standard time of each minute, hours after midnight [n].
        height_deg, azimuth_deg: Of the sun [n].
        hidden: Whether something stands before it [n].
        lost: The stretches lost, in order.
        up_h: Hours over a level horizon.
        clear_h: Hours with nothing before it; clear stretches under 15 minutes between lost ones left out.
    """

    on: date
    clock_h: Floats
    height_deg: Floats
    azimuth_deg: Floats
    hidden: NDArray[np.bool_]
    lost: tuple[Lost, ...]
    up_h: float
    clear_h: float


def day_seen(
    view: View,
    latitude_deg: float,
    longitude_deg: float,
    elevation_m: float,
    clock_offset_hours: float,
    on: date,
    array_m: float | None = None,
) -> DaySeen:
    """The sun of one day past a skyline.

    Source: the sun by pvlib's solar position algorithm (Reda & Andreas, NREL/TP-560-34302, seen); the skyline as in
    ``sun.view``.  Every crown counts as before the sun, bare or not; what it lets through stands beside.

    Args:
        view: Obstacles and readings.
        latitude_deg: North positive.
        longitude_deg: East positive.
        elevation_m: Over the sea.
        clock_offset_hours: Local standard time minus UTC.
        on: The date.
        array_m: Height of the array's middle over the ground [m]; None: as the eye saw it.

    Example:
        >>> day = day_seen(View(), 51.48, 0.0, 0.0, 0.0, date(2026, 12, 21))
        >>> round(day.up_h, 1), day.clear_h == day.up_h, day.lost
        (7.8, True, ())
    """
    path = day_path(latitude_deg, longitude_deg, elevation_m, clock_offset_hours, on)
    up = path.height_deg > 0.0
    clock, height, azimuth = path.clock_h[up], path.height_deg[up], path.azimuth_deg[up]
    layers = skyline(view, latitude_deg, longitude_deg, elevation_m, array_m)
    before = _smoothed(_before(layers, height, azimuth, _in_leaf(on, latitude_deg)), clock)
    lost = tuple(_lost(layers, before, clock, azimuth, _in_leaf(on, latitude_deg)))
    hidden = before != CLEAR
    return DaySeen(
        on, clock, height, azimuth, hidden, lost, clock.size / 60.0, float((~hidden).sum()) / 60.0
    )


def _before(
    layers: Sequence[Layer], height: Floats, azimuth: Floats, leaf: bool
) -> NDArray[np.int64]:
    """Which layer stands before the sun, the one that takes most of it; -1 for none."""
    at = np.floor(azimuth / STEP_DEG).astype(np.int64) % BEARINGS.size
    found = np.full(height.size, CLEAR)
    for nth in sorted(range(len(layers)), key=lambda n: -_through(layers[n], leaf)):
        found = np.where(height < layers[nth].height_deg[at], nth, found)
    return found


def _smoothed(before: NDArray[np.int64], clock: Floats) -> NDArray[np.int64]:
    """Short clear gaps taken by what follows; one at sunrise or sunset is between the ground and what follows."""
    smoothed = before.copy()
    stretches = _stretches(before)
    for nth, (start, stop, what) in enumerate(stretches):
        between = 0 < nth < len(stretches) - 1
        if what == CLEAR and between and _breaks(clock, start, stop) and stop - start < SHORT_GAP_MIN:  # fmt: skip
            smoothed[start:stop] = stretches[nth + 1][2]
    return smoothed


def _breaks(clock: Floats, start: int, stop: int) -> bool:
    """Whether a stretch is of one piece: past midnight the sun's day may come in two."""
    return bool(clock[stop - 1] - clock[start] < (stop - start) / 60.0 + 1e-6)


def _stretches(before: NDArray[np.int64]) -> list[tuple[int, int, int]]:
    found, at = [], 0
    for what, run in groupby(before.tolist()):
        many = len(list(run))
        found.append((at, at + many, int(what)))
        at += many
    return found


def _lost(
    layers: Sequence[Layer], before: NDArray[np.int64], clock: Floats, azimuth: Floats, leaf: bool
) -> list[Lost]:
    found = []
    for start, stop, what in _stretches(before):
        if what == CLEAR:
            continue
        layer = layers[what]
        kind: Literal["ground", "trees"] = "trees" if max(layer.summer, layer.winter) > 0.0 else "ground"  # fmt: skip
        found.append(Lost(float(clock[start]), float(clock[stop - 1]) + 1.0 / 60.0, kind, float(azimuth[(start + stop) // 2]), _through(layer, leaf)))  # fmt: skip
    return found


def _through(layer: Layer, leaf: bool) -> float:
    return layer.summer if leaf else layer.winter


def _in_leaf(on: date, latitude_deg: float) -> bool:
    """The half year in which trees carry leaves, as ``sun.view`` has it."""
    return (5 <= on.month <= 10) == (latitude_deg >= 0.0)
