"""91 tilts x 8760 h on the plane: ours against pvlib's broadcast transposition of the same year."""

from __future__ import annotations

import time
from collections.abc import Callable

import numpy as np
from pvlib.irradiance import get_total_irradiance

from polestead.site.sunpath import SunPath, sun_path
from polestead.sun.plane import plane_at_tilts_w_m2
from polestead.sun.view import OpenSky

TILTS = np.arange(91.0)


def year() -> tuple[SunPath, np.ndarray, np.ndarray, np.ndarray]:
    """A made-up year: a clear sky of 0.7 where the sun is up, a fifth of it sky light."""
    path = sun_path(47.9, -91.4, 500.0, -6.0)
    up = np.cos(np.radians(path.zenith_deg)) > 0.06
    beam = np.where(up, 0.6 * path.extra_w_m2, 0.0)
    diffuse = 0.12 * path.extra_flat_w_m2
    return path, beam * np.cos(np.radians(path.zenith_deg)) * up + diffuse, beam, diffuse


def best_s(work: Callable[[], object], times: int = 7) -> float:
    """Least time of several runs."""
    spans = []
    for _ in range(times):
        begun = time.perf_counter()
        work()
        spans.append(time.perf_counter() - begun)
    return min(spans)


def theirs(path: SunPath, total: np.ndarray, beam: np.ndarray, diffuse: np.ndarray) -> np.ndarray:
    """pvlib's own transposition, all tilts at once."""
    found = get_total_irradiance(
        TILTS[:, None], 180.0, path.zenith_deg, path.azimuth_deg, beam, total, diffuse,
        dni_extra=path.extra_w_m2, albedo=0.25, model="haydavies",
    )  # fmt: skip
    return np.asarray(found["poa_global"])


def run() -> list[tuple[str, float, float]]:
    """(name, ratio, wanted)."""
    path, total, beam, diffuse = year()
    sky, ground = OpenSky(np.ones(8760), 1.0), np.full(8760, 0.25)

    def ours() -> np.ndarray:
        return plane_at_tilts_w_m2(path, sky, total, beam, diffuse, TILTS, 180.0, ground)

    apart = float(np.abs(ours() - theirs(path, total, beam, diffuse)).max())
    if apart > 0.5:
        message = f"the two are {apart:.2f} W/m2 apart"
        raise AssertionError(message)
    ratio = best_s(lambda: theirs(path, total, beam, diffuse)) / best_s(ours)
    return [("plane, 91 tilts x 8760 h, against pvlib's broadcast", ratio, 5.0)]
