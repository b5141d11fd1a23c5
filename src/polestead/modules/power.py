"""Power of an array from the sun on its glass, and the voltages of a string.

The new array: the single-diode equation fitted to its datasheet (``diode``), cell temperature after Faiman, and one share for
cable, dirt and spread.  Old arrays, of which nobody keeps the sheet: rated power, temperature coefficient and the measured
low-light polynomial of Huld et al.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from polestead.base.source import COMMON_PRACTICE, Source
from polestead.homestead.model import Module, OldArray
from polestead.modules.ageing import aged
from polestead.modules.diode import CELL_C, LIGHT, fitted_diode, power_grid

Single = NDArray[np.float32]


@dataclass(frozen=True, slots=True)
class Constant:
    """A number the power rests on, shown to the owner with its source and its reason."""

    word: str
    value: float
    unit: str
    source: Source
    why: str


FAIMAN = Source(
    "Faiman 2008, Progress in Photovoltaics 16:307", "open rack, crystalline silicon", "seen"
)
HULD_NEW = Source(
    "Chatzipanagi et al. 2025, Progress in Photovoltaics 33:905", "crystalline silicon", "seen"
)
HULD_OLD = Source(
    "Huld et al. 2011, Sol. Energy Mater. Sol. Cells 95:3359", "crystalline silicon", "seen"
)

HEAT_LOSS = Constant(
    "heat a module loses in still air", 25.0, "W/(m^2 K)", FAIMAN, "Seven silicon types on open racks."
)  # fmt: skip
HEAT_LOSS_BY_WIND = Constant(
    "heat it loses besides for each m/s of wind", 6.84, "W s/(m^3 K)", FAIMAN, "The same measurements."
)  # fmt: skip
WIND_ON_GLASS = Constant(
    "wind past the modules", 1.0, "m/s", Source("Faiman 2008", "speed of the nominal cell temperature"),
    "The years carry no wind; light air keeps the cells warm, so the power is told low rather than high.",
)  # fmt: skip
THROUGH_THE_GLASS = Constant(
    "light that gets through the glass, of what would at square incidence", 0.97, "",
    Source("Martin and Ruiz 2001, Sol. Energy Mater. Sol. Cells 70:25", "yearly loss by angle about 3 %", "memory"),
    "Slanting light is turned back by the glass: about 3 % over a year, and 4 to 5 % of a grey sky's light.",
)  # fmt: skip
KEPT = Constant(
    "what cable, dirt and spread between modules leave", 0.95, "", COMMON_PRACTICE,
    "Half of a cable run's drop at full sun (1 to 2 %), rain-washed glass (1 to 2 %), modules not alike (1 to 2 %). "
    "Snow on the glass is not in it.",
)  # fmt: skip
OLD_POWER_CHANGE = Constant(
    "power an old module loses per kelvin", -0.0045, "1/K", Source("older crystalline silicon", status="memory"),
    "No datasheet of the old array is asked for.",
)  # fmt: skip
CONSTANTS = (HEAT_LOSS, HEAT_LOSS_BY_WIND, WIND_ON_GLASS, THROUGH_THE_GLASS, KEPT, OLD_POWER_CHANGE)

_NEW_LIGHT = (-0.0067560, -0.016444)
_OLD_LIGHT = (-0.017237, -0.040465)
_DARK_W_M2 = 1.0  # below this the array gives nothing; keeps the logarithm out of trouble


def cell_c(plane_w_m2: float, air_c: float, wind_speed_m_s: float = WIND_ON_GLASS.value) -> float:
    """Cell temperature in the sun.

    Faiman 2008, Progress in Photovoltaics 16:307 (seen): T = T_air + G / (u0 + u1 v), u0 25, u1 6.84 on an open rack.
    A pole array stands as open as those racks; modules close to a roof run hotter.

    Args:
        plane_w_m2: Irradiance on the glass [W/m^2].
        air_c: Air temperature [C].
        wind_speed_m_s: Wind at the height of the modules [m/s].

    Returns:
        Temperature of the cells [C].

    Example:
        >>> round(cell_c(1000.0, 20.0, 1.0), 2)
        51.41
    """
    return air_c + plane_w_m2 / (HEAT_LOSS.value + HEAT_LOSS_BY_WIND.value * wind_speed_m_s)


def low_light_share(
    light: NDArray[np.floating], coefficients: tuple[float, float] = _NEW_LIGHT
) -> NDArray[np.floating]:
    """Efficiency at a given light, as a share of that at 1000 W/m^2, cells at 25 C.

    Huld et al. 2011: 1 + k1 ln G' + k2 ln^2 G'; coefficients for recent modules from Chatzipanagi et al. 2025 (both
    seen as printed in public code).  Good from about 20 W/m^2 to 1200 W/m^2; never below nothing.

    Args:
        light: G', light in the cells over 1000 W/m^2, above zero, any shape.
        coefficients: k1, k2.

    Returns:
        Share, the same shape.

    Example:
        >>> [round(float(s), 3) for s in low_light_share(np.array([1.0, 0.5, 0.2, 0.1]))]
        [1.0, 0.997, 0.968, 0.928]
    """
    logarithm = np.log(light)
    k1, k2 = coefficients
    share: NDArray[np.floating] = np.maximum(1.0 + logarithm * (k1 + k2 * logarithm), 0.0)
    return share


def rated_power_w(
    rated_w: float,
    power_change_per_k: float,
    kept: float,
    plane_w_m2: NDArray[np.floating],
    air_c: NDArray[np.floating],
    light_coefficients: tuple[float, float] = _NEW_LIGHT,
) -> Single:
    """Power of an array of a given rating, in single precision, any shape.

    Args:
        rated_w: All modules together at 1000 W/m^2 and 25 C [W].
        power_change_per_k: Share of the power per kelvin, below zero [1/K].
        kept: Share left by cable, dirt, age.
        plane_w_m2: Irradiance on the glass [W/m^2].
        air_c: Air temperature, the same shape [C].
        light_coefficients: For ``low_light_share``.

    Returns:
        Direct-current power [W].
    """
    plane = np.asarray(plane_w_m2, dtype=np.float32)
    air = np.asarray(air_c, dtype=np.float32)
    light = np.maximum(plane, np.float32(_DARK_W_M2)) * np.float32(THROUGH_THE_GLASS.value / 1000.0)
    heat_loss = HEAT_LOSS.value + HEAT_LOSS_BY_WIND.value * WIND_ON_GLASS.value
    warmer = air + plane * np.float32(1.0 / heat_loss) - np.float32(25.0)
    share = low_light_share(light, light_coefficients) * light
    share *= np.maximum(np.float32(1.0) + np.float32(power_change_per_k) * warmer, np.float32(0.0))
    share *= plane > _DARK_W_M2
    return np.asarray(share * np.float32(rated_w * kept), dtype=np.float32)


def array_power_w(
    module: Module,
    count: int,
    plane_w_m2: NDArray[np.floating],
    air_c: NDArray[np.floating],
    through_glass: bool = False,
) -> Single:
    """Direct-current power of ``count`` modules at their best point, any shape: the single-diode equation at every hour.

    Args:
        module: The datasheet.
        count: Number of modules.
        plane_w_m2: Irradiance on the glass [W/m^2].
        air_c: Air temperature, the same shape [C].
        through_glass: The light is what gets through the glass already; else a constant stands for its loss.

    Returns:
        Power at the controller [W].

    Raises:
        Wrong: A datasheet that cannot be.
    """
    from polestead.modules.kernel import power_shares

    diode = fitted_diode(module)
    plane = np.ascontiguousarray(plane_w_m2, dtype=np.float32)
    air = np.ascontiguousarray(np.broadcast_to(air_c, plane.shape), dtype=np.float32)
    shares = power_shares(
        plane.ravel(),
        air.ravel(),
        1.0 if through_glass else THROUGH_THE_GLASS.value,
        HEAT_LOSS.value + HEAT_LOSS_BY_WIND.value * WIND_ON_GLASS.value,
        LIGHT,
        CELL_C,
        power_grid(diode),
    ).reshape(plane.shape)
    return np.asarray(shares * np.float32(module.power_w * count * KEPT.value), dtype=np.float32)


def old_array_power_w(
    old: OldArray, plane_w_m2: NDArray[np.floating], air_c: NDArray[np.floating]
) -> Single:
    """Power of an array that is there already: no datasheet is asked for, so its rating, warmth and measured low light.

    The owner's share left stands in for cable, dirt and age; where he writes its age instead, the middle of published ageing and
    the new array's share for cable and dirt.
    """
    kept = old.still_gives if old.age_years is None else KEPT.value * aged(old.age_years).middle
    return rated_power_w(old.power_w, OLD_POWER_CHANGE.value, kept, plane_w_m2, air_c, _OLD_LIGHT)


def open_voltage_v(
    open_circuit_v: float, change_per_k: float, in_series: int, cell_c: float
) -> float:
    """Open-circuit voltage of a string at a cell temperature.

    NEC 690.7(A)(1) (seen in lesson text): n Voc (1 + beta (T - 25)).

    Args:
        open_circuit_v: Of one module at 25 C [V].
        change_per_k: beta, a share of it per kelvin, below zero [1/K].
        in_series: Modules in the string.
        cell_c: Cell temperature, at dawn that of the air [C].

    Returns:
        Voltage of the string [V].

    Example:
        >>> round(open_voltage_v(49.5, -0.0027, 1, -10.0), 2)
        54.18
    """
    return in_series * open_circuit_v * (1.0 + change_per_k * (cell_c - 25.0))


def full_sun_voltage_v(
    working_v: float, fall_v_per_k: float, in_series: int, air_c: float
) -> float:
    """Working voltage of a string in full sun.

    Args:
        working_v: Of one module at 25 C [V].
        fall_v_per_k: What it loses per kelvin, below zero [V/K].
        in_series: Modules in the string.
        air_c: [C].

    Returns:
        Voltage of the string [V].

    Example:
        >>> round(full_sun_voltage_v(32.9, -0.09875, 4, 45.0), 2)
        111.29
    """
    return in_series * (working_v + fall_v_per_k * (cell_c(1000.0, air_c) - 25.0))


def cold_voltage_v(module: Module, in_series: int, cell_c: float) -> float:
    """Open-circuit voltage of a string of modules at a cell temperature, by the datasheet's coefficient [V].

    Args:
        module: The datasheet.
        in_series: Modules in the string.
        cell_c: Cell temperature, at dawn that of the air [C].
    """
    volts, change = module.open_circuit_voltage_v, module.voltage_change_per_k
    return open_voltage_v(volts, change, in_series, cell_c)


def hot_working_voltage_v(module: Module, in_series: int, air_c: float) -> float:
    """Working voltage of a string of new modules in full sun on a hot day [V].

    The working voltage falls by as many volts per kelvin as the open-circuit voltage (common practice; a little more than
    most cells do, so the voltage is told low).

    Args:
        module: The datasheet.
        in_series: Modules in the string.
        air_c: Hottest air [C].
    """
    fall_v = module.open_circuit_voltage_v * module.voltage_change_per_k
    return full_sun_voltage_v(module.working_voltage_v, fall_v, in_series, air_c)
