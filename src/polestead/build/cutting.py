"""Bought lengths cut with least waste, the saw's own width counted: every way of cutting a bar, and the best choice of them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import ceil, floor

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import eye_array, hstack

from polestead.base.problem import Problem, Wrong
from polestead.build.bars import CutBar, CuttingPlan, SawnPiece, Sold, Wanted

Floats = NDArray[np.float64]
TINY_M = 1e-7  # no saw is as good as a tenth of a micrometre
MOST_PATTERNS = 20_000
PATIENCE_S = 20.0


@dataclass(frozen=True, slots=True)
class _Way:
    """One way of cutting one bar: which stock, how many of each length, what is left."""

    sold: Sold
    counts: tuple[int, ...]
    remainder_m: float


def cutting_plan(
    pieces: Sequence[Wanted], sold: Sequence[Sold], kerf_m: float, material: str = ""
) -> CuttingPlan:
    """The best bars to buy for the pieces, and how to saw them.

    The pieces of a bar and the cuts between them fit where the sum of (length + kerf) is no more than the bar + one kerf.  All
    ways of cutting a bar are written down and an integer programme chooses among them: first the least price (or, where a price
    is not known, the least length bought), then the fewest bars, then the longest single remainder.  Where there are more than
    20,000 ways, longest-first packing is taken, and `proved` says whether a bound shows it to be the best all the same.
    Source: cutting stock by patterns (Gilmore & Gomory 1961, Operations Research 9:849, from memory); the objective is ours.

    Args:
        pieces: What is wanted; lengths over zero.
        sold: Lengths the yard sells.
        kerf_m: Width of a cut [m].
        material: What is cut, for the plan's head.

    Raises:
        Wrong: No length is sold, or a length or the kerf is no length.

    Example:
        >>> plan = cutting_plan([Wanted("R", 3.594, 8)], [Sold(6.096), Sold(7.3152)], 0.003175)
        >>> [bar.stock_m for bar in plan.bars], plan.proved
        ([7.3152, 7.3152, 7.3152, 7.3152], True)
    """
    _believable(pieces, sold, kerf_m)
    longest_m = max(one.length_m for one in sold)
    fitting = [p for p in pieces if p.count > 0 and p.length_m <= longest_m + TINY_M]
    too_long = tuple(
        f"{p.count} x {p.mark}: longer than any bar sold; ask for it whole, or have an engineer detail the splice (it is not summed)"
        for p in pieces
        if p.count > 0 and p.length_m > longest_m + TINY_M
    )
    by_price = all(one.price is not None for one in sold)
    lengths = sorted({p.length_m for p in fitting}, reverse=True)
    demand = tuple(sum(p.count for p in fitting if p.length_m == length) for length in lengths)
    ways, proved, remainder_proved = _chosen(tuple(lengths), demand, tuple(sold), kerf_m, by_price, MOST_PATTERNS)  # fmt: skip
    bars = _bars(ways, lengths, fitting)
    bought, used = sum(b.stock_m for b in bars), sum(p.length_m * p.count for p in fitting)
    left = sum(b.remainder_m for b in bars)
    return CuttingPlan(
        material, kerf_m, bars, bought, used, bought - used - left, left,
        max((b.remainder_m for b in bars), default=0.0),
        sum(way.sold.price or 0.0 for way in ways) if by_price else None,
        "price" if by_price else "length bought", proved, remainder_proved, too_long,
    )  # fmt: skip


def _believable(pieces: Sequence[Wanted], sold: Sequence[Sold], kerf_m: float) -> None:
    problems = []
    if not sold or any(one.length_m <= 0.0 or (one.price or 0.0) < 0.0 for one in sold):
        problems.append(Problem("shop", "lengths", "no length", "lengths over nothing", "Write the lengths the yard sells."))  # fmt: skip
    if kerf_m < 0.0:
        problems.append(Problem("shop", "kerf", f"{kerf_m:g} m", "nothing or more", "A cut takes away, it does not add."))  # fmt: skip
    problems += [
        Problem("shop", p.mark, f"{p.count} of {p.length_m:g} m", "a length over nothing, a count of nothing or more", "Mend the piece.")
        for p in pieces
        if p.length_m <= 0.0 or p.count < 0
    ]  # fmt: skip
    if problems:
        raise Wrong(problems)


@lru_cache(
    maxsize=64
)  # the same bars are chosen for the answer, for what is drawn and for the cards
def _chosen(
    lengths: tuple[float, ...],
    demand: tuple[int, ...],
    sold: tuple[Sold, ...],
    kerf_m: float,
    by_price: bool,
    most_ways: int,
) -> tuple[tuple[_Way, ...], bool, bool]:
    """The bars, whether they are proved the best, and whether the remainder is."""
    if not lengths:
        return (), True, True
    long = list(lengths)
    every = _ways(long, demand, sold, kerf_m, most_ways)
    chosen = None if every is None else _programme(every, long, demand, kerf_m, by_price)
    if chosen is None:
        ways, proved = _longest_first(long, demand, sold, kerf_m, by_price)
        return tuple(ways), proved, False
    return tuple(chosen[0]), chosen[1], chosen[2]


def _ways(
    lengths: list[float],
    demand: tuple[int, ...],
    sold: Sequence[Sold],
    kerf_m: float,
    most_ways: int,
) -> list[_Way] | None:
    """Every way of cutting every bar sold, at most as many of a length as are wanted; None past so many."""
    found: list[_Way] = []

    def fill(one: Sold, place: int, counts: tuple[int, ...], room_m: float) -> bool:
        if place == len(lengths):
            if any(counts):
                found.append(_Way(one, counts, max(room_m - kerf_m, 0.0)))
            return len(found) <= most_ways
        step_m = lengths[place] + kerf_m
        most = min(demand[place], floor((room_m + TINY_M) / step_m))
        return all(
            fill(one, place + 1, (*counts, n), room_m - n * step_m) for n in range(most, -1, -1)
        )

    # what is left in `room` is the bar and one kerf, less a length and a kerf for every piece
    if all(fill(one, 0, (), one.length_m + kerf_m) for one in sold):
        return found
    return None


def _full(way: _Way, lengths: list[float], demand: tuple[int, ...], kerf_m: float) -> bool:
    """Whether nothing that is wanted still fits beside it."""
    used = sum(n * (length + kerf_m) for n, length in zip(way.counts, lengths, strict=True))
    room_m = way.sold.length_m + kerf_m - used + TINY_M
    return not any(
        n < most and length + kerf_m <= room_m
        for n, most, length in zip(way.counts, demand, lengths, strict=True)
    )


def _programme(
    every: list[_Way], lengths: list[float], demand: tuple[int, ...], kerf_m: float, by_price: bool
) -> tuple[list[_Way], bool, bool] | None:
    """Least cost, then fewest bars, then the longest remainder; None where the solver did not come to an end."""
    full = [way for way in every if _full(way, lengths, demand, kerf_m)]
    wanted = np.array(demand, dtype=np.float64)
    cost = np.array([_cost(way.sold, by_price) for way in full])
    meets = LinearConstraint(_matrix(full), wanted, np.inf)
    first = _solve(cost, [meets])
    if first is None:
        return None
    least = float(cost @ first)
    within = LinearConstraint(cost[None, :], -np.inf, least * (1.0 + 1e-9) + 1e-9)
    second = _solve(np.ones(len(full)), [meets, within])
    counts = first if second is None else second
    ways = _trimmed([way for way, n in zip(full, counts, strict=True) for _ in range(round(n))], lengths, demand, kerf_m)  # fmt: skip
    longest = _longest_remainder(every, demand, by_price, least, len(ways))
    return (ways, second is not None, False) if longest is None else (longest, True, True)


def _cost(sold: Sold, by_price: bool) -> float:
    return float(sold.price or 0.0) if by_price else sold.length_m


def _matrix(ways: list[_Way]) -> Floats:
    return np.array([way.counts for way in ways], dtype=np.float64).T


def _solve(
    cost: Floats, constraints: list[LinearConstraint], upper: Floats | None = None
) -> NDArray[np.int64] | None:
    """Whole numbers of least cost, or None where the best was not reached in time."""
    found = milp(
        cost,
        integrality=np.ones(len(cost), dtype=np.int64),
        bounds=Bounds(0.0, np.inf if upper is None else upper),
        constraints=constraints,
        options={"time_limit": PATIENCE_S, "mip_rel_gap": 0.0, "disp": False},
    )
    return np.rint(found.x).astype(np.int64) if found.status == 0 else None


def _longest_remainder(
    every: list[_Way], demand: tuple[int, ...], by_price: bool, least: float, bars: int
) -> list[_Way] | None:
    """Of all choices as cheap and of as few bars, the one whose longest remainder is longest.

    A second number for each way says that its remainder is the one counted; exactly one is, and only of a way that is taken.
    """
    many = len(every)
    cost = np.array([_cost(way.sold, by_price) for way in every])
    remainders = np.array([way.remainder_m for way in every])
    none, ones = np.zeros(many), np.ones(many)
    rows = _matrix(every)
    constraints = [
        LinearConstraint(np.hstack([rows, np.zeros_like(rows)]), demand, demand),
        LinearConstraint(np.concatenate([cost, none])[None, :], -np.inf, least * (1.0 + 1e-9) + 1e-9),
        LinearConstraint(np.concatenate([ones, none])[None, :], -np.inf, bars),
        LinearConstraint(np.concatenate([none, ones])[None, :], 1.0, 1.0),
        LinearConstraint(hstack([eye_array(many), -eye_array(many)]), 0.0, np.inf),
    ]  # fmt: skip
    upper = np.concatenate([np.full(many, float(bars)), ones])
    found = _solve(np.concatenate([none, -remainders]), constraints, upper)
    if found is None:
        return None
    return [way for way, n in zip(every, found[:many], strict=True) for _ in range(int(n))]


def _trimmed(
    ways: list[_Way], lengths: list[float], demand: tuple[int, ...], kerf_m: float
) -> list[_Way]:
    """Pieces over what is wanted taken out again, each from the bar that has most left over."""
    counts = [list(way.counts) for way in ways]

    def left_m(bar: int) -> float:
        used = sum(n * (length + kerf_m) for n, length in zip(counts[bar], lengths, strict=True))
        return max(ways[bar].sold.length_m - used, 0.0)

    for place, most in enumerate(demand):
        for _ in range(sum(one[place] for one in counts) - most):
            bar = max((b for b in range(len(ways)) if counts[b][place] > 0), key=left_m)
            counts[bar][place] -= 1
    return [_Way(way.sold, tuple(counts[b]), left_m(b)) for b, way in enumerate(ways)]


def _longest_first(
    lengths: list[float],
    demand: tuple[int, ...],
    sold: Sequence[Sold],
    kerf_m: float,
    by_price: bool,
) -> tuple[list[_Way], bool]:
    """Each piece, longest first, into the first bar it fits; by each length sold alone, the cheapest of these."""
    step = [length + kerf_m for length in lengths]
    best: tuple[float, list[_Way]] | None = None
    for one in sold:
        if lengths[0] > one.length_m + TINY_M:
            continue
        bars: list[list[int]] = []
        rooms: list[float] = []
        for place, many in enumerate(demand):
            for _ in range(many):
                bar = next((b for b, room in enumerate(rooms) if step[place] <= room + TINY_M), None)  # fmt: skip
                if bar is None:
                    bars.append([0] * len(lengths))
                    rooms.append(one.length_m + kerf_m)
                    bar = len(bars) - 1
                bars[bar][place] += 1
                rooms[bar] -= step[place]
        ways = [_Way(one, tuple(n), max(room - kerf_m, 0.0)) for n, room in zip(bars, rooms, strict=True)]  # fmt: skip
        cost = _cost(one, by_price) * len(ways)
        if best is None or cost < best[0]:
            best = (cost, ways)
    if best is None:  # the longest piece fits a bar sold, or it were told as too long
        message = "a piece fits no bar"
        raise ValueError(message)
    return best[1], best[0] <= _bound(step, demand, sold, kerf_m, by_price) + 1e-9


def _bound(
    step: list[float],
    demand: tuple[int, ...],
    sold: Sequence[Sold],
    kerf_m: float,
    by_price: bool,
) -> float:
    """What no choice of bars can cost less than: all steps laid end to end in the cheapest bar."""
    total_m = sum(s * n for s, n in zip(step, demand, strict=True))
    if len(sold) == 1:
        return _cost(sold[0], by_price) * ceil((total_m - TINY_M) / (sold[0].length_m + kerf_m))
    return total_m * min(_cost(one, by_price) / (one.length_m + kerf_m) for one in sold)


def _bars(ways: Iterable[_Way], lengths: list[float], pieces: Sequence[Wanted]) -> tuple[CutBar, ...]:  # fmt: skip
    """Counts become marked pieces, those of one length handed out in the order of the list."""
    marks = {length: [p.mark for p in pieces if p.length_m == length for _ in range(p.count)] for length in lengths}  # fmt: skip
    ordered = sorted(ways, key=lambda way: (way.counts, -way.remainder_m), reverse=True)
    bars = []
    for way in ordered:
        cuts = tuple(SawnPiece(marks[length].pop(0), length) for length, n in zip(lengths, way.counts, strict=True) for _ in range(n))  # fmt: skip
        bars.append(CutBar(way.sold.length_m, cuts, way.remainder_m))
    return tuple(bars)
