"""The morning command; its own file, since it is wanted at once and reads in only what it needs."""

from __future__ import annotations

import argparse
import os
import sys
from contextlib import AbstractContextManager, nullcontext
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, cast

from polestead.base.problem import Problem, Wrong
from polestead.cli.beside import daybook_beside, file_or_demo

if TYPE_CHECKING:
    from polestead.base.show import Style
    from polestead.morning.basis import Basis
    from polestead.morning.forecast.forecast import Forecast
    from polestead.morning.result import Morning
    from polestead.morning.seen import Seen


def morning(words: argparse.Namespace, *, alone: bool = False) -> int:
    """The line for today."""
    from polestead.morning.clock import place_clock
    from polestead.morning.looked import seen_of
    from polestead.morning.remembered import with_daybook

    wall = _clock(words)
    basis, kept = basis_in(words.file)
    clock = place_clock(basis.facts, wall.year)
    at = clock.standard(wall)
    style = cast("Style", words.units or basis.facts.units)
    seen = seen_of(at, clock, basis.facts, words.lies, words.charge, words.age, words.away or "home", words.blows, words.snow, (basis.card.tilts_deg[0], basis.card.tilts_deg[-1]))  # fmt: skip
    known = with_daybook(seen, daybook_beside(words.file), basis, style, away_told=words.away is not None)  # fmt: skip
    forecast = _forecast(words, basis, seen, kept, known.heard)
    with _loops(alone=alone):
        from polestead.morning.decide import morning_of

        if words.week:
            return _week(basis, seen.wall.replace(tzinfo=None), style)
        line = morning_of(basis, known.seen, forecast, style)
    from polestead.sheets.morning import morning_data, morning_text

    told = _kept(words, basis, seen, line, style) if words.keep else ""
    text = ""
    if words.json is not None:
        from polestead.cli.put import data_text, put

        text = data_text(morning_data(basis.facts.name, line))
        if str(words.json) != "-":
            put(words.json, text.encode("utf-8"))
    if told:
        print(told, file=sys.stderr)
    if str(words.json) == "-":
        print(text, end="")
        return 1 if line.stop else 0
    if words.working is not None:
        from polestead.sheets.workings import printed

        print(printed(((one.working.title, one.working) for one in line.why), words.working, style))
    else:
        print(morning_text(line, why=words.why))
    return 1 if line.stop else 0


def _kept(words: argparse.Namespace, basis: Basis, seen: Seen, line: Morning, style: Style) -> str:
    """Write into the daybook what was given on the command and what was said to it."""
    from polestead.daybook.daybook import open_daybook
    from polestead.daybook.words import machine_offset
    from polestead.morning.remembered import entries_of, house_in

    entries = entries_of(seen, line, machine_offset)
    with open_daybook(daybook_beside(words.file)) as book:
        written = book.append_all(entries, datetime.now().astimezone(), house_in(basis, style))
    numbers = " and ".join(f"entry {one.number}" for one in written)
    return f"Kept in the daybook: {numbers}."


def _week(basis: Basis, at: datetime, style: Style) -> int:
    from polestead.morning.week import week_of
    from polestead.sheets.morning import week_text

    print(week_text(week_of(basis, at, style), style))
    return 0


def _loops(*, alone: bool) -> AbstractContextManager[None]:
    """Plain loops where the process ends after this: compiling machinery takes longer to load than they to run."""
    if not alone:
        return nullcontext()
    from polestead.base.compiled import plain_loops

    return plain_loops()


def _clock(words: argparse.Namespace) -> datetime:
    """This moment; or a time of the owner's clock, where day or hour are given."""
    now = datetime.now().astimezone()
    day = words.today or now.date()
    if words.at is None:
        return now if words.today is None else datetime.combine(day, now.time().replace(microsecond=0))  # fmt: skip
    try:
        hour, _, minute = str(words.at).partition(":")
        return datetime(day.year, day.month, day.day, int(hour), int(minute or 0))
    except ValueError:
        raise Wrong([Problem("", "--at", str(words.at), "an hour as 7:10", "Write it so.")]) from None  # fmt: skip


def basis_in(name: str) -> tuple[Basis, Path]:
    """The kept basis where its key fits; else it is worked, and kept.

    Args:
        name: As given to the command.

    Returns:
        The basis, and where it is kept.
    """
    from polestead.morning.kept import keep, kept_path, key_of, read_kept

    path, demo = file_or_demo(name)
    kept = kept_path(path, writable_beside=not demo)
    try:
        text = path.read_bytes() if path.is_file() and path.stat().st_size < 2_000_000 else b""
    except OSError:
        text = b""
    key = key_of(text, path.parent)
    found = read_kept(kept, key) if text else None
    if found is not None:
        return found, kept
    from polestead.cli.progress import shown
    from polestead.homestead.read import read_homestead
    from polestead.morning.basis import basis_of

    owners = read_homestead(path)
    print("The first morning of this file takes longer; the next ones do not.", file=sys.stderr)
    with shown() as progress:
        basis = basis_of(owners, progress)
    if not keep(kept, key, basis):
        print(f"{kept} may not be written: the next morning takes as long.", file=sys.stderr)
    return basis, kept


def _forecast(words: argparse.Namespace, basis: Basis, seen: Seen, kept: Path, written: Forecast | None) -> Forecast:  # fmt: skip
    """As heard, else the file, else the service he consented to, else what he last wrote down as heard, else none."""
    from polestead.morning.clock import in_standard
    from polestead.morning.forecast.forecast import nothing_heard

    wall = seen.wall.replace(tzinfo=None)

    if words.heard is not None and words.forecast is not None:
        raise Wrong([Problem("", "--heard", "--forecast beside it", "one of the two", "Leave one out.")])  # fmt: skip
    if words.heard is not None:
        from polestead.morning.forecast.words import read_heard

        return in_standard(read_heard(words.heard, wall.date(), basis.facts.units == "feet", wall.hour + wall.minute / 60.0), seen.clock)  # fmt: skip
    if words.forecast is not None:
        from polestead.morning.forecast.file_in import read_forecast_file

        return in_standard(read_forecast_file(words.forecast, wall), seen.clock)
    if basis.facts.service != "none" and not os.environ.get("POLESTEAD_OFFLINE"):
        from polestead.morning.forecast.asked import service_forecast

        return service_forecast(basis, seen.at, kept.with_suffix(".forecast"))
    return written or nothing_heard(seen.at.date())
