"""The hot loops of the plane; compiled, imported only where they are called."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from polestead.base.compiled import compiled
from polestead.sun.sky import BINS, KAPPA, LEAST_COS, LEAST_COS_PEREZ

Floats = NDArray[np.float64]
Single = NDArray[np.float32]


@compiled
def at_tilts(
    tilt: Floats, first: Floats, second: Floats, even: Floats, edge: Floats, ground: Floats
) -> Floats:
    """E(t) of each hour and tilt [tilts, hours]."""
    out = np.empty((tilt.size, first.size))
    for i in range(tilt.size):
        c, s = np.cos(tilt[i]), np.sin(tilt[i])
        above, below = 0.5 * (1.0 + c), 0.5 * (1.0 - c)
        for h in range(first.size):
            sky = max(even[h] * above + edge[h] * s, 0.0)
            out[i, h] = max(first[h] * c + second[h] * s, 0.0) + sky + ground[h] * below
    return out


@compiled
def perez_shares(
    beam: float, diffuse: float, zenith: float, airmass: float, extra: float, table: Floats
) -> tuple[float, float]:
    """F1 and F2 of Perez et al. 1990, Solar Energy 44:271: brightening about the sun and along the horizon.

    Args:
        beam: Square to the sun [W/m2].
        diffuse: On level ground [W/m2].
        zenith: Of the sun [rad].
        airmass: Relative; not a number under the horizon.
        extra: Outside the air [W/m2].
        table: The published coefficients [8, 6].

    Returns:
        F1, F2.
    """
    if diffuse <= 0.0 or not airmass > 0.0:
        return 0.0, 0.0
    cube = KAPPA * zenith * zenith * zenith
    clear = ((diffuse + beam) / diffuse + cube) / (1.0 + cube)
    row = 0
    for edge in BINS:
        if clear >= edge:
            row += 1
    bright = diffuse * airmass / extra
    f = table[row]
    return max(f[0] + f[1] * bright + f[2] * zenith, 0.0), f[3] + f[4] * bright + f[5] * zenith


@compiled
def perez_by_hour(
    beam: Floats, diffuse: Floats, zenith: Floats, airmass: Floats, extra: Floats, table: Floats
) -> tuple[Floats, Floats]:
    """F1 and F2 of many years [years, hours]; zenith, airmass and light outside the air hold for each."""
    first, edge = np.empty(diffuse.shape), np.empty(diffuse.shape)
    for y in range(diffuse.shape[0]):
        for h in range(diffuse.shape[1]):
            first[y, h], edge[y, h] = perez_shares(
                beam[y, h], diffuse[y, h], zenith[h], airmass[h], extra[h], table
            )
    return first, edge


@compiled
def _read(table: Floats, at: float) -> float:
    """A table of even steps from 0 to 1, in a straight line between them."""
    place = min(max(at, 0.0), 1.0) * (table.size - 1)
    left = min(int(place), table.size - 2)
    return float(table[left] + (place - left) * (table[left + 1] - table[left]))


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
    zenith: Floats,
    airmass: Floats,
    perez: Floats,
    through_beam: Floats,
    through_sky: Floats,
    through_ground: Floats,
) -> Single:
    """Many years on a plane whose tilt [rad] holds for a day [years, hours]; see ``plane_over_years_w_m2``.

    Tilt and reflectance have a row for each year or one for all; Perez' coefficients have no rows for Hay and Davies; what
    the glass lets through stands by the cosine of incidence and by tilt, in even steps.
    """
    years, hours = total.shape
    out = np.empty((years, hours), dtype=np.float32)
    for y in range(years):
        row, ground_row = min(y, tilt.shape[0] - 1), min(y, reflectance.shape[0] - 1)
        for day in range(hours // 24):
            t = tilt[row, day]
            c, s = np.cos(t), np.sin(t)
            part = t / (0.5 * np.pi)
            above = 0.5 * (1.0 + c) * sky_share * _read(through_sky, part)
            below = 0.5 * (1.0 - c) * reflectance[ground_row, day] * _read(through_ground, part)
            edge = s * sky_share * _read(through_sky, part)
            for h in range(24 * day, 24 * day + 24):
                if total[y, h] <= 0.0 and beam[y, h] <= 0.0:
                    out[y, h] = 0.0
                    continue
                slant = max(up[h] * c + across[h] * s, 0.0)
                slant *= beam_share[h] * _read(through_beam, slant)
                d, b = diffuse[y, h], max(beam[y, h], 0.0)
                if perez.shape[0] > 0:
                    f1, f2 = perez_shares(b, d, zenith[h], airmass[h], extra[h], perez)
                    about = b + d * f1 / max(up[h], LEAST_COS_PEREZ)
                    sky = max(d * ((1.0 - f1) * above + f2 * edge), 0.0)
                else:
                    index = b / max(extra[h], 1e-9)
                    about = b + d * index / max(up[h], LEAST_COS)
                    sky = d * (1.0 - index) * above
                out[y, h] = about * slant + sky + total[y, h] * below
    return out


@compiled
def daily_sums(
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
    """Energy of each day at each tilt, Hay and Davies, glass left aside [tilts, years, days] [Wh/m2]."""
    years, hours = total.shape
    days = hours // 24
    out = np.zeros((tilt.size, years, days), dtype=np.float32)
    cosines, sines = np.cos(tilt), np.sin(tilt)
    for y in range(years):
        ground_row = min(y, reflectance.shape[0] - 1)
        for day in range(days):
            light, ground = 0.0, 0.0
            for h in range(24 * day, 24 * day + 24):
                if total[y, h] <= 0.0:
                    continue
                index = max(beam[y, h], 0.0) / max(extra[h], 1e-9)
                about = max(beam[y, h], 0.0) + diffuse[y, h] * index / max(up[h], LEAST_COS)
                first = about * up[h] * beam_share[h]
                second = about * across[h] * beam_share[h]
                light += diffuse[y, h] * (1.0 - index)
                ground += total[y, h]
                for i in range(tilt.size):
                    out[i, y, day] += max(first * cosines[i] + second * sines[i], 0.0)
            for i in range(tilt.size):
                out[i, y, day] += 0.5 * (1.0 + cosines[i]) * light * sky_share
                out[i, y, day] += 0.5 * (1.0 - cosines[i]) * ground * reflectance[ground_row, day]
    return out


MELTS_AS_SLOPE = (
    0.1  # snow that cannot slide goes in warm air as if it lay on so little slope: ours
)


@compiled
def snow_cover(
    fresh_m: Single,
    plane: Single,
    air: Single,
    tilt: Floats,
    stays: Floats,
    room: bool,
    sweeps: bool,
    covers_m: float,
    slide_w_m2_k: float,
    slide_per_h: float,
    melts_c: float,
) -> Single:
    """Share of the glass under snow at each hour [years, hours]; the rule stands in ``snow_on_glass``."""
    years, hours = plane.shape
    out = np.empty((years, hours), dtype=np.float32)
    covered = 0.0
    for y in range(years):
        row = min(y, tilt.shape[0] - 1)
        for h in range(hours):
            day = h // 24
            if h % 24 == 0 and fresh_m[y, day] * stays[row, day] >= covers_m:
                covered = 1.0
            elif covered > 0.0:
                slope = np.sin(tilt[row, day])
                slides = air[y, h] > -plane[y, h] / slide_w_m2_k
                warm = air[y, h] > melts_c
                if slides and (room or warm):
                    covered = max(covered - slide_per_h * slope, 0.0)
                if warm and (not room or slope < MELTS_AS_SLOPE):  # flat glass melts clear too
                    covered = max(covered - slide_per_h * MELTS_AS_SLOPE, 0.0)
                if sweeps and h % 24 == 9:
                    covered = 0.0
            out[y, h] = covered
    return out
