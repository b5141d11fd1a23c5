"""The gust card as a page to hang, the tape table, what stands beside the sums."""

from __future__ import annotations

from collections.abc import Iterator

from polestead.base.show import Style, gust, gust_asked, rod_words
from polestead.morning.forecast.by_eye import gust_factor
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
from polestead.sheets.charts import SIDES
from polestead.sheets.gust_rows import (
    BEAUFORT,
    BY_EYE,
    eye_gust_m_s,
    eye_words,
    rows_of,
)
from polestead.sheets.gusts import AS_SET


def gust_card_page(matter: Matter) -> Section:
    """The card: table first, read at arm's length, then the plot."""
    return Section("Gust card", tuple(_card(matter)))


def _card(matter: Matter) -> Iterator[Block]:
    answer, style = matter.answer, matter.style
    stand = answer.stand
    yield big_table(("tilt", "stands to", "first gives", "lay flat only under"), card_rows(matter), ("2fr", "1fr", "1.7fr", "1fr"), (2,))  # fmt: skip
    yield from matter.shown("gust card")
    yield small(
        f"Three-second gusts at {'33 ft' if style == 'feet' else '10 m'} in the open, rounded down, for the tilt itself: set it a few degrees off, and the neighbour's row counts. The code's wind on the same scale: {gust_asked(stand.code_gust_m_s, style)}. "
        f"{SIDES} {_rests_on(matter)} Void if the steel or the pins change."
    )
    yield caution("Nobody under it while it moves, while only the rod holds it, in wind, or with snow on it. Prop and lock before hands go in.")  # fmt: skip
    yield head("By eye")
    exposure, unit = matter.owners.homestead.place.exposure, "mph" if style == "feet" else "m/s"
    rows = [(words, f"{force}", f"{eye_words(eye_gust_m_s(mean, exposure), style)} {unit}") for words, force, mean in BY_EYE]  # fmt: skip
    yield table(("what you see", "force", "gusts up to"), rows, ("2fr", "1fr", "1fr"), "lrr")
    yield small(f"By {BEAUFORT}; upper end of the force, times {gust_factor(exposure):g}, rounded up. No thunderstorm is foretold so.")  # fmt: skip


def card_rows(matter: Matter) -> list[tuple[str, str, str, str]]:
    """The card's rows in words, gusts rounded down."""
    style = matter.style
    return [
        (words, gust(stands, style), first, "–" if under is None else gust(under, style))
        for words, stands, first, under in rows_of(matter.answer.stand)
    ]


def _rests_on(matter: Matter) -> str:
    wanted = ("wind_speed", "exposure", "soil", "frost_depth")
    rows = [row for row in matter.answer.rows if row.section == "place" and row.key in wanted]
    return "Rests on " + ", ".join(f"{row.key.replace('_', ' ')} {row.mark}{matter.written(row)}" for row in rows) + "."  # fmt: skip


def beside_the_card(matter: Matter) -> Section:
    """Stances, half-built states, what one change would do, what it relies on."""
    return Section("What stands beside the gust card", tuple(_beside(matter)))


def _beside(matter: Matter) -> Iterator[Block]:
    answer, style = matter.answer, matter.style
    stand, more = answer.stand, answer.more
    yield head("Four ways to leave it")
    stances = [(one.name, f"{one.tilt_deg:.0f}°", gust(one.stands_to_m_s, style), one.gives_first, one.words) for one in stand.stances]  # fmt: skip
    yield table(("stance", "tilt", "stands to", "first gives", "what to know"), stances, ("1fr", "auto", "auto", "1.2fr", "2.4fr"), "lrrll")  # fmt: skip
    yield small(AS_SET)
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


def tape_table(gauge: Gauge | None, style: Style) -> Section:
    """Tilt and rod for him without the paper gauge."""
    return Section("Tape table", tuple(_tape(gauge, style)))


def _tape(gauge: Gauge | None, style: Style) -> Iterator[Block]:
    if gauge is None:
        yield say("No [drive] in the file: the gauge and the table need its pins and its stroke.")
        return
    if not gauge.proved:
        yield caution("UNPROVED: no two measured pairs yet. Read the level, not the rod, until they are written in; seconds are withheld till then.")  # fmt: skip
    yield big_table(("tilt", "rod shows", "seconds of key"), tape_rows(gauge, style), ("auto", "1.4fr", "1fr"))  # fmt: skip
    yield small("Rod from the face of the gland nut. Seconds from the flattest tilt: at the rated speed, and loaded in the cold.")  # fmt: skip
    yield head("Measure two pairs or more, far apart, and write them under drive.measured")
    yield blank_lines(["At rod ________ the level says"] * 3)


def tape_rows(gauge: Gauge, style: Style) -> list[tuple[str, str, str]]:
    """Tilt, rod that shows, seconds of key."""
    return [
        (
            f"{row.tilt_deg:.0f}°",
            rod_words(row.rod_m, style, gauge.proved),
            "–"
            if row.from_s is None or row.to_s is None
            else f"{row.from_s:.0f} to {row.to_s:.0f}",
        )
        for row in gauge.table
    ]
