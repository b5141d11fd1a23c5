"""A forecast as heard: plain words in, figures out; what is not understood is told and nothing is guessed.

``clear, 20 to 30, gusts 45 kt, low -12 F, 4 in snow tonight; tomorrow grey, wind 10 to 20 mph``.
Commas part what is told, semicolons part days (or name one).  A word of time (tonight, by dark, from 3 pm) goes with its own part.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from datetime import date
from functools import cache

from polestead.base.quantity import NotAQuantity, in_unit, read_quantity
from polestead.base.show import MINUS, number
from polestead.base.table import table
from polestead.morning.forecast.forecast import GUST_OVER_MEAN, Forecast, Sky, Span
from polestead.morning.forecast.least import MOST_M_S, lacks_unit, least_gust

LONGEST = 400
NEEDS_UNIT = "(a wind needs its unit: mph, kt, km/h or m/s)"
NO_SUCH_WIND = "no wind on land blows so"
CALM_GUST_M_S = 5.0  # a wind that was called calm still stirs; upper end of force 2 times 1.5
GUST_SPAN_M_S = (0.0, MOST_M_S)
TEMP_SPAN_C = (-65.0, 55.0)
SNOW_SPAN_M = (0.0, 3.0)
DAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
DAY_FROM_H, DUSK_H, NIGHT_TO_H = 6.0, 18.0, 31.0
UP_BY_H = 5.0  # who is still up before it may call the day about to begin tomorrow
_HOURS: tuple[tuple[str, float, float], ...] = (
    ("this morning", 6.0, 12.0), ("this afternoon", 12.0, 18.0), ("this evening", 18.0, 24.0), ("overnight", 18.0, NIGHT_TO_H),
    ("tonight", 18.0, NIGHT_TO_H), ("at night", 18.0, NIGHT_TO_H), ("by dark", DAY_FROM_H, DUSK_H), ("till dark", DAY_FROM_H, DUSK_H),
    ("after dark", 18.0, NIGHT_TO_H), ("by noon", DAY_FROM_H, 12.0), ("till noon", DAY_FROM_H, 12.0), ("after noon", 12.0, NIGHT_TO_H),
    ("after midnight", 24.0, NIGHT_TO_H), ("by day", DAY_FROM_H, DUSK_H), ("in the morning", 6.0, 12.0),
    ("in the afternoon", 12.0, 18.0), ("in the evening", 18.0, 24.0), ("all day", 0.0, NIGHT_TO_H), ("today", 0.0, NIGHT_TO_H),
)  # fmt: skip
_OF_TODAY = re.compile(r"\b(?:today|tonight|this (?:morning|afternoon|evening))\b")
_NUMBER = r"[-+]?\d+(?:\.\d+)?"
_SPEED_UNIT = r"(?:mph|km/h|kmh|kph|m/s|kts?|knots?|kn)"
_SPEED = re.compile(rf"(?:(?P<one>{_NUMBER})\s*(?P<unit1>{_SPEED_UNIT})?\s*(?:to|-|or)\s*)?(?P<two>{_NUMBER})\s*(?P<unit>{_SPEED_UNIT})")  # fmt: skip
_TEMP_UNIT = r"(?:deg\s*[cf]|°\s*[cf]|[cf])"
_TEMP = re.compile(rf"(?:(?P<one>{_NUMBER})\s*(?P<unit1>{_TEMP_UNIT})?\s*(?:to|or)\s*)?(?P<two>{_NUMBER})\s*(?P<unit>{_TEMP_UNIT})")  # fmt: skip
_BARE = re.compile(rf"(?P<one>{_NUMBER})\s*(?:to|-)\s*(?P<two>{_NUMBER})")
_DEPTH = re.compile(r"(?:(?P<one>\d+(?:\.\d+)?)\s*(?:to|-)\s*)?(?P<two>\d+(?:\.\d+)?)\s*(?P<unit>in|inch|inches|cm|mm|ft|m)")  # fmt: skip
_COMMA = re.compile(r"\d,\d(?!\d\d\b)")
_CLOCK = r"(\d{1,2})(?::(\d{2}))?(?:\s*(am|pm|h))?\b"
_FROM = re.compile(rf"(?:from|after|at) {_CLOCK}(?: (?:to|till|until) {_CLOCK})?")
_TILL = re.compile(rf"(?:by|till|until|before) {_CLOCK}")
_UNITS = {"kts": "kt", "knot": "kt", "knots": "kt", "kn": "kt", "kph": "km/h", "kmh": "km/h", "inch": "in", "inches": "in"}  # fmt: skip


def folded(text: str) -> str:
    """Lower case, single blanks, plain signs."""
    plain = text.translate(str.maketrans("−–’\u00a0", "--' "))
    return " ".join(plain.lower().split())


@cache
def sky_words() -> dict[str, str]:
    """Words of the sky and what they mean."""
    return {row["word"]: row["means"] for row in table("morning", "forecast/words")}


@cache
def named_winds() -> dict[str, tuple[int, float]]:
    """Names of a wind, its force and its mean [m/s]: those of the scale up to a near gale, and the trade's for them."""
    rows = {int(row["force"]): (row["name"], float(row["mean_m_s"])) for row in table("morning", "forecast/by_eye")}  # fmt: skip
    found = {}
    for force, (name, mean) in rows.items():
        if 1 <= force <= 7:
            found[name] = (force, mean)
            found[f"{name}s"] = (force, mean)
    for names, force in ((("light wind", "light winds", "gentle wind", "gentle winds"), 3), (("moderate wind", "moderate winds"), 4), (("breezy", "fresh wind", "fresh winds", "brisk"), 5)):  # fmt: skip
        found |= dict.fromkeys(names, (force, rows[force][1]))
    return found


@dataclass(frozen=True, slots=True)
class _Told:
    """One part made out: a span, and how it is told back."""

    span: Span
    echo: str


def read_heard(text: str, day: date, feet: bool = True, now_h: float = 0.0, unit: str = "") -> Forecast:  # fmt: skip
    """Read a forecast as it was heard.

    Args:
        text: Parts between commas, days between semicolons.
        day: Today; ``tomorrow`` and names of days count from it.
        feet: The owner's units; they settle nothing but what a bare ``20 to 30`` means (F or C), and that is told back.
        now_h: Hour of that day at which it was heard: hours that ended before it are those of the coming night or day.
        unit: Of a wind said without one; empty: none is taken, and what each would make of it stands in ``readings``.

    Returns:
        The forecast, with what was made of it and what was not understood.

    Example:
        >>> heard = read_heard("clear, 20 to 30, gusts 45 kt, low -12 F, 4 in snow tonight", date(2026, 11, 25))
        >>> heard.echo
        'Today: clear, 20 to 30 F, gusts 45 kt, low −12 F. Tonight: snow 4 in.'
        >>> read_heard("gusts 45, purple", date(2026, 11, 25)).not_understood
        ('gusts 45 (a wind needs its unit: mph, kt, km/h or m/s)', 'purple')
    """
    spans: list[Span] = []
    echoes: dict[str, list[str]] = {}
    missed: list[str] = []
    odd: list[tuple[str, int]] = []
    nth_day, doubted, unitless = 0, False, ""
    still_up = 0.0 < now_h < UP_BY_H and "tomorrow" in text.lower()
    if len(text) > LONGEST:
        missed.append(f"all after {LONGEST} signs")
        odd.append((folded(text[LONGEST:]), 0))
    for nth, told_day in enumerate(text[:LONGEST].split(";")):
        nth_day = nth if nth == 0 else nth_day + 1
        for part in filter(None, map(folded, re.split(r"(?<!\d),|,(?!\d)|\. |\.$|(?: |^)(?:and|with) (?=gust|wind|snow|low|high|rain|hail|thunder|sun)", told_day))):  # fmt: skip
            rest, nth_day, problem = _day_in(re.sub(r"^(?:and|then|but|with) ", "", part), nth_day, day)  # fmt: skip
            when, rest = _hours_in(rest)
            if problem:
                missed.append(problem)
                odd.append((part, nth_day))
                continue
            if not rest:
                continue
            told = _told(rest, feet)
            if isinstance(told, str) and told.endswith(NEEDS_UNIT):
                unitless = unitless or rest
                told = _told(f"{rest} {unit}", feet) if unit else told
            if isinstance(told, str):
                missed.append(told)
                odd.append((part, nth_day))
                continue
            start, end, words = _placed(when, nth_day)
            if nth_day == 0 and when is not None:
                start, end, later = _to_come(
                    start, end, now_h, either=feet and _names_no_half(when[2])
                )
                words += later
                doubted = doubted or (bool(later) and told.span.gust_m_s is not None)
            spans.append(replace(told.span, from_h=start, to_h=end))
            if still_up and nth_day == 1 and _harms(told.span):
                # what helps (sun, warmth) is not brought forward
                spans.append(replace(told.span, sky=None, high_c=None, from_h=max(start - 24.0, 0.0), to_h=end - 24.0))  # fmt: skip
                words += ", and of the day now beginning"
            echoes.setdefault(words, []).append(told.echo)
    spans, crossed = _without_crossed_heat(spans)
    missed += crossed
    echo = " ".join(f"{words}: {', '.join(parts)}." for words, parts in echoes.items())
    unitless = unitless or next((part for part, _ in odd if lacks_unit(part)), "")
    readings: tuple[tuple[str, Forecast], ...] = ()
    if unitless and not unit:
        each = ((one, read_heard(text, day, feet, now_h, one)) for one in ("mph", "kt", "km/h", "m/s"))  # fmt: skip
        readings = tuple((one, found) for one, found in each if not any(NO_SUCH_WIND in words for words in found.not_understood))  # fmt: skip
    return Forecast(
        "heard", day, tuple(spans), echo, tuple(missed), 0.0, (), doubted, *_least(odd, feet, now_h, unit), unitless, readings
    )  # fmt: skip


def _without_crossed_heat(spans: list[Span]) -> tuple[list[Span], list[str]]:
    """Spans without the temperatures of hours in which the low told is over the high told, and what is asked of them."""
    asked = []
    for high in [one for one in spans if one.high_c is not None and one.low_c is None]:
        for low in [one for one in spans if one.low_c is not None and one.high_c is None]:
            same = int(low.from_h // 24.0) == int(high.from_h // 24.0)
            if same and (low.low_c or 0.0) > (high.high_c or 0.0):
                asked.append("the low is over the high of the same day (one of them is a slip; neither is taken)")  # fmt: skip
                spans = [replace(one, high_c=None, low_c=None) if one in (high, low) else one for one in spans]  # fmt: skip
    return spans, asked[:1]


def _least(odd: list[tuple[str, int]], feet: bool, now_h: float, unit: str) -> tuple[float, bool, float]:  # fmt: skip
    """Least gust, storm and until when, of the parts not understood: the whole of the next day and night, or of the day named."""
    least, storm, to_h = 0.0, False, 0.0
    for part, nth_day in odd:
        gust, stormy = least_gust(part, feet, unit)
        if gust > 0.0 or stormy:
            least, storm = max(least, gust), storm or stormy
            to_h = max(to_h, 24.0 * nth_day + NIGHT_TO_H, now_h + 24.0)
    return least, storm, to_h


def _harms(span: Span) -> bool:
    """Whether it tells of wind, snow, ice, hail, thunder or cold."""
    return span.gust_m_s is not None or span.snow_m is not None or span.low_c is not None or span.ice or span.hail or span.thunder  # fmt: skip


def _names_no_half(words: str) -> bool:
    """Whether hours were told by a clock of twelve that does not say which half of the day."""
    return any(map(str.isdigit, words)) and not re.search(r"[ap]m\b|\dh\b", words)


def _to_come(start: float, end: float, now_h: float, either: bool = False) -> tuple[float, float, str]:  # fmt: skip
    """Hours of today as they lie ahead: what has ended is a day later; a night that was begun before midnight still lasts.

    Where they may be of ``either`` half of the day, the afternoon's that are still ahead count too.
    """
    if either and end <= now_h < end + 12.0 <= 24.0:
        return (start + 12.0 if start > 0.0 else 0.0), end + 24.0, ", taken as of this afternoon and of the next day"  # fmt: skip
    if end <= now_h:
        return start + 24.0 if start > 0.0 else 0.0, end + 24.0, ", taken as of the next day"
    if 0.0 < now_h < end - 24.0 and start >= DUSK_H:
        return 0.0, end, ""
    return start, end, ""


def _day_in(part: str, nth_day: int, day: date) -> tuple[str, int, str]:
    """The part without its word of the day, which day it is, and what is wrong with that word.

    A word of today is of today whatever parts it from what was said before.
    """
    for word, shift in (("the day after tomorrow", 2), ("day after tomorrow", 2), ("tomorrow night", 1), ("tomorrow", 1)):  # fmt: skip
        if re.search(rf"\b{word}\b", part):
            left = " tonight" if word == "tomorrow night" else ""
            return (re.sub(rf"\b{word}\b:?", "", part).strip() + left).strip(), shift, ""
    found = re.search(rf"\b({'|'.join(DAYS)})\b:?", part)
    if found is None:
        return part, 0 if _OF_TODAY.search(part) else nth_day, ""
    ahead = (DAYS.index(found[1]) - day.weekday()) % 7
    rest = (part[: found.start()] + part[found.end() :]).strip()
    return rest, ahead, "" if ahead <= 6 else part


def _hours_in(part: str) -> tuple[tuple[float, float, str] | None, str]:
    """Hours a part names, and the part without them."""
    for words, start, end in _HOURS:
        found = re.search(rf"\b{words}\b", part)
        if found is not None:
            return (start, end, words), _without(part, found)
    found = _FROM.search(part)
    if found is not None and (found[3] or found[6] or found[2]):
        stop = NIGHT_TO_H if found[4] is None else _clock(found[4], found[5], found[6])
        begin = _begin(found, stop)
        if begin is not None and stop is not None:
            stop = stop if stop > begin else stop + 24.0
            return (begin, stop, found[0]), _without(part, found)
    found = _TILL.search(part)
    if found is not None and (found[3] or found[2]):
        stop = _clock(found[1], found[2], found[3])
        if stop is not None:
            return (0.0, stop, found[0]), _without(part, found)
    return None, part


def _begin(found: re.Match[str], stop: float | None) -> float | None:
    """The first of two hours: of the half of the day it names; else of the last half that lies before the other hour."""
    if found[3] or found[6] not in ("am", "pm") or stop is None:
        return _clock(found[1], found[2], found[3] or found[6])
    halves = (_clock(found[1], found[2], half) for half in ("am", "pm"))
    told = [hour for hour in halves if hour is not None]
    return max((hour for hour in told if hour < stop), default=max(told, default=None))


def _without(part: str, found: re.Match[str]) -> str:
    return " ".join((part[: found.start()] + " " + part[found.end() :]).split())


def _clock(hour: str, minute: str | None, half: str | None) -> float | None:
    value = int(hour)
    if half in ("am", "pm"):
        if not 1 <= value <= 12:
            return None
        value = value % 12 + (12 if half == "pm" else 0)
    elif value > 24:
        return None
    return value + int(minute or 0) / 60.0


def _placed(when: tuple[float, float, str] | None, nth_day: int) -> tuple[float, float, str]:
    """Hours from today's midnight, and their words."""
    before = 24.0 * nth_day
    name = ("Today", "Tomorrow", "The day after")[nth_day] if nth_day < 3 else f"In {nth_day} days"
    if when is None:
        # snow without an hour may come at any time until the next morning; so may a gust
        return before, before + NIGHT_TO_H, name
    start, end, words = when
    if nth_day == 0:
        return start, end, words[0].upper() + words[1:]
    return before + start, before + end, f"{name}, {'at night' if words == 'tonight' else words}"


def _told(part: str, feet: bool) -> _Told | str:
    """What one part tells; a text where nothing is made of it."""
    means = sky_words().get(part)
    if means is not None:
        return _sky(part, means)
    if _COMMA.search(part):
        return f"{part} (a decimal comma is not read: write 3.5)"
    if part in named_winds():
        return _by_name(part, feet)
    for reader in (_wind, _snow, _temperature):
        told = reader(part, feet)
        if told is not None:
            return told
    bare = _BARE.fullmatch(part)
    if bare is not None:
        return _heat(float(bare["one"]), float(bare["two"]), "F" if feet else "C", "", part)
    strict = re.sub(r"^(?:a chance of|chance of|possible|some|light|heavy) ", "", part)
    means = sky_words().get(strict)
    return part if means is None else _sky(part, means)


def _by_name(part: str, feet: bool) -> _Told:
    """A wind by its name: the upper end of its force as a mean, and its gusts."""
    force, mean = named_winds()[part]
    unit = "mph" if feet else "m/s"
    gust = mean * GUST_OVER_MEAN
    return _Told(Span(0.0, 0.0, gust_m_s=gust, from_wind=True), f"{part} (force {force}: gusts taken as {in_unit(gust, unit):.0f} {unit})")  # fmt: skip


def _sky(word: str, means: str) -> _Told:
    blank = Span(0.0, 0.0)
    if means in ("clear", "broken", "grey"):
        sky: Sky = "clear" if means == "clear" else ("broken" if means == "broken" else "grey")
        return _Told(replace(blank, sky=sky), word if word == means else f"{word} ({means})")
    if means == "calm":
        return _Told(replace(blank, gust_m_s=CALM_GUST_M_S, from_wind=True), f"{word} (gusts taken as 5 m/s)")  # fmt: skip
    if means == "thunder":
        return _Told(replace(blank, thunder=True), "thunder")
    if means == "hail":
        return _Told(replace(blank, hail=True, thunder=True), "hail (and thunder)")
    return _Told(replace(blank, rain=means in ("rain", "ice"), ice=means == "ice", sky="grey" if means in ("rain", "ice") else None), word)  # fmt: skip


def _wind(part: str, _feet: bool) -> _Told | str | None:
    """Gust or mean wind; of a range the upper end counts."""
    part = re.sub(
        rf"^({_SPEED.pattern.replace('?P<one>', '').replace('?P<unit1>', '').replace('?P<two>', '').replace('?P<unit>', '')}) (gusts?|winds?)$",
        r"\g<6> \g<1>",
        part,
    )  # 60 mph gusts
    gust = re.match(r"(?:wind )?(?:gusts?|gusting|gusty)\b(?: of| to| up to| from)*\s*", part)
    wind = re.match(r"(?:winds?|breeze)\b(?: of| to| up to| from)*\s*", part)
    head = gust or wind
    if head is None:
        if _SPEED.fullmatch(part) is None:
            return None
        head = re.match(r"", part)
    rest = part[head.end() if head is not None else 0 :]
    if wind is not None and gust is None and (both := re.search(r"\bgust(?:s|ing)?\b(?: to| of| up to)*\s*", rest)):  # fmt: skip
        rest, gust = rest[both.end() :], both
    rest = re.sub(r"^(?:north|south|east|west|[nsew]{1,3})(?:erly|west|east)?\s+", "", rest)
    rest = re.sub(r"\s+(?:from the )?(?:north|south|east|west)(?:west|east)?$", "", rest)
    found = _SPEED.fullmatch(rest)
    if found is None:
        bare = re.fullmatch(rf"{_NUMBER}(?:\s*(?:to|-)\s*{_NUMBER})?", rest)
        return f"{part} {NEEDS_UNIT}" if bare else part
    unit = _UNITS.get(found["unit"], found["unit"])
    if found["unit1"] and _UNITS.get(found["unit1"], found["unit1"]) != unit:
        return f"{part} (two units)"
    values = [float(found["two"])] + ([float(found["one"])] if found["one"] else [])
    fast = read_quantity(f"{max(values):g} {unit}", "speed")
    if min(values) < 0.0 or not GUST_SPAN_M_S[0] <= fast <= GUST_SPAN_M_S[1]:
        return f"{part} ({NO_SUCH_WIND})"
    shown = f"{min(values):g} to {max(values):g} {unit}" if found["one"] else f"{max(values):g} {unit}"  # fmt: skip
    if gust is not None:
        return _Told(Span(0.0, 0.0, gust_m_s=fast), f"gusts {shown}")
    made = max(values) * GUST_OVER_MEAN
    return _Told(Span(0.0, 0.0, gust_m_s=fast * GUST_OVER_MEAN, from_wind=True), f"wind {shown} (gusts taken as {made:g} {unit})")  # fmt: skip


def _snow(part: str, _feet: bool) -> _Told | str | None:
    if not re.search(r"\bsnow\b", part):
        return None
    rest = re.sub(r"\b(?:of )?(?:fresh |new )?snow\b", "", part).strip()
    if not rest:
        return f"{part} (how much? as 4 in snow)"
    found = _DEPTH.fullmatch(rest)
    if found is None:
        return f"{part} (how much? as 4 in snow)"
    unit = _UNITS.get(found["unit"], found["unit"])
    depth = read_quantity(f"{found['two']} {unit}", "length")
    if found["one"]:
        depth = max(depth, read_quantity(f"{found['one']} {unit}", "length"))
    if not SNOW_SPAN_M[0] <= depth <= SNOW_SPAN_M[1]:
        return f"{part} (no such snow falls)"
    shown = f"{found['one']} to {found['two']} {unit}" if found["one"] else f"{found['two']} {unit}"
    return _Told(Span(0.0, 0.0, snow_m=depth), f"snow {shown}")


def _temperature(part: str, _feet: bool) -> _Told | str | None:
    head = re.match(r"(high|highs|low|lows|max|min)\b(?: of| near| about| around)*\s*", part)
    rest = part[head.end() :] if head is not None else part
    found = _TEMP.fullmatch(rest)
    if found is None:
        if head is None:
            return None
        bare = re.fullmatch(_NUMBER, rest)
        return f"{part} (a temperature needs its unit: F or C)" if bare else part
    unit = found["unit"][-1].upper()
    kind = "" if head is None else ("high" if head[1][0:2] in ("hi", "ma") else "low")
    if found["unit1"] and found["unit1"][-1].upper() != unit:
        return f"{part} (two units)"
    one = float(found["one"]) if found["one"] else float(found["two"])
    return _heat(one, float(found["two"]), unit, kind, part)


def _heat(one: float, two: float, unit: str, kind: str, part: str) -> _Told | str:
    low, high = min(one, two), max(one, two)
    try:
        low_c, high_c = (read_quantity(f"{value:g} {unit}", "temperature") for value in (low, high))
    except NotAQuantity:
        return part
    if not TEMP_SPAN_C[0] <= low_c <= high_c <= TEMP_SPAN_C[1]:
        return f"{part} (no such temperature is felt on earth)"
    shown = f"{_n(low)} to {_n(high)} {unit}" if low != high else f"{_n(low)} {unit}"
    if kind == "high":
        return _Told(Span(0.0, 0.0, high_c=high_c), f"high {shown}")
    if kind == "low":
        return _Told(Span(0.0, 0.0, low_c=low_c), f"low {shown}")
    return _Told(Span(0.0, 0.0, low_c=low_c, high_c=high_c), shown)


def _n(value: float) -> str:
    return f"{value:g}".replace("-", MINUS) if value == int(value) else number(value, 1)
