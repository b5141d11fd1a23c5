"""Trees that grow: in which year they cut the December sun."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from polestead.base.hours import working_year
from polestead.base.source import Source
from polestead.base.working import Step, Working
from polestead.homestead.model import View
from polestead.site.sunpath import SunPath
from polestead.sun.view import open_sky

OURS = Source("the sun's path past the skyline as its trees grow", status="ours")
CUT = 0.8  # of the noon hour's beam: below this most of it goes behind trees that let half through
LOST = 0.1  # of the beam of the shortest day, 9 to 15 h by the sun


@dataclass(frozen=True, slots=True)
class GrowingTrees:
    """What growth takes of the shortest day's sun.

    Attributes:
        left_by_year: Share of the beam from 9 to 15 h by the sun on the shortest day, this year first.
        noon_cut_in_years: Years until its noon sun goes behind the trees; None within the years looked at, 0 for now.
        tenth_lost_in_years: Years until a tenth of that beam is lost that is there today; the same.
        working: How it comes about.
    """

    left_by_year: tuple[float, ...]
    noon_cut_in_years: int | None
    tenth_lost_in_years: int | None
    working: Working


def growing_trees(
    view: View,
    path: SunPath,
    latitude_deg: float,
    longitude_deg: float = 0.0,
    elevation_m: float = 0.0,
    array_m: float | None = None,
    years: int = 25,
) -> GrowingTrees | None:
    """The shortest day's sun as the trees grow; None where nothing grows.

    Args:
        view: Obstacles with ``grows`` and ``away``.
        path: The sun's path.
        latitude_deg: Of the place.
        longitude_deg: The same.
        elevation_m: The same.
        array_m: Height of the array's middle over the ground [m].
        years: How far to look.
    """
    if not any(one.what == "trees" and one.grows_m > 0.0 and one.away_m for one in view.skyline):
        return None
    day = working_year(path.start_month).day_of_year == (355 if latitude_deg >= 0.0 else 172)
    hours = np.flatnonzero(day)
    noon = hours[int(np.argmin(path.zenith_deg[hours]))]
    about = np.arange(noon - 3, noon + 4)
    up = np.maximum(np.cos(np.radians(path.zenith_deg[about])), 0.0)
    left, at_noon = [], []
    for on in range(years + 1):
        share = open_sky(view, path, latitude_deg, longitude_deg, elevation_m, array_m, float(on)).beam_share  # fmt: skip
        left.append(float((share[about] * up).sum() / max(up.sum(), 1e-9)))
        at_noon.append(float(share[noon]))
    noon_cut = next((n for n, share in enumerate(at_noon) if share < CUT), None)
    lost = next((n for n, share in enumerate(left) if share < left[0] * (1.0 - LOST)), None)
    steps = (
        Step("sun's height at noon of the shortest day", "h", "", float(90.0 - path.zenith_deg[noon]), "deg", OURS),
        Step("beam left of that day, today", "s_0", "9 to 15 h by the sun", left[0], "", OURS),
        Step(f"beam left of that day, in {years} years", f"s_{years}", "tan h + n x growth / distance", left[-1], "", OURS),
    )  # fmt: skip
    return GrowingTrees(
        tuple(left), noon_cut, lost, Working("trees before the December sun", steps)
    )
