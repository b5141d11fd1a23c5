"""What is known of the house, so that a slip of the pen is seen before it is written down."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from polestead.base.show import Style

if TYPE_CHECKING:  # slow to read in, and the morning line reads a daybook without it
    from polestead.homestead.model import Household, Mount, NewArray

Key = Literal[
    "tilt_deg", "rod_m", "charge", "rest_v", "new_wh", "all_wh", "engine_hours", "engine_meter_hours",
    "filled_l", "tank_l", "tank_share", "snow", "snow_share", "gust_m_s", "bank_c",
]  # fmt: skip
# A day makes no more than its rating in so many hours: the longest clear day on a tilting plane stays well under it; ours.
MOST_SUN_H = 16.0
# Of the nominal voltage, empty and just off a charge: ours, wide.
LEAST_REST, MOST_REST = 0.75, 1.35
# A battery in any room or shed: ours, wide.
BANK_SPAN_C = (-45.0, 60.0)
# A level laid on the glass, and stops a little off their plan: ours.
PLAY_DEG = 5.0


@dataclass(frozen=True, slots=True)
class House:
    """What is known of the house, so that a slip of the pen is seen; what is not known is None.

    Attributes:
        least_tilt_deg, steepest_tilt_deg: Ends of the travel.
        nominal_v: Of the battery.
        new_w: Rating of the new array.
        all_w: Rating of all arrays.
        tank_l: Fuel on the place when full.
        style: Units he is told in.
    """

    least_tilt_deg: float | None = None
    steepest_tilt_deg: float | None = None
    nominal_v: float | None = None
    new_w: float | None = None
    all_w: float | None = None
    tank_l: float | None = None
    style: Style = "metric"


UNKNOWN = House()


def house_of(mount: Mount, household: Household, array: NewArray, style: Style) -> House:
    """What the homestead file knows of it.

    Args:
        mount: For the travel.
        household: For battery, old arrays and tank.
        array: For its rating.
        style: Units he is told in.
    """
    new_w = array.columns * array.rows * array.module.power_w
    engine = household.engine
    return House(
        mount.least_tilt_deg, mount.steepest_tilt_deg, household.battery.nominal_v, new_w,
        new_w + sum(old.power_w for old in household.old_array), None if engine is None else engine.tank_l, style,
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class Span:
    """What a figure may be.

    Attributes:
        key: Field of ``Entry``.
        name: As the owner calls it.
        least, most: Ends, both allowed.
        unit: SI, empty for a share.
    """

    key: Key
    name: str
    least: float
    most: float
    unit: str


def spans(house: House = UNKNOWN) -> tuple[Span, ...]:
    """What each figure may be in this house.

    Args:
        house: What is known of it.
    """
    least = max((house.least_tilt_deg or 0.0) - PLAY_DEG, 0.0)
    most = min((90.0 if house.steepest_tilt_deg is None else house.steepest_tilt_deg) + PLAY_DEG, 90.0)  # fmt: skip
    volts = (1.0, 1500.0) if house.nominal_v is None else (LEAST_REST * house.nominal_v, MOST_REST * house.nominal_v)  # fmt: skip
    tank = 50e3 if house.tank_l is None else 1.05 * house.tank_l
    return (
        Span("tilt_deg", "tilt", least, most, "deg"),
        Span("rod_m", "rod", 0.0, 3.0, "m"),
        Span("charge", "charge", 0.0, 1.0, ""),
        Span("rest_v", "rest voltage", *volts, "V"),
        Span("new_wh", "made by the new array", 0.0, _most_wh(house.new_w), "Wh"),
        Span("all_wh", "made by all arrays", 0.0, _most_wh(house.all_w), "Wh"),
        Span("engine_hours", "engine hours", 0.0, 24.0, "h"),
        Span("engine_meter_hours", "engine's meter", 0.0, 1e6, "h"),
        Span("filled_l", "fuel filled", 0.0, tank, "l"),
        Span("tank_l", "fuel in the tank", 0.0, tank, "l"),
        Span("tank_share", "tank", 0.0, 1.0, ""),
        Span("snow_share", "snow", 0.0, 1.0, ""),
        Span("gust_m_s", "gust", 0.0, 115.0, "m/s"),
        Span("bank_c", "bank", *BANK_SPAN_C, "C"),
    )


def _most_wh(rating_w: float | None) -> float:
    return 1e7 if rating_w is None else MOST_SUN_H * rating_w
