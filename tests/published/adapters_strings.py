"""Strings of our wiring room, asked in the way they are published."""

from __future__ import annotations

from polestead.wiring.strings.fuses import string_fuse
from polestead.wiring.strings.label import Label
from polestead.wiring.strings.voltage import code_factor, cold_of, most_in_series


def label(
    open_circuit_v: float, per_k: float | None = None, short_circuit_a: float = 10.0
) -> Label:
    return Label(
        array="", open_circuit_voltage_v=open_circuit_v, working_voltage_v=0.82 * open_circuit_v,
        short_circuit_current_a=short_circuit_a, working_current_a=0.94 * short_circuit_a, change_per_k=per_k, volts_low_by=0.03,
        years=20.0, series_fuse_a=None, system_voltage_v=None,
    )  # fmt: skip


def by_coefficient_v(open_circuit_v: float, per_k: float, low_c: float) -> float:
    return cold_of(label(open_circuit_v, per_k), 1, low_c).by_coefficient_v


def most_on(open_circuit_v: float, per_k: float, low_c: float, limit_v: float) -> int:
    return most_in_series(limit_v, by_coefficient_v(open_circuit_v, per_k, low_c))


def by_table_v(open_circuit_v: float, in_series: int, low_c: float) -> float:
    return cold_of(label(open_circuit_v), in_series, low_c).by_table_v


def code_factors(low_c) -> list[float]:
    return [code_factor(float(t), "NEC") for t in low_c]


def left_on_v(open_circuit_v: float, in_series: int, low_c: float, limit_v: float) -> float:
    """Of a controller's limit before our own margin."""
    return limit_v - by_table_v(open_circuit_v, in_series, low_c)


def least_fuse_a(short_circuit_a: float, strings: int) -> list[float]:
    fuse = string_fuse(label(40.0, -0.003, short_circuit_a), strings, (), 100.0)
    return [fuse.least_a, fuse.rating_a]
