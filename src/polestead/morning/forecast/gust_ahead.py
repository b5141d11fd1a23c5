"""The gust ahead: what was told with its error, else climate; and the gust that is passed with a given chance only."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache, lru_cache
from math import erf, exp, gamma, log, sqrt

from polestead.base.table import table
from polestead.morning.forecast.forecast import GUST_OVER_MEAN, Forecast, Span
from polestead.site.gusts import EVERYDAY_SHAPE, MONTH_DAYS, GustClimate

MOST_M_S = 120.0
_OF_WIND = re.compile(
    r"gust|wind|storm|gale|hurricane|tornado|squall|blow|breez|force|bft|mph|km/?h|knot|\bkts?\b|m/s"
)
ONE_WEEK_IN_TEN = 0.1
THUNDER_YEARS = 10.0  # away in thunder season: the site's ten-year gust


@cache
def errors() -> dict[str, float]:
    """The errors of a forecast by name."""
    return {row["name"]: float(row["value"]) for row in table("morning", "forecast/errors")}


def gust_sd(lead_h: float) -> float:
    """Log-normal error of a gust told so far ahead (METHODS 4.3): .20 up to a day, .05 more for each further day.

    Args:
        lead_h: From when it was told to when it blows [h].

    Example:
        >>> gust_sd(5.0), round(gust_sd(48.0), 2)
        (0.2, 0.25)
    """
    known = errors()
    return known["gust_sd"] + known["gust_sd_per_day"] * max(lead_h / 24.0 - 1.0, 0.0)


def week_gust_m_s(climate: GustClimate, month: int) -> float:
    """The gust that one such week in ten sees.

    Args:
        climate: Of the place.
        month: 1 to 12.
    """
    return climate_gust_m_s(climate, month, 7.0, ONE_WEEK_IN_TEN)


def climate_gust_m_s(climate: GustClimate, month: int, days: float, chance: float) -> float:
    """The gust passed within some days with a chance, closed form of ``GustClimate.chance_over``.

    Args:
        climate: Of the place.
        month: 1 to 12.
        days: How many.
        chance: 0 to 1.

    Example:
        The same as asking the climate's own chance:

        >>> from polestead.site.gusts import gusts_of_map
        >>> place = gusts_of_map(47.8)
        >>> round(place.chance_over(climate_gust_m_s(place, 1, 7.0, 0.1), 7.0, 1), 6)
        0.1
    """
    rate = -log(1.0 - chance)
    per_year = climate.share_by_month[month - 1] * days / float(MONTH_DAYS[month - 1])
    rare = climate.gust_of_m_s(1.0) - 0.1 * climate.fifty_year_m_s * log(rate / per_year) if per_year > 0.0 else 0.0  # fmt: skip
    scale = climate.everyday_mean_m_s[month - 1] / gamma(1.0 + 1.0 / EVERYDAY_SHAPE)
    under = exp(log(1.0 - chance) / days)
    everyday = scale * (-log(1.0 - under)) ** (1.0 / EVERYDAY_SHAPE)
    return float(max(rare, everyday, 0.0))


@dataclass(frozen=True, slots=True)
class Piece:
    """A gust told for some hours.

    Attributes:
        from_h, to_h: Hours from midnight of today.
        median_m_s: With the log's bias in it.
        sd: Of its logarithm.
        least: Not told of these hours but the least of them: the climate counts beside it.
    """

    from_h: float
    to_h: float
    median_m_s: float
    sd: float
    least: bool = False


@dataclass(frozen=True, slots=True)
class GustAhead:
    """The gust of the hours ahead.

    Attributes:
        pieces: What was told.
        climate: What counts where nothing was told.
        month: Of today.
        bound: Chance the owner bears, of one window between two moves.
        thunder: Hours in which the site's ten-year gust is taken.
        met_m_s: Strongest gust met lately: the least that is taken where nothing was told.
        misheard: Something of wind was said and not understood: the climate's gust is the least, whatever else was told.
    """

    pieces: tuple[Piece, ...]
    climate: GustClimate
    month: int
    bound: float
    thunder: tuple[tuple[float, float], ...] = ()
    met_m_s: float = 0.0
    misheard: bool = False

    def told_m_s(self, from_h: float, to_h: float) -> float | None:
        """Largest gust told for any of these hours; None where none was told."""
        return max((one.median_m_s for one in self._in(from_h, to_h)), default=None)

    def chance_over(self, gust_m_s: float, from_h: float, to_h: float) -> float:
        """Chance that the largest gust of these hours is over a speed; a span that is touched counts whole."""
        pieces = self._in(from_h, to_h)
        return _chance_over(gust_m_s, pieces, _untold_h(pieces, from_h, to_h), self.climate, self.month)  # fmt: skip

    def upper_m_s(self, from_h: float, to_h: float) -> float:
        """The gust that these hours pass with the owner's chance only.

        Where nothing was told of them it is at least the gust one such week in ten sees; where thunder is to be feared, at
        least the ten-year gust.
        """
        to_h = max(to_h, from_h + 1.0)
        pieces = self._in(from_h, to_h)
        high = _passed_m_s(pieces, _untold_h(pieces, from_h, to_h), self.climate, self.month, self.bound)  # fmt: skip
        least = 0.0 if pieces and not self.misheard else max(week_gust_m_s(self.climate, self.month), self.met_m_s)  # fmt: skip
        if any(start < to_h and end > from_h for start, end in self.thunder):
            least = max(least, self.climate.gust_of_m_s(THUNDER_YEARS))
        return max(high, least)

    def _in(self, from_h: float, to_h: float) -> tuple[Piece, ...]:
        return tuple(one for one in self.pieces if one.from_h < to_h and one.to_h > from_h)


def _chance_over(gust_m_s: float, pieces: tuple[Piece, ...], untold_h: float, climate: GustClimate, month: int) -> float:  # fmt: skip
    under = 1.0
    for one in pieces:
        under *= 0.5 * (1.0 + erf(log(max(gust_m_s, 1e-9) / one.median_m_s) / (one.sd * sqrt(2.0))))
    if untold_h > 1e-9:
        under *= 1.0 - climate.chance_over(gust_m_s, untold_h / 24.0, month)
    return 1.0 - under


@lru_cache(maxsize=4096)  # the hours of one span are alike: most of a day's are asked for again
def _passed_m_s(pieces: tuple[Piece, ...], untold_h: float, climate: GustClimate, month: int, bound: float) -> float:  # fmt: skip
    """The gust that is passed with the bound's chance."""
    low, high = 0.0, MOST_M_S
    for _ in range(40):
        mid = 0.5 * (low + high)
        low, high = (mid, high) if _chance_over(mid, pieces, untold_h, climate, month) > bound else (low, mid)  # fmt: skip
    return high


def _untold_h(pieces: tuple[Piece, ...], from_h: float, to_h: float) -> float:
    return (to_h - from_h) - _covered(pieces, from_h, to_h)


def _misheard(forecast: Forecast) -> bool:
    return forecast.gust_doubted or forecast.storm or forecast.least_gust_m_s > 0.0 or any(_OF_WIND.search(words.lower()) for words in forecast.not_understood)  # fmt: skip


def _over_mean(gust: Span, wind: Span) -> bool:
    """Whether a told gust can be one of a told mean wind; one under it is a slip, and the wind counts."""
    return (gust.gust_m_s or 0.0) >= (wind.gust_m_s or 0.0) / GUST_OVER_MEAN


def _covered(pieces: tuple[Piece, ...], from_h: float, to_h: float) -> float:
    """Hours that are told of."""
    told, reached = 0.0, from_h
    for one in sorted((one for one in pieces if not one.least), key=lambda piece: piece.from_h):
        start, end = max(one.from_h, reached), min(one.to_h, to_h)
        told += max(end - start, 0.0)
        reached = max(reached, end)
    return told


def gust_ahead(
    forecast: Forecast,
    climate: GustClimate,
    today_from_forecast_h: float,
    now_h: float,
    month: int,
    bound: float,
    bias: float = 1.0,
    thunder: tuple[tuple[float, float], ...] = (),
    met_m_s: float = 0.0,
) -> GustAhead:
    """A forecast with its errors.

    Args:
        forecast: As told.
        climate: Of the place.
        today_from_forecast_h: From the forecast's midnight to today's.
        now_h: Hour of today.
        month: Of today.
        bound: Chance the owner bears.
        bias: Gusts seen over gusts told, of the log; never under the least of ``errors``.
        thunder: Hours in which thunder is to be feared.
        met_m_s: Strongest gust met lately.
    """
    factor = max(bias, errors()["gust_bias"])
    pieces = []
    told = [span for span in forecast.spans if span.gust_m_s is not None and not span.from_wind]
    for span in forecast.spans:
        if span.from_wind and any(
            one.from_h <= span.from_h and one.to_h >= span.to_h and _over_mean(one, span)
            for one in told
        ):
            continue  # the gust itself was told, and is one of that wind
        start, end = span.from_h - today_from_forecast_h, span.to_h - today_from_forecast_h
        if span.gust_m_s is None or end <= now_h:
            continue
        lead = max(0.5 * (max(start, now_h) + end) - now_h, 0.0) + forecast.age_h
        # a calm that was told is still some air
        pieces.append(Piece(start, end, max(span.gust_m_s * factor, 0.5), gust_sd(lead)))
    until = forecast.least_to_h - today_from_forecast_h
    if forecast.least_gust_m_s > 0.0 and until > now_h:
        sd = gust_sd(until - now_h + forecast.age_h)
        pieces.append(Piece(now_h, until, forecast.least_gust_m_s * factor, sd, least=True))
    if forecast.storm and until > now_h:
        thunder = (*thunder, (now_h, until))
    return GustAhead(tuple(pieces), climate, month, bound, thunder, met_m_s, _misheard(forecast))
