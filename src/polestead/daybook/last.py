"""The last entry of a kind that a page goes on writing, and writing on: what a day's last line replaces is struck, not lost."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import datetime

from polestead.daybook.daybook import Daybook, Kept, newest
from polestead.daybook.entry import Entry
from polestead.daybook.words import machine_offset, moment_of

PAGE = "page"
GONE_ON = "written on, on the page"


def last_of(kept: Iterable[Kept], wanted: Callable[[Entry], bool]) -> Kept | None:
    """The newest of the entries that are wanted.

    Args:
        kept: Entries that count.
        wanted: Which.
    """
    found = [one for one in kept if wanted(one.entry)]
    if not found:
        return None
    day = max(one.entry.moment.day for one in found)
    return newest([one for one in found if one.entry.moment.day == day])


def write_on(
    book: Daybook, before: Kept | None, now: datetime, *, ticks: str = "", note: str = ""
) -> None:
    """Write the newest line; the page's own of the same day, which it goes on from, is struck then.

    Args:
        book: Open.
        before: What counted until now, None where there was none.
        now: Local time, with its offset.
        ticks: The line of ticks, or
        note: the note.

    Raises:
        Wrong: It cannot be kept.
    """
    moment, _ = moment_of(None, None, now, machine_offset)
    written = book.append(Entry(moment, ticks=ticks, note=note, whence=PAGE), now)
    if before is None or written.number == before.number:
        return
    same_day = before.entry.whence == PAGE and before.entry.moment.day == moment.day
    if same_day or not written.new:
        book.strike(before.number, GONE_ON, now)
