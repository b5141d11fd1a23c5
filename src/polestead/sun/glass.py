"""What the glass and the dirt on it keep back."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

from polestead.base.quiet import solar_library

Floats = NDArray[np.float64]
ANGULAR_LOSS = 0.16  # a_r of Martin & Ruiz for clean flat glass; .20 with moderate dirt (seen in pvlib's documentation)
STEPS = 257
TILT_STEPS = 91


@dataclass(frozen=True, slots=True, eq=False)
class Glass:
    """What glass lets through, against light square to it.

    Attributes:
        beam: By the cosine of incidence, even steps 0 to 1.
        sky: Of the sky's light, by tilt, even steps 0 to 90 degrees.
        ground: Of the ground's light, the same.
    """

    beam: Floats
    sky: Floats
    ground: Floats


def clear_glass() -> Glass:
    """Glass that keeps nothing back: the plain plane."""
    return Glass(np.ones(2), np.ones(2), np.ones(2))


@cache
def module_glass(angular_loss: float = ANGULAR_LOSS) -> Glass:
    """The glass of a module after Martin & Ruiz.

    Martin & Ruiz 2001, Sol. Energy Mater. Sol. Cells 70:25 for the beam, and 2005, Prog. Photovolt. 13:75 for sky and ground,
    both through pvlib; chosen because one figure carries all three and dirt has its own published value.

    Args:
        angular_loss: a_r, .16 clean to .27 heavily dirty.

    Example:
        >>> glass = module_glass()
        >>> float(glass.beam[-1]), round(float(np.interp(0.5, np.linspace(0, 1, glass.beam.size), glass.beam)), 3)
        (1.0, 0.958)
    """
    iam = solar_library().iam
    angle = np.degrees(np.arccos(np.linspace(0.0, 1.0, STEPS)))
    beam = iam.martin_ruiz(angle, a_r=angular_loss)
    diffuse = iam.martin_ruiz_diffuse(np.linspace(0.0, 90.0, TILT_STEPS), a_r=angular_loss)
    return Glass(np.asarray(beam), np.asarray(diffuse["sky"]), np.asarray(diffuse["ground"]))


RAIN_WASHED = (0.985,) * 12


def kept_by_dirt(month_of_day: NDArray[np.int64], by_month: tuple[float, ...]) -> Floats:
    """What dirt lets through on each day [days].

    Rain-washed glass keeps 1 to 2 % back, dusty country without rain 3 % and more (common practice, no source).

    Args:
        month_of_day: 1 to 12 [days].
        by_month: January first [12].
    """
    return np.array(by_month)[month_of_day - 1]
