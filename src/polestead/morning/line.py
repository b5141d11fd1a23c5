"""The morning line: one tilt for today, weighed against the gust.

First piece: tilt and gust only.  Sun, charge and engine are not weighed yet, and the line says so.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from math import ceil, log, sqrt
from typing import Literal

from polestead.base.quantity import in_unit
from polestead.base.show import Style, gust_step

Sureness = Literal["sure", "likely", "guess"]
Pairs = tuple[tuple[float, float], ...]  # (tilt [deg], stands to [m/s])

CALM_M_S = 5.0  # by hand, without a drive; our own rule
SAME_TILT_DEG = 1.0
NOT_WEIGHED = "Sun, charge and engine are not weighed in this line yet."


@dataclass(frozen=True, slots=True)
class Sentence:
    """One sentence of the line, and how sure it is."""

    sureness: Sureness
    text: str


@dataclass(frozen=True, slots=True)
class MorningLine:
    """What to do today.

    Attributes:
        day: The day.
        sentences: At most five short ones.
        set_tilt_deg: The tilt to set, None when it is not to be moved.
        stop: Do not move it: nothing that could be followed by habit may be shown.
        if_wrong: What it means if the gust is another.
        why: What the line rests on.
    """

    day: date
    sentences: tuple[Sentence, ...]
    set_tilt_deg: float | None
    stop: bool
    if_wrong: str
    why: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Morning:
    """All that the line is made from, gusts in the owner's unit and rounded so that no rounding eases."""

    tilt_deg: float
    card: Pairs  # stands-to rounded down, as on the gust card
    gust: float  # heard or taken
    heard: bool
    move_under: float  # rounded down
    blows: float | None
    lies_at_deg: float | None
    unit: str


def once_a_year_gust_m_s(code_gust_m_s: float) -> float:
    """The gust that comes about once a year, from the code's wind at its allowable level.

    Source: ASCE 7 commentary to 26.5: V_T / V_50 = .36 + .1 ln(12 T) (from memory), with the map of risk category II
    taken as T = 700 years and the allowable level as sqrt(.6) of it.  Valid for: open country outside hurricanes; at
    T = 1 below the span it was fitted to.  A year, not a week: gusts of single weeks are not known here yet, and
    the formula would make them too small.

    Args:
        code_gust_m_s: The code's wind at its allowable level [m/s].

    Returns:
        Gust, 3 s at 10 m over open ground [m/s].

    Example:
        >>> round(once_a_year_gust_m_s(37.05), 1)  # 107 mph on the map
        23.0
    """
    map_speed = code_gust_m_s / sqrt(0.6)
    return map_speed * _of_fifty_year(1.0) / _of_fifty_year(700.0)


def morning_line(
    day: date,
    tilt_deg: float,
    stands_to_m_s: float,
    code_gust_m_s: float,
    move_under_m_s: float | None,
    heard_gust_m_s: float | None = None,
    blows_m_s: float | None = None,
    lies_at_deg: float | None = None,
    card: Sequence[tuple[float, float]] = (),
    style: Style = "feet",
) -> MorningLine:
    """The line for a day.

    Never names a tilt whose stands-to, as shown, is under the gust; never has the array moved while it blows as hard as
    the moving gust.

    Args:
        day: The day.
        tilt_deg: What the habit wants today [deg].
        stands_to_m_s: What that tilt stands to [m/s].
        code_gust_m_s: The code's wind at its allowable level [m/s].
        move_under_m_s: Least moving gust over the whole travel [m/s], None without a drive.
        heard_gust_m_s: Strongest gust heard for until tomorrow morning [m/s], None without a forecast.
        blows_m_s: What it blows now, by eye or instrument [m/s]; None: not looked.
        lies_at_deg: Where the array is [deg]; None: not known.
        card: (tilt [deg], stands to [m/s]) of the other tilts, for a way out.
        style: The owner's units.
    """
    pairs = tuple(sorted({**dict(card), tilt_deg: stands_to_m_s}.items()))
    unit = "mph" if style == "feet" else "m/s"
    taken = once_a_year_gust_m_s(code_gust_m_s) if heard_gust_m_s is None else heard_gust_m_s
    limit = CALM_M_S if move_under_m_s is None else move_under_m_s
    morning = _Morning(
        tilt_deg=tilt_deg,
        card=tuple((tilt, gust_step(stands, style)) for tilt, stands in pairs),
        gust=_up(taken, unit),
        heard=heard_gust_m_s is not None,
        move_under=gust_step(limit, style),
        blows=None if blows_m_s is None else _up(blows_m_s, unit),
        lies_at_deg=lies_at_deg,
        unit=unit,
    )
    target = _target(morning)
    sentences, set_to, stop = _act(morning, target)
    return MorningLine(
        day, (*_forecast(morning), *sentences), set_to, stop, _if_wrong(morning, set_to), _why(morning, target)
    )  # fmt: skip


def _of_fifty_year(years: float) -> float:
    return 0.36 + 0.1 * log(12.0 * years)


def _up(speed_m_s: float, unit: str) -> float:
    """A gust that acts, rounded up."""
    return float(ceil(in_unit(speed_m_s, unit) - 1e-6))


def _stands_at(card: Pairs, tilt_deg: float) -> float:
    """The lower stands-to of the two tilts of the card on either side; none where the card does not reach."""
    below = [pair for pair in card if pair[0] <= tilt_deg + SAME_TILT_DEG / 2]
    above = [pair for pair in card if pair[0] >= tilt_deg - SAME_TILT_DEG / 2]
    return min(below[-1][1], above[0][1]) if below and above else 0.0


def _target(morning: _Morning) -> float | None:
    """The wanted tilt if it stands to the gust, else the one that stands to most, else none."""
    if dict(morning.card)[morning.tilt_deg] >= morning.gust:
        return morning.tilt_deg
    tilt, stands = max(morning.card, key=lambda pair: (pair[1], -pair[0]))
    return tilt if stands >= morning.gust else None


def _act(
    morning: _Morning, target: float | None
) -> tuple[tuple[Sentence, ...], float | None, bool]:
    """The sentences about moving, the tilt to set, and whether to stop."""
    lies = morning.lies_at_deg
    stays = lies is not None and _stands_at(morning.card, lies) >= morning.gust
    if morning.blows is not None and morning.blows >= morning.move_under:
        return _stop(morning, stays), None, True
    if target is None:
        return _nothing_stands(morning), None, True
    if lies is not None and stays:
        if abs(lies - target) < SAME_TILT_DEG:
            return (Sentence(_sure(morning), f"Leave it at {lies:.0f}."),), None, False
        if morning.blows is None and morning.heard and morning.gust >= morning.move_under:
            leave = f"Leave it at {lies:.0f}: {_said(morning)} {morning.gust:.0f} {morning.unit}, move only under {morning.move_under:.0f}."  # fmt: skip
            return (Sentence(_sure(morning), leave),), None, False
    return _set(morning, target), target, False


def _set(morning: _Morning, target: float) -> tuple[Sentence, ...]:
    windy = morning.heard and morning.gust >= morning.move_under
    first = "Look first: move only while gusts keep under" if windy else "Move only under"
    limit = Sentence("sure", f"{first} {morning.move_under:.0f} {morning.unit}.")
    if target == morning.tilt_deg:
        return (limit, Sentence(_sure(morning), f"Set {target:.0f}."))
    wanted = dict(morning.card)[morning.tilt_deg]
    instead = f"Not {morning.tilt_deg:.0f}: it stands to {wanted:.0f}, {_said(morning)} {morning.gust:.0f} {morning.unit}."
    return (
        limit,
        Sentence(_sure(morning), instead),
        Sentence(_sure(morning), f"Set {target:.0f} and lock, before the wind comes."),
    )


def _stop(morning: _Morning, stays: bool) -> tuple[Sentence, ...]:
    blows = (
        f"It blows {morning.blows:.0f} {morning.unit}; move only under {morning.move_under:.0f}."
    )
    sentences = [Sentence("sure", "Do not move it."), Sentence("sure", blows)]
    if not stays:
        sentences.append(Sentence(_sure(morning), "Where it is it may not stand: keep away, nobody under it."))  # fmt: skip
    return tuple(sentences)


def _nothing_stands(morning: _Morning) -> tuple[Sentence, ...]:
    none = f"No tilt on the card stands to {morning.gust:.0f} {morning.unit}."
    away = "Do not move it: lock it as it is, keep away, nobody under it."
    return (Sentence(_sure(morning), none), Sentence("sure", away))


def _forecast(morning: _Morning) -> tuple[Sentence, ...]:
    if morning.heard:
        return ()
    text = f"No forecast. I take the gust that comes about once a year, {morning.gust:.0f} {morning.unit}."
    return (Sentence("guess", text),)


def _sure(morning: _Morning) -> Sureness:
    return "likely" if morning.heard else "guess"


def _said(morning: _Morning) -> str:
    return "heard" if morning.heard else "taken"


def _if_wrong(morning: _Morning, set_to: float | None) -> str:
    where = morning.lies_at_deg if set_to is None else set_to
    if where is None:
        return "Where it stands now is not known: if it blows harder than the card says, keep away from it."
    stands = _stands_at(morning.card, where)
    return f"At {where:.0f} it stands to {stands:.0f} {morning.unit}; in more than that something gives: keep away from it."


def _why(morning: _Morning, target: float | None) -> tuple[str, ...]:
    wanted = dict(morning.card)[morning.tilt_deg]
    unit = morning.unit
    lines = [
        f"Gust {_said(morning)}: {morning.gust:.0f} {unit}.",
        f"At {morning.tilt_deg:.0f} it stands to {wanted:.0f} {unit}.",
        f"Move only under {morning.move_under:.0f} {unit}, over the whole way.",
    ]
    if target is not None and target != morning.tilt_deg:
        lines.append(f"At {target:.0f} it stands to {dict(morning.card)[target]:.0f} {unit}.")
    return (*lines, NOT_WEIGHED)
