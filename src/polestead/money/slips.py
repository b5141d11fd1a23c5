"""Prices that look as if a unit had slipped, told in words and never mended silently."""

from __future__ import annotations

from polestead.homestead.model import Prices

# Spans wide enough for any honest price of 2015 to 2026 in these currencies; common practice, no source.
_LIKE_A_DOLLAR = ("$", "€", "£", "usd", "us$", "eur", "gbp", "cad", "aud", "nzd", "chf", "c$", "a$", "nz$", "dollar", "dollars", "euro", "euros")  # fmt: skip
_FUEL_PER_L = (0.15, 4.0)
_CONCRETE_PER_M3 = (40.0, 1500.0)
_ENGINE_HOUR_MOST = 25.0
_ALL_PER_W = (0.2, 20.0)
_MODULES_PER_W = (0.05, 4.0)
_MODULE_WORDS = ("module", "panel")


def slips(prices: Prices, total: float, module_power_w: float) -> tuple[str, ...]:
    """Every price that cannot be meant, and what was probably meant.

    Valid for: currencies near a dollar in worth; in others nothing is said.

    Args:
        prices: As in the file.
        total: Of the ledger.
        module_power_w: Rated power of the new array [W].
    """
    if prices.currency.strip().lower() not in _LIKE_A_DOLLAR:
        return ()
    return (
        *_rates(prices),
        *_module_lines(prices, module_power_w),
        *_whole(prices, total, module_power_w),
    )


def _rates(prices: Prices) -> list[str]:
    said = []
    money, fuel = prices.currency, prices.fuel_per_l
    low, high = _FUEL_PER_L
    if fuel > high:
        said.append(
            f"Fuel at {fuel:.2f} {money} a litre ({fuel * 3.785411784:.2f} a gallon): cents written as {money}, or a price per "
            "gallon written as per litre?"
        )
    elif 0.0 < fuel < low:
        said.append(
            f"Fuel at {fuel:.3f} {money} a litre ({fuel * 3.785411784:.2f} a gallon) is next to nothing: a price per litre "
            "written as per gallon?"
        )
    elif fuel == 0.0:
        said.append("Fuel costs nothing in the file: then no fuel saved is worth anything.")
    if prices.engine_hour > _ENGINE_HOUR_MOST:
        said.append(
            f"An engine hour at {prices.engine_hour:.2f} {money} in wear and oil: cents written as {money}, or fuel counted in "
            "it twice?"
        )
    concrete = prices.concrete_per_m3
    if concrete is not None and not _CONCRETE_PER_M3[0] <= concrete <= _CONCRETE_PER_M3[1]:
        said.append(f"Concrete at {concrete:.2f} {money} a cubic metre: the price of a bag, or of the whole load?")  # fmt: skip
    return said


def _module_lines(prices: Prices, power_w: float) -> list[str]:
    said = []
    money = prices.currency
    low, high = _MODULES_PER_W
    for name, amount in prices.lines.items():
        if not any(word in name.lower() for word in _MODULE_WORDS) or amount <= 0.0:
            continue
        per_w = amount / power_w
        line = f"{name.replace('_', ' ')}: {amount:,.2f} {money} is {per_w:.3g} {money} a watt"
        if per_w > high:
            said.append(f"{line}: cents written as {money}?")
        elif per_w < low:
            one = "module, not of all" if amount > 5.0 else "watt, not of all modules"
            said.append(f"{line}: the price of one {one}?")
    return said


def _whole(prices: Prices, total: float, power_w: float) -> list[str]:
    if total <= 0.0:
        return []
    per_w, (low, high) = total / power_w, _ALL_PER_W
    money = prices.currency
    if per_w > high:
        return [f"The whole comes to {per_w:,.0f} {money} a watt: is a line in cents, or entered twice?"]  # fmt: skip
    if per_w < low:
        return [f"The whole comes to {per_w:.3f} {money} a watt: are lines missing, or prices of one piece entered for all?"]  # fmt: skip
    return []
