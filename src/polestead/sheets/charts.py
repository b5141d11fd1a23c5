"""Charts drawn as the drawings are: the gust card as a curve over bare paper, hatched where it may not be left."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from math import ceil

from polestead.base.quantity import in_unit
from polestead.base.show import Style, gust
from polestead.sheets.svg import Ink, Point, drawing, hatch, line, polygon, polyline, tag, text
from polestead.stand.result import StandResult, TiltStand

LEFT, RIGHT, TOP, BOTTOM = 46.0, 146.0, 22.0, 66.0
SIDE_TICK_PX, SIDE_EVERY_PX = 7.0, 12.0
SIDES = "Ticks under the curve: wind on the back decides; over it: wind on the glass."


def gust_card(
    stand: StandResult,
    style: Style,
    ink: Ink,
    width: float = 560.0,
    height: float = 290.0,
    size: float = 13.0,
) -> str:
    """Stands-to over tilt: locked, on the rod alone, being moved; above the curve it may not be left."""
    unit = "mph" if style == "feet" else "m/s"
    step = 20.0 if style == "feet" else 10.0
    card = stand.card
    right = width - RIGHT
    highest = max(in_unit(max(row.stands_to_m_s, stand.code_gust_m_s), unit) for row in card)
    most = step * (ceil(highest / step) + 0)
    least_t, most_t = card[0].tilt_deg, card[-1].tilt_deg

    def at(tilt: float, speed_m_s: float) -> Point:
        x = LEFT + (tilt - least_t) / max(most_t - least_t, 1.0) * (right - LEFT)
        return x, height - BOTTOM - in_unit(speed_m_s, unit) / most * (height - TOP - BOTTOM)

    body = [
        *_over(card, at, right, ink),
        *_axes(at, unit, step, most, least_t, most_t, height, right, ink, size),
        *_curves(stand, style, at, right, ink, size),
        *_strip(card, at, height, ink, size),
    ]
    defs = hatch("over", ink.ghost, 6.0, 45.0)
    words = "; ".join(
        f"{row.tilt_deg:.0f} degrees: {gust(row.stands_to_m_s, style)}, {row.gives_first}"
        for row in card
        if round(row.tilt_deg) % 15 == 0
    )
    return drawing(width, height, defs, body, "Gust card", words)


At = Callable[[float, float], Point]


def _over(card: Sequence[TiltStand], at: At, right: float, ink: Ink) -> Iterator[str]:
    curve = [at(row.tilt_deg, row.stands_to_m_s) for row in card]
    yield polygon([(LEFT, TOP), *curve, (right, TOP)], "url(#over)")
    yield text((right - 8.0, TOP + 16.0), "not at this tilt", ink.pencil, ink.face, 13.0, "end")


def _axes(
    at: At,
    unit: str,
    step: float,
    most: float,
    least_t: float,
    most_t: float,
    height: float,
    right: float,
    ink: Ink,
    size: float,
) -> Iterator[str]:
    base = height - BOTTOM
    yield line((LEFT, base), (right, base), ink.ink, 2.5)
    yield line((LEFT, TOP), (LEFT, base), ink.pencil, 1.0)
    yield text((LEFT, TOP - 8.0), f"gust, {unit}", ink.pencil, ink.face, size)
    speed = 0.0
    while speed <= most + 1e-9:
        y = base - speed / most * (base - TOP)
        yield line((LEFT - 5.0, y), (LEFT, y), ink.pencil, 1.0)
        yield text((LEFT - 8.0, y + 4.0), f"{speed:.0f}", ink.pencil, ink.face, size, "end")
        speed += step
    for tilt in range(0, 91, 15):
        if least_t <= tilt <= most_t:
            x, _ = at(float(tilt), 0.0)
            yield line((x, base), (x, base + 5.0), ink.ink, 1.0)
            yield text((x, base + 18.0), f"{tilt}°", ink.pencil, ink.face, size, "middle")


def _curves(
    stand: StandResult, style: Style, at: At, right: float, ink: Ink, size: float
) -> Iterator[str]:
    card, last = stand.card, stand.card[-1]
    code = stand.code_gust_m_s
    yield polyline(
        [at(card[0].tilt_deg, code), at(last.tilt_deg, code)], ink.pencil, 1.0, "10 3 2 3"
    )
    yield polyline([at(row.tilt_deg, row.stands_to_m_s) for row in card], ink.ink, 2.5)
    yield _sides(card, at, ink)
    ends = [
        (at(last.tilt_deg, last.stands_to_m_s)[1], "locked"),
        (at(last.tilt_deg, code)[1], f"code's wind {gust(code, style)}"),
    ]
    rod = [
        (row.tilt_deg, row.rod_stands_to_m_s) for row in card if row.rod_stands_to_m_s is not None
    ]
    if rod:
        yield polyline([at(tilt, speed) for tilt, speed in rod], ink.ink, 1.5, "8 4")
        ends.append((at(*rod[-1])[1], "on the rod alone"))
    moved = [(row.tilt_deg, row.move_under_m_s) for row in card if row.move_under_m_s is not None]
    if moved:
        yield polyline([at(tilt, speed) for tilt, speed in moved], ink.ink, 1.5, "2 4")
        ends.append((at(*moved[-1])[1], "being moved"))
    ends.sort()
    floor = 0.0
    for y, words in ends:
        floor = max(y + 4.0, floor + size * 1.3)
        yield text((right + 8.0, floor), words, ink.ink, ink.face, size)


def _sides(card: Sequence[TiltStand], at: At, ink: Ink) -> str:
    """Small ticks at the curve: below it where wind on the back decides, above it where wind on the glass does."""
    way, last = "", -SIDE_EVERY_PX
    for row in card:
        x, y = at(row.tilt_deg, row.stands_to_m_s)
        if x - last >= SIDE_EVERY_PX:
            last = x
            way += (
                f"M{x:.1f} {y:.1f}v{SIDE_TICK_PX if row.wind_side == 'back' else -SIDE_TICK_PX:g}"
            )
    return tag("path", d=way, fill="none", stroke=ink.ink, stroke_width=1.0)


def _strip(
    card: Sequence[TiltStand], at: At, height: float, ink: Ink, size: float
) -> Iterator[str]:
    """Under the axis: which part gives first, one piece for each span of tilt."""
    y, spans = height - 38.0, _spans(card)
    yield text((LEFT - 8.0, y + 15.0), "first", ink.pencil, ink.face, size, "end")
    for start, end, part in spans:
        x1, x2 = at(start, 0.0)[0], at(end, 0.0)[0]
        yield tag(
            "rect",
            x=x1,
            y=y,
            width=max(x2 - x1, 1.0),
            height=22.0,
            fill="none",
            stroke=ink.pencil,
            stroke_width=0.8,
        )
        if len(part) * size * ink.letter < x2 - x1 - 6.0:
            yield text(((x1 + x2) / 2.0, y + 15.5), part, ink.ink, ink.face, size, "middle")
    yield from _led_down([one for one in spans if _too_narrow(one, at, ink, size)], at, height, ink, size)  # fmt: skip


def _too_narrow(span: tuple[float, float, str], at: At, ink: Ink, size: float) -> bool:
    wide = at(span[1], 0.0)[0] - at(span[0], 0.0)[0]
    return len(span[2]) * size * ink.letter >= wide - 6.0


def _led_down(
    spans: Sequence[tuple[float, float, str]], at: At, height: float, ink: Ink, size: float
) -> Iterator[str]:
    """Parts whose span holds no word: a leader down to it, from the right, as far as they keep apart."""
    left = float("inf")
    for start, end, part in reversed(spans):
        x = (at(start, 0.0)[0] + at(end, 0.0)[0]) / 2.0
        right = min(max(x + 6.0, 4.0 + len(part) * size * ink.letter), left - size)
        if right < x - 2.0 and left != float("inf"):
            continue
        left = right - len(part) * size * ink.letter
        yield line((x, height - 16.0), (x, height - size * 1.05), ink.pencil, 0.8)
        yield text((right, height - size * 0.25), part, ink.ink, ink.face, size, "end")


def _spans(card: Sequence[TiltStand]) -> list[tuple[float, float, str]]:
    spans: list[tuple[float, float, str]] = []
    for row in card:
        if spans and spans[-1][2] == row.gives_first:
            spans[-1] = (spans[-1][0], row.tilt_deg, row.gives_first)
        else:
            start = spans[-1][1] if spans else row.tilt_deg
            spans.append((start, row.tilt_deg, row.gives_first))
    return spans
