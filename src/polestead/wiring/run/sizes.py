"""Every size of wire for the run: what it carries, what it loses in full sun, whether it is lawful."""

from __future__ import annotations

from dataclasses import dataclass

from polestead.homestead.model import CableRun
from polestead.wiring.currents import Code
from polestead.wiring.run.ampacity import ampacity_of, demanded_a, soil_c_of
from polestead.wiring.run.beyond import loop_ohm
from polestead.wiring.run.conductor import WARM_C, Conductor, conductor_of, sizes, wire_c
from polestead.wiring.run.loss import MOST_SHARE, lost_share

METALS = ("copper", "aluminium")
PROTECTED = "protects the wire"
BRINGS = "brings the array's power at all"
IN_SUMMER = "working voltage in summer heat, enough to charge"  # as the strings' own check is named


@dataclass(frozen=True, slots=True)
class Strings:
    """What the run must carry, in plain numbers.

    Attributes:
        short_circuit_current_a: Of one string [A].
        in_parallel: Strings.
        full_sun_v, full_sun_a: Working voltage and current of the run in full sun.
        breaker_a: In place, or by the rule; None: none is looked at.
        spare_v: Volts the run may take in the heat before the bank is no longer charged; None: not looked at.
        pipe_m: Wires of the run's size down the pole, one way [m].
        cord_ohm_20c: The cord over the hinge, there and back at 20 C [ohm].
    """

    short_circuit_current_a: float
    in_parallel: int
    full_sun_v: float
    full_sun_a: float
    breaker_a: float | None = None
    spare_v: float | None = None
    pipe_m: float = 0.0
    cord_ohm_20c: float = 0.0


@dataclass(frozen=True, slots=True)
class SizeOfWire:
    """One size of wire for the run as it is strung.

    Attributes:
        size, metal: As the tables write it.
        chosen: Whether the file has it so.
        carries_a: For good, at its worst place.
        governs: That place, as its check is named.
        largest_breaker_a: That still protects it.
        drop_v: Volts the full current loses in run, pole wires and cord in full sun, at 75 C.
        drop_share: Share of the power lost so; past half the volts, of what the wire can bring at best.
        warm_c, warm_drop_share: How warm the wire gets in full sun in its warmest soil, and the share lost then.
        loop_ohm: Resistance of run, pole wires and cord there and back at that warmth.
        faults: What does not hold; empty: lawful.
        notes: What its rating takes for granted; of the size in the file only.
    """

    size: str
    metal: str
    chosen: bool
    carries_a: float
    governs: str
    largest_breaker_a: float
    drop_v: float
    drop_share: float
    warm_c: float
    warm_drop_share: float
    loop_ohm: float
    faults: tuple[str, ...]
    notes: tuple[str, ...] = ()


def sizes_of(run: CableRun, code: Code, strings: Strings) -> tuple[SizeOfWire, ...]:
    """Every size both tables know of both metals, metal by metal, thinnest first.

    Source: NEC, CSA C22.1 or IEC as in ``ampacity_of``; Ohm's law.

    Args:
        run: As it lies; its size and metal only say which row is chosen.
        code: Which code counts.
        strings: What it must carry.

    Example:
        >>> run = CableRun.model_validate({"length": "220 ft", "size": "4 AWG", "method": "direct burial", "cover": "24 in"})
        >>> rows = sizes_of(run, "NEC", Strings(14.0, 2, 131.6, 26.8, 45.0))
        >>> next(row.size for row in rows if not row.faults)
        '8 AWG'
    """
    return tuple(
        size_of(run, code, strings, conductor_of(size, metal))
        for metal in METALS
        for size in sizes(metal)
    )


def thinnest_of(run: CableRun, code: Code, strings: Strings, metal: str) -> str | None:
    """The thinnest lawful size of a metal, no further size looked at; None where none will do."""
    return next(
        (
            size
            for size in sizes(metal)
            if not size_of(run, code, strings, conductor_of(size, metal)).faults
        ),
        None,
    )


def size_of(run: CableRun, code: Code, strings: Strings, wire: Conductor) -> SizeOfWire:
    """One of them."""
    told = ampacity_of(wire, run, code)
    lost = strings.full_sun_a * _loop_ohm(run, strings, wire, WARM_C)
    # past its ampacity the wire is no longer lawful, and the rise no longer honest: 90 C ends it
    warm = min(90.0, wire_c(wire, strings.full_sun_a, soil_c_of(run, code)))
    loop = _loop_ohm(run, strings, wire, warm)
    faults = [
        limit.name
        for limit in told.limits
        if demanded_a(limit, strings.short_circuit_current_a, strings.in_parallel) > limit.carries_a
    ]
    if strings.breaker_a is not None and strings.breaker_a > told.largest_breaker_a:
        faults.append(PROTECTED)
    if strings.spare_v is not None and lost > strings.spare_v:
        faults.append(IN_SUMMER)
    if lost > MOST_SHARE * strings.full_sun_v:
        faults.append(BRINGS)
    chosen = (wire.size, wire.metal) == (run.size, run.metal)
    return SizeOfWire(
        size=wire.size,
        metal=wire.metal,
        chosen=chosen,
        carries_a=told.carries_a,
        governs=told.governs,
        largest_breaker_a=told.largest_breaker_a,
        drop_v=lost,
        drop_share=lost_share(lost / strings.full_sun_v),
        warm_c=warm,
        warm_drop_share=lost_share(loop * strings.full_sun_a / strings.full_sun_v),
        loop_ohm=loop,
        faults=tuple(faults),
        notes=told.notes if chosen else (),
    )


def _loop_ohm(run: CableRun, strings: Strings, wire: Conductor, at_c: float) -> float:
    return loop_ohm(wire, run.length_m, strings.pipe_m, strings.cord_ohm_20c, at_c)


def smallest_lawful(rows: tuple[SizeOfWire, ...], metal: str) -> SizeOfWire | None:
    """The thinnest lawful size of a metal; rows come thinnest first."""
    return next((row for row in rows if row.metal == metal and not row.faults), None)
