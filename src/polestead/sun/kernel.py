"""The hot loops of the plane; compiled, imported only where they are called."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar, cast

import numpy as np
from numba import njit
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Single = NDArray[np.float32]
_F = TypeVar("_F", bound=Callable[..., object])

LEAST_COS = 0.01745  # cosine of 89 degrees, below which the light about the sun is not laid over a larger slant


def compiled(function: _F) -> _F:
    """Compile once and keep; other threads run meanwhile."""
    return cast("_F", njit(cache=True, nogil=True)(function))


@compiled
def at_tilts(tilt: Floats, first: Floats, second: Floats, even: Floats, ground: Floats) -> Floats:
    """E(t) of each hour and tilt [tilts, hours]."""
    out = np.empty((tilt.size, first.size))
    for i in range(tilt.size):
        c, s = np.cos(tilt[i]), np.sin(tilt[i])
        above, below = 0.5 * (1.0 + c), 0.5 * (1.0 - c)
        for h in range(first.size):
            out[i, h] = max(first[h] * c + second[h] * s, 0.0) + even[h] * above + ground[h] * below
    return out


@compiled
def over_years(
    tilt: Floats,
    across: Floats,
    up: Floats,
    extra: Floats,
    beam_share: Floats,
    sky_share: float,
    reflectance: Floats,
    total: Single,
    beam: Single,
    diffuse: Single,
) -> Single:
    """The same over many years with a tilt for each hour of the year [years, hours]."""
    out = np.empty(total.shape, dtype=np.float32)
    for h in range(tilt.size):
        c, s = np.cos(tilt[h]), np.sin(tilt[h])
        slant = max(up[h] * c + across[h] * s, 0.0) * beam_share[h]
        above, below = 0.5 * (1.0 + c) * sky_share, 0.5 * (1.0 - c) * reflectance[h]
        lifted, outside = 1.0 / max(up[h], LEAST_COS), 1.0 / max(extra[h], 1e-9)
        for y in range(total.shape[0]):
            index = max(beam[y, h] * outside, 0.0)
            about = beam[y, h] + diffuse[y, h] * index * lifted
            out[y, h] = about * slant + diffuse[y, h] * (1.0 - index) * above + total[y, h] * below
    return out
