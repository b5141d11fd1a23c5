"""The pole braced plumb until its concrete holds: two braces square to each other, each good for push and pull."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, radians, sin, tan

from polestead.base.source import Source
from polestead.base.working import Step, Working

AIR_KG_M3 = 1.225
DRAG = 1.2  # a round pole, slow wind: the larger of its two values
LEAN_DEG = 1.0  # out of plumb while it is set: ours
BRACE_DEG = 45.0  # from the level: ours
BRACE_AT_SHARE = 0.6  # of the pole over the ground: ours
PLUMB_SHARE = 1.0 / 500.0  # AISC 303, Code of Standard Practice, 7.13 (from memory)
GUSTS_M_S = (10.0, 20.0, 30.0)
GRAVITY_M_S2 = 9.80665
STATICS = Source("statics about the pole's foot; the green concrete holds nothing", "docs/method/build.md", "ours")  # fmt: skip


@dataclass(frozen=True, slots=True)
class BraceRow:
    """What one brace and its stake bear in one gust.

    Attributes:
        gust_m_s: At the pole, from the worst side: along one brace.
        level_n: Level force at the brace's height.
        brace_n: Along the brace, push or pull.
        stake_up_n: Of it, upwards at the stake.
    """

    gust_m_s: float
    level_n: float
    brace_n: float
    stake_up_n: float


@dataclass(frozen=True, slots=True)
class PoleBraces:
    """How the pole is kept plumb.

    Attributes:
        at_m: Where the braces meet the pole, over the ground.
        stakes_m: Stakes from the pole, level.
        long_m: Length of a brace.
        plumb_m: Top of the pole may be so far off plumb, either way.
        lean_n: Level force of the pole's own weight, leaning 1 degree.
        rows: By gust.
        words: How it is done.
        working: Of the middle gust.
    """

    at_m: float
    stakes_m: float
    long_m: float
    plumb_m: float
    lean_n: float
    rows: tuple[BraceRow, ...]
    words: str
    working: Working


def braces_of(mass_kg: float, outside_m: float, over_ground_m: float, in_ground_m: float) -> PoleBraces:  # fmt: skip
    """Two braces at 90 degrees in plan, each alone against wind and lean along it.

    About the foot: H (D + a) = W sin(1 deg) L / 2 + q Cd d h (D + h / 2).
    Source: statics; drag of a round pole 1.2.

    Args:
        mass_kg: The whole pole [kg].
        outside_m: Its diameter [m].
        over_ground_m: Of it over the ground, h [m].
        in_ground_m: Below the ground, D [m].

    Example:
        >>> braces = braces_of(370.0, 0.219, 3.15, 2.59)
        >>> [round(row.brace_n) for row in braces.rows]
        [124, 324, 657]
    """
    length_m, at_m = over_ground_m + in_ground_m, BRACE_AT_SHARE * over_ground_m
    lever_m = in_ground_m + at_m
    lean = mass_kg * GRAVITY_M_S2 * sin(radians(LEAN_DEG)) * length_m / 2.0 / lever_m
    middle_m = in_ground_m + over_ground_m / 2.0

    def level(gust: float) -> float:
        drag = AIR_KG_M3 / 2.0 * gust**2 * DRAG * outside_m * over_ground_m
        return lean + drag * middle_m / lever_m

    rows = tuple(
        BraceRow(g, level(g), level(g) / cos(radians(BRACE_DEG)), level(g) * tan(radians(BRACE_DEG)))
        for g in GUSTS_M_S
    )  # fmt: skip
    gust, shown = GUSTS_M_S[1], rows[1]
    steps = (
        Step("level force of its weight, 1 degree out of plumb", "H1", f"{mass_kg:.1f} x g x sin(1) x {length_m:.3f} / 2 / {lever_m:.3f}", lean, "N", STATICS),
        Step("and of the wind on it", "H", f"{lean:.1f} + {AIR_KG_M3} / 2 x {gust:.0f}^2 x {DRAG} x {outside_m:.4f} x {over_ground_m:.3f} x {middle_m:.3f} / {lever_m:.3f}", shown.level_n, "N", STATICS),
        Step("along one brace at 45 degrees", "F", f"{shown.level_n:.1f} / cos(45)", shown.brace_n, "N", STATICS),
    )  # fmt: skip
    return PoleBraces(
        at_m, at_m / tan(radians(BRACE_DEG)), at_m / sin(radians(BRACE_DEG)), over_ground_m * PLUMB_SHARE, lean, rows,
        "Two braces square to each other, clamped to the pole and staked so that each can push and pull; two levels or two string lines at 90 degrees; "
        "read again after the pour, and turn the aim mark to true south (north below the equator) before the last reading. They stay until the concrete has the strength asked for.",
        Working("braces of the pole", steps),
    )  # fmt: skip
