"""A default of the tool is told as its own, never as the owner's word."""

from __future__ import annotations

import pytest

from polestead.answer.stands import wires_of
from polestead.base.source import OWNER
from polestead.base.working import Working
from polestead.homestead.demos import demo_path
from polestead.homestead.model import Battery, DriveSupply, Inverter
from polestead.homestead.read import read_homestead
from polestead.wiring.bank.main_fuse import main_fuse_of
from polestead.wiring.bank.set_points import set_points_of
from polestead.wiring.bank.short_circuit import short_circuit_of
from polestead.wiring.strings.heat import hot_check
from polestead.wiring.strings.label import new_label
from polestead.wiring.tilt_drive.numbers import cell_of
from polestead.wiring.tilt_drive.tilt_drive import _dark_days
from tests.wiring.demos import BANK, SPRUCE, array

TAKEN = "the tool's default, not in the file"


def said(working: Working, words: str) -> str:
    (source,) = (str(step.source) for step in working.steps if words in step.word)
    return source


@pytest.mark.parametrize(
    "words",
    ["wants over it", "charging voltage of a cell", "less by tolerance", "years in the sun"],
)
def test_the_heats_defaults_are_the_tools(words):
    label, controller = new_label(SPRUCE[1]), SPRUCE[2]
    taken = hot_check(label, 4, BANK, controller, 3.6).working
    assert said(taken, words).startswith(TAKEN)
    written = SPRUCE[1].model_copy(update={"charges_for_years": 20.0})
    module = written.module.model_copy(update={"volts_low_by": 0.03})
    owners = hot_check(
        new_label(written.model_copy(update={"module": module})), 4, BANK.model_copy(update={"absorb_v_per_cell": 2.45}),
        controller.model_copy(update={"over_battery_v": 5.0}), 3.6,
    ).working  # fmt: skip
    assert said(owners, words) == str(OWNER)


def test_what_the_datasheet_says_stays_the_owners():
    working = hot_check(new_label(array(4, 2, "440 W", "39.5 V", "32.9 V", "14.0 A", "13.4 A", "-0.25 %/C")), 4, BANK, SPRUCE[2], 3.6).working  # fmt: skip
    assert said(working, "working voltage of a module") == str(OWNER)
    assert said(working, "change of the open voltage") == str(OWNER)


def test_the_main_fuse_tells_whose_efficiency_it_takes():
    def working(**more) -> Working:
        box = Inverter.model_validate({"power": "4.4 kW", **more})
        return main_fuse_of(BANK, box, 50.0, 60.0, short_circuit_of(BANK), "NEC").working

    assert "four points under" in said(working(), "full load")
    assert TAKEN in said(working(), "full load")
    assert TAKEN not in said(working(efficiency="91 %"), "full load")
    assert said(working(efficiency_at_full_load="87 %"), "full load") == str(OWNER)


def test_the_set_points_tell_whose_volts_and_whose_cold():
    room = {"kind": "flooded lead-acid", "nominal": "48 V", "capacity": "740 Ah"}
    bare = set_points_of(Battery.model_validate(room), 24, -44.0, 40.0, False).working
    assert said(bare, "absorb voltage of a cell").startswith(TAKEN)
    assert "as cold as the record low" in said(bare, "the bank's coldest")
    full = {**room, "absorb_v_per_cell": 2.42, "temperature": "12 C"}
    told = set_points_of(Battery.model_validate(full), 24, 12.0, 12.0, False).working
    assert said(told, "absorb voltage of a cell") == str(OWNER)
    assert said(told, "the bank's coldest") == "the bank's room in the homestead file"


def test_no_snow_under_the_loop_is_nobodys_measurement():
    cord = wires_of(read_homestead(demo_path("hollow-spruce")).homestead).cord
    assert cord is not None
    (height,) = (one for one in cord.checks if one.name == "loop over ground and snow")
    assert said(height.working, "lying snow") != str(OWNER)


def test_the_drives_idle_draw_is_the_owners_only_where_he_wrote_it():
    written = {
        "nominal": "12 V", "battery_kind": "sealed lead-acid", "battery": "35 Ah", "panel": "20 W", "running": "14 A", "wire_length": "5 m",
        "wire_size": "8 AWG",
    }  # fmt: skip

    class Worst:
        air_c = -10.0

    class Years:
        worst = Worst()

    class Motor:
        full_travel_s, running_a = 0.0, 14.0

    for more, mine in (({}, False), ({"idle": "0.5 W"}, True)):
        supply = DriveSupply.model_validate({**written, **more})
        working = _dark_days(supply, cell_of(supply), Motor(), Years())  # type: ignore[arg-type]
        assert (said(working, "idle draw") == str(OWNER)) is mine
