"""The year as a picture: sun the house could use above the line, engine hours hanging below it as tally strokes."""

from __future__ import annotations

from collections.abc import Iterator

from polestead.answer.answer import Answer
from polestead.base.hours import MONTH_NAMES
from polestead.sheets.svg import Ink, drawing, line, tag, text

HOURS_A_STROKE = 5.0
STROKES_A_ROW = 5
PITCH, STROKE, ROW = 5.5, 17.0, 23.0
LEFT, TOP, BARS = 60.0, 30.0, 150.0


def year_picture(answer: Answer, ink: Ink, width: float = 802.0, size: float = 13.0) -> str:
    """Twelve months from the start of the working year; the mean of all years."""
    winter = answer.winter
    months = [(winter.start_month - 1 + nth) % 12 for nth in range(12)]
    used = [winter.with_new.sun_used_wh_by_month[month] / 1000.0 for month in months]
    away = [winter.with_new.turned_away_wh_by_month[month] / 1000.0 for month in months]
    without = [winter.without.engine_hours_by_month[month] for month in months]
    with_new = [winter.with_new.engine_hours_by_month[month] for month in months]
    rows = max(_rows(hours) for hours in [*without, *with_new])
    ground = TOP + BARS
    height = ground + 40.0 + rows * ROW + 46.0
    step = (width - LEFT - 10.0) / 12.0
    highest = max(a + b for a, b in zip(used, away, strict=True)) or 1.0
    body: list[str] = [
        text(
            (LEFT, 16.0),
            "sun for the house, kWh a month: solid it could use, outline it turned away",
            ink.pencil,
            ink.face,
            size,
        ),
        line((LEFT, ground), (width - 6.0, ground), ink.ink, 2.5),
        text(
            (LEFT, height - 8.0),
            "hanging: engine hours, a stroke is 5 h; pale without the new array, dark with it",
            ink.pencil,
            ink.face,
            size,
        ),
    ]
    for nth, month in enumerate(months):
        x = LEFT + nth * step
        body += _bar(
            x,
            step,
            ground,
            used[nth] / highest * (BARS - 20.0),
            away[nth] / highest * (BARS - 20.0),
            ink,
        )
        body.append(
            text(
                (x + step * 0.34, ground - (used[nth] + away[nth]) / highest * (BARS - 20.0) - 5.0),
                f"{used[nth]:.0f}",
                ink.ink,
                ink.face,
                size,
                "middle",
            )
        )
        body.append(
            text(
                (x + step * 0.34, ground + 16.0),
                MONTH_NAMES[month],
                ink.pencil,
                ink.face,
                size,
                "middle",
            )
        )
        body += _tally(
            x,
            ground + 26.0,
            without[nth],
            ink.ghost if ink.ghost.startswith("#") else "var(--edge)",
        )
        body += _tally(x + PITCH * (STROKES_A_ROW + 1.2), ground + 26.0, with_new[nth], ink.ink)
        under = ground + 26.0 + rows * ROW + 12.0
        body.append(text((x, under), f"{without[nth]:.0f}", ink.pencil, ink.face, size))
        body.append(
            text(
                (x + PITCH * (STROKES_A_ROW + 1.2), under),
                f"{with_new[nth]:.0f}",
                ink.ink,
                ink.face,
                size,
            )
        )
    body.append(text((4.0, ground + 26.0 + rows * ROW + 12.0), "hours", ink.pencil, ink.face, size))
    words = "; ".join(
        f"{MONTH_NAMES[month]}: {used[nth]:.0f} kWh used, {away[nth]:.0f} turned away, engine {without[nth]:.0f} h without, {with_new[nth]:.0f} h with"
        for nth, month in enumerate(months)
    )
    return drawing(width, height, "", body, "The year", words)


def _rows(hours: float) -> int:
    return -(-round(hours / HOURS_A_STROKE) // STROKES_A_ROW)


def _bar(x: float, step: float, ground: float, used: float, away: float, ink: Ink) -> Iterator[str]:
    wide = step * 0.5
    yield tag("rect", x=x + step * 0.09, y=ground - used, width=wide, height=used, fill=ink.pencil)
    yield tag(
        "rect",
        x=x + step * 0.09,
        y=ground - used - away,
        width=wide,
        height=away,
        fill="none",
        stroke=ink.ink,
        stroke_width=1.2,
    )


def _tally(x: float, y: float, hours: float, colour: str) -> Iterator[str]:
    """Strokes, every fifth struck through the four before it."""
    for nth in range(round(hours / HOURS_A_STROKE)):
        row, place = divmod(nth, STROKES_A_ROW)
        top = y + row * ROW
        if place == STROKES_A_ROW - 1:
            yield line(
                (x - 2.0, top + STROKE - 2.0), (x + PITCH * 3.0 + 2.0, top + 2.0), colour, 1.6
            )
        else:
            yield line((x + place * PITCH, top), (x + place * PITCH, top + STROKE), colour, 1.6)
