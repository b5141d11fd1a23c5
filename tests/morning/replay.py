"""Years of days through the morning: forecasts with errors of published size, gusts of a climate not its own."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime, timedelta

import numpy as np

from polestead.base.quantity import in_unit
from polestead.morning.ahead import HOURS, Skies, course, needs_wh, run_ahead
from polestead.morning.basis import Basis
from polestead.morning.decide import morning_of
from polestead.morning.forecast.forecast import Forecast, Span
from polestead.morning.forecast.gust_ahead import GustAhead, Piece
from polestead.morning.rules import Bounds, Hours
from polestead.morning.seen import Reading, Seen

MPH = 0.44704
TOLD_TO = 2.0 * MPH  # gusts are told so fine
SD_TOLD = 0.20
EARLY = 0.7  # gust at seven over the day's largest


def stormy(rng, years, scale=7.0, shape=1.6, storm_chance=0.02, storm_m_s=24.0):
    """Largest gusts of days and nights [years, 365, 2]: a skewed everyday body with memory, and storms that last two days.

    Nothing of it is the tool's own: no map, no return-period form, no Weibull of its shape.
    """
    memory = rng.normal(size=(years, 730))
    for step in range(1, 730):
        memory[:, step] = 0.6 * memory[:, step - 1] + 0.8 * memory[:, step]
    season = 1.0 + 0.25 * np.cos(2.0 * np.pi * np.arange(730) / 730.0)
    everyday = scale * season * np.exp(memory / shape / 1.4)
    storms = np.repeat(rng.random((years, 365)) < storm_chance, 2, axis=1)
    strong = storm_m_s * np.exp(0.25 * rng.normal(size=(years, 730)))
    return np.where(storms, np.maximum(everyday, strong), everyday).reshape(years, 365, 2)


@dataclass
class GustTally:
    """What became of the windows."""

    windows: int
    over_held: (
        float  # share of the windows told to be held in which it blew more than the tilt stands to
    )
    over_upper: float  # the same against the upper gust itself
    over_fixed: float  # share in which it blew more than the fixed winter tilt stands to
    none_held: float  # share of mornings on which no tilt could be named
    moves_a_year: float


def gust_years(
    basis: Basis, gusts, rng, wanted_deg, bound=0.01, sd=SD_TOLD, low_by=1.0
) -> GustTally:
    """The gust rule alone over many years, by the very rules of the morning; each pair of told gusts is decided once.

    Args:
        basis: Whose card and climate.
        gusts: True [years, 365, 2].
        rng: For the errors.
        wanted_deg: Tilt wanted by day.
        bound: The owner's.
        sd: Of the error.
        low_by: Told gusts are the true ones times this, before their error.
    """
    told = low_by * gusts * np.exp(-sd * rng.normal(size=gusts.shape))
    steps = np.maximum(np.rint(told / TOLD_TO), 1.0).astype(int)
    pairs, which = np.unique(steps.reshape(-1, 2), axis=0, return_inverse=True)
    decided = np.array([_decided(basis, day * TOLD_TO, night * TOLD_TO, wanted_deg, bound) for day, night in pairs])  # fmt: skip
    day_stands, night_stands, upper_day, upper_night, tilt, night_tilt = decided[which].T
    held = ~np.isnan(day_stands)
    day, night = gusts.reshape(-1, 2).T
    over = (day > day_stands) | (night > night_stands)
    beyond = (day > upper_day) | (night > upper_night)
    fixed = basis.card.stands_to_m_s(wanted_deg)
    path = np.stack([tilt[held], night_tilt[held]], axis=1).ravel()
    return GustTally(
        windows=int(held.sum()), over_held=float(over[held].mean()), over_upper=float(beyond[held].mean()),
        over_fixed=float((np.maximum(day, night) > fixed).mean()), none_held=float(1.0 - held.mean()),
        moves_a_year=float((np.diff(path) != 0.0).sum() / gusts.shape[0]),
    )  # fmt: skip


def _decided(basis, day_m_s, night_m_s, wanted_deg, bound):
    """Stands-to and upper gust by day and by night, and the two tilts; nan where no tilt is held."""
    pieces = (Piece(6.0, 18.0, day_m_s, SD_TOLD), Piece(18.0, 31.0, night_m_s, SD_TOLD))
    bounds = Bounds(basis.card, GustAhead(pieces, basis.climate, 1, bound), Hours(7.0, 16.0, 7.0, 16.0), "feet", under_snow=False)  # fmt: skip
    card = basis.card
    tilts = sorted(card.tried(wanted_deg), key=lambda tilt: abs(tilt - wanted_deg))
    nights = [wanted_deg, card.flat_deg, *sorted(tilts, key=lambda tilt: -bounds.stands_m_s(tilt))]
    for tilt in tilts:
        held = bounds.held(tilt, nights)
        if held is not None:
            return (
                bounds.stands_m_s(held.tilt_deg), bounds.stands_m_s(held.night_deg), held.upper_m_s, held.night_upper_m_s, held.tilt_deg, held.night_deg,
            )  # fmt: skip
    return (np.nan,) * 6


@dataclass
class YearTally:
    """A year (or part of one) of a policy."""

    fuel_l: float
    dark_wh: float
    moves: int
    over: int  # nights or days in which it blew more than the tilt stands to


def energy_days(basis: Basis, truth: Basis, year: int, first: datetime, days: int, seed: int) -> dict[str, YearTally]:  # fmt: skip
    """Days of a true year through the morning, against fixed, monthly, the plan's two, and hindsight.

    Args:
        basis: What the morning knows.
        truth: Weather of other years of the same place.
        year: Which of them.
        first: The first morning, at seven.
        days: How many.
        seed: Of gusts and errors.
    """
    rng = np.random.default_rng(seed)
    gusts = stormy(rng, 1)[0]
    told_gusts = gusts * np.exp(-SD_TOLD * rng.normal(size=gusts.shape))
    sky_noise = rng.normal(size=365)
    monthly = _monthly(basis)
    found = {}
    for name in ("fixed", "two moves", "monthly", "morning", "hindsight"):
        tally, charge, lies = YearTally(0.0, 0.0, 0, 0), 0.8, basis.facts.winter_tilt_deg
        for nth in range(days):
            at = first + timedelta(days=nth)
            day = (at.timetuple().tm_yday - 1) % 365
            skies = _true_skies(truth, year, day, charge)
            tilt = night = lies
            by_h = None
            if name == "two moves":
                tilt = night = basis.wanted_tilt_deg(day + 1)
            elif name == "monthly":
                tilt = night = monthly[at.month - 1]
            elif name == "hindsight":
                tilt = night = _best(basis, truth, skies, gusts[day].max())
            elif name == "morning":
                forecast = Forecast("heard", at.date(), (
                    Span(0.0, 31.0, sky=_told_sky(truth, year, day, sky_noise[day])), Span(31.0, 55.0, sky=_told_sky(truth, year, (day + 1) % 365, sky_noise[(day + 1) % 365])),
                    Span(6.0, 18.0, gust_m_s=float(told_gusts[day, 0])), Span(18.0, 31.0, gust_m_s=float(told_gusts[day, 1])),
                ))  # fmt: skip
                said = morning_of(basis, Seen(at, Reading(lies), Reading(charge), "bare"), forecast)
                looked = EARLY * gusts[day, 0]  # what blows at seven
                if said.move is not None and looked < said.move.under_m_s:
                    tilt = night = said.move.to_deg
                elif said.move is None and said.stays_deg is not None:
                    tilt = night = lies
                if said.tonight is not None and tilt == (lies if said.move is None else said.move.to_deg):  # fmt: skip
                    night, by_h = said.tonight.tilt_deg, said.tonight.by_h
            tally.moves += int(abs(tilt - lies) >= 1.0) + int(abs(night - tilt) >= 1.0)
            stands = (basis.card.stands_to_m_s(tilt), basis.card.stands_to_m_s(night))
            tally.over += int(gusts[day, 0] > stands[0]) + int(gusts[day, 1] > stands[1])
            lanes = run_ahead(truth, skies, [replace(course(truth, skies, tilt, night, by_h, 3.0))], 0.0)  # fmt: skip
            tally.fuel_l += truth.facts.burns_l_wh * float(lanes.engine_wh[0, 0, 7:31].sum())
            charge, lies = float(lanes.charge[0, 0, 31]), night
        found[name] = tally
    return found


def _true_skies(truth: Basis, year: int, day: int, charge: float) -> Skies:
    days = np.array([[(day + nth) % 365 for nth in range(3)]])
    years = np.full((1, 3), year)
    air = truth.air_c[years[0], days[0]].reshape(1, HOURS).astype(float)
    return Skies(7, day + 1, years, days, np.ones(1), air, np.zeros((1, 3)), np.array([charge]))


def _told_sky(truth: Basis, year: int, day: int, noise: float):
    """The true clearness among its season's, as told with a correlation of .8."""
    season = np.sort(truth.clearness[:, [(day + n) % 365 for n in range(-12, 13)]], axis=None)
    share = (np.searchsorted(season, truth.clearness[year, day]) + 0.5) / (season.size + 1.0)
    deviate = float(
        np.clip(np.log(share / (1.0 - share)) / 1.7, -3.0, 3.0)
    )  # near enough a normal one
    told = 0.8 * deviate + 0.6 * noise
    return "clear" if told > 0.5 else ("grey" if told < -0.5 else "broken")


def _best(basis: Basis, truth: Basis, skies: Skies, gust_m_s: float) -> float:
    """The tilt of least need, knowing sky and gust."""
    tilts = [tilt for tilt in basis.card.tried() if basis.card.stands_to_m_s(tilt) >= gust_m_s] or [basis.card.flat_deg]  # fmt: skip
    lanes = run_ahead(truth, skies, [course(truth, skies, tilt, tilt, None, 3.0) for tilt in tilts], 0.0)  # fmt: skip
    return tilts[int(np.argmin(needs_wh(truth, lanes)[:, 0]))]


def _monthly(basis: Basis) -> list[float]:
    """The tilt of most sun in each month, by the basis's own years."""
    from polestead.base.hours import MONTH_DAYS, MONTH_STARTS

    return [
        float(basis.tilts_deg[int(np.argmax(basis.power[:, :, start : start + days].astype(float).sum(axis=(1, 2, 3))))])
        for start, days in zip(MONTH_STARTS, MONTH_DAYS, strict=True)
    ]  # fmt: skip


def shown(name: str, tally: YearTally) -> str:
    """One line."""
    return f"{name:<10} {in_unit(tally.fuel_l, 'l'):7.1f} l  {tally.moves:4d} moves  {tally.over:3d} over"  # fmt: skip
