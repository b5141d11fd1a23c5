"""The rod gauge as paper at 1:1: strips to cut out, bars that prove the print, the tape table, lines for the proof."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from string import ascii_uppercase

from polestead.base.show import Style, number, rod_words
from polestead.mount.gauge import Gauge, Mark, TapeLine
from polestead.sheets.leaf import CARD_MM, MM_PER_PT, PAPERS, Leaf, Paper, bank_card, leaf, say_pt
from polestead.sheets.svg import PAPER, hatch, line, polygon, tag

STRIP_MM, GAP_MM, MARGIN_MM = 34.0, 6.0, 12.0
TOP_MM, FOOT_MM = 27.0, 14.0
OVERLAP_MM = 10.0
UNDER_ZERO_MM = 9.0  # of strip under the zero line, for its words
TICK_MM = {1: 4.0, 5: 9.0, 10: 14.0}
BESIDE_STANCE_MM = 6.0  # no figure nearer to a stance's line
LOZENGES_MM = (25.4, 31.8)  # from the strip's left edge
COLUMN_MM = 96.0  # where the words of the first page begin
FIRST_STRIPS = 2


@dataclass(frozen=True, slots=True)
class Strip:
    """A piece of the gauge on paper: rod from ``start_mm`` on, its lower left corner, its height."""

    letter: str
    start_mm: float
    x_mm: float
    bottom_mm: float
    height_mm: float
    first: bool
    last: bool

    def y_mm(self, rod_m: float) -> float:
        """Where so much rod lies on the page."""
        return self.bottom_mm - (rod_m * 1000.0 - self.start_mm)

    def holds(self, rod_m: float) -> bool:
        """Whether so much rod lies on this strip."""
        return -0.001 <= rod_m * 1000.0 - self.start_mm <= self.height_mm + 0.001


def gauge_leaves(
    gauge: Gauge, name: str, fingerprint: str, paper: Paper, on: date | None, style: Style
) -> tuple[Leaf, ...]:
    """Every page of the gauge; its two proving bars are of 150 mm and of 6 in whatever the style: the owner has one rule or the other.

    Args:
        gauge: From ``mount.gauge``.
        name: Of the homestead.
        fingerprint: Of its file.
        paper: Letter or A4.
        on: Day it is printed; None leaves a blank.
        style: Whose units.
    """
    foot = f"{'printed ____________' if on is None else f'{on.day} {on:%b %Y}'} · homestead {fingerprint} · void if the pins move"
    pages = _pages(gauge, paper)
    made = []
    for nth, strips in enumerate(pages):
        body = [part for strip in strips for part in _strip(gauge, strip)]
        body += (
            _beside(gauge, name, paper, foot, style)
            if nth == 0
            else _bars(paper, nth, name, foot, style)
        )
        words = _words(gauge, name, style) if nth == 0 else f"Rod gauge of {name}, page {nth + 1}"
        made.append(leaf(paper, hatch("little", PAPER.pencil, 1.6, 45.0), body, f"Rod gauge, page {nth + 1}", words))  # fmt: skip
    return tuple(made)


def _words(gauge: Gauge, name: str, style: Style) -> str:
    proof = f"proved on {gauge.pairs} measured pairs" if gauge.proved else "unproved"
    told = "; ".join(f"{row.tilt_deg:.0f} degrees: {rod_words(row.rod_m, style, gauge.proved)}" for row in gauge.table)  # fmt: skip
    return f"Rod gauge of {name}, {proof}. Rod that shows at each tilt: {told}."


def _pages(gauge: Gauge, paper: Paper) -> list[list[Strip]]:
    """The strips, page by page: two beside the words, then as many as the sheet is wide."""
    size = PAPERS[paper]
    height = size.height_mm - TOP_MM - FOOT_MM
    across = int((size.width_mm - 2 * MARGIN_MM - 14.0 + GAP_MM) // (STRIP_MM + GAP_MM))
    longest = gauge.longest_m * 1000.0 + 6.0
    strips: list[list[Strip]] = [[]]
    start, nth = -UNDER_ZERO_MM, 0
    while True:
        if len(strips[-1]) == (FIRST_STRIPS if len(strips) == 1 else across):
            strips.append([])
        here = min(height, longest - start)
        last = start + here >= longest - 1e-9
        x = MARGIN_MM + len(strips[-1]) * (STRIP_MM + GAP_MM)
        strips[-1].append(Strip(ascii_uppercase[nth], start, x, TOP_MM + height, here, nth == 0, last))  # fmt: skip
        if last:
            return strips
        start, nth = start + here - OVERLAP_MM, nth + 1


def _strip(gauge: Gauge, strip: Strip) -> Iterator[str]:
    x, right, top = strip.x_mm, strip.x_mm + STRIP_MM, strip.bottom_mm - strip.height_mm
    yield polygon([(x, top), (right, top), (right, strip.bottom_mm), (x, strip.bottom_mm)], "none", PAPER.ink, 0.35)  # fmt: skip
    yield say_pt(
        (x, top - 2.0), strip.letter + (": cut out on the frame" if strip.first else ""), 9
    )
    yield from _joints(strip, top)
    if strip.first:
        zero = strip.y_mm(0.0)
        yield line((x, zero), (right, zero), PAPER.ink, 0.5)
        yield polygon([(x - 3.2, zero - 1.4), (x - 3.2, zero + 1.4), (x, zero)], PAPER.ink)
        yield say_pt((x + 1.5, zero + 5.0), "0: face of gland nut", 8.5)
    for span in gauge.tells_little:
        yield from _little(gauge, strip, span)
    named = [one for one in (*gauge.stances, *gauge.stops) if strip.holds(one.rod_m)]
    for mark in gauge.degrees:
        if strip.holds(mark.rod_m) and _inside(strip, mark, top):
            yield from _tick(strip, mark, named)
    for mark in gauge.stops:
        if strip.holds(mark.rod_m):
            y = strip.y_mm(mark.rod_m)
            yield polygon(
                [(x, y - 0.8), (right, y - 0.8), (right, y + 0.8), (x, y + 0.8)], PAPER.ink
            )
            above = mark.tilt_deg == gauge.stops[1].tilt_deg
            yield say_pt((x + 1.5, y - 2.0 if above else y + 4.4), f"stop {mark.tilt_deg:g}°", 8.5)
    for mark in gauge.stances:
        if strip.holds(mark.rod_m):
            yield from _stance(strip, mark, gauge.stops)
    for mark in gauge.holes:
        if strip.holds(mark.rod_m):
            yield from _hole(strip, mark)


def _inside(strip: Strip, mark: Mark, top: float) -> bool:
    """Ticks stay off the frame's own corners by a hair."""
    return top + 0.2 < strip.y_mm(mark.rod_m) < strip.bottom_mm - 0.2


def _joints(strip: Strip, top: float) -> Iterator[str]:
    """Dashed edges and two lozenges where strips are laid over one another."""
    x, right = strip.x_mm, strip.x_mm + STRIP_MM
    nth = ascii_uppercase.index(strip.letter)
    for at, here, lower in ((strip.bottom_mm - OVERLAP_MM, not strip.first, nth - 1), (top + OVERLAP_MM, not strip.last, nth)):  # fmt: skip
        if not here:
            continue
        yield line((x, at), (right, at), PAPER.pencil, 0.25, "2.4 1.2")
        middle = at + (OVERLAP_MM / 2 if at > top + OVERLAP_MM + 0.1 else -OVERLAP_MM / 2)
        for centre in LOZENGES_MM:  # right of the longest tick's figure
            high = middle + 1.7
            yield polygon([(x + centre, high - 2.4), (x + centre + 1.6, high), (x + centre, high + 2.4), (x + centre - 1.6, high)], "none", PAPER.ink, 0.3)  # fmt: skip
        yield say_pt((right - 0.6, middle - 1.9), f"{ascii_uppercase[lower + 1]} over {ascii_uppercase[lower]}", 7, "end")  # fmt: skip


def _tick(strip: Strip, mark: Mark, named: list[Mark]) -> Iterator[str]:
    y = strip.y_mm(mark.rod_m)
    step = 10 if mark.tilt_deg % 10 == 0 else 5 if mark.tilt_deg % 5 == 0 else 1
    near = min((abs(strip.y_mm(one.rod_m) - y) for one in named), default=99.0)
    if near < 0.6:
        return  # the stance's own line stands here
    long = TICK_MM[step] if near > BESIDE_STANCE_MM else TICK_MM[1]
    yield line((strip.x_mm, y), (strip.x_mm + long, y), PAPER.ink, 0.5 if step == 10 else 0.25)
    if step == 1 or near <= BESIDE_STANCE_MM:
        return
    size, weight = (14, "bold") if step == 10 else (10, None)
    high, wide = size * MM_PER_PT * 0.46, size * MM_PER_PT * 1.55
    left = strip.x_mm + long + 0.4
    yield polygon(
        [(left, y - high), (left + wide, y - high), (left + wide, y + high), (left, y + high)],
        PAPER.paper,
    )  # no joint runs through a figure
    words = f"{mark.tilt_deg:.0f}{'°' if step == 10 else ''}"
    yield say_pt((strip.x_mm + long + 1.0, y + size * MM_PER_PT * 0.34), words, size, weight=weight)


def _stance(strip: Strip, mark: Mark, stops: tuple[Mark, Mark]) -> Iterator[str]:
    """A double line with its words; at a stop, inside the travel, they stand clear of it."""
    y = strip.y_mm(mark.rod_m)
    x = strip.x_mm
    if min(abs(mark.rod_m - stop.rod_m) for stop in stops) * 1000.0 < 8.0:
        up = -1.0 if abs(mark.rod_m - stops[0].rod_m) < abs(mark.rod_m - stops[1].rod_m) else 1.0
        yield say_pt((x + 1.5, y + (up * 5.0 if up > 0 else up * 3.0)), f"{mark.words} {mark.tilt_deg:.0f}°", 9.5, weight="bold")  # fmt: skip
        return
    for off in (-0.6, 0.6):
        yield line((x, y + off), (x + STRIP_MM, y + off), PAPER.ink, 0.3)
    yield say_pt((x + 5.0, y - 1.8), mark.words, 10, weight="bold")
    yield say_pt((x + 5.0, y + 4.4), f"{mark.tilt_deg:.0f}°", 9)


def _hole(strip: Strip, mark: Mark) -> Iterator[str]:
    y, x = strip.y_mm(mark.rod_m), strip.x_mm + 28.5
    yield tag("circle", cx=x, cy=y, r=2.6, fill="none", stroke=PAPER.ink, stroke_width=0.45)
    for dx, dy in ((3.4, 0.0), (0.0, 3.4)):
        yield line((x - dx, y - dy), (x + dx, y + dy), PAPER.ink, 0.2)
    yield say_pt((x, y - 4.2), mark.words, 9, "middle", "bold")


def _little(gauge: Gauge, strip: Strip, span: tuple[float, float]) -> Iterator[str]:
    ends = [one.rod_m for one in gauge.degrees if span[0] <= one.tilt_deg <= span[1]]
    low, high = min(ends), max(ends)
    if not (strip.holds(low) and strip.holds(high)):
        return
    x, top, bottom = strip.x_mm, strip.y_mm(high) - 1.0, strip.y_mm(low) + 1.0
    corners = [(x, top), (x + STRIP_MM, top), (x + STRIP_MM, bottom), (x, bottom)]
    yield polygon(corners, "url(#little)")
    yield polygon(corners, "none", PAPER.pencil, 0.25)
    yield say_pt((x + STRIP_MM / 2, bottom + 3.4), f"{span[0]:.0f} to {span[1]:.0f}°: use the level", 7.5, "middle")  # fmt: skip


def _beside(gauge: Gauge, name: str, paper: Paper, foot: str, style: Style) -> list[str]:
    """The first page's words, proof of the print, table and lines for the proof on the pole."""
    size = PAPERS[paper]
    parts = [
        say_pt((COLUMN_MM, 20.0), "Rod gauge", 25, weight="bold"),
        say_pt((COLUMN_MM, 26.0), name, 11),
        say_pt((COLUMN_MM, 30.5), "Zero at the gland nut's face; read at the shoulder of the rod's clevis.", 8),
        *_stamp(gauge, size.width_mm - MARGIN_MM),
        *bank_card((COLUMN_MM, 36.0), (
            "Lay a bank card here.", "It must fit exactly, edge to edge.", "If not: print again at 100 %,", "nothing fitted to the page.",
            "3 3/8 by 2 1/8 in, nearly" if style == "feet" else "85.6 by 54.0 mm",
        )),
        *_proof_bars(size.width_mm - 25.0, 36.0),
    ]  # fmt: skip
    table_top = 36.0 + CARD_MM[1] + 8.0
    parts += _table(gauge, COLUMN_MM, table_top, style)
    below = table_top + 6.0 + 5.0 * len(gauge.table) + 9.0
    parts += _proof(COLUMN_MM, below, style)
    parts += _foot(size.height_mm, size.width_mm, foot, style)
    return parts


def _stamp(gauge: Gauge, right_mm: float) -> list[str]:
    top, sub = ("PROVED", f"on {gauge.pairs} measured pairs") if gauge.proved else ("UNPROVED", "until two pairs are measured")  # fmt: skip
    left, wide, y = right_mm - 46.0, 46.0, 9.0
    turned = f"rotate(-5 {left + wide / 2} {y + 7})"
    inside = (
        polygon([(left, y), (left + wide, y), (left + wide, y + 14.0), (left, y + 14.0)], "none", PAPER.ink, 0.7)
        + say_pt((left + wide / 2, y + 7.4), top, 15, "middle", "bold")
        + say_pt((left + wide / 2, y + 11.8), sub, 7.5, "middle")
    )  # fmt: skip
    return [tag("g", inside, transform=turned)]


def _proof_bars(x: float, y: float) -> list[str]:
    """A bar of 150 mm and one of 6 in, along the strips: paper may be stretched one way only."""
    parts = []
    for nth, (long, words) in enumerate(((150.0, "150 mm"), (152.4, "6 in"))):
        at = x + nth * 10.0
        parts += [
            line((at, y), (at, y + long), PAPER.ink, 0.5),
            line((at - 2.2, y), (at + 2.2, y), PAPER.ink, 0.3),
            line((at - 2.2, y + long), (at + 2.2, y + long), PAPER.ink, 0.3),
            say_pt((at, y - 1.6), words, 8, "middle", "bold"),
        ]
        step = 10.0 if nth == 0 else 12.7
        parts += [line((at, y + step * k), (at + 1.2, y + step * k), PAPER.ink, 0.2) for k in range(1, int(long / step))]  # fmt: skip
    parts.append(say_pt((x + 12.5, y + 156.8), "measure both", 7.5, "end"))
    return parts


def _table(gauge: Gauge, x: float, y: float, style: Style) -> list[str]:
    right = x + CARD_MM[0]
    timed = gauge.table[-1].to_s is not None
    stops = (x + 13.0, x + 44.0, right)
    heads = ("tilt", "rod out", "hold the out key" if timed else "seconds: once proved")
    parts = [line((x, y), (right, y), PAPER.ink, 0.5)]
    parts += [
        say_pt((at, y + 4.2), word, 8.5, "end") for at, word in zip(stops, heads, strict=True)
    ]
    parts.append(line((x, y + 5.8), (right, y + 5.8), PAPER.ink, 0.2))
    named = {round(one.tilt_deg, 6): one.words for one in gauge.stances}
    for nth, row in enumerate(gauge.table):
        base = y + 9.6 + 5.0 * nth
        strong = "bold" if round(row.tilt_deg, 6) in named else None
        if strong:
            parts.append(line((x + 0.5, base - 3.6), (x + 0.5, base + 1.0), PAPER.ink, 0.9))
        cells = (f"{row.tilt_deg:g}°", rod_words(row.rod_m, style, gauge.proved), _seconds(row, nth))  # fmt: skip
        parts += [say_pt((at, base), cell, 9.5, "end", strong) for at, cell in zip(stops, cells, strict=True)]  # fmt: skip
        parts.append(line((x, base + 1.5), (right, base + 1.5), PAPER.ghost, 0.15))
    return parts


def _seconds(row: TapeLine, nth: int) -> str:
    if row.from_s is None or row.to_s is None:
        return ""
    return "from here" if nth == 0 else f"{number(row.from_s)} to {number(row.to_s)} s"


def _proof(x: float, y: float, style: Style) -> list[str]:
    parts = [say_pt((x, y), "Proof, on the pole", 14, weight="bold")]
    for nth in range(3):
        base = y + 8.0 + 7.5 * nth
        parts += [
            say_pt((x, base), "at rod", 9.5),
            line((x + 12.0, base + 0.6), (x + 36.0, base + 0.6), PAPER.ink, 0.2),
            say_pt((x + 38.5, base), "the level says", 9.5),
            line((x + 62.0, base + 0.6), (x + 82.0, base + 0.6), PAPER.ink, 0.2),
            say_pt((x + 83.0, base), "°", 9.5),
        ]
    told = (
        "Proved when two pairs, 20° apart or more, lie on the strip",
        f"within {'5/32 in' if style == 'feet' else '4 mm'}. Write them into the file, under drive, measured.",
    )
    return [*parts, *(say_pt((x, y + 29.0 + 3.6 * nth), one, 8) for nth, one in enumerate(told))]


def _bars(paper: Paper, nth: int, name: str, foot: str, style: Style) -> list[str]:
    size = PAPERS[paper]
    return [
        say_pt((MARGIN_MM, 16.0), f"Rod gauge, page {nth + 1}", 16, weight="bold"),
        say_pt((MARGIN_MM, 21.0), name, 10),
        *_proof_bars(size.width_mm - 22.0, 36.0),
        *_foot(size.height_mm, size.width_mm, foot, style),
    ]


def _foot(height: float, width: float, foot: str, style: Style) -> list[str]:
    y = height - 9.0
    bar = "in in 6 in" if style == "feet" else "mm in 150 mm"
    return [
        line((MARGIN_MM, y - 3.2), (width - MARGIN_MM, y - 3.2), PAPER.ink, 0.2),
        say_pt((MARGIN_MM, y), f"worst print error seen ______ {bar} · {foot}", 8),
    ]
