"""Gas of a charging bank: how much air it needs, and how soon a shut room is dangerous."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor

from polestead.base.source import OWNER, Source
from polestead.base.table import table
from polestead.base.working import Step, Working
from polestead.homestead.model import Battery
from polestead.wiring.bank.set_points import cells_source

AIR = Source("IEC 62485-2", "Q = 0.05 n Igas, hydrogen under 4 % with a factor of 5", "seen-copy")
OPENING = Source("IEC 62485-2", "A = 28 Q in cm2, air moving 0.1 m/s", "seen-copy")
OPENING_M2_PER_M3_H = 28e-4  # 28 cm2 for each m3/h
HYDROGEN_M3_PER_AH = 0.42e-3
BURNS_FROM = 0.04
CM2 = 1e4  # openings are told in cm2
FT3, IN2 = 0.3048**3, 0.0254**2  # m3 in a cubic foot, m2 in a square inch
ROOM_M3 = 10.0  # a small closet, to tell hours by


@dataclass(frozen=True, slots=True)
class Gassing:
    """One kind of charge.

    Attributes:
        charge: ``float``, ``absorb``, ``equalize``.
        gas_a: Current that makes gas, all strings [A].
        air_m3_h: Fresh air wanted [m3/h].
        opening_m2: Each of two openings, one low, one high [m2].
        burns_after_h: Until a shut room of 10 m3 holds 4 % hydrogen, from where it burns [h].
    """

    charge: str
    gas_a: float
    air_m3_h: float
    opening_m2: float
    burns_after_h: float


@dataclass(frozen=True, slots=True)
class Hydrogen:
    """Air for a lead-acid bank.

    Attributes:
        rows: Float, absorb, and for flooded cells equalize.
        governs: The row to open the wall for.
        words: What to do.
        working: Of the row that governs.
    """

    rows: tuple[Gassing, ...]
    governs: Gassing
    words: str
    working: Working


def hydrogen_air_m3_h(cells: int, gas_current_a: float) -> float:
    """Fresh air a charging lead-acid bank needs.

    Source: IEC 62485-2: Q = .05 n I_gas (seen in a public copy).  Valid for: lead-acid, to keep hydrogen under 4 % with a factor 5.

    Args:
        cells: Cells in series of one string.
        gas_current_a: Gassing current of all strings together [A].

    Returns:
        Air [m3/h].

    Example:
        >>> round(hydrogen_air_m3_h(24, 14.8), 2)
        17.76
    """
    return 0.05 * cells * gas_current_a


def opening_m2(air_m3_h: float) -> float:
    """Free area of each of two openings, one low, one high, where the air moves by itself.

    Source: IEC 62485-2: A = 28 Q in cm2 (seen in a public copy).

    Args:
        air_m3_h: Fresh air wanted [m3/h].

    Returns:
        Each opening [m2].

    Example:
        >>> round(opening_m2(17.76), 4)
        0.0497
    """
    return OPENING_M2_PER_M3_H * air_m3_h


def hours_to_burn(cells: int, gas_current_a: float, room_m3: float) -> float:
    """Hours until a shut room holds 4 % hydrogen.

    Source: Faraday: 0.42 litres of hydrogen an ampere-hour and cell (IEC 62485-2, seen in a public copy); evenly mixed.

    Args:
        cells: Cells in series of one string.
        gas_current_a: Gassing current of all strings together [A].
        room_m3: Air in the room [m3].

    Example:
        >>> round(hours_to_burn(24, 14.8, 10.0), 2)
        2.68
    """
    return BURNS_FROM * room_m3 / (HYDROGEN_M3_PER_AH * cells * gas_current_a)


def hydrogen_of(battery: Battery, cells: int, charging_a: float) -> Hydrogen | None:
    """Air by kind of charge; None for lithium, which makes no gas until it fails.

    Source: IEC 62485-2 and, without a voltage limit, EN 50272-3 (seen in public copies).

    Args:
        battery: Kind and capacity; its 20 h capacity is taken where the standard has the 10 h one, a little high.
        cells: In series.
        charging_a: The most that may charge [A]; equalizing makes gas of no more than that.
    """
    lines = [
        r
        for r in table("wiring", "bank/gas")
        if r["kind"] == battery.kind and (battery.equalized or r["charge"] != "equalize")
    ]
    if not lines:
        return None
    rows: list[Gassing] = []
    for line in lines:
        gas = float(line["ma_per_ah"]) / 1000.0 * battery.capacity_ah
        if line["charge"] == "equalize":
            gas = min(gas, max(charging_a, rows[-1].gas_a))
        air = hydrogen_air_m3_h(cells, gas)
        rows.append(
            Gassing(line["charge"], gas, air, opening_m2(air), hours_to_burn(cells, gas, ROOM_M3))
        )
    governs = max(rows, key=lambda row: row.air_m3_h)
    line = next(line for line in lines if line["charge"] == governs.charge)
    per_ah = float(line["ma_per_ah"])
    working = Working(
        f"hydrogen: fresh air for the bank, {governs.charge}",
        (
            Step("cells in series", "n", "", cells, "", cells_source(battery)),
            Step("capacity, all strings", "C", "", battery.capacity_ah, "Ah", OWNER),
            Step("current that makes gas", "Igas", f"{per_ah:g} x {battery.capacity_ah:g} / 1000, no more than charges", governs.gas_a, "A", Source(line["source"], status="seen-copy")),
            Step("fresh air", "Q", f"0.05 x {cells} x {governs.gas_a:.2f}", governs.air_m3_h, "m3/h", AIR),
            Step("each of two openings", "A", f"0.0028 x {governs.air_m3_h:.2f}", governs.opening_m2, "m2", OPENING),
        ),
        ("Strings in parallel are in the capacity: n is the cells of one of them.",),
    )  # fmt: skip
    return Hydrogen(tuple(rows), governs, _words(battery, rows, governs), working)


def _words(battery: Battery, rows: list[Gassing], governs: Gassing) -> str:
    absorb = next(row for row in rows if row.charge == "absorb")
    words = (
        f"Absorbing, the bank wants {_air(absorb.air_m3_h)} of fresh air an hour: two openings to the open of {_opening(absorb.opening_m2)} each, one low, one high, on opposite sides. "
        f"In a shut room of {_air(ROOM_M3)} hydrogen would burn after {_down(absorb.burns_after_h)} h."
    )
    if governs.charge == "equalize":
        words += (
            f" Equalizing, {_air(governs.air_m3_h)} an hour and {_opening(governs.opening_m2)} each, or door and window open and somebody there the whole time; "
            f"shut, {_down(governs.burns_after_h)} h."
        )
    words += (
        " No vents, no charging: then a lidded box with a pipe to the open from its highest corner, or a fan of that flow that stops the charger when it stops. Hydrogen rises: no pocket "
        "under the ceiling, no flame, spark or grinding, no controller or inverter over the cells."
    )
    if battery.kind == "sealed lead-acid":
        words += " Sealed cells vent too when they are overcharged."
    return words


def _air(m3: float) -> str:
    """Both ways, rounded up."""
    return f"{_up(m3, 1).removesuffix('.0')} m3 ({_up(m3 / FT3)} ft3)"


def _opening(m2: float) -> str:
    return f"{_up(m2 * CM2)} cm2 ({_up(m2 / IN2)} in2)"


def _up(value: float, digits: int = 0) -> str:
    return f"{ceil(value * 10**digits - 1e-6) / 10**digits:.{digits}f}"


def _down(hours: float) -> str:
    return f"{floor(hours * 10.0 + 1e-6) / 10.0:.1f}"
