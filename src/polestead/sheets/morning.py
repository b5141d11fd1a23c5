"""The morning line and the week leaf as text, and the line as data."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass
from math import isfinite
from typing import Any

from polestead.base.quantity import in_unit
from polestead.base.show import Style, percent
from polestead.morning.card import unit_of
from polestead.morning.line import engine_span
from polestead.morning.result import EngineToday, Morning, Sureness
from polestead.morning.week import GustRow, WeekLeaf

FORMAT = 1
PERHAPS_OVER = 0.1  # chance from which the leaf names the engine; ours
LONG = 34  # letters that fit two lines of the phone
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
    yield f"{line.wall:%a} {line.wall.day} {line.wall:%b}, {line.wall.hour}:{line.wall:%M}. {said}"
    yield f"If wrong: {line.if_wrong}"
    if line.outlook_words:
        yield line.outlook_words
    if why:
        yield from (f"{nth}. {one.text}" for nth, one in enumerate(line.why, start=1))
    yield from (f"- {note}" for note in line.notes)
    yield cautions_of(line)


@dataclass(frozen=True, slots=True)
class Said:
    """A sentence of the line as the page sets it.

    Attributes:
        sureness: Sure, likely, guess.
        head: What is said first.
        figure: The tilt in it, to be set large; empty where there is none.
        more: What follows, in smaller letters.
        changed: It was not said before.
    """

    sureness: Sureness
    head: str
    figure: str
    more: str
    changed: bool


def said(line: Morning, before: Sequence[str] | None = None) -> tuple[Said, ...]:
    """The sentences of a line, the tilt parted from its words.

    Args:
        line: As decided.
        before: What was said before; None: nothing to compare with.

    Example:
        >>> _said("likely", "Set 62, move only under 30 mph: out key. Pin in.", False)
        Said(sureness='likely', head='Set', figure='62', more='Move only under 30 mph: out key. Pin in.', changed=False)
    """
    return tuple(_said(one.sureness, one.text, before is not None and one.text not in before) for one in line.sentences)  # fmt: skip


def _said(sureness: Sureness, text: str, changed: bool) -> Said:
    found = re.fullmatch(r"(Set|Leave it at) (\d+)(?:\.|, (.*))", text)
    if found is not None:
        more = found[3] or ""
        return Said(sureness, found[1], found[2], more[:1].upper() + more[1:], changed)
    head, colon, more = text.partition(": ")
    if colon and len(text) > LONG:
        return Said(sureness, f"{head}:", "", more, changed)
    head, stop, more = text.partition(". ")
    return Said(sureness, f"{head}." if stop else text, "", more, changed)


def cautions_of(line: Morning) -> str:
    """What is to be looked at before anything is pressed."""
    if line.firmest is not None and line.firmest.allowed:
        return f"{CAUTION} {CAUTION_STOP}"
    if line.stop:
        return CAUTION_STOP
    if line.move is not None or (line.tonight is not None and line.tonight.by_h is not None):
        return CAUTION
    return CAUTION_STAYS


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


@dataclass(frozen=True, slots=True)
class WeekTables:
    """The week leaf in words.

    Attributes:
        head: Whose, from when, until when.
        under: When it may be moved.
        gusts: Gust heard, where to leave it.
        skies: Heads of ``engine``.
        engine: Charge, then one cell a sky.
        foot: What to take where nothing is heard.
    """

    head: str
    under: str
    gusts: tuple[tuple[str, str], ...]
    skies: tuple[str, ...]
    engine: tuple[tuple[str, ...], ...]
    foot: str


def week_tables(leaf: WeekLeaf, style: Style) -> WeekTables:
    """The week leaf in the owner's units, for terminal, page, paper and phone.

    Args:
        leaf: As worked.
        style: Whose units.
    """
    unit = unit_of(style)
    gusts, low = [], 0.0
    for row in leaf.gusts:
        top = in_unit(row.heard_to_m_s, unit)
        where = f"no tilt stands: {'brush it, ' * row.bare_only}{leaf.firmest_deg:.0f} is firmest, go there only in calm; lock it, keep away" if row.tilt_deg is None else f"{'flat, ' if row.flat else ''}{row.tilt_deg:.0f}, pin in: {_stands(row, unit)}"  # fmt: skip
        span = f"over {low:.0f}" if not isfinite(top) else f"{low:.0f} to {top:.0f}"
        gusts.append(
            (
                f"{span} {unit}",
                f"{'brush it first: seen bare, ' * (row.bare_only and row.tilt_deg is not None)}{where}",
            )
        )
        low = top
    return WeekTables(
        head=f"Week leaf of {leaf.name}, from {leaf.day:%a %d %b %Y}, good until {leaf.good_until:%a %d %b}.",
        under=f"Move only under {in_unit(leaf.under_m_s, unit):.0f} {unit}, over the whole way. Nobody under it, no ice on the rod.",
        gusts=tuple(gusts),
        skies=leaf.skies,
        engine=tuple((percent(charge), *(_engine(cell) for cell in cells)) for charge, cells in zip(leaf.charges, leaf.engine, strict=True)),
        foot=f"Nothing heard: take {in_unit(leaf.unheard_m_s, unit):.0f} {unit}. Screening sums, not a promise.",
    )  # fmt: skip


def _stands(row: GustRow, unit: str) -> str:
    """What it stands to; under snow first where snow may lie, for that is what it was chosen by."""
    bare = f"{in_unit(row.stands_to_m_s, unit):.0f}"
    if row.snow_stands_to_m_s is None:
        return f"stands to {bare}"
    snow = f"{in_unit(row.snow_stands_to_m_s, unit):.0f}"
    return f"stands to {snow}, under snow too" if snow == bare else f"stands to {snow} under snow, {bare} bare"  # fmt: skip


def week_text(leaf: WeekLeaf, style: Style) -> str:
    """The week leaf as plain text: for a dead laptop, to be copied or printed."""
    told = week_tables(leaf, style)
    lines = [told.head, told.under, "", "Where to leave it, by the gust you hear for until the next morning:"]  # fmt: skip
    lines += [f"  {span:<16} {where}" for span, where in told.gusts]
    lines += ["", "Engine today, by the charge at dawn and the sky:", f"  {'charge':<10}" + "".join(f"{sky:>20}" for sky in told.skies)]  # fmt: skip
    lines += [f"  {charge:<10}" + "".join(f"{cell:>20}" for cell in cells) for charge, *cells in told.engine]  # fmt: skip
    return "\n".join([*lines, "", told.foot])


def _engine(engine: EngineToday) -> str:
    if engine.chance < PERHAPS_OVER:
        return "no"
    return f"{'yes' if engine.chance >= 0.5 else 'perhaps'}, {engine_span(engine.hours).removeprefix('about ')} h"
