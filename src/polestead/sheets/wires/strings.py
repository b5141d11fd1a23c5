"""Every way to string new and old modules, as text."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil, floor

from polestead.base.show import Style, in_style, percent
from polestead.sheets.ratings import share_up
from polestead.sheets.sentences import figures_of
from polestead.sheets.text import heading, say
from polestead.wiring.guards.rounded import amps_up
from polestead.wiring.layouts import Layout, Layouts
from polestead.wiring.strings.voltage import HEAT_CHECK, UNKNOWN_CHECK

HEAD = "    strings    dawn  table       left of  in heat    run breaker   lost"
NOTE = "      "
HANG = "          "
COLDEST_SUN_C = -40.0  # full sun is never met in colder air


def strings_lines(result: Layouts, style: Style = "metric") -> Iterator[str]:
    """The layouts of the new array, then of each old one; what was not looked at; one module more."""
    yield heading("Every way to string them")
    yield HEAD
    for layout in result.new:
        yield from _layout(layout, style)
    yield from _legend(result)
    for old in result.old:
        yield heading(f"Every way to string the old array {old.name}")
        yield HEAD
        for layout in old.layouts:
            yield from _layout(layout, style)
    if result.old:
        yield say("An old array's own wire is not in the file: nothing is taken off for it, measure it in full sun.")  # fmt: skip
    for line in (*result.not_looked_at, *result.words):
        yield say(line, "  * ", "    ")


def _legend(result: Layouts) -> Iterator[str]:
    yield say(
        ">: in the file. Dawn: the coldest on record, by the maker's coefficient (*: by the code's table) with margin; it decides. Table: by the "
        "code's table. Left of: the volts left of the least of the controller's limit, the code's and the module's label; less than nothing kills "
        "the controller on one clear morning, whatever the average day says. In heat: volts over what charging this battery wants, the "
        f"modules hot, weak and {_years(result)}. Run: amperes in full sun. Lost: in full sun, of the array's power, in the wire of the file, pole wires and cord, at 75 C. What hangs on "
        "the same controller is counted."
    )
    if any(layout.fuse.wanted for layout in result.new if not layout.faults):
        yield say("f: a fuse in every string.")


def _years(result: Layouts) -> str:
    """How old they are taken, from the working of the heat; plain words where no run can be laid at all."""
    checks = (check for layout in result.new for check in layout.checks)
    steps = (step for check in checks if check.name == HEAT_CHECK for step in check.working.steps)
    left = next((step.value for step in steps if step.symbol == "a"), None)
    return "old" if left is None else f"old ({percent(left)} of their volts left)"


def _layout(one: Layout, style: Style) -> Iterator[str]:
    mark = ">" if one.chosen else " "
    strings = f"{one.in_series} x {one.in_parallel}{' f' if one.fuse.wanted else ''}"
    yield say(f"{_figures(one, strings)}  {one.controller}".rstrip(), f"  {mark} ", HANG)
    if one.faults:
        yield say(
            f"NO: {'; '.join(_fault(one, fault, style) for fault in one.faults)}.", NOTE, HANG
        )
    if one.faults and not one.chosen:
        return
    yield say(_currents(one), NOTE, HANG)
    if one.fuse.strings > 1:
        yield say(one.fuse.words, NOTE, HANG)
    for ask in one.asks:
        yield say(ask, NOTE, HANG)


def _figures(one: Layout, strings: str) -> str:
    if one.cold_with_margin_v is None or one.margin_v is None:
        dawn, left = "?", f"? of {one.limit_v:.0f} V"
    else:
        by_table = "*" if one.decides == "the code's table" else ""
        dawn, left = f"{_up(one.cold_with_margin_v)} V{by_table}", f"{floor(one.margin_v + 1e-9):+d} of {one.limit_v:.0f} V"  # fmt: skip
    table = "-" if one.table_voltage_v is None else f"{_up(one.table_voltage_v)} V"
    hot = "?" if one.hot_margin_v is None else f"{floor(one.hot_margin_v + 1e-9):+d} V"
    breaker = "-" if one.breaker_a is None else f"{one.breaker_a:.0f} A"
    lost = "-" if one.drop_share is None else share_lost(one.drop_share)
    return f"{strings:<9}{dawn:>6}{table:>7}{left:>14}{hot:>9}{one.full_sun_a:>5.0f} A{breaker:>8}{lost:>7}"  # fmt: skip


def _fault(one: Layout, name: str, style: Style) -> str:
    """The check's name, and for the cold what it would do."""
    if name == UNKNOWN_CHECK:
        return next(check.working.notes[0] for check in one.checks if check.name == name).rstrip(".")  # fmt: skip
    if name == HEAT_CHECK and one.charges_to_air_c is not None:
        return f"{name}: {_charges(one.charges_to_air_c, style)}"
    check = next((check for check in one.checks if check.name == name), None)
    if check is None or check.part != "string":
        return name
    low = " at the record low" if "cold voltage" in name else ""
    return f"{name}: {figures_of(check, style).removeprefix('gives: ')}{low}"


def _charges(air_c: float, style: Style) -> str:
    """In what air a weak old string still charges full."""
    if air_c < COLDEST_SUN_C:
        return "weak and old it never charges full"
    air_c = float(floor(air_c))
    return f"weak and old it charges full in air up to {in_style(air_c, 'C', style)}"


def _currents(one: Layout) -> str:
    words = [
        f"Short-circuit {amps_up(one.short_circuit_a)}, brightest {amps_up(one.bright_a)}, for hours {amps_up(one.steady_a)}"
    ]
    if one.controller_short_circuit_a > one.short_circuit_a:
        words.append(f"all on {one.controller} {amps_up(one.controller_short_circuit_a)}")
    if one.held_back_w > 0.0:
        words.append(f"holds back up to {_up(one.held_back_w)} W in full sun")
    if one.held_back_year_wh is not None:
        words.append(f"{one.held_back_year_wh / 1000.0:.0f} kWh held back in a mean year")
    if one.equalize_margin_v is not None:
        words.append(f"{floor(one.equalize_margin_v + 1e-9):+d} V over equalizing in the heat")
    if one.one_more_margin_v is not None:
        words.append(
            f"one module more in each string leaves {floor(one.one_more_margin_v + 1e-9):+d} V"
        )
    return "; ".join(words) + "."


def share_lost(share: float) -> str:
    """Of the array's power, rounded up."""
    return share_up(share)


def _up(value: float) -> str:
    return f"{ceil(value - 1e-9)}"
