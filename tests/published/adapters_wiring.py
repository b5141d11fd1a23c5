"""Columns of our wiring tables, in the unit and order they are published in."""

from __future__ import annotations

from polestead.wiring.currents import next_rating_a
from polestead.wiring.guards.earth import earth_wire_of
from polestead.wiring.run.ampacity import largest_breaker_a
from polestead.wiring.run.conductor import conductor_of, drop_v, share_left
from polestead.wiring.strings.voltage import table_factor

KFT_M = 304.8


def ohm_per_kft(sizes: list[str], metal: str) -> list[float]:
    return [conductor_of(size, metal).ohm_per_m(75.0) * KFT_M for size in sizes]


def ohm_per_km(sizes: list[str], metal: str) -> list[float]:
    return [conductor_of(size, metal).ohm_per_m(20.0) * 1000.0 for size in sizes]


def ampacities(sizes: list[str], metal: str, column: int) -> list[float]:
    return [getattr(conductor_of(size, metal), f"at_{column}_a") for size in sizes]


def shares_left(about_c, column: int) -> list[float]:
    return [share_left(float(t), column) for t in about_c]


def cold_factors(low_c) -> list[float]:
    return [table_factor(float(t)) for t in low_c]


def ratings(just_over_a) -> list[float]:
    return [next_rating_a(float(a)) for a in just_over_a]


def earth_gauges(breakers_a) -> list[float]:
    return [float(earth_wire_of(float(a)).removesuffix(" AWG")) for a in breakers_a]


def largest_breakers(sizes: list[str], metal: str) -> list[float]:
    return [largest_breaker_a(conductor_of(size, metal), 30.0) for size in sizes]


def carried_in_heat_a(size: str, about_c: float) -> float:
    wire = conductor_of(size, "copper")
    return wire.at_90_a * share_left(about_c, 90)


def lost_v(length_m: float, current_a: float, size: str, metal: str, wire_c: float) -> float:
    return drop_v(length_m, current_a, conductor_of(size, metal).ohm_per_m(wire_c))


def lost_share(
    length_m: float, current_a: float, size: str, metal: str, wire_c: float, working_v: float
) -> float:
    return lost_v(length_m, current_a, size, metal, wire_c) / working_v
