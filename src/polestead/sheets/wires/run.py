"""Every size of wire over the owner's years, and strings, controller and wire traded together, as text."""

from __future__ import annotations

from collections.abc import Iterator

from polestead.answer.wires_run import RunChoices
from polestead.base.quantity import in_unit
from polestead.base.show import Style, number, percent
from polestead.sheets.lines import WIDTH
from polestead.sheets.ratings import down
from polestead.sheets.text import heading, say
from polestead.sheets.wires.strings import share_lost
from polestead.wiring.choices import Choices
from polestead.wiring.run.conductor import is_metric
from polestead.wiring.run.economy import Economy, Pair, SizeOverYears, costs_the_same
from polestead.wiring.run.sizes import (
    BRINGS,
    IN_SUMMER,
    METALS,
    PROTECTED,
    SizeOfWire,
    smallest_lawful,
)
from polestead.wiring.run.trade import Trade

PLACES = {
    "current at the terminals": "terminals",
    "current in the heat": "riser",
    "current in the soil": "ground",
}


def run_lines(
    sizes: tuple[SizeOfWire, ...], over_years: RunChoices | None, currency: str, style: Style
) -> Iterator[str]:
    """Every size of the file's own family of sizes, and of the other one where it has a price.

    Args:
        sizes: Metal by metal, thinnest first.
        over_years: The run over the year; None where the weather was not worked.
        currency: Of the file.
        style: Feet or metric.
    """
    yield heading("Every size of wire")
    economy = None if over_years is None else over_years.economy
    told = {} if economy is None else {(row.wire.size, row.wire.metal): row for row in economy.rows}
    metric = any(one.chosen and is_metric(one.size) for one in sizes)
    for metal in METALS:
        thinnest = smallest_lawful(sizes, metal)
        of_years = "" if economy is None else f"{'kWh':>6}{'a year':>10}{'price':>8}{'in all':>12}"
        yield f"  {metal:<12}{'carries, by':<15}{'breaker':>7}{'lost':>6}{of_years}"
        for one in sizes:
            row = told.get((one.size, one.metal))
            priced = row is not None and row.price is not None
            if one.metal == metal and (is_metric(one.size) == metric or priced):
                yield from _size(one, row, one is thinnest, economy)
        if thinnest is None:
            yield say(f"No size of {metal} in the table will do.")
    yield say(
        "Carries: at the weakest place along the run, named beside, rounded down. Breaker: the largest that still protects it. Lost: in full sun, of the array's power, in run, pole wires and cord "
        "at 75 C; there is no pass mark, a thicker wire is worth what it saves."
    )
    for one in sizes:
        if one.chosen:
            yield say(
                f"The wire in the file warms to about {_warm(one.warm_c, style)} in full sun in its warmest soil, and loses {share_lost(one.warm_drop_share)} so."
            )
            for note in one.notes:
                yield say(note, "  * ", "    ")
    if over_years is None or economy is None:
        yield say("What it loses over a year in light as it comes is not worked here.")
        return
    yield from _over_years(over_years, economy, currency, style)


def trade_lines(trade: tuple[Trade, ...], years: float, currency: str) -> Iterator[str]:
    """The trade of string volts, controller and wire, the cheapest line first.

    Args:
        trade: In their order.
        years: Over which fuel is counted.
        currency: Of the file.
    """
    yield heading("Strings, controller and wire together, cheapest first")
    if not trade:
        yield say("No way to string them holds on these controllers with any wire in the table.")
        return
    yield f"  {'strings':<9}{'volts':>7}  {'metal':<9}{'':>4} {'size':<9}{'lost':>6}{'kWh':>7}{'wire':>8}{f'in {years:g} years':>14}"
    for one in trade:
        yield from _trade(one)
    yield say(
        f"In all: controller, wire and what its loss costs over {years:g} years in {currency}; lines without a price come after those with one, in "
        "the order of fuel alone. s: the smallest lawful size; c: the cheapest. Only ways that hold in the cold, in the heat and on their "
        "controller and over one cord at the hinge are listed; the breaker follows the strings, modules and trench are the same for all."
    )


def _size(
    one: SizeOfWire, row: SizeOverYears | None, thinnest: bool, economy: Economy | None
) -> Iterator[str]:
    place = PLACES[one.governs]
    line = f"    {one.size:<10}{down(one.carries_a):>4} A {place:<9}{down(one.largest_breaker_a):>4} A{_cell(share_lost(one.drop_share), 6)}"
    words = _words(one, row, thinnest, economy)
    if row is not None:
        line += _cell(f"{row.lost_wh / 1000.0:.0f}", 6) + _cell(_span(row.worth_year, 1), 10)
        if row.price is not None and row.total is not None:
            priced = _cell(number(row.price), 8) + _cell(_span(row.total), 12)
            if len(line + priced) <= WIDTH:
                line += priced
            else:
                words.insert(0, f"price {number(row.price)}, in all {_span(row.total)}")
    yield line.rstrip()
    if words:
        yield say(", ".join(words), "      ")


def _cell(text: str, width: int) -> str:
    """A figure at the right of its column, never touching the one before it."""
    return f" {text:>{width - 1}}"


def _words(
    one: SizeOfWire, row: SizeOverYears | None, thinnest: bool, economy: Economy | None
) -> list[str]:
    words = ["in the file"] if one.chosen else []
    words += ["thinnest lawful"] if thinnest else []
    best = None if economy is None else economy.cheapest
    if row is not None and best is not None and not one.faults:
        if row is best:
            words.append("cheapest over the years")
        elif costs_the_same(row, best):
            words.append("costs the same as the cheapest")
    carries = set(one.faults) - {IN_SUMMER, PROTECTED, BRINGS}
    words += ["NO: cannot bring the array's power"] if BRINGS in one.faults else []
    words += ["NO: loses too many volts in the heat"] if IN_SUMMER in one.faults else []
    words += [f"NO: carries too little ({', '.join(PLACES[name] for name in one.faults if name in carries)})"] if carries else []  # fmt: skip
    words += ["NO: the breaker does not protect it"] if PROTECTED in one.faults and not carries else []  # fmt: skip
    return words


def _over_years(told: RunChoices, economy: Economy, currency: str, style: Style) -> Iterator[str]:
    year = told.year
    low, high = (1000.0 * worth for worth in year.worth_per_wh)
    costs = (
        "A lost kWh costs no fuel."
        if high == 0.0
        else f"A lost kWh costs {_span((low, high), 3)} {currency} in fuel and engine hours."
    )
    yield say(
        f"Over a real year, {year.years} of them worked hour by hour: of what the wire loses, battery or house would have taken "
        f"{percent(max(year.would_be_taken, 0.0))}, the rest falls in sun that is turned away. {costs} kWh: lost in a mean year, each wire as warm as full sun makes it in its warmest soil; a year: what that costs; in all: the wire and {economy.years:g} years of that, undiscounted, in {currency}."
    )
    for note in year.notes:
        yield say(note, "  * ", "    ")
    for row in economy.smallest:
        yield say(f"Smallest lawful {row.wire.metal}: {_summed(row, economy.years, currency)}.")
    if economy.cheapest is None:
        yield say(
            "No lawful size has a price: write prices.wire and the cheapest is named. Without it, what the next size may cost more:"
        )
        yield from _steps(economy, currency, style)
        return
    yield say(f"Cheapest of {economy.priced} lawful sizes with a price: {economy.cheapest.wire.metal}, {_summed(economy.cheapest, economy.years, currency)}.")  # fmt: skip
    by_low, by_high = economy.cheapest_at_ends
    if by_low is not by_high:
        yield say(
            f"Where fuel is worth little {by_low.wire.size} {by_low.wire.metal} is cheapest, where much {by_high.wire.size} {by_high.wire.metal}."
        )
    if economy.priced < 3:
        yield say("More prices under prices.wire make this choice wider.")
    yield from _steps(economy, currency, style)


def _summed(row: SizeOverYears, years: float, currency: str) -> str:
    lost = f"{row.wire.size}, {number(row.lost_wh / 1000.0)} kWh lost a year, {_span(row.worth_year, 1)} {currency} a year"
    if row.price is None or row.total is None:
        return f"{lost}, no price"
    return f"{lost}; {number(row.price)} {currency} to buy, {_span(row.total)} {currency} over {years:g} years"


def _steps(economy: Economy, currency: str, style: Style) -> Iterator[str]:
    """What the next thicker size may cost more, from the smallest lawful one on, as long as it is worth a coin."""
    unit = "ft" if style == "feet" else "m"
    for smallest in economy.smallest:
        metric = is_metric(smallest.wire.size)
        after = [
            row
            for row in economy.rows
            if row.wire.metal == smallest.wire.metal
            and is_metric(row.wire.size) == metric
            and row.wire.loop_ohm <= smallest.wire.loop_ohm
        ]
        said = [
            f"{row.wire.size} to {row.next_size} {_span((in_unit_price(row.next_worth_per_m[0], style), in_unit_price(row.next_worth_per_m[1], style)), 2)}"
            for row in after[:4]
            if row.next_worth_per_m is not None
        ]
        if said:
            yield say(f"{smallest.wire.metal.capitalize()}: the next thicker size pays for itself where it costs no more than so many {currency} a {unit} of run on top: {'; '.join(said)}.")  # fmt: skip


def terminals_lines(choices: Choices, asks: tuple[str, ...]) -> Iterator[str]:
    """What hangs on terminals that nobody has read: the thinnest size both ways, and what to read."""
    for metal in METALS:
        words = choices.thinnest_words(metal)
        if words is not None:
            yield say(f"Thinnest lawful {metal}, by the terminals: {words}.")
    if asks:
        yield heading("Not passed, because nobody has read it")
        for one in asks:
            yield say(one, "  ? ", "    ")


def in_unit_price(per_m: float, style: Style) -> float:
    """A price per metre as the owner reads it: per foot or per metre.

    Example:
        >>> round(in_unit_price(10.0, "feet"), 3), in_unit_price(10.0, "metric")
        (3.048, 10.0)
    """
    return per_m / in_unit(1.0, "ft") if style == "feet" else per_m


def _warm(wire_c: float, style: Style) -> str:
    return f"{in_unit(wire_c, 'F'):.0f} F" if style == "feet" else f"{wire_c:.0f} C"


def _trade(one: Trade) -> Iterator[str]:
    way = one.strung
    strings = f"{way.in_series} x {way.in_parallel}"
    shown = [("s", one.smallest)] if one.cheapest is not one.smallest else []
    shown += [] if one.cheapest is None else [("c" if shown else "s c", one.cheapest)]
    for nth, (mark, row) in enumerate(shown):
        head = (
            f"{strings:<9}{way.strings.full_sun_v:>5.0f} V  {one.metal:<9}"
            if nth == 0
            else " " * 27
        )
        price = "-" if row.price is None else number(row.price)
        total = ""
        if row is one.cheapest and one.total is not None:
            total = _span(one.total)
        elif one.cheapest is None:
            total = f"fuel {_span(one.running)}"
        line = f"  {head}{mark:>4} {row.wire.size:<9}{_cell(share_lost(row.wire.drop_share), 6)}{_cell(f'{row.lost_wh / 1000.0:.0f}', 7)}{_cell(price, 8)}"
        whole = (line + _cell(total, 14)).rstrip()
        if len(whole) <= WIDTH:
            yield whole
        else:
            yield line
            yield f"{total:>{WIDTH}}"
    bought = "owned" if way.controller_price is None else number(way.controller_price)
    words = [f"on {way.controller} ({bought})"]
    words += ["in the file"] if way.chosen else []
    if way.held_back_w > 0.0:
        counted = "" if way.held_back_year is not None else ", not counted in the sum"
        words.append(f"holds back up to {way.held_back_w:.0f} W in full sun{counted}")
    yield say(", ".join(words), "      ")


def _span(pair: Pair, digits: int = 0) -> str:
    low, high = (number(value, digits) for value in pair)
    return low if low == high else f"{low}-{high}"
