"""Two rails of words with leaders, no two on one another; keys in rings where there is no room for words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from html import escape
from math import radians

from polestead.sheets.axes import spread
from polestead.sheets.scene.field import HEAVY, Field, smooth, stroke, words_at
from polestead.sheets.scene.said import Number
from polestead.sheets.svg import Point, line, tag

LEFT_X = 14.0
KEY_PX, KEY_GAP = 11.0, 27.0


def said(field: Field, tilt_deg: float, told: Sequence[Number]) -> Iterator[str]:
    """Every number in its place."""
    if field.size.keyed:
        yield from _keys(field, told)
        yield from tilt_figure(field, tilt_deg)
        return
    yield from _on_rail(field, [one for one in told if one.side == "right"], 14.0, field.ground_y - 4.0, False)  # fmt: skip
    yield from _on_rail(field, [one for one in told if one.side == "left"], field.ground_y + 16.0, field.size.height - 30.0, True)  # fmt: skip
    for one in told:
        if one.side == "edge":
            yield from _at_edge(field, one)
        if one.side == "sun":
            yield from _at_sun(field, one)
    yield from tilt_figure(field, tilt_deg)


def _high(field: Field, one: Number) -> float:
    size = field.size.letters
    return one.lines * size * 1.26 + size * 0.8


def _on_rail(field: Field, told: list[Number], top: float, bottom: float, left: bool) -> Iterator[str]:  # fmt: skip
    size = field.size.letters
    told = sorted(told, key=lambda one: one.at[1])
    while told and sum(_high(field, one) for one in told) > bottom - top:
        told = told[:-1]
    wanted = [one.at[1] - size for one in told]
    tops = spread(wanted, [_high(field, one) for one in told], top, bottom)
    x = LEFT_X if left else field.rail
    for one, y in zip(told, tops, strict=True):
        middle = y + size * 0.72
        start = x + _wide(field, one.head[0], True) + 5.0 if left else x - 6.0
        elbow = start + 14.0 if left else x - 30.0
        yield leader(field, [(start, middle), (elbow, middle), one.at], one.colour == "rust")
        yield link(field, one, (x, y + size))


def leader(field: Field, points: Sequence[Point], rust: bool) -> str:
    """A line to the thing, with a gap of paper where it passes others, a dot at its end."""
    d, (x, y) = smooth(points), points[-1]
    colour = field.ink.rust if rust else field.ink.pencil
    return stroke(d, field.ink.paper, 5.0) + stroke(d, colour, 1.0) + tag("circle", cx=x, cy=y, r=2.0, fill=colour)  # fmt: skip


def link(field: Field, one: Number, at: Point, anchor: str = "start") -> str:
    """The words of a number; pressed, they open its working."""
    size, (x, y) = field.size.letters, at
    colour = {"rust": field.ink.rust, "ochre": field.ink.ochre}.get(one.colour, field.ink.ink)
    rows = [words_at(field, (x, y + n * size * 1.26), words, colour, anchor, True) for n, words in enumerate(one.head)]  # fmt: skip
    below = y + len(one.head) * size * 1.26
    rows += [words_at(field, (x, below + n * size * 1.26), words, field.ink.pencil, anchor) for n, words in enumerate(one.beside)]  # fmt: skip
    return tag("a", "".join(rows), href=f"/working/{one.key}", data_w=one.key, class_="number", aria_label=f"{one.words}: how it was found")  # fmt: skip


def _wide(field: Field, words: str, heavy: bool = False) -> float:
    return len(words) * field.size.letters * field.ink.letter * (HEAVY if heavy else 1.0)


def _at_edge(field: Field, one: Number) -> Iterator[str]:
    """A dimension line from the ground to the lowest edge."""
    (x, y), ink, size = one.at, field.ink, field.size.letters
    foot = field.ground_y
    for d in (f"M{x:.1f} {y:.1f}V{foot:.1f}", f"M{x - 10.0:.1f} {y:.1f}H{x + 4.0:.1f}"):
        yield stroke(d, ink.paper, 4.0) + stroke(d, ink.pencil, 1.0)
    for end in (y, foot):
        yield line((x - 3.5, end + 3.5), (x + 3.5, end - 3.5), ink.ink, 1.5)
    high = size * 2.26
    under_figure = field.hinge[1] + 50.0
    top = min(max((y + foot) / 2.0 - high / 2.0, under_figure), foot - 10.0 - high)
    yield link(field, one, (x - 9.0, top + size), "end")


def _at_sun(field: Field, one: Number) -> Iterator[str]:
    """Beside the disc, on the side away from the pole where it stands high."""
    (x, y), size = one.at, field.size.letters
    wide = max(_wide(field, words, nth < len(one.head)) for nth, words in enumerate((*one.head, *one.beside)))  # fmt: skip
    high = x > 0.55 * field.hinge[0] and x - 21.0 - wide > 6.0
    top = max(y - size * 0.1, size * 1.6)
    yield link(field, one, (x - 21.0, top) if high else (x + 21.0, top), "end" if high else "start")


def tilt_figure(field: Field, tilt_deg: float) -> Iterator[str]:
    """The tilt, large, with its angle drawn."""
    g, ink = field.answer.geometry, field.ink
    far, (hx, hy) = g.lower_m * field.scale + 12.0, field.hinge
    x, y = field.on_array(tilt_deg, -far / field.scale, 0.0)
    d = f"M{hx - far:.1f} {hy:.1f}A{far:.1f} {far:.1f} 0 0 0 {x:.1f} {y:.1f}"
    yield stroke(f"M{hx - far - 8.0:.1f} {hy:.1f}H{hx - 12.0:.1f}", ink.edge, 1.0)
    yield stroke(d, ink.edge, 1.0)
    if field.size.keyed:  # the keys beneath say it
        return
    yield from _degrees(field, tilt_deg)
    yield tag("text", escape(f"{tilt_deg:.0f}°"), x=hx - far - 12.0, y=hy + 40.0, fill=ink.ink, font_family="var(--say)", font_size=35.0, font_weight="600", text_anchor="end", class_="tilt", stroke=ink.paper, stroke_width=4.0, paint_order="stroke")  # fmt: skip


def _degrees(field: Field, tilt_deg: float) -> Iterator[str]:
    """Figures of the arc, but for those the ring covers."""
    g = field.answer.geometry
    step = 30 if (field.radius - 20.0) * radians(15.0) < 24.0 else 15
    for figure in range(-90, 91, step):
        if g.least_tilt_deg - 0.5 <= figure <= g.steepest_tilt_deg + 0.5 and abs(figure - tilt_deg) > 8.0:  # fmt: skip
            x, y = field.on_arc(figure, -20.0)
            yield words_at(field, (x, y + 4.5), f"{figure}", field.ink.pencil, "middle", size=min(field.size.letters, 14.0))  # fmt: skip


def _keys(field: Field, told: Sequence[Number]) -> Iterator[str]:
    """Ringed numbers at both edges; the words stand beneath the drawing."""
    numbered = list(enumerate(told, start=1))
    for left in (True, False):
        rail = sorted((one for one in numbered if (one[1].side != "right") is left), key=lambda one: one[1].at[1])  # fmt: skip
        tops = spread([one.at[1] - KEY_PX for _, one in rail], [KEY_GAP] * len(rail), 6.0, field.size.height - 28.0)  # fmt: skip
        x = KEY_PX + 8.0 if left else field.size.width - KEY_PX - 8.0
        for (nth, one), top in zip(rail, tops, strict=True):
            y, off = top + KEY_PX, KEY_PX if left else -KEY_PX
            ring = tag("circle", cx=x, cy=y, r=KEY_PX, fill=field.ink.paper, stroke=field.ink.rust if one.colour == "rust" else field.ink.ink, stroke_width=1.5)  # fmt: skip
            figure = tag("text", str(nth), x=x, y=y + 4.7, fill=field.ink.ink, font_family=field.ink.face, font_size=13.0, text_anchor="middle", font_weight="600")  # fmt: skip
            yield leader(field, [(x + off, y), one.at], one.colour == "rust")
            yield tag("a", ring + figure, href=f"/working/{one.key}", data_w=one.key, class_="number", aria_label=f"{nth}: {one.words}")  # fmt: skip
