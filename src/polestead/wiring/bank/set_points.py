"""Charging set-points of the bank, and what its temperature does to them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import ceil
from typing import Literal

from polestead.base.cells import IRON_CELLS, IRON_FULL_V, IRON_GENTLE_V, LEAD_CELLS
from polestead.base.show import warmth_both_ways
from polestead.base.source import OWNER, Source
from polestead.base.working import Step, Working
from polestead.homestead.fields import source_of
from polestead.homestead.model import Battery

PER_CELL_V_K = 0.005
BY_HEAT = Source("a battery maker's public answers: 0.028 V a cell for each 10 F", status="seen")
NONE_BY_HEAT = Source("lithium cells want no compensation, common practice", status="common practice")  # fmt: skip
IRON_CHARGED = Source("makers' charging voltage of a cell, 3.45 to 3.6 V, the lower end", status="common practice")  # fmt: skip
ROOM = Source("the bank's room in the homestead file", status="owner")
AS_AIR = Source("no room in the file: as cold as the record low", status="ours")
SERIES = Source("cells in series", status="computed")
AT_C = 25.0
LEAD_FULL_V = 2.40  # of a cell, if nothing higher is set
Standing = Literal["file", "assumed", "ask", "off"]


@dataclass(frozen=True, slots=True)
class SetPoint:
    """One voltage to set.

    Attributes:
        name: ``absorb``, ``float``, ``equalize``.
        per_cell_v: At 25 C [V]; None: ask its maker.
        bank_v: Of the bank at 25 C [V].
        coldest_v, warmest_v: Of the bank at its coldest and warmest, with compensation [V].
        standing: ``file``, ``assumed`` (the tool's or a usual figure), ``ask``, ``off``.
        words: What to ask.
    """

    name: str
    per_cell_v: float | None
    bank_v: float | None
    coldest_v: float | None
    warmest_v: float | None
    standing: Standing
    words: str


@dataclass(frozen=True, slots=True)
class SetPoints:
    """All voltages to set, by chemistry.

    Attributes:
        cells: In series.
        coldest_c, warmest_c: Of the bank [C].
        per_k_v: What the bank's set-points change by a kelvin [V/K]; nothing for lithium.
        points: In order.
        highest_v: The highest the bank is charged at, by what is known; labels, fuses and questions all tell this one [V].
        low_when_cold_v, high_when_warm_v: What is wrong at the bank's coldest and warmest without a sensor [V].
        sensor: Whether one sits on the bank.
        words: What the sensor is worth, or its absence costs.
        asks: What to ask.
        working: Of the compensated absorb voltage.
    """

    cells: int
    coldest_c: float
    warmest_c: float
    per_k_v: float
    points: tuple[SetPoint, ...]
    highest_v: float
    low_when_cold_v: float
    high_when_warm_v: float
    sensor: bool
    words: str
    asks: tuple[str, ...]
    working: Working


def compensated_bank_v(per_cell_v: float, cells: int, bank_c: float) -> float:
    """A lead-acid set-point at the bank's temperature.

    Source: 5 mV a kelvin and cell against 25 C (a maker's 0.028 V for each 10 F; seen).  Valid for: -20 to 45 C.

    Args:
        per_cell_v: At 25 C [V].
        cells: In series.
        bank_c: Of the bank [C].

    Example:
        >>> round(compensated_bank_v(2.45, 24, 12.0), 2), round(compensated_bank_v(2.45, 24, 25.0), 2)
        (60.36, 58.8)
    """
    return cells * (per_cell_v + PER_CELL_V_K * (AT_C - bank_c))


def cells_source(battery: Battery) -> Source:
    """Who says how many cells it has."""
    if battery.cells is not None:
        return OWNER
    return IRON_CELLS if battery.kind == "lithium iron phosphate" else LEAD_CELLS


def coldest_source(battery: Battery) -> Source:
    """Who says how cold it gets."""
    return AS_AIR if battery.temperature_c is None else ROOM


def set_points_of(
    battery: Battery, cells: int, coldest_c: float, warmest_c: float, sensor: bool
) -> SetPoints:
    """Absorb, float and equalize by chemistry, at 25 C and at the bank's coldest and warmest.

    Source: the file; compensation by a battery maker's public answers (seen); none for lithium (common practice).

    Args:
        battery: The bank.
        cells: In series.
        coldest_c: The bank's coldest [C].
        warmest_c: The bank's warmest [C].
        sensor: Whether a temperature sensor sits on the bank.
    """
    lithium = battery.kind == "lithium iron phosphate"
    slope = 0.0 if lithium else PER_CELL_V_K
    points = (_lithium if lithium else _lead)(battery, cells, coldest_c, warmest_c)
    known = [v for one in points for v in (one.bank_v, one.coldest_v) if v is not None]
    known.append(least_full_v(battery, cells))
    low = cells * slope * max(0.0, AT_C - coldest_c)
    high = cells * slope * max(0.0, warmest_c - AT_C)
    absorb = points[0]
    assert absorb.per_cell_v is not None and absorb.coldest_v is not None  # both kinds give it  # noqa: S101, PT018
    formula = f"{cells} x ({absorb.per_cell_v:g} + {slope:g} x ({AT_C:g} - {coldest_c:.1f}))"
    source = NONE_BY_HEAT if lithium else BY_HEAT
    working = Working(
        "the absorb voltage at the bank's coldest",
        (
            Step("absorb voltage of a cell at 25 C", "Vc", "", absorb.per_cell_v, "V", IRON_CHARGED if lithium else source_of(battery, "absorb_v_per_cell")),
            Step("cells in series", "n", "", cells, "", cells_source(battery)),
            Step("the bank's coldest", "T", "", coldest_c, "C", coldest_source(battery)),
            Step("to set at 25 C", "V25", f"{cells} x {absorb.per_cell_v:g}", cells * absorb.per_cell_v, "V", SERIES),
            Step("at its coldest", "V", formula, absorb.coldest_v, "V", source),
        ),
    )  # fmt: skip
    highest = max(known)
    return SetPoints(
        cells, coldest_c, warmest_c, cells * slope, points, highest, low, high, sensor, _words(lithium, sensor, low, high, coldest_c, warmest_c),
        _asks(points, lithium, highest), working,
    )  # fmt: skip


def least_full_v(battery: Battery, cells: int) -> float:
    """The least that is taken for a bank being charged, whatever its set-points [V].

    Source: 2.40 V a lead cell (ours); makers of lithium cells write 3.45 to 3.6 V, and what stands before them must bear the upper end.

    Example:
        >>> flooded = {"kind": "flooded lead-acid", "nominal": "48 V", "capacity": "740 Ah"}
        >>> round(least_full_v(Battery.model_validate(flooded), 24), 1)
        57.6
        >>> round(least_full_v(Battery.model_validate({**flooded, "kind": "lithium iron phosphate", "nominal": "51.2 V"}), 16), 1)
        57.6
    """
    return cells * (IRON_FULL_V if battery.kind == "lithium iron phosphate" else LEAD_FULL_V)


def _lead(battery: Battery, cells: int, cold: float, warm: float) -> tuple[SetPoint, ...]:
    def point(name: str, per_cell: float | None, standing: Standing, words: str) -> SetPoint:
        if per_cell is None:
            return SetPoint(name, None, None, None, None, "ask", words)
        at_25, at_cold, at_warm = (
            compensated_bank_v(per_cell, cells, c) for c in (AT_C, cold, warm)
        )
        return SetPoint(name, per_cell, at_25, at_cold, at_warm, standing, words)

    given: Standing = "file" if "absorb_v_per_cell" in battery.model_fields_set else "assumed"
    points = [
        point("absorb", battery.absorb_v_per_cell, given, "And for how long, or at which current it ends."),
        point("float", battery.float_v_per_cell, "file", "Volts a cell at 25 C (77 F) when full and left alone."),
    ]  # fmt: skip
    return (*points, _equalize(battery, point))


def _equalize(battery: Battery, point: Callable[[str, float | None, Standing, str], SetPoint]) -> SetPoint:  # fmt: skip
    """Counted where the bank may be equalized: a controller may do so unasked."""
    if battery.kind == "sealed lead-acid":
        return point("equalize", None, "ask", "Most sealed cells forbid it: leave it off unless its maker says otherwise.")  # fmt: skip
    if not battery.equalized:
        return SetPoint("equalize", None, None, None, None, "off", "Off in every controller and in the engine's charger: the file says never.")  # fmt: skip
    given: Standing = "file" if "equalize_v_per_cell" in battery.model_fields_set else "assumed"
    words = "Volts a cell, how often, for how long, and at which gravity it ends; only with vents and caps looked after. Where it never is, write never_equalized = true."
    return point("equalize", battery.equalize_v_per_cell, given, words)


def _lithium(battery: Battery, cells: int, cold: float, warm: float) -> tuple[SetPoint, ...]:
    del battery, cold, warm  # no compensation, and the file's volts are for lead-acid
    full = cells * IRON_GENTLE_V
    return (
        SetPoint("absorb", IRON_GENTLE_V, full, full, full, "assumed", f"Makers write {IRON_GENTLE_V:g} to {IRON_FULL_V:g} V a cell; the battery's own guard must agree with it."),
        SetPoint("float", None, None, None, None, "ask", "Volts a cell once full, or none at all."),
        SetPoint("equalize", None, None, None, None, "off", "Off, for ever: it destroys lithium cells."),
    )  # fmt: skip


def _words(
    lithium: bool, sensor: bool, low: float, high: float, coldest_c: float, warmest_c: float
) -> str:
    if lithium:
        return "Temperature compensation off: with it on, a cold day lifts the voltage past what the cells' guard lets through, and it cuts off under charge."
    if sensor:
        return f"The sensor on the bank lifts the set-points by {low:.2f} V at {warmth_both_ways(coldest_c)} and lowers them by {high:.2f} V at {warmth_both_ways(warmest_c)}; a sensor in the controller would measure the wrong room."
    said = []
    if low > 0.0:
        said.append(
            f"{low:.2f} V too low at {warmth_both_ways(coldest_c)}: it never gets full and sulphates through the winter"
        )
    if high > 0.0:
        said.append(
            f"{high:.2f} V too high at {warmth_both_ways(warmest_c)}: it boils water off and heats itself"
        )
    if not said:
        return f"No sensor on the bank; at {warmth_both_ways(coldest_c)} to {warmth_both_ways(warmest_c)} it costs little here."
    return f"No sensor on the bank in the file. Without one the set-points are {'; '.join(said)}. A sensor on the middle of the bank costs little; or reset them by hand with the seasons."


def _when(points: tuple[SetPoint, ...], lithium: bool) -> str:
    if lithium:
        return " when full"
    return " when cold, equalizing" if points[-1].coldest_v is not None else " when cold"


def _asks(points: tuple[SetPoint, ...], lithium: bool, highest: float) -> tuple[str, ...]:
    asks = [
        f"Battery's maker, {one.name}: {one.words}"
        for one in points
        if one.standing in ("assumed", "ask")
    ]
    if not lithium:
        asks.append("Battery's maker: how many millivolts a cell and degree; 5 is taken here, sealed cells are often given 3 to 5.")  # fmt: skip
    asks.append(
        f"Inverter's maker: the highest direct voltage it bears; the bank may stand at {ceil(highest * 10.0 - 1e-6) / 10.0:.1f} V{_when(points, lithium)}."
    )
    return tuple(asks)
