"""What `money` hands up."""

from __future__ import annotations

from dataclasses import dataclass

from polestead.base.working import Working
from polestead.money.banker import BankersLeaf
from polestead.money.buy import BuildOrBuy
from polestead.money.ledger import Ledger
from polestead.money.slips import Slip


@dataclass(frozen=True, slots=True)
class MoneyIfOff:
    """The same savings under a climate laid to one side of its source's error.

    Attributes:
        saved_median: Saved in a median year, by least and by most fuel (low, high).
        winters: Paid for after so many winters (sooner, later); None when it saves nothing that can be counted on.
    """

    saved_median: tuple[float, float]
    winters: tuple[float, float] | None


@dataclass(frozen=True, slots=True)
class SavedYear:
    """The good, median or bad point of what is saved, of each figure from its own yearly values (conventions §14).

    Attributes:
        word: ``good``, ``median`` or ``bad``.
        engine_hours: Saved.
        fuel_l: Saved, by the low and the high end of the fuel line.
        fuel_money: The same at the owner's price.
        wear_money: Wear and oil of the engine hours saved.
        money: Fuel and wear together (low, high).
        per_engine_hour: All the ledger over the engine hours of ten such winters; None when none is saved.
    """

    word: str
    engine_hours: float
    fuel_l: tuple[float, float]
    fuel_money: tuple[float, float]
    wear_money: float
    money: tuple[float, float]
    per_engine_hour: float | None


@dataclass(frozen=True, slots=True)
class MoneyResult:
    """What it costs and what it saves, in the owner's currency.

    Attributes:
        currency: As written.
        lines: Ledger lines (name, amount, mark ``~`` where estimated); hours alone are left out.
        ledger: The same by part, by stage, with hours and what is still to pay.
        total: Their sum.
        saved_good, saved_median, saved_bad: Saved in a year in fuel and engine hours, by least and by most fuel (low, high):
            the 90, 50 and 10 % points of the saving's own yearly values, more being better (conventions §14).
        saved_years: The same points of hours and fuel, and their money; a row's fuel and wear may miss its whole by a little.
        engine_hour_worth: What an engine hour saved is worth in fuel and wear in a median year (low, high); None when none is
            saved.
        per_engine_hour_saved: Total over the engine hours saved in ten median winters, None when none is saved.
        winters_low, winters_high: Paid for after so many winters, one run of winters in ten sooner, one in ten later;
            None when it saves nothing that can be counted on, or nothing is priced yet.
        build_or_buy: A bought mount beside the own one; None without its quote.
        banker: Net present value and rate of return.
        if_off: Were the climate brighter, and were it darker, by the error of its source; empty where years were measured.
        working: The sums.
        slips: Prices that are hardly meant as written, each with its line of the ledger or its field.
        doubts: Their words, and a saving of nothing, a grant not yet come.
        notes: What the figures leave out.
    """

    currency: str
    lines: tuple[tuple[str, float, str], ...]
    ledger: Ledger
    total: float
    saved_good: tuple[float, float]
    saved_median: tuple[float, float]
    saved_bad: tuple[float, float]
    saved_years: tuple[SavedYear, ...]
    engine_hour_worth: tuple[float, float] | None
    per_engine_hour_saved: float | None
    winters_low: float | None
    winters_high: float | None
    build_or_buy: BuildOrBuy | None
    banker: BankersLeaf
    if_off: tuple[MoneyIfOff, ...]
    working: Working
    slips: tuple[Slip, ...]
    doubts: tuple[str, ...]
    notes: tuple[str, ...]
