"""What stands by the battery, as text."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil, floor

from polestead.base.show import Style, in_style
from polestead.sheets.sentences import figures_of
from polestead.sheets.text import heading, say
from polestead.sheets.wires.guards import guard_lines
from polestead.wiring.bank.bank import Bank
from polestead.wiring.bank.charging import CHARGER, Charging, tenths_that_add
from polestead.wiring.bank.hydrogen import CM2, FT3, IN2, Gassing, Hydrogen
from polestead.wiring.bank.set_points import SetPoint, SetPoints
from polestead.wiring.guards.rounded import whole_amps_up

STANDING = {"file": "in the file", "assumed": "assumed: ask", "ask": "ask its maker", "off": "off"}


def bank_lines(bank: Bank, style: Style) -> Iterator[str]:
    """Short circuit, fuse, gas, charging, set-points, bond; what does not hold and what the file does not say."""
    yield heading("By the battery")
    yield say(f"Short circuit: {bank.short_circuit.words}")
    fuse = bank.main_fuse
    size = (
        "past the standard sizes" if fuse.rating_a is None else f"{fuse.rating_a:g} A by the rule"
    )
    if fuse.in_place_a is not None and fuse.in_place_a != fuse.rating_a:
        size += f"; {fuse.in_place_a:g} A in the file"
    yield say(f"Main fuse: carries {whole_amps_up(fuse.carries_a)} for hours, so at least {whole_amps_up(fuse.least_a)}: {size}.")  # fmt: skip
    for guard in bank.guards:
        yield from guard_lines(guard)
    for check in bank.checks:
        mark = "" if check.holds else "NO: "
        yield say(f"{mark}{check.part}, {check.name}: {figures_of(check, style)}.")
    if bank.hydrogen is not None:
        yield from _gas(bank.hydrogen, style)
    yield from _charging(bank.charging)
    yield from _set_points(bank.set_points, style)
    yield heading("Cautions at the battery")
    for caution in bank.cautions:
        yield say(caution, "  * ", "    ")
    if bank.asks:
        yield heading("Not passed or not known, because the file does not say")
        for one in bank.asks:
            yield say(one, "  ? ", "    ")


def _gas(gas: Hydrogen, style: Style) -> Iterator[str]:
    yield heading("Hydrogen")
    yield "  charge     makes gas     fresh air   each of two openings"
    for row in gas.rows:
        yield f"  {row.charge:<9}{_up(row.gas_a, 1):>9} A{_air(row, style):>14}{_opening(row, style):>17}"
    yield say(gas.words)
    yield say(f"by {gas.working.steps[2].source}; {gas.working.result.source}", "    ")


def _air(row: Gassing, style: Style) -> str:
    return (
        f"{_up(row.air_m3_h, 1)} m3/h" if style == "metric" else f"{_up(row.air_m3_h / FT3)} ft3/h"
    )


def _opening(row: Gassing, style: Style) -> str:
    return f"{_up(row.opening_m2 * CM2)} cm2" if style == "metric" else f"{_up(row.opening_m2 / IN2)} in2"  # fmt: skip


def _charging(charging: Charging) -> Iterator[str]:
    yield heading("Into the battery at once")
    shown = tenths_that_add(tuple(amps for _, amps in charging.currents_a))
    for (name, _), amps in zip(charging.currents_a, shown, strict=True):
        yield f"  {name:<28}{amps:>7.1f} A"
    if len(shown) > 1:
        yield f"  {'together':<28}{sum(shown):>7.1f} A"
    yield say(charging.words)
    if not charging.settings:
        return
    yield heading("Currents to lower")
    for one in charging.settings:
        yield f"  {one.name:<28}may push {_up(one.may_push_a):>5} A   set to {one.set_to_a:>4.0f} A"
    if charging.charger_in_dark_a is not None and any(one.name == CHARGER for one in charging.settings):  # fmt: skip
        yield say(
            f"The charger by night may stand at {floor(charging.charger_in_dark_a)} A: lower it only for hours of sun, or run the engine in the dark. Where the controllers share a "
            "meter of the battery's current, ask whether they keep one limit together."
        )


def _set_points(points: SetPoints, style: Style) -> Iterator[str]:
    cold, warm = (in_style(c, "C", style) for c in (points.coldest_c, points.warmest_c))
    one = points.coldest_c == points.warmest_c
    yield heading(f"Set-points, {points.cells} cells")
    yield f"            a cell  {'at ' + in_style(25.0, 'C', style):>10}  {'at ' + cold:>10}" + ("" if one else f"  {'at ' + warm:>10}")  # fmt: skip
    for point in points.points:
        volts = f"{_volts(point.per_cell_v, 7, 2)}{_volts(point.bank_v, 10, 1)}{_volts(point.coldest_v, 10, 1)}"
        warmest = "" if one else _volts(point.warmest_v, 10, 1)
        yield f"  {point.name:<9}{volts}{warmest}  {_standing(point)}"
    yield say(points.words)
    yield say(
        f"Compensation: {_per_degree(points.per_k_v, style)}, warmer lower, colder higher."
        if points.per_k_v > 0.0
        else "Compensation: none."
    )
    yield say(f"by {points.working.result.source}", "    ")


def _per_degree(per_k_v: float, style: Style) -> str:
    """As a controller is set; most ask for it by the degree C, whoever measures."""
    by_c = f"{per_k_v * 1000.0:.0f} mV for each degree of Celsius"
    if style == "metric":
        return f"{by_c} of the bank away from 25 C"
    return f"{by_c}, which is {per_k_v * 1000.0 / 1.8:.0f} mV for each of Fahrenheit, of the bank away from 77 F"


def _up(value: float, digits: int = 0) -> str:
    """What is wanted or pushed, never told less than it is."""
    return f"{ceil(value * 10**digits - 1e-6) / 10**digits:.{digits}f}"


def _volts(volts: float | None, width: int, digits: int) -> str:
    return f"{'-':>{width + 2}}" if volts is None else f"{volts:>{width}.{digits}f} V"


def _standing(point: SetPoint) -> str:
    return STANDING[point.standing]
