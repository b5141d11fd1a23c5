"""What the skyline takes of the beam and of the sky."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from polestead.base.hours import working_year
from polestead.homestead.model import Obstacle, View
from polestead.site.sunpath import SunPath

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class OpenSky:
    """What comes past the skyline.

    Attributes:
        beam_share: Share of the beam that arrives in each hour [8760].
        sky_share: Share of the sky's diffuse light that arrives on level ground.
    """

    beam_share: Floats
    sky_share: float


def open_sky(view: View, path: SunPath, latitude_deg: float) -> OpenSky:
    """Shares of beam and sky that come past the skyline.

    The sun's middle decides for the whole hour.  The sky's share weighs each direction by the cosine of its zenith, an even
    sky: a band of height h all round takes sin^2 h (geometry).

    Args:
        view: Obstacles by bearing from true north.
        path: The sun's path.
        latitude_deg: Tells which months trees are in leaf.
    """
    summer = _in_leaf(path.start_month, latitude_deg)
    beam = np.ones(path.zenith_deg.shape)
    taken = np.zeros(360)
    for obstacle in view.skyline:
        through = _through(obstacle)
        behind = _covers(obstacle, path.azimuth_deg) & (
            90.0 - path.zenith_deg < obstacle.height_deg
        )
        beam = np.where(behind, np.minimum(beam, np.where(summer, *through)), beam)
        round_ = _covers(obstacle, np.arange(360.0) + 0.5)
        share = np.sin(np.radians(obstacle.height_deg)) ** 2 * (1.0 - sum(through) / 2.0)
        taken = np.where(round_, np.maximum(taken, share), taken)
    return OpenSky(beam, float(1.0 - taken.mean()))


def _through(obstacle: Obstacle) -> tuple[float, float]:
    """Light let through in summer and in winter."""
    if obstacle.what == "ground":
        return 0.0, 0.0
    return obstacle.lets_through_summer, obstacle.lets_through_winter


def _covers(obstacle: Obstacle, bearing_deg: NDArray[np.floating]) -> NDArray[np.bool_]:
    """Whether bearings lie in the obstacle's span, which may go through north."""
    span = (obstacle.to_bearing_deg - obstacle.from_bearing_deg) % 360.0
    if span == 0.0 and obstacle.to_bearing_deg != obstacle.from_bearing_deg:
        span = 360.0
    return np.asarray((bearing_deg - obstacle.from_bearing_deg) % 360.0 <= span)


def _in_leaf(start_month: int, latitude_deg: float) -> NDArray[np.bool_]:
    """Hours of the half year in which trees carry leaves: May to October in the north."""
    month = working_year(start_month).month
    return np.isin(month, (5, 6, 7, 8, 9, 10) if latitude_deg >= 0.0 else (11, 12, 1, 2, 3, 4))
