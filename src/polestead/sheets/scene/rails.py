"""Two rails of words with leaders, no two on one another; keys in rings where there is no room for words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from html import escape
from math import hypot, radians

from polestead.base.show import dimension, gust_asked
from polestead.sheets.axes import spread
from polestead.sheets.clear import Clear, box_of
from polestead.sheets.scene import still
from polestead.sheets.scene.field import (
    HEAVY,
    Field,
    drawn_limit_m,
    smooth,
    stroke,
    views_places,
    words_at,
)
from polestead.sheets.scene.said import Number
from polestead.sheets.scene.strokes import clear_at
from polestead.sheets.scene.weakest import clash
from polestead.sheets.svg import Point, letters_of, line, tag

LEFT_X = 14.0
KEY_PX, KEY_GAP = 11.0, 27.0
LEADING, BIG_PX, NEAR_PX = 1.26, 35.0, 46.0


def _beside_sun(away: bool) -> list[tuple[float, float, str]]:
    """Steps from the disc to where its words may begin or end, the nearest first; a little is given for the side that is wanted."""
    found = [(side * (21.0 + out), float(down), "start" if side > 0.0 else "end") for side in (1.0, -1.0) for out in range(0, 190, 12) for down in range(-190, 210, 10)]  # fmt: skip
    return sorted(found, key=lambda one: (abs(one[0]) - 21.0) ** 2 + one[1] ** 2 + (150.0 if (one[2] == "end") is not away else 0.0))  # fmt: skip


BESIDE_EDGE = sorted(((4.0 * out, 6.0 * n) for out in range(0, 41, 4) for n in range(-30, 31)), key=lambda one: (2.0 * one[0]) ** 2 + one[1] ** 2)  # fmt: skip
BESIDE_SUN = {away: _beside_sun(away) for away in (False, True)}


def said(field: Field, tilt_deg: float, told: Sequence[Number], noon_deg: float) -> Iterator[str]:
    """Every number and every word of the drawing in its place, clear of strokes and of one another."""
    if field.size.keyed:
        yield from _keys(field, told)
        yield from tilt_bow(field, tilt_deg)
        return
    clear = clear_at(field, tilt_deg, noon_deg)
    for left, top, wide, high in views_places(field):
        clear.box((left + 6.0, top, left + wide - 6.0, top + high))
    for words, x, anchor in still.ways_words(field):
        clear.box(box_of((x, field.size.height - still.WAYS_UP_PX), _wide(field, words), 1, field.size.letters, 1.0, anchor))  # fmt: skip
    frost = still.frost_lines(field)
    right = [one for one in told if one.side == "right"]
    yield from _on_rail(field, clear, [*right, _code_wind(field)], (14.0, field.ground_y - 4.0), _limit_y(field))  # fmt: skip
    yield from _on_rail(field, clear, [one for one in told if one.side == "left"], (field.ground_y + 16.0, field.size.height - 30.0), frost[0][0][1] if frost else None)  # fmt: skip
    at_edge = next((one for one in told if one.side == "edge"), None)
    if at_edge is not None:
        yield from _edge_lines(field, clear, at_edge)
    yield from tilt_bow(field, tilt_deg)
    yield from _tilt_figure(field, clear, tilt_deg)
    for one in told:
        if one.side == "sun":
            yield from _at_sun(field, clear, one)
    if at_edge is not None:
        yield from _at_edge(field, clear, at_edge)
    yield from _still_words(field, clear)
    yield from _degrees(field, clear, tilt_deg)


def _limit_y(field: Field) -> float | None:
    """Where the height limit's line lies."""
    limit_m = drawn_limit_m(field.tilts)
    return None if limit_m is None else field.at(0.0, limit_m)[1]


def _code_wind(field: Field) -> Number:
    """The code's wind on the scale of the rim, led to the flat end of its line; it stands on the rail like a number."""
    code = field.answer.stand.code_gust_m_s
    at = field.on_arc(field.answer.geometry.least_tilt_deg, field.rim(code))
    return Number("", (), (f"code's wind {gust_asked(code, field.style)}",), at, "right", "pencil")


def _high(field: Field, one: Number) -> float:
    size = field.size.letters
    return one.lines * size * LEADING + size * 0.8


def _on_rail(field: Field, clear: Clear, told: list[Number], span: tuple[float, float], line_y: float | None) -> Iterator[str]:  # fmt: skip
    """Words one over the other, none on a level line that runs through the rail."""
    size, left = field.size.letters, bool(told) and told[0].side == "left"
    told = sorted(told, key=lambda one: one.at[1])
    while told and sum(_high(field, one) for one in told) > span[1] - span[0]:
        told = told[:-1]
    wanted, high = [one.at[1] - size for one in told], [_high(field, one) for one in told]
    x = LEFT_X if left else field.rail
    if left and line_y is not None:  # the line begins beside the words
        reach = max((_wide_of(field, one) for one in told), default=0.0)
        line_y = line_y if x + reach > still.frost_lines(field)[0][0][0] - 4.0 else None
    for one, y in zip(told, beside_line(wanted, high, span, line_y, size), strict=True):
        middle = y + size * 0.72
        first = (one.head or one.beside)[0]
        start = x + _wide(field, first, bool(one.head)) + 5.0 if left else x - 6.0
        elbow = start + 14.0 if left else x - 30.0
        points = [(start, middle), (elbow, middle), one.at]
        clear.stroke(points)
        clear.box(box_of((x, y + size), _wide_of(field, one), one.lines, size, LEADING))
        yield leader(field, points, one.colour == "rust")
        yield link(field, one, (x, y + size))


def beside_line(wanted: Sequence[float], high: Sequence[float], span: tuple[float, float], line_y: float | None, size: float) -> list[float]:  # fmt: skip
    """Tops of boxes on a rail that a level line may run through: some over it (the space under their last line may reach down to it), the rest under it, moved as little as may be.

    Example:
        >>> [round(top, 1) for top in beside_line([40.0, 45.0], [20.0, 20.0], (0.0, 200.0), 60.0, 13.0)]
        [25.2, 45.2]
    """
    if line_y is None:
        return spread(wanted, high, *span)
    found: list[tuple[float, list[float]]] = []
    for above in range(len(wanted) + 1):
        over, under = (span[0], line_y + size * 0.4), (line_y + 5.0, span[1])
        if sum(high[:above]) > over[1] - over[0] or sum(high[above:]) > under[1] - under[0]:
            continue
        tops = [*spread(wanted[:above], high[:above], *over), *spread(wanted[above:], high[above:], *under)]  # fmt: skip
        found.append((sum(abs(a - b) for a, b in zip(tops, wanted, strict=True)), tops))
    return min(found)[1] if found else spread(wanted, high, *span)


def leader(field: Field, points: Sequence[Point], rust: bool) -> str:
    """A line to the thing, with a gap of paper where it passes others, a dot at its end."""
    d, (x, y) = smooth(points), points[-1]
    colour = field.ink.rust if rust else field.ink.pencil
    return stroke(d, field.ink.paper, 5.0) + stroke(d, colour, 1.0) + tag("circle", cx=x, cy=y, r=2.0, fill=colour)  # fmt: skip


def link(field: Field, one: Number, at: Point, anchor: str = "start") -> str:
    """The words of a number; pressed, they open its working."""
    size, (x, y) = field.size.letters, at
    colour = {"rust": field.ink.rust, "ochre": field.ink.ochre}.get(one.colour, field.ink.ink)
    rows = [words_at(field, (x, y + n * size * LEADING), words, colour, anchor, True) for n, words in enumerate(one.head)]  # fmt: skip
    below = y + len(one.head) * size * LEADING
    rows += [words_at(field, (x, below + n * size * LEADING), words, field.ink.pencil, anchor) for n, words in enumerate(one.beside)]  # fmt: skip
    if not one.key:
        return "".join(rows)
    return tag("a", "".join(rows), href=f"/working/{one.key}", data_w=one.key, class_="number", aria_label=f"{one.words}: how it was found")  # fmt: skip


def _wide(field: Field, words: str, heavy: bool = False) -> float:
    return letters_of(words) * field.size.letters * field.ink.letter * (HEAVY if heavy else 1.0)


def _wide_of(field: Field, one: Number) -> float:
    """Of the widest of its lines."""
    return max(_wide(field, words, nth < len(one.head)) for nth, words in enumerate((*one.head, *one.beside)))  # fmt: skip


def _edge_lines(field: Field, clear: Clear, one: Number) -> Iterator[str]:
    """A dimension line from the ground to the lowest edge."""
    (x, y), ink, foot = one.at, field.ink, field.ground_y
    for points in ([(x, y), (x, foot)], [(x - 10.0, y), (x + 4.0, y)]):
        clear.stroke(points)
        yield stroke(smooth(points), ink.paper, 4.0) + stroke(smooth(points), ink.pencil, 1.0)
    for end in (y, foot):
        yield line((x - 3.5, end + 3.5), (x + 3.5, end - 3.5), ink.ink, 1.5)


def _at_edge(field: Field, clear: Clear, one: Number) -> Iterator[str]:
    """Its words, beside the line where they find room; led to it where that is farther off."""
    (x, y), size, foot = one.at, field.size.letters, field.ground_y
    wide, high = _wide_of(field, one), size * (1.0 + LEADING)
    middle = (y + foot) / 2.0 - high / 2.0 + size
    lowest = foot - 4.0 - size * LEADING - middle  # over the ground before under it
    steps = [(out, down) for under in (False, True) for out, down in BESIDE_EDGE if (down > lowest) is under]  # fmt: skip
    nth = clear.best(box_of((x - 9.0 - out, middle + down), wide, one.lines, size, LEADING, "end") for out, down in steps)  # fmt: skip
    at = (x - 9.0 - steps[nth][0], middle + steps[nth][1])
    beside = x - at[0] < 10.0 and y - size < at[1] < foot
    if not beside:
        end = (x, min(max(at[1] - size * 0.3, y), foot))
        points = [(at[0] + 4.0, at[1] - size * 0.3), end]
        clear.stroke(points)
        yield leader(field, points, one.colour == "rust")
    yield link(field, one, at, "end")


def _at_sun(field: Field, clear: Clear, one: Number) -> Iterator[str]:
    """Beside the disc as near as there is room, on the side away from the pole where it stands high; led to it from farther off."""
    (x, y), size, wide = one.at, field.size.letters, _wide_of(field, one)
    steps = BESIDE_SUN[x > 0.55 * field.hinge[0]]
    out, down, anchor = steps[clear.best(box_of((x + out, y - size * 0.1 + down), wide, one.lines, size, LEADING, anchor) for out, down, anchor in steps)]  # fmt: skip
    at = (x + out, y - size * 0.1 + down)
    inner = (at[0] + (-4.0 if anchor == "start" else 4.0), at[1] - size * 0.3)
    far = hypot(inner[0] - x, inner[1] - y)
    if far > NEAR_PX:
        r = still.disc_px(field) / far
        points = [inner, (x + (inner[0] - x) * r, y + (inner[1] - y) * r)]
        clear.stroke(points)
        yield stroke(smooth(points), field.ink.paper, 4.0) + stroke(smooth(points), field.ink.pencil, 1.0)  # fmt: skip
    yield link(field, one, at, anchor)


def tilt_bow(field: Field, tilt_deg: float) -> Iterator[str]:
    """The angle of the tilt, drawn."""
    g, ink = field.answer.geometry, field.ink
    far, (hx, hy) = g.lower_m * field.scale + 12.0, field.hinge
    x, y = field.on_array(tilt_deg, -far / field.scale, 0.0)
    d = f"M{hx - far:.1f} {hy:.1f}A{far:.1f} {far:.1f} 0 0 {int(tilt_deg < 0.0)} {x:.1f} {y:.1f}"
    yield stroke(f"M{hx - far - 8.0:.1f} {hy:.1f}H{hx - 12.0:.1f}", ink.edge, 1.0)
    yield stroke(d, ink.edge, 1.0)


def _tilt_figure(field: Field, clear: Clear, tilt_deg: float) -> Iterator[str]:
    """The tilt, large."""
    words, ink = f"{tilt_deg:.0f}°", field.ink
    far, (hx, hy) = field.answer.geometry.lower_m * field.scale + 12.0, field.hinge
    wide = len(words) * BIG_PX * ink.letter
    tried = [(hx - far - 12.0 - out, hy + down) for out in (0.0, 14.0, 30.0) for down in (40.0, 34.0, 52.0, 64.0, -10.0)]  # fmt: skip
    nth = clear.best(box_of(at, wide, 1, BIG_PX, 1.0, "end") for at in tried)
    x, y = tried[nth]
    yield tag("text", escape(words), x=x, y=y, fill=ink.ink, font_family="var(--say)", font_size=BIG_PX, font_weight="600", text_anchor="end", class_="tilt", stroke=ink.paper, stroke_width=4.0, paint_order="stroke")  # fmt: skip


def _degrees(field: Field, clear: Clear, tilt_deg: float) -> Iterator[str]:
    """Figures of the arc, but for those something else covers."""
    g, size = field.answer.geometry, min(field.size.letters, 14.0)
    step = 30 if (field.radius - 20.0) * radians(15.0) < 24.0 else 15
    for figure in range(-90, 91, step):
        if g.least_tilt_deg - 0.5 <= figure <= g.steepest_tilt_deg + 0.5 and abs(figure - tilt_deg) > 8.0:  # fmt: skip
            x, y = field.on_arc(figure, -20.0)
            wide = len(f"{figure}") * size * field.ink.letter
            if not clear.hits(box_of((x, y + 4.5), wide, 1, size, 1.0, "middle")):
                yield words_at(field, (x, y + 4.5), f"{figure}", field.ink.pencil, "middle", size=size)  # fmt: skip


def _still_words(field: Field, clear: Clear) -> Iterator[str]:
    """What does not change with the tilt, and yet makes room for what does: clash, limit, pier, frost."""
    size, ink = field.size.letters, field.ink
    for words, colour, tried in _wanted(field):
        heavy = colour == ink.rust
        wide = _wide(field, words, heavy)
        nth = clear.best(box_of(at, wide, 1, size, 1.0, anchor) for at, anchor in tried)
        at, anchor = tried[nth]
        yield words_at(field, at, words, colour, anchor, heavy)


def _wanted(field: Field) -> Iterator[tuple[str, str, list[tuple[Point, str]]]]:
    """Words, their colour, and where they may stand, the first wanted most."""
    size, ink, pier = field.size.letters, field.ink, field.answer.pier
    met = clash(field)
    if met is not None:
        (x, y), words = met
        yield words, ink.rust, [((x - 22.0, y + 34.0 + 12.0 * n), "end") for n in range(9)]
    limit_m, limit_y = drawn_limit_m(field.tilts), _limit_y(field)
    if limit_m is not None and limit_y is not None:
        words = f"height limit {dimension(limit_m, field.style)}"
        yield words, ink.pencil, [((x, limit_y + off), "start") for off in (-6.0, size * 1.2) for x in (14.0, 70.0, 140.0)]  # fmt: skip
    upright, _ = still.pier_lines(field)
    (x, y1), (_, y2) = upright
    words = f"{still.mark_of(field, 'footing', 'depth')}{dimension(pier.depth_m, field.style)}"
    shares = sorted((0.12 + 0.06 * n for n in range(14)), key=lambda share: abs(share - 0.68))
    yield words, ink.pencil, [((x + 8.0, y1 + (y2 - y1) * share), "start") for share in shares]
    lines = still.frost_lines(field)
    if lines:
        ((left, y), (near, _)), ((far, _), _) = lines
        frost = f"frost {still.mark_of(field, 'place', 'frost_depth')}{dimension(field.tilts.setting.place.frost_depth_m, field.style, 1)}"
        yield frost, ink.pencil, [((x, y + off), anchor) for x, anchor in (*((near - 10.0 - 15.0 * n, "end") for n in range(4)), (far + 30.0, "start"), (left - 6.0, "end")) for off in (-5.0, size * 1.1, 5.0)]  # fmt: skip


def _keys(field: Field, told: Sequence[Number]) -> Iterator[str]:
    """Ringed numbers at both edges, over every leader; the words stand beneath the drawing."""
    numbered, rings = list(enumerate(told, start=1)), []
    for left in (True, False):
        rail = sorted((one for one in numbered if (one[1].side != "right") is left), key=lambda one: one[1].at[1])  # fmt: skip
        tops = beside_line([one.at[1] - KEY_PX for _, one in rail], [KEY_GAP] * len(rail), (6.0, field.size.height - 28.0), _limit_y(field), 10.0)  # fmt: skip
        x = KEY_PX + 8.0 if left else field.size.width - KEY_PX - 8.0
        for (nth, one), top in zip(rail, tops, strict=True):
            y, off = top + KEY_PX, KEY_PX if left else -KEY_PX
            ring = tag("circle", cx=x, cy=y, r=KEY_PX, fill=field.ink.paper, stroke=field.ink.rust if one.colour == "rust" else field.ink.ink, stroke_width=1.5)  # fmt: skip
            figure = tag("text", str(nth), x=x, y=y + 4.7, fill=field.ink.ink, font_family=field.ink.face, font_size=13.0, text_anchor="middle", font_weight="600")  # fmt: skip
            yield leader(field, [(x + off, y), one.at], one.colour == "rust")
            rings.append(tag("a", ring + figure, href=f"/working/{one.key}", data_w=one.key, class_="number", aria_label=f"{nth}: {one.words}"))  # fmt: skip
    yield from rings
