"""Everything that may charge the battery at the same moment, against what it may take."""

from __future__ import annotations

from dataclasses import dataclass
from math import floor

from polestead.base.source import OWNER, Source
from polestead.base.working import Step, Working
from polestead.homestead.model import Household, NewArray, OldArray

AT_NOMINAL = Source(
    "power over nominal voltage, a little high: a bank being charged stands over it", status="ours"
)
CHARGER = "the engine's charger"
NO_MORE = Source("no controller passes on more than its limit", status="computed")


@dataclass(frozen=True, slots=True)
class Setting:
    """One current to lower.

    Attributes:
        name: As among the currents.
        may_push_a: What it may push now [A].
        set_to_a: What to set it to [A], whole amperes, rounded down.
    """

    name: str
    may_push_a: float
    set_to_a: float


@dataclass(frozen=True, slots=True)
class Charging:
    """Charging currents that may come together.

    Attributes:
        currents_a: Each by its name: the controllers, sun at the modules' rating; the engine's charger.
        together_a: Sum.
        limit_a: What the battery may take; None where the file does not say.
        words: What to do.
        working: How it was found.
        settings: What to set to how many amperes so that the sum fits; empty where it fits or no limit is known.
        charger_in_dark_a: What the engine's charger may be set to when no sun helps; None without engine or limit.
    """

    currents_a: tuple[tuple[str, float], ...]
    together_a: float
    limit_a: float | None
    words: str
    working: Working
    settings: tuple[Setting, ...] = ()
    charger_in_dark_a: float | None = None

    @property
    def too_much(self) -> bool:
        """Whether they may come to more than the battery takes."""
        return self.limit_a is not None and self.together_a > self.limit_a


def charging_of(house: Household, array: NewArray) -> Charging:
    """All controllers in full sun and the engine's charger at once.

    Source: our own sum, on the safe side.

    Args:
        house: Controllers, old arrays, engine, battery.
        array: The new array.
    """
    volts = house.battery.nominal_v
    steps: list[Step] = []
    found: list[tuple[str, float]] = []
    for one in house.controller:
        watts = sum(_gives_w(old) for old in house.old_array if old.controller == one.name)
        if array.controller == one.name:
            watts += array.columns * array.rows * array.module.power_w
        amps = min(watts / volts, one.current_limit_a)
        found.append((f"controller {one.name}", amps))
        steps.append(
            Step(f"{one.name}, its modules in full sun", "I", f"min({watts:.0f} / {volts:g}, {one.current_limit_a:g})", amps, "A", NO_MORE)
        )  # fmt: skip
    sun_a = sum(amps for _, amps in found)
    if house.engine is not None:
        engine_a = house.engine.charger_w / volts
        found.append((CHARGER, engine_a))
        steps.append(Step(CHARGER, "I", f"{house.engine.charger_w:.0f} / {volts:g}", engine_a, "A", AT_NOMINAL))  # fmt: skip
    together = sum(amps for _, amps in found)
    steps.append(Step("together", "Isum", "", together, "A", AT_NOMINAL))
    limit = house.battery.charge_limit_a
    if limit is not None:
        steps.append(Step("the battery may take", "Imax", "", limit, "A", OWNER))
    return Charging(
        tuple(found), together, limit, _words(together, sun_a, limit),
        Working("charging currents that may come together", tuple(steps)), settings_of(tuple(found), limit), _in_dark_a(house, limit),
    )  # fmt: skip


def settings_of(
    currents: tuple[tuple[str, float], ...], limit_a: float | None
) -> tuple[Setting, ...]:
    """What to lower so that all together stay within what the battery may take: the engine's charger first, then the sun evenly.

    Source: our own rule: sun costs nothing, so the engine gives way; the controllers share in proportion to what they may push.

    Args:
        currents: Each by its name [A].
        limit_a: What the battery may take [A]; None: nothing can be proposed.

    Example:
        >>> found = settings_of((("controller roof", 28.3), ("controller pole", 73.3), (CHARGER, 89.6)), 150.0)
        >>> [(one.name, one.set_to_a) for one in found]
        [("the engine's charger", 48.0)]
        >>> [one.set_to_a for one in settings_of((("a", 30.0), ("b", 70.0), (CHARGER, 20.0)), 80.0)]
        [24.0, 56.0, 0.0]
    """
    if limit_a is None or sum(amps for _, amps in currents) <= limit_a:
        return ()
    sun_a = sum(amps for name, amps in currents if name != CHARGER)
    share = min(1.0, limit_a / sun_a) if sun_a > 0.0 else 1.0
    left = max(0.0, limit_a - sun_a)
    found = []
    for name, amps in currents:
        to = min(amps, left) if name == CHARGER else amps * share
        if to < amps:
            found.append(Setting(name, amps, float(floor(to + 1e-9))))
    return tuple(found)


def _in_dark_a(house: Household, limit_a: float | None) -> float | None:
    if house.engine is None or limit_a is None:
        return None
    return min(house.engine.charger_w / house.battery.nominal_v, limit_a)


def _gives_w(old: OldArray) -> float:
    """Most an old array gives: its rating, or the share of it the owner knows; ageing by years is left off, on the safe side."""
    return old.power_w if old.age_years is not None else old.power_w * old.still_gives


def _words(together_a: float, sun_a: float, limit_a: float | None) -> str:
    if limit_a is None:
        return f"Ask the battery's maker what charging current it may take: up to {together_a:.0f} A may come together."
    if together_a <= limit_a:
        return f"Together up to {together_a:.0f} A, under the {limit_a:g} A the battery may take."
    if sun_a <= limit_a:
        return f"The sun alone stays under {limit_a:g} A ({sun_a:.0f} A); with the engine's charger it may be {together_a:.0f} A: set the charger lower, or do not run it in full sun."  # fmt: skip
    return f"The sun alone may push {sun_a:.0f} A, with the engine {together_a:.0f} A, and the battery may take {limit_a:g} A: set the controllers so that their limits together stay under it."  # fmt: skip
