"""Today and two days ahead: above, gusts against what today's tilt stands to; below, the charge with its range."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import timedelta
from math import ceil, isfinite

from polestead.base.quantity import in_unit
from polestead.base.show import Style, percent
from polestead.morning.card import unit_of
from polestead.morning.result import Ahead, Morning
from polestead.sheets.axes import nice_step
from polestead.sheets.svg import Ink, Point, drawing, hatch, line, polygon, polyline, tag, text
from polestead.sheets.view import clock

HIGH = 150.0
LEFT, RIGHT = 30.0, 6.0
GUST_TOP, GUST_BASE = 18.0, 64.0
CHARGE_TOP, CHARGE_BASE = 84.0, 131.0
HOURS = 72
SIZE = 13.0


@dataclass(frozen=True, slots=True)
class _Frame:
    width: float
    most: float
    unit: str

    def x(self, hour: float) -> float:
        return LEFT + hour / HOURS * (self.width - LEFT - RIGHT)

    def gust_y(self, speed_m_s: float) -> float:
        return GUST_BASE - in_unit(speed_m_s, self.unit) / self.most * (GUST_BASE - GUST_TOP)


def strip(told: Morning, ahead: Ahead, stands_m_s: float | None, style: Style, ink: Ink, width: float = 358.0) -> str:  # fmt: skip
    """The strip.

    Args:
        told: The line.
        ahead: The house at its tilt.
        stands_m_s: What the tilt of today stands to; None where it is not known where it lies.
        style: Whose units.
        ink: Of the medium.
        width: Of the picture [px].
    """
    unit = unit_of(style)
    most = max(in_unit(max(max(told.upper_by_hour), stands_m_s or 0.0), unit), 10.0)
    step = nice_step(most, 3)
    frame = _Frame(width, step * ceil(most / step - 1e-9), unit)
    body = [
        *_days(told, frame, ink),
        *_gusts(told, frame, ink, stands_m_s),
        *_charge(ahead, frame, ink),
        *_marks(told, frame, ink, style),
    ]
    name = f"ahead-{width:.0f}"
    return drawing(width, HIGH, hatch(name, ink.pencil, 5.0, 25.0), [_band(ahead, frame, f"url(#{name})"), *body], "Today and two days ahead", strip_words(told, ahead, stands_m_s, style))  # fmt: skip


def strip_words(told: Morning, ahead: Ahead, stands_m_s: float | None, style: Style) -> str:
    """The strip in words.

    Args:
        told: The line.
        ahead: The house at its tilt.
        stands_m_s: What the tilt of today stands to.
        style: Whose units.
    """
    unit = unit_of(style)
    stands = (
        "" if stands_m_s is None else f"; today's tilt stands to {in_unit(stands_m_s, unit):.0f}"
    )
    days = []
    five = 17 - round((told.wall - told.at).total_seconds() / 3600.0)
    for nth in range(3):
        hours = slice(24 * nth, 24 * nth + 24)
        gust = max(told.upper_by_hour[hours])
        dusk = ahead.charge_mid[24 * nth + five]
        charge = f", charge at five {percent(dusk)}" if isfinite(dusk) else ""
        days.append(f"{told.at + timedelta(days=nth):%a} it may blow {in_unit(gust, unit):.0f} {unit}{charge}")  # fmt: skip
    return f"{'; '.join(days)}{stands}."


def _days(told: Morning, frame: _Frame, ink: Ink) -> Iterator[str]:
    for nth in range(3):
        x = frame.x(24.0 * nth)
        if nth:
            yield line((x, GUST_TOP - 4.0), (x, CHARGE_BASE), ink.ghost, 1.0)
        yield text((frame.x(24.0 * nth + 12.0), HIGH - 3.0), f"{told.at + timedelta(days=nth):%a}", ink.ink if nth == 0 else ink.pencil, ink.face, SIZE, "middle", "600" if nth == 0 else None)  # fmt: skip
    for base in (GUST_BASE, CHARGE_BASE):
        yield line((LEFT, base), (frame.width - RIGHT, base), ink.ink, 1.5 if base == CHARGE_BASE else 1.0)  # fmt: skip


def _gusts(told: Morning, frame: _Frame, ink: Ink, stands_m_s: float | None) -> Iterator[str]:  # fmt: skip
    yield text((LEFT, 11.0), f"gust, {frame.unit}", ink.pencil, ink.face, SIZE)
    yield text((LEFT - 5.0, GUST_TOP + 6.0), f"{frame.most:.0f}", ink.pencil, ink.face, SIZE, "end")
    if stands_m_s is not None:
        y = frame.gust_y(stands_m_s)
        yield line((LEFT, y), (frame.width - RIGHT, y), ink.ink, 1.5, "8 4")
        words = f"stands to {in_unit(stands_m_s, frame.unit):.0f}"
        over = y - 4.0 if y > GUST_TOP + 8.0 else GUST_TOP - 6.0
        yield text((frame.width - RIGHT, over), words, ink.ink, ink.face, SIZE, "end")
    now = told.at.hour
    yield polyline(_stairs(told.upper_by_hour, now, frame), ink.ink, 1.5)
    for run in _runs(told.gust_by_hour, now):
        yield polyline(_stairs_of(run, told.gust_by_hour, frame), ink.pencil, 1.5, "2 4")


def _stairs(values: Sequence[float], now: int, frame: _Frame) -> list[Point]:
    return _stairs_of((now, HOURS), values, frame)


def _stairs_of(run: tuple[int, int], values: Sequence[float], frame: _Frame) -> list[Point]:
    points: list[Point] = []
    for hour in range(*run):
        y = frame.gust_y(values[hour])
        points += [(frame.x(hour), y), (frame.x(hour + 1), y)]
    return points


def _runs(values: Sequence[float], now: int) -> Iterator[tuple[int, int]]:
    """Hours in a row that are told."""
    begun: int | None = None
    for hour in range(now, HOURS + 1):
        told = hour < HOURS and isfinite(values[hour])
        if told and begun is None:
            begun = hour
        elif not told and begun is not None:
            yield begun, hour
            begun = None


def _known(ahead: Ahead) -> list[int]:
    return [hour for hour, value in enumerate(ahead.charge_mid) if isfinite(value)]


def _y(charge: float) -> float:
    return CHARGE_BASE - charge * (CHARGE_BASE - CHARGE_TOP)


def _band(ahead: Ahead, frame: _Frame, fill: str) -> str:
    hours = _known(ahead)
    upper = [(frame.x(hour), _y(ahead.charge_high[hour])) for hour in hours]
    lower = [(frame.x(hour), _y(ahead.charge_low[hour])) for hour in reversed(hours)]
    return polygon([*upper, *lower], fill)


def _charge(ahead: Ahead, frame: _Frame, ink: Ink) -> Iterator[str]:
    hours = _known(ahead)
    for edge in (ahead.charge_low, ahead.charge_high):
        yield polyline([(frame.x(hour), _y(edge[hour])) for hour in hours], ink.pencil, 0.8)
    yield polyline([(frame.x(hour), _y(ahead.charge_mid[hour])) for hour in hours], ink.ink, 2.5)
    yield text((LEFT, CHARGE_TOP - 5.0), "charge, %", ink.pencil, ink.face, SIZE)
    yield text((LEFT - 5.0, CHARGE_TOP + 8.0), "100", ink.pencil, ink.face, SIZE, "end")
    yield text((LEFT - 5.0, CHARGE_BASE), "0", ink.pencil, ink.face, SIZE, "end")


def _marks(told: Morning, frame: _Frame, ink: Ink, style: Style) -> Iterator[str]:
    """Now, and the hour by which something must be done."""
    now = told.at.hour + told.at.minute / 60.0
    x = frame.x(now)
    yield line((x, GUST_TOP), (x, GUST_BASE), ink.ink, 1.0)
    yield line((x, CHARGE_TOP), (x, CHARGE_BASE), ink.ink, 1.0)
    yield tag("path", d=f"M{x - 4.0:.1f} {CHARGE_BASE + 7.0:.1f}h8l-4 -7z", fill=ink.ink)
    night = told.tonight
    if night is not None and night.by_h is not None and night.by_wall is not None:
        by, shows = night.by_h, night.by_wall
        x = frame.x(by)
        yield line((x, GUST_TOP), (x, GUST_BASE), ink.ink, 2.5)
        yield line((x, CHARGE_TOP), (x, CHARGE_BASE), ink.ink, 2.5)
        yield text((x - 2.0, CHARGE_TOP - 5.0), f"by {clock(shows.hour + shows.minute / 60.0, style)}", ink.ink, ink.face, SIZE, weight="600")  # fmt: skip
