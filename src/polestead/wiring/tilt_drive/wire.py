"""Wire and fuse to the motor: inrush, drop, stall, and the slow-down of cold."""

from __future__ import annotations

from polestead.base.check import Check, share
from polestead.base.problem import Problem, Wrong
from polestead.base.show import percent
from polestead.base.source import OWNER, Source
from polestead.base.table import table
from polestead.base.working import Step, Working
from polestead.homestead.model import DriveSupply
from polestead.wiring.by_code import borrowed
from polestead.wiring.currents import Code
from polestead.wiring.run.ampacity import ABOUT_C, iec_in_air_a
from polestead.wiring.run.conductor import (
    WARM_C,
    Conductor,
    conductor_of,
    drop_v,
    share_left,
)
from polestead.wiring.tilt_drive.clauses import drive_source
from polestead.wiring.tilt_drive.numbers import RESISTANCE, Cell, MotorNumbers, stalled_a
from polestead.wiring.tilt_drive.result import MotorWire

PART = "wire to the drive"
WARM_AIR_C = 20.0
OHM = Source("Ohm's law", status="computed")
MACHINE = Source("equations of the DC machine with a steady field", status="computed")
LEAST_VOLTS = Source("common practice, no source", "85 % of nominal volts at the motor", "common practice")  # fmt: skip
GREASE = Source("common practice, no source", "half the speed in cold grease", "common practice")
LEAST_SHARE = 0.85
INRUSH_S = 1.0  # an inrush is over in well under a second; ours
TO_TWICE_S, DELAY_S, AN_HOUR_S = 12.0, 120.0, 3600.0
COPPER_PER_K = 0.00393  # a cold winding takes more current; IEC 60228's figure for copper


def wire_of(supply: DriveSupply) -> Conductor:
    """The copper wire the owner named.

    Raises:
        Wrong: A size no table knows, told at its place in the file.
    """
    try:
        return conductor_of(supply.wire_size, "copper")
    except Wrong as wrong:
        raise Wrong(
            [Problem("drive.supply", "wire_size", one.given, one.allowed, one.do) for one in wrong.problems]
        ) from wrong  # fmt: skip


def carries_a(wire: Conductor, code: Code = "NEC") -> float:
    """What the wire carries at small terminals and in the sun.

    The 60 C column, or 90 C in 45 C air, whichever is less; under IEC a PVC wire of 70 C in pipe, in 45 C air.

    Source: NEC 110.14(C)(1)(a) (from memory), Table 310.16, Table 310.15(B)(1); IEC 60364-5-52 Tables B.52.2 and .14 (from memory).

    Example:
        >>> carries_a(conductor_of("8 AWG", "copper")), round(carries_a(conductor_of("6 mm2", "copper"), "IEC"), 1)
        (40.0, 30.0)
    """
    if code == "IEC":
        return iec_in_air_a(wire, 70, ABOUT_C)
    return min(wire.at_60_a, wire.at_90_a * share_left(ABOUT_C, 90))


def fuse_ratings_a(code: Code = "NEC") -> tuple[float, ...]:
    """Standard ratings, smallest first (NEC 240.6(A), sold in Canada too; IEC 60269-1)."""
    own = "IEC" if code == "IEC" else "NEC"
    small = [
        float(row["rating_a"]) for row in table("wiring", "tilt_drive/fuses") if row["code"] == own
    ]
    if code == "IEC":
        return tuple(small)
    return (*small, *(float(row["rating_a"]) for row in table("wiring", "guards/breakers")))


def largest_fuse_a(wire: Conductor, code: Code = "NEC") -> float:
    """Largest fuse that protects the wire: no more than it carries, less on small wire.

    Source: NEC 240.4(D) (seen); not the next size up, which is ours.  IEC 60364-4-43, 433.1: what surely melts the fuse within the
    hour is no more than 1.45 times what the wire carries (from memory).

    Example:
        6 mm2 carries 30 A: 1.45 x 30 / 1.6 = 27.2.

        >>> largest_fuse_a(conductor_of("10 AWG", "copper")), largest_fuse_a(conductor_of("6 mm2", "copper"), "IEC")
        (30.0, 25.0)
    """
    carried = carries_a(wire, code)
    if code == "IEC":
        fit = (one for one in fuse_ratings_a(code) if melts_at(one) * one <= 1.45 * carried)
        return max(fit, default=0.0)
    small = [
        float(row["largest_a"])
        for row in table("wiring", "run/small")
        if (row["size"], row["metal"]) == (wire.rated_as, wire.metal)
    ]
    most = min([carried, *small])
    return max((one for one in fuse_ratings_a(code) if one <= most), default=0.0)


def melts_at(fuse_a: float) -> float:
    """Times its rating at which a gG fuse surely melts within the hour.

    Source: IEC 60269-1 and -2, conventional fusing current (from memory).

    Example:
        >>> melts_at(4.0), melts_at(10.0), melts_at(16.0)
        (2.1, 1.9, 1.6)
    """
    if fuse_a <= 4.0:
        return 2.1
    return 1.9 if fuse_a < 16.0 else 1.6


def holds_s(current_a: float, fuse_a: float) -> float:
    """Least time a time-delay fuse holds a current.

    Source: UL 248-14, 12 s at twice the rating for a time-delay fuse (from memory); elsewhere by the square of the current (ours).

    Args:
        current_a: [A].
        fuse_a: Rating [A].

    Returns:
        [s]; up to its rating an hour, which stands for always.

    Example:
        At three times: 12 x (2/3)^2.

        >>> round(holds_s(60.0, 20.0), 2), holds_s(20.0, 20.0)
        (5.33, 3600.0)
    """
    times = current_a / fuse_a
    return AN_HOUR_S if times <= 1.0 else TO_TWICE_S * (2.0 / times) ** 2


def opens_s(current_a: float, fuse_a: float) -> float | None:
    """Longest time until the fuse opens: within an hour from 135 %, 2 min (over 30 A: 4 min) at 200 %, sooner beyond.

    Source: UL 248-14 (seen); beyond 200 % by the square of the current (ours).

    Args:
        current_a: [A].
        fuse_a: Rating [A].

    Returns:
        [s]; None where it may never open.

    Example:
        >>> opens_s(20.0, 20.0), opens_s(30.0, 20.0), opens_s(40.0, 20.0), opens_s(80.0, 20.0)
        (None, 3600.0, 120.0, 30.0)
    """
    times = current_a / fuse_a
    if times < 1.35:
        return None
    if times < 2.0:
        return AN_HOUR_S
    return (DELAY_S if fuse_a <= 30.0 else 2.0 * DELAY_S) * (2.0 / times) ** 2


def fuse_to_buy_a(running_a: float, inrush_a: float, wire: Conductor, code: Code = "NEC") -> float:
    """Next standard size over 1.25 times the running current that also holds the inrush for a second.

    Args:
        running_a: [A].
        inrush_a: [A].
        wire: No larger fuse is looked for than protects it; if none does both, the next size over 1.25 times.
        code: Whose ratings are sold.
    """
    ratings, most = fuse_ratings_a(code), largest_fuse_a(wire, code)
    fit = [one for one in ratings if one >= 1.25 * running_a - 1e-9]
    both = [one for one in fit if one <= most and holds_s(inrush_a, one) >= INRUSH_S]
    return both[0] if both else (fit[0] if fit else ratings[-1])


def motor_wire_of(
    supply: DriveSupply, wire: Conductor, cell: Cell, motor: MotorNumbers, low_charge: float, coldest_cell_c: float, coldest_air_c: float,
    code: Code = "NEC",
) -> MotorWire:  # fmt: skip
    """Wire, fuse and volts of the motor.

    Source: Ohm's law round the loop of battery, wire and winding; speed by ``motor.speed_share``.

    Args:
        supply: The section.
        wire: Its copper wire.
        cell: The battery.
        motor: Motor and wire as numbers.
        low_charge: Lowest charge of the years.
        coldest_cell_c: Coldest the battery gets in its box [C].
        coldest_air_c: Coldest air about wire and motor [C].
        code: That holds.
    """
    from polestead.wiring.tilt_drive.motor import NEVER_S, battery_ohm, motor_v, rest_v, travel_s

    running, held = supply.running_a, stalled_a(supply)
    drop = drop_v(supply.wire_length_m, running, wire.ohm_per_m(WARM_C))
    wire_warm = 2.0 * supply.wire_length_m * wire.ohm_per_m(WARM_C)
    full_v, ohm = rest_v(cell, 1.0), battery_ohm(cell, WARM_AIR_C)
    # the wire warm: the most it takes, and so the least that is left
    stall = full_v / (ohm + wire_warm + motor.ohm)
    cold_winding = motor.ohm * (1.0 + COPPER_PER_K * (coldest_air_c - WARM_AIR_C))
    wire_cold = 2.0 * supply.wire_length_m * wire.ohm_per_m(max(coldest_air_c, -50.0))
    inrush = full_v / (battery_ohm(cell, coldest_cell_c) + wire_cold + max(cold_winding, 0.3 * motor.ohm))  # fmt: skip
    inrush = max(inrush, held)
    known = motor.full_travel_s > 0.0
    warm_s = travel_s(cell, motor, 1.0, WARM_AIR_C, WARM_AIR_C) if known else None
    cold_s = travel_s(cell, motor, low_charge, coldest_cell_c, coldest_air_c) if known else None
    fuse = fuse_to_buy_a(running, inrush, wire, code) if supply.fuse_a is None else supply.fuse_a
    return MotorWire(
        size=wire.size,
        running_a=running,
        stalled_a=held,
        drop_v=drop,
        drop_share=drop / supply.nominal_v,
        warm_v=full_v - running * ohm - drop,
        cold_v=motor_v(cell, motor, low_charge, coldest_cell_c),
        stall_a=stall,
        stall_v=stall * motor.ohm,
        stall_drop_v=stall * wire_warm,
        inrush_a=inrush,
        warm_s=warm_s if warm_s is None or warm_s < NEVER_S else None,
        cold_s=cold_s if cold_s is None or cold_s < NEVER_S else None,
        fuse_a=fuse,
        from_file=supply.fuse_a is not None,
        inrush_holds_s=holds_s(inrush, fuse),
        stall_opens_s=opens_s(stall, fuse),
        dead_short_a=2.0 * full_v / cell.ohm,
    )


def wire_checks(supply: DriveSupply, wire: Conductor, cell: Cell, told: MotorWire, low_charge: float, coldest_cell_c: float, code: Code) -> tuple[Check, ...]:  # fmt: skip
    """The wire against the motor's current, the fuse against wire, current and inrush, the volts that arrive."""
    motor_wire, motor_fuse = drive_source("motor wire", code), drive_source("motor fuse", code)
    protects, times = drive_source("protects", code), drive_source("fuse times", code)
    running = Step("motor at its rated load", "I", "", told.running_a, "A", OWNER)
    wanted = Step("wanted of the wire", "Iwire", f"1.25 x {told.running_a:g}", 1.25 * told.running_a, "A", motor_wire)  # fmt: skip
    carried = _carried(wire, code)
    fuse = Step("fuse", "F", "", told.fuse_a, "A", OWNER if told.from_file else motor_fuse)
    most = Step("largest fuse that protects the wire", "Fwire", "", largest_fuse_a(wire, code), "A", protects)  # fmt: skip
    by_motor = Step("largest fuse of the motor", "Fmotor", f"next over 1.5 x {told.running_a:g}", _next_a(1.5 * told.running_a, code), "A", motor_fuse)  # fmt: skip
    inrush = Step("inrush of a cold start", "Iin", f"max({told.stalled_a:g}, {told.inrush_a:.1f})", told.inrush_a, "A", OHM)  # fmt: skip
    hold = _held(told.inrush_a, told.fuse_a, times)
    arrives = _arrives(supply, cell, told, low_charge, coldest_cell_c)
    least = LEAST_SHARE * supply.nominal_v
    return (
        Check(PART, "current of the motor", wanted.value, carried.value, "A", share(wanted.value, carried.value), motor_wire, Working("the wire to the motor", (running, wanted, carried))),
        Check(PART, "fuse carries the motor", wanted.value, told.fuse_a, "A", share(wanted.value, told.fuse_a), motor_wire, Working("the fuse against the running current", (running, wanted, fuse))),
        Check(PART, "fuse protects the wire", told.fuse_a, most.value, "A", share(told.fuse_a, most.value), protects, Working("the fuse against the wire", (carried, fuse, most))),
        Check(PART, "fuse small enough for the motor", told.fuse_a, by_motor.value, "A", share(told.fuse_a, by_motor.value), motor_fuse, Working("the fuse against the motor", (running, fuse, by_motor))),
        Check(PART, "fuse holds the inrush", INRUSH_S, hold.value, "s", share(INRUSH_S, hold.value), times, Working("the fuse against the inrush", (inrush, fuse, hold), ("Read the maker's own curve of time against current: this is a floor.",))),
        Check(PART, "volts at the motor, cold", least, told.cold_v, "V", share(least, max(told.cold_v, 0.0)), LEAST_VOLTS, arrives),
    )  # fmt: skip


def _carried(wire: Conductor, code: Code) -> Step:
    value, source = carries_a(wire, code), drive_source("terminals", code)
    if code == "IEC":
        return Step(f"{wire.size} copper carries in air of {ABOUT_C:g} C", "Iz", "", value, "A", source)  # fmt: skip
    formula = f"min({wire.at_60_a:g}, {wire.at_90_a:g} x {share_left(ABOUT_C, 90):g})"
    return Step(f"{wire.rated_as} copper carries", "I60", formula, value, "A", source)


def stall_working(supply: DriveSupply, cell: Cell, motor: MotorNumbers, told: MotorWire) -> Working:
    """What flows and arrives while the motor is held still."""
    from polestead.wiring.tilt_drive.motor import battery_ohm, rest_v

    full_v, ohm = rest_v(cell, 1.0), battery_ohm(cell, WARM_AIR_C)
    wire_ohm = told.stall_drop_v / told.stall_a
    return Working(
        "the motor held still",
        (
            Step("its winding", "Rm", f"{supply.nominal_v:g} / {told.stalled_a:g}", motor.ohm, "ohm", MACHINE),
            Step(f"wire there and back at {WARM_C:g} C", "Rw", "", wire_ohm, "ohm", OHM),
            Step("battery, charged, at 20 C", "Rb", "", ohm, "ohm", RESISTANCE),
            Step("what flows", "Istall", f"{full_v:.2f} / ({motor.ohm:.4f} + {wire_ohm:.4f} + {ohm:.4f})", told.stall_a, "A", OHM),
            Step("lost in the wire", "dV", f"{told.stall_a:.1f} x {wire_ohm:.4f}", told.stall_drop_v, "V", OHM),
            Step("left at the motor", "V", f"{told.stall_a:.1f} x {motor.ohm:.4f}", told.stall_v, "V", OHM),
        ),
        ("The inrush of a start is the same for a moment, more where the winding is cold.",),
    )  # fmt: skip


def drop_working(supply: DriveSupply, wire: Conductor, told: MotorWire, code: Code) -> Working:
    """Volts lost in the wire while it runs."""
    per_m = wire.ohm_per_m(WARM_C)
    return Working(
        "volts lost on the way to the motor",
        (
            Step("one way", "L", "", supply.wire_length_m, "m", OWNER),
            Step("running current", "I", "", told.running_a, "A", OWNER),
            Step(f"{wire.size} copper at {WARM_C:g} C", "r", "", per_m, "ohm/m", borrowed(wire.source, code)),
            Step("lost", "dV", f"2 x {supply.wire_length_m:.2f} x {told.running_a:g} x {per_m:.6f}", told.drop_v, "V", OHM),
            Step("share", "dV/V", f"{told.drop_v:.3f} / {supply.nominal_v:g}", told.drop_share, "", OHM),
        ),
    )  # fmt: skip


def speed_working(motor: MotorNumbers, told: MotorWire, coldest_air_c: float) -> Working | None:
    """How long a full travel takes in the cold; None where it would only crawl or the speed is not known."""
    from polestead.wiring.tilt_drive.motor import speed_share, stiff

    if told.cold_s is None:
        return None
    inside, left = motor.running_a * motor.ohm, speed_share(motor, told.cold_v)
    return Working(
        "full travel in the cold",
        (
            Step("at rated speed", "t0", "stroke / speed", motor.full_travel_s, "s", OWNER),
            Step("behind the winding", "I R", f"{motor.running_a:g} x {motor.ohm:.4f}", inside, "V", MACHINE),
            Step("speed left by the volts", "n/n0", f"({told.cold_v:.2f} - {inside:.2f}) / ({motor.nominal_v:g} - {inside:.2f})", left, "", MACHINE),
            Step("grease", "g", f"at {coldest_air_c:.0f} C", stiff(coldest_air_c), "", GREASE),
            Step("full travel", "t", f"{motor.full_travel_s:.0f} x {stiff(coldest_air_c):.2f} / {left:.3f}", told.cold_s, "s", MACHINE),
        ),
    )  # fmt: skip


def _arrives(supply: DriveSupply, cell: Cell, told: MotorWire, low_charge: float, cold_c: float) -> Working:  # fmt: skip
    from polestead.wiring.tilt_drive.motor import battery_ohm, rest_v

    rest, ohm = rest_v(cell, low_charge), battery_ohm(cell, cold_c)
    wire_ohm = (rest - told.cold_v) / told.running_a - ohm
    return Working(
        "volts at the motor in the cold",
        (
            Step(f"battery at rest at {percent(low_charge)}", "E", "", rest, "V", RESISTANCE),
            Step(f"its resistance at {cold_c:.0f} C", "Rb", "", ohm, "ohm", RESISTANCE),
            Step("wire there and back at 20 C", "Rw", "", wire_ohm, "ohm", OHM),
            Step("at the motor", "V", f"{rest:.2f} - {told.running_a:g} x ({ohm:.4f} + {wire_ohm:.4f})", told.cold_v, "V", OHM),
        ),
        (f"Wanted: {percent(LEAST_SHARE)} of {supply.nominal_v:g} V.",),
    )  # fmt: skip


def _held(inrush_a: float, fuse_a: float, source: Source) -> Step:
    times = inrush_a / fuse_a
    return Step("held for at least", "t", f"12 x (2 / {times:.2f})^2", holds_s(inrush_a, fuse_a), "s", source)  # fmt: skip


def _next_a(current_a: float, code: Code) -> float:
    ratings = fuse_ratings_a(code)
    return next((one for one in ratings if one >= current_a - 1e-9), ratings[-1])
