"""Columns of the trench's tables, in the unit and order they are published in."""

from __future__ import annotations

from polestead.wiring.run.hinge_cable import cords
from polestead.wiring.trench.burial import least_cover_m
from polestead.wiring.trench.conduit import fill_allowed, insulated_m2, pipes
from polestead.wiring.trench.expansion import grows_m
from polestead.wiring.trench.pull import bears_n

INCH_M = 0.0254
LBF_N = 4.4482216152605


def covers_in(methods: list[str], under: str) -> list[float]:
    return [least_cover_m(method, under) / INCH_M for method in methods]


def covers_mm(methods: list[str], under: str, code: str) -> list[float]:
    return [least_cover_m(method, under, code) * 1000.0 for method in methods]


def fills(counts) -> list[float]:
    return [100.0 * fill_allowed(int(count)) for count in counts]


def _pipe(kind: str, trade: str):
    (found,) = [pipe for pipe in pipes(kind) if pipe.trade == f"{trade} in"]
    return found


def inside_in2(kind: str, trades: list[str]) -> list[float]:
    return [_pipe(kind, trade).area_m2 / INCH_M**2 for trade in trades]


def inside_in(kind: str, trades: list[str]) -> list[float]:
    return [_pipe(kind, trade).inside_m / INCH_M for trade in trades]


def share_in2(kind: str, trades: list[str], count: int) -> list[float]:
    return [fill_allowed(count) * area for area in inside_in2(kind, trades)]


def wire_in2(insulated: str, sizes: list[str]) -> list[float]:
    return [insulated_m2(f"{size} AWG", insulated) / INCH_M**2 for size in sizes]


def growth_in_per_100_ft(kind: str, fahrenheit) -> list[float]:
    return [grows_m(kind, 30.48, float(change) / 1.8) / INCH_M for change in fahrenheit]


def bears_lbf(size: str, metal: str, count: int) -> float:
    return bears_n(size, metal, count) / LBF_N


def cord_a(size: str) -> float:
    return next(cord.carries_a for cord in cords("SOOW") if cord.size == size)
