"""A small forecast file, TOML or CSV: hours or days, each figure with its unit.

TOML: ``[[span]]`` with ``from`` and ``to`` (``2026-11-25T18:00``, local standard time) or ``day``, and any of ``sky``, ``gust``,
``wind``, ``high``, ``low``, ``snow``, ``rain``, ``thunder``, ``hail``, ``ice``; above them ``made`` (when).  CSV: the same names as columns.
"""

from __future__ import annotations

import csv
import tomllib
from collections.abc import Mapping
from datetime import date, datetime, time
from io import StringIO
from pathlib import Path
from typing import Any

from polestead.base.problem import Problem, Wrong
from polestead.base.quantity import NotAQuantity, read_quantity
from polestead.morning.forecast.forecast import GUST_OVER_MEAN, Forecast, Sky, Span
from polestead.morning.forecast.words import (
    GUST_SPAN_M_S,
    NIGHT_TO_H,
    SNOW_SPAN_M,
    TEMP_SPAN_C,
    sky_words,
)

LARGEST_BYTES = 200_000
KEYS = ("from", "to", "day", "sky", "gust", "wind", "high", "low", "snow", "rain", "thunder", "hail", "ice")  # fmt: skip
_SPANS = {
    "gust": ("speed", *GUST_SPAN_M_S), "wind": ("speed", *GUST_SPAN_M_S), "high": ("temperature", *TEMP_SPAN_C),
    "low": ("temperature", *TEMP_SPAN_C), "snow": ("length", *SNOW_SPAN_M),
}  # fmt: skip


def read_forecast_file(path: Path, now: datetime) -> Forecast:
    """Read it.

    Args:
        path: Ending in .csv for a table, else TOML.
        now: The owner's clock.

    Raises:
        Wrong: With everything wrong in it.
    """
    text = _text(path)
    problems: list[Problem] = []
    made: datetime | None = None
    if path.suffix.lower() == ".csv":
        rows: list[Mapping[str, Any]] = list(csv.DictReader(StringIO(text)))
    else:
        rows, made = _toml(text, problems)
    spans = [span for nth, row in enumerate(rows, start=1) if (span := _span(row, nth, now.date(), problems)) is not None]  # fmt: skip
    if not rows and not problems:
        problems.append(_problem("", "no span", "at least one", "Write a [[span]], or a row."))
    if problems:
        raise Wrong(problems)
    age = 0.0 if made is None else max((now - made).total_seconds() / 3600.0, 0.0)
    notes = () if any(span.to_h > now.hour for span in spans) else ("The forecast file tells of days gone by: it counts for nothing.",)  # fmt: skip
    told = sum(span.gust_m_s is not None for span in spans)
    echo = f"From {path.name}: {len(spans)} spans, {told} with a gust."
    return Forecast("file", now.date(), tuple(spans), echo, age_h=age, notes=notes)


def _text(path: Path) -> str:
    try:
        with path.open("rb") as file:
            raw = file.read(LARGEST_BYTES + 1)
        if len(raw) > LARGEST_BYTES:
            raise Wrong([_problem("", f"{path}, over {LARGEST_BYTES:,} bytes", "a small file", "Is it another file?")])  # fmt: skip
        return raw.decode("utf-8-sig")
    except OSError as refused:
        raise Wrong([_problem("", f"{path}, which cannot be read ({refused.strerror})", "a TOML or CSV file", "Check the name.")]) from None  # fmt: skip
    except UnicodeDecodeError:
        raise Wrong([_problem("", f"{path}, which is not UTF-8 text", "a TOML or CSV file", "Save it as UTF-8.")]) from None  # fmt: skip


def _toml(text: str, problems: list[Problem]) -> tuple[list[Mapping[str, Any]], datetime | None]:
    try:
        raw = tomllib.loads(text)
    except (ValueError, RecursionError) as wrong:
        problems.append(_problem("", f"text that is not TOML: {wrong}", "[[span]] and keys", "Mend that line."))  # fmt: skip
        return [], None
    problems += [_problem(key, "unknown", "made, span", "Leave it out.") for key in raw if key not in ("made", "span")]  # fmt: skip
    made = raw.get("made")
    if made is not None and not isinstance(made, datetime):
        problems.append(_problem("made", str(made), "2026-11-25T05:00:00", "Write date and time."))
        made = None
    rows = raw.get("span", [])
    if not isinstance(rows, list) or not all(isinstance(row, dict) for row in rows):
        problems.append(_problem("span", "something else", "[[span]] tables", "Write [[span]]."))
        rows = []
    return rows, None if made is None else made.replace(tzinfo=None)


def _span(row: Mapping[str, Any], nth: int, today: date, problems: list[Problem]) -> Span | None:
    """One span; what is wrong with it goes to the problems."""
    before = len(problems)
    given = {str(key).strip().lower(): value for key, value in row.items() if value not in (None, "", [])}  # fmt: skip

    def wrong(key: str, allowed: str, do: str) -> None:
        problems.append(_problem(f"span {nth}: {key}", str(given.get(key, "nothing"))[:60], allowed, do))  # fmt: skip

    for key in given:
        if key not in KEYS:
            wrong(key, ", ".join(KEYS), "Use one of these names.")
    hours = _hours(given, today)
    if hours is None:
        wrong("from", "from and to as 2026-11-25T18:00, or day as 2026-11-25", "Write both, the later one second.")  # fmt: skip
    values = {key: _figure(given[key], key, wrong) for key in _SPANS if key in given}
    sky = None if "sky" not in given else sky_words().get(str(given["sky"]).strip().lower())
    if "sky" in given and sky not in ("clear", "broken", "grey"):
        wrong("sky", "clear, broken or grey", "Write one of these.")
    flags = {key: _flag(given.get(key), key, wrong) for key in ("rain", "thunder", "hail", "ice")}
    if len(problems) > before or hours is None:
        return None
    gust, wind = values.get("gust"), values.get("wind")
    named: Sky | None = "clear" if sky == "clear" else ("broken" if sky == "broken" else ("grey" if sky == "grey" else None))  # fmt: skip
    return Span(
        hours[0], hours[1],
        gust if gust is not None else (None if wind is None else wind * GUST_OVER_MEAN), gust is None and wind is not None,
        named, values.get("high"), values.get("low"), values.get("snow"), flags["rain"], flags["thunder"] or flags["hail"], flags["hail"], flags["ice"],
    )  # fmt: skip


def _hours(given: Mapping[str, Any], today: date) -> tuple[float, float] | None:
    start, end, day = (_moment(given.get(key)) for key in ("from", "to", "day"))
    midnight = datetime.combine(today, time())
    if day is not None and start is None and end is None:
        begin = (day - midnight).total_seconds() / 3600.0
        return begin, begin + NIGHT_TO_H
    if start is None or end is None or end <= start or (end - start).days > 14:
        return None
    return (start - midnight).total_seconds() / 3600.0, (end - midnight).total_seconds() / 3600.0


def _moment(value: Any) -> datetime | None:
    if isinstance(value, str):
        try:
            value = datetime.fromisoformat(value.strip())
        except ValueError:
            return None
    if isinstance(value, datetime):
        return value.replace(tzinfo=None)
    return datetime.combine(value, time()) if isinstance(value, date) else None


def _figure(value: Any, key: str, wrong: Any) -> float | None:
    dimension, least, most = _SPANS[key]
    try:
        figure = read_quantity(str(value), dimension)
    except NotAQuantity as why:
        wrong(key, f"a {dimension} with its unit", f"{why}.")
        return None
    if not least <= figure <= most:
        wrong(key, "what weather does", "Look at the figure and its unit again.")
        return None
    return figure


def _flag(value: Any, key: str, wrong: Any) -> bool:
    if value is None or isinstance(value, bool):
        return bool(value)
    text = str(value).strip().lower()
    if text not in ("yes", "no", "true", "false"):
        wrong(key, "yes or no", "Write yes or no.")
    return text in ("yes", "true")


def _problem(key: str, given: str, allowed: str, do: str) -> Problem:
    return Problem("forecast", key, given, allowed, do)
