"""The pour and the days since, as the daybook keeps them: a note that reads back."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from polestead.base.problem import Problem, Wrong
from polestead.base.quantity import read_quantity
from polestead.daybook.daybook import Kept

MOST_DAYS = 120
COLDEST_C, WARMEST_C = -60.0, 60.0
NOT_SEEN = "?"


@dataclass(frozen=True, slots=True)
class Poured:
    """When it was poured, and how warm each 24 hours since were.

    Attributes:
        on: The day.
        daily_c: Mean of each [C]; None where nobody looked.
        written: The days as typed, one each.
    """

    on: date
    daily_c: tuple[float | None, ...] = ()
    written: tuple[str, ...] = ()


def read_poured(on: str, days: str, today: date) -> Poured:
    """Read the day of the pour and the days since, one to a line.

    Args:
        on: As 2026-05-15.
        days: One temperature a line, with its unit; ``?`` where nobody looked.
        today: No pour to come is taken, and no day that is not over.

    Raises:
        Wrong: With everything that cannot be read.

    Example:
        >>> tuple(None if one is None else round(one, 2) for one in read_poured("2026-05-15", "54 F\\n?\\n9 C", date(2026, 6, 1)).daily_c)
        (12.22, None, 9.0)
    """
    problems: list[Problem] = []
    try:
        poured = date.fromisoformat(on.strip())
    except ValueError:
        raise Wrong([_problem("the day of the pour", on, "a day as 2026-05-15", "Write the year first.")]) from None  # fmt: skip
    if not date(1970, 1, 1) <= poured <= today:
        raise Wrong([_problem("the day of the pour", on, f"a day up to today, {today}", "Write down what was, not what will be.")])  # fmt: skip
    said = [one.strip() for one in re.split(r"[\n,;]", days)]
    while said and not said[-1]:
        said.pop()
    most = min(MOST_DAYS, (today - poured).days)
    if len(said) > most:
        problems.append(_problem("the days since", f"{len(said)} of them", f"{most}, one for each 24 hours that are over", "Leave out what is still to come."))  # fmt: skip
    daily: list[float | None] = []
    for nth, one in enumerate(said[:MOST_DAYS], start=1):
        try:
            daily.append(None if one in ("", NOT_SEEN) else _read(one))
        except ValueError as wrong:
            problems.append(_problem(f"day {nth}", one[:40], f"{COLDEST_C:.0f} to {WARMEST_C:.0f} C, with its unit: 54 F or 12 C", str(wrong)))  # fmt: skip
    if problems:
        raise Wrong(problems)
    return Poured(poured, tuple(daily), tuple(one or NOT_SEEN for one in said))


def _read(text: str) -> float:
    value = read_quantity(text, "temperature")
    if not COLDEST_C <= value <= WARMEST_C:
        message = "No day has that mean."
        raise ValueError(message)
    return value


def pour_note(poured: Poured) -> str:
    """The note it is kept as.

    Example:
        >>> pour_note(Poured(date(2026, 5, 15), (12.0, None), ("12 C", "?")))
        'poured 2026-05-15: 12 C; ?'
    """
    return f"poured {poured.on}: {'; '.join(poured.written) or 'no day yet'}"


def pour_words(poured: Poured) -> str:
    """The pour as the line of ticks has it.

    Example:
        >>> pour_words(Poured(date(2026, 5, 15), (12.0, None), ("12 C", "?"))), pour_words(Poured(date(2026, 5, 15)))
        ('poured 2026-05-15: 12 C; ?', 'poured 2026-05-15')
    """
    return f"poured {poured.on}: {'; '.join(poured.written)}" if poured.written else f"poured {poured.on}"  # fmt: skip


def poured_in(kept: Iterable[Kept], today: date) -> Poured | None:
    """The last such note that reads, None without one.

    Args:
        kept: Entries that count.
        today: By the clock.
    """
    for one in sorted(kept, key=lambda each: each.number, reverse=True):
        found = re.fullmatch(r"poured (\S+): (.*)", one.entry.note)
        if found is None:
            continue
        try:
            return read_poured(found[1], "" if found[2] == "no day yet" else found[2], today)
        except Wrong:
            continue
    return None


def _problem(key: str, given: str, allowed: str, do: str) -> Problem:
    return Problem("cure", key, given or "nothing", allowed, do)
