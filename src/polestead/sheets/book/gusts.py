"""The gust card as a page to hang, the tape table, what stands beside the sums."""

from __future__ import annotations

from collections.abc import Iterator

from polestead.base.quantity import in_unit
from polestead.base.show import Style, gust, inches, number
from polestead.mount.gauge import Gauge
from polestead.sheets.book.blocks import (  # fmt: skip
    Block,
    Section,
    big_table,
    blank_lines,
    caution,
    head,
    listed,
    say,
    small,
    table,
)
from polestead.sheets.book.matter import Matter
from polestead.stand.result import TiltStand

SHOWN_TILTS = (15, 30, 45, 60)
# The Beaufort numbers by what trees and people do, with the upper end of each mean wind; gusts run about half as high again.
BY_EYE = (
    ("still, smoke drifts", 1.5),
    ("leaves and twigs move", 5.4),
    ("small branches move", 7.9),
    ("large branches move, wires whistle", 13.8),
    ("whole trees move, hard to walk against", 17.1),
    ("twigs break off", 20.7),
)
BY_EYE_SOURCE = "By eye: the Beaufort scale's effects on land (from memory), upper end of each; a gust runs about half as high again (common practice, no source)."
GUST_OVER_MEAN = 1.5


def gust_card_page(matter: Matter) -> Section:
    """The card: table first, read at arm's length, then the plot."""
    return Section("Gust card", tuple(_card(matter)))


def _card(matter: Matter) -> Iterator[Block]:
    answer, style = matter.answer, matter.style
    stand = answer.stand
    yield big_table(("tilt", "stands to", "first gives", "lay flat only under"), card_rows(matter), ("2fr", "1fr", "1.7fr", "1fr"), (2,))  # fmt: skip
    yield from matter.shown("gust card")
    yield small(
        f"Three-second gusts at {'33 ft' if style == 'feet' else '10 m'} in the open, rounded down, for the tilt itself. The code's wind on the same scale: {gust(stand.code_gust_m_s, style)}. "
        f"{_rests_on(matter)} Void if the steel or the pins change."
    )
    yield caution("Nobody under it while it moves, while only the rod holds it, in wind, or with snow on it. Prop and lock before hands go in.")  # fmt: skip
    yield head("By eye")
    rows = [(words, _about(mean, style), _about(mean * GUST_OVER_MEAN, style)) for words, mean in BY_EYE]  # fmt: skip
    yield table(("what you see", "wind up to about", "gusts to about"), rows, ("2fr", "1fr", "1fr"), "lrr")  # fmt: skip
    yield small(BY_EYE_SOURCE)


def card_rows(matter: Matter) -> list[tuple[str, str, str, str]]:
    """Flat locked, flat on the rod, the plain tilts, the steepest; half-way on the prop where there is one."""
    stand, style = matter.answer.stand, matter.style
    card = stand.card
    rows = [_row(f"flat, {card[0].tilt_deg:.0f}°, locked", card[0], style)]
    if card[0].rod_stands_to_m_s is not None:
        rows.append((f"flat, {card[0].tilt_deg:.0f}°, rod alone", gust(card[0].rod_stands_to_m_s, style), card[0].rod_gives_first, _under(card[0], style)))  # fmt: skip
    rows += [_row(f"{row.tilt_deg:.0f}°", row, style) for row in card[1:-1] if round(row.tilt_deg) in SHOWN_TILTS]  # fmt: skip
    rows.append(_row(f"steepest, {card[-1].tilt_deg:.0f}°", card[-1], style))
    prop = next((one for one in stand.states if one.state == "prop"), None)
    if prop is not None:
        at = prop.weakest
        rows.append((f"{prop.tilt_deg[at]:.0f}°, on the prop", gust(prop.gust_m_s[at], style), prop.gives_first[at], "–"))  # fmt: skip
    return rows


def _row(word: str, row: TiltStand, style: Style) -> tuple[str, str, str, str]:
    return word, gust(row.stands_to_m_s, style), row.gives_first, _under(row, style)


def _under(row: TiltStand, style: Style) -> str:
    return "–" if row.path_under_m_s is None else gust(row.path_under_m_s, style)


def _about(speed_m_s: float, style: Style) -> str:
    unit, step = ("mph", 5.0) if style == "feet" else ("m/s", 1.0)
    return f"{step * round(in_unit(speed_m_s, unit) / step):.0f} {unit}"


def _rests_on(matter: Matter) -> str:
    wanted = ("wind_speed", "exposure", "soil", "frost_depth")
    rows = [row for row in matter.answer.rows if row.section == "place" and row.key in wanted]
    return "Rests on " + ", ".join(f"{row.key.replace('_', ' ')} {row.mark}{row.written}" for row in rows) + "."  # fmt: skip


def beside_the_card(matter: Matter) -> Section:
    """Stances, half-built states, what one change would do, what it relies on."""
    return Section("What stands beside the gust card", tuple(_beside(matter)))


def _beside(matter: Matter) -> Iterator[Block]:
    answer, style = matter.answer, matter.style
    stand, more = answer.stand, answer.more
    yield head("Four ways to leave it")
    stances = [(one.name, f"{one.tilt_deg:.0f}°", gust(one.stands_to_m_s, style), one.gives_first, one.words) for one in stand.stances]  # fmt: skip
    yield table(("stance", "tilt", "stands to", "first gives", "what to know"), stances, ("1fr", "auto", "auto", "1.2fr", "2.4fr"), "lrrll")  # fmt: skip
    yield head("Half built")
    halves = [(one.name, gust(one.gust_m_s, style), one.gives_first, one.words) for one in more.half_built]  # fmt: skip
    yield table(("state", "stands to", "first gives", "what to do"), halves, ("1.3fr", "auto", "1.3fr", "2fr"), "lrll")  # fmt: skip
    yield from matter.shown("rod force")
    yield head("What one change would do")
    changes = [(one.words, gust(one.weakest_m_s, style), one.gives_first) for one in more.changes]
    yield table(("change", "weakest tilt then stands to", "first gives"), changes, ("2fr", "auto", "1.3fr"), "lrl")  # fmt: skip
    yield head("It relies on")
    yield listed(stand.relied_on)
    yield head("Scope of the sums")
    yield listed(stand.notes)


def tape_table(gauge: Gauge | None) -> Section:
    """Tilt and rod for him without the paper gauge."""
    return Section("Tape table", tuple(_tape(gauge)))


def _tape(gauge: Gauge | None) -> Iterator[Block]:
    if gauge is None:
        yield say("No [drive] in the file: the gauge and the table need its pins and its stroke.")
        return
    if not gauge.proved:
        yield caution("UNPROVED: no two measured pairs yet. Read the level, not the rod, until they are written in; seconds are withheld till then.")  # fmt: skip
    yield big_table(("tilt", "rod shows", "", "seconds of key"), tape_rows(gauge), ("auto", "1.4fr", "1fr", "1fr"))  # fmt: skip
    yield small("Rod from the face of the gland nut, inches to 1/16 and millimetres. Seconds from the flattest tilt: at the rated speed, and loaded in the cold.")  # fmt: skip
    yield head("Measure two pairs or more, far apart, and write them under drive.measured")
    yield blank_lines(["At rod ________ the level says"] * 3)


def tape_rows(gauge: Gauge) -> list[tuple[str, str, str, str]]:
    """Tilt, rod in inches and in millimetres, seconds of key."""
    return [
        (
            f"{row.tilt_deg:.0f}°",
            f"{inches(row.rod_m)} in",
            f"{number(row.rod_m * 1000.0)} mm",
            "–"
            if row.from_s is None or row.to_s is None
            else f"{row.from_s:.0f} to {row.to_s:.0f}",
        )
        for row in gauge.table
    ]
