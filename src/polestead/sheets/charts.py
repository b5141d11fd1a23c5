"""The gust card as a curve over bare paper, hatched where it may not be left; today's tilt upon it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from html import escape
from itertools import pairwise, product
from math import ceil

from polestead.base.quantity import in_unit
from polestead.base.show import Style, gust, gust_asked
from polestead.morning.card import up
from polestead.sheets.axes import spread
from polestead.sheets.clear import Clear, box_of
from polestead.sheets.svg import Ink, Point, drawing, letters_of, line, polygon, polyline, tag, text
from polestead.sheets.tonight import TonightGust
from polestead.stand.result import StandResult, TiltStand

LEFT, TOP, BOTTOM = 56.0, 26.0, 76.0
RIGHT, RIGHT_NARROW, NARROW_UNDER = 150.0, 12.0, 420.0
STRIP = 22.0
NOT_HERE, HATCHED = "not at this tilt", 9
SAMPLE_PX, KEY_ROW = 30.0, 1.5
ROW = 1.3  # from a row of hanging words to the next, in letters
USUAL = 13.0  # size of letters for which the margins are
Span = tuple[float, float, str]  # from tilt to tilt, the part
HEAVY = 1.12  # of a heavy letter's width over a plain one's
SIDES = "Ticks under the curve: wind on the back decides; over it: wind on the glass."


@dataclass(frozen=True)
class Plot:
    """Where tilts and gusts lie.

    Attributes:
        stand, style, ink: What is drawn, how.
        width, height: Of the chart [px].
        size: Of its letters [px].
        tonight: The gust of the coming night; None where none is known.
        most: Top of the upright axis, in its unit.
        keyed: So many rows of line samples with their words stand over a narrow plot.
        hung: So many rows of words hang under the strip of what gives first.
    """

    stand: StandResult
    style: Style
    ink: Ink
    width: float
    height: float
    size: float
    tonight: TonightGust | None
    most: float
    keyed: int = 0
    hung: int = 1

    @cached_property
    def unit(self) -> str:
        """Of the gusts."""
        return _unit(self.style)

    @cached_property
    def step(self) -> float:
        """Between two figures of the upright axis."""
        return _step(self.style)

    @cached_property
    def narrow(self) -> bool:
        """Whether words stand at the curves and not at their ends."""
        return self.width < NARROW_UNDER

    @cached_property
    def more(self) -> float:
        """How much larger its letters are than usual ones [px]."""
        return max(self.size - USUAL, 0.0)

    @cached_property
    def right(self) -> float:
        """Where the curves end."""
        return self.width - (RIGHT_NARROW + 2.5 * self.more if self.narrow else RIGHT * max(self.size / USUAL, 1.0))  # fmt: skip

    @cached_property
    def top(self) -> float:
        """Where the upright axis ends."""
        return TOP + 2.0 * self.more + self.keyed * self.size * KEY_ROW

    @cached_property
    def base(self) -> float:
        """Where the axis lies."""
        return self.height - BOTTOM - 3.0 * self.more - (self.hung - 1) * self.size * ROW

    def at(self, tilt_deg: float, speed_m_s: float) -> Point:
        """A point of a curve."""
        x = LEFT + (tilt_deg - self.stand.card[0].tilt_deg) * self._px_per_deg
        return x, self.base - speed_m_s * self._px_per_m_s

    @cached_property
    def _px_per_deg(self) -> float:
        card = self.stand.card
        return (self.right - LEFT) / max(card[-1].tilt_deg - card[0].tilt_deg, 1.0)

    @cached_property
    def _px_per_m_s(self) -> float:
        return in_unit(1.0, self.unit) / self.most * (self.base - self.top)

    def say(self, at: Point, words: str, anchor: str = "start", pale: bool = False, heavy: bool = False) -> str:  # fmt: skip
        """Words with a gap of paper about them."""
        return tag(
            "text", escape(words, quote=False), x=at[0], y=at[1], fill=self.ink.pencil if pale else self.ink.ink,
            font_family=self.ink.face, font_size=self.size, text_anchor=anchor, font_weight="600" if heavy else None,
            stroke=self.ink.paper, stroke_width=4.0, stroke_linejoin="round", paint_order="stroke",
        )  # fmt: skip


def gust_card(
    stand: StandResult,
    style: Style,
    ink: Ink,
    width: float = 560.0,
    height: float = 290.0,
    size: float = 13.0,
    tilt_deg: float | None = None,
    own: str = "card",
    tonight: TonightGust | None = None,
) -> str:
    """Stands-to over tilt: locked, on the rod alone, being moved; above the curve it may not be left.

    Args:
        stand: Whose card.
        style: Whose units.
        ink: Of the medium.
        width: Of the chart [px].
        height: Of the chart [px]; a narrow one grows by the rows of words over and under it.
        size: Of its letters [px].
        tilt_deg: Marked as today's; None marks nothing.
        own: Before the names inside, where two stand on one page.
        tonight: The gust of the coming night, drawn as a line of its own; None draws none.
    """
    plot = plot_of(stand, style, ink, width, height, size, tonight)
    over = tag("path", d="M-1 1L1 -1M0 6L6 0M5 7L7 5", stroke=ink.edge, stroke_width=0.7)
    defs = tag("pattern", over, id=f"{own}_over", width=6.0, height=6.0, patternUnits="userSpaceOnUse")  # fmt: skip
    body = [
        *_over(plot, own),
        *_axes(plot),
        *_curves(plot),
        *_strip(plot),
        *_keyed(plot, own),
        tag("g", today_mark(plot, tilt_deg), id=f"{own}-today"),
    ]
    words = "; ".join(
        f"{row.tilt_deg:.0f} degrees: {gust(row.stands_to_m_s, style)}, {row.gives_first}"
        for row in stand.card
        if round(row.tilt_deg) % 15 == 0
    )
    return drawing(width, plot.height, defs, body, "Gust card", words)


def plot_of(stand: StandResult, style: Style, ink: Ink, width: float, height: float, size: float = USUAL, tonight: TonightGust | None = None) -> Plot:  # fmt: skip
    """The plot of a card, with room under it for the words of what gives first."""
    unit, step = _unit(style), _step(style)
    told = 0.0 if tonight is None else tonight.upper_m_s
    fastest = max(*(row.stands_to_m_s for row in stand.card), stand.code_gust_m_s, told)
    most = step * ceil(in_unit(fastest, unit) / step + 0.25)
    plot = Plot(stand, style, ink, width, height, size, tonight, most)
    hung = max((row + 1 for _, row, _ in _hanging(plot)), default=1)
    keyed = max((row + 1 for _, _, row, _ in _samples(plot)), default=0)
    taller = size * (keyed * KEY_ROW + (hung - 1) * ROW) + 5.0 * plot.more if plot.narrow else 0.0
    return replace(plot, hung=hung, keyed=keyed, height=height + taller)


def _unit(style: Style) -> str:
    return "mph" if style == "feet" else "m/s"


def _step(style: Style) -> float:
    return 20.0 if style == "feet" else 10.0


def today_mark(plot: Plot, tilt_deg: float | None) -> str:
    """Today's tilt upright, a ring on the curve, broken where tonight's gust may be over it; and the words that make room for it.

    Args:
        plot: Of the card.
        tilt_deg: Today's; None marks nothing.
    """
    clear, mark = Clear(plot.width, plot.height), ""
    for points in (*(points for _, _, points in _lines(plot)), *_frame(plot)):
        clear.stroke(points)
    if tilt_deg is not None:
        row = min(plot.stand.card, key=lambda one: abs(one.tilt_deg - tilt_deg))
        x, y = plot.at(row.tilt_deg, row.stands_to_m_s)
        clear.stroke([(x, plot.top), (x, plot.base)])
        clear.ring((x, y), 8.0)
        ring = tag("circle", cx=x, cy=y, r=6.0, fill=plot.ink.paper, stroke=plot.ink.plumb, stroke_width=2.5)  # fmt: skip
        mark = line((x, plot.top), (x, plot.base), plot.ink.plumb, 1.5) + ring
        if plot.tonight is not None and plot.tonight.passes(row.stands_to_m_s, plot.style):
            broken = [(x - 5.0, y - 10.0), (x + 5.0, y - 13.0), (x - 5.0, y - 16.0), (x + 5.0, y - 19.0)]  # fmt: skip
            clear.stroke(broken)
            mark += polyline(broken, plot.ink.rust, 2.5)
    return mark + ("" if plot.narrow else _not_here(plot, clear)) or " "


def _not_here(plot: Plot, clear: Clear) -> str:
    """What the hatch says, in a bare patch of it."""
    size = plot.size
    wide = len(NOT_HERE) * size * plot.ink.letter
    tried = [(plot.right - 10.0 - left, plot.top + size * 1.55 + down) for down in (0.0, size * 1.3, size * 2.6) for left in range(0, int(plot.right - LEFT - wide - 16.0), 8)]  # fmt: skip
    x, y = tried[clear.best(box_of(at, wide, 1, size, 1.0, "end") for at in tried)]
    patch = tag("rect", x=x - wide - 4.0, y=y - size, width=wide + 8.0, height=size * 1.35, fill=plot.ink.paper)  # fmt: skip
    return patch + plot.say((x, y), NOT_HERE, "end", pale=True)


def _samples(plot: Plot) -> list[tuple[str, int, int, float]]:
    """Over a narrow plot, where words at the curves would lie on curves: each word, how its line is inked, its row, where it begins."""
    if not plot.narrow:
        return []
    found, row, x = [], 0, 0.0
    for words, how in [*((words, how) for words, how, _ in _lines(plot)), (NOT_HERE, HATCHED)]:
        wide = SAMPLE_PX + 6.0 + len(words) * plot.size * plot.ink.letter * HEAVY
        if x and x + wide > plot.width:
            row, x = row + 1, 0.0
        found.append((words, how, row, x))
        x += wide + 14.0
    return found


def _keyed(plot: Plot, own: str) -> Iterator[str]:
    """Those samples, drawn."""
    size = plot.size
    for words, how, row, x in _samples(plot):
        y = size * (1.0 + row * KEY_ROW)
        if how == HATCHED:
            yield tag("rect", x=x, y=y - size * 0.75, width=SAMPLE_PX, height=size * 0.8, fill=f"url(#{own}_over)")  # fmt: skip
        else:
            yield polyline([(x, y - size * 0.35), (x + SAMPLE_PX, y - size * 0.35)], *_inks(plot)[how])  # fmt: skip
        yield plot.say((x + SAMPLE_PX + 6.0, y), words, heavy=words == "locked")


def _frame(plot: Plot) -> Iterator[list[Point]]:
    yield [(LEFT, plot.top), (LEFT, plot.base), (plot.right, plot.base)]
    yield [(LEFT, plot.top), (plot.right, plot.top)]
    for x, y, deep in _ticks(plot):
        yield [(x, y), (x, y + deep)]


def _over(plot: Plot, own: str) -> Iterator[str]:
    curve = [plot.at(row.tilt_deg, row.stands_to_m_s) for row in plot.stand.card]
    yield polygon([(LEFT, plot.top), *curve, (plot.right, plot.top)], f"url(#{own}_over)")


def _axes(plot: Plot) -> Iterator[str]:
    ink, card = plot.ink, plot.stand.card
    yield line((LEFT, plot.top), (LEFT, plot.base), ink.pencil, 1.0)
    yield text(
        (LEFT - 8.0, plot.top - 10.0 - plot.more), plot.unit, ink.pencil, ink.face, plot.size, "end"
    )
    speed = 0.0
    while speed <= plot.most + 1e-9:
        y = plot.base - speed / plot.most * (plot.base - plot.top)
        yield line((LEFT - 5.0, y), (LEFT, y), ink.pencil, 1.0)
        yield text((LEFT - 9.0, y + 4.5), f"{speed:.0f}", ink.pencil, ink.face, plot.size, "end")
        speed += plot.step
    yield line((LEFT - 8.0, plot.base), (plot.right, plot.base), ink.ink, 2.5)
    for tilt in range(-90, 91, 15):
        if card[0].tilt_deg <= tilt <= card[-1].tilt_deg:
            x, _ = plot.at(float(tilt), 0.0)
            yield line((x, plot.base), (x, plot.base + 5.0), ink.ink, 1.0)
            yield text(
                (x, plot.base + 19.0 + plot.more),
                f"{tilt}°",
                ink.pencil,
                ink.face,
                plot.size,
                "middle",
            )


def _lines(plot: Plot) -> list[tuple[str, int, list[Point]]]:
    """Every line of the plot: its words, how it is inked, its points."""
    stand = plot.stand
    card, last, code = stand.card, stand.card[-1], stand.code_gust_m_s
    ends = [("locked", 0, [(row.tilt_deg, row.stands_to_m_s) for row in card])]
    rod = [(row.tilt_deg, row.rod_stands_to_m_s) for row in card if row.rod_stands_to_m_s is not None]  # fmt: skip
    moved = [(row.tilt_deg, row.move_under_m_s) for row in card if row.move_under_m_s is not None]
    ends.append((f"code's wind {gust_asked(code, plot.style)}", 1, [(card[0].tilt_deg, code), (last.tilt_deg, code)]))  # fmt: skip
    if rod and any(one != two for one, two in zip(rod, ends[0][2], strict=False)):
        ends.append(("on the rod alone", 2, rod))
    if moved:
        ends.append(("being moved", 3, moved))
    if plot.tonight is not None:
        upper = plot.tonight.shown_m_s(plot.style)
        ends.append((f"tonight, to {up(upper, plot.style):.0f} {plot.unit}", 4, [(card[0].tilt_deg, upper), (last.tilt_deg, upper)]))  # fmt: skip
    return [(words, how, [plot.at(t, v) for t, v in points]) for words, how, points in ends]


def _inks(plot: Plot) -> tuple[tuple[str, float, str | None], ...]:
    """Colour, width and dashes of each kind of line."""
    ink = plot.ink
    return ((ink.ink, 2.5, None), (ink.pencil, 1.0, "10 3 2 3"), (ink.ink, 1.5, "8 4"), (ink.ink, 1.5, "2 4"), (ink.ink, 2.0, "16 5"))  # fmt: skip


def _curves(plot: Plot) -> Iterator[str]:
    ink, lines = plot.ink, _lines(plot)
    for _, how, points in reversed(lines):
        yield polyline(points, *_inks(plot)[how])
    yield tag("path", d="".join(f"M{x:.1f} {y:.1f}v{deep}" for x, y, deep in _ticks(plot)), fill="none", stroke=ink.ink, stroke_width=1.0)  # fmt: skip
    if not plot.narrow:
        yield from _names(plot, [(words, points) for words, _, points in lines])


def _ticks(plot: Plot) -> Iterator[tuple[float, float, int]]:
    """Small ticks: wind on the back hangs them under the curve, wind on the glass stands them on it."""
    for row in plot.stand.card:
        if round(row.tilt_deg) % 5 == 0:
            yield *plot.at(row.tilt_deg, row.stands_to_m_s), 5 if row.wind_side == "back" else -5


def _names(plot: Plot, curves: Sequence[tuple[str, list[Point]]]) -> Iterator[str]:
    """At the right ends of the curves."""
    told = sorted(curves, key=lambda one: one[1][-1][1])
    off = plot.size * 0.65
    tops = spread([points[-1][1] - off for _, points in told], [max(20.0, plot.size * 1.35)] * len(told), plot.top, plot.base)  # fmt: skip
    for (words, points), y in zip(told, tops, strict=True):
        at, end = y + off + plot.size * 0.35, points[-1]
        if abs(at - plot.size * 0.35 - end[1]) > 4.0:
            yield polyline([end, (plot.right + 7.0, at - plot.size * 0.35)], plot.ink.pencil, 1.0)
        yield plot.say((plot.right + 10.0, at), words, heavy=words == "locked")


def _strip(plot: Plot) -> Iterator[str]:
    """Under the axis: which part gives first, one piece for each span of tilt; too narrow, its word hangs from it."""
    y, ink, deep = plot.base + 28.0 + plot.more, plot.ink, STRIP + plot.more
    inside = y + 15.5 + plot.more * 0.8
    if not plot.narrow:
        yield text((plot.right + 10.0, inside), "gives first", ink.pencil, ink.face, plot.size)
    hung = {span: (row, left) for span, row, left in _hanging(plot)}
    for span in _spans(plot.stand.card):
        x1, x2 = plot.at(span[0], 0.0)[0], plot.at(span[1], 0.0)[0]
        middle = (x1 + x2) / 2.0
        yield tag("rect", x=x1, y=y, width=max(x2 - x1, 1.0), height=deep, fill="none", stroke=ink.pencil, stroke_width=1.0)  # fmt: skip
        if span not in hung:
            yield text((middle, inside), span[2], ink.ink, ink.face, plot.size, "middle")
            continue
        row, left = hung[span]
        top = y + deep + 6.0 + row * plot.size * ROW
        yield polyline([(middle, y + deep), (middle, top)], ink.pencil, 1.0)
        yield text((left, top + plot.size), span[2], ink.ink, ink.face, plot.size)


def _hanging(plot: Plot) -> list[tuple[Span, int, float]]:
    """Words that find no room in their piece of the strip: the row under it and where they begin, no leader through a word."""
    told = []
    for span in _spans(plot.stand.card):
        x1, x2 = plot.at(span[0], 0.0)[0], plot.at(span[1], 0.0)[0]
        wide = letters_of(span[2]) * plot.size * plot.ink.letter
        if wide >= x2 - x1 - 6.0:
            told.append((span, (x1 + x2) / 2.0, wide))
    ways = sorted(product(range(len(told)), repeat=len(told)), key=lambda rows: (max(rows, default=0), sum(rows)))  # fmt: skip
    for rows in ways:
        lefts = _lefts(plot, [(middle, wide) for _, middle, wide in told], rows)
        if lefts is not None:
            return [(span, row, left) for (span, _, _), row, left in zip(told, rows, lefts, strict=True)]  # fmt: skip
    return []


def _lefts(plot: Plot, told: Sequence[tuple[float, float]], rows: Sequence[int]) -> list[float] | None:  # fmt: skip
    """Where words of these middles and widths begin in these rows; None where they would lie on one another or on a leader."""
    found: list[float] = []
    for nth, (middle, wide) in enumerate(told):
        last = plot.width - 2.0 - wide
        for left in (middle - wide / 2.0, middle + 4.0 - wide, middle - 4.0):
            left = min(max(left, 2.0), last)
            over = [k for k in range(len(told)) if k != nth and rows[k] > rows[nth]]
            beside = [k for k in range(nth) if rows[k] == rows[nth]]
            clear = not any(left - 4.0 < told[k][0] < left + wide + 4.0 for k in over)
            clear &= not any(left < found[k] + told[k][1] + 10.0 and found[k] < left + wide + 10.0 for k in beside)  # fmt: skip
            if clear and left <= middle <= left + wide:
                found.append(left)
                break
        else:
            return None
    return found


def _spans(card: Sequence[TiltStand]) -> list[Span]:
    """From tilt to tilt, the part; two spans meet half-way between the tilts they were worked at."""
    spans = [(card[0].tilt_deg, card[-1].tilt_deg, card[0].gives_first)]
    for one, two in pairwise(card):
        if one.gives_first != two.gives_first:
            middle = (one.tilt_deg + two.tilt_deg) / 2.0
            spans[-1] = (spans[-1][0], middle, spans[-1][2])
            spans.append((middle, card[-1].tilt_deg, two.gives_first))
    return spans
