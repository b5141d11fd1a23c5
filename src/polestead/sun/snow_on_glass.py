"""Snow that lies on the glass: when it covers, when it slides, what it takes."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Single = NDArray[np.float32]
Floats = NDArray[np.float64]

# Marion, Schaefer, Caine & Sanchez 2013, Solar Energy 97:112 (their figures as public code prints them: seen).
SLIDES_UNDER_W_M2_K = (
    80.0  # it moves once the air is warmer than minus the light on the plane over this
)
SLIDES_PER_H = 0.197  # of the glass an hour, times the sine of the tilt
COVERS_M = (
    0.01  # a day with less fresh snow than this leaves the glass bare; theirs is 1 cm in an hour
)
MELTS_C = (
    2.0  # without room or slope to slide, what lies there goes only in air warmer than this: ours
)


def stays_share(tilt_deg: Floats) -> Floats:
    """Share of a fall that stays on bare, slippery, unobstructed glass: 1 up to 15 degrees, none from 70.

    The slope factor of cold slippery roofs, ASCE 7-16 fig. 7.4-1b (from memory); that a fall has to leave a centimetre there
    to cover the glass is ours.  Marion et al. watched arrays up to 40 degrees; on steeper glass their rule alone would keep dry
    snow for weeks of deep cold.

    Args:
        tilt_deg: Any shape.

    Example:
        >>> stays_share(np.array([10.0, 42.5, 70.0, 80.0])).tolist()
        [1.0, 0.5, 0.0, 0.0]
    """
    return np.clip((70.0 - np.asarray(tilt_deg)) / 55.0, 0.0, 1.0)


def covered_share(
    fresh_snow_m: Single,
    plane_w_m2: Single,
    air_c: Single,
    tilt_by_day_deg: Floats,
    room_to_slide: bool = True,
    sweeps: bool = False,
) -> Single:
    """Share of the glass under snow.

    Marion et al. 2013 hour by hour: fresh snow covers all of it; afterwards, in every hour in which the air is warmer than
    minus the light over 80 W/m2 a kelvin, .197 of the glass times the sine of the tilt slides free.  Assumed by us: a day
    whose fall leaves a centimetre on the slope (``stays_share``) begins covered; with no room under the low edge nothing slides; there, and
    on glass so flat that next to nothing slides, it goes in air over 2 C, about a fiftieth of the glass an hour.

    Args:
        fresh_snow_m: Fresh snow of each day [years, days].
        plane_w_m2: Light on bare glass [years, hours].
        air_c: [years, hours].
        tilt_by_day_deg: [1 or years, days].
        room_to_slide: Whether the slab finds room under the low edge.
        sweeps: Whether the owner sweeps it by 9 in the morning.

    Returns:
        0 to 1 [years, hours].
    """
    from polestead.sun.kernel import snow_cover

    return np.asarray(
        snow_cover(
            np.asarray(fresh_snow_m, dtype=np.float32), plane_w_m2, air_c, np.radians(tilt_by_day_deg), stays_share(tilt_by_day_deg), room_to_slide, sweeps,
            COVERS_M, SLIDES_UNDER_W_M2_K, SLIDES_PER_H, MELTS_C,
        )
    )  # fmt: skip


def power_left(covered: Single, rows: int) -> Single:
    """Share of the power left under snow: a row of modules partly covered gives nothing.

    Marion et al. 2013, eq. for strings side by side up the slope (seen in public code): the covered share is rounded up to whole
    rows.

    Args:
        covered: 0 to 1, any shape.
        rows: Of modules, from low edge to top edge.

    Example:
        >>> power_left(np.array([0.0, 0.2, 0.6, 1.0], dtype=np.float32), 2).tolist()
        [1.0, 0.5, 0.0, 0.0]
    """
    return np.asarray(1.0 - np.ceil(covered * np.float32(rows)) / np.float32(rows), dtype=np.float32)  # fmt: skip
