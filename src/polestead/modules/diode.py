"""A module's datasheet turned into the five numbers of the single-diode equation, and its power at any light and warmth."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from polestead.base.problem import Problem, Wrong
from polestead.base.quiet import solar_library
from polestead.base.show import percent
from polestead.homestead.consistency import datasheet_slips
from polestead.homestead.model import Module

Floats = NDArray[np.float64]
Single = NDArray[np.float32]

VOLTS_PER_CELL = 0.69  # of an open cell, about what modern silicon gives: for the count of cells where none is written
CURRENT_PER_K = 0.0005  # of the short-circuit current, usual silicon (from memory)
# Efficiency at 200 W/m2 against 1000, recent crystalline modules: the polynomial of Chatzipanagi et al. 2025 at .2 (seen).
EFFICIENCY_AT_200 = 0.968
DEG_PER_EV = 8.617333262e-5  # Boltzmann's constant [eV/K]
GAP_CHANGE_PER_K = -0.0002677  # De Soto et al. 2006
LIGHT = np.concatenate([[0.0], np.geomspace(1.0, 1400.0, 60)])
CELL_C = np.arange(-50.0, 101.0, 5.0)


@dataclass(frozen=True, slots=True)
class Diode:
    """The five numbers at 1000 W/m2 and 25 C, after De Soto, Klein & Beckman 2006, Solar Energy 80:78.

    Attributes:
        ideality_v: a, modified ideality factor [V].
        light_current_a: I_L [A].
        saturation_current_a: I_o [A].
        series_ohm: R_s [ohm].
        shunt_ohm: R_sh [ohm].
        gap_ev: Band gap that makes the open voltage fall with warmth as the datasheet says [eV].
        current_per_k_a: Of the short-circuit current [A/K].
        power_w: What it gives at 1000 W/m2 and 25 C by these numbers [W].
        power_change_per_k: What its power loses per kelvin by these numbers [1/K].
        worst_miss: Largest miss of the datasheet's voltages and currents, as a share.
    """

    ideality_v: float
    light_current_a: float
    saturation_current_a: float
    series_ohm: float
    shunt_ohm: float
    gap_ev: float
    current_per_k_a: float
    power_w: float
    power_change_per_k: float
    worst_miss: float


def refuse_what_cannot_be(module: Module) -> None:
    """Refuse a datasheet that says something against itself; reading a file looks at the same.

    Raises:
        Wrong: Working voltage over the open one, currents likewise, a power that is not their product, a curve no cell has.
    """
    slips = datasheet_slips(module)
    if slips:
        raise Wrong(slips)


def cells_of(open_circuit_voltage_v: float) -> int:
    """Cells in series, from the open voltage; the fit hardly knows the difference.

    Example:
        >>> cells_of(39.5)
        57
    """
    return max(round(open_circuit_voltage_v / VOLTS_PER_CELL), 1)


@lru_cache(maxsize=64)
def fitted_diode(module: Module, efficiency_at_200: float = EFFICIENCY_AT_200) -> Diode:
    """The five numbers that reproduce a datasheet.

    Light and saturation current follow from short-circuit current and open voltage; ideality, both resistances and the gap are
    found so that the working point lies where the datasheet has it, the power is largest there, the open voltage falls with
    warmth as it says, and the efficiency at 200 W/m2 is what measured modules have.  Solved by scipy on pvlib's equations
    (its own fit of five equations finds no solution for most modern datasheets).

    Args:
        module: The datasheet.
        efficiency_at_200: Efficiency at 200 W/m2 over that at 1000.

    Raises:
        Wrong: A datasheet that cannot be, or that no diode reproduces within 1 %.
    """
    from scipy.optimize import least_squares

    refuse_what_cannot_be(module)
    start_a = cells_of(module.open_circuit_voltage_v) * 1.05 * DEG_PER_EV * 298.15
    start = np.log([start_a, 0.2, 20.0 * module.open_circuit_voltage_v, 1.121])
    low = np.log([0.4 * start_a, 1e-4, module.open_circuit_voltage_v, 0.5])
    high = np.log([2.0 * start_a, 3.0, 1e5, 2.5])
    found = least_squares(
        _misses, start, bounds=(low, high), args=(module, efficiency_at_200), x_scale=0.1
    )
    numbers = _numbers(found.x, module)
    told = _curve(numbers, 1000.0, 25.0)
    misses = (
        told["i_sc"] / module.short_circuit_current_a, told["v_oc"] / module.open_circuit_voltage_v,
        told["i_mp"] / module.working_current_a, told["v_mp"] / module.working_voltage_v,
    )  # fmt: skip
    worst = max(abs(float(share) - 1.0) for share in misses)
    if worst > 0.02:
        raise Wrong(
            [
                Problem(
                    "array.module", "working_voltage", f"a working point no diode comes nearer to than {percent(worst)}",
                    "within 2 %", "Read the four voltages and currents again.",
                )
            ]
        )  # fmt: skip
    hot = float(_curve(numbers, 1000.0, 50.0)["p_mp"]) / float(told["p_mp"])
    return Diode(
        numbers["a_ref"], numbers["I_L_ref"], numbers["I_o_ref"], numbers["R_s"], numbers["R_sh_ref"], numbers["EgRef"],
        numbers["alpha_sc"], float(told["p_mp"]), (hot - 1.0) / 25.0, worst,
    )  # fmt: skip


def _numbers(at: Floats, module: Module) -> dict[str, float]:
    """The five numbers from the four that are sought; the two currents from the ends of the curve."""
    a, rs, rsh, gap = (float(value) for value in np.exp(at))
    voc, isc = module.open_circuit_voltage_v, module.short_circuit_current_a
    open_, short = np.expm1(voc / a), np.expm1(isc * rs / a)
    saturation = (isc * (1.0 + rs / rsh) - voc / rsh) / (open_ - short)
    saturation = max(float(saturation), 1e-30)
    return {
        "alpha_sc": CURRENT_PER_K * isc, "a_ref": a, "I_L_ref": float(saturation * open_ + voc / rsh), "I_o_ref": saturation,
        "R_sh_ref": rsh, "R_s": rs, "EgRef": gap, "dEgdT": GAP_CHANGE_PER_K,
    }  # fmt: skip


def _curve(numbers: dict[str, float], light: Any, cell_c: Any) -> Any:
    pvsystem = solar_library().pvsystem
    return pvsystem.singlediode(*pvsystem.calcparams_desoto(light, cell_c, **numbers))


def _misses(at: Floats, module: Module, efficiency_at_200: float) -> Floats:
    numbers = _numbers(at, module)
    told = _curve(numbers, np.array([1000.0, 200.0, 1000.0]), np.array([25.0, 25.0, 50.0]))
    fall = (told["v_oc"][2] - told["v_oc"][0]) / told["v_oc"][0] / 25.0
    return np.array(
        [
            told["i_mp"][0] / module.working_current_a - 1.0,
            told["v_mp"][0] / module.working_voltage_v - 1.0,
            5.0 * (fall - module.voltage_change_per_k),
            0.3 * (told["p_mp"][1] / told["p_mp"][0] / 0.2 - efficiency_at_200),
        ]
    )


def diode_power_w(diode: Diode, light_w_m2: Floats, cell_c: Floats) -> Floats:
    """Power of one module by the single-diode equation, through pvlib.

    Args:
        diode: The five numbers.
        light_w_m2: In the cells, above zero, any shape [W/m2].
        cell_c: The same shape [C].

    Returns:
        [W].
    """
    return np.asarray(_curve(_as_numbers(diode), light_w_m2, cell_c)["p_mp"], dtype=np.float64)


def diode_voltage_v(diode: Diode, light_w_m2: float, cell_c: float) -> tuple[float, float]:
    """Open and working voltage of one module by the single-diode equation [V]."""
    told = _curve(_as_numbers(diode), light_w_m2, cell_c)
    return float(told["v_oc"]), float(told["v_mp"])


@dataclass(frozen=True, slots=True)
class Point:
    """What a meter shows on one module at one light and warmth.

    Attributes:
        open_v: Nothing connected [V].
        short_a: Ends joined [A].
        working_v, working_a: Where it gives most [V], [A].
        power_w: What it gives there [W].
    """

    open_v: float
    short_a: float
    working_v: float
    working_a: float
    power_w: float


def diode_point(diode: Diode, light_w_m2: float, cell_c: float) -> Point:
    """The five readings of one module by the single-diode equation, through pvlib.

    Args:
        diode: The five numbers.
        light_w_m2: In the cells, above zero [W/m2].
        cell_c: Temperature of the cells [C].
    """
    return diode_points(diode, [(light_w_m2, cell_c)])[0]


def diode_points(diode: Diode, hours: Sequence[tuple[float, float]]) -> tuple[Point, ...]:
    """As ``diode_point`` for many pairs of light and cell temperature at once."""
    light, cell = np.array(hours, dtype=np.float64).T
    told = _curve(_as_numbers(diode), light, cell)
    columns = [np.asarray(told[name], dtype=np.float64).tolist() for name in ("v_oc", "i_sc", "v_mp", "i_mp", "p_mp")]  # fmt: skip
    return tuple(Point(*row) for row in zip(*columns, strict=True))


def _as_numbers(diode: Diode) -> dict[str, float]:
    return {
        "alpha_sc": diode.current_per_k_a, "a_ref": diode.ideality_v, "I_L_ref": diode.light_current_a,
        "I_o_ref": diode.saturation_current_a, "R_sh_ref": diode.shunt_ohm, "R_s": diode.series_ohm, "EgRef": diode.gap_ev,
        "dEgdT": GAP_CHANGE_PER_K,
    }  # fmt: skip


@lru_cache(maxsize=64)
def power_grid(diode: Diode) -> Floats:
    """Power over that at 1000 W/m2 and 25 C, on ``LIGHT`` by ``CELL_C`` [61, 31]; what lies between is read in a straight line."""
    light, cell = np.meshgrid(LIGHT[1:], CELL_C, indexing="ij")
    share = diode_power_w(diode, light.ravel(), cell.ravel()).reshape(light.shape) / diode.power_w
    grid = np.vstack([np.zeros((1, CELL_C.size)), np.maximum(share, 0.0)])
    grid.setflags(write=False)
    return grid
