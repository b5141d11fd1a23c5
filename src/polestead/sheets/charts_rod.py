"""What acts along the rod over the travel: weight, snow, wind, friction; pull above the line, push below it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from math import ceil

from polestead.base.quantity import in_unit
from polestead.base.show import MINUS, Style, in_style, number
from polestead.sheets.axes import nice_step
from polestead.sheets.svg import Ink, Point, drawing, line, polyline, text
from polestead.stand.result import RodForce

LEFT, RIGHT, TOP, HIGH = 72.0, 118.0, 30.0, 220.0
At = Callable[[float, float], Point]
Curve = tuple[str, float, str | None, Callable[[RodForce], float]]
CURVES: tuple[Curve, ...] = (
    ("wind, pull", 1.5, "8 4", lambda one: one.wind_pull_n),
    ("wind, push", 1.5, "8 4", lambda one: one.wind_push_n),
    ("snow, pull", 1.5, "2 4", lambda one: one.snow_pull_n),
    ("snow, push", 1.5, "2 4", lambda one: one.snow_push_n),
    ("friction", 1.0, "10 3 2 3", lambda one: one.friction_n),
    ("weight", 2.5, None, lambda one: one.dead_n),
)


def rod_force_chart(
    forces: Sequence[RodForce], style: Style, ink: Ink, width: float = 760.0, size: float = 13.0
) -> str:
    """Forces over tilt, the words at the right ends of the lines.

    Args:
        forces: Of the answer, flattest first; at least two.
        style: Pounds or newtons.
        ink: Of the medium.
        width: Of the picture [px]; no less than 480.
        size: Of the letters [px].
    """
    unit = "lbf" if style == "feet" else "N"
    values = [in_unit(curve[3](one), unit) for curve in CURVES for one in forces]
    step = nice_step(max(max(values) - min(values), 1.0), 5)
    low, high = step * -ceil(-min(values) / step), step * ceil(max(values) / step)
    tilts = [one.tilt_deg for one in forces]

    def at(tilt: float, value: float) -> Point:
        x = LEFT + (tilt - tilts[0]) / max(tilts[-1] - tilts[0], 1.0) * (width - LEFT - RIGHT)
        return x, TOP + (high - value) / (high - low) * HIGH

    body = [
        *_axes(at, tilts, low, high, step, unit, ink, width, size),
        *_curves(at, forces, unit, ink, width, size),
    ]
    words = "; ".join(
        f"{one.tilt_deg:.0f} degrees: weight {in_style(one.dead_n, 'N', style)}, wind {in_style(one.wind_push_n, 'N', style)} to {in_style(one.wind_pull_n, 'N', style)}, "
        f"snow {in_style(one.snow_push_n, 'N', style)} to {in_style(one.snow_pull_n, 'N', style)}, friction {in_style(one.friction_n, 'N', style)}"
        for one in forces
    )
    return drawing(width, TOP + HIGH + 34.0, "", body, "Force along the rod, plus pulls it out", words)  # fmt: skip


def _axes(
    at: At, tilts: Sequence[float], low: float, high: float, step: float, unit: str, ink: Ink, width: float, size: float
) -> Iterator[str]:  # fmt: skip
    yield text((2.0, 14.0), f"along the rod, {unit}; + pulls it out, {MINUS} pushes it in", ink.pencil, ink.face, size)  # fmt: skip
    value = low
    while value <= high + 1e-9:
        _, y = at(tilts[0], value)
        yield line((LEFT, y), (width - RIGHT, y), ink.ink if abs(value) < 1e-9 else ink.ghost, 1.5 if abs(value) < 1e-9 else 0.6)  # fmt: skip
        yield text((LEFT - 8.0, y + 4.5), number(value), ink.pencil, ink.face, size, "end")
        value += step
    for tilt in range(0, 91, 15):
        if tilts[0] <= tilt <= tilts[-1]:
            x, y = at(float(tilt), low)
            yield line((x, y), (x, y + 5.0), ink.ink, 1.0)
            yield text((x, y + 20.0), f"{tilt}°", ink.pencil, ink.face, size, "middle")


def _curves(
    at: At, forces: Sequence[RodForce], unit: str, ink: Ink, width: float, size: float
) -> Iterator[str]:
    ends = []
    for name, weight, dash, value_of in CURVES:
        points = [at(one.tilt_deg, in_unit(value_of(one), unit)) for one in forces]
        yield polyline(points, ink.ink, weight, dash)
        ends.append((points[-1][1] + 4.5, name))
    at_y = {name: y for y, name in ends}
    for y, name in spread_out(ends, size * 1.3, TOP + HIGH):
        yield line((width - RIGHT + 2.0, at_y[name] - 4.5), (width - RIGHT + 18.0, y - 4.5), ink.pencil, 0.8)  # fmt: skip
        yield text((width - RIGHT + 22.0, y), name, ink.ink, ink.face, size)


def spread_out(
    ends: Sequence[tuple[float, str]], room: float, lowest: float
) -> list[tuple[float, str]]:
    """Words at the ends of lines, moved apart so that none lies on another.

    Example:
        >>> spread_out([(10.0, "a"), (12.0, "b"), (99.0, "c")], 16.0, 100.0)
        [(10.0, 'a'), (26.0, 'b'), (99.0, 'c')]
    """
    rail = sorted(ends)
    places = [y for y, _ in rail]
    for nth in range(1, len(rail)):
        places[nth] = max(places[nth], places[nth - 1] + room)
    places[-1] = min(places[-1], lowest)
    for nth in reversed(range(len(rail) - 1)):
        places[nth] = min(places[nth], places[nth + 1] - room)
    return [(y, name) for y, (_, name) in zip(places, rail, strict=True)]
