"""Made src/polestead/site/cell_heights.npz once: mean height of each land cell of the climate table.

Nine samples a cell of the altitude grid that pvlib 0.13 and later ship (BSD), depths of the sea taken as nothing.
"""

from pathlib import Path

import numpy as np
from pvlib.location import lookup_altitude

SITE = Path(__file__).parent.parent / "src/polestead/site"

if __name__ == "__main__":
    with np.load(SITE / "world_monthly_one_degree.npz") as stored:
        land = np.unpackbits(stored["mask"])[: 180 * 360].reshape(180, 360).astype(bool)
    heights = []
    for row, column in zip(*np.nonzero(land), strict=True):
        samples = [
            max(float(lookup_altitude(89.5 - row + dy, column - 179.5 + dx)), 0.0)
            for dy in (-0.33, 0.0, 0.33)
            for dx in (-0.33, 0.0, 0.33)
        ]
        heights.append(round(float(np.mean(samples))))
    np.savez_compressed(SITE / "cell_heights.npz", height_m=np.array(heights, dtype=np.int16))
