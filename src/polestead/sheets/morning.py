"""The morning line and the week leaf as text, and the line as data."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict
from math import isfinite
from typing import Any

from polestead.base.quantity import in_unit
from polestead.base.show import Style
from polestead.morning.result import Morning
from polestead.morning.week import WeekLeaf

FORMAT = 1
CAUTION = "Look up before you press. Nobody under the array, no ice on the rod, not alone and not in the dark."  # fmt: skip
CAUTION_STOP = "Keep away from it; nobody under it."
CAUTION_STAYS = "Screening sums, not a promise: forecasts are wrong at times."


def morning_text(line: Morning, *, why: bool = False) -> str:
    """One line, what it costs to be wrong, what to know of it; why in five where asked.

    Args:
        line: As decided.
        why: Tell why.
    """
    return "\n".join(_lines(line, why=why))


def _lines(line: Morning, *, why: bool) -> Iterator[str]:
    said = " ".join(f"{one.text} ({one.sureness})" for one in line.sentences)
    yield f"{line.at:%a} {line.at.day} {line.at:%b}, {line.at.hour}:{line.at:%M}. {said}"
    yield f"If wrong: {line.if_wrong}"
    if why:
        yield from (f"{nth}. {one.text}" for nth, one in enumerate(line.why, start=1))
    yield from (f"- {note}" for note in line.notes)
    if line.stop:
        yield CAUTION_STOP
    elif line.move is not None or (line.tonight is not None and line.tonight.by_h is not None):
        yield CAUTION
    else:
        yield CAUTION_STAYS


def morning_data(name: str, line: Morning) -> dict[str, Any]:
    """The line as plain data, SI, unit last in each key; what is not known is null (conventions §18)."""
    found: dict[str, Any] = _plain(asdict(line))
    return {"format": FORMAT, "name": name} | found


def _plain(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _plain(one) for key, one in value.items()}
    if isinstance(value, (list, tuple)):
        return [_plain(one) for one in value]
    if isinstance(value, float):
        return value if isfinite(value) else None
    return value.isoformat() if hasattr(value, "isoformat") else value


def week_text(leaf: WeekLeaf, style: Style) -> str:
    """The week leaf as plain text: for a dead laptop, to be copied or printed."""
    unit = "mph" if style == "feet" else "m/s"
    lines = [
        f"Week leaf of {leaf.name}, from {leaf.day:%a %d %b %Y}, good until {leaf.good_until:%a %d %b}.",
        f"Move only under {in_unit(leaf.under_m_s, unit):.0f} {unit}, over the whole way. Nobody under it, no ice on the rod.",
        "",
        "Where to leave it, by the gust you hear for until the next morning:",
    ]  # fmt: skip
    low = 0.0
    for row in leaf.gusts:
        top = in_unit(row.heard_to_m_s, unit)
        where = "no tilt stands: lock it as it is, keep away" if row.tilt_deg is None else f"{'flat, ' if row.flat else ''}{row.tilt_deg:.0f}, pin in: stands to {in_unit(row.stands_to_m_s, unit):.0f}"  # fmt: skip
        span = f"over {low:.0f}" if not isfinite(top) else f"{low:.0f} to {top:.0f}"
        lines.append(f"  {span + ' ' + unit:<16} {where}")
        low = top
    lines += ["", "Engine today, by the charge at dawn and the sky:", f"  {'charge':<10}" + "".join(f"{sky:>20}" for sky in leaf.skies)]  # fmt: skip
    for charge, row_of in zip(leaf.charges, leaf.engine, strict=True):
        cells = "".join(f"{_engine(*cell):>20}" for cell in row_of)
        lines.append(f"  {f'{100.0 * charge:.0f} %':<10}{cells}")
    lines += ["", f"Nothing heard: take {in_unit(leaf.unheard_m_s, unit):.0f} {unit}. Screening sums, not a promise."]  # fmt: skip
    return "\n".join(lines)


def _engine(chance: float, hours: float) -> str:
    if chance < 0.1:
        return "no"
    return f"{'yes' if chance >= 0.5 else 'perhaps'}, {max(hours, 1.0):.0f} h"
