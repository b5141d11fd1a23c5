"""What single values cannot show: sections that contradict each other or themselves.

Each look is one small question.  It is handed everything that could be read; where a value it needs could not be read
(and is told as a problem of its own), the look is left out and the others still speak.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import pairwise
from types import SimpleNamespace
from typing import Any

from polestead.base.problem import Problem
from polestead.base.show import percent
from polestead.homestead.price_looks import LONGEST_NAME, PRICE_LOOKS
from polestead.homestead.sentences import move_words, priced_wire_words
from polestead.homestead.told import both

Look = Callable[[Any], Iterator[Problem]]


class Readable(SimpleNamespace):
    """Those fields of a section that could be read; asking it for another one is an AttributeError."""


def contradictions(homestead: Any) -> list[Problem]:
    """Everything that does not fit together.

    Args:
        homestead: The homestead, or an object with those sections and fields that could be read.
    """
    found: list[Problem] = []
    for look in LOOKS:
        try:
            found += list(look(homestead))
        except AttributeError as missing:
            # A value this look needs could not be read, or its section was left out; a slip of ours is neither.
            if not isinstance(missing.obj, Readable | None):
                raise
    return found


def _record_low(h: Any) -> Iterator[Problem]:
    low = h.place.record_low_c
    if abs(h.place.latitude_deg) > 30.0 and low > 10.0:
        yield Problem(
            "place",
            "record_low",
            both(low, "temperature"),
            "the coldest ever measured",
            "Check its sign and unit.",
        )


NO_NUMBER = {
    "fill": "fill settles and slides as nobody knows it was laid",
    "peat or mud": "peat carries and holds next to nothing, and creeps for years",
    "rock": "rock may be sound, rotten or a boulder: its sockets and anchors are sized from a core",
}
STEEP_DEG = 10.0


def _soil_without_number(h: Any) -> Iterator[Problem]:
    why = NO_NUMBER.get(h.place.soil)
    if why is not None:
        yield Problem(
            "place", "soil", h.place.soil, "a soil class with a presumptive value",
            f"No number is given for {h.place.soil}: {why}. An engineer looks at the hole and sizes the footing.",
        )  # fmt: skip


def _pier_on_a_slope(h: Any) -> Iterator[Problem]:
    slope = h.place.ground_slope_deg
    if slope > STEEP_DEG:
        yield Problem(
            "place", "ground_slope", both(slope, "angle"), f"at most {STEEP_DEG:g} degrees",
            "Downhill the soil before the pier is missing: the pole-footing sums do not hold there. An engineer sizes it.",
        )  # fmt: skip


def _exposure_of_its_code(h: Any) -> Iterator[Problem]:
    eurocode = h.place.wind_basis == "EN 1991-1-4"
    if eurocode == (h.place.exposure in ("B", "C", "D")):
        allowed = "0, I, II, III or IV" if eurocode else "B, C or D"
        yield Problem(
            "place", "exposure", h.place.exposure, f"{allowed} under {h.place.wind_basis}",
            "Write the exposure in the words of the edition you named.",
        )  # fmt: skip
    if eurocode and h.place.hill is not None:
        yield Problem(
            "place", "hill", "a hill", "topographic_factor under EN 1991-1-4",
            "Have c0 worked out after EN 1991-1-4 A.3 and write it as topographic_factor.",
        )  # fmt: skip


def _weather_file(h: Any) -> Iterator[Problem]:
    source, file = h.climate.source, h.climate.file
    if source == "file" and file is None:
        yield Problem(
            "climate",
            "file",
            "nothing",
            "the name of an EPW or TMY3 file",
            'Name it, or write source = "table".',
        )
    if source != "file" and file is not None:
        yield Problem(
            "climate",
            "source",
            source,
            "file",
            'A file is named: write source = "file", or take the name out.',
        )


def _monthly_figures(h: Any) -> Iterator[Problem]:
    source, sun = h.climate.source, h.climate.sun_kwh_m2_day
    if source == "months" and len(sun) != 12:
        yield Problem(
            "climate",
            "sun_kwh_m2_day",
            f"{len(sun)} numbers",
            "twelve, January first",
            "Write all twelve months.",
        )
    if source != "months" and sun:
        yield Problem(
            "climate",
            "source",
            source,
            "months",
            'Monthly figures are given: write source = "months", or take them out.',
        )
    for month, figure in enumerate(sun, start=1):
        if not 0.0 <= figure <= 12.0:
            yield Problem(
                "climate",
                "sun_kwh_m2_day",
                f"{figure:g} in month {month}",
                "0 to 12 kWh/m2 a day",
                "Is it for a day, not a month?",
            )


def _monthly_air(h: Any) -> Iterator[Problem]:
    count = len(h.climate.air_by_month_c)
    if count not in (0, 12):
        yield Problem(
            "climate",
            "air_by_month",
            f"{count} temperatures",
            "twelve, January first, or none",
            "Write all twelve months.",
        )


def _snow_months(h: Any) -> Iterator[Problem]:
    for month in h.climate.snow_on_ground:
        if not 1 <= month <= 12:
            yield Problem(
                "climate",
                "snow_on_ground",
                f"month {month}",
                "months 1 to 12",
                "Write [12, 1, 2, 3], say.",
            )


def _some_use(h: Any) -> Iterator[Problem]:
    if not h.household.uses:
        yield Problem(
            "household.uses",
            "",
            "no use at all",
            "a line for each use",
            'Write  lights = "60 W, in the evening".',
        )


def _controller_names(h: Any) -> Iterator[Problem]:
    names = [controller.name for controller in h.household.controller]
    for name in sorted({name for name in names if names.count(name) > 1}):
        yield Problem(
            "household.controller",
            "name",
            name,
            "a name of its own for each",
            "Rename one of them.",
        )


CELL_SPANS_V = {
    True: (3.0, 3.4),
    False: (1.9, 2.2),
}  # name over cells: 48 V is sold with 15 and 16 lithium cells


def _cells_make_the_volts(h: Any) -> Iterator[Problem]:
    battery = h.household.battery
    if battery.cells is None:
        return
    lithium = battery.kind == "lithium iron phosphate"
    least_v, most_v = CELL_SPANS_V[lithium]
    if not least_v - 1e-9 <= battery.nominal_v / battery.cells <= most_v + 1e-9:
        one = "3.0 to 3.4 V, as 15 or 16 for 48 V" if lithium else "2 V, as 24 for 48 V"
        yield Problem(
            "household.battery", "cells", f"{battery.cells} for {battery.nominal_v:g} V", f"cells of about {one}",
            "Count the cells of one string, one after the other; strings beside it are in the capacity.",
        )  # fmt: skip


def _set_under_its_largest(h: Any) -> Iterator[Problem]:
    for number, one in enumerate(h.household.controller, start=1):
        if one.set_current_a is not None and one.set_current_a > one.current_limit_a:
            yield Problem(
                f"household.controller.{number}", "set_current", f"{one.set_current_a:g} A", f"at most current_limit ({one.current_limit_a:g} A)",
                "It cannot be set to more than it gives: look whether the two were swapped.",
            )  # fmt: skip


def _equalized_or_never(h: Any) -> Iterator[Problem]:
    battery = h.household.battery
    if battery.never_equalized and battery.equalize_every_days is not None:
        yield Problem(
            "household.battery", "never_equalized", "true", f"false, as equalize_every_days is {battery.equalize_every_days:g}",
            "Keep one of the two.",
        )  # fmt: skip


def _new_array_is_wired(h: Any) -> Iterator[Problem]:
    yield from _wired_to(h, "array", h.array.controller)


def _old_arrays_are_wired(h: Any) -> Iterator[Problem]:
    for number, old in enumerate(h.household.old_array, start=1):
        yield from _wired_to(h, f"household.old_array.{number}", old.controller)


def _wired_to(h: Any, section: str, name: str) -> Iterator[Problem]:
    known = [controller.name for controller in h.household.controller]
    if name not in known:
        allowed = " or ".join(f'"{one}"' for one in known)
        yield Problem(
            section, "controller", name, allowed, "Name one of the controllers of the household."
        )


def _old_array_is_strung(h: Any) -> Iterator[Problem]:
    """The label of an old module helps only with the count of modules, and the count only with the label."""
    for number, old in enumerate(h.household.old_array, start=1):
        section = f"household.old_array.{number}"
        for key, count in (("in_series", old.in_series), ("in_parallel", old.in_parallel)):
            if old.module is not None and count is None:
                yield Problem(
                    section, key, "nothing", "a count, beside old_array.module",
                    "Count the modules in a string and the strings: without both its volts are not known.",
                )  # fmt: skip
            if old.module is None and count is not None:
                yield Problem(
                    section, key, f"{count}", "with old_array.module",
                    "Write what the label on its back says as [household.old_array.module], or take the count out.",
                )  # fmt: skip


RATING_SPAN = (0.8, 1.25)  # a rating said from memory, or rounded, against the labels added up


def _old_array_adds_up(h: Any) -> Iterator[Problem]:
    for number, old in enumerate(h.household.old_array, start=1):
        module = old.module
        if module is None:
            continue
        label = f"household.old_array.{number}.module"
        for key, working, most, unit in (
            ("working_voltage", module.working_voltage_v, module.open_circuit_voltage_v, "V"),
            ("working_current", module.working_current_a, module.short_circuit_current_a, "A"),
        ):
            if working >= most:
                over = "open-circuit voltage" if unit == "V" else "short-circuit current"
                yield Problem(
                    label, key, f"{working:g} {unit}", f"under the {over} ({most:g} {unit})", "Read both on its label again."
                )  # fmt: skip
        if old.in_series is None or old.in_parallel is None:
            continue  # told already
        count = old.in_series * old.in_parallel
        power_w = count * module.working_voltage_v * module.working_current_a
        least, most_w = (share * old.power_w for share in RATING_SPAN)
        if not least <= power_w <= most_w:
            sum_ = (
                f"{count} modules x {module.working_voltage_v:g} V x {module.working_current_a:g} A"
            )
            yield Problem(
                f"household.old_array.{number}", "power", both(old.power_w, "power"),
                f"about {power_w:.0f} W, which is {sum_}", "Count the modules, or read power, volts and amperes again.",
            )  # fmt: skip


def _names_are_short(h: Any) -> Iterator[Problem]:
    for name in h.household.uses:
        if not 0 < len(name) <= LONGEST_NAME or not name.isprintable():
            shown = "".join(letter if letter.isprintable() else "?" for letter in name)[:60]
            yield Problem(
                "household.uses",
                shown,
                f"a name of {len(name)} letters",
                f"a name of one line, at most {LONGEST_NAME} letters",
                "Say it shorter.",
            )


def _let_go_after_call(h: Any) -> Iterator[Problem]:
    engine = h.household.engine
    if engine.call_at >= engine.let_go_at:
        allowed = f"more than call_at ({percent(engine.call_at)})"
        yield Problem(
            "household.engine",
            "let_go_at",
            percent(engine.let_go_at),
            allowed,
            "Let it go later, or call it earlier.",
        )


def _fuel_is_priced(h: Any) -> Iterator[Problem]:
    if h.household.engine is not None and "fuel_per_l" not in h.prices.model_fields_set:
        yield Problem(
            "prices", "fuel", "nothing", "a price, as 2.60 per gal or 1.45 per l, for there is an engine",
            "Write what a gallon or a litre costs you, brought to the house.",
        )  # fmt: skip


def _called_before_dark(h: Any) -> Iterator[Problem]:
    call, lowest = h.household.engine.call_at, h.household.battery.lowest_charge
    if call < lowest:
        allowed = f"at least lowest_charge ({percent(lowest)})"
        yield Problem(
            "household.engine",
            "call_at",
            percent(call),
            allowed,
            "Call it before the house is cut off.",
        )


def _heard_hours(h: Any) -> Iterator[Problem]:
    start, end = h.household.engine.heard_from_hour, h.household.engine.heard_to_hour
    if start >= end:
        allowed = f"after heard_from_hour ({start:g})"
        yield Problem(
            "household.engine",
            "heard_to_hour",
            f"{end:g}",
            allowed,
            "Write hours of one day, as 7.0 and 22.0.",
        )


def _fuel_figures(h: Any) -> Iterator[Problem]:
    full, half = h.household.engine.full_load_fuel_l_h, h.household.engine.half_load_fuel_l_h
    if (full is None) != (half is None):
        key = "half_load_fuel" if half is None else "full_load_fuel"
        yield Problem(
            "household.engine",
            key,
            "nothing",
            "both figures of the sheet, or neither",
            "Copy both from the maker's sheet.",
        )
    elif full is not None and not half < full <= 2.0 * half:
        allowed = f"under the full-load figure ({both(full, 'fuel rate')}) and at least half of it"
        yield Problem(
            "household.engine",
            "half_load_fuel",
            both(half, "fuel rate"),
            allowed,
            "Check both on the sheet.",
        )


def _every_module_wired_once(h: Any) -> Iterator[Problem]:
    array = h.array
    count, wired = array.columns * array.rows, array.in_series * array.in_parallel
    if count != wired:
        given = f"{array.in_series} in series x {array.in_parallel} = {wired}"
        allowed = f"{array.columns} columns x {array.rows} rows = {count} modules"
        yield Problem("array", "in_parallel", given, allowed, "Wire every module once.")


def _slot_in_the_middle(h: Any) -> Iterator[Problem]:
    if h.array.slot_m > 0.0 and h.array.rows % 2:
        given = f"{both(h.array.slot_m, 'length')} with {h.array.rows} rows"
        yield Problem(
            "array",
            "slot",
            given,
            "an even number of rows",
            'The slot lies between the two middle rows; write "0 in".',
        )


def _long_side(h: Any) -> Iterator[Problem]:
    module = h.array.module
    if module.width_m > module.length_m:
        allowed = f"at most the length ({both(module.length_m, 'length')})"
        yield Problem(
            "array.module",
            "width",
            both(module.width_m, "length"),
            allowed,
            "The length is the long side.",
        )


def _working_voltage(h: Any) -> Iterator[Problem]:
    working, opened = h.array.module.working_voltage_v, h.array.module.open_circuit_voltage_v
    if working >= opened:
        allowed = f"under the open-circuit voltage ({opened:g} V)"
        yield Problem(
            "array.module",
            "working_voltage",
            f"{working:g} V",
            allowed,
            "Check both on the datasheet.",
        )


def _working_current(h: Any) -> Iterator[Problem]:
    working, short = h.array.module.working_current_a, h.array.module.short_circuit_current_a
    if working >= short:
        allowed = f"under the short-circuit current ({short:g} A)"
        yield Problem(
            "array.module",
            "working_current",
            f"{working:g} A",
            allowed,
            "Check both on the datasheet.",
        )


def _rated_power(h: Any) -> Iterator[Problem]:
    module = h.array.module
    power_w = module.working_voltage_v * module.working_current_a
    if abs(power_w / module.power_w - 1.0) > 0.05:
        allowed = f"about working voltage x working current = {power_w:.0f} W"
        yield Problem(
            "array.module",
            "power",
            f"{module.power_w:g} W",
            allowed,
            "Check the three on the datasheet.",
        )


def _fill(h: Any) -> Iterator[Problem]:
    module = h.array.module
    if module.working_voltage_v >= module.open_circuit_voltage_v or (
        module.working_current_a >= module.short_circuit_current_a
    ):
        return  # told already
    fill = (module.working_voltage_v * module.working_current_a) / (
        module.open_circuit_voltage_v * module.short_circuit_current_a
    )
    if not 0.6 <= fill <= 0.87:
        yield Problem(
            "array.module", "working_voltage", f"a fill of {fill:.2f}", ".60 to .87, as silicon has",
            "Read the four voltages and currents again.",
        )  # fmt: skip


def _coefficients(h: Any) -> Iterator[Problem]:
    power, voltage = h.array.module.power_change_per_k, h.array.module.voltage_change_per_k
    if power < 2.5 * voltage:
        yield Problem(
            "array.module", "power_change", f"{100 * power:.2f} % per K",
            f"not far beyond voltage_change, {100 * voltage:.2f} % per K", "Is one of them in volts per kelvin?",
        )  # fmt: skip


DATASHEET: tuple[Look, ...] = (
    _working_voltage,
    _working_current,
    _rated_power,
    _fill,
    _coefficients,
)


def datasheet_slips(module: Any) -> list[Problem]:
    """What a module's datasheet says against itself.

    Args:
        module: The module section.
    """
    alone = SimpleNamespace(array=SimpleNamespace(module=module))
    return [problem for look in DATASHEET for problem in look(alone)]


def _faces_the_sun(h: Any) -> Iterator[Problem]:
    latitude, facing = h.place.latitude_deg, h.mount.facing_deg
    sun_side = 180.0 if latitude >= 0.0 else 0.0
    away = abs((facing - sun_side + 180.0) % 360.0 - 180.0)
    if abs(latitude) > 23.5 and away > 90.0:
        allowed = f"within 90 deg of the noon sun ({sun_side:.0f} deg)"
        yield Problem(
            "mount",
            "facing",
            f"{facing:g} deg",
            allowed,
            "Count from true north, clockwise: 180 deg looks south.",
        )


def _travel(h: Any) -> Iterator[Problem]:
    least, steepest = h.mount.least_tilt_deg, h.mount.steepest_tilt_deg
    if least >= steepest:
        yield Problem(
            "mount",
            "steepest_tilt",
            f"{steepest:g} deg",
            f"more than least_tilt ({least:g} deg)",
            "Swap them.",
        )


def _tilts_it_can_reach(h: Any) -> Iterator[Problem]:
    least, steepest = h.mount.least_tilt_deg, h.mount.steepest_tilt_deg
    for key in ("winter_tilt", "summer_tilt"):
        tilt = getattr(h.mount, f"{key}_deg", None)
        if tilt is not None and least < steepest and not least <= tilt <= steepest:
            allowed = f"inside the travel, {least:g} to {steepest:g} deg"
            yield Problem("mount", key, f"{tilt:g} deg", allowed, "Choose a tilt it can reach.")


def _stroke(h: Any) -> Iterator[Problem]:
    stroke, tube = h.drive.stroke_m, h.drive.retracted_length_m
    if stroke >= tube:
        allowed = f"under the retracted length ({both(tube, 'length')})"
        yield Problem(
            "drive",
            "stroke",
            both(stroke, "length"),
            allowed,
            "A rod cannot come out further than its tube is long.",
        )


def _holding(h: Any) -> Iterator[Problem]:
    holding, moving = h.drive.holding_force_n, h.drive.moving_force_n
    if holding < moving:
        allowed = f"at least the moving force ({both(moving, 'force')})"
        yield Problem(
            "drive",
            "holding_force",
            both(holding, "force"),
            allowed,
            "Ask the maker for both ratings.",
        )


BATTERY_VOLTS = (12.0, 24.0, 36.0, 48.0)


def _drive_stalls(h: Any) -> Iterator[Problem]:
    running, stalled = h.drive.supply.running_a, h.drive.supply.stalled_a
    if stalled is not None and stalled < running:
        yield Problem(
            "drive.supply", "stalled", f"{stalled:g} A", f"at least the running current ({running:g} A)",
            "A motor held still draws most: look whether the two were swapped.",
        )  # fmt: skip


def _drive_volts(h: Any) -> Iterator[Problem]:
    volts = h.drive.supply.nominal_v
    if volts not in BATTERY_VOLTS:
        yield Problem(
            "drive.supply", "nominal", f"{volts:g} V", "12, 24, 36 or 48 V",
            "Write the battery's name, not what a meter shows: 12.8 V is a 12 V battery.",
        )  # fmt: skip


def _drive_power(h: Any) -> Iterator[Problem]:
    """A rod cannot do more work than its motor takes: a slip in volts, amperes, force or speed."""
    supply, speed, force = h.drive.supply, h.drive.speed_m_s, h.drive.moving_force_n
    if speed is None:
        return
    takes_w, does_w = supply.nominal_v * supply.running_a, force * speed
    if does_w > takes_w:
        yield Problem(
            "drive.supply", "running", f"{takes_w:.0f} W ({supply.nominal_v:g} V, {supply.running_a:g} A)",
            f"over the {does_w:.0f} W that the moving force does at the drive's speed",
            "Look at the current at rated load, at the volts, and whether force and speed belong together.",
        )  # fmt: skip


def _strut_has_its_length(h: Any) -> Iterator[Problem]:
    for section in ("lock", "prop"):
        hold = getattr(h, section)
        if hold is not None and hold.strut is not None and hold.strut_length_m is None:
            yield Problem(
                section,
                "strut_length",
                "nothing",
                "the strut's length from pin to pin",
                "Write it: a strut's strength hangs on it.",
            )


def _fine_soil_lifts(h: Any) -> Iterator[Problem]:
    place = h.place
    drained = place.frost_soil == "drained, not frost-susceptible"
    if place.soil == "clay or silt" and drained and place.frost_depth_m > 0.0:
        yield Problem(
            "place",
            "frost_soil",
            place.frost_soil,
            '"silt or clay", where soil = "clay or silt"',
            "Clay and silt are lifted by frost; if they are not what you have, mend soil.",
        )


def _pole_in_its_pier(h: Any) -> Iterator[Problem]:
    pole, pier = h.footing.pole_depth_m, h.footing.depth_m
    if pole > pier:
        yield Problem(
            "footing",
            "pole_depth",
            both(pole, "length"),
            f"at most the pier's depth ({both(pier, 'length')})",
            "The pole ends inside the pier.",
        )


def _some_soil_helps(h: Any) -> Iterator[Problem]:
    neglected, depth = h.footing.neglected_m, h.footing.depth_m
    if neglected >= depth:
        yield Problem(
            "footing",
            "neglected",
            both(neglected, "length"),
            f"under the pier's depth ({both(depth, 'length')})",
            "Dig deeper.",
        )


def _dirt_by_month(h: Any) -> Iterator[Problem]:
    dirt = h.array.dirt_by_month
    if dirt and len(dirt) != 12:
        yield Problem(
            "array", "dirt_by_month", f"{len(dirt)} shares", "twelve, January first", "Write all twelve months.",
        )  # fmt: skip
    for month, share in enumerate(dirt, start=1):
        if not 0.3 <= share <= 1.0:
            yield Problem(
                "array", "dirt_by_month", f"{percent(share)} in month {month}", "30 to 100 %",
                "It is what gets through, not what is lost.",
            )  # fmt: skip


def _own_moves(h: Any) -> Iterator[Problem]:
    moves, least, steepest = (
        h.mount.own_move_list,
        h.mount.least_tilt_deg,
        h.mount.steepest_tilt_deg,
    )
    days = [day for day, _ in moves]
    if len(set(days)) != len(days):
        yield Problem(
            "mount",
            "own_moves",
            "two moves on one day",
            "a day for each move",
            "Take one of them out.",
        )
    for (_, tilt), line in zip(moves, sorted(h.mount.own_moves, key=move_words), strict=True):
        if not least - 1e-6 <= tilt <= steepest + 1e-6:
            yield Problem(
                "mount", "own_moves", line, f"{least:g} to {steepest:g} degrees, the travel of the mount",
                "Write an angle it can reach.",
            )  # fmt: skip


def _months_of_last_winter(h: Any) -> Iterator[Problem]:
    lengths = {"feb": 28, "apr": 30, "jun": 30, "sep": 30, "nov": 30}
    for month, hours in h.household.last_winter.engine_hours_by_month.items():
        most = 24.0 * lengths.get(month, 31)
        if not 0.0 <= hours <= most:
            yield Problem(
                "household.last_winter", "engine_hours_by_month", f"{hours:g} h in {month}", f"0 to {most:g} h",
                "Is it hours, of one month?",
            )  # fmt: skip
    if h.household.last_winter.fills is not None and (
        h.household.engine is None or h.household.engine.tank_l is None
    ):
        yield Problem(
            "household.last_winter", "fills", f"{h.household.last_winter.fills:g} fills", "with household.engine.tank",
            "Write how much the tank holds when full, or give the fuel.",
        )  # fmt: skip


def _skyline_read(h: Any) -> Iterator[Problem]:
    view = h.view
    if view.bearings == "magnetic" and view.read_on is None and (view.readings or view.skyline):
        yield Problem(
            "view", "read_on", "no date", "the day the compass was read, as 2026-09-14",
            "The compass's error changes from year to year.",
        )  # fmt: skip
    if view.read_on is not None and not 2020 <= view.read_on.year <= 2029:
        yield Problem(
            "view", "read_on", f"{view.read_on:%d %b %Y}", "2020 to 2029, the years of the magnetic models at hand",
            "Turn the bearings to true north yourself and write bearings = \"true\".",
        )  # fmt: skip
    found = [reading.bearing_deg for reading in view.reading_list]
    if len(set(found)) != len(found):
        yield Problem("view", "readings", "one bearing twice", "each bearing once", "Take one of them out.")  # fmt: skip
    turns = sum(after < before for before, after in pairwise(found))
    if turns > 1:
        yield Problem(
            "view", "readings", "bearings that go to and fro", "in order round the horizon, clockwise",
            "Sort them, from where you began.",
        )  # fmt: skip
    if len(found) == 1:
        yield Problem("view", "readings", "one reading", "at least two", "A single point has no width: read its two edges.")  # fmt: skip


def _wires_priced(h: Any) -> Iterator[Problem]:
    read: dict[tuple[str, str], str] = {}
    for name in h.prices.wire:
        try:
            wire = priced_wire_words(name)
        except ValueError as error:
            yield Problem(
                "prices.wire", name[:60], str(error), 'a live size and its metal, as "4 AWG copper" or "16 mm2 aluminium"',
                "Name the wire as the run names it.",
            )  # fmt: skip
            continue
        if wire in read:
            yield Problem(
                "prices.wire", name[:60], f"the same wire as {read[wire]}", "each wire once", "Take one of them out."
            )  # fmt: skip
        read.setdefault(wire, name)


LOOKS: tuple[Look, ...] = (
    *DATASHEET,
    _soil_without_number,
    _pier_on_a_slope,
    _exposure_of_its_code,
    _skyline_read,
    _dirt_by_month,
    _own_moves,
    _months_of_last_winter,
    _record_low,
    _weather_file,
    _monthly_figures,
    _monthly_air,
    _snow_months,
    _some_use,
    _controller_names,
    _cells_make_the_volts,
    _set_under_its_largest,
    _equalized_or_never,
    _new_array_is_wired,
    _old_arrays_are_wired,
    _old_array_is_strung,
    _old_array_adds_up,
    _names_are_short,
    _let_go_after_call,
    _fuel_is_priced,
    _called_before_dark,
    _heard_hours,
    _fuel_figures,
    _every_module_wired_once,
    _slot_in_the_middle,
    _long_side,
    _faces_the_sun,
    _travel,
    _tilts_it_can_reach,
    _stroke,
    _holding,
    _drive_stalls,
    _drive_volts,
    _drive_power,
    _strut_has_its_length,
    _fine_soil_lifts,
    _pole_in_its_pier,
    _some_soil_helps,
    _wires_priced,
    *PRICE_LOOKS,
)
