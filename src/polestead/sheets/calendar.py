"""The calendar as a file that phones and desks read (iCalendar, RFC 5545)."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

from icalendar import Calendar as Ics
from icalendar import Event as IcsEvent

from polestead.build.calendar import Calendar

PRODUCT = "-//Polestead//calendar//EN"
RULE = {"yearly": "YEARLY", "monthly": "MONTHLY"}


def calendar_ics(name: str, fingerprint: str, start: date, calendar: Calendar) -> bytes:
    """All entries as whole days; the same file and first day give the same bytes.

    Each UID is made of the file's fingerprint and the act, the time stamp of the first day: a calendar that is read twice is not
    doubled.

    Args:
        name: Of the homestead.
        fingerprint: Of its file.
        start: The first day.
        calendar: The entries.
    """
    made = Ics()
    made.add("prodid", PRODUCT)
    made.add("version", "2.0")
    made.add("x-wr-calname", f"{name}: building the array")
    stamp = datetime(start.year, start.month, start.day, tzinfo=UTC)
    for one in calendar.events:
        entry = IcsEvent()
        entry.add("uid", f"{fingerprint}-{one.key.replace(': ', '-').replace(' ', '-')}@polestead.invalid")  # fmt: skip
        entry.add("dtstamp", stamp)
        entry.add("dtstart", one.on)
        entry.add("dtend", one.on + timedelta(days=one.days))
        entry.add("summary", one.name)
        entry.add("description", one.words)
        entry.add("categories", [one.kind])
        entry.add("transp", "TRANSPARENT")
        if one.repeats:
            entry.add("rrule", {"freq": RULE[one.repeats]})
        elif one.every_days:
            entry.add("rrule", {"freq": "DAILY", "interval": one.every_days})
        made.add_component(entry)
    return bytes(made.to_ical())
