"""String volts, controller and wire traded together, in one table."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import partial

from polestead.homestead.model import CableRun
from polestead.wiring.currents import Code
from polestead.wiring.run.economy import Pair, SizeOverYears, cheapest_of, economy_of
from polestead.wiring.run.loss import HoursByStrength
from polestead.wiring.run.sizes import METALS, Strings, sizes_of


@dataclass(frozen=True, slots=True)
class Strung:
    """One way to string the modules on one controller, in plain numbers.

    Attributes:
        controller: Its name.
        in_series, in_parallel: Modules in a string; strings.
        chosen: Whether the file has it so.
        allowed: Whether strings and controller hold, the wire apart; others do not come into the table.
        strings: What the run must carry so.
        controller_price: What the controller would cost; None: it is there already.
        held_back_w: What the controller cannot pass on of the modules' rating [W].
        held_back_year: What that costs in a mean year (low, high); None: not worked.
    """

    controller: str
    in_series: int
    in_parallel: int
    chosen: bool
    allowed: bool
    strings: Strings
    controller_price: float | None = None
    held_back_w: float = 0.0
    held_back_year: Pair | None = None


@dataclass(frozen=True, slots=True)
class Trade:
    """One line of the table: strings, controller, one metal.

    Attributes:
        strung: The strings and their controller.
        metal: Of the wire.
        smallest: The thinnest lawful size.
        cheapest: The cheapest lawful size with a price; None where no lawful size has one.
        total: Controller, wire, its loss and what is held back over the years (low, high), with the cheapest size; None
            without a price.
        running: The same without any price, with the smallest size: what fuel alone makes of it (low, high).
    """

    strung: Strung
    metal: str
    smallest: SizeOverYears
    cheapest: SizeOverYears | None
    total: Pair | None
    running: Pair


def controller_price(name: str, lines: Mapping[str, float]) -> float | None:
    """What the ledger says a controller costs, by a line of its own name; None: it is there already.

    Example:
        >>> controller_price("North wall", {"north_wall": 720.0}), controller_price("old", {"controller": 720.0})
        (720.0, None)
    """
    wanted = _plain(name)
    return next((amount for line, amount in lines.items() if _plain(line) == wanted), None)


def trade_of(
    ways: Iterable[Strung],
    run: CableRun,
    code: Code,
    module_a2_h: float,
    worth_per_wh: Pair,
    years: float,
    prices: Mapping[tuple[str, str], float],
    hours: HoursByStrength | None = None,
) -> tuple[Trade, ...]:
    """For each allowed way and each metal the smallest lawful and the cheapest wire; the cheapest line first.

    The loss of a way follows from one sum: with n modules in series the current is the power over n times a module's
    voltage, so its square is the sum of one module in series over n^2.

    Source: our own sum; sizes and limits as in ``sizes_of``.

    Args:
        ways: To string the modules.
        run: As it lies.
        code: Which code counts.
        module_a2_h: Sum of (power of the whole array over one module's working voltage)^2 over a mean year [A^2 h].
        worth_per_wh: What a lost watt-hour costs (low, high).
        years: Over which it is counted.
        prices: Two live wires and the earth wire per metre of run, by size and metal.
        hours: The hours by strength, for wires too thin to bring the power; None: the sum alone.
    """
    told = [
        line
        for way in ways
        if way.allowed
        for line in _lines(way, run, code, module_a2_h, worth_per_wh, years, prices, hours)
    ]
    return tuple(sorted(told, key=_order))


def _lines(
    way: Strung,
    run: CableRun,
    code: Code,
    module_a2_h: float,
    worth_per_wh: Pair,
    years: float,
    prices: Mapping[tuple[str, str], float],
    hours: HoursByStrength | None,
) -> Iterable[Trade]:
    i2_h_a2 = module_a2_h / way.in_series**2
    losing = None if hours is None else partial(hours.lost_wh, in_series=way.in_series)
    economy = economy_of(
        sizes_of(run, code, way.strings), i2_h_a2, worth_per_wh, years, run.length_m, prices, losing
    )
    held = way.held_back_year or (0.0, 0.0)
    bought = way.controller_price or 0.0
    for metal in METALS:
        smallest = next((row for row in economy.smallest if row.wire.metal == metal), None)
        if smallest is None:
            continue
        cheapest = cheapest_of(row for row in economy.rows if row.wire.metal == metal)
        total = None
        if cheapest is not None and cheapest.total is not None:
            low, high = cheapest.total
            total = (bought + low + years * held[0], bought + high + years * held[1])
        low, high = smallest.worth_year
        yield Trade(way, metal, smallest, cheapest, total, (years * (low + held[0]), years * (high + held[1])))  # fmt: skip


def _order(one: Trade) -> tuple[bool, float, str, int, str]:
    """Those with a price by their total, then the others by what fuel makes of them."""
    low, high = one.running if one.total is None else one.total
    return (one.total is None, low + high, one.strung.controller, -one.strung.in_series, one.metal)


def _plain(name: str) -> str:
    return " ".join(name.lower().replace("_", " ").split())
