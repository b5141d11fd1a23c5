"""The electrical part of three homesteads, as their owners write it."""

from __future__ import annotations

from polestead.homestead.model import (
    Battery,
    CableRun,
    Controller,
    Household,
    NewArray,
    OldArray,
    Place,
)

_PLACE = {
    "latitude": "47.9 deg", "longitude": "-91.4 deg", "elevation": "1650 ft", "wind_speed": "107 mph", "exposure": "C",
    "ground_snow": "60 psf", "frost_depth": "63 in", "soil": "sandy gravel or gravel",
    "frost_soil": "drained, not frost-susceptible",
}  # fmt: skip
_MODULE = {
    "length": "1762 mm", "width": "1134 mm", "thickness": "30 mm", "mass": "48 lb", "power_change": "-0.34 %/C",
    "tested_front": "5400 Pa", "tested_back": "4000 Pa",
}  # fmt: skip


def place(low: str) -> Place:
    return Place.model_validate({**_PLACE, "record_low": low})


def array(in_series, in_parallel, power, voc, vmp, isc, imp, change, columns=4, rows=2) -> NewArray:
    module = {
        **_MODULE, "power": power, "open_circuit_voltage": voc, "working_voltage": vmp, "short_circuit_current": isc,
        "working_current": imp, "voltage_change": change,
    }  # fmt: skip
    return NewArray.model_validate(
        {
            "columns": columns, "rows": rows, "lie": "portrait", "in_series": in_series, "in_parallel": in_parallel,
            "controller": "new", "module": module,
        }
    )  # fmt: skip


def controller(volts: str, amps: str) -> Controller:
    return Controller.model_validate({"name": "new", "voltage_limit": volts, "current_limit": amps})


def run(length, size, method="direct burial", cover="24 in", **more) -> CableRun:
    return CableRun.model_validate(
        {"length": length, "size": size, "method": method, "cover": cover, **more}
    )


def bank(kind: str, nominal: str, amp_hours: str, **more) -> Battery:
    return Battery.model_validate({"kind": kind, "nominal": nominal, "capacity": amp_hours, **more})


BANK = bank("flooded lead-acid", "48 V", "740 Ah")
IRON = bank("lithium iron phosphate", "51.2 V", "300 Ah")
SPRUCE = (
    place("-47 F"),
    array(4, 2, "440 W", "39.5 V", "32.9 V", "14.0 A", "13.4 A", "-0.25 %/C"),
    controller("250 V", "80 A"),
    run("220 ft", "4 AWG"),
    BANK,
)
MESA = (
    place("-27 F"),
    array(3, 2, "455 W", "41.0 V", "34.2 V", "13.9 A", "13.3 A", "-0.25 %/C", 2, 3),
    controller("250 V", "60 A"),
    run("150 ft", "4 AWG"),
    IRON,
)
MOSS = (
    place("-18 C"),
    array(4, 2, "410 W", "37.4 V", "31.2 V", "13.9 A", "13.15 A", "-0.27 %/C"),
    controller("250 V", "70 A"),
    run("60 m", "16 mm2", "PVC conduit", "600 mm"),
    BANK,
)


def house(controllers, old=(), battery=BANK) -> Household:
    return Household.model_validate(
        {
            "uses": {"lights": "60 W, in the evening"}, "battery": battery, "inverter": {"power": "4 kW"},
            "controller": tuple(controllers), "old_array": tuple(old),
        }
    )  # fmt: skip


def old_array(in_series=2, in_parallel=4, name="roof", on="roof", power="1.6 kW", change="-0.34 %/C", **module) -> OldArray:  # fmt: skip
    """Modules of 200 W, as a roof has carried them for years."""
    label = {
        "open_circuit_voltage": "44.8 V", "working_voltage": "36.4 V", "short_circuit_current": "5.9 A", "working_current": "5.5 A",
        **({} if change is None else {"voltage_change": change}), **module,
    }  # fmt: skip
    return OldArray.model_validate(
        {
            "name": name, "power": power, "tilt": "25 deg", "facing": "190 deg", "controller": on, "in_series": in_series,
            "in_parallel": in_parallel, "module": label,
        }
    )  # fmt: skip
