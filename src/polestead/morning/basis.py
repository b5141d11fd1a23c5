"""All the morning needs of a homestead, worked once and kept: gust card, days of sun at every tilt, the house.

A day ahead is made of days that the place's own weather years hold (about the same date, of the clearness wanted), so that
hours, warmth and light go together; nothing is worked again in the morning.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from polestead.base.show import Style
from polestead.household.plan import Plan
from polestead.morning.card import Card
from polestead.mount.schedule import TiltSchedule
from polestead.site.gusts import GustClimate

if TYPE_CHECKING:  # slow to read in, and not wanted by him whose basis is kept
    from polestead.homestead.read import OwnersFile
    from polestead.stand.result import StandResult

Floats = NDArray[np.float64]
Singles = NDArray[np.float32]
Counts = NDArray[np.uint16]
YEARS = 25  # drawn for the house; of the days, the first ``KEPT_YEARS`` are kept
KEPT_YEARS = 12
TILT_STEP_DEG = 5.0
FULL_COUNT = 65535.0
STEPS = 5
SUN_YEAR = 2026  # of the hours of sunrise; another year's are within two minutes
Progress = Callable[[str, int, int], None]


@dataclass(frozen=True, slots=True)
class Facts:
    """Plain figures of the file.

    Attributes:
        name: Of the homestead.
        units: The owner's.
        latitude_deg, longitude_deg, elevation_m, clock_offset_h: Of the place.
        clock_told: Whether the file writes that offset.
        exposure: Of the place.
        anemometer_share: Speed at the owner's wind gauge over the speed at 10 m in the open.
        currency: Of the prices.
        fuel_per_l: Price; ``burns_l_wh`` litres for a watt-hour given, thirstier end; ``engine_hour`` wear in money.
        burns_l_wh, engine_hour: See there.
        fuel: Its name; empty without an engine.
        gust_chance: What the owner bears.
        thunder_months: Months in which thunder comes unforeseen.
        gone_to_hour: He is back at, gone till dark.
        service, contact, asked_every_s: Of ``[forecast]``.
        winter_tilt_deg: Steeper of the owner's two tilts.
        rows: Of modules up the slope.
        room_to_slide, sweeps: Of snow on the glass.
        nominal_v: Of the bank.
        rated_w: Of the new array.
        new_on: Which controller the new array hangs on.
        waits: Names of the uses that wait for sun.
        use_a_day_wh: Mean use of a day.
    """

    name: str
    units: Style
    latitude_deg: float
    longitude_deg: float
    elevation_m: float
    clock_offset_h: float
    clock_told: bool
    exposure: str
    anemometer_share: float
    currency: str
    fuel_per_l: float
    burns_l_wh: float
    engine_hour: float
    fuel: str
    gust_chance: float
    thunder_months: tuple[int, ...]
    gone_to_hour: float | None
    service: str
    contact: str
    asked_every_s: float
    winter_tilt_deg: float
    rows: int
    room_to_slide: bool
    sweeps: bool
    nominal_v: float
    rated_w: float
    new_on: int
    waits: tuple[str, ...]
    use_a_day_wh: float


@dataclass(frozen=True, slots=True, eq=False)
class Basis:
    """A homestead made ready for mornings.

    Attributes:
        facts: Plain figures.
        card: Gust card.
        climate: Of gusts.
        moves: Of the owner's plan.
        plan: The house, over its working year.
        first_day: Calendar day (1 to 365) the working year begins with.
        tilts_deg: Of ``power`` [tilts].
        power: New array on bare glass, counts of ``peak_w`` over ``FULL_COUNT`` [tilts, years, 365, 24], January first.
        peak_w: See there.
        old_w: Power on each controller of what is there already [controllers, years, 365, 24].
        air_c: [years, 365, 24].
        clearness: Of each day [years, 365].
        fresh_m: Snow of each day [years, 365].
        sundown_h, sunup_h: Of each day [365].
        sky_off: Moves the middle of a season's days where a log tells no sky (``daybook.teaching.skies``) [365].
        dawn_charge, dawn_charge_sd: Mean charge at six by month under the owner's plan, and its spread [12].
    """

    facts: Facts
    card: Card
    climate: GustClimate
    moves: TiltSchedule
    plan: Plan
    first_day: int
    tilts_deg: Floats
    power: Counts
    peak_w: float
    old_w: Singles
    air_c: Singles
    clearness: Singles
    fresh_m: Singles
    sundown_h: Floats
    sunup_h: Floats
    sky_off: Floats
    dawn_charge: Floats
    dawn_charge_sd: Floats

    def wanted_tilt_deg(self, calendar_day: int) -> float:
        """What the owner's plan sets on a day of the calendar."""
        return float(self.moves.tilt_by_hour_deg(np.array([calendar_day]))[0])


def basis_of(owners: OwnersFile, progress: Progress | None = None, seed: int = 1, use_factor: float | None = None) -> Basis:  # fmt: skip
    """Work a homestead's mornings out; some seconds.

    Args:
        owners: The file as read.
        progress: Told what is being worked.
        seed: Of the weather years, where years are drawn.
        use_factor: House-use factor that an answer with the same seed fitted: the fit, most of the time here, is then left out.

    Raises:
        Wrong: As ``answer_of``.
    """
    from polestead.answer.stands import stand_only, strongback_kg_of
    from polestead.answer.supply import Skies, bare_power_w, new_power_w, old_supply
    from polestead.answer.winter import HouseOnSun
    from polestead.daybook.teaching.expected import days_of_house
    from polestead.household.run import plan_of
    from polestead.mount.geometry import geometry_of
    from polestead.mount.schedule import two_tilts

    tell = progress or (lambda _what, _step, _of: None)
    file = owners.homestead
    tell("wind and steel", 0, STEPS)
    stand = stand_only(owners)
    tell("the weather", 1, STEPS)
    geometry = geometry_of(file.mount, file.array, strongback_kg_of(file.mount, file.array))
    skies = Skies(file, owners.path.parent, geometry, YEARS, seed)
    sun = next(skies.blocks())
    tell("the house", 2, STEPS)
    house = HouseOnSun(file, skies, use_factor)
    moves = TiltSchedule("your own dates", file.mount.own_move_list) if file.mount.own_move_list else two_tilts(file.mount.winter_tilt_deg, file.mount.summer_tilt_deg, file.place.latitude_deg)  # fmt: skip
    dawn = house.under(moves).dawn_charge
    plan = plan_of(file.household, skies.path.start_month, file.place.elevation_m, house.use_factor)
    tell("days at every tilt", 3, STEPS)
    tilts = np.unique(np.append(np.arange(file.mount.least_tilt_deg, file.mount.steepest_tilt_deg, TILT_STEP_DEG), file.mount.steepest_tilt_deg))  # fmt: skip
    years = min(KEPT_YEARS, sun.weather.air_c.shape[0])
    in_order = np.argsort(sun.year.calendar_day)
    power = np.array([
        bare_power_w(file.array, file.mount.facing_deg, sun, np.full((1, 365), tilt))[:years].reshape(years, 365, 24)[:, in_order]
        for tilt in tilts
    ])  # fmt: skip
    peak = max(float(power.max()), 1.0)
    old = np.zeros((len(file.household.controller), years, 365, 24), dtype=np.float32)
    supply = old_supply(file.household, sun)
    held = moves.tilt_by_hour_deg(np.arange(1, 366))
    lived = days_of_house(file, sun, supply, new_power_w(file.array, file.mount.facing_deg, sun, moves), held, house.use_factor)  # fmt: skip
    for nth, controller in enumerate(file.household.controller):
        for one in supply.get(controller.name, []):
            old[nth] += one[:years].reshape(years, 365, 24)[:, in_order]
    tell("putting it by", 4, STEPS)
    fresh = sun.weather.fresh_snow_m
    sunup, sundown = _sun_up_and_down_h(owners, skies.path.extra_flat_w_m2.reshape(365, 24)[in_order] > 0.0)  # fmt: skip
    return Basis(
        facts=_facts(owners, plan, sun.room),
        card=_card(owners, stand),
        climate=_climate(owners),
        moves=moves,
        plan=plan,
        first_day=int(sun.year.calendar_day[0]),
        tilts_deg=tilts,
        power=np.round(power / peak * FULL_COUNT).astype(np.uint16),
        peak_w=peak,
        old_w=old,
        air_c=sun.weather.air_c[:years].reshape(years, 365, 24)[:, in_order].astype(np.float32),
        clearness=sun.clearness[:years][:, in_order].astype(np.float32),
        fresh_m=np.zeros((years, 365), dtype=np.float32) if fresh is None else fresh[:years][:, in_order].astype(np.float32),
        sundown_h=sundown,
        sunup_h=sunup,
        sky_off=lived.off,
        dawn_charge=dawn.mean(axis=0),
        dawn_charge_sd=np.maximum(dawn.std(axis=0), 0.05),
    )  # fmt: skip


def _sun_up_and_down_h(owners: OwnersFile, up: NDArray[np.bool_]) -> tuple[Floats, Floats]:
    """When the sun comes up and goes down over a level horizon, as the page says it; by the hours of sun where it does not [365]."""
    from polestead.site.noon import sun_up_and_down_of_year_h
    from polestead.site.place import clock_offset_hours

    place, hours = owners.homestead.place, np.arange(24.0)
    ups, downs = sun_up_and_down_of_year_h(place.latitude_deg, place.longitude_deg, clock_offset_hours(place), SUN_YEAR)  # fmt: skip
    first, last = np.where(up, hours, 24.0).min(axis=1), np.where(up, hours + 1.0, 0.0).max(axis=1)
    return np.where(np.isfinite(ups), ups, first), np.where(np.isfinite(downs), downs, last)


def _card(owners: OwnersFile, stand: StandResult) -> Card:
    from polestead.mount.linkage import COLD_SLOWER, rod_length_m
    from polestead.mount.pins import as_measured

    file, rows = owners.homestead, stand.card
    tilts = tuple(row.tilt_deg for row in rows)
    rod: tuple[float, ...] = ()
    key, proved = None, False
    if file.drive is not None:
        fitted, fit = as_measured(file.drive)
        shows = rod_length_m(fitted, np.array(tilts)) - fitted.retracted_length_m
        rod, proved = tuple(float(one) for one in shows), fit is not None and fit.proved
        if fitted.speed_m_s is not None:
            key = (1.0 / fitted.speed_m_s, COLD_SLOWER / fitted.speed_m_s)
    stances = {one.name: one.tilt_deg for one in stand.stances}
    return Card(
        tilts_deg=tilts,
        locked_m_s=tuple(row.stands_to_m_s for row in rows),
        snow_m_s=tuple(row.snow_stands_to_m_s for row in rows),
        rod_m_s=tuple(row.rod_stands_to_m_s for row in rows if row.rod_stands_to_m_s is not None),
        move_m_s=tuple(row.move_under_m_s for row in rows if row.move_under_m_s is not None),
        has_lock=file.lock is not None,
        holes_deg=() if file.lock is None else tuple(file.lock.holes_deg),
        rod_m=rod,
        key_s_per_m=key,
        proved=proved,
        steep_deg=(stances["snow steep"], stances["hail steep"]),
        flat_deg=stances["storm flat"],
    )


def _climate(owners: OwnersFile) -> GustClimate:
    from polestead.loads.pressure import EN, map_gust_m_s
    from polestead.site.gusts import EN_MAP_YEARS, MAP_YEARS, gusts_of_map

    place = owners.homestead.place
    years = EN_MAP_YEARS if place.wind_basis == EN else MAP_YEARS
    return gusts_of_map(map_gust_m_s(place.wind_basis, place.wind_speed_m_s), map_years=years)


def _facts(owners: OwnersFile, plan: Plan, room: bool) -> Facts:
    from polestead.household.fuel import fuel_lines
    from polestead.site.place import clock_offset_hours

    file = owners.homestead
    place, house, engine = file.place, file.household, file.household.engine
    months = file.morning.thunder_months or ((5, 6, 7, 8, 9) if place.latitude_deg >= 0.0 else (11, 12, 1, 2, 3))  # fmt: skip
    burns = 0.0
    if engine is not None:
        burns = max(line.at_l_h(engine.power_w / 2.0) for line in fuel_lines(engine)) / (engine.power_w / 2.0)  # fmt: skip
    return Facts(
        name=file.name,
        units=file.units,
        latitude_deg=place.latitude_deg,
        longitude_deg=place.longitude_deg,
        elevation_m=place.elevation_m,
        clock_offset_h=clock_offset_hours(place),
        clock_told=place.clock_offset_hours is not None,
        exposure=place.exposure,
        anemometer_share=_anemometer_share(owners),
        currency=file.prices.currency,
        fuel_per_l=file.prices.fuel_per_l,
        burns_l_wh=burns,
        engine_hour=file.prices.engine_hour,
        fuel="" if engine is None else engine.fuel,
        gust_chance=file.morning.gust_chance,
        thunder_months=months,
        gone_to_hour=file.morning.gone_to_hour,
        service=file.forecast.service,
        contact=file.forecast.contact or "",
        asked_every_s=file.forecast.asked_every_s,
        winter_tilt_deg=file.mount.winter_tilt_deg,
        rows=file.array.rows,
        room_to_slide=room,
        sweeps=file.array.swept,
        nominal_v=house.battery.nominal_v,
        rated_w=file.array.module.power_w * file.array.columns * file.array.rows,
        new_on=next(nth for nth, one in enumerate(house.controller) if one.name == file.array.controller),
        waits=tuple(use.name for use in house.use_list if use.waits_days is not None),
        use_a_day_wh=float(plan.uses_w.sum()) / 365.0,
    )  # fmt: skip


def _anemometer_share(owners: OwnersFile) -> float:
    """Speed at the owner's own gauge over that at 10 m in the open; never over 1: a doubt makes it blow harder."""
    from polestead.loads.pressure import EN, OPEN_TEN_METRES, exposure_factor, height_factor

    place, height = owners.homestead.place, owners.homestead.morning.anemometer_m
    if height is None:
        return 1.0
    if place.wind_basis == EN:
        factor = float(exposure_factor(height, place.exposure)) / OPEN_TEN_METRES
    else:
        factor = float(height_factor(height, place.wind_basis, place.exposure))
    return min(float(np.sqrt(factor)), 1.0)
