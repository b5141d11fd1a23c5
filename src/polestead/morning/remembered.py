"""What the daybook remembers, handed to the morning: where it lies, the charge, the glass, a gust just met."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from pathlib import Path
from typing import cast

from polestead.base.problem import Wrong
from polestead.base.quantity import NotAQuantity, in_unit, read_quantity
from polestead.base.show import Style, in_style, percent
from polestead.daybook.daybook import Daybook, Kept, Latest, newest, open_daybook
from polestead.daybook.entry import Entry, Moment, Snow
from polestead.daybook.house import BANK_SPAN_C, House, Key
from polestead.daybook.words import Offset, on_the_clock
from polestead.morning.basis import Basis, Facts
from polestead.morning.card import unit_of
from polestead.morning.clock import in_standard
from polestead.morning.forecast.forecast import Forecast
from polestead.morning.forecast.words import read_heard
from polestead.morning.looked import read_away
from polestead.morning.result import Morning
from polestead.morning.seen import AWAY, BANK, HEARD, STALE_CHARGE_H, Away, Glass, Reading, Seen

# How long a look counts; ours.  Snow that covered it counts longer: nobody has written that it is gone.
GLASS_H, COVERED_H, GUST_H, HEARD_H = 12.0, 72.0, 1.0, 24.0
SNOW_H = 48.0
LONGEST_AWAY_DAYS = 60
BANK_H = 48.0  # a battery follows its room within a day or two; ours
_SNOW: dict[Glass, Snow] = {"bare": "bare", "dusted": "dusted", "covered": "covered", "iced": "covered", "buried": "covered"}  # fmt: skip
# what the daybook's column has no word for: it stands as covered there, and so in the note beside it
NOTED: dict[Glass, str] = {"iced": "Glass iced.", "buried": "Low edge buried."}
WAIT_S = 2.0


@dataclass(frozen=True, slots=True)
class Remembered:
    """What counts this morning.

    Attributes:
        seen: Just now, and where nobody looked what the daybook holds.
        heard: The forecast last written down as heard; None where none is young enough.
    """

    seen: Seen
    heard: Forecast | None = None


def with_daybook(seen: Seen, path: Path, basis: Basis, style: Style, *, away_told: bool = False) -> Remembered:  # fmt: skip
    """What was just seen, and where nobody looked what the daybook holds; a daybook is never begun here.

    Args:
        seen: Just now; it goes before what is remembered.
        path: Where the daybook would lie.
        basis: Of the homestead.
        style: In whose units it is told.
        away_told: Where he is was said just now.
    """
    if not path.exists():
        return Remembered(seen)
    try:
        with open_daybook(path, wait_s=WAIT_S) as book:
            found = remembering(seen, book, basis, style, away_told=away_told)
            if book.copy is not None:
                forward = f"The daybook was of an older form and was brought forward; as it was it is kept as {book.copy.name}."
                found = replace(found, seen=replace(found.seen, told=(forward, *found.seen.told)))
            return found
    except Wrong as wrong:
        problem = wrong.problems[0]
        why = f"{problem.given}; {problem.allowed} is read here. {problem.do}"
        return Remembered(replace(seen, told=(*seen.told, f"~ The daybook cannot be read, the line goes by climate: {why}")))  # fmt: skip


def remembering(seen: Seen, book: Daybook, basis: Basis, style: Style, *, away_told: bool = False) -> Remembered:  # fmt: skip
    """The same from a daybook that lies open.

    Args:
        seen: Just now.
        book: The daybook.
        basis: Of the homestead.
        style: In whose units it is told.
        away_told: Where he is was said just now.
    """
    from polestead.morning.learned import with_log  # not wanted where there is no log

    facts = basis.facts
    told: list[str] = []
    lies, charge = seen.lies, seen.charge
    now = seen.wall
    every = book.entries()
    counted = [one for one in every if not one.entry.moment.to_come(now)]
    if lies is None and (last := _last(counted, "tilt_deg", now)) is not None:
        lies = Reading(float(last.value), last.age_h)
        told.append(f"at {lies.value:.0f} since {_when(last.moment, now)}")
        ends = basis.card.tilts_deg[0], basis.card.tilts_deg[-1]
        within = min(max(lies.value, ends[0]), ends[1])
        if within != lies.value:
            told.append(f"~ that is past the end of its travel, taken as {within:.0f}")
            lies = Reading(within, last.age_h)
    if charge is None and (last := _last(counted, "charge", now)) is not None:
        charge = Reading(float(last.value), last.age_h)
        told.append(f"{'~ ' if charge.age_h > STALE_CHARGE_H else ''}charge {percent(charge.value)} from {_when(last.moment, now)}")  # fmt: skip
    glass, snow_told = _glass(seen, counted)
    blows, gust_told = _blows(seen, counted, facts, style)
    said = _said(counted, now)
    away = seen.away if away_told else _away(said.get(AWAY), seen)
    away_words = f"away {away.words}" if away != seen.away else ""
    bank, bank_told = _bank(_last(counted, "bank_c", now), said.get(BANK), seen, style)
    told += [one for one in (snow_told, gust_told, away_words, bank_told) if one]
    words: tuple[str, ...] = (f"From the daybook: {'; '.join(told)}.",) if told else ()
    if len(counted) < len(every):
        ahead = next(one for one in every if one.entry.moment.to_come(now))
        words += (f"~ Entry {ahead.number} is of {_when(ahead.entry.moment, now)}, which is still to come: it counts for nothing yet. Is a clock wrong?",)  # fmt: skip
    found = replace(seen, lies=lies, charge=charge, glass=glass, blows_m_s=blows, away=away, told=(*seen.told, *words))  # fmt: skip
    found = replace(
        with_log(found, counted, basis),
        bank_c=bank,
        snow_of_late=glass == "not looked" and seen.snow_m is None and _snow_of_late(counted, now),
    )
    return Remembered(found, _heard(said.get(HEARD), seen, facts))


def _said(entries: Sequence[Kept], at: datetime) -> dict[str, tuple[str, Moment]]:
    """The last line of each kind in the notes, and when it was written."""
    found: dict[str, tuple[str, Moment]] = {}
    since = at.date() - timedelta(days=LONGEST_AWAY_DAYS)
    for one in entries:
        if one.entry.moment.day < since:
            continue
        for line in one.entry.note.splitlines():
            for word in (HEARD, AWAY, BANK):
                if line.startswith(word):
                    found[word] = (line.removeprefix(word).strip(), one.entry.moment)
    return found


def _heard(said: tuple[str, Moment] | None, seen: Seen, facts: Facts) -> Forecast | None:
    at = seen.wall
    if said is None or (age := said[1].age_h(at)) > HEARD_H:
        return None
    heard = in_standard(read_heard(said[0], said[1].day, facts.units == "feet", said[1].clock_h), seen.clock)  # fmt: skip
    if not heard.spans and not heard.not_understood:
        return None
    readings = tuple((unit, replace(one, age_h=age)) for unit, one in heard.readings)
    return replace(heard, age_h=age, echo=f"{_when(said[1], at)}. {heard.echo}", readings=readings)


def _bank(last: Latest | None, said: tuple[str, Moment] | None, seen: Seen, style: Style) -> tuple[Reading | None, str]:  # fmt: skip
    """The battery's temperature: just read, or written down in the last two days; the newer of its column and a line of a note."""
    if seen.bank_c is not None or (said is None and last is None):
        return seen.bank_c, ""
    if last is not None and (said is None or last.moment.age_h(seen.wall) <= said[1].age_h(seen.wall)):  # fmt: skip
        read_c, moment = float(last.value), last.moment
    else:
        assert said is not None  # noqa: S101  told to the type checker
        try:
            read_c, moment = read_quantity(said[0], "temperature"), said[1]
        except NotAQuantity:
            return None, f"~ bank temperature {said[0][:20]}, which is none"
    age, words = moment.age_h(seen.wall), in_style(read_c, "C", style)
    when = _when(moment, seen.wall)
    if not BANK_SPAN_C[0] <= read_c <= BANK_SPAN_C[1]:
        return None, f"~ bank at {words} {when}: look again, nothing is made of it"
    if age > BANK_H:
        return None, f"~ bank at {words} {when}: too old, taken as the month has it"
    return Reading(read_c, age), f"{'~ ' if age > GLASS_H else ''}bank at {words} from {when}"


def _away(said: tuple[str, Moment] | None, seen: Seen) -> Away:
    """Till dark counts on its day; so many days run out."""
    if said is None:
        return seen.away
    try:
        away = read_away(said[0])
    except Wrong:
        return seen.away
    gone = (seen.wall.date() - said[1].day).days
    if away.till_dark:
        return away if gone == 0 else seen.away
    left = away.days - gone
    if left <= 0.0:
        return seen.away
    return replace(away, days=left, words=f"{left:.0f} day{'s' if left > 1.0 else ''}")


def entries_of(seen: Seen, line: Morning, offset_of: Offset) -> tuple[Entry, ...]:
    """What was seen just now and what was said to it, as entries for the daybook; the tilt it was told to go to is none of them.

    Args:
        seen: Just now, without what the daybook remembered.
        line: What was said.
        offset_of: The clock's offset from UTC at a wall time.
    """
    said = " ".join(f"{one.text} ({one.sureness})" for one in line.sentences)
    entries = [Entry(
        _moment(seen.wall, offset_of),
        tilt_deg=None if seen.lies is None else seen.lies.value,
        charge=seen.charge.value if seen.charge is not None and seen.charge.age_h == 0.0 else None,
        snow=_SNOW.get(seen.glass),
        gust_m_s=seen.blows_m_s,
        note=f"Morning line: {said}{f' {NOTED[seen.glass]}' if seen.glass in NOTED else ''}",
        whence="morning",
    )]  # fmt: skip
    if seen.charge is not None and seen.charge.age_h > 0.0:
        then = seen.clock.wall(seen.at - timedelta(hours=seen.charge.age_h))
        entries.insert(0, Entry(_moment(then, offset_of), charge=seen.charge.value, whence="morning"))  # fmt: skip
    return tuple(entries)


def house_in(basis: Basis, style: Style) -> House:
    """What a basis knows of the house, against slips of the pen in what is kept.

    Args:
        basis: Of the homestead.
        style: Whose units.
    """
    tilts = basis.tilts_deg
    return House(float(tilts[0]), float(tilts[-1]), basis.facts.nominal_v, basis.facts.rated_w, style=style)  # fmt: skip


def _last(counted: Sequence[Kept], key: Key, at: datetime) -> Latest | None:
    """The last of a kind; one written for a later hour than the one asked about tells nothing of it."""
    name = "glass" if key == "snow" else key
    having = [one for one in counted if getattr(one.entry, name) is not None]
    if not having:
        return None
    day = max(one.entry.moment.day for one in having)
    last = newest([one for one in having if one.entry.moment.day == day])
    moment = last.entry.moment
    return Latest(key, getattr(last.entry, name), moment, moment.age_h(at), last.number)


def _moment(wall: datetime, offset_of: Offset) -> Moment:
    """A time of the owner's clock, with its offset where that is known."""
    at = wall.time().replace(second=0, microsecond=0)
    off = wall.utcoffset()
    if off is None:
        return on_the_clock(wall.date(), at, offset_of)[0]
    return Moment(wall.date(), at, round(off.total_seconds() / 60.0))


def _glass(seen: Seen, counted: Sequence[Kept]) -> tuple[Glass, str]:
    if seen.glass != "not looked" or seen.snow_m is not None:
        return seen.glass, ""
    last = _last(counted, "snow", seen.wall)
    if last is None:
        return seen.glass, ""
    note = next(one.entry.note for one in counted if one.number == last.number)
    glass = next((one for one, words in NOTED.items() if words in note), cast("Glass", last.value))
    when = _when(last.moment, seen.wall)
    if last.age_h <= GLASS_H:
        return glass, f"glass {glass} {when}"
    if last.value == "covered" and last.age_h <= COVERED_H:
        return glass, f"~ glass {glass} {when}, and nobody wrote that it is bare: taken as {glass}"
    return seen.glass, ""


def _snow_of_late(counted: Sequence[Kept], at: datetime) -> bool:
    last = _last(counted, "snow", at)
    return last is not None and last.value != "bare" and last.age_h <= SNOW_H


def _blows(
    seen: Seen, counted: Sequence[Kept], facts: Facts, style: Style
) -> tuple[float | None, str]:
    if seen.blows_m_s is not None:
        return seen.blows_m_s, ""
    last = _last(counted, "gust_m_s", seen.wall)
    if last is None or last.age_h > GUST_H:
        return None, ""
    by_eye = any(one.entry.gust_seen for one in counted if one.number == last.number)
    gust = float(last.value) if by_eye else float(last.value) / facts.anemometer_share
    return (
        gust,
        f"gust {in_unit(gust, unit_of(style)):.0f} {unit_of(style)} {_when(last.moment, seen.wall)}",
    )


def _when(moment: Moment, at: datetime) -> str:
    days = (at.date() - moment.day).days
    hour = "" if moment.at is None else f" {moment.at.hour}:{moment.at:%M}"
    if days == 0:
        return f"today{hour}"
    return f"{moment.day:%A}{hour}" if 0 < days < 6 else f"{moment.day.day} {moment.day:%b %Y}"
