"""Strings, run, and what else could be wired, as text."""

from __future__ import annotations

from collections.abc import Iterator

from polestead.answer.wires_run import RunChoices
from polestead.base.show import Style
from polestead.sheets.data import CAUTION
from polestead.sheets.text import heading, say, wires_lines
from polestead.sheets.wires.run import run_lines, trade_lines
from polestead.wiring.bank.charging import Charging
from polestead.wiring.choices import Choices, Layout
from polestead.wiring.result import WiringResult

HERE = ", in the file"


def wires_text(
    name: str,
    wires: WiringResult,
    choices: Choices,
    charging: Charging,
    over_years: RunChoices | None,
    currency: str,
    style: Style,
) -> str:
    """All of it; the run over the years where the weather was worked."""
    return "\n".join(_lines(name, wires, choices, charging, over_years, currency, style))


def _lines(
    name: str,
    wires: WiringResult,
    choices: Choices,
    charging: Charging,
    over_years: RunChoices | None,
    currency: str,
    style: Style,
) -> Iterator[str]:
    yield f"{name}: strings and the run"
    yield from wires_lines(wires)
    yield heading("Every way to string them")
    yield "  strings  dawn       left of  in heat    run  breaker lost"
    for layout in choices.layouts:
        yield from _layout(layout)
    yield say(
        "Dawn: the coldest on record, by the maker's coefficient with margin. Left of: the volts left of the controller's limit, or of 600 V in a "
        "dwelling. In heat: volts over what charging wants. Lost: in full sun, in the wire of the file. Another array on the same controller "
        "is not counted here: its strings must match these in volts, and its amperes add."
    )
    if any(layout.string_fuses and not layout.faults for layout in choices.layouts):
        yield say("f: a fuse in every string (NEC 690.9).")
    yield from run_lines(choices.sizes, over_years, currency, style)
    if over_years is not None:
        yield from trade_lines(over_years.trade, over_years.economy.years, currency)
    yield heading("Into the battery at once")
    for name, amps in charging.currents:
        yield f"  {name:<28}{amps:>6.0f} A"
    yield say(charging.words)
    yield ""
    yield say(
        "--working ITEM shows how a figure was found: cold voltage, heat, terminals, breaker, drop, charging. "
        + CAUTION
    )


def _layout(one: Layout) -> Iterator[str]:
    strings = f"{one.in_series} x {one.in_parallel}{' f' if one.string_fuses else ''}"
    where = f"{one.controller}{HERE if one.chosen else ''}"
    if one.cold_with_margin_v is None or one.margin_v is None or one.hot_margin_v is None:
        yield f"  {strings:<10}{where}"
    else:
        breaker = "" if one.breaker_a is None else f"{one.breaker_a:.0f} A"
        lost = "" if one.drop_share is None else f"{one.drop_share:.1%}"
        left = f"{one.margin_v:+.0f} of {one.limit_v:.0f} V"
        yield (
            f"  {strings:<9}{one.cold_with_margin_v:>4.0f} V{left:>14}{one.hot_margin_v:>+7.0f} V{one.full_sun_a:>5.0f} A{breaker:>7}{lost:>6}"
            f"  {where}"
        )
    for fault in one.faults:
        yield say(f"NO: {fault}.", "      ", "          ")
    if one.held_back_w > 0.0 and not one.faults:
        yield say(f"{one.controller} holds back up to {one.held_back_w:.0f} W in full sun.", "      ", "          ")  # fmt: skip
