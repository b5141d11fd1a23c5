"""Ways of tipping as text: what each brings, which cannot be told apart, what tipping is worth."""

from __future__ import annotations

from collections.abc import Iterator

from polestead.answer.answer import Answer
from polestead.base.show import Style, number
from polestead.habits.result import Habit
from polestead.sheets.sentences import between, fuel, hours, tipping_worth
from polestead.sheets.text import day_words, heading, say


def habits_text(answer: Answer, style: Style) -> str:
    """Every habit tried, best first, and the one sentence."""
    return "\n".join(_lines(answer, style))


def _lines(answer: Answer, style: Style) -> Iterator[str]:
    yield f"{answer.name}: ways of tipping, judged by engine hours over {answer.years} years (seed {answer.seed})"
    for habit in answer.habits:
        yield from _habit(habit, style)
    yield heading("What tipping is worth")
    yield say(tipping_worth(answer))
    yield say(
        f"At {number(answer.winter.winter_error * 100)} % winter error of the weather these differences are smaller than what is not known. "
        "Snow that slides off steep glass, hail, storms and the walk to the pole are not in these hours."
    )


def _habit(habit: Habit, style: Style) -> Iterator[str]:
    same = "   (same as the best, as far as anyone can tell)" if habit.same_as_best else ""
    moves = habit.schedule.moves
    yield heading(f"{habit.schedule.name}{same}")
    if len(moves) == 1:
        yield say(f"{moves[0][1]:.0f}° all year; no walk.")
    else:
        words = ", ".join(f"{tilt:.0f}° from {day_words(day)}" for day, tilt in moves)
        yield say(f"{words}; {len(moves)} walks a year.")
    yield say(
        f"Engine {hours(habit.engine_hours)} (good to bad year); fuel at most {fuel(habit.fuel_most_l.median, style)} in a median year."
    )
    if habit.dark_hours.bad >= 0.5:
        yield say(f"Hours without power {hours(habit.dark_hours)}.")
    yield say(
        f"The array could make {number(habit.sun_wh_year / 1000.0)} kWh a year; the house can use {number(habit.used_wh_year / 1000.0)} kWh of all its sun. "
        f"Against the best fixed tilt: {between(habit.saves_hours.bad, habit.saves_hours.good)} h saved."
    )
