"""The three answers as sentences, short enough for a title block; the same words on every face."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor, isfinite, isnan

from polestead.answer.answer import Answer
from polestead.answer.winter import Winter
from polestead.base.check import Check
from polestead.base.quantity import in_unit
from polestead.base.show import Style, gust, number, percent, styled
from polestead.base.spread import Spread
from polestead.money.result import MoneyResult
from polestead.sheets.ratings import share_up, up
from polestead.sheets.verdict import TWO_QUESTIONS, failing, least, yes
from polestead.stand.stances import as_really_set, set_within_deg
from polestead.wiring.bank.cold_charge import COLD_CHECK
from polestead.wiring.result import WiringResult
from polestead.wiring.run.loss import MOST_SHARE
from polestead.wiring.strings.together import MATCH_CHECK
from polestead.wiring.strings.voltage import (
    CONTROLLER_CHECK,
    DWELLING_CHECK,
    HEAT_CHECK,
    LABEL_CHECK,
    LOW_VOLTAGE_CHECK,
)
from polestead.wiring.tilt_drive.result import CLEAR_OF_FREEZING, LOWEST_CHARGE, NONE_MAY_BE

# What a cold string stands against, by the check's name.
ON = {
    CONTROLLER_CHECK: "on a {limit} V controller",
    DWELLING_CHECK: "on the {limit} V allowed in a dwelling",
    LOW_VOLTAGE_CHECK: "on the {limit} V at which low voltage ends",
    LABEL_CHECK: "on a module labelled {limit} V",
}
OVER = 999  # a use past this is shown as "far over"


@dataclass(frozen=True, slots=True)
class Said:
    """One answer: the question, the answer, what stands beside it."""

    question: str
    answer: str
    beside: tuple[str, ...]


def use_of(use: float) -> str:
    """A use in words.

    Example:
        >>> use_of(0.741), use_of(1.0), use_of(1.12), use_of(float("inf"))
        ('uses 75 of 100', 'at its limit, 100 of 100', 'gives: 112 of 100', 'gives: far over')
    """
    if not use <= OVER / 100.0:
        return "gives: far over"
    hundredths = ceil(use * 100.0 - 1e-9)
    if use > 1.0:
        return f"gives: {max(hundredths, 101)} of 100"
    return "at its limit, 100 of 100" if hundredths >= 100 else f"uses {hundredths} of 100"


def unfit_to_engrave(wiring: WiringResult) -> tuple[str, ...]:
    """What does not hold of strings, run and guards, whose figures stand on the labels."""
    return tuple(f"{check.part}, {check.name}" for check in wiring.checks if not check.holds)


def figures_of(check: Check, style: Style = "metric") -> str:
    """What a check comes to in its own unit: volts in volts, and what gives in figures; the demand rounded up, what bears it down.

    Example:
        >>> from polestead.base.source import COMMON_PRACTICE
        >>> from polestead.base.working import Working
        >>> from polestead.wiring.strings.voltage import CONTROLLER_CHECK
        >>> def of(name: str, demand: float, capacity: float, unit: str) -> Check:
        ...     return Check("string", name, demand, capacity, unit, demand / capacity, COMMON_PRACTICE, Working("", ()))
        >>> figures_of(of(CONTROLLER_CHECK, 288.2, 150.0, "V"))
        'gives: 289 V on a 150 V controller'
        >>> figures_of(of("charging current", 190.4, 95.0, "A"))
        'gives: 191 A against 95 A, 201 of 100'
        >>> figures_of(of("bending", 0.5, 1.0, ""))
        'uses 50 of 100'
        >>> figures_of(of("pull on the wires", 1000.0, 500.0, "N"), "feet"), figures_of(of("lowest charge", 0.5, 0.2, ""))
        ('gives: 225 lbf against 112 lbf, 200 of 100', 'gives: reaches 20 % against least 50 %')
    """
    if check.unit == "V":
        figures = _volts(check)
        return f"{figures}, {use_of(check.use)}" if check.holds else f"gives: {figures}"
    if check.name.startswith(MATCH_CHECK):
        return f"{'' if check.holds else 'gives: '}{percent(check.demand, 1)} apart, {percent(check.capacity)} may be"
    if check.name == COLD_CHECK and not check.holds:
        (under, unit), (lifts, _) = (styled(k, "K", style) for k in (check.demand, check.capacity))
        return f"gives: {_up(under)} {unit} under it, its heater lifts {_down(lifts)} {unit}"
    if check.name == LOWEST_CHARGE:
        said = (
            f"reaches {_down(100.0 * check.capacity)} % against least {_up(100.0 * check.demand)} %"
        )
        return said if check.holds else f"gives: {said}"
    if check.name in NONE_MAY_BE and not check.holds:
        return f"gives: {ceil(check.demand - 1e-6)}{' ' + check.unit if check.unit else ''}, none may be"
    if check.name == CLEAR_OF_FREEZING:
        (asked, unit), (left, _) = (styled(k, "K", style) for k in (check.demand, check.capacity))
        said = f"{_down(left)} {unit} over freezing, {_up(asked)} {unit} wanted"
        return said if check.holds else f"gives: {said}"
    if check.holds or check.unit in ("", "m^2") or not isfinite(check.demand):
        return use_of(check.use)
    (demand, unit), (capacity, _) = (styled(value, check.unit, style) for value in (check.demand, check.capacity))  # fmt: skip
    return f"gives: {_up(demand)} {unit} against {_down(capacity)} {unit}, {use_of(check.use).removeprefix('gives: ')}"


def _volts(check: Check) -> str:
    if check.name == HEAT_CHECK or check.name.startswith("volts at the motor"):
        there = (
            f"{_down(check.capacity, 1)} V there"
            if check.capacity > 0.0
            else "and the wire would take more than there is"
        )
        return f"{_up(check.demand, 1)} V wanted, {there}"
    on = ON.get(check.name, "on {limit} V").format(limit=f"{check.capacity:g}")
    return f"nobody can say what it shows {on}" if isnan(check.demand) else f"{_up(check.demand)} V {on}"  # fmt: skip


def _up(value: float, digits: int = 0) -> str:
    """Never less than it is; small figures keep two places.

    Example:
        >>> _up(190.01), _up(63.81, 1), _up(0.123)
        ('191', '63.9', '0.13')
    """
    digits = digits if abs(value) >= 10.0 or value == 0.0 else 2
    return f"{ceil(value * 10**digits - 1e-6) / 10**digits:.{digits}f}"


def _down(value: float, digits: int = 0) -> str:
    """Never more than it is."""
    digits = digits if abs(value) >= 10.0 or value == 0.0 else 2
    return f"{floor(value * 10**digits + 1e-6) / 10**digits:.{digits}f}"


def breaker_and_earth(wires: WiringResult) -> str:
    """The breaker in place and the earth wire that goes with that very breaker."""
    if wires.in_place_a == wires.breaker_a:
        return f"Breaker {wires.breaker_a:.0f} A, earth wire {wires.earth_wire}"
    return f"Breaker {wires.in_place_a:g} A in the file ({wires.breaker_a:.0f} A by the rule), earth wire {wires.earth_wire} behind the one in the file"


def lost_words(wires: WiringResult) -> str:
    """What run, pole wires and cord lose in full sun, warm; rounded up, the same words and basis everywhere."""
    if wires.drop_share > MOST_SHARE:
        return f"which this run cannot carry: at most {ceil(100.0 * (1.0 - wires.drop_share) - 1e-9)} % of the power can arrive, whatever the controller does"
    return f"{up(wires.drop_v, 1)} V lost warm, wires at 75 C ({share_up(wires.drop_share)})"


def three_answers(answer: Answer, style: Style) -> tuple[Said, Said, Said]:
    """Does it stand, does it carry us through winter, what does it cost."""
    return _stands(answer, style), _winter(answer, style), _cost(answer)


def fault_of(answer: Answer, check: Check) -> str:
    """What is wrong, in words: a part that gives, or a room that is not there."""
    if check in answer.stand.geometry_checks:
        return f"{check.part} not {check.name}"
    if check in answer.wiring.checks:
        return f"{check.part} {figures_of(check, answer.units)}"
    return f"{check.part} {use_of(check.use)}"


def helps_most(answer: Answer, style: Style) -> str:
    """The one change that raises the card most; nothing where none raises it."""
    best = answer.more.changes[0] if answer.more.changes else None
    if best is None or best.weakest_m_s < answer.stand.first_gives_m_s + 0.5:
        return "No single change tried raises the weakest tilt."
    price = "" if best.price is None else f", concrete for {number(best.price)} {answer.money.currency}"  # fmt: skip
    return (
        f"One change that helps most: {best.words}; then the weakest tilt stands to {gust(best.weakest_m_s, style)} "
        f"({best.gives_first} gives first){price}."
    )


def _stands(answer: Answer, style: Style) -> Said:
    stand = answer.stand
    first = least(stand, style)
    most = f"Under the code's loads, most used: {stand.checks[0].part}, {use_of(stand.checks[0].use)}. {TWO_QUESTIONS}" if stand.checks else ""  # fmt: skip
    if stand.verdict == "stands":
        said = f"{yes(answer, style)}."
    elif stand.verdict == "stands only when laid flat":
        said = "Only when laid flat."
    else:
        worst = next((check for check in failing(answer)), None)
        said = f"No: {fault_of(answer, worst)}." if worst else "No."
    return Said("Does it stand?", said, tuple(line for line in (f"{first[0].upper()}{first[1:]}.", most) if line))  # fmt: skip


def _winter(answer: Answer, style: Style) -> Said:
    winter = answer.winter
    without, with_new = winter.without, winter.with_new
    saved = winter.saved_hours
    guess = (
        " A guess until your own figures of a winter fit the year without it."
        if winter.a_guess
        else ""
    )
    if without.engine_hours.mean == 0.0 and with_new.engine_hours.mean == 0.0:
        said = f"Dark {hours(with_new.dark_hours)} a year."
        beside = f"Without it {hours(without.dark_hours)}; no engine ran in any year."
        return Said("Does it carry us through winter?", said, (beside,))
    said = f"With the engine {hours(with_new.engine_hours)} a year."
    dark = (
        ""
        if with_new.dark_hours.bad < 0.5
        else f" Dark hours besides: {hours(with_new.dark_hours)}."
    )
    return Said(
        "Does it carry us through winter?",
        said,
        (
            f"Without it {hours(without.engine_hours)}: it saves {between(saved.bad, saved.good)} h "
            f"({_median_fuel(answer.money, style)} of fuel in a median year).{dark}",
            f"{_if_off(winter)}{guess}",
        ),
    )


def _median_fuel(cost: MoneyResult, style: Style) -> str:
    """Saved in a median year, by the low and by the high end of the fuel line: as the money's table has it."""
    unit = "gal" if style == "feet" else "l"
    low, high = cost.saved_years[1].fuel_l
    return f"{between(in_unit(low, unit), in_unit(high, unit))} {unit}"


def _if_off(winter: Winter) -> str:
    """What the error of the weather's source does to the hours."""
    off = winter.if_off
    if off is None:
        return "Worked on measured years."
    return (
        f"The weather's source may be off by {percent(winter.winter_error)} of the winter's sun: were it so, a median year would be "
        f"{between(off.brighter_with.median, off.darker_with.median)} h with it, "
        f"{between(off.brighter_without.median, off.darker_without.median)} h without."
    )


def hours(spread: Spread) -> str:
    """Median hours, with the good and the bad year.

    Example:
        >>> hours(Spread(40.0, 71.0, 118.0, 100.0, 130.0, 75.0, 100))
        '71 h (40 to 118)'
    """
    return f"{number(spread.median)} h ({number(spread.good)} to {number(spread.bad)})"


def between(low: float, high: float, digits: int = 0) -> str:
    """A range in words; one number where both ends show alike.

    Example:
        >>> between(257.2, 293.9), between(-2.1, 4.0), between(5.0, 5.1)
        ('257 to 294', '−2 to 4', '5')
    """
    first, last = number(low, digits), number(high, digits)
    return first if first == last else f"{first} to {last}"


def winters(low: float, high: float) -> str:
    """So many winters.

    Example:
        >>> winters(1.0, 1.0), winters(7.0, 9.0)
        ('1 winter', '7 to 9 winters')
    """
    words = between(low, high)
    return f"{words} winter{'' if words == '1' else 's'}"


def fuel(litres: float, style: Style) -> str:
    """Fuel in the owner's unit, whole numbers.

    Example:
        >>> fuel(378.5411784, "feet"), fuel(378.5, "metric")
        ('100 gal', '378 l')
    """
    unit = "gal" if style == "feet" else "l"
    return f"{number(in_unit(litres, unit))} {unit}"


UNPRICED = "Nothing is priced yet: what it costs, and when it is paid for, is not known."


def priced(answer: Answer) -> bool:
    """Whether the owner has priced anything; the concrete alone, at a price that is assumed, is no cost of the whole.

    Args:
        answer: Of the homestead.
    """
    return any(not line[2] for line in answer.money.lines)


def _cost(answer: Answer) -> Said:
    cost = answer.money
    total = f"{number(cost.total)} {cost.currency}"
    is_priced = priced(answer)
    if not is_priced:
        said = "Not yet: nothing is priced in the file."
    elif cost.winters_low is None or cost.winters_high is None:
        said = f"{total}; never paid for out of fuel alone."
    else:
        said = f"{total}, paid for after {winters(cost.winters_low, cost.winters_high)}."
    low, high = cost.saved_median
    beside = [f"Saves {between(low, high)} {cost.currency} in a median year{_paid_if_off(answer)}."]
    if is_priced and cost.per_engine_hour_saved is not None:
        beside.append(
            f"{number(cost.per_engine_hour_saved, 2)} {cost.currency} for each engine hour saved in ten winters."
        )
    return Said("What does it cost?", said, (*beside, tipping_worth(answer)))


def _paid_if_off(answer: Answer) -> str:
    """What the error of the weather's source does to the saving and to the winters until paid."""
    off = answer.money.if_off
    if len(off) != 2:
        return ""
    ends = [end for one in off for end in one.saved_median]
    said = f"; were the weather off {between(min(ends), max(ends))}"
    if not priced(answer):
        return said
    paid = [one.winters for one in off]
    if None in paid:
        return f"{said}, and on one side of it never paid"
    both = [end for pair in paid if pair is not None for end in pair]
    return f"{said}, paid after {winters(min(both), max(both))}"


def tipping_worth(answer: Answer) -> str:
    """What tipping is worth in sun, and what it is worth in storm, in two sentences."""
    tipping = answer.tipping
    if tipping is None:
        return ""
    saved = tipping.saves_hours
    if not tipping.told_apart:
        sun = (
            f"In sun alone, tipping cannot be told from {tipping.fixed_tilt_deg:.0f}° all year here "
            f"({between(saved.bad, saved.good)} h a year{_hours_if_off(tipping.if_off_h)})"
        )
    else:
        low, high = sorted((tipping.saves_least.median, tipping.saves_most.median))
        money = (
            f", {between(low, high)} {answer.money.currency} in a median year" if high > 0.5 else ""
        )
        sun = (
            f"In sun, tipping ({tipping.moving}) saves {between(saved.bad, saved.good)} h of engine a year{_hours_if_off(tipping.if_off_h)} "
            f"over {tipping.fixed_tilt_deg:.0f}° all year{money}"
        )
    return f"{sun}; {_storm_worth(answer, tipping.fixed_tilt_deg)}"


def _hours_if_off(mean_h: tuple[float, ...]) -> str:
    """Mean hours saved on both sides of the weather's error."""
    if not mean_h:
        return ""
    return f"; {between(min(mean_h), max(mean_h))} h in the mean, were the weather off"


def _storm_worth(answer: Answer, fixed_tilt_deg: float) -> str:
    """What laying it flat adds in storm over the fixed tilt, both as they are really set."""
    card = answer.stand.card
    fixed = as_really_set(card, min(card, key=lambda row: abs(row.tilt_deg - fixed_tilt_deg)))
    best = next(one for one in answer.stand.stances if one.name == "storm flat")
    style = answer.units
    if best.stands_to_m_s - fixed.stands_to_m_s < 1.0:
        return "in storm it adds nothing: that tilt stands to as much as any."
    return (
        f"in storm, within {set_within_deg(fixed_tilt_deg):.0f}° of {fixed_tilt_deg:.0f}° it stands to {gust(fixed.stands_to_m_s, style)}, "
        f"within {set_within_deg(best.tilt_deg):.0f}° of {best.tilt_deg:.0f}° to {gust(best.stands_to_m_s, style)}."
    )
