"""A rail over its supports: a continuous beam with free ends."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Bent:
    """What an even load of 1 N/m does to a rail.

    Attributes:
        largest_m2: Largest bending moment, either sign, for 1 N/m [N m per N/m].
        at_support_m2: Moments over the supports, + sags [supports].
        reactions_m: Of the supports [N per N/m].
    """

    largest_m2: float
    at_support_m2: tuple[float, ...]
    reactions_m: tuple[float, ...]


def evenly_loaded(length_from_m: float, length_to_m: float, supports_m: tuple[float, ...]) -> Bent:
    """A beam from one end to the other on supports at given places, an even load of 1 N/m all along.

    Clapeyron's three moments with the overhangs' moments known; one support alone is a clamp.
    Source: statics of the elastic beam, even section.

    Args:
        length_from_m: One free end [m].
        length_to_m: The other [m].
        supports_m: Places of the supports, rising, between the ends [m].

    Raises:
        ValueError: No support, or one outside the rail.

    Example:
        Two equal spans without overhang: the middle support bears w l^2 / 8 of hogging and 1.25 w l.

        >>> bent = evenly_loaded(0.0, 2.0, (0.0, 1.0, 2.0))
        >>> round(bent.largest_m2, 4), [round(r, 3) for r in bent.reactions_m]
        (0.125, [0.375, 1.25, 0.375])
    """
    places = np.array(supports_m, dtype=np.float64)
    if places.size == 0 or places[0] < length_from_m - 1e-9 or places[-1] > length_to_m + 1e-9:
        message = "a rail needs supports within its length"
        raise ValueError(message)
    before, after = places[0] - length_from_m, length_to_m - places[-1]
    ends = -0.5 * before**2, -0.5 * after**2
    if places.size == 1:  # clamped: both cantilevers
        return Bent(0.5 * max(before, after) ** 2, (min(ends),), (length_to_m - length_from_m,))
    spans = np.diff(places)
    moments = _three_moments(spans, *ends)
    left, right = moments[:-1], moments[1:]
    # shear just right of each support, then the place in the span where it is nothing
    shear = spans / 2.0 + (right - left) / spans
    inside = np.clip(shear, 0.0, spans)
    sag = left + shear * inside - 0.5 * inside**2
    reactions = np.zeros(places.size)
    reactions[:-1] += shear
    reactions[1:] += spans - shear
    reactions[0] += before
    reactions[-1] += after
    largest = max(float(np.abs(moments).max()), float(np.abs(sag).max()))
    return Bent(largest, tuple(moments.tolist()), tuple(reactions.tolist()))


def _three_moments(spans: Floats, first: float, last: float) -> Floats:
    """Moments over all supports, those over the outer ones known."""
    inner = spans.size - 1
    moments = np.concatenate(([first], np.zeros(inner), [last]))
    if inner:
        grid = np.zeros((inner, inner))
        right = -0.25 * (spans[:-1] ** 3 + spans[1:] ** 3)
        for row in range(inner):
            grid[row, row] = 2.0 * (spans[row] + spans[row + 1])
            if row:
                grid[row, row - 1] = spans[row]
            if row < inner - 1:
                grid[row, row + 1] = spans[row + 1]
        right[0] -= spans[0] * first
        right[-1] -= spans[-1] * last
        moments[1:-1] = np.linalg.solve(grid, right)
    return moments
