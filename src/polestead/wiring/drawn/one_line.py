"""The one-line as data: every station from the pole to the battery with its ratings, and the wires between them.

One line stands for both live wires.  Numbers are SI; what a label must still tell has no value and is asked for.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from polestead.base.source import Source
from polestead.homestead.model import Battery, CableRun, Controller, Household, NewArray, OldArray
from polestead.wiring.currents import steady_current_a
from polestead.wiring.drawn.form import letters
from polestead.wiring.result import WiringResult

FUSES_FROM = 3  # strings, NEC 690.9
CONTINUOUS = Source("NEC", "215.3: 1.25 times a current that flows for hours", "memory")
HOURS = 1.25

Bound = Literal["is", "at least", "at most", "reaches", "asked"]
Where = Literal["pole", "ground", "house"]
Kind = Literal[
    "strings", "cord", "string fuses", "load-break switch", "surge arrestor", "electrode", "run", "breaker", "controller",
    "controller breaker", "battery switch", "main fuse", "battery", "inverter", "house", "charger", "engine", "old modules",
    "bus", "box", "earth bar",
]  # fmt: skip
Carries = Literal["direct", "alternating", "earth", "bond"]


@dataclass(frozen=True, slots=True)
class Rating:
    """One figure of a station.

    Attributes:
        what: Of what, a word or two.
        value: In ``unit``; None where nobody has told it.
        unit: ``V``, ``A``, ``W``, ``Ah``, ``m`` or empty for a count.
        bound: It *is* so; it must bear *at least* so much; it may see *at most* so much; it itself *reaches* so
            much; it must be *asked*.
    """

    what: str
    value: float | None
    unit: str
    bound: Bound = "is"


@dataclass(frozen=True, slots=True)
class Station:
    """A thing on the line.

    Attributes:
        key: Its own, for the wires.
        kind: What it is.
        name: As called in the file, or what it is.
        where: At the pole, in the ground, in the house.
        ratings: In the order to be read.
        note: A few words more; empty for none.
    """

    key: str
    kind: Kind
    name: str
    where: Where
    ratings: tuple[Rating, ...] = ()
    note: str = ""


@dataclass(frozen=True, slots=True)
class Wire:
    """From one station to another.

    Attributes:
        start, end: Keys of the stations.
        carries: Direct or alternating current, earth, or the one bond.
        size: As the file writes it; None where the file does not know it.
        metal: Of the conductor; None with the size.
        length_m: One way; None where not asked for.
        circuits: How many lines the one line stands for.
    """

    start: str
    end: str
    carries: Carries
    size: str | None = None
    metal: str | None = None
    length_m: float | None = None
    circuits: int = 1


@dataclass(frozen=True, slots=True)
class InHand:
    """Figures other rooms worked, or a label told; None is asked for on the drawing.

    Attributes:
        string_fuse_a: Fuse of each string.
        cord_size: Wires of the flexible cord over the hinge.
        switch_bears_v, switch_breaks_a: Load-break switch at the pole.
        surge_bears_v: Steady volts both arrestors bear.
        controller_breaker_a: Between controller and battery.
        inverter_fuse_a: Between bus and inverter.
        battery_switch_a: Carried by the battery's switch.
        battery_short_a: What the bank gives into a dead short, where the file does not say.
        neutral_bond_at: Where neutral and earth meet, once.
    """

    string_fuse_a: float | None = None
    cord_size: str | None = None
    switch_bears_v: float | None = None
    switch_breaks_a: float | None = None
    surge_bears_v: float | None = None
    controller_breaker_a: float | None = None
    inverter_fuse_a: float | None = None
    battery_switch_a: float | None = None
    battery_short_a: float | None = None
    neutral_bond_at: Literal["house", "inverter", "engine"] = "house"


NOTHING_IN_HAND = InHand()
BUS = Station(
    "bus", "bus", "battery bus", "house", (), "all that fills and all that draws meets here"
)


@dataclass(frozen=True, slots=True)
class OneLine:
    """The whole drawing as data.

    Attributes:
        stations: Pole first, battery last, then what else hangs on the battery: inverter, house, charger, engine, old arrays.
        wires: Between them; the earth wire goes along from the module frames to the main earth bar.
        strings: Letters of the new array's strings.
        earth_size: Of the copper earth wire that goes with the run.
        cover_m: Soil over the run.
        neutral_bond_at: Key of the station where neutral and earth meet, and nowhere else.
        code: The basis the ratings were worked on.
    """

    stations: tuple[Station, ...]
    wires: tuple[Wire, ...]
    strings: tuple[str, ...]
    earth_size: str
    cover_m: float
    neutral_bond_at: str
    code: str

    def station(self, key: str) -> Station:
        """By its key."""
        return next(station for station in self.stations if station.key == key)

    def of_kind(self, kind: Kind) -> tuple[Station, ...]:
        """All of a kind, in order."""
        return tuple(station for station in self.stations if station.kind == kind)

    def after(self, key: str, carries: Carries = "direct") -> str | None:
        """Key of the next station along the wire that carries so; None at its end."""
        found = (w.end for w in self.wires if w.start == key and w.carries == carries)
        return next(found, None)


def one_line_of(
    house: Household,
    array: NewArray,
    run: CableRun,
    wires: WiringResult,
    code: str,
    in_hand: InHand = NOTHING_IN_HAND,
) -> OneLine:
    """Stations and wires from the file's sections and what wiring worked out.

    The strings are joined in a box on the frame, each on terminals or a fuse of its own so that it can be opened and measured alone; one cord with
    two live wires and earth goes over the hinge to the switch on the pole.  What must be bought to a figure carries "at least"; what only a label tells is asked.

    Source: 1.5625 Isc for what carries the array (NEC 690.8, as in ``wiring_of``); 1.25 times the controller's limit behind it (NEC
    215.3, from memory); fuses from three strings (NEC 690.9).

    Args:
        house: Controllers, battery, inverter, engine, old arrays.
        array: The new array.
        run: From the pole.
        wires: What was worked for them.
        code: Name of the basis.
        in_hand: Figures worked or read elsewhere.
    """
    new = [*_at_the_pole(array, wires, in_hand), _run(run), *_at_the_house(run, wires, in_hand)]
    controller = next(one for one in house.controller if one.name == array.controller)
    chain = [*new, *_controller(controller, in_hand.controller_breaker_a), BUS]
    battery = list(_battery(house.battery, in_hand))
    lines = [
        *_chained([*chain, *battery], run, array, in_hand),
        *_earth(run, wires.earth_wire if run.earth_size is None else run.earth_size),
    ]
    others = [
        Station(
            "inverter", "inverter", "inverter", "house",
            (Rating("gives", house.inverter.power_w, "W"), _or_asked("its own fuse", in_hand.inverter_fuse_a, "A")),
        ),
        Station("house", "house", "house board", "house"),
        Station("earth-bar", "earth bar", "main earth bar", "house", (), "frames of all of these"),
        Station("house-electrode", "electrode", "electrode of the house", "ground"),
    ]  # fmt: skip
    lines += [Wire("bus", "inverter", "direct"), Wire("inverter", "house", "alternating")]
    if house.engine is not None:
        nominal = house.battery.nominal_v
        others += [
            Station("charger", "charger", "charger", "house", (Rating("gives", house.engine.charger_w, "W"), Rating("about", house.engine.charger_w / nominal, "A"))),
            Station("engine", "engine", f"engine, {house.engine.fuel}", "house", (Rating("gives", house.engine.power_w, "W"),)),
        ]  # fmt: skip
        lines += [
            Wire("engine", "charger", "alternating"),
            Wire("charger", "bus", "direct"),
            Wire("engine", "house", "alternating"),
        ]
    for nth, old in enumerate(house.old_array):
        stations, more = _old(nth, old, house, array.controller)
        known = {station.key for station in others}
        others += [station for station in stations if station.key not in known]
        lines += [wire for wire in more if wire not in lines]
    bond = in_hand.neutral_bond_at
    if bond == "engine" and house.engine is None:
        bond = "house"
    lines += [Wire(bond, "earth-bar", "bond"), Wire("earth-bar", "house-electrode", "earth")]
    return OneLine(
        stations=(*chain, *battery, *others),
        wires=tuple(lines),
        strings=letters(array.in_parallel),
        earth_size=wires.earth_wire if run.earth_size is None else run.earth_size,
        cover_m=run.cover_m,
        neutral_bond_at=bond,
        code=code,
    )


def _or_least(what: str, known: float | None, least: float, unit: str) -> Rating:
    if known is not None:
        return Rating(what, known, unit)
    return Rating(what, least, unit, "at least")


def _or_asked(what: str, known: float | None, unit: str) -> Rating:
    return Rating(what, known, unit, "is" if known is not None else "asked")


def _at_the_pole(array: NewArray, wires: WiringResult, in_hand: InHand) -> Iterator[Station]:
    module, cold = array.module, wires.cold_with_margin_v
    steady = steady_current_a(module.short_circuit_current_a)
    yield Station(
        "strings", "strings", "strings", "pole",
        (
            Rating("modules in each", float(array.in_series), ""), Rating("each module", module.power_w, "W"),
            Rating("cold dawn", cold, "V", "reaches"), Rating("short-circuit", module.short_circuit_current_a, "A"),
        ),
    )  # fmt: skip
    if array.in_parallel >= FUSES_FROM or in_hand.string_fuse_a is not None:
        most = module.series_fuse_a
        fuse = _or_least("each", in_hand.string_fuse_a, steady, "A")
        label = Rating("label allows", most, "A", "at most" if most is not None else "asked")
        yield Station(
            "string-fuses", "string fuses", "string fuses", "pole",
            (fuse, label, Rating("bears", cold, "V", "at least")), f"{array.in_parallel}, one a string, in the box on the frame",
        )  # fmt: skip
    else:
        yield Station(
            "frame-box", "box", "box on the frame", "pole", (Rating("bears", cold, "V", "at least"),),
            "each string on its own terminals",
        )  # fmt: skip
    yield Station(
        "cord", "cord", "flexible cord over the hinge", "pole",
        (Rating("bears", cold, "V", "at least"), _for_hours(wires)),
        f"2 live wires and earth{', ' + in_hand.cord_size if in_hand.cord_size else ''}; for wet and sun, a loop for the full swing",
    )  # fmt: skip
    yield Station(
        "pole-switch", "load-break switch", "load-break switch", "pole",
        (
            _or_least("bears", in_hand.switch_bears_v, cold, "V"),
            _or_least("breaks", in_hand.switch_breaks_a, wires.current_for_hours_a, "A"),
        ),
        "at the pole, in the box",
    )  # fmt: skip
    yield Station("pole-surge", "surge arrestor", "surge arrestor", "pole", (_or_least("bears", in_hand.surge_bears_v, cold, "V"),))  # fmt: skip
    yield Station("pole-electrode", "electrode", "electrode at the pole", "ground", (), "to the steel, not in place of the earth wire")  # fmt: skip


def _for_hours(wires: WiringResult) -> Rating:
    return Rating("carries", wires.current_for_hours_a, "A", "at least")


def _run(run: CableRun) -> Station:
    return Station(
        "run", "run", "buried run", "ground",
        (Rating("one way", run.length_m, "m"), Rating("cover", run.cover_m, "m")),
        f"2 x {run.size} {run.metal}, {run.method}",
    )  # fmt: skip


def _at_the_house(run: CableRun, wires: WiringResult, in_hand: InHand) -> Iterator[Station]:
    cold = wires.cold_with_margin_v
    yield Station("house-surge", "surge arrestor", "surge arrestor", "house", (_or_least("bears", in_hand.surge_bears_v, cold, "V"),))  # fmt: skip
    yield Station(
        "breaker", "breaker", "breaker", "house",
        (
            Rating("", wires.breaker_a if run.breaker_a is None else run.breaker_a, "A"),
            _or_least("bears", run.breaker_bears_v, cold, "V"), _or_asked("breaks", run.breaker_breaks_a, "A"),
        ),
        "in sight of the controller",
    )  # fmt: skip


def _controller(one: Controller, breaker_a: float | None = None) -> Iterator[Station]:
    ratings = [
        Rating("array", one.voltage_limit_v, "V", "at most"),
        Rating("charges", one.current_limit_a, "A", "at most"),
    ]
    if one.array_current_limit_a is not None:
        ratings.append(Rating("array", one.array_current_limit_a, "A", "at most"))
    has = [word for word, there in (("earth faults", one.guards_earth_faults), ("arcs", one.guards_arcs)) if there]  # fmt: skip
    note = f"guards against {' and '.join(has)}" if has else ""
    yield Station(
        f"controller-{one.name}",
        "controller",
        f"controller {one.name}",
        "house",
        tuple(ratings),
        note,
    )
    yield Station(
        f"controller-breaker-{one.name}", "controller breaker", "breaker", "house",
        (_or_least("", breaker_a, HOURS * one.current_limit_a, "A"),),
    )  # fmt: skip


def _battery(battery: Battery, in_hand: InHand) -> Iterator[Station]:
    short = in_hand.battery_short_a if battery.short_circuit_a is None else battery.short_circuit_a
    breaks = (
        Rating("breaks", battery.main_fuse_breaks_a, "A") if battery.main_fuse_breaks_a is not None
        else Rating("breaks", short, "A", "at least" if short is not None else "asked")
    )  # fmt: skip
    fuse = battery.main_fuse_a
    carries = in_hand.battery_switch_a
    carried = (
        Rating("carries", carries, "A") if carries is not None
        else Rating("carries", fuse, "A", "at least" if fuse is not None else "asked")
    )  # fmt: skip
    yield Station("battery-switch", "battery switch", "battery switch", "house", (carried,))
    yield Station("main-fuse", "main fuse", "main fuse", "house", (_or_asked("", fuse, "A"), breaks), "at the battery's own post")  # fmt: skip
    yield Station(
        "battery", "battery", "battery", "house",
        (Rating("", battery.nominal_v, "V"), Rating("", battery.capacity_ah, "Ah")), battery.kind,
    )  # fmt: skip


def _old(
    nth: int, old: OldArray, house: Household, new_controller: str
) -> tuple[list[Station], list[Wire]]:
    """An array that is there, its controller unless it hangs on the new one's, and its wires."""
    key, ratings = f"old-{nth}", [Rating("all", old.power_w, "W")]
    if old.in_series is not None and old.in_parallel is not None:
        ratings = [
            Rating("modules in each string", float(old.in_series), ""),
            Rating("strings", float(old.in_parallel), ""),
            *ratings,
        ]
    modules = Station(
        key,
        "old modules",
        f"old array {old.name}",
        "house",
        tuple(ratings),
        "its fuses and switch: look",
    )
    joins = Wire(key, f"controller-{old.controller}", "direct")
    if old.controller == new_controller:
        return [modules], [joins]
    one = next(one for one in house.controller if one.name == old.controller)
    own = list(_controller(one))
    return [modules, *own], [
        joins,
        Wire(own[0].key, own[1].key, "direct"),
        Wire(own[1].key, "bus", "direct"),
    ]


def _chained(
    chain: list[Station], run: CableRun, array: NewArray, in_hand: InHand
) -> Iterator[Wire]:
    """One after the other along the line; arrestors hang beside it and electrodes are no part of it."""
    on_it = [station for station in chain if station.kind not in ("surge arrestor", "electrode")]
    joined_at = "string-fuses" if "string-fuses" in {s.key for s in on_it} else "frame-box"
    circuits = array.in_parallel
    for one, two in pairwise(on_it):
        size = metal = length = None
        if "run" in (one.key, two.key):
            size, metal = run.size, run.metal
        if two.key == "run":
            length = run.length_m
        if one.key == "cord":
            size = in_hand.cord_size
        if one.key == joined_at:
            circuits = 1
        yield Wire(one.key, two.key, "direct", size, metal, length, circuits)
    for station in chain:
        if station.kind == "surge arrestor":
            tap = "pole-switch" if station.where == "pole" else "breaker"
            yield Wire(tap, station.key, "direct")


def _earth(run: CableRun, size: str) -> Iterator[Wire]:
    """From the frames down the pole, through the trench and to the main earth bar."""
    yield Wire("strings", "cord", "earth", size, "copper")
    yield Wire("cord", "pole-switch", "earth", size, "copper")
    yield Wire("pole-switch", "pole-electrode", "earth")
    yield Wire("pole-surge", "pole-electrode", "earth")
    yield Wire("pole-switch", "run", "earth", size, "copper")
    yield Wire("run", "earth-bar", "earth", size, "copper", run.length_m)
    yield Wire("house-surge", "earth-bar", "earth")
