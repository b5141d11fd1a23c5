"""Everything that may charge the battery at the same moment, against what it may take."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor

from polestead.base.check import Check, share
from polestead.base.source import Source
from polestead.base.working import Step, Working
from polestead.homestead.fields import source_of
from polestead.homestead.model import Household, NewArray, OldArray

AT_NOMINAL = Source(
    "power over nominal voltage, a little high: a bank being charged stands over it", status="ours"
)
CHARGER = "the engine's charger"
NO_MORE = Source(
    "no controller passes on more than its limit, or than it is set to", status="computed"
)
PART = "battery"
SUN_CHECK = "charging current of all arrays together"
ENGINE_CHECK = "charging current of all arrays and the engine's charger together"


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
class SetTo:
    """A charging current that is set by hand and told on a label.

    Attributes:
        name: As among the currents.
        amps_a: What it is set to, or must be [A].
        demanded: Whether the sum asks for it; else the file says that it is so.
    """

    name: str
    amps_a: float
    demanded: bool


@dataclass(frozen=True, slots=True)
class Charging:
    """Charging currents that may come together.

    Attributes:
        currents_a: Each by its name: the controllers, sun at the modules' rating, no more than each is set to; the engine's charger,
            no more than the sun leaves it where it gives way.
        sun_a: All controllers together.
        together_a: Sum.
        limit_a: What the battery may take.
        limit_by_file: Whether the file says so; else a fifth of the capacity an hour stands for what its maker would say.
        words: What to do.
        checks: The sun alone, and sun and engine together, against the limit.
        settings: What to set to how many amperes so that the sum fits; empty where it fits.
        to_set: What each controller and the charger are set to, where the file or the sum says so: told on labels and one-line.
        charger_in_dark_a: What the engine's charger may be set to when no sun helps; None without engine.
    """

    currents_a: tuple[tuple[str, float], ...]
    sun_a: float
    together_a: float
    limit_a: float
    limit_by_file: bool
    words: str
    checks: tuple[Check, ...]
    settings: tuple[Setting, ...] = ()
    to_set: tuple[SetTo, ...] = ()
    charger_in_dark_a: float | None = None

    @property
    def too_much(self) -> bool:
        """Whether they may come to more than the battery takes."""
        return self.together_a > self.limit_a


def charging_of(house: Household, array: NewArray) -> Charging:
    """All controllers in full sun, alone and with the engine's charger, against what the battery may take.

    A controller's set current holds back that controller alone, and the engine's charger knows of neither: all of them add, but
    for a charger that reads the battery's own current and gives way.

    Source: our own sum, on the safe side.

    Args:
        house: Controllers, old arrays, engine, battery.
        array: The new array.
    """
    battery, engine, volts = house.battery, house.engine, house.battery.nominal_v
    found, steps = _sun(house, array)
    sun_a, limit = sum(amps for _, amps in found), battery.may_take_a
    steps.append(Step("all controllers together", "Isun", "", sun_a, "A", AT_NOMINAL))
    may = Step("the battery may take", "Imax", "", limit, "A", source_of(battery, "charge_limit_a"))
    checks = [_check(SUN_CHECK, sun_a, may, steps)]
    together = sun_a
    if engine is not None:
        engine_a = engine.charger_w / volts
        steps.append(Step(CHARGER, "Ieng", f"{engine.charger_w:.0f} / {volts:g}", engine_a, "A", AT_NOMINAL))  # fmt: skip
        if engine.charger_gives_way:
            left = min(engine_a, max(0.0, limit - sun_a))
            steps.append(Step("it gives way by the battery's meter", "Ieng", f"min({engine_a:.1f}, max(0, {limit:g} - {sun_a:.1f}))", left, "A", source_of(engine, "charger_gives_way")))  # fmt: skip
            engine_a = left
        found.append((CHARGER, engine_a))
        together += engine_a
        if engine.charger_gives_way and sun_a <= limit:
            together = min(together, limit)  # what it leaves is what it takes, to the last digit
        steps.append(Step("sun and engine together", "Isum", f"{sun_a:.1f} + {engine_a:.1f}", together, "A", AT_NOMINAL))  # fmt: skip
        checks.append(_check(ENGINE_CHECK, together, may, steps))
    by_file = battery.charge_limit_a is not None
    lower = settings_of(tuple(found), limit)
    return Charging(
        tuple(found), sun_a, together, limit, by_file, _words(house, tuple(found), limit, by_file), tuple(checks), lower, currents_to_set(house, lower),
        None if engine is None else min(engine.charger_w / volts, limit),
    )  # fmt: skip


def _sun(house: Household, array: NewArray) -> tuple[list[tuple[str, float]], list[Step]]:
    """Each controller with all its modules at their rating."""
    volts = house.battery.nominal_v
    found: list[tuple[str, float]] = []
    steps: list[Step] = []
    for one in house.controller:
        watts = sum(_gives_w(old) for old in house.old_array if old.controller == one.name)
        if array.controller == one.name:
            watts += array.columns * array.rows * array.module.power_w
        amps = min(watts / volts, one.passes_a)
        found.append((controller_name(one.name), amps))
        steps.append(
            Step(f"{one.name}, its modules in full sun", "I", f"min({watts:.0f} / {volts:g}, {one.passes_a:g})", amps, "A", NO_MORE)
        )  # fmt: skip
    return found, steps


def _check(name: str, demand: float, may: Step, steps: list[Step]) -> Check:
    working = Working(f"{PART}: {name}", (*steps, may))
    use = share(demand, may.value)
    return Check(PART, name, demand, may.value, "A", use, may.source, working)


def currents_to_set(house: Household, settings: tuple[Setting, ...]) -> tuple[SetTo, ...]:
    """What each controller and the charger are set to: what the sum demands, else what the file says.

    Args:
        house: Controllers, as they are set.
        settings: Of ``settings_of``; empty where the sum fits.
    """
    asked = {one.name: one.set_to_a for one in settings}
    found = []
    for one in house.controller:
        name = controller_name(one.name)
        if name in asked:
            found.append(SetTo(name, asked[name], True))
        elif one.set_current_a is not None:
            found.append(SetTo(name, one.set_current_a, False))
    if CHARGER in asked:
        found.append(SetTo(CHARGER, asked[CHARGER], True))
    return tuple(found)


def controller_name(name: str) -> str:
    """As it stands among the currents.

    Example:
        >>> controller_name("roof")
        'controller roof'
    """
    return f"controller {name}"


def tenths_that_add(amps: tuple[float, ...]) -> tuple[float, ...]:
    """Currents in tenths of an ampere whose sum is the sum, in tenths: each cut down, the largest remainders up again.

    Example:
        >>> tenths_that_add((68.333, 51.667)), tenths_that_add((0.05, 0.05, 0.05))
        ((68.3, 51.7), (0.1, 0.1, 0.0))
    """
    tenths = [10.0 * one for one in amps]
    cut = [floor(one + 1e-9) for one in tenths]
    left = ceil(sum(tenths) - 1e-6) - sum(cut)
    behind = sorted(range(len(amps)), key=lambda nth: cut[nth] - tenths[nth])
    for nth in behind[: max(0, left)]:
        cut[nth] += 1
    return tuple(one / 10.0 for one in cut)


def settings_of(currents: tuple[tuple[str, float], ...], limit_a: float) -> tuple[Setting, ...]:
    """What to lower so that all together stay within what the battery may take: the engine's charger first, then the sun evenly.

    Source: our own rule: sun costs nothing, so the engine gives way; the controllers share in proportion to what they may push.

    Args:
        currents: Each by its name [A].
        limit_a: What the battery may take [A].

    Example:
        >>> found = settings_of((("controller roof", 28.3), ("controller pole", 73.3), (CHARGER, 89.6)), 150.0)
        >>> [(one.name, one.set_to_a) for one in found]
        [("the engine's charger", 48.0)]
        >>> [one.set_to_a for one in settings_of((("a", 30.0), ("b", 70.0), (CHARGER, 20.0)), 80.0)]
        [24.0, 56.0, 0.0]
    """
    if sum(amps for _, amps in currents) <= limit_a:
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


def _gives_w(old: OldArray) -> float:
    """Most an old array gives: its rating, or the share of it the owner knows; ageing by years is left off, on the safe side."""
    return old.power_w if old.age_years is not None else old.power_w * old.still_gives


def _words(house: Household, currents: tuple[tuple[str, float], ...], limit_a: float, by_file: bool) -> str:  # fmt: skip
    """Which limit holds, and the act that cures what does not."""
    battery, engine = house.battery, house.engine
    shown = tenths_that_add(tuple(amps for _, amps in currents))
    of_sun = [amps for (name, _), amps in zip(currents, shown, strict=True) if name != CHARGER]
    sun_a = sum(amps for name, amps in currents if name != CHARGER)
    together_a = sum(amps for _, amps in currents)
    what = (
        f"the {limit_a:g} A the battery may take"
        if by_file
        else f"{limit_a:g} A, a fifth of its capacity an hour, which is taken until its maker says what it may"
    )
    sun, sum_a = (f"{amps:.1f}".removesuffix(".0") for amps in (sum(of_sun), sum(shown)))
    if sun_a > limit_a:
        more = "" if engine is None or engine.charger_gives_way else f", with the engine {sum_a} A"
        return (
            f"The sun alone may push {sun} A{more}, over {what}. A controller's limit holds that controller alone, so their limits together must stay under it: set them, "
            "and write what they are set to (household.controller, set_current)."
        )
    if together_a <= limit_a:
        if engine is not None and engine.charger_gives_way:
            return (
                f"The sun pushes up to {sun} A, and the engine's charger gives way by the battery's meter: together no more than {what}. Try it once: full sun, engine on, "
                "and read the battery's own amperes."
            )
        return f"Together up to {sum_a} A, within {what}."
    to_a = floor(limit_a - sun_a + 1e-9)
    return (
        f"The sun alone stays within {what} ({sun} A). With the engine's charger it may be {sum_a} A: each controller holds back by its own limit only and the charger by none of them, so "
        f"they add. What cures it: set the charger to {to_a} A ({floor(to_a * battery.nominal_v + 1e-9)} W; household.engine, charger); or one that reads a meter of the battery's whole current "
        "and gives way to the sun (charger_gives_way = true); or lower limits in the controllers. Starting the engine only after sunset does it too, but nothing here holds anybody to that."
    )
