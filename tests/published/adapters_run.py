"""Columns of the run's tables, in the unit and order they are published in."""

from __future__ import annotations

from polestead.homestead.model import CableRun
from polestead.wiring.run.ampacity import Code, Limit, ampacity_of, fill_share
from polestead.wiring.run.conductor import conductor_of

KFT_M = 304.8


def fill_shares(live_wires, code: Code) -> list[float]:
    return [fill_share(int(n), code) for n in live_wires]


def ohm_per_kft(sizes: list[str], metal: str) -> list[float]:
    return [conductor_of(size, metal).ohm_per_m(75.0) * KFT_M for size in sizes]


def ohm_per_km(sizes: list[str], metal: str) -> list[float]:
    return [conductor_of(size, metal).ohm_per_m(20.0) * 1000.0 for size in sizes]


def _limits(about_c: float, soil_c: float, insulation: str, method: str) -> tuple[Limit, ...]:
    run = CableRun.model_validate(
        {"length": "50 m", "size": "16 mm2", "method": method, "cover": "600 mm", "insulation": insulation, "soil": f"{soil_c} C"}
    )  # fmt: skip
    return ampacity_of(conductor_of("16 mm2", "copper"), run, "IEC", about_c).limits


def iec_air_shares(about_c, insulation: str) -> list[float]:
    """What the riser keeps, against air of 30 C."""
    whole = _limits(30.0, 20.0, insulation, "PVC conduit")[1].carries_a
    return [_limits(float(t), 20.0, insulation, "PVC conduit")[1].carries_a / whole for t in about_c]  # fmt: skip


def iec_soil_shares(soil_c, insulation: str) -> list[float]:
    """What the duct keeps, against soil of 20 C."""
    whole = _limits(30.0, 20.0, insulation, "PVC conduit")[2].carries_a
    return [_limits(30.0, float(t), insulation, "PVC conduit")[2].carries_a / whole for t in soil_c]
