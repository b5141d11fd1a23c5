"""Reading a module's power off its grid for every hour; compiled, imported only where it is called."""

from __future__ import annotations

from math import log

import numpy as np
from numpy.typing import NDArray

from polestead.base.compiled import compiled

Floats = NDArray[np.float64]
Single = NDArray[np.float32]


@compiled
def power_shares(
    plane: Single,
    air: Single,
    through_glass: float,
    heat_loss: float,
    light: Floats,
    cell_c: Floats,
    grid: Floats,
) -> Single:
    """Power over that at 1000 W/m2 and 25 C for every hour [hours].

    Args:
        plane: Light on the glass [hours].
        air: [hours].
        through_glass: Share of it that gets through.
        heat_loss: Of the module [W/m2 K].
        light: The grid's light: 0, then even steps of its logarithm.
        cell_c: The grid's cell temperatures, even steps.
        grid: [light, cell temperatures].
    """
    out = np.empty(plane.size, dtype=np.float32)
    first, steps = log(light[1]), (light.size - 2) / log(light[-1] / light[1])
    per_k = 1.0 / (cell_c[1] - cell_c[0])
    for h in range(plane.size):
        in_cells = plane[h] * through_glass
        if in_cells <= 0.0:
            out[h] = 0.0
            continue
        if in_cells < light[1]:
            i, a = 0, in_cells / light[1]
        else:
            at = min(1.0 + (log(in_cells) - first) * steps, light.size - 1.000001)
            i = int(at)
            a = (in_cells - light[i]) / (light[i + 1] - light[i])
        place = (air[h] + plane[h] / heat_loss - cell_c[0]) * per_k
        place = min(max(place, 0.0), cell_c.size - 1.000001)
        j = int(place)
        b = place - j
        low = grid[i, j] + a * (grid[i + 1, j] - grid[i, j])
        high = grid[i, j + 1] + a * (grid[i + 1, j + 1] - grid[i, j + 1])
        out[h] = low + b * (high - low)
    return out
