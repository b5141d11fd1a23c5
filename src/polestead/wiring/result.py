"""What `wiring` hands up."""

from __future__ import annotations

from dataclasses import dataclass

from polestead.base.check import Check
from polestead.base.working import Working
from polestead.homestead.model import BuriedLine
from polestead.wiring.bank.bank import Bank
from polestead.wiring.guards.result import Guards
from polestead.wiring.run.hinge_cable import HingeCable
from polestead.wiring.trench.trench import Trench


@dataclass(frozen=True, slots=True)
class AtThePole:
    """What the trench and the cord over the hinge ask of the mount, in plain numbers.

    Attributes:
        pier_radius_m: Of the hole.
        hinge_height_m: Over the ground.
        least_tilt_deg, steepest_tilt_deg: The travel.
        moves_a_day: Full moves on a day of many.
        buried: The owner's own lines.
    """

    pier_radius_m: float
    hinge_height_m: float
    least_tilt_deg: float
    steepest_tilt_deg: float
    moves_a_day: float
    buried: tuple[BuriedLine, ...]


@dataclass(frozen=True, slots=True)
class WiringResult:
    """How it is wired.

    Attributes:
        cold_voltage_v: Open-circuit voltage of a string at the record low, by the maker's coefficient.
        cold_with_margin_v: The same with the margin; this is what is held against the controller's limit.
        table_voltage_v: The cold voltage by the code's table, shown beside; None below its end at -40 C.
        most_in_series: Most modules in a string that the controller bears at the record low, margin included.
        full_sun_v, full_sun_a: Working voltage and current of the run in full sun.
        drop_v: Volts the full current loses in run, pole wires and cord in full sun, at 75 C.
        drop_share: Share of the power lost so; where that would be over half, of what can be brought at best.  No pass mark: what it is
            worth is the owner's sum.
        cold_drop_share: The same with the wire at 20 C, as it mostly is.
        drop_working: How the drop was found.
        current_for_hours_a: 1.56 times the short-circuit current of all strings.
        breaker_a: Breaker by the 1.56 rule and the standard sizes.
        in_place_a: The breaker in the file, or else ``breaker_a``; what ``earth_wire``, labels and guards belong to.
        earth_wire: Size of the copper earth wire, behind the breaker in the file or else ``breaker_a``.
        checks: Cold voltage, heat, ampacity, breaker, burial; ratings in the file of breaker, earth wire and main fuse.
        notes: Cautions at the act; power the controller holds back; what the table says.
        guards: What guards strings and run; labels; what is asked.
        bank: What stands by the battery; None where the house was not looked at.
        run_asks: What stands open of the run: its terminals, where nobody has read them.
        trench, cord: The trench and the cord over the hinge; None where the pole was not looked at.
    """

    cold_voltage_v: float
    cold_with_margin_v: float
    table_voltage_v: float | None
    most_in_series: int
    full_sun_v: float
    full_sun_a: float
    drop_v: float
    drop_share: float
    cold_drop_share: float
    drop_working: Working
    current_for_hours_a: float
    breaker_a: float
    in_place_a: float
    earth_wire: str
    checks: tuple[Check, ...]
    notes: tuple[str, ...]
    guards: Guards
    bank: Bank | None
    trench: Trench | None
    cord: HingeCable | None
    run_asks: tuple[str, ...] = ()

    @property
    def open_asks(self) -> tuple[str, ...]:
        """All that stands open of run, guards, battery and trench; none of it counts as passed."""
        bank = () if self.bank is None else self.bank.asks
        trench = () if self.trench is None else self.trench.asks
        return (*self.run_asks, *self.guards.asks, *bank, *trench)
