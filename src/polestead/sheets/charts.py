"""The gust card as a curve over bare paper, hatched where it may not be left; today's tilt upon it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from html import escape
from itertools import pairwise
from math import ceil

from polestead.base.quantity import in_unit
from polestead.base.show import Style, gust
from polestead.morning.card import up
from polestead.sheets.axes import spread
from polestead.sheets.svg import Ink, Point, drawing, line, polygon, polyline, tag, text
from polestead.sheets.tonight import TonightGust
from polestead.stand.result import StandResult, TiltStand

LEFT, TOP, BOTTOM = 56.0, 26.0, 76.0
RIGHT, RIGHT_NARROW, NARROW_UNDER = 150.0, 12.0, 420.0
STRIP = 22.0
USUAL = 13.0  # size of letters for which the margins are
SIDES = "Ticks under the curve: wind on the back decides; over it: wind on the glass."


@dataclass(frozen=True, slots=True)
class Plot:
    """Where tilts and gusts lie.

    Attributes:
        stand, style, ink: What is drawn, how.
        width, height: Of the chart [px].
        size: Of its letters [px].
        tonight: The gust of the coming night; None where none is known.
        most: Top of the upright axis.
    """

    stand: StandResult
    style: Style
    ink: Ink
    width: float
    height: float
    size: float
    tonight: TonightGust | None = None
    most: float = field(init=False)

    def __post_init__(self) -> None:
        """The axis reaches past the largest gust; every point asks for it, so it is worked once."""
        told = 0.0 if self.tonight is None else self.tonight.upper_m_s
        highest = max(self.stand.code_gust_m_s, told, *(row.stands_to_m_s for row in self.stand.card))  # fmt: skip
        top = self.step * ceil(in_unit(highest, self.unit) / self.step + 0.25)
        object.__setattr__(self, "most", top)

    @property
    def unit(self) -> str:
        """Of the gusts."""
        return "mph" if self.style == "feet" else "m/s"

    @property
    def step(self) -> float:
        """Between two figures of the upright axis."""
        return 20.0 if self.style == "feet" else 10.0

    @property
    def narrow(self) -> bool:
        """Whether words stand at the curves and not at their ends."""
        return self.width < NARROW_UNDER

    @property
    def more(self) -> float:
        """How much larger its letters are than usual ones [px]."""
        return max(self.size - USUAL, 0.0)

    @property
    def right(self) -> float:
        """Where the curves end."""
        return self.width - (RIGHT_NARROW + 2.5 * self.more if self.narrow else RIGHT * max(self.size / USUAL, 1.0))  # fmt: skip

    @property
    def top(self) -> float:
        """Where the upright axis ends."""
        return TOP + 2.0 * self.more

    @property
    def base(self) -> float:
        """Where the axis lies."""
        return self.height - BOTTOM - 3.0 * self.more

    def at(self, tilt_deg: float, speed_m_s: float) -> Point:
        """A point of a curve."""
        least, last = self.stand.card[0].tilt_deg, self.stand.card[-1].tilt_deg
        x = LEFT + (tilt_deg - least) / max(last - least, 1.0) * (self.right - LEFT)
        return x, self.base - in_unit(speed_m_s, self.unit) / self.most * (self.base - self.top)

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
        height: Of the chart [px].
        size: Of its letters [px].
        tilt_deg: Marked as today's; None marks nothing.
        own: Before the names inside, where two stand on one page.
        tonight: The gust of the coming night, drawn as a line of its own; None draws none.
    """
    plot = Plot(stand, style, ink, width, height, size, tonight)
    over = tag("path", d="M-1 1L1 -1M0 6L6 0M5 7L7 5", stroke=ink.edge, stroke_width=0.7)
    defs = tag("pattern", over, id=f"{own}_over", width=6.0, height=6.0, patternUnits="userSpaceOnUse")  # fmt: skip
    today = "" if tilt_deg is None else today_mark(plot, tilt_deg)
    body = [
        *_over(plot, own),
        *_axes(plot),
        *_curves(plot),
        *_strip(plot),
        tag("g", today or " ", id=f"{own}-today"),
    ]
    words = "; ".join(
        f"{row.tilt_deg:.0f} degrees: {gust(row.stands_to_m_s, style)}, {row.gives_first}"
        for row in stand.card
        if round(row.tilt_deg) % 15 == 0
    )
    return drawing(width, height, defs, body, "Gust card", words)


def today_mark(plot: Plot, tilt_deg: float) -> str:
    """Today's tilt upright, a ring on the curve; broken where tonight's gust may be over it."""
    row = min(plot.stand.card, key=lambda one: abs(one.tilt_deg - tilt_deg))
    x, y = plot.at(row.tilt_deg, row.stands_to_m_s)
    ring = tag("circle", cx=x, cy=y, r=6.0, fill=plot.ink.paper, stroke=plot.ink.plumb, stroke_width=2.5)  # fmt: skip
    upright = line((x, plot.top), (x, plot.base), plot.ink.plumb, 1.5)
    if plot.tonight is None or not plot.tonight.passes(row.stands_to_m_s, plot.style):
        return upright + ring
    broken = [(x - 5.0, y - 10.0), (x + 5.0, y - 13.0), (x - 5.0, y - 16.0), (x + 5.0, y - 19.0)]
    return upright + ring + polyline(broken, plot.ink.rust, 2.5)


def _over(plot: Plot, own: str) -> Iterator[str]:
    curve = [plot.at(row.tilt_deg, row.stands_to_m_s) for row in plot.stand.card]
    yield polygon([(LEFT, plot.top), *curve, (plot.right, plot.top)], f"url(#{own}_over)")
    yield plot.say((plot.right - 10.0, plot.top + 20.0), "not at this tilt", "end", pale=True)


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


def _curves(plot: Plot) -> Iterator[str]:
    stand, ink = plot.stand, plot.ink
    card, last, code = stand.card, stand.card[-1], stand.code_gust_m_s
    ends = [("locked", 0, [(row.tilt_deg, row.stands_to_m_s) for row in card])]
    rod = [(row.tilt_deg, row.rod_stands_to_m_s) for row in card if row.rod_stands_to_m_s is not None]  # fmt: skip
    moved = [(row.tilt_deg, row.move_under_m_s) for row in card if row.move_under_m_s is not None]
    ends.append((f"code's wind {gust(code, plot.style)}", 1, [(card[0].tilt_deg, code), (last.tilt_deg, code)]))  # fmt: skip
    if rod and any(one != two for one, two in zip(rod, ends[0][2], strict=False)):
        ends.append(("on the rod alone", 2, rod))
    if moved:
        ends.append(("being moved", 3, moved))
    if plot.tonight is not None:
        upper = plot.tonight.shown_m_s(plot.style)
        ends.append((f"tonight, to {up(upper, plot.style):.0f} {plot.unit}", 4, [(card[0].tilt_deg, upper), (last.tilt_deg, upper)]))  # fmt: skip
    inks = ((ink.ink, 2.5, None), (ink.pencil, 1.0, "10 3 2 3"), (ink.ink, 1.5, "8 4"), (ink.ink, 1.5, "2 4"), (ink.ink, 2.0, "16 5"))  # fmt: skip
    for _, how, points in reversed(ends):
        yield polyline([plot.at(t, v) for t, v in points], *inks[how])
    yield from _sides(plot)
    yield from _names(plot, [(words, [plot.at(t, v) for t, v in points]) for words, _, points in ends])  # fmt: skip


def _sides(plot: Plot) -> Iterator[str]:
    """Small ticks: wind on the back hangs them under the curve, wind on the glass stands them on it."""
    ways = []
    for row in plot.stand.card:
        if round(row.tilt_deg) % 5 == 0:
            x, y = plot.at(row.tilt_deg, row.stands_to_m_s)
            ways.append(f"M{x:.1f} {y:.1f}v{5 if row.wind_side == 'back' else -5}")
    yield tag("path", d="".join(ways), fill="none", stroke=plot.ink.ink, stroke_width=1.0)


def _names(plot: Plot, curves: Sequence[tuple[str, list[Point]]]) -> Iterator[str]:
    """At the right ends of the curves; on a narrow chart over their left ends."""
    place = 0 if plot.narrow else -1
    told = sorted(curves, key=lambda one: one[1][place][1])
    off = plot.size * (1.0 if plot.narrow else 0.65)
    tops = spread([points[place][1] - off for _, points in told], [max(20.0, plot.size * 1.35)] * len(told), plot.top, plot.base)  # fmt: skip
    for (words, points), y in zip(told, tops, strict=True):
        heavy = words == "locked"
        if plot.narrow:
            yield plot.say((LEFT + 8.0, y + off - 5.0), words, heavy=heavy)
            continue
        at, end = y + off + plot.size * 0.35, points[place]
        if abs(at - plot.size * 0.35 - end[1]) > 4.0:
            yield polyline([end, (plot.right + 7.0, at - plot.size * 0.35)], plot.ink.pencil, 1.0)
        yield plot.say((plot.right + 10.0, at), words, heavy=heavy)


def _strip(plot: Plot) -> Iterator[str]:
    """Under the axis: which part gives first, one piece for each span of tilt; too narrow, its word hangs from it."""
    y, ink, deep = plot.base + 28.0 + plot.more, plot.ink, STRIP + plot.more
    if not plot.narrow:
        yield text(
            (plot.right + 10.0, y + 15.5 + plot.more * 0.8),
            "gives first",
            ink.pencil,
            ink.face,
            plot.size,
        )
    free = LEFT
    for start, end, part in _spans(plot.stand.card):
        x1, x2 = plot.at(start, 0.0)[0], plot.at(end, 0.0)[0]
        yield tag("rect", x=x1, y=y, width=max(x2 - x1, 1.0), height=deep, fill="none", stroke=ink.pencil, stroke_width=1.0)  # fmt: skip
        wide = len(part) * plot.size * ink.letter
        if wide < x2 - x1 - 6.0:
            yield text(
                ((x1 + x2) / 2.0, y + 15.5 + plot.more * 0.8),
                part,
                ink.ink,
                ink.face,
                plot.size,
                "middle",
            )
            continue
        left = max(free, min((x1 + x2) / 2.0 - wide / 2.0, plot.width - wide - 4.0))
        if left + wide > plot.width - 2.0 or left > x2 + 40.0:
            continue  # said in the table and in the words beside the chart
        yield polyline([((x1 + x2) / 2.0, y + deep), (min(max((x1 + x2) / 2.0, left), left + wide), y + deep + 6.0)], ink.pencil, 1.0)  # fmt: skip
        yield text((left, y + deep + 6.0 + plot.size), part, ink.ink, ink.face, plot.size)
        free = left + wide + 10.0


def _spans(card: Sequence[TiltStand]) -> list[tuple[float, float, str]]:
    """From tilt to tilt, the part; two spans meet half-way between the tilts they were worked at."""
    spans = [(card[0].tilt_deg, card[-1].tilt_deg, card[0].gives_first)]
    for one, two in pairwise(card):
        if one.gives_first != two.gives_first:
            middle = (one.tilt_deg + two.tilt_deg) / 2.0
            spans[-1] = (spans[-1][0], middle, spans[-1][2])
            spans.append((middle, card[-1].tilt_deg, two.gives_first))
    return spans
