"""The parts of the answer that hang on no weather: does it stand, how is it wired."""

from __future__ import annotations

from polestead.homestead.model import Homestead, Mount, NewArray
from polestead.homestead.read import OwnersFile
from polestead.mount.geometry import grid_of
from polestead.stand.result import StandResult
from polestead.stand.stand import stand_of
from polestead.strength.tubes import tube_section
from polestead.wiring.result import WiringResult
from polestead.wiring.wiring import wiring_of


def stand_only(owners: OwnersFile) -> StandResult:
    """Does it stand, without the weather and the house.

    Raises:
        Wrong: No such pipe or tube, or soil no number is given for.
    """
    file = owners.homestead
    return stand_of(
        file.place,
        file.array,
        file.mount,
        file.footing,
        file.drive,
        file.lock,
        file.frame,
        file.prop,
    )


def strongback_kg_of(mount: Mount, array: NewArray) -> float:
    """Mass of the strongback: weighed, or its size over the array's width [kg]."""
    if mount.strongback_mass_kg is not None:
        return mount.strongback_mass_kg
    grid = grid_of(
        array.module, array.columns, array.rows, array.lie == "portrait", array.gap_m, array.slot_m
    )
    return tube_section(mount.strongback).mass_kg_m * grid.width_m


def wires_of(file: Homestead) -> WiringResult:
    """The run and strings against the controller the new array is wired to."""
    house = file.household
    controller = next(one for one in house.controller if one.name == file.array.controller)
    return wiring_of(
        file.place, file.array, controller, file.run, house.battery.nominal_v, house.battery
    )
