"""Ways of tipping as sentences to choose among, those nobody can tell apart together."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from polestead.answer.answer import Answer
from polestead.base.show import number
from polestead.habits.result import Habit
from polestead.mount.schedule import TiltSchedule
from polestead.sheets.sentences import between
from polestead.sheets.text import moves_words

MOST_DATES = 4
ALIKE = "same, as far as anyone can tell"


@dataclass(frozen=True, slots=True)
class Line:
    """One way of tipping.

    Attributes:
        nth: Its place in the answer.
        name: Capital letter first.
        moves: What is moved when.
        brings: Engine, saving, walks.
        chosen: It is the owner's own plan.
    """

    nth: int
    name: str
    moves: str
    brings: str
    chosen: bool


def habit_groups(answer: Answer) -> list[tuple[str, list[Line]]]:
    """Words of each bracket (empty for one alone) and the ways in it; the bound is none of them."""
    real = [(nth, one) for nth, one in enumerate(answer.habits) if not one.a_bound]
    groups = []
    for _, some in groupby(sorted(real, key=lambda one: one[1].group), key=lambda one: one[1].group):  # fmt: skip
        lines = [_line(answer, nth, habit) for nth, habit in some]
        groups.append((ALIKE if len(lines) > 1 else "", lines))
    return groups


def plan_of(answer: Answer) -> int | None:
    """Place of the owner's own plan among the ways, None where it is not there."""
    return next((nth for nth, one in enumerate(answer.habits) if one.schedule == answer.schedule), None)  # fmt: skip


def bounds(answer: Answer) -> Iterator[str]:
    """What is no habit: the most any could bring."""
    for habit in answer.habits:
        if habit.a_bound:
            yield f"{_capital(habit.schedule.name)}: {_engine(habit)}; {moves_words(habit.schedule)}."  # fmt: skip


def _line(answer: Answer, nth: int, habit: Habit) -> Line:
    saves = between(habit.saves_hours.bad, habit.saves_hours.good)
    walks = f"{number(habit.moves_a_year)} walks" if habit.moves_a_year >= 0.5 else "no walks"
    brings = f"{_engine(habit)} · saves {saves} h against the best fixed tilt · {walks}"
    return Line(nth, _capital(habit.schedule.name), _moves(habit), brings, habit.schedule == answer.schedule)  # fmt: skip


def _moves(habit: Habit) -> str:
    """The dates, where a line holds them; else how many tilts and between which."""
    schedule = habit.schedule
    if isinstance(schedule, TiltSchedule) and len(schedule.moves) > MOST_DATES:
        tilts = [tilt for _, tilt in schedule.moves]
        return f"{len(tilts)} tilts a year, {min(tilts):.0f} to {max(tilts):.0f}°"
    return moves_words(schedule)


def _engine(habit: Habit) -> str:
    if habit.engine_hours.mean == 0.0 and habit.dark_hours.mean > 0.0:
        return f"dark {number(habit.dark_hours.median)} h, bad year {number(habit.dark_hours.bad)}"
    return f"engine {number(habit.engine_hours.median)} h, bad year {number(habit.engine_hours.bad)}"  # fmt: skip


def _capital(words: str) -> str:
    return words[0].upper() + words[1:]
