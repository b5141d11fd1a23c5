"""What the skyline takes of the beam and of the sky."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

import numpy as np
from numpy.typing import NDArray

from polestead.base.hours import working_year
from polestead.homestead.model import Obstacle, View
from polestead.site.sunpath import SunPath
from polestead.sun.compass import declination_deg

Floats = NDArray[np.float64]
SLICES = 6  # of an hour: the sun goes behind a ridge within it
STEP_DEG = 0.5
BEARINGS = np.arange(0.0, 360.0, STEP_DEG) + STEP_DEG / 2.0


@dataclass(frozen=True, slots=True, eq=False)
class OpenSky:
    """What comes past the skyline.

    Attributes:
        beam_share: Share of the beam that arrives in each hour [8760].
        sky_share: Share of the sky's diffuse light that arrives on level ground.
    """

    beam_share: Floats
    sky_share: float


@dataclass(frozen=True, slots=True, eq=False)
class Layer:
    """One row of things on the skyline.

    Attributes:
        height_deg: Over the horizon at ``BEARINGS``; nothing where it does not stand [720].
        summer, winter: Share it lets through.
    """

    height_deg: Floats
    summer: float
    winter: float


def open_sky(
    view: View,
    path: SunPath,
    latitude_deg: float,
    longitude_deg: float = 0.0,
    elevation_m: float = 0.0,
    array_m: float | None = None,
    years_on: float = 0.0,
) -> OpenSky:
    """Shares of beam and sky that come past the skyline.

    The sun is followed through each hour in six steps.  The sky's share weighs each direction by the cosine of its zenith, an
    even sky: a band of height h all round takes sin^2 h (geometry).

    Args:
        view: Obstacles by span and readings with compass and fist.
        path: The sun's path.
        latitude_deg: Of the place; tells which months trees are in leaf.
        longitude_deg: Of the place, for a compass.
        elevation_m: The same.
        array_m: Height of the array's middle over the ground; None leaves heights as the eye saw them [m].
        years_on: How many years the trees have grown since.
    """
    layers = skyline(view, latitude_deg, longitude_deg, elevation_m, array_m, years_on)
    leaf = _in_leaf(path.start_month, latitude_deg)
    zenith, azimuth = _through_the_hour(path)
    at = (np.floor(azimuth / STEP_DEG).astype(np.int64)) % BEARINGS.size
    beam = np.ones(zenith.shape)
    taken = np.zeros(BEARINGS.size)
    for layer in layers:
        through = np.where(leaf, layer.summer, layer.winter)[:, None]
        behind = 90.0 - zenith < layer.height_deg[at]
        beam = np.where(behind, np.minimum(beam, through), beam)
        mean = 0.5 * (layer.summer + layer.winter)
        taken = np.maximum(taken, np.sin(np.radians(layer.height_deg)) ** 2 * (1.0 - mean))
    up = np.maximum(np.cos(np.radians(zenith)), 0.0)
    lit = up.sum(axis=1)
    weighed = (beam * up).sum(axis=1)
    share = np.divide(weighed, lit, out=np.ones(lit.size), where=lit > 0.0)
    return OpenSky(share, float(1.0 - taken.mean()))


def skyline(
    view: View,
    latitude_deg: float,
    longitude_deg: float,
    elevation_m: float,
    array_m: float | None = None,
    years_on: float = 0.0,
) -> tuple[Layer, ...]:
    """The rows of things on the skyline, bearings turned to true north.

    Args:
        view: Obstacles and readings.
        latitude_deg: Of the place.
        longitude_deg: The same.
        elevation_m: The same.
        array_m: Height of the array's middle over the ground [m].
        years_on: How many years the trees have grown since they were measured.

    Raises:
        PastTheModel: A compass read in years no magnetic model at hand covers.
    """
    turn = 0.0
    if view.bearings == "magnetic" and (view.readings or view.skyline):
        turn = declination_deg(latitude_deg, longitude_deg, elevation_m, view.read_on or date.max)
    layers = [_of_obstacle(one, turn, view.eye_m, array_m, years_on) for one in view.skyline]
    return (*layers, *_of_readings(view, turn))


def _of_obstacle(
    obstacle: Obstacle, turn_deg: float, eye_m: float, array_m: float | None, years_on: float
) -> Layer:
    rise = np.tan(np.radians(min(obstacle.height_deg, 89.9)))
    if obstacle.away_m is not None:
        if obstacle.what == "trees":
            rise += years_on * obstacle.grows_m / obstacle.away_m
        if array_m is not None:  # seen from the array, which stands higher or lower than the eye
            rise -= (array_m - eye_m) / obstacle.away_m
    height = float(np.degrees(np.arctan(max(rise, 0.0)))) if obstacle.height_deg < 90.0 else 90.0
    return Layer(np.where(_covers(obstacle, turn_deg), height, 0.0), *_through(obstacle))


def _through(obstacle: Obstacle) -> tuple[float, float]:
    """Light let through in summer and in winter."""
    if obstacle.what == "ground":
        return 0.0, 0.0
    return obstacle.lets_through_summer, obstacle.lets_through_winter


def _of_readings(view: View, turn_deg: float) -> tuple[Layer, ...]:
    """Straight lines between neighbouring readings.

    Each stretch is what its first reading names; the ring is closed only where its two ends lie within a quarter of it.
    """
    readings = view.reading_list
    if len(readings) < 2:
        return ()
    bearing = np.array([(one.bearing_deg + turn_deg) % 360.0 for one in readings])
    height = np.array([one.height * (view.fist_deg if one.in_fists else 1.0) for one in readings])
    ground, trees = np.zeros(BEARINGS.size), np.zeros(BEARINGS.size)
    for nth, one in enumerate(readings):
        last = nth == len(readings) - 1
        nxt = (nth + 1) % len(readings)
        span = (bearing[nxt] - bearing[nth]) % 360.0
        if last and span > 90.0:
            continue
        along = (BEARINGS - bearing[nth]) % 360.0
        line = height[nth] + (height[nxt] - height[nth]) * along / max(span, 1e-9)
        here = np.where(along <= span, line, 0.0)
        if one.trees:
            trees = np.maximum(trees, here)
        else:
            ground = np.maximum(ground, here)
    usual = Obstacle.model_validate(
        {"from_bearing": "0 deg", "to_bearing": "0 deg", "height": "0 deg", "what": "trees"}
    )
    return (
        Layer(np.minimum(ground, 90.0), 0.0, 0.0),
        Layer(np.minimum(trees, 90.0), *_through(usual)),
    )


def _covers(obstacle: Obstacle, turn_deg: float) -> NDArray[np.bool_]:
    """Which of ``BEARINGS`` lie in the obstacle's span, which may go through north."""
    span = (obstacle.to_bearing_deg - obstacle.from_bearing_deg) % 360.0
    if span == 0.0 and obstacle.to_bearing_deg != obstacle.from_bearing_deg:
        span = 360.0
    return np.asarray((BEARINGS - obstacle.from_bearing_deg - turn_deg) % 360.0 <= span)


def _through_the_hour(path: SunPath) -> tuple[Floats, Floats]:
    """Zenith and azimuth at six moments of each hour, in straight lines between the middles [8760, 6]."""
    moments = (np.arange(SLICES) + 0.5) / SLICES - 0.5
    before, after = np.roll(path.zenith_deg, 1), np.roll(path.zenith_deg, -1)
    turn = (np.diff(path.azimuth_deg, append=path.azimuth_deg[:1]) + 180.0) % 360.0 - 180.0
    back = np.roll(turn, 1)
    early = moments < 0.0
    zenith = (
        path.zenith_deg[:, None]
        + np.where(early, (path.zenith_deg - before)[:, None], (after - path.zenith_deg)[:, None])
        * moments
    )
    azimuth = path.azimuth_deg[:, None] + np.where(early, back[:, None], turn[:, None]) * moments
    return zenith, azimuth % 360.0


def _in_leaf(start_month: int, latitude_deg: float) -> NDArray[np.bool_]:
    """Hours of the half year in which trees carry leaves: May to October in the north."""
    month = working_year(start_month).month
    return np.isin(month, (5, 6, 7, 8, 9, 10) if latitude_deg >= 0.0 else (11, 12, 1, 2, 3, 4))
