"""Ways of tipping as text: what each brings, which cannot be told apart, what tipping is worth."""

from __future__ import annotations

from collections.abc import Iterator

from polestead.answer.answer import Answer
from polestead.base.show import Style, number
from polestead.habits.result import Habit
from polestead.sheets.sentences import between, fuel, hours, tipping_worth
from polestead.sheets.text import heading, moves_words, say


def habits_text(answer: Answer, style: Style) -> str:
    """Every habit tried, best first, and the one sentence."""
    return "\n".join(_lines(answer, style))


def _lines(answer: Answer, style: Style) -> Iterator[str]:
    yield f"{answer.name}: ways of tipping, judged by engine and dark hours over {answer.years} years (seed {answer.seed})"
    group = 0
    for habit in answer.habits:
        if habit.a_bound:
            yield heading("The most any could bring")
        elif habit.group != group:
            group = habit.group
            same = sum(one.group == group and not one.a_bound for one in answer.habits) > 1
            yield heading(_bracket(group, same))
        yield from _habit(habit, answer, style)
    yield heading("What tipping is worth")
    yield say(tipping_worth(answer))
    yield say(
        f"At {number(answer.winter.winter_error * 100)} % winter error of the weather small differences are less than what is not known. "
        "Hail and the walk to the pole are not in these hours; snow on the glass is."
    )


def _bracket(group: int, same: bool) -> str:
    if group == 1:
        return "Best, and what nobody can tell from it" if same else "Best"
    return "Then, alike among themselves" if same else "Then"


def _habit(habit: Habit, answer: Answer, style: Style) -> Iterator[str]:
    walks = f"; {number(habit.moves_a_year)} walks a year" if habit.moves_a_year > 0.0 else ""
    yield say(f"{habit.schedule.name}: {moves_words(habit.schedule)}{walks}.")
    yield say(
        f"Engine {hours(habit.engine_hours)} (good to bad year); fuel {_fuels(habit, style)}, {between(habit.cost_least.median, habit.cost_most.median)} {answer.money.currency} in a median year.",
        "    ", "    ",
    )  # fmt: skip
    if habit.dark_hours.bad >= 0.5:
        yield say(f"Hours without power {hours(habit.dark_hours)}.", "    ", "    ")
    yield say(
        f"The array could make {number(habit.sun_wh_year / 1000.0)} kWh a year; the house can use {number(habit.used_wh_year / 1000.0)} kWh of all its sun. "
        f"Against the best fixed tilt: {between(habit.saves_hours.bad, habit.saves_hours.good)} h saved{_in_the_long_run(habit)}.",
        "    ", "    ",
    )  # fmt: skip


def _in_the_long_run(habit: Habit) -> str:
    """The mean difference to the best, where there is one to tell."""
    low, high = habit.more_than_best_h
    if habit.a_bound or high < 0.5:
        return ""
    return f"; in the mean of the years {between(low, high)} h more than the best"


def _fuels(habit: Habit, style: Style) -> str:
    """Both ends of the fuel line in a median year; one where they show alike."""
    least, most = fuel(habit.fuel_least_l.median, style), fuel(habit.fuel_most_l.median, style)
    return least if least == most else f"{least} to {most}"
