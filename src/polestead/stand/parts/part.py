"""One part and one way it can give."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from polestead.base.source import Source
from polestead.base.working import Step
from polestead.loads.combinations import LoadSet
from polestead.stand.actions import Acting
from polestead.strength.allowable import Allowable

Floats = NDArray[np.float64]
Of = Callable[[Acting], Floats]
Told = Callable[[Acting], tuple[Step, ...]]
STATICS = Source("statics", "docs/method/stand.md", "ours")
AT_THE_GROUND = ("foot_down_n", "shear_n", "base_n_m", "roll_n_m", "twist_n_m")


@dataclass(frozen=True, eq=False)
class Part:
    """One part and one way it can give.

    Attributes:
        name: In the owner's words (``pole at the collar``).
        what: What is checked.
        unit: SI unit of demand and capacity.
        demand: What acts on it, [cases, tilts] of any actions.
        capacity: What it may carry, the same or one number for all.
        use: Share used.
        source: The rule.
        steps: How the capacity was found.
        told: Steps from the actions of one case at one tilt to the demand.
        fields: Which actions its working adds up.
        loads: In which set of combinations it is checked.
        limit: What it may carry where that is one number and the use is demand over it; None else.
    """

    name: str
    what: str
    unit: str
    demand: Of
    capacity: Of
    use: Of
    source: Source
    steps: tuple[Step, ...]
    told: Told
    fields: tuple[str, ...] = AT_THE_GROUND
    loads: LoadSet = "structure"
    limit: float | None = None


def shares(demand: Floats, capacity: Floats | float) -> Floats:
    """Demand over capacity, endless where nothing can be carried, 0 where nothing acts.

    Example:
        >>> shares(np.array([1.0, 1.0, 0.0]), np.array([4.0, 0.0, 0.0])).tolist()
        [0.25, inf, 0.0]
    """
    room = np.asarray(capacity, dtype=np.float64)
    if (room > 0.0).all():
        return np.asarray(demand / room)
    room = np.broadcast_to(room, demand.shape)
    use = np.full(demand.shape, np.inf)
    np.divide(demand, room, out=use, where=room > 0.0)
    return np.where(demand == 0.0, 0.0, use)


def number(acting: Acting, name: str) -> float:
    """One field of one case at one tilt."""
    return float(getattr(acting, name)[0, 0])


def one(of: Of, acting: Acting) -> float:
    """Any figure of one case at one tilt."""
    return float(np.broadcast_to(of(acting), (1, 1))[0, 0])


def level(value: float) -> Of:
    """The same number whatever acts."""
    same = np.full((1, 1), value)
    return lambda _: same


def plain(
    name: str,
    what: str,
    unit: str,
    demand: Of,
    allowed: Allowable | tuple[Of, tuple[Step, ...]],
    source: Source,
    told: Told,
    fields: tuple[str, ...] = AT_THE_GROUND,
    loads: LoadSet = "structure",
) -> Part:
    """A part whose use is demand over capacity.

    Args:
        name: As in `Part`, like all that follow.
        what: What is checked.
        unit: SI unit.
        demand: What acts on it.
        allowed: What it may carry with its steps; a number, or by case and tilt.
        source: The rule.
        told: Steps to the demand.
        fields: Which actions its working adds up.
        loads: In which set it is checked.
    """
    use: Of
    limit = None
    if isinstance(allowed, Allowable):
        limit = value = allowed.value
        capacity, steps = level(value), allowed.steps
        use = (lambda a: demand(a) / value) if value > 0.0 else (lambda a: shares(demand(a), value))
    else:
        capacity, steps = allowed
        use = lambda a: shares(demand(a), capacity(a))  # noqa: E731
    return Part(name, what, unit, demand, capacity, use, source, steps, told, fields, loads, limit)
