"""Columns of the tilt drive's tables, as they are published."""

from __future__ import annotations

from polestead.wiring.run.conductor import conductor_of
from polestead.wiring.tilt_drive.motor import speed_share
from polestead.wiring.tilt_drive.numbers import MotorNumbers
from polestead.wiring.tilt_drive.wire import carries_a, fuse_ratings_a, largest_fuse_a, opens_s


def opens_within_s(times: list[float], fuse_a: float) -> list[float]:
    return [opens_s(float(t) * fuse_a, fuse_a) or float("nan") for t in times]


def first_ratings_a(count: int) -> tuple[float, ...]:
    return fuse_ratings_a()[:count]


def at_small_terminals_a(sizes: list[str]) -> list[float]:
    return [carries_a(conductor_of(size, "copper")) for size in sizes]


def largest_fuses_a(sizes: list[str]) -> list[float]:
    return [largest_fuse_a(conductor_of(size, "copper")) for size in sizes]


def speeds_left(volts: list[float], nominal_v: float, running_a: float, stalled_a: float) -> list[float]:  # fmt: skip
    motor = MotorNumbers(nominal_v, running_a, nominal_v / stalled_a, 0.0, 1.0)
    return [speed_share(motor, float(v)) for v in volts]
