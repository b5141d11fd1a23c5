"""Charge through the worst fortnight of a bad year: one line, the engine as blocks on the base, grey or snowed days hatched."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from polestead.answer.fortnight import DAYS, Fortnight
from polestead.base.show import number
from polestead.sheets.svg import Ink, Point, drawing, line, polyline, tag, text
from polestead.sheets.text import day_words

LEFT, TOP, HIGH = 40.0, 28.0, 156.0
WORDS = "let go at 85%"  # the longest beside the curve
BASE = TOP + HIGH


def fortnight_chart(
    told: Fortnight,
    ink: Ink,
    width: float = 760.0,
    size: float = 13.0,
    rules: tuple[float, float] | None = None,
) -> str:
    """Fourteen days, hour by hour.

    Args:
        told: From the answer's winter.
        ink: Of the medium.
        width: Of the picture [px]; no less than 640.
        size: Of the letters [px].
        rules: Charge at which the engine is called, and at which it is let go; None where there is none.
    """
    right = _right(ink, width, size)
    body = [
        *_grey(told, ink, right),
        *_axis(ink, right, size),
        *_rules(rules, told.charge_share[-1], ink, right, size),
        *_charge(told, ink, right, size),
        *_engine(told, ink, right, size),
        *_days(told, ink, right, size),
        tag("g", " ", id="fortnight-hour"),
    ]
    return drawing(width, BASE + 62.0, "", body, "The worst fortnight of a bad year", fortnight_words(told))  # fmt: skip


def fortnight_words(told: Fortnight) -> str:
    """The picture in words."""
    hours, grey = sum(told.engine_h), sum(told.grey)
    dark = f" {number(told.dark_hours)} hours without power." if told.dark_hours >= 0.5 else ""
    return (
        f"From {day_words(told.calendar_days[0])} to {day_words(told.calendar_days[-1])}: {grey} of {DAYS} days grey or under snow; the engine runs {number(hours)} h, "
        f"and the charge never falls under {100.0 * min(told.charge_share):.0f} %.{dark}"
    )


def _right(ink: Ink, width: float, size: float) -> float:
    """Where the curve ends: the words beside it take the rest."""
    return width - 12.0 - len(WORDS) * size * ink.letter


def _x(hour: float, right: float) -> float:
    return LEFT + hour / (24.0 * DAYS) * (right - LEFT)


def _y(charge: float) -> float:
    return BASE - charge * HIGH


def _grey(told: Fortnight, ink: Ink, right: float) -> Iterator[str]:
    """Broken steep strokes; 45 degrees mean something else on these sheets."""
    for nth, is_grey in enumerate(told.grey):
        if not is_grey:
            continue
        start, end = _x(24.0 * nth, right), _x(24.0 * (nth + 1), right)
        for stroke in range(5):
            x = start + (end - start) * (stroke + 0.3) / 5.0
            yield line((x, BASE - 4.0), (x + 5.0, TOP + 4.0), ink.ghost, 0.9, "7 9")


def _axis(ink: Ink, right: float, size: float) -> Iterator[str]:
    yield text((2.0, TOP - 12.0), "charge, %", ink.pencil, ink.face, size)
    for percent in (0, 25, 50, 75, 100):
        y = _y(percent / 100.0)
        yield line((LEFT - 5.0, y), (LEFT, y), ink.pencil, 1.0)
        yield text((LEFT - 8.0, y + 4.5), str(percent), ink.pencil, ink.face, size, "end")
    yield line((LEFT, TOP), (LEFT, BASE), ink.pencil, 1.0)
    yield line((LEFT - 8.0, BASE), (right, BASE), ink.ink, 2.5)


def _rules(rules: tuple[float, float] | None, last: float, ink: Ink, right: float, size: float) -> Iterator[str]:  # fmt: skip
    """When the engine is called and let go; the words only where the curve's own word leaves them room."""
    for word, share in zip(("call at", "let go at"), rules or (), strict=False):
        y = _y(share)
        yield line((LEFT, y), (right, y), ink.edge, 1.0, "8 4")
        if abs(y - _y(last)) > size * 1.2:
            yield text((right + 8.0, y + 4.5), f"{word} {share:.0%}", ink.pencil, ink.face, size)  # fmt: skip


def hours_told(
    told: Fortnight, ink: Ink, width: float, size: float = 13.0
) -> list[dict[str, float | str]]:
    """Where each hour lies on the chart and what it says: for reading one hour after another.

    Args:
        told: As in the chart.
        ink: Of the chart.
        width: Of it [px].
        size: Of its letters [px].
    """
    found: list[dict[str, float | str]] = []
    right = _right(ink, width, size)
    for hour, charge in enumerate(told.charge_share):
        nth, clock = divmod(hour, 24)
        engine = "the engine runs" if told.engine_h[hour] > 0.0 else "engine off"
        grey = ", grey" if told.grey[nth] else ""
        words = (
            f"{day_words(told.calendar_days[nth])}, {clock}:00: charge {100.0 * charge:.0f} %, {engine}; "
            f"the house took {told.sun_wh[nth] / 1000.0:.1f} kWh of sun that day{grey}."
        )
        found.append({"x": round(_x(hour, right), 1), "y": round(_y(charge), 1), "words": words})
    return found


def _charge(told: Fortnight, ink: Ink, right: float, size: float) -> Iterator[str]:
    points: list[Point] = [
        (_x(hour, right), _y(value)) for hour, value in enumerate(told.charge_share)
    ]
    yield polyline(points, ink.ink, 2.5)
    y = min(max(points[-1][1] + 4.5, TOP + 8.0), BASE - 26.0)
    yield text((right + 8.0, y), "charge", ink.ink, ink.face, size, weight="600")


def _engine(told: Fortnight, ink: Ink, right: float, size: float) -> Iterator[str]:
    for start, end, _ in runs_of(told.engine_h):
        x = _x(start, right)
        yield tag("rect", x=x, y=BASE - 13.0, width=max(_x(end, right) - x, 2.0), height=13.0, fill=ink.ink)  # fmt: skip
    yield text((right + 8.0, BASE - 4.0), "engine runs", ink.ink, ink.face, size)


def runs_of(engine_h: tuple[float, ...]) -> list[tuple[int, int, float]]:
    """Spans in which the engine ran: first hour, hour after the last, hours.

    Example:
        >>> runs_of((0.0, 1.0, 0.5, 0.0, 1.0))
        [(1, 3, 1.5), (4, 5, 1.0)]
    """
    found: list[tuple[int, int, float]] = []
    for hour, ran in enumerate(engine_h):
        if ran <= 0.0:
            continue
        if found and found[-1][1] == hour:
            found[-1] = (found[-1][0], hour + 1, found[-1][2] + ran)
        else:
            found.append((hour, hour + 1, ran))
    return found


def _days(told: Fortnight, ink: Ink, right: float, size: float) -> Iterator[str]:
    """Day, what the engine ran on it, what the sun gave."""
    yield text((right + 8.0, BASE + 36.0), "engine h", ink.pencil, ink.face, size)
    yield text((right + 8.0, BASE + 54.0), "sun kWh", ink.pencil, ink.face, size)
    for nth in range(len(told.calendar_days)):
        x = _x(24.0 * nth + 12.0, right)
        ran = sum(told.engine_h[24 * nth : 24 * (nth + 1)])
        yield text(
            (x, BASE + 18.0), _day(told.calendar_days, nth), ink.ink, ink.face, size, "middle"
        )
        yield text((x, BASE + 36.0), f"{ran:.0f}" if ran >= 0.5 else "–", ink.ink, ink.face, size, "middle")  # fmt: skip
        yield text((x, BASE + 54.0), f"{told.sun_wh[nth] / 1000.0:.1f}", ink.pencil, ink.face, size, "middle")  # fmt: skip


def _day(calendar_days: Sequence[int], nth: int) -> str:
    """The day; its month where it begins, and on the first of them where the next one does not say it already."""
    words = [day_words(day) for day in calendar_days[nth : nth + 2]]
    begins = [one.startswith("1 ") for one in words]
    return words[0] if begins[0] or (nth == 0 and not begins[-1]) else words[0].split()[0]
