"""Spans of ordinary prices in the owner's currency, and a sum of money in ordinary figures."""

from __future__ import annotations

from dataclasses import dataclass
from math import floor, log10

from polestead.base.show import number
from polestead.base.table import table

LITRES_A_GALLON = 3.785411784


@dataclass(frozen=True, slots=True)
class Currency:
    """What is known of a currency.

    Attributes:
        code: As the owner writes it.
        per_usd: About so much of it is a US dollar.
        cents: Name of its hundredth, empty where nobody counts in it.
        fuels: An ordinary litre by ``propane`` and ``oil`` (gasoline, diesel); left out where not known.
    """

    code: str
    per_usd: float
    cents: str
    fuels: dict[str, tuple[float, float]]


@dataclass(frozen=True, slots=True)
class PriceSpan:
    """Ordinary prices of one kind of thing.

    Attributes:
        kind: Row of ``spans.csv``.
        low, high: In the owner's currency, by its unit.
    """

    kind: str
    low: float
    high: float

    def times(self, quantity: float, lots: float = 1.0) -> PriceSpan:
        """The span of a sum for so much of it; of several lots one may be as small a share as ``lots``."""
        return PriceSpan(self.kind, self.low * quantity * lots, self.high * quantity)

    def holds(self, value: float) -> bool:
        """Whether a value lies in it, both ends in."""
        return self.low * (1.0 - 1e-9) <= value <= self.high * (1.0 + 1e-9)


def currency_of(code: str) -> Currency | None:
    """What is known of a currency; None for one the table has not.

    Source: ``currencies.csv``.

    Example:
        >>> currency_of("usd").per_usd, currency_of("€").code, currency_of("beads")
        (1.0, '€', None)
    """
    word = code.strip().lower()
    for row in table("money", "currencies"):
        if word == row["code"].lower() or word in row["also"].split():
            fuels = {
                kind: (float(row[f"{kind}_low"]), float(row[f"{kind}_high"]))
                for kind in ("propane", "oil")
                if row[f"{kind}_low"]
            }
            return Currency(code.strip(), float(row["per_usd"]), row["cents"], fuels)
    return None


def price_span(kind: str, currency: Currency) -> PriceSpan:
    """Ordinary prices of a kind, in a currency.

    Source: ``spans.csv``; beyond the dollar the span is a third wider either way, for what a currency is worth is known no better.

    Args:
        kind: Row of ``spans.csv``.
        currency: The owner's.

    Example:
        >>> price_span("concrete", currency_of("USD"))
        PriceSpan(kind='concrete', low=52.0, high=1300.0)
    """
    row = next(row for row in table("money", "spans") if row["kind"] == kind)
    wider = 1.0 if currency.per_usd == 1.0 else 4.0 / 3.0
    return PriceSpan(kind, float(row["low"]) * currency.per_usd / wider, float(row["high"]) * currency.per_usd * wider)  # fmt: skip


def fuel_span(fuel: str, currency: Currency) -> PriceSpan:
    """An ordinary litre of his fuel; of any fuel where his is not known.

    Args:
        fuel: ``propane``, ``gasoline``, ``diesel``, or empty.
        currency: The owner's.
    """
    ends = currency.fuels.get("propane" if fuel == "propane" else "oil") if fuel else None
    return price_span("fuel", currency) if ends is None else PriceSpan("fuel", *ends)


def about(value: float, currency: Currency) -> str:
    """An end of a span: two figures are enough.

    Example:
        >>> about(39.76, currency_of("USD")), about(993.9, currency_of("USD")), about(0.0121, currency_of("USD"))
        ('40 USD', '990 USD', '1.2 cents')
    """
    rounded = 0.0 if value == 0.0 else round(value, 1 - floor(log10(abs(value))))
    return (
        f"{number(rounded)} {currency.code}" if rounded >= 10.0 else in_figures(rounded, currency)
    )


def in_figures(value: float, currency: Currency) -> str:
    """A price by the unit in ordinary figures, small ones in the currency's hundredth, never with an exponent.

    Example:
        >>> usd = currency_of("USD")
        >>> [in_figures(value, usd) for value in (9.66e-05, 0.0335, 0.42, 12.345, 10357.0)]
        ['0.01 cents', '3.4 cents', '0.42 USD', '12.35 USD', '10,400 USD']
        >>> in_figures(1e-7, usd), in_figures(0.00001, currency_of("NOK"))
        ('less than 0.01 cents', 'less than 0.0001 NOK')
    """
    size = abs(value)
    if size >= 100.0:
        digits = floor(log10(size)) - 2
        return f"{number(round(value, -digits))} {currency.code}"
    if size >= 0.1 or size == 0.0:
        return f"{number(value + 1e-9, 2)} {currency.code}"
    if not currency.cents:
        return f"less than 0.0001 {currency.code}" if size < 5e-5 else f"{number(value, 4)} {currency.code}"  # fmt: skip
    if size < 5e-5:
        return f"less than 0.01 {currency.cents}"
    cents = 100.0 * value
    return f"{number(cents, 1 if cents >= 1.0 else 2)} {currency.cents}"
