"""The tilt drive's own supply as text."""

from __future__ import annotations

from collections.abc import Iterator

from polestead.base.hours import MONTH_NAMES
from polestead.base.show import Style, in_style, percent
from polestead.sheets.sentences import figures_of
from polestead.sheets.text import heading, say
from polestead.wiring.tilt_drive.result import (
    FILL_IN,
    DayOfDrive,
    MonthOfDrive,
    MotorWire,
    PartOfDrive,
    TiltDrive,
    YearsOfDrive,
)


def tilt_drive_lines(told: TiltDrive | None, style: Style) -> Iterator[str]:
    """Its worst month, wire and fuse, ordinary parts, cautions; or what to fill in.

    Args:
        told: The supply worked; None where the file has none.
        style: Feet or metric.
    """
    yield heading("The tilt drive's own supply")
    if told is None:
        yield say(FILL_IN)
        return
    for words in told.words:
        yield say(words)
    for check in told.checks:
        if not check.holds:
            yield say(f"NO: {check.part}, {check.name}: {figures_of(check, style)}.")  # fmt: skip
    yield heading("Watt-hours of three months, and of a mean year")
    yield from _months(told.years, style)
    yield heading(f"Day by day: {_name(told.years.worst)}")
    yield from _days(told.years.worst, style)
    yield heading("Wire and fuse to the motor")
    yield from _wire(told.wire)
    yield heading("Ordinary parts")
    for part in told.parts:
        yield from _part(part)
    yield heading("Mind")
    for note in told.notes:
        yield say(note, "  * ", "    ")
    if told.asks:
        yield heading("Not passed or not known of the drive")
        for ask in told.asks:
            yield say(ask, "  ? ", "    ")


def _name(month: MonthOfDrive) -> str:
    return f"{MONTH_NAMES[month.month - 1]} of year {month.year}"


def _months(years: YearsOfDrive, style: Style) -> Iterator[str]:
    yield f"{'panel':>27}{'turned':>8}{'idle':>8}{'moves':>7}{'lost':>6}{'lowest':>7}{'box':>7}{'air':>7}"
    yield f"{'':>27}{'away':>8}{'draw':>8}{'':>13}{'charge':>7}{'least':>7}{'mean':>7}"
    for word, month in (
        ("worst", years.worst),
        ("darkest", years.darkest),
        ("coldest", years.coldest),
    ):
        lost = month.charge_loss_wh + month.standing_wh
        yield (
            f"  {word:<8}{_name(month).replace(' of year', ' yr'):<10}{month.panel_wh:>7.0f}{month.turned_away_wh:>8.0f}{month.idle_wh:>8.0f}"
            f"{month.moves_wh:>7.0f}{lost:>6.0f}{percent(month.lowest_charge):>7}{_cold(month.coldest_c, style):>7}{_cold(month.air_c, style):>7}"
        )
    yield (
        f"  {'mean year':<18}{years.panel_wh:>7.0f}{'':>8}{years.idle_wh:>8.0f}{years.moves_wh:>7.0f}"
    )
    split = years.idle_wh + years.moves_wh
    if split > 0.0:
        yield say(
            f"Of what is drawn {percent(years.idle_wh / split)} is idle draw and {percent(years.moves_wh / split)} moves."
        )
    if years.freeze_margin_k is not None:
        yield say(
            f"The acid stays {_kelvin(years.freeze_margin_k, style)} over its freezing point at the nearest."
            if years.freeze_margin_k >= 0.0
            else f"The acid comes {_kelvin(-years.freeze_margin_k, style)} under its freezing point."
        )


def _days(month: MonthOfDrive, style: Style) -> Iterator[str]:
    missed = any(day.missed for day in month.days)
    head = "   day  panel   uses  charge    box, coldest warmest"
    yield head + ("  missed" if missed else "")
    for day in month.days:
        yield _day(day, missed, style)


def _day(day: DayOfDrive, missed: bool, style: Style) -> str:
    row = (
        f"  {day.day:>4}{day.panel_wh:>7.0f}{day.uses_wh:>7.0f}{percent(day.charge):>8}{_cold(day.coldest_c, style):>16}"
        f"{_cold(day.warmest_c, style):>8}"
    )
    return row + (f"{day.missed:>8.0f}" if missed else "")


def _wire(wire: MotorWire) -> Iterator[str]:
    fuse = "in the file" if wire.from_file else "to buy, time-delay"
    yield say(
        f"{wire.size} copper loses {wire.drop_v:.2f} V at {wire.running_a:g} A ({percent(wire.drop_share, 1)}); at the motor {wire.warm_v:.1f} V with the "
        f"battery full and warm, {wire.cold_v:.1f} V at its lowest and coldest. Held still: {wire.stall_a:.0f} A, {wire.stall_drop_v:.1f} V lost in "
        f"the wire, {wire.stall_v:.1f} V at the motor; a cold start up to {wire.inrush_a:.0f} A."
    )
    yield say(
        f"Fuse {wire.fuse_a:g} A ({fuse}): holds the inrush at least {_seconds(wire.inrush_holds_s)}."
    )
    if wire.warm_s is not None and wire.cold_s is not None:
        yield say(f"Full travel {wire.warm_s:.0f} to {wire.cold_s:.0f} s, warm to deepest cold.")


def _part(part: PartOfDrive) -> Iterator[str]:
    yield say(f"{part.what}: {part.rating}.", "  - ", "    ")
    yield say(f"Where: {part.where}. Why: {part.why}", "      ", "      ")
    yield say(f"[{part.source}]", "      ", "      ")


def _seconds(seconds: float) -> str:
    return "an hour" if seconds >= 3600.0 else f"{seconds:.0f} s"


def _cold(celsius: float, style: Style) -> str:
    return in_style(round(celsius), "C", style)


def _kelvin(kelvin: float, style: Style) -> str:
    return f"{kelvin * 1.8:.0f} F" if style == "feet" else f"{kelvin:.0f} K"
