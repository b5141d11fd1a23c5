"""What single values cannot show: sections that contradict each other or themselves."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from polestead.base.problem import Problem
from polestead.homestead.model import (
    Climate,
    Drive,
    Engine,
    Footing,
    Household,
    Module,
    Mount,
    NewArray,
    Place,
)
from polestead.homestead.sentences import use_words


def contradictions(sections: Mapping[str, Any]) -> list[Problem]:
    """Everything that does not fit together in those sections that could be read."""
    found: list[Problem] = []
    for name, look in _LOOKS.items():
        section = sections.get(name)
        if section is not None:
            found += look(section)
    house, array = sections.get("household"), sections.get("array")
    if isinstance(house, Household) and isinstance(array, NewArray):
        found += _wired_to(house, array)
    return found


def _place(place: Place) -> Iterator[Problem]:
    if abs(place.latitude_deg) > 23.5 and place.record_low_c > 15.0:
        yield Problem(
            "place",
            "record_low",
            f"{place.record_low_c:.0f} C",
            "a cold night",
            "Check its sign and unit.",
        )


def _climate(climate: Climate) -> Iterator[Problem]:
    if climate.source == "file" and climate.file is None:
        yield Problem(
            "climate",
            "file",
            "nothing",
            "the name of an EPW or TMY3 file",
            'Name it, or write source = "table".',
        )
    if climate.source == "table" and climate.file is not None:
        yield Problem(
            "climate",
            "source",
            "table",
            "file",
            'A file is named: write source = "file", or take the name out.',
        )
    wrong = [month for month in climate.snow_on_ground if not 1 <= month <= 12]
    if wrong:
        yield Problem(
            "climate",
            "snow_on_ground",
            f"month {wrong[0]}",
            "months 1 to 12",
            "Write [12, 1, 2, 3], say.",
        )


def _household(house: Household) -> Iterator[Problem]:
    if not house.uses:
        yield Problem(
            "household.uses",
            "",
            "no use at all",
            "a line for each use",
            'Write  lights = "60 W, in the evening".',
        )
    for name, sentence in house.uses.items():
        try:
            use_words(name, sentence)
        except ValueError as wrong:
            told = str(wrong)
            yield Problem(
                "household.uses",
                name,
                sentence,
                "a power, how long, and when",
                told[0].upper() + told[1:] + ".",
            )
    names = [controller.name for controller in house.controller]
    for name in sorted({name for name in names if names.count(name) > 1}):
        yield Problem(
            "household.controller",
            "name",
            name,
            "a name of its own for each",
            "Rename one of them.",
        )
    if house.engine is not None:
        yield from _engine(house.engine, house.battery.lowest_charge)


def _engine(engine: Engine, lowest: float) -> Iterator[Problem]:
    at = "household.engine"
    if engine.call_at >= engine.let_go_at:
        yield Problem(
            at,
            "let_go_at",
            f"{engine.let_go_at:.0%}",
            f"more than call_at ({engine.call_at:.0%})",
            "Let it go later.",
        )
    if engine.call_at < lowest:
        yield Problem(
            at,
            "call_at",
            f"{engine.call_at:.0%}",
            f"at least lowest_charge ({lowest:.0%})",
            "Call it before the house is cut off.",
        )
    if engine.heard_from_hour >= engine.heard_to_hour:
        yield Problem(
            at,
            "heard_to_hour",
            f"{engine.heard_to_hour:g}",
            f"after heard_from_hour ({engine.heard_from_hour:g})",
            "Write hours of one day, as 7 and 22.",
        )
    full, half = engine.full_load_fuel_l_h, engine.half_load_fuel_l_h
    if (full is None) != (half is None):
        yield Problem(
            at,
            "half_load_fuel" if half is None else "full_load_fuel",
            "nothing",
            "both figures of the sheet, or neither",
            "Copy both from the maker's sheet.",
        )
    if full is not None and half is not None and not half < full <= 2.0 * half:
        yield Problem(
            at,
            "half_load_fuel",
            f"{half:.2f} l/h",
            f"under the full-load figure ({full:.2f} l/h) and at least half of it",
            "Check both on the sheet.",
        )


def _array(array: NewArray) -> Iterator[Problem]:
    count, wired = array.columns * array.rows, array.in_series * array.in_parallel
    if count != wired:
        yield Problem(
            "array",
            "in_parallel",
            f"{array.in_series} in series x {array.in_parallel} = {wired}",
            f"{array.columns} columns x {array.rows} rows = {count} modules",
            "Wire every module once.",
        )
    if array.slot_m > 0.0 and array.rows % 2:
        yield Problem(
            "array",
            "slot",
            f"{array.slot_m:.3g} m with {array.rows} rows",
            "an even number of rows",
            "The slot lies between the two middle rows; write 0 in.",
        )
    yield from _module(array.module)


def _module(module: Module) -> Iterator[Problem]:
    at = "array.module"
    if module.width_m > module.length_m:
        yield Problem(
            at,
            "width",
            f"{module.width_m:.3f} m",
            f"at most the length ({module.length_m:.3f} m)",
            "The length is the long side.",
        )
    if module.working_voltage_v >= module.open_circuit_voltage_v:
        yield Problem(
            at,
            "working_voltage",
            f"{module.working_voltage_v:g} V",
            f"under the open-circuit voltage ({module.open_circuit_voltage_v:g} V)",
            "Check both on the datasheet.",
        )
    if module.working_current_a >= module.short_circuit_current_a:
        yield Problem(
            at,
            "working_current",
            f"{module.working_current_a:g} A",
            f"under the short-circuit current ({module.short_circuit_current_a:g} A)",
            "Check both on the datasheet.",
        )
    power_w = module.working_voltage_v * module.working_current_a
    if abs(power_w / module.power_w - 1.0) > 0.05:
        yield Problem(
            at,
            "power",
            f"{module.power_w:g} W",
            f"about working voltage x current = {power_w:.0f} W",
            "Check the three on the datasheet.",
        )


def _mount(mount: Mount) -> Iterator[Problem]:
    least, steepest = mount.least_tilt_deg, mount.steepest_tilt_deg
    if least >= steepest:
        yield Problem(
            "mount",
            "steepest_tilt",
            f"{steepest:g} deg",
            f"more than least_tilt ({least:g} deg)",
            "Swap them.",
        )
        return
    for key, tilt in (
        ("winter_tilt", mount.winter_tilt_deg),
        ("summer_tilt", mount.summer_tilt_deg),
    ):
        if not least <= tilt <= steepest:
            yield Problem(
                "mount",
                key,
                f"{tilt:g} deg",
                f"inside the travel, {least:g} to {steepest:g} deg",
                "Choose a tilt it can reach.",
            )


def _drive(drive: Drive) -> Iterator[Problem]:
    if drive.stroke_m >= drive.retracted_length_m:
        yield Problem(
            "drive",
            "stroke",
            f"{drive.stroke_m:.3g} m",
            f"under the retracted length ({drive.retracted_length_m:.3g} m)",
            "A rod cannot come out further than its tube is long.",
        )
    if drive.holding_force_n < drive.moving_force_n:
        yield Problem(
            "drive",
            "holding_force",
            f"{drive.holding_force_n:.0f} N",
            f"at least the moving force ({drive.moving_force_n:.0f} N)",
            "Ask the maker for both ratings.",
        )


def _footing(footing: Footing) -> Iterator[Problem]:
    if footing.pole_depth_m > footing.depth_m:
        yield Problem(
            "footing",
            "pole_depth",
            f"{footing.pole_depth_m:.3g} m",
            f"at most the pier's depth ({footing.depth_m:.3g} m)",
            "The pole ends inside the pier.",
        )
    if footing.neglected_m >= footing.depth_m:
        yield Problem(
            "footing",
            "neglected",
            f"{footing.neglected_m:.3g} m",
            f"under the pier's depth ({footing.depth_m:.3g} m)",
            "Dig deeper.",
        )


def _wired_to(house: Household, array: NewArray) -> Iterator[Problem]:
    names = [controller.name for controller in house.controller]
    wired = [
        ("array", array.controller),
        *((f"household.old_array {old.name}", old.controller) for old in house.old_array),
    ]
    for section, name in wired:
        if name not in names:
            yield Problem(
                section,
                "controller",
                name,
                " or ".join(f'"{known}"' for known in names),
                "Name one of the controllers above.",
            )


_LOOKS: dict[str, Callable[[Any], Iterator[Problem]]] = {
    "place": _place,
    "climate": _climate,
    "household": _household,
    "array": _array,
    "mount": _mount,
    "drive": _drive,
    "footing": _footing,
}  # fmt: skip
