"""Build against buy: a bought mount with all that its quote leaves out, against the owner's own lines and hours."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from polestead.base.show import number
from polestead.base.source import COMMON_PRACTICE, OWNER, Source
from polestead.base.working import Step, Working
from polestead.homestead.model import Prices
from polestead.money.ledger import Ledger, LedgerLine

SUM = Source("own lines, those a bought mount replaces taken out, plus its quote", status="ours")
REPLACED = ("pole and frame", "drive and lock")  # what a bought mount brings; common practice
# What a quote mostly leaves out (pole, concrete) or brings only in part: dealers' own notes on pole mounts say so.
STAYS_PERHAPS = ("pole", "post", "pipe", "galvan", "paint", "zinc", "steel", "weld", "bolt")

# What is forgotten most, by the words that would name it; common practice, no source.
_BUILD_FORGETS: tuple[tuple[tuple[str, ...], str], ...] = (
    (("hire", "rent", "crane", "digger", "excavator", "auger", "machine", "telehandler"), "hire of a machine for the hole and of a crane or loader for the lift"),
    (("galvan", "paint", "zinc"), "galvanizing or paint, and the way to the works and back"),
    (("actuator", "drive", "winch"), "the actuator with its supply"),
    (("concrete", "cement"), "concrete"),
    (("trip", "freight", "delivery", "haul"), "trips: the second one for fittings is hardly ever counted"),
)  # fmt: skip
_BUY_FORGETS: tuple[tuple[tuple[str, ...], str], ...] = (
    (("freight", "delivery", "shipping", "haul"), "freight to your gate"),
    (("crane", "lift", "loader", "hire"), "a crane or loader to set it"),
)


@dataclass(frozen=True, slots=True)
class BuildOrBuy:
    """Both ways, array and wires included, in the owner's currency.

    Attributes:
        build: All own lines.
        buy_low, buy_high: Quote, what goes with it, and the own lines that stay either way; the ends differ by the lines a
            quote may or may not replace.
        quote: For the bought mount.
        beside_quote: What buying costs beside it.
        falls_away: Own lines it makes needless (name, amount).
        perhaps: Own lines it may or may not make needless (name, amount).
        guessed: Whether these were guessed from names and parts.
        grants: Grants in the own lines; taken to come either way, unless the bought lines have grants of their own.
        grants_lost: Those of them that the bought lines' own grants stand for.
        hours_to_set: Own hours to set the bought mount; None where the file does not tell them.
        hours_spared: Own hours that stand on what falls away, less those.
        hour_low, hour_high: What such an hour earns by building; None without hours.
        forgotten_build, forgotten_buy: What no line names on either side.
        sentences: The comparison in words.
        working: The sums.
    """

    build: float
    buy_low: float
    buy_high: float
    quote: float
    beside_quote: float
    falls_away: tuple[tuple[str, float], ...]
    perhaps: tuple[tuple[str, float], ...]
    guessed: bool
    grants: float
    grants_lost: float
    hours_to_set: float | None
    hours_spared: float
    hour_low: float | None
    hour_high: float | None
    forgotten_build: tuple[str, ...]
    forgotten_buy: tuple[str, ...]
    sentences: tuple[str, ...]
    working: Working


def build_or_buy(prices: Prices, ledger: Ledger) -> BuildOrBuy | None:
    """Set the bought mount beside the own one; None without its quote.

    Own hours are never in a sum of money: they stand beside, as what an hour of building earns.

    Args:
        prices: For the quote, what goes with it, and what it replaces.
        ledger: The own lines.
    """
    quote = prices.bought_mount
    if quote is None:
        return None
    away, perhaps = _replaced(prices, ledger)
    extras = float(sum(prices.bought_lines.values()))
    falls, may_fall = _amount(away), _amount(perhaps)
    grants = -float(sum(one.amount for one in ledger.lines if one.part == "grants")) + 0.0
    own_grants = grants if any(amount < 0.0 for amount in prices.bought_lines.values()) else 0.0
    dear = quote + extras + ledger.total - falls + own_grants
    cheap = dear - may_fall
    low, high = min(cheap, dear), max(cheap, dear)
    spared = float(sum(one.hours or 0.0 for one in (*away, *perhaps))) - (
        prices.bought_hours or 0.0
    )
    hour = ((low - ledger.total) / spared, (high - ledger.total) / spared) if spared > 0.0 else None
    names = [one.name for one in ledger.lines if one.stage]
    forgotten = _forgotten(_BUILD_FORGETS, names)
    forgotten_buy = _forgotten(_BUY_FORGETS, list(prices.bought_lines))
    found = BuildOrBuy(
        ledger.total, low, high, quote, extras, _pairs(away), _pairs(perhaps), not prices.bought_replaces, grants, own_grants, prices.bought_hours, spared,
        None if hour is None else hour[0], None if hour is None else hour[1], forgotten, forgotten_buy, (),
        _working(prices, ledger, (falls, may_fall, own_grants), (low, high), spared, hour),
    )  # fmt: skip
    return _told(found, prices.currency)


def _replaced(prices: Prices, ledger: Ledger) -> tuple[list[LedgerLine], list[LedgerLine]]:
    """Lines that fall away when the mount is bought, and those of which nobody can tell from their name."""
    named = {name.replace("_", " ") for name in prices.bought_replaces}
    if named:
        return [one for one in ledger.lines if one.name in named], []
    away: list[LedgerLine] = []
    perhaps: list[LedgerLine] = []
    for one in ledger.lines:
        if one.part in REPLACED and one.amount >= 0.0:
            words = re.findall(r"[a-z]+", one.name.lower())
            unsure = bool(one.stage) and one.part == "pole and frame" and any(word.startswith(STAYS_PERHAPS) for word in words)  # fmt: skip
            (perhaps if unsure else away).append(one)
    return away, perhaps


def _amount(lines: list[LedgerLine]) -> float:
    return float(sum(one.amount for one in lines))


def _pairs(lines: list[LedgerLine]) -> tuple[tuple[str, float], ...]:
    return tuple((one.name, one.amount) for one in lines if one.stage)


def _forgotten(wanted: tuple[tuple[tuple[str, ...], str], ...], names: list[str]) -> tuple[str, ...]:  # fmt: skip
    words = [word for name in names for word in re.findall(r"[a-z]+", name.lower())]
    return tuple(said for stems, said in wanted if not any(word.startswith(stems) for word in words))  # fmt: skip


def _told(found: BuildOrBuy, currency: str) -> BuildOrBuy:
    return replace(found, sentences=tuple(_sentences(found, currency)))


def _sentences(found: BuildOrBuy, currency: str) -> list[str]:
    more_low, more_high = found.buy_low - found.build, found.buy_high - found.build
    spread = f"{number(found.buy_low)}" if more_high - more_low < 0.5 else f"{number(found.buy_low)} to {number(found.buy_high)}"  # fmt: skip
    said = [
        f"Built by you {number(found.build)} {currency}; with a bought mount {spread} {currency}, the lines that stay either way in both."
    ]
    if more_low > 0.5:
        said.append(f"Buying costs {_between(more_low, more_high)} {currency} more.")
    elif more_high < -0.5:
        said.append(f"Building costs {_between(-more_high, -more_low)} {currency} more, and your hours.")  # fmt: skip
    else:
        said.append("In money alone the two cannot be told apart by these lines.")
    said.append(_hours_words(found, currency, more_low, more_high))
    if found.perhaps:
        names = ", ".join(name for name, _ in found.perhaps)
        said.append(
            f"Whether the quote replaces {names} its words must say: a quote mostly leaves the pole out. Name what falls away under "
            "bought_replaces, and split a line that is half of it."
        )
    if found.forgotten_build:
        said.append(f"No own line names {'; '.join(found.forgotten_build)}.")
    if found.forgotten_buy:
        said.append(f"No bought line names {'; '.join(found.forgotten_buy)}. Ask also whether the pole, its galvanizing and drawings with a stamp are in the quote.")  # fmt: skip
    if found.hours_to_set is None:
        said.append("How many hours of yours it takes to set the bought mount is not told: write bought_hours.")  # fmt: skip
    if found.grants_lost > 0.0:
        said.append(f"The grants of the bought lines stand for your own lines' {number(found.grants_lost)} {currency}: each way has its own.")  # fmt: skip
    elif found.grants > 0.0:
        said.append(
            f"Grants of {number(found.grants)} {currency} are taken to come either way; most do not count your own hours, and some "
            "want listed goods or a licensed electrician: ask before you buy (from memory)."
        )
    return said


def _hours_words(found: BuildOrBuy, currency: str, more_low: float, more_high: float) -> str:
    if found.hours_to_set and found.hours_spared <= 0.0:
        return f"Setting the bought mount takes {number(found.hours_to_set)} h of yours, no fewer than building: hours do not decide."  # fmt: skip
    if found.hour_low is None or found.hour_high is None:
        return (
            "No hours of yours stand on what would fall away, and they decide: write them as lines with hours and by. Such work takes "
            "many weekends; an hour you do not count is not free."
        )
    hours = f"Your {number(found.hours_spared)} h on what would fall away"
    if found.hours_to_set:
        all_, spared = number(found.hours_spared + found.hours_to_set), number(found.hours_spared)
        hours = f"The {spared} h you would be spared ({all_} h on what would fall away, less {number(found.hours_to_set)} h to set the bought one)"
    if more_low > 0.5:
        return (
            f"{hours} earn {_between(found.hour_low, found.hour_high)} {currency} an hour by building: buy if an hour is worth more to you."
        )  # fmt: skip
    if more_high < -0.5:
        return f"{hours} earn nothing by building: they come on top."
    return f"{hours} earn at most {number(max(found.hour_high, 0.0), 2)} {currency} an hour by building."  # fmt: skip


def _between(low: float, high: float) -> str:
    digits = 0 if max(abs(low), abs(high)) >= 100.0 else 2
    first, second = number(low, digits), number(high, digits)
    return first if first == second else f"{first} to {second}"


def _working(
    prices: Prices,
    ledger: Ledger,
    lines: tuple[float, float, float],
    ends: tuple[float, float],
    spared: float,
    hour: tuple[float, float] | None,
) -> Working:
    money, quote = prices.currency, prices.bought_mount or 0.0
    extras = float(sum(prices.bought_lines.values()))
    falls, may_fall, own_grants = lines
    steps = [
        Step("all own lines", "T", "", ledger.total, money, OWNER),
        Step("own lines that fall away", "F", "", falls, money, SUM),
        Step("own lines that may fall away", "G", "", may_fall, money, COMMON_PRACTICE),
        Step("quote for the mount", "Q", "", quote, money, OWNER),
        Step("what buying costs beside it", "E", "", extras, money, OWNER),
        Step("own grants that the bought lines' own stand for", "R", "", own_grants, money, SUM),
        Step("bought, dearer end", "B2", f"{quote:.2f} + {extras:.2f} + {ledger.total:.2f} - {falls:.2f} + {own_grants:.2f}", ends[1], money, SUM),
        Step("bought, cheaper end", "B1", f"{ends[1]:.2f} - {may_fall:.2f}", ends[0], money, SUM),
    ]  # fmt: skip
    if hour is not None:
        steps += [
            Step("own hours spared", "h", "", spared, "h", OWNER),
            Step("an hour of building earns, at least", "e1", f"({ends[0]:.2f} - {ledger.total:.2f}) / {spared:.1f}", hour[0], f"{money}/h", SUM),
            Step("an hour of building earns, at most", "e2", f"({ends[1]:.2f} - {ledger.total:.2f}) / {spared:.1f}", hour[1], f"{money}/h", SUM),
        ]  # fmt: skip
    notes = ("Own hours stand beside, in no sum of money.",)
    return Working("build against buy", tuple(steps), notes)
