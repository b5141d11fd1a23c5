"""The shipped one-degree table: monthly clearness and air temperature of any land point."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from importlib.resources import files

import numpy as np
from numpy.typing import NDArray

from polestead.base.problem import Problem, Wrong
from polestead.base.source import Source

Floats = NDArray[np.float64]
TABLE = Source(
    "the shipped one-degree climate table (site/PROVENANCE.md)",
    "±10 % a year, ±15 % in winter",
    "computed",
)
WINTER_ERROR, YEAR_ERROR = 0.15, 0.10
LAPSE_K_PER_M = 0.0065  # International Standard Atmosphere
NEAR_CELLS = 2  # how far from the shore a point may lie in the water of the coarse map


@dataclass(frozen=True, slots=True, eq=False)
class MonthlyClimate:
    """Monthly climate of a point, January first.

    Attributes:
        clearness: Sun on level ground over what arrives outside the air [12].
        air_c: Mean air temperature at the point's own height [12].
        cell_elevation_m: Height the table's temperature stands for.
        shore_km: Distance to the land cell it was taken from, 0 on land.
    """

    clearness: Floats
    air_c: Floats
    cell_elevation_m: float
    shore_km: float


@cache
def _grid() -> tuple[NDArray[np.bool_], NDArray[np.int64], Floats, Floats]:
    """Land mask, index of each land cell, clearness and temperature by cell; read once."""
    with np.load(str(files("polestead.site").joinpath("world_monthly_one_degree.npz"))) as stored:
        land = np.unpackbits(stored["mask"])[: 180 * 360].reshape(180, 360).astype(bool)
        clearness, air_c = stored["kt"] * 0.004, stored["tmean"] * 0.1
    index = np.full((180, 360), -1, dtype=np.int64)
    index[land] = np.arange(int(land.sum()))
    return land, index, clearness, air_c


def land_mask() -> NDArray[np.bool_]:
    """Land cells, row 0 at 89.5 N, column 0 at 179.5 W [180, 360]."""
    return _grid()[0].copy()


def is_land(latitude_deg: float, longitude_deg: float) -> bool:
    """Whether the cell of a point is land on the coarse map.

    Example:
        >>> is_land(47.9, -91.4), is_land(47.9, -41.4)
        (True, False)
    """
    row, column = _cell(latitude_deg, longitude_deg)
    return bool(_grid()[0][row, column])


def _cell(latitude_deg: float, longitude_deg: float) -> tuple[int, int]:
    row = int(np.clip(np.floor(90.0 - latitude_deg), 0, 179))
    return row, int(np.floor(longitude_deg + 180.0)) % 360


def monthly_climate(
    latitude_deg: float, longitude_deg: float, elevation_m: float
) -> MonthlyClimate:
    """The climate of a point: the four nearest cell centres weighed by distance, those in the sea left out.

    Args:
        latitude_deg: North positive.
        longitude_deg: East positive.
        elevation_m: Of the point; temperature is brought to it at 6.5 K/km from the height of the cells.

    Raises:
        Wrong: No land within two cells of the point.
    """
    land, index, clearness, air_c = _grid()
    cells = _around(latitude_deg, longitude_deg, land)
    weights = np.array([weight for *_, weight in cells])
    weights /= weights.sum()
    picked = np.array([index[row, column] for row, column, _ in cells])
    height_m = float(
        sum(w * _height_m(row, column) for w, (row, column, _) in zip(weights, cells, strict=True))
    )
    row, column, _ = cells[0]
    away = (
        0.0
        if is_land(latitude_deg, longitude_deg)
        else _km(latitude_deg, longitude_deg, row, column)
    )
    warmer = LAPSE_K_PER_M * (height_m - elevation_m)
    return MonthlyClimate(
        clearness[:, picked] @ weights, air_c[:, picked] @ weights + warmer, height_m, away
    )


def _around(
    latitude_deg: float, longitude_deg: float, land: NDArray[np.bool_]
) -> list[tuple[int, int, float]]:
    """Land cells about a point with their weights, the nearest first."""
    y, x = 89.5 - latitude_deg, longitude_deg + 179.5
    found = []
    for row in (int(np.floor(y)), int(np.floor(y)) + 1):
        for column in (int(np.floor(x)), int(np.floor(x)) + 1):
            weight = (1.0 - abs(y - row)) * (1.0 - abs(x - column))
            if 0 <= row < 180 and weight > 0.0 and land[row, column % 360]:
                found.append((row, column % 360, weight))
    return sorted(found, key=lambda cell: -cell[2]) or [_nearest(latitude_deg, longitude_deg, land)]


def _nearest(
    latitude_deg: float, longitude_deg: float, land: NDArray[np.bool_]
) -> tuple[int, int, float]:
    row0, column0 = _cell(latitude_deg, longitude_deg)
    near = [
        (row, column % 360)
        for row in range(max(row0 - NEAR_CELLS, 0), min(row0 + NEAR_CELLS, 179) + 1)
        for column in range(column0 - NEAR_CELLS, column0 + NEAR_CELLS + 1)
        if land[row, column % 360]
    ]
    if not near:
        given = f"{latitude_deg:g}, {longitude_deg:g}, which lies in the sea"
        do = "Check the signs: north and east are plus, south and west are minus; most of the Americas are minus."
        raise Wrong([Problem("place", "longitude", given, "a point on land", do)])
    row, column = min(near, key=lambda cell: _km(latitude_deg, longitude_deg, *cell))
    return row, column, 1.0


def _km(latitude_deg: float, longitude_deg: float, row: int, column: int) -> float:
    north = 89.5 - row - latitude_deg
    east = (column - 179.5 - longitude_deg + 180.0) % 360.0 - 180.0
    return float(111.2 * np.hypot(north, east * np.cos(np.radians(latitude_deg))))


@cache
def _heights() -> Floats:
    """Mean height of each land cell [cells]."""
    with np.load(str(files("polestead.site").joinpath("cell_heights.npz"))) as stored:
        return np.asarray(stored["height_m"], dtype=np.float64)


def _height_m(row: int, column: int) -> float:
    """Mean height of a land cell."""
    return float(_heights()[_grid()[1][row, column]])
