"""The parts of the answer that hang on no weather: does it stand, how is it wired."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from polestead.base.problem import Problem, Wrong
from polestead.base.show import Style
from polestead.base.working import Working
from polestead.build.build import build_of
from polestead.build.given import Given
from polestead.build.result import BuildResult
from polestead.homestead.model import Controller, Homestead, Mount, NewArray
from polestead.homestead.read import OwnersFile
from polestead.money.house import House
from polestead.mount.geometry import Geometry, geometry_of, grid_of
from polestead.stand.half_built import half_built
from polestead.stand.more import more_of
from polestead.stand.result import HalfBuilt, StandMore, StandResult, State
from polestead.stand.setting import Setting, setting_of
from polestead.stand.stand import stands
from polestead.stand.states import curves_of, own_working, parts_in, working_at
from polestead.strength.pole import PipeSection, pipe_section
from polestead.strength.tubes import tube_section
from polestead.wiring.choices import Choices, choices_of
from polestead.wiring.layouts import Layouts, layouts_of
from polestead.wiring.result import AtThePole, WiringResult
from polestead.wiring.run.beyond import Beyond
from polestead.wiring.trench.trench import Trench
from polestead.wiring.wiring import beyond_run, wiring_of


def setting_only(owners: OwnersFile) -> Setting:
    """The mount as the sums take it.

    Raises:
        Wrong: No such pipe or tube.
    """
    file = owners.homestead
    return setting_of(
        file.place, file.array, file.mount, file.footing, file.drive, file.lock, file.frame, file.prop
    )  # fmt: skip


def stand_only(owners: OwnersFile) -> StandResult:
    """Does it stand, without the weather and the house."""
    return stands(setting_only(owners))


def more_only(owners: OwnersFile) -> StandMore:
    """Half-built states, the change that helps most, the least pier, the best pins."""
    file = owners.homestead
    return more_of(setting_only(owners), file.prices.concrete_per_m3, file.units)


def state_workings(owners: OwnersFile, state: State) -> Iterator[tuple[str, Working]]:
    """Every part of a state with the gust at which it alone is at its limit, weakest tilt.

    Raises:
        Wrong: The file has no such state.
    """
    setting = setting_only(owners)
    curves = curves_of(setting)
    if state not in curves:
        there = ", ".join(curves)
        do = "Name one of these; the rod needs a [drive], the prop a [prop] in the file."
        raise Wrong([Problem("", "--state", state, there, do)])
    yield f"stands to, {state}", working_at(setting, curves[state], int(curves[state].crossing.gust_m_s.argmin()))  # fmt: skip
    for part in parts_in(setting, state):
        yield f"{part.name}, {part.what}", own_working(setting, curves[state], part)


def strongback_kg_of(mount: Mount, array: NewArray) -> float:
    """Mass of the strongback: weighed, or its size over the array's width [kg]."""
    if mount.strongback_mass_kg is not None:
        return mount.strongback_mass_kg
    grid = grid_of(
        array.module, array.columns, array.rows, array.lie == "portrait", array.gap_m, array.slot_m
    )
    return tube_section(mount.strongback).mass_kg_m * grid.width_m


def built_of(
    file: Homestead,
    geometry: Geometry,
    pipe: PipeSection,
    strongback_kg: float,
    halves: tuple[HalfBuilt, ...],
    trench: Trench | None,
) -> BuildResult:
    """How it is built.

    Args:
        file: The homestead.
        geometry: The linked geometry.
        pipe: The pole's section.
        strongback_kg: Mass of the strongback.
        halves: Half-built states with their gusts.
        trench: Of the run, what lies in it and how deep its floor is.
    """
    return build_of(given_of(file, geometry, pipe, strongback_kg, halves, trench))


def house_of(file: Homestead, built: BuildResult) -> House:
    """What the prices are held against: power, pour, steel, run, fuel.

    Args:
        file: The homestead.
        built: Its pieces and its pour.
    """
    steel = {name: sum(p.mass_kg or 0.0 for p in built.pieces if p.name == name) for name in ("pole", "strongback", "rail")}  # fmt: skip
    engine, modules = file.household.engine, file.array.columns * file.array.rows
    return House(
        file.array.module.power_w * modules, modules, built.concrete.order_m3,
        {name: kg for name, kg in steel.items() if kg > 0.0},
        {p.material: p.mass_kg / (p.count * p.length_m) for p in built.pieces if p.mass_kg and p.length_m and p.cut_from is not None},
        file.run.length_m, "" if engine is None else engine.fuel, file.units,
    )  # fmt: skip


def given_of(
    file: Homestead,
    geometry: Geometry,
    pipe: PipeSection,
    strongback_kg: float,
    halves: tuple[HalfBuilt, ...],
    trench: Trench | None,
) -> Given:
    """What pieces and drawings are made from; arguments as ``built_of``."""
    return Given(
        file.place, file.array, file.mount, file.footing, file.frame, file.run, file.drive, file.lock, file.prop,
        file.shop, file.prices, file.units == "metric", geometry, pipe, strongback_kg, halves,
        () if trench is None else tuple(" ".join(filter(None, (one.what, one.size))) for one in trench.items),
        () if trench is None else trench.bought,
        None if trench is None else trench.lengths.level_m,
        None if trench is None else trench.lengths.floor_m,
        None if trench is None else next((one.size for one in trench.items if one.what == "earth wire"), None),
    )  # fmt: skip


def given_only(owners: OwnersFile, wires: WiringResult, style: Style | None = None) -> Given:
    """What pieces, cards and drawings are made from, without the weather and the house.

    Args:
        owners: The file as read.
        wires: Of the same file, from ``wires_of``.
        style: In whose units sentences are written; None: the file's.

    Raises:
        Wrong: No such pipe or tube.
    """
    file = owners.homestead
    kg = strongback_kg_of(file.mount, file.array)
    geometry, pipe = geometry_of(file.mount, file.array, kg), pipe_section(file.mount.pole)
    given = given_of(file, geometry, pipe, kg, half_built(setting_only(owners)), wires.trench)
    return replace(given, shown=style)


def built_only(owners: OwnersFile, style: Style | None = None) -> BuildResult:
    """How it is built, without the weather and the house.

    Args:
        owners: The file as read.
        style: In whose units sentences are written; None: the file's.

    Raises:
        Wrong: No such pipe or tube.
    """
    return build_of(given_only(owners, wires_of(owners.homestead), style))


def wires_of(file: Homestead) -> WiringResult:
    """The run and strings against the controller the new array is wired to."""
    return wiring_of(
        file.place,
        file.array,
        _controller_of(file),
        file.run,
        file.household.battery,
        file.household,
        _at_the_pole(file),
    )


def beyond_in(file: Homestead) -> Beyond:
    """Cord and pole wires that the current passes beside the run."""
    return beyond_run(file.place, file.array, file.run, _at_the_pole(file))


def _at_the_pole(file: Homestead) -> AtThePole:
    mount, supply = file.mount, None if file.drive is None else file.drive.supply
    return AtThePole(
        pier_radius_m=file.footing.diameter_m / 2.0,
        hinge_height_m=mount.hinge_height_m,
        least_tilt_deg=mount.least_tilt_deg,
        steepest_tilt_deg=mount.steepest_tilt_deg,
        moves_a_day=1.0 if supply is None else supply.moves_a_day,
        buried=file.buried,
    )


def wire_choices_of(file: Homestead) -> Choices:
    """Every size of wire for the run."""
    return choices_of(
        file.place,
        file.array,
        _controller_of(file),
        file.run,
        file.household.battery,
        _at_the_pole(file),
    )


def layouts_in(file: Homestead, held_back_wh: Mapping[str, float] | None = None) -> Layouts:
    """Every layout of every array on every controller of the house.

    Args:
        file: The homestead.
        held_back_wh: By controller, of a mean year, where it was worked (``wires_year``).
    """
    return layouts_of(
        file.place,
        file.array,
        file.household,
        file.run,
        held_back_wh_by_controller=held_back_wh,
        pole=_at_the_pole(file),
    )


def _controller_of(file: Homestead) -> Controller:
    return next(one for one in file.household.controller if one.name == file.array.controller)
