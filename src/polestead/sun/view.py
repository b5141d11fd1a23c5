"""What the skyline takes of the beam and of the sky."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from polestead.homestead.model import View
from polestead.site.sunpath import SunPath


@dataclass(frozen=True, slots=True, eq=False)
class OpenSky:
    """What comes past the skyline.

    Attributes:
        beam_share: Share of the beam that arrives in each hour [8760].
        sky_share: Share of the sky's diffuse light that arrives.
    """

    beam_share: NDArray[np.float64]
    sky_share: float


def open_sky(view: View, path: SunPath, latitude_deg: float) -> OpenSky:
    """Shares of beam and sky that come past the skyline."""
    raise NotImplementedError
