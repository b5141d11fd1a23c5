"""The whole answer as plain text, 78 columns, made to be read aloud."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import ceil, isfinite

from polestead.answer.answer import Answer
from polestead.answer.winter import Winter
from polestead.base.hours import DAYS
from polestead.base.quantity import read_quantity
from polestead.base.show import Style, gust, gust_asked, in_style, number, percent, set_length
from polestead.base.spread import Spread
from polestead.habits.result import Habit
from polestead.household.result import HouseSummary
from polestead.money.result import MoneyResult
from polestead.money.slips import beside_no_line, line_words
from polestead.mount.schedule import EachDaysBest, Habitual, SkyRule
from polestead.offers.doubts import ORDER, doubts_of
from polestead.sheets.building import (
    hanging_lines,
    lift_lines,
    pour_lines,
)
from polestead.sheets.lines import WIDTH
from polestead.sheets.lines import heading as heading
from polestead.sheets.lines import say as say
from polestead.sheets.sentences import (
    breaker_and_earth,
    figures_of,
    fuel,
    helps_most,
    hours,
    lost_words,
    three_answers,
    use_of,
)
from polestead.sheets.spots import spot_words, trees_words
from polestead.sheets.verdict import failing
from polestead.stand.result import StandResult, TiltStand
from polestead.wiring.guards.rounded import whole_amps_up
from polestead.wiring.result import WiringResult

CARD_TILTS = (0, 5, 10, 15, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 85, 90)
STANDING = {"said": "told you by", "assumed": "assumed", "default": "taken"}


def answer_text(answer: Answer, style: Style) -> str:
    """The answer for a terminal."""
    parts = (
        _head(answer, style),
        _stand(answer, style),
        _winter(answer, style),
        _habits(answer),
        _spots(answer, style),
        wires_lines(answer.wiring, style),
        _dangers_lines(answer.wiring),
        _build(answer, style),
        _cost(answer),
        _unsettled(answer),
        _ask(answer),
        _cautions(answer),
    )
    return "\n".join("\n".join(part) for part in parts)


def _head(answer: Answer, style: Style) -> Iterator[str]:
    yield f"{answer.name}   (we are {answer.we_are})"
    yield "=" * WIDTH
    yield say(answer.place.words, "")
    for doubt in answer.place.doubts:
        yield say(f"Look: {doubt}", "", "      ")
    for said in three_answers(answer, style):
        yield ""
        yield said.question
        yield say(said.answer, "  ")
        for line in said.beside:
            yield say(line, "    ")
    yield ""
    yield say(
        "Screening sums, not a stamped design. Your local code, a licensed engineer and an electrician decide. "
        "~ marks what nobody has confirmed.",
        "",
    )


def _stand(answer: Answer, style: Style) -> Iterator[str]:
    stand = answer.stand
    yield heading("Gust card: what each tilt stands to")
    yield from card_lines(stand, style)
    yield ""
    yield say(
        f"The code's own wind on the same scale: {gust_asked(stand.code_gust_m_s, style)}. The code check below answers "
        "another question, whether it may be built; the card takes the whole gust, with no allowance for its direction, "
        "and the lower of two sets of coefficients."
    )
    yield heading("Code check, every part at its worst tilt")
    for check in stand.checks:
        yield f"  {check.part:<40} {use_of(check.use)}"
    for check in stand.geometry_checks:
        if not check.holds:
            yield say(f"NO: {check.part} not {check.name}.")
    yield say(helps_most(answer, style))
    for half in answer.more.half_built:
        yield say(f"Half built, {half.name}: {gust(half.gust_m_s, style)}.")
    yield "  It relies on:"
    for relied in stand.relied_on:
        yield say(relied, "  * ", "    ")
    yield "  Beside it:"
    for note in stand.notes:
        yield say(note, "  * ", "    ")


def _time_to_flat(card: tuple[TiltStand, ...]) -> str:
    """How long before that gust the way to flat must begin."""
    seconds = card[-1].flat_in_s if card else None
    if seconds is None:
        return ""
    return f"; from {card[-1].tilt_deg:.0f}° it takes {number(seconds)} s of key to lie flat, twice that loaded and cold: begin before such gusts come"


def card_lines(
    stand: StandResult, style: Style, every: Iterable[int] = CARD_TILTS
) -> Iterator[str]:
    """The gust card's table; speeds are rounded down."""
    shown = set(every)
    card = stand.card
    ends = {round(card[0].tilt_deg), round(card[-1].tilt_deg)} if card else set()
    yield "  tilt  stands to  half snow  on the rod  flat under  gives first"
    for row in card:
        if round(row.tilt_deg) not in shown | ends:
            continue
        rod = "-" if row.rod_stands_to_m_s is None else gust(row.rod_stands_to_m_s, style)
        move = "-" if row.path_under_m_s is None else gust(row.path_under_m_s, style)
        yield (
            f"  {row.tilt_deg:3.0f}°  {gust(row.stands_to_m_s, style):>9}  {gust(row.snow_stands_to_m_s, style):>9}"
            f"  {rod:>10}  {move:>10}  {row.gives_first}"
        )
    least = stand.move_under_m_s
    if least is not None:
        yield say(
            f"Moving over the whole travel: only under {gust(least, style)}{_time_to_flat(card)}. Speeds are three-second gusts at 10 m in the open, rounded down, for the tilt itself: set it a few degrees off, and the neighbour's row counts."
        )
    else:
        yield say("Speeds are three-second gusts at 10 m in the open, rounded down.")


def _spread_row(word: str, spread: Spread, unit: str) -> str:
    bad = f"{number(spread.bad)} ({number(spread.bad_low)} to {number(spread.bad_high)})"
    return f"  {word:<30} {number(spread.good):>8} {number(spread.median):>8} {bad:>20} {unit}"


def _winter(answer: Answer, style: Style) -> Iterator[str]:
    winter = answer.winter
    yield heading(f"Winter: {answer.years} years, seed {answer.seed}")
    yield f"  {'':<30} {'good':>8} {'median':>8} {'bad (its range)':>20}"
    for word, summary in (("without the new array", winter.without), ("with it", winter.with_new)):
        yield f"  {word}"
        yield _spread_row("    engine hours", summary.engine_hours, "h")
        yield _fuel_row("    fuel, least", summary.fuel_least_l, style)
        yield _fuel_row("    fuel, most", summary.fuel_most_l, style)
        yield _spread_row("    hours without power", summary.dark_hours, "h")
        yield _spread_row("    longest dark spell", summary.longest_dark_h, "h")
    yield from house_lines(answer, style)
    yield say(f"Weather: {winter.weather}.")
    if winter.if_off is not None:
        off = winter.if_off
        yield say(
            f"Were the winter's sun {percent(winter.winter_error)} more or less, as its source allows, a median year would burn at most "
            f"{fuel(off.brighter_fuel_with_l.median, style)} to {fuel(off.darker_fuel_with_l.median, style)} with it, "
            f"{fuel(off.brighter_fuel_without_l.median, style)} to {fuel(off.darker_fuel_without_l.median, style)} without."
        )
    if winter.beside:
        yield say("Does this look like your house?")
    yield from likeness_lines(winter, style)
    for note in winter.notes:
        yield say(note, "  * ", "    ")


def likeness_lines(winter: Winter, style: Style) -> Iterator[str]:
    """Whether the year without the new array looks like the owner's own: the factor fitted, and his figures beside ours."""
    if winter.use_fit is not None and winter.use_fit.at_edge:
        yield say(
            "No house-use factor between 0.5 and 2.5 makes these years look like your last winter, so none is used: look for another "
            "cause first (a fill counted twice, another use of the fuel, a battery far from its rating)."
        )
    elif winter.use_fit is not None:
        fit = winter.use_fit
        yield say(
            f"House-use factor {number(fit.factor, 2)} ({number(fit.low, 2)} to {number(fit.high, 2)}), fitted to last winter: "
            "all your uses are taken times this. To hold it, write use_factor under [household]."
        )
    elif winter.use_factor != 1.0:
        yield say(f"House-use factor {number(winter.use_factor, 2)}, yours: all your uses are taken times this.")  # fmt: skip
    for row in winter.beside:
        fits = "fits" if row.within else "does not fit"
        theirs, low, high = (
            _beside(value, row.unit, style) for value in (row.theirs, row.ours_good, row.ours_bad)
        )
        yield say(
            f"{row.word[0].upper()}{row.word[1:]}: yours {theirs}, ours without the array {low} to {high}: {fits}."
        )


def house_lines(answer: Answer, style: Style) -> Iterator[str]:
    """What the house does with the sun, the engine and the bank in a mean year with the new array."""
    told = answer.winter.with_new
    causes = (
        ("the battery was full", told.full_wh_by_month),
        ("it could not take it so fast", told.acceptance_wh_by_month),
        ("a controller held it back", told.held_back_wh_by_month),
    )
    turned = "; ".join(f"{number(sum(by_month) / 1000.0)} kWh because {why}" for why, by_month in causes)  # fmt: skip
    yield say(
        f"With it, in a mean year: {number(sum(told.sun_used_wh_by_month) / 1000.0)} kWh of sun used; turned away {turned}."
    )
    fills = f", {number(told.fills, 1)} tank fills" if told.fills > 0.0 else ""
    low, low_bad = min(zip(told.dawn_charge_by_month, told.dawn_charge_low_by_month, strict=True))
    longest = told.longest_since_brim_full_days
    full = f"{number(longest)} days at most without being" if longest <= DAYS else "never"
    yield say(
        f"{number(told.starts)} engine starts{fills}; charge at dawn in the leanest month {percent(low)} "
        f"({percent(low_bad)} in a bad year); {full} brim-full "
        f"in a median year; {number(told.full_cycles)} full cycles' worth of wear{_bank_wear(told, style)}."
    )


def _bank_wear(told: HouseSummary, style: Style) -> str:
    if isfinite(told.cycling_loss):
        return f", about {percent(told.cycling_loss, 1)} of a new bank's capacity in its first year, standing time apart"
    return f", {fuel(told.water_l, style)} of water" if told.water_l > 0.0 else ""


def _beside(value: float, unit: str, style: Style) -> str:
    if unit == "l":
        return fuel(value, style)
    if unit == "fills":
        return number(value, 1)
    return percent(value) if unit == "" else f"{number(value)} {unit}"


def _fuel_row(word: str, spread: Spread, style: Style) -> str:
    unit = "gal" if style == "feet" else "l"
    return _spread_row(word, spread.times(1.0 / read_quantity(f"1 {unit}", "volume")), unit)


def _spots(answer: Answer, style: Style) -> Iterator[str]:
    if answer.trees is not None:
        yield heading("Trees that grow")
        yield say(trees_words(answer.trees))
    if not answer.spots:
        return
    yield heading("Which spot: winter sun after the run, best first")
    for spot in answer.spots:
        same = " (same as the best, as far as a skyline can be read)" if spot.same_as_best and spot.rank > 1 else ""  # fmt: skip
        broken = f" It breaks: {', '.join(spot.breaks)}." if spot.breaks else ""
        yield say(
            f"{spot.rank}. {spot.name}{same}: {spot_words(spot, style)}{broken}", "  ", "    "
        )


def _habits(answer: Answer) -> Iterator[str]:
    yield heading("Ways of tipping, best first")
    for habit in answer.habits:
        yield say(_habit(habit), "  ", "    ")
    yield say("* cannot be told apart from the best.")


def _habit(habit: Habit) -> str:
    same = "" if habit.a_bound or not habit.same_as_best else " *"
    return f"{habit.schedule.name}{same}: engine {hours(habit.engine_hours)}; {moves_words(habit.schedule)}"


def moves_words(schedule: Habitual) -> str:
    """What is moved when, in words.

    Example:
        >>> from polestead.mount.schedule import TiltSchedule
        >>> moves_words(TiltSchedule("two", ((73, 20.0), (265, 60.0))))
        '20° from 14 Mar, 60° from 22 Sep'
    """
    if isinstance(schedule, EachDaysBest):
        return "not a habit: the most that any way of tipping could bring"
    if isinstance(schedule, SkyRule):
        winter, summer = schedule.clear_tilt_deg[0], schedule.clear_tilt_deg[6]
        dull = f"{min(schedule.dull_tilt_deg):.0f} to {max(schedule.dull_tilt_deg):.0f}°"
        return f"clear mornings {winter:.0f}° in January to {summer:.0f}° in July, dull ones {dull}"
    if len(schedule.moves) == 1:
        return f"{schedule.moves[0][1]:.0f}°"
    return ", ".join(f"{tilt:.0f}° from {day_words(day)}" for day, tilt in schedule.moves)


def day_words(day_of_year: int) -> str:
    """A calendar day in words.

    Example:
        >>> day_words(1), day_words(73), day_words(365)
        ('1 Jan', '14 Mar', '31 Dec')
    """
    from polestead.base.hours import MONTH_DAYS, MONTH_NAMES

    left = day_of_year
    for name, days in zip(MONTH_NAMES, MONTH_DAYS, strict=True):
        if left <= days:
            return f"{left} {name}"
        left -= days
    message = f"day {day_of_year} is past the end of the year"
    raise ValueError(message)


def wires_lines(wires: WiringResult, style: Style = "metric") -> Iterator[str]:
    """Cold voltage, drop, breaker; what does not hold; the cautions."""
    yield heading("Wires")
    yield from strings_and_run(wires)
    for check in wires.checks:
        if not check.holds:
            yield say(f"NO: {check.part}, {check.name}: {figures_of(check, style)}.")
    for note in wires.notes:
        yield say(note, "  * ", "    ")


def strings_and_run(wires: WiringResult) -> Iterator[str]:
    """The coldest dawn and the run in full sun."""
    table = (
        ""
        if wires.table_voltage_v is None
        else f", {ceil(wires.table_voltage_v - 1e-9)} V by the code's table"
    )
    yield say(
        f"Coldest dawn: {ceil(wires.cold_voltage_v - 1e-9)} V by the maker's figure, {ceil(wires.cold_with_margin_v - 1e-9)} V with margin{table}. "
        f"Run: {wires.full_sun_a:.0f} A at {wires.full_sun_v:.0f} V in full sun, {lost_words(wires)}. "
        f"{breaker_and_earth(wires)}."
    )


def _dangers_lines(wires: WiringResult) -> Iterator[str]:
    """What the wires' own page tells at length, in a line each, so that no answer stands without it."""
    for rule in wires.guards.rules:
        if rule.outcome in ("missing", "ask"):
            yield say(f"{rule.name}: {rule.words} {rule.ask}", "  * ", "    ")
    bank = wires.bank
    if bank is not None:
        fuse = bank.main_fuse.guards[0]
        yield say(
            f"Main fuse at the battery: breaks {whole_amps_up(bank.short_circuit.amps_a)} or more of direct current. {fuse.words}",
            "  * ",
            "    ",
        )
        if bank.hydrogen is not None:
            yield say(f"Hydrogen: {bank.hydrogen.words}", "  * ", "    ")
        for one in bank.cautions:
            yield say(one, "  * ", "    ")
        other = ", and no way for engine or inverter to feed the other" if bank.engine else ""
        yield say(f"One bond of neutral to earth in the whole system{other}.", "  * ", "    ")
    open_asks = len(wires.open_asks)
    if open_asks:
        yield say(f"{open_asks} things about terminals, breakers, fuses, battery and trench stand open because the file does not say; they are not passed: `polestead wires` lists them.", "  * ", "    ")  # fmt: skip


def _build(answer: Answer, style: Style) -> Iterator[str]:
    built = answer.build
    yield heading("Build")
    bars = sum(len(plan.bars) for plan in built.cut_list)
    yield say(f"{len(built.pieces)} kinds of pieces, {bars} bought lengths to saw, {len(built.not_given)} things that are not in the file: polestead build lists them, with plates, bolts, metals and slings.")  # fmt: skip
    for note in built.notes:
        yield say(note, "  * ", "    ")
    yield from pour_lines(built, style)
    yield say(f"Trench {set_length(built.trench.length_m, style, 'up')}, {set_length(built.trench.depth_m, style, 'up')} deep.")  # fmt: skip
    yield from lift_lines(built, style, whole=False)
    yield say(f"All that tips: {in_style(built.tipping_mass_kg, 'kg', style)}.")
    yield from hanging_lines(built.hanging, style, whole=False)


def _cost(answer: Answer) -> Iterator[str]:
    cost = answer.money
    yield heading("Cost")
    for nth, one in enumerate(cost.ledger.lines):
        if one.stage:
            yield f"  {one.mark:1}{one.name:<40} {number(one.amount, 2):>12} {cost.currency}"
        for words in line_words(cost.slips, nth):
            yield say(words, "      ! ", "        ")
    yield f"   {'in all':<40} {number(cost.total, 2):>12} {cost.currency}"
    yield from ledger_lines(cost)
    for line in (*beside_no_line(cost.doubts, cost.slips), *cost.notes):
        yield say(line, "  * ", "    ")
    if cost.build_or_buy is not None:
        yield "  Build or buy:"
        for line in cost.build_or_buy.sentences:
            yield say(line, "  * ", "    ")


def ledger_lines(cost: MoneyResult) -> Iterator[str]:
    """The ledger by part, and how far it has been paid."""
    ledger = cost.ledger
    parts = "; ".join(f"{one.part} {number(one.total)}" for one in ledger.parts)
    if parts:
        yield say(f"By part, {cost.currency}: {parts}.")
    if ledger.paid or ledger.quoted:
        slid = ""
        if ledger.slid_lines:
            way = "dearer" if ledger.slid_by > 0.0 else "cheaper"
            slid = f" What has moved on from its plan came {number(abs(ledger.slid_by))} {way} than planned ({ledger.slid_lines} line{'s' if ledger.slid_lines > 1 else ''})."
        yield say(
            f"Paid {number(ledger.paid)}, quoted {number(ledger.quoted)}, only planned {number(ledger.planned)} {cost.currency}; "
            f"still to pay {number(ledger.still_to_pay)}.{slid}"
        )


def _unsettled(answer: Answer) -> Iterator[str]:
    doubts = doubts_of(answer.rows)
    guesses = [doubt for doubt in doubts if doubt.row.standing == "assumed"]
    yield heading("What nobody has confirmed (~)")
    for doubt in guesses:
        yield say(
            f"~ {doubt.row.section}.{doubt.row.key} = {doubt.row.told}: {doubt.row.why}. {doubt.in_full}",
            "  ",
            "    ",
        )
    yield say(
        f"and {len(doubts) - len(guesses)} defaults of the tool: "
        + "; ".join(
            f"{doubt.row.section}.{doubt.row.key} ~{doubt.row.told}"
            for doubt in doubts
            if doubt.row.standing == "default"
        )
        + "."
    )
    yield say(ORDER)


def _ask(answer: Answer) -> Iterator[str]:
    yield heading("Whom to ask")
    if not answer.questions:
        yield say("Every fact of the place has been confirmed by someone.")
    for question in answer.questions:
        yield say(f"{question.row.key}: {question.whom}.", "  ")
        yield say(f'"{question.sentence}"', "      ")


def _cautions(answer: Answer) -> Iterator[str]:
    yield heading("Cautions")
    for caution in answer.cautions:
        yield say(caution, "  * ", "    ")
    broken = len(failing(answer))
    yield ""
    if broken:
        yield say(
            f"{broken} check{'s do' if broken > 1 else ' does'} not hold: do not build it so.", ""
        )
    yield say(f"Basis: {answer.basis}. Homestead {answer.fingerprint}.", "")
