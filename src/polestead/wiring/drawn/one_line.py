"""The one-line as data: every station from the pole to the battery with its ratings, and the wires between them.

One line stands for both live wires.  Numbers are SI; what a label must still tell has no value and is asked for.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from polestead.homestead.model import CableRun, Controller, Household, NewArray, OldArray
from polestead.wiring.bank.charging import CHARGER, SetTo, controller_name, currents_to_set
from polestead.wiring.drawn.form import letters
from polestead.wiring.guards.rating import VOLTS_DC, Rating, ratings_of
from polestead.wiring.guards.result import Guard
from polestead.wiring.result import WiringResult

Where = Literal["pole", "ground", "wall", "house"]
Kind = Literal[
    "strings", "cord", "string fuses", "load-break switch", "surge arrestor", "electrode", "run", "breaker", "controller",
    "controller breaker", "battery switch", "main fuse", "battery", "inverter", "house", "charger", "engine", "old modules",
    "bus", "box", "earth bar", "transfer switch",
]  # fmt: skip
Carries = Literal["direct", "alternating", "earth", "bond"]


@dataclass(frozen=True, slots=True)
class Station:
    """A thing on the line.

    Attributes:
        key: Its own, for the wires.
        kind: What it is.
        name: As called in the file, or what it is.
        where: At the pole, in the ground, on the wall, in the house.
        ratings: In the order to be read; of a guard what ``ratings_of`` tells of it, as in the list.
        note: A few words more; empty for none.
        guards: Whether it is one of the list of guards; its key is the guard's.
    """

    key: str
    kind: Kind
    name: str
    where: Where
    ratings: tuple[Rating, ...] = ()
    note: str = ""
    guards: bool = False


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


Bond = Literal["house", "inverter", "engine"]
# How each guard is drawn; what the list has besides (the bond of neutral, no way back) is a rule and no thing.
DRAWN: dict[str, tuple[Kind, Where]] = {
    "frame box": ("box", "pole"), "string fuse": ("string fuses", "pole"), "hinge box": ("box", "pole"), "pole switch": ("load-break switch", "pole"),
    "surge at the pole": ("surge arrestor", "pole"), "electrode": ("electrode", "ground"), "wall box": ("box", "wall"),
    "surge at the house": ("surge arrestor", "house"), "house switch": ("load-break switch", "house"), "run breaker": ("breaker", "house"),
    "controller breaker": ("controller breaker", "house"), "battery switch": ("battery switch", "house"), "main fuse": ("main fuse", "house"),
    "transfer switch": ("transfer switch", "house"),
}  # fmt: skip
NO_THING = ("neutral bond", "no way back")


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
        neutral_bond_at: Key of the station where the one bond of neutral and earth is drawn; the file does not say, so it is asked.
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
    neutral_bond_at: Bond = "house",
) -> OneLine:
    """Stations and wires from the file's sections and what wiring worked out.

    Every fuse, switch, breaker, arrestor and box is one of the list of guards and bears its figures.  The strings are joined in a box on
    the frame, each on terminals or a fuse of its own so that it can be opened and measured alone; one cord with two live wires and earth goes over
    the hinge to a box under it, fixed wires from there to the switch on the pole.  What only a label tells is asked.

    Source: as each guard names.

    Args:
        house: Controllers, battery, inverter, engine, old arrays.
        array: The new array.
        run: From the pole.
        wires: What was worked for them.
        code: Name of the basis.
        neutral_bond_at: Where the one bond of neutral and earth is drawn; asked wherever it is.

    Raises:
        KeyError: A guard the drawing has no place for.
    """
    bank = () if wires.bank is None else wires.bank.guards
    guards = {g.key: g for g in (*wires.guards.guards, *bank) if g.key not in NO_THING}
    known = {key: _guard_station(guard, run, house) for key, guard in guards.items()}
    controller = next(one for one in house.controller if one.name == array.controller)
    to_set = _to_set(house, wires)
    earth_size = wires.earth_wire if run.earth_size is None else run.earth_size
    chain = [
        _strings(array, wires),
        *_of(known, "frame box", "string fuse"),
        _cord(wires, wires.breaker_a if run.breaker_a is None else run.breaker_a),
        *_of(known, "hinge box", "pole switch", "surge at the pole", "electrode"),
        _run(run),
        *_of(known, "wall box", "surge at the house", "house switch", "run breaker"),
        _controller(controller, to_set),
        *_of(known, "controller breaker"),
        BUS,
    ]
    battery = [
        *(_of(known, "battery switch", "main fuse") or _unworked()),
        Station(
            "battery", "battery", "battery", "house",
            (Rating("", house.battery.nominal_v, "V"), Rating("", house.battery.capacity_ah, "Ah")), house.battery.kind,
        ),
    ]  # fmt: skip
    lines = [
        *_chained([*chain, *battery], run, array, wires, house.battery.main_leads),
        *_earth(run, earth_size, wires, {station.key for station in chain}),
    ]
    others = [
        Station(
            "inverter", "inverter", "inverter", "house",
            (Rating("gives", house.inverter.power_w, "W"), Rating("its own fuse", None, "A", "asked")),
        ),
        Station("house", "house", "house board", "house"),
        Station("earth-bar", "earth bar", "main earth bar", "house", (), "frames of all of these"),
        Station("house-electrode", "electrode", "electrode of the house", "ground"),
    ]  # fmt: skip
    lines.append(Wire("bus", "inverter", "direct"))
    changed_over = _of(known, "transfer switch")
    others += changed_over
    into = changed_over[0].key if changed_over else "house"
    lines.append(Wire("inverter", into, "alternating"))
    if changed_over:
        lines.append(Wire(into, "house", "alternating"))
    if house.engine is not None:
        nominal = house.battery.nominal_v
        others += [
            Station("charger", "charger", "charger", "house", (Rating("gives", house.engine.charger_w, "W"), Rating("about", house.engine.charger_w / nominal, "A"), *_set_at(to_set, CHARGER)),
                    "gives way" if house.engine.charger_gives_way else ""),
            Station("engine", "engine", f"engine, {house.engine.fuel}", "house", (Rating("gives", house.engine.power_w, "W"),)),
        ]  # fmt: skip
        lines += [
            Wire("engine", "charger", "alternating"),
            Wire("charger", "bus", "direct"),
            Wire("engine", into, "alternating"),
        ]
    for nth, old in enumerate(house.old_array):
        stations, more = _old(nth, old, house, array.controller, to_set)
        there = {station.key for station in others}
        others += [station for station in stations if station.key not in there]
        lines += [wire for wire in more if wire not in lines]
    bond = "house" if neutral_bond_at == "engine" and house.engine is None else neutral_bond_at
    lines += [Wire(bond, "earth-bar", "bond"), Wire("earth-bar", "house-electrode", "earth")]
    return OneLine(
        stations=(*chain, *battery, *others),
        wires=tuple(lines),
        strings=letters(array.in_parallel),
        earth_size=earth_size,
        cover_m=run.cover_m,
        neutral_bond_at=bond,
        code=code,
    )


def _of(known: dict[str, Station], *keys: str) -> list[Station]:
    return [known[key] for key in keys if key in known]


def _guard_station(guard: Guard, run: CableRun, house: Household) -> Station:
    """The guard as it is drawn, with the figures of the list."""
    kind, where = DRAWN[guard.key]
    note = guard.where.partition(",")[0] if guard.key == "string fuse" else ""
    if guard.key == "wall box":
        note = "metal from here"
    if guard.key == "electrode":
        note = "to the steel, not in place of the earth wire"
    if guard.key == "run breaker":
        note = _in_file((run.breaker_bears_v, "V DC"), (run.breaker_breaks_a, "A it breaks"))
    if guard.key == "main fuse":
        note = _in_file(
            (house.battery.main_fuse_breaks_a, "A it breaks")
        )  # its amperes are its rating
    name = guard.what.partition(",")[0]
    return Station(guard.key, kind, name, where, ratings_of(guard), note, True)


def _in_file(*of_label: tuple[float | None, str]) -> str:
    """What the file gives of its label, beside what is wanted."""
    told = [f"{value:g} {unit}" for value, unit in of_label if value is not None]
    return f"in the file: {', '.join(told)}" if told else ""


def _unworked() -> list[Station]:
    """Where nobody looked at the battery."""
    asked = (Rating("", None, "A", "asked"),)
    return [
        Station("battery switch", "battery switch", "battery switch", "house", asked),
        Station("main fuse", "main fuse", "main fuse", "house", asked),
    ]


def _strings(array: NewArray, wires: WiringResult) -> Station:
    module = array.module
    return Station(
        "strings", "strings", "strings", "pole",
        (
            Rating("modules in each", float(array.in_series), ""), Rating("each module", module.power_w, "W"),
            Rating("cold dawn", wires.cold_with_margin_v, "V", "reaches"), Rating("short-circuit", module.short_circuit_current_a, "A"),
        ),
    )  # fmt: skip


def _cord(wires: WiringResult, breaker_a: float) -> Station:
    size = "" if wires.cord is None else f", {wires.cord.cord.kind} {wires.cord.cord.size}"
    wanted = max(wires.current_for_hours_a, breaker_a)  # it is held against both
    return Station(
        "cord", "cord", "flexible cord over the hinge", "pole",
        (Rating("bears", wires.cold_with_margin_v, VOLTS_DC, "at least"), Rating("carries", wanted, "A", "at least")),
        f"2 live and earth{size}; a loop for the full swing",
    )  # fmt: skip


def _run(run: CableRun) -> Station:
    return Station(
        "run", "run", "buried run", "ground",
        (Rating("one way", run.length_m, "m"), Rating("cover", run.cover_m, "m")),
        f"2 x {run.size} {run.metal}, {run.method}",
    )  # fmt: skip


def _to_set(house: Household, wires: WiringResult) -> tuple[SetTo, ...]:
    """What controllers and charger are set to; by the file alone where nobody looked at the battery."""
    return currents_to_set(house, ()) if wires.bank is None else wires.bank.charging.to_set


def _set_at(to_set: tuple[SetTo, ...], name: str) -> list[Rating]:
    """As a rating of the one so named; what the sum demands is no more than a bound."""
    return [
        Rating("set to", one.amps_a, "A", "at most" if one.demanded else "is")
        for one in to_set
        if one.name == name
    ]


def _controller(one: Controller, to_set: tuple[SetTo, ...]) -> Station:
    ratings = [
        Rating("array", one.voltage_limit_v, "V", "at most"),
        Rating("charges", one.current_limit_a, "A", "at most"),
        *_set_at(to_set, controller_name(one.name)),
    ]
    if one.array_current_limit_a is not None:
        ratings.append(Rating("array", one.array_current_limit_a, "A", "at most"))
    has = [word for word, there in (("earth faults", one.guards_earth_faults), ("arcs", one.guards_arcs)) if there]  # fmt: skip
    note = f"guards against {' and '.join(has)}" if has else ""
    return Station(f"controller-{one.name}", "controller", f"controller {one.name}", "house", tuple(ratings), note)  # fmt: skip


def _old(
    nth: int, old: OldArray, house: Household, new_controller: str, to_set: tuple[SetTo, ...]
) -> tuple[list[Station], list[Wire]]:
    """An array that is there, its controller unless it hangs on the new one's, and its wires."""
    key, ratings = f"old-{nth}", [Rating("", old.power_w, "W")]
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
        "there: look",
    )
    joins = Wire(key, f"controller-{old.controller}", "direct")
    if old.controller == new_controller:
        return [modules], [joins]
    one = next(one for one in house.controller if one.name == old.controller)
    own = _controller(one, to_set)
    breaker = Station(
        f"breaker-{one.name}",
        "controller breaker",
        "breaker",
        "house",
        (),
        "there: look",
    )
    return [modules, own, breaker], [
        joins,
        Wire(own.key, breaker.key, "direct"),
        Wire(breaker.key, "bus", "direct"),
    ]


def _chained(
    chain: list[Station], run: CableRun, array: NewArray, wires: WiringResult, leads: str | None
) -> Iterator[Wire]:
    """One after the other along the line; arrestors hang beside it and electrodes are no part of it."""
    on_it = [station for station in chain if station.kind not in ("surge arrestor", "electrode")]
    circuits = array.in_parallel
    for one, two in pairwise(on_it):
        size = metal = length = None
        if "run" in (one.key, two.key) or (one.key, two.key) == ("hinge box", "pole switch"):
            size, metal = run.size, run.metal
        if two.key == "run":
            length = run.length_m
        if two.key == "pole switch" and wires.cord is not None and one.key == "hinge box":
            length = wires.cord.boxes.pipe_m
        if leads is not None and one.key in ("bus", "battery switch", "main fuse"):
            size, metal = leads, "copper"
        if one.key == "cord" and wires.cord is not None:
            size, length = wires.cord.cord.size, wires.cord.cut_m
        if one.key in ("frame box", "string fuse"):
            circuits = 1
        yield Wire(one.key, two.key, "direct", size, metal, length, circuits)
    for station in chain:
        if station.kind == "surge arrestor":
            tap = "pole switch" if station.where == "pole" else "house switch"
            yield Wire(tap, station.key, "direct")


def _earth(run: CableRun, size: str, wires: WiringResult, there: set[str]) -> Iterator[Wire]:
    """From the frames over the hinge in the cord, down the pole, through the trench and to the main earth bar."""
    of_cord = None if wires.cord is None else wires.cord.cord.size
    yield Wire("strings", "cord", "earth", size, "copper")
    box = "hinge box" if "hinge box" in there else "pole switch"
    yield Wire("cord", box, "earth", of_cord, None if of_cord is None else "copper")
    if box != "pole switch":
        yield Wire(box, "pole switch", "earth", size, "copper")
    yield Wire("pole switch", "electrode", "earth")
    yield Wire("surge at the pole", "electrode", "earth")
    yield Wire("pole switch", "run", "earth", size, "copper")
    yield Wire("run", "earth-bar", "earth", size, "copper", run.length_m)
    yield Wire("surge at the house", "earth-bar", "earth")
