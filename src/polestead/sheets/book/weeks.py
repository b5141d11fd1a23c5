"""The week leaf on paper: where to leave it by the gust heard, the engine by charge and sky, good until a day."""

from __future__ import annotations

from polestead.sheets.book.blocks import Section, big_table, caution, head, say, small
from polestead.sheets.book.matter import Matter
from polestead.sheets.morning import week_tables

MISSING = "The week leaf is of one day only: make it with  polestead book FILE --only week, or on the page."


def week_page(matter: Matter) -> Section:
    """One page to hang by the window; a sentence where no week was worked.

    Args:
        matter: With its week.
    """
    if matter.week is None:
        return Section("Week leaf", (say(MISSING),))
    told = week_tables(matter.week, matter.style)
    return Section("Week leaf", (
        say(told.head),
        caution(told.under),
        head("Where to leave it, by the gust you hear for until the next morning"),
        big_table(("gust heard", "leave it"), told.gusts, ("1fr", "2.4fr")),
        head("Engine today, by the charge at dawn and the sky"),
        big_table(("charge", *told.skies), told.engine, ("1fr", *("1fr" for _ in told.skies))),
        small(told.foot),
    ))  # fmt: skip
