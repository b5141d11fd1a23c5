"""What `wiring` hands up."""

from __future__ import annotations

from dataclasses import dataclass

from polestead.base.check import Check
from polestead.homestead.model import CableRun, Controller, NewArray, Place


@dataclass(frozen=True, slots=True)
class WiringResult:
    """How it is wired.

    Attributes:
        cold_voltage_v: Open-circuit voltage of a string at the record low, by coefficient and margin.
        table_voltage_v: The same by the code's table, None below its end.
        full_sun_v, full_sun_a: Working voltage and current of the run in full sun.
        drop_v, drop_share: Lost in the run in full sun.
        breaker_a: Breaker by the 1.56 rule and the standard sizes.
        earth_wire: Size of the earth wire.
        checks: Cold voltage, controller current, ampacity, breaker, burial.
        notes: Cautions at the act.
    """

    cold_voltage_v: float
    table_voltage_v: float | None
    full_sun_v: float
    full_sun_a: float
    drop_v: float
    drop_share: float
    breaker_a: float
    earth_wire: str
    checks: tuple[Check, ...]
    notes: tuple[str, ...]


def wiring_of(
    place: Place, array: NewArray, controller: Controller, run: CableRun, battery_nominal_v: float
) -> WiringResult:
    """Strings against the controller, and the buried run."""
    raise NotImplementedError
