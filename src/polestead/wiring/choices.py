"""What else could be wired: the modules strung otherwise, on each controller, over each size of wire."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from polestead.base.check import Check
from polestead.base.problem import Wrong
from polestead.homestead.model import CableRun, Controller, NewArray, Place
from polestead.wiring.currents import steady_current_a
from polestead.wiring.dangers import held_back_w
from polestead.wiring.run.sizes import METALS, SizeOfWire, Strings, sizes_of, smallest_lawful
from polestead.wiring.strings.voltage import DWELLING_V, HEAT_CHECK
from polestead.wiring.wiring import wiring_of

TRENCH = "trench"  # the same for every choice
__all__ = ["METALS", "Choices", "Layout", "SizeOfWire", "choices_of", "series_of"]
FUSES_FROM = 3  # strings, NEC 690.9


@dataclass(frozen=True, slots=True)
class Layout:
    """One way to string all modules on one controller over the run as it is.

    Attributes:
        controller: Its name.
        in_series, in_parallel: Modules in a string; strings.
        chosen: Whether the file has it so.
        limit_v: What the cold string must stay under: the controller's limit or 600 V in a dwelling, the lesser.
        cold_with_margin_v: At the record low by the maker's coefficient, margin in it; decides.
        margin_v: What is left of the limit; less than nothing: it kills the controller.
        table_voltage_v: By the code's table; None below its end.
        hot_v, hot_margin_v: At the controller in the heat, and over what charging wants.
        full_sun_a: Working current [A].
        steady_a: 1.56 times the short-circuit current.
        breaker_a: Next standard rating; None where there is none.
        drop_share: Lost in the run in full sun.
        held_back_w: What the controller cannot pass on of the modules' rating.
        string_fuses: From three strings on each wants its own.
        faults: What does not hold, in the words of the checks; empty: it may be wired so.
    """

    controller: str
    in_series: int
    in_parallel: int
    chosen: bool
    limit_v: float
    cold_with_margin_v: float | None
    margin_v: float | None
    table_voltage_v: float | None
    hot_v: float | None
    hot_margin_v: float | None
    full_sun_a: float
    steady_a: float
    breaker_a: float | None
    drop_share: float | None
    held_back_w: float
    string_fuses: bool
    faults: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Choices:
    """Layouts, those that may be wired first, least current before more; sizes, thinnest first, metal by metal."""

    layouts: tuple[Layout, ...]
    sizes: tuple[SizeOfWire, ...]

    def thinnest(self, metal: str) -> SizeOfWire | None:
        """The thinnest lawful size of a metal."""
        return smallest_lawful(self.sizes, metal)


def choices_of(
    place: Place,
    array: NewArray,
    controllers: Iterable[Controller],
    run: CableRun,
    battery_nominal_v: float,
) -> Choices:
    """Every layout that uses all modules on every controller, and every size of both metals.

    The breaker follows each choice by the 1.56 rule; the one in the file belongs to the layout in the file only.

    Source: NEC 690.7, 690.8, 690.9, Table 310.16 as in ``wiring_of``.

    Args:
        place: Record low.
        array: Modules and how they are strung now.
        controllers: Those of the house.
        run: From the pole.
        battery_nominal_v: Of the bank [V].

    Raises:
        Wrong: For a size of wire in the file that no table knows, and for a layout in the file over 400 A.
    """
    listed = tuple(controllers)
    freed = run.model_copy(update={"breaker_a": None})
    layouts = [
        _layout(place, array, controller, freed, battery_nominal_v, in_series)
        for controller in listed
        for in_series in series_of(array.columns * array.rows)
    ]
    layouts.sort(key=lambda one: (len(one.faults) > 0, one.steady_a, one.controller))
    now = next(one for one in listed if one.name == array.controller)
    strings = _strings_now(place, array, now, freed, battery_nominal_v)
    return Choices(tuple(layouts), sizes_of(run, place.wired_by, strings))


def series_of(modules: int) -> tuple[int, ...]:
    """Lengths of string that leave no module over.

    Example:
        >>> series_of(8), series_of(7)
        ((1, 2, 4, 8), (1, 7))
    """
    return tuple(n for n in range(1, modules + 1) if modules % n == 0)


def _layout(
    place: Place,
    array: NewArray,
    controller: Controller,
    run: CableRun,
    battery_nominal_v: float,
    in_series: int,
) -> Layout:
    in_parallel = array.columns * array.rows // in_series
    strung = array.model_copy(update={"in_series": in_series, "in_parallel": in_parallel})
    chosen = (controller.name, in_series, in_parallel) == (
        array.controller,
        array.in_series,
        array.in_parallel,
    )
    limit = min(controller.voltage_limit_v, DWELLING_V)
    amps = in_parallel * array.module.working_current_a
    steady = steady_current_a(array.module.short_circuit_current_a, in_parallel)
    fuses, held = in_parallel >= FUSES_FROM, held_back_w(array, controller, battery_nominal_v)
    try:
        wires = wiring_of(place, strung, controller, run, battery_nominal_v)
    except Wrong as wrong:
        said = tuple(f"{one.given}; allowed: {one.allowed}" for one in wrong.problems)
        return Layout(
            controller.name, in_series, in_parallel, chosen, limit, None, None, None, None, None, amps, steady, None, None,
            held, fuses, said,
        )  # fmt: skip
    hot = next(check for check in wires.checks if check.name == HEAT_CHECK)
    return Layout(
        controller=controller.name,
        in_series=in_series,
        in_parallel=in_parallel,
        chosen=chosen,
        limit_v=limit,
        cold_with_margin_v=wires.cold_with_margin_v,
        margin_v=limit - wires.cold_with_margin_v,
        table_voltage_v=wires.table_voltage_v,
        hot_v=hot.capacity,
        hot_margin_v=hot.capacity - hot.demand,
        full_sun_a=amps,
        steady_a=steady,
        breaker_a=wires.breaker_a,
        drop_share=wires.drop_share,
        held_back_w=held,
        string_fuses=fuses,
        faults=_faults(wires.checks),
    )


def _strings_now(
    place: Place,
    array: NewArray,
    controller: Controller,
    run: CableRun,
    battery_nominal_v: float,
) -> Strings:
    """What the run carries as the file strings it; the volts it may take in the heat are those of the strings' own check."""
    wires = wiring_of(place, array, controller, run, battery_nominal_v)
    hot = next(check for check in wires.checks if check.name == HEAT_CHECK)
    return Strings(
        short_circuit_current_a=array.module.short_circuit_current_a,
        in_parallel=array.in_parallel,
        full_sun_v=wires.full_sun_v,
        full_sun_a=wires.full_sun_a,
        breaker_a=wires.breaker_a,
        spare_v=hot.capacity + wires.drop_v - hot.demand,
    )


def _faults(checks: Iterable[Check]) -> tuple[str, ...]:
    return tuple(check.name for check in checks if not check.holds and check.part != TRENCH)
