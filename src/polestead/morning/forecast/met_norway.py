"""Adapter of the Norwegian Meteorological Institute's open forecast (Locationforecast 2.0, complete; documented at api.met.no).

Source: the service's own documents (getting started, data model, terms; seen): JSON, hours in UTC, units told in ``meta.units``;
an identifying User-Agent with a contact, no more than four decimals of place, If-Modified-Since and Expires.  Two decimals are
sent: a kilometre.  Gusts are told for northern Europe only; elsewhere a gust is made from the mean wind.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from datetime import UTC, datetime, time, timedelta
from math import isfinite
from typing import Any

from polestead.morning.forecast.forecast import GUST_OVER_MEAN, Forecast, Sky, Span
from polestead.morning.forecast.service import NotAsDocumented

UNITS = {
    "air_temperature": "celsius", "wind_speed": "m/s", "wind_speed_of_gust": "m/s", "cloud_area_fraction": "%",
    "precipitation_amount": "mm",
}  # fmt: skip
SPANS = {
    "air_temperature": (-75.0, 60.0), "wind_speed": (0.0, 60.0), "wind_speed_of_gust": (0.0, 100.0), "cloud_area_fraction": (0.0, 100.0),
    "precipitation_amount": (0.0, 400.0),
}  # fmt: skip
BESIDE_USUAL_K = (
    20.0  # beyond the season's own ends by more, a temperature is in another unit: ours
)
GUST_MOST_TIMES = 6.0  # a gust over so many times its mean wind is in another unit: ours
SPAN_H = 6.0
AHEAD_H = 96.0
CLEAR_UNDER, GREY_OVER = 35.0, 80.0  # cloud cover: everyday words; ours
SNOW_UNDER_C = 0.5
SNOW_OVER_WATER = 10.0  # depth of fresh snow over its water: common practice


class MetNorway:
    """The adapter."""

    name = "MET Norway"
    base = "https://api.met.no"

    def path(self, latitude_deg: float, longitude_deg: float, elevation_m: float) -> str:
        """Place to a kilometre.

        Example:
            >>> MetNorway().path(47.912, -91.4, 503.2)
            '/weatherapi/locationforecast/2.0/complete?lat=47.91&lon=-91.40&altitude=503'
        """
        return f"/weatherapi/locationforecast/2.0/complete?lat={latitude_deg:.2f}&lon={longitude_deg:.2f}&altitude={max(elevation_m, 0.0):.0f}"  # fmt: skip

    def read(self, body: bytes, day: datetime, offset_h: float, usual_c: tuple[float, float]) -> Forecast:  # fmt: skip
        """Turn a reply into spans of six hours.

        Args:
            body: JSON.
            day: The owner's clock, local standard time.
            offset_h: Local standard time less UTC.
            usual_c: Coldest and warmest of the season.

        Raises:
            NotAsDocumented: Not that JSON, other units, or figures no weather has.
        """
        try:
            told = json.loads(body)
            meta, series = told["properties"]["meta"], told["properties"]["timeseries"]
            units, updated = dict(meta["units"]), _utc(meta["updated_at"])
            steps = [(_utc(step["time"]), step["data"]) for step in series[:200]]
        except (ValueError, KeyError, TypeError, RecursionError, AttributeError):
            message = "it is not the documented JSON"
            raise NotAsDocumented(message) from None
        for name, unit in UNITS.items():
            if name in units and units[name] != unit:
                message = f"{name} is told in {str(units[name])[:20]}, documented is {unit}"
                raise NotAsDocumented(message)
        if not {"air_temperature", "wind_speed"} <= set(units):
            message = "it does not tell its units"
            raise NotAsDocumented(message)
        midnight = datetime.combine(day.date(), time())
        now_h = (day - midnight).total_seconds() / 3600.0
        hours = [((when + timedelta(hours=offset_h)).replace(tzinfo=None) - midnight).total_seconds() / 3600.0 for when, _ in steps]  # fmt: skip
        spans: dict[int, list[tuple[float, dict[str, float], Mapping[str, Any]]]] = {}
        for hour, (_, data) in zip(hours, steps, strict=True):
            if now_h - 1.0 <= hour < now_h + AHEAD_H:
                spans.setdefault(int(hour // SPAN_H), []).append((hour, _figures(data, usual_c), data))  # fmt: skip
        if not any(hour <= now_h + 3.0 for group in spans.values() for hour, *_ in group):
            message = "its hours do not reach today"
            raise NotAsDocumented(message)
        age = (day - timedelta(hours=offset_h) - updated.replace(tzinfo=None)).total_seconds() / 3600.0  # fmt: skip
        if age < -2.0:
            message = "it says it was made in days to come"
            raise NotAsDocumented(message)
        made = tuple(_span(SPAN_H * nth, group) for nth, group in sorted(spans.items()))
        gusts = any("wind_speed_of_gust" in figures for group in spans.values() for _, figures, _ in group)  # fmt: skip
        note = () if gusts else ("The service tells no gusts here: 1.5 times its mean wind is taken.",)  # fmt: skip
        echo = f"From MET Norway (CC BY 4.0), made {max(age, 0.0):.0f} h ago: {len(made)} spans of six hours."
        return Forecast("service", day.date(), made, echo, age_h=max(age, 0.0), notes=note)


def _utc(text: str) -> datetime:
    found = datetime.fromisoformat(text)
    if found.tzinfo is None:
        message = "a time without its zone"
        raise ValueError(message)
    return found.astimezone(UTC)


def _figures(data: Mapping[str, Any], usual_c: tuple[float, float]) -> dict[str, float]:
    """The figures of one moment, each within what weather does."""
    try:
        details = dict(data["instant"]["details"])
        if "next_1_hours" in data:
            details |= data["next_1_hours"].get("details", {})
        elif "next_6_hours" in data:
            details |= data["next_6_hours"].get("details", {})
        found = {name: float(details[name]) for name in UNITS if name in details}
    except (KeyError, TypeError, ValueError, AttributeError):
        message = "a moment without its figures"
        raise NotAsDocumented(message) from None
    for name, value in found.items():
        least, most = SPANS[name]
        if not (isfinite(value) and least <= value <= most):
            message = f"{name} of {value:g} {UNITS[name]} is no weather"
            raise NotAsDocumented(message)
    air = found.get("air_temperature")
    if air is not None and not usual_c[0] - BESIDE_USUAL_K <= air <= usual_c[1] + BESIDE_USUAL_K:
        message = f"{air:g} C is no temperature of this place and season"
        raise NotAsDocumented(message)
    wind, gust = found.get("wind_speed"), found.get("wind_speed_of_gust")
    if wind is not None and gust is not None and (gust < 0.9 * wind or gust > GUST_MOST_TIMES * max(wind, 3.0)):  # fmt: skip
        message = f"a gust of {gust:g} with a wind of {wind:g} m/s"
        raise NotAsDocumented(message)
    return found


def _span(start_h: float, group: list[tuple[float, dict[str, float], Mapping[str, Any]]]) -> Span:
    figures = [one for _, one, _ in group]
    gusts = [one["wind_speed_of_gust"] for one in figures if "wind_speed_of_gust" in one]
    winds = [one["wind_speed"] * GUST_OVER_MEAN for one in figures if "wind_speed" in one]
    air = [one["air_temperature"] for one in figures if "air_temperature" in one]
    clouds = [one["cloud_area_fraction"] for one in figures if "cloud_area_fraction" in one]
    water = sum(one.get("precipitation_amount", 0.0) for one in figures)
    cold = bool(air) and sum(air) / len(air) <= SNOW_UNDER_C
    cover = sum(clouds) / len(clouds) if clouds else None
    sky: Sky | None = None if cover is None else ("clear" if cover < CLEAR_UNDER else ("grey" if cover > GREY_OVER else "broken"))  # fmt: skip
    thunder = any("thunder" in str(_symbol(data)) for *_, data in group)
    sleet = any("sleet" in str(_symbol(data)) for *_, data in group)
    glaze = any(one.get("precipitation_amount", 0.0) > 0.0 and one.get("air_temperature", 1.0) <= 0.0 for one in figures)  # fmt: skip
    return Span(
        from_h=start_h,
        to_h=start_h + SPAN_H,
        gust_m_s=max(gusts) if gusts else (max(winds) if winds else None),
        from_wind=not gusts,
        sky=sky,
        high_c=max(air, default=None),
        low_c=min(air, default=None),
        snow_m=water / 1000.0 * SNOW_OVER_WATER if cold and water > 0.0 else None,
        rain=not cold and water > 0.0,
        thunder=thunder,
        ice=sleet or (glaze and not cold),
    )


def _symbol(data: Mapping[str, Any]) -> str:
    for name in ("next_1_hours", "next_6_hours"):
        part = data.get(name)
        if isinstance(part, dict) and isinstance(part.get("summary"), dict):
            return str(part["summary"].get("symbol_code", ""))
    return ""
