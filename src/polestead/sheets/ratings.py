"""A rating in words: the same on the drawing, in the list and in the book."""

from __future__ import annotations

from math import ceil, floor

from polestead.base.show import Style, length, number
from polestead.wiring.guards.rating import VOLTS_DC, Rating, ratings_of
from polestead.wiring.guards.result import Guard

NEVER_PART = "\u00a0"
UNIT_WORDS = {"A": "amperes", "V": "volts", VOLTS_DC: "volts"}
AT_LEAST = "≥"
HAIR = 1e-9


def up(value: float, digits: int = 0) -> str:
    """What is demanded, or what is lost: never shown smaller than it is.

    Example:
        >>> up(34.12), up(0.0301 * 100.0, 1), up(35.0)
        ('35', '3.1', '35')
    """
    scale = 10.0**digits
    return number(ceil(value * scale - HAIR * scale) / scale, digits)


def down(value: float, digits: int = 0) -> str:
    """What may be borne, or what is left: never shown larger than it is.

    Example:
        >>> down(47.85), down(-0.4), down(55.0)
        ('47', '−1', '55')
    """
    scale = 10.0**digits
    return number(floor(value * scale + HAIR * scale) / scale, digits)


def share_up(share: float, digits: int = 1) -> str:
    """A loss or a fill in per cent, never shown smaller than it is.

    Example:
        >>> share_up(0.0301), share_up(0.3101, 0)
        ('3.1 %', '32 %')
    """
    return f"{up(100.0 * share, digits)} %"


def rating_words(rating: Rating, style: Style) -> str:
    """One figure in words; what must bear something and what may be reached are rounded up, and a unit never leaves its number.

    Example:
        >>> rating_words(Rating("breaks", 43.75, "A", "at least"), "feet").replace(NEVER_PART, " ")
        'breaks ≥ 44 A'
        >>> rating_words(Rating("breaks", None, "A", "asked"), "feet")
        'breaks: ask'
        >>> rating_words(Rating("gives", 4400.0, "W"), "feet").replace(NEVER_PART, " ")
        'gives 4.4 kW'
    """
    if rating.value is None:
        return f"{rating.what or UNIT_WORDS.get(rating.unit, rating.unit)}: ask"
    # Volts need no verb: an insulation bears them and a line shows them.
    what = "" if rating.what == "bears" else rating.what
    before = f"up{NEVER_PART}to" if rating.bound in ("at most", "reaches") else ""
    shown = _shown(rating, rating.value, style)
    if rating.bound == "at least":
        shown = f"{AT_LEAST}{NEVER_PART}{shown}"
    return " ".join(word for word in (what, before, shown) if word)


def guard_figures(guard: Guard, style: Style) -> tuple[str, ...]:
    """All figures of a guard's label.

    Args:
        guard: Any of the list.
        style: Units of lengths.
    """
    return tuple(rating_words(rating, style) for rating in ratings_of(guard))


def _shown(rating: Rating, value: float, style: Style) -> str:
    if rating.unit == "m":
        return length(value, style).replace(" ", NEVER_PART)
    if rating.bound in ("at least", "reaches"):
        value = float(ceil(value - HAIR))
    unit = rating.unit
    if unit == "W" and value >= 1000.0:
        value, unit = value / 1000.0, "kW"
    digits = 0 if value >= 100.0 or abs(value - round(value)) < 0.05 else 1
    return f"{number(value, digits)}{NEVER_PART}{unit.replace(' ', NEVER_PART)}".strip(NEVER_PART)
