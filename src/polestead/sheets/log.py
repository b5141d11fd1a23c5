"""The daybook told: what was made of a line, what stands there, what is due; and the same as data."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import fields
from datetime import date, datetime
from pathlib import Path
from typing import Any

from polestead.base.quantity import in_unit
from polestead.base.show import Style, inches, number
from polestead.daybook.chores import Due, due_soon
from polestead.daybook.columns import Taken
from polestead.daybook.daybook import Beside, Kept, Written
from polestead.daybook.days import Gap
from polestead.daybook.entry import Entry, Moment
from polestead.daybook.house import Key
from polestead.daybook.ticks import Ticks
from polestead.daybook.words import Clock
from polestead.sheets.gust_rows import eye_words
from polestead.sheets.lines import say

FORMAT = 1
NAMED = 3  # chores in the last line
NAMES: dict[Key, str] = {
    "tilt_deg": "tilt", "rod_m": "rod", "charge": "charge", "rest_v": "rest", "new_wh": "made", "all_wh": "all made",
    "engine_hours": "engine", "engine_meter_hours": "meter", "filled_l": "fuel", "tank_l": "tank", "tank_share": "tank",
    "snow": "snow", "snow_share": "snow", "gust_m_s": "gust", "bank_c": "bank",
}  # fmt: skip
UNPROVED = "The rod's table is unproved until two pairs of rod and tilt are measured: the tilt made from it is a guess. Better write what the level says."
CLOCK = {
    "plain": "",
    "twice": "That hour came twice that night, when the clocks went back: kept as written; which of the two it was is not known.",
    "never": "That hour never was that night, when the clocks went on: kept as written.",
}


def figure_words(key: Key, value: float | str, style: Style) -> str:
    """One figure in the owner's units.

    Args:
        key: Which.
        value: SI.
        style: Whose units.

    Example:
        >>> figure_words("filled_l", 11.356, "feet"), figure_words("gust_m_s", 15.6464, "metric"), figure_words("charge", 0.78, "feet")
        ('3 gal', '15.6 m/s', '78 %')
    """
    if isinstance(value, str):
        return value
    feet = style == "feet"
    if key in ("charge", "tank_share", "snow_share"):
        return f"{_short(100.0 * value)} %"
    if key == "tilt_deg":
        return f"{_short(value)}°"
    if key == "rod_m":
        return f"{inches(value)} in" if feet else f"{_short(1000.0 * value)} mm"
    if key in ("filled_l", "tank_l"):
        return f"{_short(in_unit(value, 'gal'))} gal" if feet else f"{_short(value)} l"
    if key == "gust_m_s":
        return f"{_short(in_unit(value, 'mph'))} mph" if feet else f"{_short(value)} m/s"
    if key in ("new_wh", "all_wh"):
        return f"{_short(value / 1000.0, 2)} kWh"
    if key == "bank_c":
        return f"{_short(in_unit(value, 'F'))} F" if feet else f"{_short(value)} C"
    if key == "rest_v":
        return f"{_short(value, 2)} V"
    return f"{_short(value)} h"


def _short(value: float, digits: int = 1) -> str:
    text = number(value, digits)
    return text.rstrip("0").rstrip(".") if "." in text else text


def entry_words(entry: Entry, style: Style) -> str:
    """All that an entry says.

    Args:
        entry: The entry.
        style: Whose units.

    Example:
        >>> entry_words(Entry(Moment(date(2026, 11, 24)), tilt_deg=62.0, snow="dusted", note="ice on the rod"), "feet")
        'tilt 62°, snow dusted, note: ice on the rod'
    """
    said = []
    for key in NAMES:
        value = getattr(entry, key)
        if value is None:
            continue
        figure = figure_words(key, value, style)
        if key == "snow_share":
            figure += f" ({entry.glass})"
        elif key == "gust_m_s" and entry.gust_seen:  # an eye sees no tenths
            figure = f"to {eye_words(value, style)} {'mph' if style == 'feet' else 'm/s'} by eye ({entry.gust_seen})"
        said.append(f"{NAMES[key]} {figure}")
    if entry.done:
        said.append(f"done: {' and '.join(entry.done)}")
    if entry.ticks:
        said.append(f"ticks: {entry.ticks}")
    if entry.note:
        said.append(f"note: {entry.note}")
    return ", ".join(said)


def moment_words(moment: Moment) -> str:
    """When it was, as one says it.

    Args:
        moment: The moment.

    Example:
        >>> from datetime import time
        >>> moment_words(Moment(date(2026, 11, 24), time(7, 10), -360)), moment_words(Moment(date(2026, 11, 4)))
        ('Tue 24 Nov 2026, 7:10', 'Wed 4 Nov 2026')
    """
    day = f"{moment.day:%a} {moment.day.day} {moment.day:%b %Y}"
    return day if moment.at is None else f"{day}, {moment.at.hour}:{moment.at:%M}"


def written_text(written: Written, told: Sequence[str], clock: Clock, style: Style) -> str:
    """What became of a line: the entry as it was understood first, then what should be known of it.

    Args:
        written: From ``Daybook.append``.
        told: How it was read.
        clock: Whether that hour came once.
        style: Whose units.
    """
    words = f"{moment_words(written.entry.moment)}: {entry_words(written.entry, style)}"
    head = f"Kept, entry {written.number}. {words}." if written.new else f"Written already, as entry {written.number}; nothing was added. {words}."  # fmt: skip
    lines = [say(head, "", "  ")]
    more = [*told, *(one for one in (CLOCK[clock],) if one)]
    lines += [say(one, "  ", "  ") for one in more]
    lines += [say(beside_words(one, written.number, style), "  ", "  ") for one in written.beside]
    return "\n".join(lines)


def beside_words(one: Beside, number_now: int, style: Style) -> str:
    """What stood there already, which counts, and how a slip is withdrawn at a terminal.

    Args:
        one: What stood there.
        number_now: Of the entry just written.
        style: Whose units.
    """
    word = "twice" if one.both and one.key != "engine_meter_hours" else "slip"
    what = {
        "twice": "it is the same",
        "slip": "it is a slip" if one.both else "this one is the slip",
    }[word]
    return f"{beside_told(one, style)} If {what}: --strike {number_now} '{word}'."


def beside_told(one: Beside, style: Style) -> str:
    """What stood there already, and which counts.

    Args:
        one: What stood there.
        style: Whose units.
    """
    before, now = figure_words(one.key, one.before, style), figure_words(one.key, one.now, style)
    name = NAMES[one.key]
    if one.key == "engine_meter_hours" and one.both:
        return f"The meter stood at {before} in entry {one.number} and cannot run backwards: no hours are counted between the two."  # fmt: skip
    if one.both:
        return f"{name.capitalize()}: entry {one.number} of that day says {before} too; both count."
    return f"{name.capitalize()}: entry {one.number} says {before}; both are kept, and the newest counts, {now}."  # fmt: skip


def brought_forward(copy: Path) -> str:
    """That an older daybook was brought forward.

    Args:
        copy: The copy kept of it.
    """
    return say(f"The daybook was of an older form and has been brought forward. As it was, it is kept as {copy.name}.", "")  # fmt: skip


def ticks_lines(ticks: Ticks) -> list[str]:
    """What was understood of the phone file's line.

    Args:
        ticks: As read.
    """
    lines = [say(f"{act}: {'step' if len(steps) == 1 else 'steps'} {', '.join(map(str, steps))} done.") for act, steps in ticks.steps]  # fmt: skip
    lines += [say(f"Gate {one.name}: {f'not needed, {one.why}' if one.why else f'signed {one.on} by {one.by}'}.") for one in ticks.gates]  # fmt: skip
    lines += [say(f"Measured as built, {one.key}: {one.value}. Write it into the homestead file; the daybook only keeps it.") for one in ticks.built]  # fmt: skip
    if ticks.poured is not None:
        days = "; ".join(ticks.poured.written)
        lines.append(
            say(
                f"Poured {ticks.poured.on}; the air since, one mean for each 24 hours: {days or 'none yet'}."
            )
        )
    told = [say(f"{one}: rules that hold for ever and have no box; not counted.") for one in ticks.rules]  # fmt: skip
    return (lines or [say("Nothing is ticked in it.")]) + told


def table_text(taken: Taken, became: Sequence[Written], style: Style, *, dry: bool, wrote: bool) -> str:  # fmt: skip
    """What became of a table, line by line, then in numbers.

    Args:
        taken: What was read.
        became: What became of each entry.
        style: Whose units.
        dry: It was to be looked at only.
        wrote: It was written.
    """
    new = [one for one in became if one.new]
    lines = [say(one, "", "  ") for one in taken.told]
    if dry:
        lines += [
            say(f"line {line}: {moment_words(one.entry.moment)}: {entry_words(one.entry, style)}{'' if one.new else f' (written already, entry {one.number})'}", "  ", "      ")
            for line, one in zip(taken.lines, became, strict=True)
        ]  # fmt: skip
    for line, one in zip(taken.lines, became, strict=True):
        lines += [say(f"line {line}: {beside_words(each, one.number, style)}", "  ", "      ") for each in one.beside]  # fmt: skip
    lines += [say(f"{one.section}, {one.key}: {one.given} is refused; allowed: {one.allowed}. {one.do}", "  ", "      ") for one in taken.refused]  # fmt: skip
    verb = "written" if wrote else "would be written" if dry else "could be written"
    counts = [f"{len(new)} {verb}", f"{len(became) - len(new)} written already", f"{taken.refused_lines} refused"]  # fmt: skip
    if taken.empty_lines:
        counts.append(f"{taken.empty_lines} with nothing in them")
    lines.append(say(f"Lines: {', '.join(counts)}.", ""))
    if taken.refused and not wrote:
        lines.append(say("Nothing was written. Mend the refused lines, or take the rest with --leave-out.", ""))  # fmt: skip
    elif dry:
        lines.append("Nothing was written: this was the dry run.")
    return "\n".join(lines)


def restored_text(became: Sequence[Written], *, dry: bool) -> str:
    """What became of an exported daybook.

    Args:
        became: What became of each entry.
        dry: It was to be looked at only.
    """
    new = sum(one.new for one in became)
    verb = "would be put back" if dry else "put back"
    return f"An exported daybook: {new} entries {verb}, {len(became) - new} stand here already."


def list_text(kept: Sequence[Kept], missing: Sequence[Gap], style: Style) -> str:
    """Entries one below the other, and the days that have none.

    Args:
        kept: In order, with those that were struck.
        missing: Runs of days without an entry.
        style: Whose units.
    """
    if not kept:
        return "The daybook has no entry yet."
    lines = [_line(one, style) for one in kept]
    lines += [say(gap_words(gap), "") for gap in missing]
    return "\n".join(lines)


def _line(one: Kept, style: Style) -> str:
    struck = f"  (struck, does not count: {one.struck})" if one.struck is not None else ""
    words = entry_words(one.entry, style).replace("\n", " / ")
    return say(f"{one.number:>4}  {moment_words(one.entry.moment)}: {words}{struck}", "", "      ")


def gap_words(gap: Gap) -> str:
    """A run of days without an entry.

    Args:
        gap: The run.
    """
    return f"No entry {_run(gap)}."


def _run(gap: Gap) -> str:
    first, last = _day(gap.first), _day(gap.last)
    return f"on {first}" if gap.first == gap.last else f"from {first} to {last} ({gap.days} days)"


def _day(day: date) -> str:
    return f"{day.day} {day:%b %Y}"


def due_line(found: Sequence[Due], today: date) -> str:
    """One line: what is due within a week or over, or what comes next.

    Args:
        found: From ``daybook.chores.dues``.
        today: The day.
    """
    soon = due_soon(found, today)
    if soon:
        named = ", ".join(f"{one.chore.key} {due_words(one, today)}" for one in soon[:NAMED])
        more = f", and {len(soon) - NAMED} more (--chores)" if len(soon) > NAMED else ""
        return say(f"Due: {named}{more}.", "", "     ")
    ahead = next((one for one in found if one.due is not None), None)
    if ahead is None:
        return "Nothing is due."
    return f"Nothing is due this week; next: {ahead.chore.key}, {due_words(ahead, today)}."


def due_words(one: Due, today: date) -> str:
    """When a chore is due.

    Args:
        one: The chore.
        today: The day.
    """
    left = one.days_left(today)
    if left is None:
        return "no rhythm known"
    if left < 0:
        return f"since {_day(one.due or today)}"
    if left == 0:
        return "today"
    return f"on {_day(one.due or today)}"


def chores_text(found: Sequence[Due], today: date, only: str | None = None) -> str:
    """Each chore: when, last time, why, how, and where its rhythm comes from.

    Args:
        found: From ``daybook.chores.dues``.
        today: The day.
        only: One chore's key.
    """
    picked = [one for one in found if only is None or one.chore.key == only]
    lines = [line for one in picked for line in _chore(one, today, long=only is not None)]
    if any(one.last is None for one in picked):
        lines.append("What is not in the daybook yet counts from its first day.")
    return "\n".join(lines)


def _chore(one: Due, today: date, *, long: bool) -> Iterator[str]:
    last = "not in the daybook yet" if one.last is None else f"last {_day(one.last)}"  # fmt: skip
    if one.due is None:
        yield say(f"{one.chore.key}: {_asked(one)}; {last}.", "", "    ")
    else:
        yield say(f"{one.chore.key}: {due_words(one, today)}{_use(one)}; {last}.", "", "    ")
    yield say(f"{one.chore.name}. {one.chore.why}", "    ")
    if long:
        yield say(one.chore.words, "    ")
    yield say(f"Rhythm: {one.chore.source}.", "    ")


def _asked(one: Due) -> str:
    if one.chore.key == "equalize":
        return "how often, its maker knows: write  equalize_every_days  under [household.battery]"
    return "not used enough to say when"


def _use(one: Due) -> str:
    if one.by == "date" or not one.limit:
        return ""
    return f", by {one.by}: {_short(one.used)} of {_short(one.limit)}"


def strike_text(kept: Kept, style: Style) -> str:
    """What was withdrawn.

    Args:
        kept: The entry, struck.
        style: Whose units.
    """
    return say(f"Struck, entry {kept.number}: it stays in the daybook and counts no more. {moment_words(kept.entry.moment)}: {entry_words(kept.entry, style)}. Reason: {kept.struck}.", "", "  ")  # fmt: skip


def log_data(name: str, kept: Sequence[Kept]) -> dict[str, Any]:
    """Entries as data: SI, the unit last in each key, one format number; null where nobody looked.

    Args:
        name: Of the homestead.
        kept: Entries, with those that were struck.
    """
    return {"format": FORMAT, "name": name, "entries": [_data(one) for one in kept]}


def _data(one: Kept) -> dict[str, Any]:
    entry, moment = one.entry, one.entry.moment
    plain: dict[str, Any] = {
        "number": one.number, "day": moment.day.isoformat(), "at": None if moment.at is None else f"{moment.at:%H:%M}",
        "offset_min": moment.offset_min,
    }  # fmt: skip
    for each in fields(Entry):
        if each.name != "moment":
            value = getattr(entry, each.name)
            plain[each.name] = list(value) if isinstance(value, tuple) else value
    return {**plain, "kept_at": _iso(one.kept_at), "struck": one.struck, "struck_at": _iso(one.struck_at)}  # fmt: skip


def _iso(at: datetime | None) -> str | None:
    return None if at is None else at.isoformat(timespec="seconds")
