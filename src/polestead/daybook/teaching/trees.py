"""The trees of the file, what their growth would take of the low sun, and the very lines the log would have written."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from polestead.base.quantity import in_unit
from polestead.base.show import Style

LEAST_CHANGE_CM = 5.0  # a year; less is no growth anyone can measure; ours


@dataclass(frozen=True, slots=True)
class Tree:
    """A row of trees in the file.

    Attributes:
        number: Of its ``[[view.skyline]]``, from 1.
        from_deg, to_deg: Bearings.
        winter: Share of light let through in winter.
        away_m: How far it stands; None where the file does not say.
        grows_m: A year, as in the file.
    """

    number: int
    from_deg: float
    to_deg: float
    winter: float
    away_m: float | None
    grows_m: float

    @property
    def words(self) -> str:
        """Which row, as the owner finds it."""
        return f"[[view.skyline]] number {self.number} (trees, {self.from_deg:.0f} to {self.to_deg:.0f} deg)"  # fmt: skip


@dataclass(frozen=True, slots=True)
class Growth:
    """Change of the low sun's light after a year in which all trees with a distance grow so much.

    Attributes:
        grows_m: Tried, rising from nothing.
        change: Of the light, nothing or under.
    """

    grows_m: tuple[float, ...]
    change: tuple[float, ...]

    def grows_for(self, change_a_year: float) -> float | None:
        """Growth that takes so much a year; None where no growth tried takes as much.

        Args:
            change_a_year: Under nothing.

        Example:
            >>> Growth((0.0, 0.5, 1.0), (0.0, -0.1, -0.3)).grows_for(-0.2)
            0.75
        """
        taken = -np.array(self.change)
        if not 0.0 < -change_a_year <= taken[-1] or (np.diff(taken) <= 0.0).any():
            return None
        return float(np.interp(-change_a_year, taken, self.grows_m))


def light_lines(trees: tuple[Tree, ...], times: float) -> tuple[str, ...]:
    """The light let through, for each row of trees as it would be written.

    Args:
        trees: Of the file.
        times: What comes past them, times the file's.

    Example:
        >>> light_lines((Tree(3, 215.0, 290.0, 0.15, None, 0.0),), 0.6)
        ('[[view.skyline]] number 3 (trees, 215 to 290 deg): lets_through_winter = "9 %" instead of "15 %"',)
    """
    return tuple(
        f'{one.words}: lets_through_winter = "{100.0 * min(times * one.winter, 1.0):.0f} %" instead of "{100.0 * one.winter:.0f} %"'
        for one in trees
    )


def growth_lines(
    trees: tuple[Tree, ...], growth: Growth | None, change_a_year: float, style: Style
) -> tuple[str, ...]:
    """The growth the log speaks for, as it would be written; without a distance the file cannot hold growth.

    Args:
        trees: Of the file.
        growth: What growth takes; None where no tree has its distance.
        change_a_year: Of the low sun's light, sure to be under nothing.
        style: Whose units.
    """
    far = [one for one in trees if one.away_m is not None]
    if not far or growth is None:
        asked = [one.words for one in trees] or ["[view]"]
        return tuple(f"{which}: the low sun loses {-change_a_year:.2f} of the file's light a year. Growth can only be written beside a distance: pace it off and write away first." for which in asked)  # fmt: skip
    grows = growth.grows_for(change_a_year)
    if grows is None:
        return (f"The low sun loses {-change_a_year:.2f} of the file's light a year, more than trees of that distance take by growing: look what stands there.",)  # fmt: skip
    if 100.0 * abs(grows - far[0].grows_m) < LEAST_CHANGE_CM:
        return ()
    return tuple(f'{one.words}: grows = "{_length(grows, style)}" a year instead of "{_length(one.grows_m, style)}"' for one in far)  # fmt: skip


def _length(length_m: float, style: Style) -> str:
    return f"{in_unit(length_m, 'ft'):.1f} ft" if style == "feet" else f"{length_m:.2f} m"
