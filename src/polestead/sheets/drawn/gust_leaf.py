"""The gust card to hang by the door: figures that read across a room, a ladder by eye, the plot and what it rests on."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date

from polestead.answer.drawables import Drawables
from polestead.base.quantity import in_unit
from polestead.base.show import Style, dimension, gust, gust_step
from polestead.sheets.charts import SIDES, gust_card
from polestead.sheets.gust_rows import BY_EYE, Row, eye_gust_m_s, eye_words, gust_factor, rows_of
from polestead.sheets.leaf import MM_PER_PT, PAPERS, Leaf, Paper, leaf, leaves_pdf, say_pt
from polestead.sheets.svg import PAPER, line, polygon, tag

MARGIN_MM = 11.0
FIGURE_PT, WORD_PT = 22.0, 14.0
MUST_BE_BUILT = (("mount", "hinge_height"), ("mount", "hinge_pin"), ("footing", "diameter"), ("footing", "depth"))  # fmt: skip
PLOT_MM = (180.0, 70.0)
PX_PER_MM = 96.0 / 25.4


def gust_rows(d: Drawables) -> list[Row]:
    """Rows of the table."""
    return rows_of(d.stand)


def as_built(d: Drawables) -> tuple[str, ...]:
    """Keys still to be measured on the finished thing; none left means as built."""
    built = {(row.section, row.key) for row in d.rows if row.standing == "built"}
    return tuple(f"{section}.{key}" for section, key in MUST_BE_BUILT if (section, key) not in built)  # fmt: skip


def gust_leaf_pdf(d: Drawables, style: Style, paper: Paper, on: date | None, warning: str = "") -> bytes:  # fmt: skip
    """The card as a PDF, a warning over it."""
    return leaves_pdf((gust_leaf(d, style, paper, on),), paper, f"{d.name}: gust card", warning)


def gust_leaf(d: Drawables, style: Style, paper: Paper, on: date | None) -> Leaf:
    """Two faces on one upright sheet.

    Args:
        d: What is drawn.
        style: Whose units.
        paper: Letter or A4.
        on: Day it is printed; None leaves a blank.
    """
    size = PAPERS[paper]
    half = size.height_mm / 2.0
    body = [
        *_table(d, style, size.width_mm, half),
        line((4.0, half), (size.width_mm - 4.0, half), PAPER.pencil, 0.25, "4 2"),
        say_pt((size.width_mm / 2.0, half - 1.4), "cut here and lay the two back to back", 9, "middle"),
        *_face(d, style, size.width_mm, half, on),
    ]  # fmt: skip
    unit = "mph" if style == "feet" else "m/s"
    words = "; ".join(f"{said}: stands to {gust(speed, style)}, first {first}" for said, speed, first, _ in gust_rows(d))  # fmt: skip
    return leaf(paper, "", body, f"{d.name}, gust card", f"Gusts in {unit}, rounded down. {words}.")


def _table(d: Drawables, style: Style, width: float, half: float) -> Iterator[str]:
    unit = "mph" if style == "feet" else "m/s"
    rows = gust_rows(d)
    yield say_pt((MARGIN_MM, 16.0), f"{d.name}: gusts, {unit}", 20, weight="bold")
    stops = (MARGIN_MM, MARGIN_MM + 67.0, MARGIN_MM + 71.0, MARGIN_MM + 134.0)
    head = 25.0
    for at, words, anchor in ((stops[0], "left at", "start"), (stops[1], "stands to", "end"), (stops[2], "gives first", "start"), (stops[3], "move only under", "end")):  # fmt: skip
        yield say_pt((at, head), words, 10, anchor)
    yield line((MARGIN_MM, head + 1.8), (stops[3], head + 1.8), PAPER.ink, 0.5)
    step = min(11.2, (half - head - 22.0) / len(rows))
    for nth, (said, speed, first, moved) in enumerate(rows):
        base = head + 9.6 + nth * step
        yield say_pt((stops[0], base), said, WORD_PT)
        yield say_pt((stops[1], base), f"{gust_step(speed, style):.0f}", FIGURE_PT, "end", "bold")
        fits = 40.0 / (PAPER.letter * MM_PER_PT * max(len(first), 1))
        yield say_pt((stops[2], base), first, min(WORD_PT, max(fits, 9.0)))
        if moved is not None:
            yield say_pt((stops[3], base), f"{gust_step(moved, style):.0f}", FIGURE_PT, "end")
        yield line((MARGIN_MM, base + 2.6), (stops[3], base + 2.6), PAPER.ghost, 0.2)
    last = head + 9.6 + len(rows) * step - 2.0
    told = ["Rounded down. A gust heard or forecast over the figure: lay it flat and lock it before it comes."]  # fmt: skip
    if d.given.lock is None:
        told.append("No lock in the file: nothing but the rod holds it.")
    for nth, words in enumerate(told):
        yield say_pt((MARGIN_MM, min(last + 4.4 * nth, half - 5.0)), words, 9.5)
    yield from _ladder(d, style, width - MARGIN_MM - 47.0, width - MARGIN_MM)


def _ladder(d: Drawables, style: Style, left: float, right: float) -> Iterator[str]:
    """By eye, from still to hard to walk, the strongest on top."""
    exposure = d.given.place.exposure
    yield say_pt((left, 25.0), "by eye: gusts up to", 10)
    yield line((left, 26.8), (right, 26.8), PAPER.ink, 0.5)
    for x in (left, left + 13.0):
        yield line((x, 28.5), (x, 98.0), PAPER.ink, 0.6)
    for nth, (words, force, mean) in enumerate(reversed(BY_EYE)):
        y = 36.0 + nth * 14.0
        yield line((left, y + 4.0), (left + 13.0, y + 4.0), PAPER.ink, 0.5)
        yield say_pt((left + 6.5, y + 2.0), eye_words(eye_gust_m_s(mean, exposure), style), 18, "middle", "bold")  # fmt: skip
        for row, part in enumerate(_two(words)):
            yield say_pt((left + 15.0, y - 2.6 + row * 4.3), part, 11.5)
        yield say_pt((left + 15.0, y + 5.8), f"force {force}", 9)
    told = (
        "Upper end of the force,",
        f"times {gust_factor(exposure):g}, rounded up. No",
        "thunderstorm is foretold so.",
    )
    for nth, words in enumerate(told):
        yield say_pt((left, 106.0 + 4.0 * nth), words, 9)


def _two(words: str) -> list[str]:
    from textwrap import wrap

    return wrap(words, 18)[:2]


def _face(d: Drawables, style: Style, width: float, half: float, on: date | None) -> Iterator[str]:
    place = d.given.place
    yield say_pt((MARGIN_MM, half + 14.0), f"{d.name}: what each tilt stands to", 16, weight="bold")
    yield from _stamp(d, width - MARGIN_MM, half + 5.0)
    wide, high = PLOT_MM
    plot = gust_card(d.stand, style, PAPER, wide * PX_PER_MM, high * PX_PER_MM, 12.5)
    yield re.sub(r' width="[\d.]+" height="[\d.]+" role="img"', f' x="{(width - wide) / 2.0:g}" y="{half + 19.0:g}" width="{wide:g}" height="{high:g}"', plot, count=1)  # fmt: skip

    def sure(section: str, key: str) -> str:
        return "~" if (section, key) in d.unsettled else ""

    wind = f"{sure('place', 'wind_speed')}{in_unit(place.wind_speed_m_s, 'mph'):.0f} mph" if style == "feet" else f"{sure('place', 'wind_speed')}{place.wind_speed_m_s:.1f} m/s"  # fmt: skip
    pins = ", ".join(
        f"{name} {dimension(across, style)} {steel}" for name, across, steel in _pins(d)
    )
    told = [
        f"Assumed: basic wind {wind}, exposure {sure('place', 'exposure')}{place.exposure}, soil {sure('place', 'soil')}{place.soil},",
        f"pole {d.given.mount.pole.written}; {pins}. Basis {d.basis}.",
        SIDES,
        "Void if the steel or the pins change. Screening sums, not a stamped design. ~ nobody has said yet that it is so.",
        f"{'printed ____________' if on is None else f'{on.day} {on:%b %Y}'} · homestead {d.fingerprint}",
    ]  # fmt: skip
    left = as_built(d)
    if left:
        told.append(f"As built once measured and written into the file: {', '.join(left)}.")
    for nth, words in enumerate(told):
        yield say_pt((MARGIN_MM, half + 19.0 + high + 6.5 + nth * 5.2), words, 10)


def _pins(d: Drawables) -> Iterator[tuple[str, float, str]]:
    """The pins the card is void without: what, how thick, of what steel."""
    mount, lock = d.given.mount, d.given.lock
    yield "hinge pins", mount.hinge_pin_m, mount.hinge_pin_steel
    if lock is not None:
        yield "storm hold's pins", lock.pin_diameter_m, lock.pin_steel


def _stamp(d: Drawables, right: float, top: float) -> list[str]:
    words = "UNPROVED" if as_built(d) else "AS BUILT"
    wide = 42.0
    inside = polygon([(right - wide, top), (right, top), (right, top + 11.0), (right - wide, top + 11.0)], "none", PAPER.ink, 0.7) + say_pt((right - wide / 2.0, top + 7.6), words, 15, "middle", "bold")  # fmt: skip
    return [tag("g", inside, transform=f"rotate(-3 {right - wide / 2.0:g} {top + 5.5:g})")]
