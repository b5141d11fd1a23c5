"""Wind by eye and by instrument, turned into a gust at 10 m in the open (conventions §8)."""

from __future__ import annotations

from dataclasses import dataclass

from polestead.base.problem import Problem, Wrong
from polestead.base.quantity import NotAQuantity, read_quantity
from polestead.base.table import table
from polestead.morning.forecast.forecast import GUST_OVER_MEAN
from polestead.morning.forecast.words import folded

GUST_OVER_ROUGH_MEAN = 1.9  # the same where woods or houses stand all round
ROUGH = ("B", "III", "IV")
MOST_M_S = 100.0


@dataclass(frozen=True, slots=True)
class EyeStep:
    """One step of the ladder.

    Attributes:
        force: Of the Beaufort scale.
        name: Its name.
        mean_m_s: Upper end of its ten-minute mean.
        sign: What is seen.
        also: Other words for it.
        card: Its words on the card to hang; empty where it is no rung of it.
        source: Where the step is from.
    """

    force: int
    name: str
    mean_m_s: float
    sign: str
    also: tuple[str, ...]
    card: str
    source: str


def ladder() -> tuple[EyeStep, ...]:
    """The ladder, stillest first.

    Example:
        >>> [step.name for step in ladder()][:3]
        ['calm', 'light air', 'light breeze']
    """
    rows = table("morning", "forecast/by_eye")
    return tuple(EyeStep(int(row["force"]), row["name"], float(row["mean_m_s"]), row["sign"], tuple(row["also"].split("|")), row["card"], row["source"]) for row in rows)  # fmt: skip


def gust_factor(exposure: str) -> float:
    """Gust over a mean wind that is watched at the place itself."""
    return GUST_OVER_ROUGH_MEAN if exposure in ROUGH else GUST_OVER_MEAN


def read_blows(text: str, exposure: str, height_share: float = 1.0) -> tuple[float, str]:
    """What it blows now: a speed read off an own instrument, taken as a gust, or a step seen by eye.

    Args:
        text: As ``35 mph``, ``small branches move``, ``force 6``.
        exposure: Of the place.
        height_share: Speed at the instrument over the speed at 10 m in the open, sqrt(Kz); 1 for one at 10 m.

    Returns:
        Gust at 10 m in the open [m/s], and what was made of it.

    Raises:
        Wrong: Neither.

    Example:
        >>> round(read_blows("small branches move", "C")[0], 2), round(read_blows("20 kt", "C")[0], 2)
        (11.85, 10.29)
    """
    words = folded(text)
    for step in ladder():
        if words in (step.name, f"force {step.force}", f"beaufort {step.force}", *step.also, *step.sign.split("; ")):  # fmt: skip
            return step.mean_m_s * gust_factor(exposure), f"{step.name}: {step.sign}"
    try:
        speed = read_quantity(words.removeprefix("gusts ").removeprefix("gust "), "speed")
    except NotAQuantity as wrong:
        raise _no_wind(text, str(wrong)) from None
    if not 0.0 <= speed <= MOST_M_S:
        raise _no_wind(text, "no wind on land blows so")
    return speed / height_share, f"{text.strip()} by instrument, taken as a gust"


def _no_wind(text: str, why: str) -> Wrong:
    steps = ", ".join(step.also[0] for step in ladder() if step.force in (0, 3, 4, 6, 7, 8))
    return Wrong([Problem("", "--blows", f"{text} ({why})", f"a speed with its unit, as 35 mph, or what you see: {steps}", "Look again and write one of these.")])  # fmt: skip
