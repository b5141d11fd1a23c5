"""The tilt drive's own supply: balances, laws, hand-worked cases, planted dark and cold."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from polestead.base.battery import iron_share, lead_share
from polestead.base.hours import working_year
from polestead.base.problem import Wrong
from polestead.homestead.model import Drive
from polestead.wiring.tilt_drive import kernel as k
from polestead.wiring.tilt_drive.motor import motor_v, speed_share, travel_s
from polestead.wiring.tilt_drive.numbers import MotorNumbers, cell_of, motor_numbers
from polestead.wiring.tilt_drive.parts import bears_v
from polestead.wiring.tilt_drive.tilt_drive import tilt_drive_of
from polestead.wiring.tilt_drive.wire import fuse_to_buy_a, wire_of
from polestead.wiring.tilt_drive.years import (
    SupplyYears,
    holds,
    moves_by_hour,
    sold,
    would_do,
    years_of,
)

SEALED, IRON = "sealed lead-acid", "lithium iron phosphate"
YEAR = working_year(7)
DAYLIGHT = (YEAR.hour >= 10) & (YEAR.hour < 14)


def drive_of(speed: str | None = "0.25 in/s", **supply) -> Drive:
    written = {
        "nominal": "12 V", "battery_kind": SEALED, "battery": "35 Ah", "panel": "20 W", "idle": "0.5 W", "running": "14 A",
        "stalled": "42 A", "wire_length": "16 ft", "wire_size": "8 AWG", **supply,
    }  # fmt: skip
    return Drive.model_validate({
        "retracted_length": "49-1/2 in", "stroke": "36 in", "moving_force": "2000 lbf", "holding_force": "3500 lbf",
        "rod_diameter": "1-1/4 in", "pin_along": "3.2 ft", "pin_below": "0.3 ft", "bracket_out": "2 ft", "bracket_below": "4 ft",
        "supply": written, **({} if speed is None else {"speed": speed}),
    })  # fmt: skip


def numbers_of(drive: Drive):
    assert drive.supply is not None
    return drive.supply, cell_of(drive.supply), motor_numbers(drive, drive.supply, wire_of(drive.supply))  # fmt: skip


def sky(air_c: float = 10.0, sun: float = 0.3, years: int = 1, error: float = 0.0) -> SupplyYears:
    """The same four hours of light every day, air that does not change."""
    light = np.tile(np.where(DAYLIGHT, sun, 0.0), (years, 1)).astype(np.float32)
    return SupplyYears(light, np.full(light.shape, air_c, dtype=np.float32), 7, error)


def random_sky(seed: int, years: int = 1, cold_c: float = -15.0) -> SupplyYears:
    rng = np.random.default_rng(seed)
    bright = rng.uniform(0.0, 1.0, (years, 365, 1)) ** 2 * 0.6
    light = (bright * DAYLIGHT.reshape(365, 24)).reshape(years, 8760)
    season = cold_c * np.cos(2.0 * np.pi * (YEAR.day - 198.0) / 365.0)
    air = 5.0 + season + np.repeat(rng.normal(0.0, 6.0, (years, 365)), 24, axis=1)
    return SupplyYears(light.astype(np.float32), air.astype(np.float32), 7)


def rows_of(drive: Drive, at: SupplyYears, panel_w: float = 20.0):
    supply, cell, motor = numbers_of(drive)
    watts = at.watts_per_w * np.float32(panel_w)
    wanted = moves_by_hour(YEAR, supply.moves_a_day)
    return cell, k.run_supply(cell, motor, supply.idle_w, wanted, watts, at.air_c, YEAR.month - 1)


# balances


@settings(max_examples=20, deadline=None)
@given(st.integers(0, 10**6), st.sampled_from((SEALED, "flooded lead-acid", IRON)), st.floats(0.0, 60.0), st.floats(0.0, 6.0))  # fmt: skip
def test_no_watt_hour_is_lost_or_made(seed: int, kind: str, panel_w: float, moves: float) -> None:
    drive = drive_of(battery_kind=kind, moves_a_day=moves, battery="7 Ah")
    cell, (rows, by_day, charges, _) = rows_of(drive, random_sky(seed, 2), panel_w)
    went = rows[k.IDLE] + rows[k.MOVES] + rows[k.CHARGE_LOSS] + rows[k.STANDING] + rows[k.CHANGE]
    assert np.allclose(rows[k.SUN] - rows[k.TURNED_AWAY], went, atol=1e-7)
    held = (float(charges[-1, -1]) - k.START) * cell.full_wh
    assert rows[k.CHANGE].sum() == pytest.approx(
        held, abs=1e-4
    )  # charges are kept in single precision
    assert np.allclose(rows[k.IDLE] + rows[k.UNMET], 0.5 * np.bincount(YEAR.month)[1:], atol=1e-6)
    assert by_day[0].sum() == pytest.approx((rows[k.IDLE] + rows[k.MOVES]).sum())
    assert by_day[1].sum() == pytest.approx(rows[k.MISSED].sum())
    assert charges.min() >= 0.0
    assert charges.max() <= 1.0


def test_the_days_of_the_worst_month_add_up_to_it() -> None:
    supply, cell, motor = numbers_of(drive_of())
    worst = years_of(supply, cell, motor, random_sky(3)).worst
    assert len(worst.days) in (28, 30, 31)
    assert [day.day for day in worst.days] == list(range(1, len(worst.days) + 1))
    assert sum(day.panel_wh for day in worst.days) == pytest.approx(worst.panel_wh, rel=1e-5)
    assert sum(day.uses_wh for day in worst.days) == pytest.approx(worst.idle_wh + worst.moves_wh)
    assert min(day.coldest_c for day in worst.days) == pytest.approx(worst.coldest_c, abs=1e-3)


# hand-worked


def test_a_move_by_hand() -> None:
    # 36 in at .25 in/s: 144 s.  12 V x 14 A x 144 s / 3600 = 6.72 Wh.
    _, cell, motor = numbers_of(drive_of())
    assert motor.full_travel_s == pytest.approx(144.0)
    # Full and at 20 C: rest 6 x 2.085 = 12.51 V; battery .10/35 x 6 = .017143 ohm, x 1.08 at 20 C = .018514;
    # wire 32 ft x .778/1000 = .024896 ohm at 75 C, over (1 + .00393 x 55) = 1.21615: .020471 at 20 C.
    # 12.51 - 14 x (.018514 + .020471) = 11.964 V.  I R = 14 x 12/42 = 4 V: (11.964 - 4)/8 = .9955.  144/.9955 = 144.65 s.
    assert motor_v(cell, motor, 1.0, 20.0) == pytest.approx(11.964, abs=0.001)
    assert travel_s(cell, motor, 1.0, 20.0, 20.0) == pytest.approx(144.65, abs=0.02)
    # At 0 C grease takes half as long again; at -20 C twice.
    assert travel_s(cell, motor, 1.0, 20.0, 0.0) == pytest.approx(1.5 * 144.65, abs=0.05)
    told = tilt_drive_of(drive_of(), sky())
    assert told is not None
    assert told.move_wh == pytest.approx(6.72)


def test_drop_and_stall_by_hand() -> None:
    told = tilt_drive_of(drive_of(), sky())
    assert told is not None
    # 2 x 16 ft x .778 ohm / 1000 ft x 14 A = .3485 V; of 12 V 2.90 %.
    assert told.wire.drop_v == pytest.approx(0.3485, abs=2e-4)
    assert told.wire.drop_share == pytest.approx(0.0290, abs=1e-4)
    # Winding 12/42 = .285714, wire .024896, battery .018514: 12.51 / .329124 = 38.01 A; x .285714 = 10.86 V, x .024896 = .946 V.
    assert told.wire.stall_a == pytest.approx(38.01, abs=0.01)
    assert told.wire.stall_v == pytest.approx(10.86, abs=0.01)
    assert told.wire.stall_drop_v == pytest.approx(0.946, abs=0.001)
    # 1.25 x 14 = 17.5: a 20 A fuse; 38 A is 1.9 times that: only the hour is sure.
    assert told.wire.fuse_a == 20.0
    assert told.wire.stall_opens_s == 3600.0


def test_dark_days_by_hand_and_by_the_hours() -> None:
    drive = drive_of(panel="0 W", moves_a_day=0.0)
    told = tilt_drive_of(drive, sky(20.0, 0.0))
    assert told is not None
    # At 20 C 1/1.04 = 96 % can be had; the cut-off at 20 % binds: .8 x 420 = 336 Wh over 12 + .001 x 420 = 12.42 Wh a day.
    assert told.dark_days == pytest.approx(336.0 / 12.42, rel=1e-6)
    # Hour by hour from 90 %: .7 x 420 = 294 Wh; standing .1 % of what is held, .55 on the mean: 12.23 Wh a day, 24.0 days.
    _, (_, by_day, _, _) = rows_of(drive, sky(20.0, 0.0), 0.0)
    first = int(np.flatnonzero(by_day[0, 0] < 12.0 - 1e-6)[0])
    assert first == pytest.approx(24.0, abs=1.0)
    assert any("0 W" in note for note in told.notes)


def test_moves_fall_on_the_morning_and_the_evening() -> None:
    by_hour = moves_by_hour(YEAR, 3.0).reshape(365, 24)
    assert (by_hour[:, 8] == 2.0).all()
    assert (by_hour[:, 16] == 1.0).all()
    assert by_hour.sum() == 3 * 365
    assert moves_by_hour(YEAR, 0.25).sum() == 91


# laws


@settings(max_examples=20, deadline=None)
@given(st.integers(0, 10**6), st.sampled_from((SEALED, IRON)), st.floats(1.0, 60.0), st.floats(1.0, 3.0), st.floats(0.1, 4.0))  # fmt: skip
def test_a_bigger_panel_never_lowers_the_lowest_charge(seed: int, kind: str, panel_w: float, more: float, idle_w: float) -> None:  # fmt: skip
    # moves that a poor battery misses leave it fuller than a good one: idle draw alone is the law
    supply, cell, motor = numbers_of(drive_of(battery_kind=kind, moves_a_day=0.0, idle=f"{idle_w:.3f} W", battery="12 Ah"))  # fmt: skip
    at = random_sky(seed)
    small = years_of(supply, cell, motor, at, panel_w)
    large = years_of(supply, cell, motor, at, panel_w * more)
    assert large.lowest_charge >= small.lowest_charge - 1e-9
    assert large.without_power_h <= small.without_power_h


@settings(max_examples=20, deadline=None)
@given(st.integers(0, 10**6), st.floats(5.0, 60.0), st.floats(1.0, 3.0))
def test_nor_with_moves_while_none_is_missed(seed: int, panel_w: float, more: float) -> None:
    supply, cell, motor = numbers_of(drive_of())
    at = random_sky(seed)
    small, large = (years_of(supply, cell, motor, at, w) for w in (panel_w, panel_w * more))
    if small.missed == 0.0 and small.without_power_h == 0.0:
        assert large.lowest_charge >= small.lowest_charge - 1e-9


@given(st.floats(-60.0, 45.0), st.floats(0.0, 40.0))
def test_colder_never_raises_what_can_be_had(warm_c: float, colder: float) -> None:
    cold_c = warm_c - colder
    assert lead_share(cold_c) <= lead_share(warm_c) + 1e-12
    assert iron_share(cold_c) <= iron_share(warm_c) + 1e-12
    for kind in (SEALED, IRON):
        cell = numbers_of(drive_of(battery_kind=kind))[1]
        assert k.within_reach(cell, cold_c) >= k.within_reach(cell, warm_c) - 1e-12


@given(st.floats(0.5, 60.0), st.floats(1.0, 5.0), st.floats(0.2, 1.0), st.floats(-40.0, 40.0))
def test_longer_wire_never_raises_the_volts_at_the_motor(length_m: float, times: float, charge: float, cell_c: float) -> None:  # fmt: skip
    _, cell, near = numbers_of(drive_of(wire_length=f"{length_m:.3f} m"))
    _, _, far = numbers_of(drive_of(wire_length=f"{length_m * times:.3f} m"))
    assert motor_v(cell, far, charge, cell_c) <= motor_v(cell, near, charge, cell_c) + 1e-9
    assert speed_share(far, motor_v(cell, far, charge, cell_c)) <= speed_share(near, motor_v(cell, near, charge, cell_c)) + 1e-9  # fmt: skip


def test_thicker_wire_never_lowers_the_volts_at_the_motor() -> None:
    sizes = ("14 AWG", "12 AWG", "10 AWG", "8 AWG", "6 AWG", "4 AWG")
    volts = [t.wire.cold_v for size in sizes if (t := tilt_drive_of(drive_of(wire_size=size), sky()))]  # fmt: skip
    assert len(volts) == 6
    assert volts == sorted(volts)


@given(st.floats(-40.0, 30.0), st.floats(0.0, 30.0), st.floats(0.2, 1.0))
def test_cold_never_makes_a_move_faster(warm_c: float, colder: float, charge: float) -> None:
    _, cell, motor = numbers_of(drive_of())
    warm = travel_s(cell, motor, charge, warm_c, warm_c)
    assert travel_s(cell, motor, charge, warm_c - colder, warm_c - colder) >= warm - 1e-9


# lithium


def test_lithium_takes_nothing_below_freezing_and_something_above() -> None:
    drive = drive_of(battery_kind=IRON)
    _, (cold, _, _, _) = rows_of(drive, sky(-5.0))
    # .3 x 20 W = 6 W in four hours a day; .5 W of it feeds the idle draw, 5.5 W are refused: 4 x 365 = 1460 hours.
    assert cold[k.CHARGE_LOSS].sum() == 0.0
    assert cold[k.REFUSED_H].sum() == 1460.0
    assert cold[k.REFUSED_WH].sum() == pytest.approx(5.5 * 1460.0, rel=1e-6)
    _, (mild, _, _, _) = rows_of(drive, sky(3.0))
    assert mild[k.REFUSED_H].sum() == 0.0
    assert mild[k.CHARGE_LOSS].sum() > 0.0


def test_lithium_gives_no_motor_its_current_in_deep_cold() -> None:
    # 20 Ah: .2 x 20 = 4 A at -15 C, under the motor's 7 A; at -5 C 10 A.  Nothing at all below -20 C.
    drive = drive_of(battery_kind=IRON, battery="20 Ah", running="7 A", stalled="22 A")
    supply, cell, motor = numbers_of(drive)
    at_15 = years_of(supply, cell, motor, sky(-15.0))
    assert at_15.missed == at_15.missed_for_cold == 365.0
    mild = years_of(supply, cell, motor, replace(sky(-5.0), start_month=1))
    assert mild.missed_for_cold == 0.0
    dead = years_of(supply, cell, motor, sky(-25.0))
    assert dead.without_power_h == 8760.0
    words = tilt_drive_of(drive, sky(-15.0))
    assert words is not None
    assert any("too cold for lithium" in one for one in words.words)
    assert {check.name for check in words.checks if not check.holds} >= {"moves missed"}


# planted dark and cold


def test_a_planted_dark_january_empties_it_and_is_named() -> None:
    at = sky(-5.0, 0.8)
    dark = np.where((YEAR.month == 12) | (YEAR.month == 1), 0.0, at.watts_per_w).astype(np.float32)
    told = tilt_drive_of(drive_of(battery="18 Ah"), SupplyYears(dark, at.air_c, 7))
    bright = tilt_drive_of(drive_of(battery="18 Ah"), at)
    assert told is not None
    assert bright is not None
    assert all(check.holds for check in bright.checks)
    assert told.years.worst.month == 1
    assert told.years.missed > 20.0
    assert {one.name for one in told.checks if not one.holds} >= {"lowest charge", "hours without power", "moves missed"}  # fmt: skip
    assert "Jan of year 1" in told.words[0]


def test_acid_freezes_in_a_flat_battery_in_deep_cold() -> None:
    # at 20 % the acid is 1.10 + .165 x .2 = 1.133: it freezes at about -12 C
    at = sky(-14.0, 0.0)
    told = tilt_drive_of(drive_of(moves_a_day=0.0), at)
    assert told is not None
    assert told.years.freeze_margin_k is not None
    freezing = [one for one in told.checks if one.name == "clear of freezing"]
    assert freezing[0].capacity == told.years.freeze_margin_k
    assert not freezing[0].holds


def test_the_box_follows_the_air_behind() -> None:
    at = sky(0.0)
    step = at.air_c.copy()
    step[:, 100:] = -10.0
    cell, (_, _, _, boxed) = rows_of(drive_of(), SupplyYears(at.watts_per_w, step, 7))
    # one lag after the step it has gone 1 - 1/e of the way
    after = float(boxed[0, 99 + round(cell.lag_h)])
    assert after == pytest.approx(-10.0 * (1.0 - np.exp(-round(cell.lag_h) / cell.lag_h)), abs=0.01)


# wire and fuse


def failing(**supply) -> set[str]:
    told = tilt_drive_of(drive_of(**supply), sky(10.0, 0.5))
    assert told is not None
    return {check.name for check in told.checks if not check.holds}


def test_wire_and_fuse_that_fit_hold() -> None:
    assert failing() == set()


@pytest.mark.parametrize(
    ("supply", "name"),
    [
        ({"wire_size": "14 AWG"}, "current of the motor"),  # 1.25 x 14 = 17.5 A on 15
        ({"wire_size": "14 AWG"}, "fuse protects the wire"),  # 20 A on 15
        ({"fuse": "15 A"}, "fuse carries the motor"),
        ({"fuse": "40 A"}, "fuse small enough for the motor"),  # next over 1.5 x 14 = 21: 25
        ({"stalled": "200 A", "fuse": "20 A"}, "fuse holds the inrush"),  # ten times: .48 s
        ({"wire_length": "60 m"}, "volts at the motor, cold"),
    ],
)
def test_each_fault_of_wire_and_fuse_is_told(supply: dict[str, str], name: str) -> None:
    assert name in failing(**supply)


def test_a_larger_fuse_is_bought_for_a_hard_start_if_the_wire_bears_it() -> None:
    wire = wire_of(numbers_of(drive_of())[0])
    # 8 AWG bears 40 A.  150 A is 7.5 x 20: 12 x (2/7.5)^2 = .85 s; 6 x 25: 1.33 s.
    assert fuse_to_buy_a(14.0, 150.0, wire) == 25.0
    assert fuse_to_buy_a(14.0, 42.0, wire) == 20.0


def test_a_size_no_table_knows_is_told_at_its_place() -> None:
    drive = drive_of()
    assert drive.supply is not None
    thin = drive.supply.model_copy(update={"wire_size": "20 AWG"})
    with pytest.raises(Wrong) as wrong:
        tilt_drive_of(drive.model_copy(update={"supply": thin}), sky())
    assert [(one.section, one.key) for one in wrong.value.problems] == [("drive.supply", "wire_size")]  # fmt: skip


def test_parts_are_rated_over_the_charging_volts_and_the_stall() -> None:
    told = tilt_drive_of(drive_of(), sky())
    assert told is not None
    assert bears_v(12.0) == 32.0
    what = " ".join(part.what for part in told.parts)
    for word in ("reversing switch", "direction lamps", "stop switches", "stops of steel", "fuse", "cut-out", "surge"):  # fmt: skip
        assert word in what
    switch = next(part for part in told.parts if part.what.startswith("reversing"))
    assert "32 V direct current" in switch.rating
    assert f"{told.wire.inrush_a:.0f} A" in switch.rating
    assert all(part.source.work and part.why and part.where for part in told.parts)
    assert any("No clock" in note for note in told.notes)


# nothing to work, and what is not known


def test_without_a_supply_there_is_nothing() -> None:
    drive = drive_of().model_copy(update={"supply": None})
    assert tilt_drive_of(drive, sky()) is None
    assert tilt_drive_of(None, sky()) is None


def test_without_a_speed_no_move_is_counted_and_the_speed_is_asked_for() -> None:
    told = tilt_drive_of(drive_of(speed=None), sky())
    assert told is not None
    assert told.move_wh is None
    assert told.years.moves is None
    assert told.wire.warm_s is None
    assert "moves missed" not in {check.name for check in told.checks}
    assert any("speed is not in the file" in ask for ask in told.asks)


# sizes


def test_each_pair_that_would_do_holds_and_the_next_smaller_does_not() -> None:
    supply, _, motor = numbers_of(drive_of())
    at = replace(random_sky(11, 3, -25.0), sun_error=0.15)
    pairs = would_do(supply, motor, at)
    assert pairs
    sizes = sold("lead-acid")
    for one in pairs:
        told = [
            years_of(supply, cell_of(supply, size), motor, at, one.panel_w, 0.85)
            for size in sizes
            if size <= one.battery_ah
        ]
        assert [holds(t, True) for t in told] == [False] * (len(told) - 1) + [True]
    assert [one.panel_w for one in pairs] == sorted({one.panel_w for one in pairs})
    assert [one.battery_ah for one in pairs] == sorted((one.battery_ah for one in pairs), reverse=True)  # fmt: skip


def test_where_no_lithium_does_sealed_lead_acid_is_named() -> None:
    supply, _, motor = numbers_of(drive_of(battery_kind=IRON, battery="20 Ah"))
    pairs = would_do(supply, motor, sky(-22.0, 0.5))
    assert pairs
    assert {one.kind for one in pairs} == {SEALED}


def test_a_motor_that_stalls_at_its_rated_load_does_not_turn() -> None:
    assert speed_share(MotorNumbers(12.0, 14.0, 12.0 / 14.0, 0.0, 100.0), 12.5) == 0.0
