"""The order in which modules are hung, both sides of the hinge in balance."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np
from numpy.typing import NDArray

from polestead.base.check import Check, share
from polestead.base.source import Source
from polestead.base.working import Step, Working
from polestead.strength.allowable import Allowable

Floats = NDArray[np.float64]
GRAVITY_M_S2 = 9.80665
TRIED_WHOLE = 12  # up to so many modules every order is weighed; beyond, rows first, then columns
MOST_STATES = 20_000
SLACK = 1.0 + 1e-9
ORDER = Source("every order weighed: least largest moment about the hinge, then from the middle outwards", "docs/method/build.md", "ours")  # fmt: skip
STATICS = Source("statics", status="computed")


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a module hangs.

    Attributes:
        row: From 1 at the low edge.
        column: From 1 at the left, seen from the glass side.
        along_m: From the hinge, + towards the upper edge.
        across_m: From the pole, + to the right.
    """

    row: int
    column: int
    along_m: float
    across_m: float


@dataclass(frozen=True, slots=True)
class Hung:
    """One module hung, and what is out of balance after it.

    Attributes:
        row, column: Which one.
        hinge_n_m: About the hinge laid flat, + where the upper half is heavier (it then wants to flatten further).
        pole_n_m: About the pole, + where the right side is heavier.
        worst_n_m: About the hinge at the worst tilt of the travel.
    """

    row: int
    column: int
    hinge_n_m: float
    pole_n_m: float
    worst_n_m: float


@dataclass(frozen=True, slots=True)
class HangingOrder:
    """The whole order.

    Attributes:
        steps: Module after module.
        largest_hinge_n_m: Largest moment about the hinge after any of them, laid flat.
        largest_pole_n_m: Largest moment about the pole.
        largest_worst_n_m: Largest about the hinge at the worst tilt of the travel: what the hold must bear.
        one_side_first_n_m: About the hinge, laid flat, had one half been hung first.
        bare_n_m: About the hinge, laid flat, before the first module.
        proved: Whether no order has a smaller largest moment about the hinge, laid flat.
        words: What holds it while this is done.
        checks: That moment against storm hold and prop.
    """

    steps: tuple[Hung, ...]
    largest_hinge_n_m: float
    largest_pole_n_m: float
    largest_worst_n_m: float
    one_side_first_n_m: float
    bare_n_m: float
    proved: bool
    words: str
    checks: tuple[Check, ...]


def spots_of(row_along_m: Sequence[float], columns: int, pitch_m: float) -> tuple[Spot, ...]:
    """Every module's place.

    Args:
        row_along_m: Middle of each row from the hinge, low edge first [m].
        columns: Side by side.
        pitch_m: From one column to the next [m].
    """
    return tuple(
        Spot(r + 1, c + 1, along, (c - (columns - 1) / 2.0) * pitch_m)
        for r, along in enumerate(row_along_m)
        for c in range(columns)
    )


def balanced(
    spots: Sequence[Spot], bare_kg_m: float, module_kg: float
) -> tuple[tuple[Spot, ...], bool]:
    """The order whose largest moment about the hinge is least; among equals from the middle outwards, left and right in turn.

    Args:
        spots: All places.
        bare_kg_m: Mass times distance along the chord of what tips already [kg m].
        module_kg: Of one module [kg].

    Returns:
        The order, and whether no other has a smaller largest moment about the hinge.

    Example:
        >>> order, proved = balanced(spots_of((-1.0, 1.0), 2, 1.2), 0.0, 20.0)
        >>> [(spot.row, spot.column) for spot in order], proved
        ([(1, 1), (2, 2), (1, 2), (2, 1)], True)
    """
    if len(spots) <= TRIED_WHOLE:
        return _every_order(spots, bare_kg_m / module_kg), True
    rows, proved = _row_order(spots, bare_kg_m / module_kg)
    return _columns_for(spots, rows), proved


def _every_order(spots: Sequence[Spot], bare_m: float) -> tuple[Spot, ...]:
    """Over all sets of hung modules: the least bottleneck of the hinge; within it, from the middle outwards."""
    many = len(spots)
    masks = np.arange(1 << many)
    turned = (((masks >> n) & 1) * spot.along_m for n, spot in enumerate(spots))
    hinge = np.abs(sum(turned, start=np.full(1 << many, bare_m)))
    within = (hinge <= _least_bottleneck(hinge, many) * SLACK + 1e-12) | (masks == 0)
    ends = _reaches_all(within, many)
    order: list[Spot] = []
    here, side_m = 0, 0.0
    while len(order) < many:
        open_ = [n for n in range(many) if not here >> n & 1 and ends[here | 1 << n]]
        nxt = min(open_, key=lambda n: (_ring(spots[n]), round(abs(side_m + spots[n].across_m), 6), _outwards(spots[n])))  # fmt: skip
        order.append(spots[nxt])
        here |= 1 << nxt
        side_m += spots[nxt].across_m
    return tuple(order)


def _ring(spot: Spot) -> float:
    return round(abs(spot.across_m), 6)


def _outwards(spot: Spot) -> tuple[float, float, int, int]:
    return (round(abs(spot.across_m), 6), round(abs(spot.along_m), 6), spot.row, spot.column)


def _least_bottleneck(value: Floats, many: int) -> float:
    """Least, over all ways from nothing hung to all, of the largest value met on the way."""
    best = value.copy()
    best[0] = 0.0
    for mask in range(1, 1 << many):
        before = min(best[mask ^ (1 << n)] for n in range(many) if mask >> n & 1)
        best[mask] = max(best[mask], before)
    return float(best[-1])


def _reaches_all(within: NDArray[np.bool_], many: int) -> NDArray[np.bool_]:
    """From which sets all can be hung without leaving the allowed sets."""
    ends = np.zeros(1 << many, dtype=bool)
    ends[-1] = True
    for mask in range((1 << many) - 2, -1, -1):
        ends[mask] = within[mask] and any(ends[mask | 1 << n] for n in range(many) if not mask >> n & 1)  # fmt: skip
    return ends


def _row_order(spots: Sequence[Spot], bare_m: float) -> tuple[tuple[int, ...], bool]:
    """In which order rows take a module: only how many hang in each row turns the hinge."""
    rows = sorted({spot.row for spot in spots})
    along = [next(s.along_m for s in spots if s.row == row) for row in rows]
    most = [sum(s.row == row for s in spots) for row in rows]
    if np.prod([m + 1 for m in most], dtype=float) > MOST_STATES:
        return _greedy_rows(rows, along, most, bare_m), False
    best: dict[tuple[int, ...], float] = {tuple(0 for _ in rows): 0.0}
    came: dict[tuple[int, ...], int] = {}
    for state in sorted(product(*(range(m + 1) for m in most)), key=sum):
        if sum(state) == 0:
            continue
        moment = abs(bare_m + sum(n * x for n, x in zip(state, along, strict=True)))
        before = {r: best[_less(state, r)] for r, n in enumerate(state) if n > 0}
        came[state] = min(before, key=lambda r: before[r])
        best[state] = max(moment, before[came[state]])
    order: list[int] = []
    here = tuple(most)
    while sum(here):
        order.append(rows[came[here]])
        here = _less(here, came[here])
    return tuple(reversed(order)), True


def _less(state: tuple[int, ...], row: int) -> tuple[int, ...]:
    return tuple(n - 1 if r == row else n for r, n in enumerate(state))


def _greedy_rows(rows: list[int], along: list[float], most: list[int], bare_m: float) -> tuple[int, ...]:  # fmt: skip
    left, moment, order = list(most), bare_m, []
    while any(left):
        r = min((r for r, n in enumerate(left) if n), key=lambda r: abs(moment + along[r]))
        left[r] -= 1
        moment += along[r]
        order.append(rows[r])
    return tuple(order)


def _columns_for(spots: Sequence[Spot], rows: Sequence[int]) -> tuple[Spot, ...]:
    """For each row's turn the module nearest to the middle, and of two the one that leaves the pole least out of balance."""
    left, order, side_m = list(spots), [], 0.0
    for row in rows:
        nxt = min((s for s in left if s.row == row), key=lambda s: (_ring(s), round(abs(side_m + s.across_m), 6), _outwards(s)))  # fmt: skip
        left.remove(nxt)
        side_m += nxt.across_m
        order.append(nxt)
    return tuple(order)


@dataclass(frozen=True, slots=True)
class Hold:
    """What holds the hinge while modules are hung.

    Attributes:
        name: ``storm hold`` or ``prop``.
        arm_m: Its lever.
        bears: Weaker of its pin and its strut.
    """

    name: str
    arm_m: float
    bears: Allowable


def hanging_order(
    spots: Sequence[Spot],
    bare_kg_m: float,
    bare_kg_above_m: float,
    module_kg: float,
    above_m: float,
    tilts_deg: Sequence[float],
    holds: Sequence[Hold],
) -> HangingOrder:
    """The order and all that is out of balance on the way, against what holds it.

    Args:
        spots: All places.
        bare_kg_m: Mass times distance along the chord of what tips before the first module [kg m].
        bare_kg_above_m: The same square to the glass [kg m].
        module_kg: Of one module [kg].
        above_m: Modules over the hinge, square to the glass [m].
        tilts_deg: Tilts of the travel.
        holds: Storm hold and prop, as far as the file has them.
    """
    order, proved = balanced(spots, bare_kg_m, module_kg)
    t = np.radians(np.asarray(tilts_deg, dtype=float))
    along, above, side = bare_kg_m, bare_kg_above_m, 0.0
    nothing = 1e-9 * (
        abs(bare_kg_m) + module_kg * sum(abs(s.along_m) + abs(s.across_m) for s in spots)
    )  # what is left of a balance by rounding alone
    steps = []
    for spot in order:
        along += module_kg * spot.along_m
        above += module_kg * above_m
        side += module_kg * spot.across_m
        along, side = (0.0 if abs(one) < nothing else one for one in (along, side))
        worst = float(np.abs(above * np.sin(t) - along * np.cos(t)).max())
        steps.append(Hung(spot.row, spot.column, GRAVITY_M_S2 * along, GRAVITY_M_S2 * side, GRAVITY_M_S2 * worst))  # fmt: skip
    bare_worst = GRAVITY_M_S2 * float(np.abs(bare_kg_above_m * np.sin(t) - bare_kg_m * np.cos(t)).max())  # fmt: skip
    largest = max([bare_worst, *(s.worst_n_m for s in steps)])
    return HangingOrder(
        tuple(steps), max(abs(s.hinge_n_m) for s in steps), max(abs(s.pole_n_m) for s in steps), largest,
        _one_side_first_n_m(spots, bare_kg_m, module_kg), GRAVITY_M_S2 * bare_kg_m, proved, _words(holds),
        tuple(_held(hold, largest) for hold in holds),
    )  # fmt: skip


def _one_side_first_n_m(spots: Sequence[Spot], bare_kg_m: float, module_kg: float) -> float:
    """The worse of hanging all of the upper half first, or all of the lower."""
    halves = (
        sum(max(s.along_m, 0.0) for s in spots), sum(min(s.along_m, 0.0) for s in spots),
    )  # fmt: skip
    return GRAVITY_M_S2 * max(abs(bare_kg_m + module_kg * half) for half in halves)


def _words(holds: Sequence[Hold]) -> str:
    if not holds:
        return "The file has neither storm hold nor prop: no module is hung before one of them is in. The rod alone does not count."
    both = " and ".join(hold.name for hold in holds)
    return (
        f"Before the first module: {both} in, tried by hand both ways. The rod is not counted. "
        "Nobody stands under either half until the last clamp is tight."
    )


def _held(hold: Hold, moment_n_m: float) -> Check:
    """Dead weight out of balance against what a hold bears at its lever; wind is another check (the half-built states)."""
    capacity = hold.bears.value * hold.arm_m
    steps = (
        Step("largest moment out of balance, at the worst tilt", "M", "", moment_n_m, "N m", STATICS),
        *hold.bears.steps,
        Step("may hold at its lever", "Mc", f"{hold.bears.value:.0f} x {hold.arm_m:.3f}", capacity, "N m", STATICS),
    )  # fmt: skip
    return Check(
        f"{hold.name} while modules are hung", "weight out of balance about the hinge", moment_n_m, capacity, "N m",
        share(moment_n_m, capacity), ORDER, Working(f"{hold.name} while modules are hung", steps),
    )  # fmt: skip
