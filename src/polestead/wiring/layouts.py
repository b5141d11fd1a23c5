"""Every way to string the new array, and the old ones, on every controller, with what hangs there already."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from math import ceil, floor

from polestead.base.check import Check
from polestead.base.problem import Wrong
from polestead.homestead.model import (
    Battery,
    CableRun,
    Controller,
    Household,
    NewArray,
    OldArray,
    Place,
)
from polestead.wiring.currents import Code, bright_current_a, next_rating_a, steady_current_a
from polestead.wiring.dangers import held_back_w
from polestead.wiring.result import AtThePole, WiringResult
from polestead.wiring.run.beyond import NOTHING, Beyond
from polestead.wiring.run.conductor import conductor_of
from polestead.wiring.run.hinge_cable import one_cord_check
from polestead.wiring.strings.fuses import StringFuse, fuse_checks, string_fuse
from polestead.wiring.strings.heat import charges_to_air_c, hot_check, wanted_of
from polestead.wiring.strings.label import Label, new_label, old_label
from polestead.wiring.strings.together import Hung, amps_checks, match_checks
from polestead.wiring.strings.voltage import (
    HEAT_CHECK,
    Cold,
    Decides,
    cold_checks,
    cold_of,
    limits_of,
)
from polestead.wiring.wiring import beyond_run, wiring_of

NEW = "new array"
TRENCH = "trench"  # the same for every layout
READ_OFF = (
    "open-circuit voltage (Voc), working voltage (Vmp or Vpm), short-circuit current (Isc), working current (Imp or Ipm), the "
    "largest series fuse"
)
AGAIN = (
    "Change a module in the file, or add one (array.module, columns, rows), and every layout here is worked again: a module added "
    "to a string in autumn may kill the controller on the first clear dawn of deep cold."
)


@dataclass(frozen=True, slots=True)
class Layout:
    """One way to string all modules of an array on one controller.

    Attributes:
        array: Whose modules: ``new array``, or the old array's name.
        controller: Its name.
        in_series, in_parallel: Modules in a string; strings.
        chosen: Whether the file has it so.
        limit_v: What the cold string must stay under: the least of controller, code and module's label.
        limited_by: Which of them, in the words of its check.
        decides: Whether coefficient or table is held against it.
        cold_v: At the record low by what decides.
        cold_with_margin_v: The same, margin in it; None where nobody can say.
        margin_v: What is left of the limit; less than nothing: it kills the controller.
        table_voltage_v: By the code's table, shown; None below its end.
        one_more_margin_v: What would be left with one module more in each string.
        wanted_v: What charging wants at the controller, bank and controller together.
        hot_v, hot_margin_v: Hot, weak and old at the controller, and over what charging wants; None where the run cannot be laid.
        charges_to_air_c: Warmest air in which it still charges full in full sun, weak and old; None as above.
        equalize_margin_v: Over what equalizing wants; None where the bank is not equalized.
        full_sun_a: Working current of its strings [A].
        short_circuit_a, bright_a, steady_a: Short-circuit current of its strings; 1.25 and 1.56 times it.
        controller_short_circuit_a: Of all arrays on the controller whose module is known.
        breaker_a: Next standard rating; None where there is none.
        drop_v, drop_share: Lost in run, pole wires and cord in full sun; None for an old array, whose wire is not in the file.
        lost_w: In full sun, in the run and at the controller's limit together; what those that hold are ranked by.
        held_back_w: What the controller cannot pass on of all modules on it, at their rating.
        held_back_year_wh: What it holds back in a mean year more than without the new array; None where that was not worked.
        fuse: Of each string.
        asks: What must still be read off a label or sheet before it is wired so.
        faults: What does not hold, in the words of the checks; empty: it may be wired so.
        checks: All of them.
    """

    array: str
    controller: str
    in_series: int
    in_parallel: int
    chosen: bool
    limit_v: float
    limited_by: str
    decides: Decides
    cold_v: float | None
    cold_with_margin_v: float | None
    margin_v: float | None
    table_voltage_v: float | None
    one_more_margin_v: float | None
    wanted_v: float
    hot_v: float | None
    hot_margin_v: float | None
    charges_to_air_c: float | None
    equalize_margin_v: float | None
    full_sun_a: float
    short_circuit_a: float
    bright_a: float
    steady_a: float
    controller_short_circuit_a: float
    breaker_a: float | None
    drop_v: float | None
    drop_share: float | None
    lost_w: float
    held_back_w: float
    held_back_year_wh: float | None
    fuse: StringFuse
    asks: tuple[str, ...]
    faults: tuple[str, ...]
    checks: tuple[Check, ...]

    @property
    def kills(self) -> bool:
        """Whether the record low takes it over a limit, or nobody can say that it does not."""
        return self.margin_v is None or self.margin_v < 0.0


@dataclass(frozen=True, slots=True)
class OldLayouts:
    """An array that is there already, strung every way on every controller."""

    name: str
    layouts: tuple[Layout, ...]


@dataclass(frozen=True, slots=True)
class Layouts:
    """Every layout of every array.

    Attributes:
        code: Which code the wires follow.
        record_low_c: Of the place.
        new: Of the new array: those that may be wired first, least lost before more, then most volts left.
        old: Of each old array whose module is written.
        not_looked_at: Old arrays whose module is not, with what to read off the label.
        words: One module more in each string, and what is different under the code.
    """

    code: Code
    record_low_c: float
    new: tuple[Layout, ...]
    old: tuple[OldLayouts, ...]
    not_looked_at: tuple[str, ...]
    words: tuple[str, ...]

    @property
    def chosen(self) -> Layout:
        """The layout of the new array in the file."""
        return next(one for one in self.new if one.chosen)


@dataclass(frozen=True, slots=True)
class _House:
    """What all layouts of a house share."""

    low_c: float
    code: Code
    battery: Battery
    hung: dict[str, tuple[Hung, ...]]
    unread: dict[str, tuple[str, ...]]


def series_of(modules: int) -> tuple[int, ...]:
    """Lengths of string that leave no module over.

    Example:
        >>> series_of(8), series_of(7)
        ((1, 2, 4, 8), (1, 7))
    """
    return tuple(n for n in range(1, modules + 1) if modules % n == 0)


def layouts_of(
    place: Place,
    array: NewArray,
    house: Household,
    run: CableRun,
    code: Code | None = None,
    held_back_wh_by_controller: Mapping[str, float] | None = None,
    pole: AtThePole | None = None,
) -> Layouts:
    """Every layout that uses all modules, of the new array and of each old one, on every controller.

    What else hangs on a controller is counted: volts must match, amperes add, strings add up for the fuses.  The breaker follows
    each layout by the 1.56 rule; the one in the file belongs to the layout in the file only.

    Source: NEC 690.7, 690.8, 690.9 and what stands for them under the code; see ``strings``.

    Args:
        place: Record low.
        array: The new array, its modules and how they are strung now.
        house: Controllers, old arrays, battery.
        run: From the pole.
        code: Which code the wires follow; None: as the place says.
        held_back_wh_by_controller: Sun held back in a mean year with the new array on each controller, more than without it [Wh].
        pole: For cord and wires down the pole; without it they lose nothing.

    Raises:
        Wrong: For a size of wire in the file that no table knows.
    """
    conductor_of(run.size, run.metal)
    freed = run.model_copy(update={"breaker_a": None})
    beyond = NOTHING if pole is None else beyond_run(place, array, run, pole)
    shared = _shared(place, array, house, code or place.wired_by)
    new = [
        _new_layout(
            place, array, controller, freed, shared, in_series, held_back_wh_by_controller, beyond
        )
        for controller in house.controller
        for in_series in series_of(array.columns * array.rows)
    ]
    old, unread = [], []
    for number, one in enumerate(house.old_array, start=1):
        hung = _old_hung(number, one, array.charges_for_years)
        if hung is None:
            unread.append(_unread(one))
        else:
            old.append(_old_layouts(hung, one.controller, house, shared))
    ranked = _ranked(new)
    words = (*_one_more(ranked, array), AGAIN, *CODE_WORDS[shared.code])
    return Layouts(shared.code, shared.low_c, ranked, tuple(old), tuple(unread), words)


CODE_WORDS: dict[Code, tuple[str, ...]] = {
    "NEC": (),
    "Canada": (
        "Canada (CSA C22.1, 64-202): where no coefficient is taken the open-circuit voltage counts 1.25 times at any temperature; "
        "600 V in a dwelling. Below -40 C we do not let that 1.25 decide.",
    ),
    "IEC": (
        "IEC 60364 and 62548 have no 600 V rule for dwellings: controller, module's label and the end of low voltage at 1500 V hold. "
        "National rules may say less: ask the inspector. String fuses: gPV to IEC 60269-6, from 1.5 (here 1.56) to 2.4 times the "
        "short-circuit current (from memory).",
    ),
}  # fmt: skip


def _shared(place: Place, array: NewArray, house: Household, code: Code) -> _House:
    hung: dict[str, list[Hung]] = {one.name: [] for one in house.controller}
    unread: dict[str, list[str]] = {one.name: [] for one in house.controller}
    hung.setdefault(array.controller, []).append(_new_hung(array))
    for number, old in enumerate(house.old_array, start=1):
        one = _old_hung(number, old, array.charges_for_years)
        if one is None:
            unread.setdefault(old.controller, []).append(old.name)
        else:
            hung.setdefault(old.controller, []).append(one)
    return _House(
        place.record_low_c, code, house.battery, {name: tuple(some) for name, some in hung.items()},
        {name: tuple(some) for name, some in unread.items()},
    )  # fmt: skip


def _new_hung(array: NewArray) -> Hung:
    power = array.columns * array.rows * array.module.power_w
    return Hung(0, NEW, new_label(array), array.in_series, array.in_parallel, power)


def _old_hung(number: int, old: OldArray, years_more: float) -> Hung | None:
    """None where the label of its module, or how it is strung, is not written."""
    label = old_label(old, years_more)
    if label is None or old.in_series is None or old.in_parallel is None:
        return None
    return Hung(number, old.name, label, old.in_series, old.in_parallel, old.power_w)


def _new_layout(
    place: Place,
    array: NewArray,
    controller: Controller,
    run: CableRun,
    shared: _House,
    in_series: int,
    held_back_wh: Mapping[str, float] | None,
    beyond: Beyond,
) -> Layout:
    in_parallel = array.columns * array.rows // in_series
    strung = array.model_copy(
        update={"in_series": in_series, "in_parallel": in_parallel, "controller": controller.name}
    )
    said: tuple[str, ...] = ()
    wires: WiringResult | None = None
    try:
        wires = wiring_of(place, strung, controller, run, shared.battery, beyond=beyond)
    except Wrong as wrong:
        said = tuple(f"{one.given}; allowed: {one.allowed}" for one in wrong.problems)
    chosen = (controller.name, in_series) == (array.controller, array.in_series)
    year = None if held_back_wh is None else held_back_wh.get(controller.name)
    cord = _cord(array.module.short_circuit_current_a, in_parallel, beyond, shared.code)
    return _layout(_new_hung(strung), controller, shared, chosen, wires, said, year, cord)


def _cord(isc_a: float, strings: int, beyond: Beyond, code: Code) -> tuple[Check, ...]:
    """Whether a cord serves these strings; nothing where the pole was not looked at, or no breaker is so large."""
    breaker_a = _breaker_a(isc_a * strings, code)
    if beyond.cord_m <= 0.0 or breaker_a is None:
        return ()
    steady, bright = steady_current_a(isc_a, strings), bright_current_a(isc_a, strings)
    return (one_cord_check(beyond.kind, steady, bright, breaker_a, code),)


def _old_layouts(hung: Hung, on: str, house: Household, shared: _House) -> OldLayouts:
    count = hung.in_series * hung.in_parallel
    rows = [
        _layout(
            replace(hung, in_series=n, in_parallel=count // n), controller, shared,
            (controller.name, n) == (on, hung.in_series), None, (), None,
        )
        for controller in house.controller
        for n in series_of(count)
    ]  # fmt: skip
    return OldLayouts(hung.name, _ranked(rows))


def _layout(
    hung: Hung,
    controller: Controller,
    shared: _House,
    chosen: bool,
    wires: WiringResult | None,
    said: tuple[str, ...],
    held_back_year_wh: float | None,
    cord: tuple[Check, ...] = (),
) -> Layout:
    """A layout with what hangs beside it; ``wires`` is its run, None where it has none in the file or none can be laid."""
    label, n = hung.label, hung.in_series
    beside = tuple(one for one in shared.hung.get(controller.name, ()) if one.number != hung.number)
    cold = cold_of(label, n, shared.low_c, shared.code)
    fuse = _fuse(hung, beside, cold, shared.code)
    on_it = (hung, *beside)
    strings = cold_checks(label, cold, controller, shared.code)
    hot = _hot(hung, shared.battery, controller, wires, said)
    beside_checks = (
        *match_checks(hung, beside),
        *amps_checks(on_it, controller, shared.code),
        *fuse_checks(fuse, shared.code),
    )
    run = (
        ()
        if wires is None
        else tuple(one for one in wires.checks if one.part not in ("string", TRENCH))
    )
    checks = (*strings, *(() if hot is None else (hot,)), *beside_checks, *run, *cord)
    limit, limited_by, _ = min(limits_of(label, controller, shared.code), key=lambda one: one[0])
    wanted = wanted_of(shared.battery, controller)
    equalizing = wanted.equalizing_v
    isc = hung.short_circuit_a
    held = held_back_w(sum(one.power_w for one in on_it), controller, shared.battery.nominal_v)
    return Layout(
        array=hung.name,
        controller=controller.name,
        in_series=n,
        in_parallel=hung.in_parallel,
        chosen=chosen,
        limit_v=limit,
        limited_by=limited_by,
        decides=cold.decides,
        cold_v=cold.by_table_v if cold.decides == "the code's table" else cold.by_coefficient_v,
        cold_with_margin_v=cold.with_margin_v,
        margin_v=_left(limit, cold),
        table_voltage_v=cold.by_table_v,
        one_more_margin_v=_left(limit, cold_of(label, n + 1, shared.low_c, shared.code)),
        wanted_v=wanted.wanted_v,
        hot_v=None if hot is None else hot.capacity,
        hot_margin_v=None if hot is None else hot.capacity - hot.demand,
        charges_to_air_c=None
        if hot is None
        else charges_to_air_c(label, n, wanted.wanted_v, 0.0 if wires is None else wires.drop_v),
        equalize_margin_v=None if hot is None or equalizing is None else hot.capacity - equalizing,
        full_sun_a=hung.in_parallel * label.working_current_a,
        short_circuit_a=isc,
        bright_a=bright_current_a(isc),
        steady_a=steady_current_a(isc),
        controller_short_circuit_a=sum(one.short_circuit_a for one in on_it),
        breaker_a=_breaker_a(isc, shared.code),
        drop_v=None if wires is None else wires.drop_v,
        drop_share=None if wires is None else wires.drop_share,
        lost_w=held + (0.0 if wires is None else wires.drop_share * hung.power_w),
        held_back_w=held,
        held_back_year_wh=held_back_year_wh,
        fuse=fuse,
        asks=_asks(
            label, controller, fuse, shared.unread.get(controller.name, ()), cold, limit
        ),
        faults=(*said, *(one.name for one in checks if not one.holds)),
        checks=checks,
    )  # fmt: skip


def _hot(
    hung: Hung,
    battery: Battery,
    controller: Controller,
    wires: WiringResult | None,
    said: tuple[str, ...],
) -> Check | None:
    """None where the run cannot be laid; what it loses is then not known."""
    if wires is not None:
        return next(one for one in wires.checks if one.name == HEAT_CHECK)
    return None if said else hot_check(hung.label, hung.in_series, battery, controller, None)


def _fuse(hung: Hung, beside: tuple[Hung, ...], cold: Cold, code: Code) -> StringFuse:
    others = tuple((one.label.short_circuit_current_a, one.in_parallel) for one in beside)
    return string_fuse(hung.label, hung.in_parallel, others, cold.with_margin_v, code)


def _left(limit_v: float, cold: Cold) -> float | None:
    return None if cold.with_margin_v is None else limit_v - cold.with_margin_v


def _breaker_a(short_circuit_a: float, code: Code) -> float | None:
    try:
        return next_rating_a(steady_current_a(short_circuit_a), code)
    except Wrong:
        return None


def _asks(
    label: Label,
    controller: Controller,
    fuse: StringFuse,
    unread: Iterable[str],
    cold: Cold,
    limit_v: float,
) -> tuple[str, ...]:
    asks = [
        f"Read the label of {name} first: it hangs on {controller.name} too, its volts must match and its amperes add."
        for name in unread
    ]  # fmt: skip
    tabled, most = cold.by_table_v, cold.with_margin_v
    if tabled is not None and most is not None and most <= limit_v < tabled:
        asks.append(
            f"By the code's table it shows {ceil(tabled - 1e-9)} V, over {limit_v:g} V; the coefficient decides, yet an inspector without "
            "the datasheet goes by the table: have the sheet at hand."
        )
    if fuse.strings > 1 and label.series_fuse_a is None:
        asks.append("Read the largest series fuse off the module's label.")
    if controller.array_current_limit_a is None and fuse.strings > 1:
        asks.append(f"Ask for the largest short-circuit current {controller.name} bears (array_current_limit).")  # fmt: skip
    return tuple(asks)


def _ranked(layouts: Iterable[Layout]) -> tuple[Layout, ...]:
    """Those that may be wired first, least lost in full sun before more, then most volts left; of the others the nearest first."""

    def order(one: Layout) -> tuple[bool, bool, float, float, str]:
        left = float("-inf") if one.margin_v is None else one.margin_v
        lost = round(one.lost_w, 3) if not one.faults else 0.0
        return (len(one.faults) > 0, one.kills, lost, -left, one.controller)

    return tuple(sorted(layouts, key=order))


def _unread(old: OldArray) -> str:
    return (
        f"Old array {old.name} is not looked at: its module is not in the file. Read off the label on its back {READ_OFF}; count the "
        "modules in a string and the strings; write them as household.old_array.module, in_series and in_parallel."
    )  # fmt: skip


def _one_more(layouts: tuple[Layout, ...], array: NewArray) -> tuple[str, ...]:
    chosen = next((one for one in layouts if one.chosen), None)
    if chosen is None or chosen.one_more_margin_v is None:
        return ()
    n, strings, left = chosen.in_series + 1, chosen.in_parallel, chosen.one_more_margin_v
    shown = chosen.limit_v - left
    what = f"One module more in each string ({n} x {strings}) would show {ceil(shown - 1e-9)} V at the coldest dawn, margin in it"
    modules = n * strings - array.columns * array.rows
    if left < 0.0:
        return (f"{what}: {ceil(-left - 1e-9)} V over the {chosen.limit_v:g} V of {chosen.controller}. It would kill it.",)  # fmt: skip
    return (
        f"{what}: {floor(left + 1e-9)} V left of {chosen.limit_v:g} V, for {modules} modules more.",
    )
