"""Where the actuator's two pins bear least, within the owner's bounds; and the pins as built, from measured pairs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from polestead.base.problem import Problem, Wrong
from polestead.homestead.model import Drive
from polestead.mount.linkage import length_and_arm_m, rod_arm_m, rod_length_m

Floats = NDArray[np.float64]
SPARE_STROKE_M = (
    0.01  # left at both ends of the stroke for the frame's own stops: common practice, no source
)
SEED = 1


@dataclass(frozen=True, slots=True)
class PinBounds:
    """Where the pins may go, and what they must bear.

    Attributes:
        along_m: Frame pin from the hinge along the chord, least and most.
        below_m: Frame pin below the hinge line.
        out_m: Pole bracket from the pole's axis.
        down_m: Pole bracket below the hinge.
    """

    along_m: tuple[float, float]
    below_m: tuple[float, float]
    out_m: tuple[float, float]
    down_m: tuple[float, float]


@dataclass(frozen=True, slots=True)
class BestPins:
    """Pins found by search, and what they bear beside the pins as they are.

    Attributes:
        pin_along_m: Frame pin from the hinge along the chord.
        pin_below_m: Below the hinge line.
        bracket_out_m: Pole bracket from the pole's axis.
        bracket_below_m: Below the hinge.
        peak_n: Largest force along the rod over the travel [N].
        peak_now_n: The same with the pins as they are.
        least_arm_m: Least lever on the travel.
        stroke_used_m: Of the stroke.
    """

    pin_along_m: float
    pin_below_m: float
    bracket_out_m: float
    bracket_below_m: float
    peak_n: float
    peak_now_n: float
    least_arm_m: float
    stroke_used_m: float


def bounds_of(drive: Drive) -> PinBounds:
    """The owner's bounds, or a third about the pins as they are."""
    own = drive.bounds
    if own is None:
        return bounds_about(drive)
    pairs = (own.pin_along_m, own.pin_below_m, own.bracket_out_m, own.bracket_below_m)
    return PinBounds(*((min(pair), max(pair)) for pair in pairs))


def bounds_about(drive: Drive, share: float = 0.35) -> PinBounds:
    """Bounds round the pins as they are: so far to each side of every length.

    Args:
        drive: The drive section.
        share: Of each length.

    Example:
        >>> from polestead.homestead.demos import demo_path
        >>> from polestead.homestead.read import read_homestead
        >>> drive = read_homestead(demo_path("cinder-mesa")).homestead.drive
        >>> [round(side, 2) for side in bounds_about(drive).along_m]
        [0.59, 1.23]
    """

    def about(value: float, least: float = 0.0) -> tuple[float, float]:
        off = max(share * abs(value), 0.05)
        return max(value - off, least), value + off

    return PinBounds(
        about(drive.pin_along_m, 0.06), about(drive.pin_below_m, -1.0), about(drive.bracket_out_m, -3.0), about(drive.bracket_below_m, 0.11),
    )  # fmt: skip


def best_pins(
    drive: Drive,
    tilts_deg: Floats,
    steepens_n_m: Floats,
    flattens_n_m: Floats,
    bounds: PinBounds,
) -> BestPins:
    """Pin positions of the least peak force along the rod, steepening pulling it, the actuator's own lengths kept.

    Differential evolution (scipy), seeded; a linkage that does not fit the stroke, changes its sign or lets steepening push
    is no answer.  Source: our own search over statics.

    Args:
        drive: Its retracted length and stroke hold.
        tilts_deg: The travel [tilts].
        steepens_n_m: Largest steepening moment the hold meets at each tilt, 0 or more [tilts].
        flattens_n_m: Largest flattening one, 0 or more [tilts].
        bounds: Where the pins may go.

    Raises:
        Wrong: No position within the bounds fits the actuator.
    """
    from scipy.optimize import differential_evolution

    moment = np.maximum(steepens_n_m, flattens_n_m)
    least_m = drive.retracted_length_m + SPARE_STROKE_M
    most_m = drive.retracted_length_m + drive.stroke_m - SPARE_STROKE_M

    def cost(pins: Any, /) -> Any:  # [4, many] -> [many]
        along, below, out, down = (part[:, None] for part in pins)
        length, arm = length_and_arm_m(along, below, out, down, tilts_deg[None, :])
        force = (moment / np.maximum(arm, 0.02)).max(axis=1)
        short, long = least_m - length.min(axis=1), length.max(axis=1) - most_m
        missed = np.maximum(short, 0.0) + np.maximum(long, 0.0) + np.maximum(0.05 - arm.min(axis=1), 0.0)  # fmt: skip
        return np.asarray(np.where(missed > 0.0, 1e7 * (1.0 + missed), force))

    box: Any = (bounds.along_m, bounds.below_m, bounds.out_m, bounds.down_m)
    found = differential_evolution(
        cost, box, seed=SEED, maxiter=150, popsize=12, tol=1e-4, polish=False, vectorized=True, updating="deferred"
    )  # fmt: skip
    if found.fun >= 1e7:
        raise Wrong([Problem(
            "drive", "", "pin positions within the bounds", "a linkage that fits the stroke and is pulled by steepening",
            "Widen the bounds, or take an actuator with another retracted length or stroke.",
        )])  # fmt: skip
    names = ("pin_along_m", "pin_below_m", "bracket_out_m", "bracket_below_m")
    fitted = drive.model_copy(update=dict(zip(names, (float(v) for v in found.x), strict=True)))
    lengths = rod_length_m(fitted, tilts_deg)
    now = np.abs(rod_arm_m(drive, tilts_deg))
    along, below, out, down = (float(v) for v in found.x)
    return BestPins(
        along, below, out, down, float(found.fun), float((moment / np.maximum(now, 1e-9)).max()),
        float(rod_arm_m(fitted, tilts_deg).min()), float(np.ptp(lengths)),
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class Refit:
    """Pins as built, from measured pairs of rod and tilt.

    Attributes:
        retracted_length_m, pin_along_m, bracket_below_m: Lengths whose table the pairs lie on.
        worst_miss_m: Largest difference left between a measured rod and its table.
        pairs: How many were measured.
        proved: Two or more pairs, far enough apart, and the miss no more than the tape.
        believed: No length has moved by more than a slip of the tape explains; else the plan counts and the pairs are doubted.
    """

    retracted_length_m: float
    pin_along_m: float
    bracket_below_m: float
    worst_miss_m: float
    pairs: int
    proved: bool
    believed: bool


TAPE_M = 0.004  # how well a rod is read with a tape: common practice, no source
MOST_MOVED_M = 0.05  # a hole drilled farther off than this is another design: ours
APART_DEG = 20.0  # pairs closer than this prove one end of the table only: ours


def refit(drive: Drive, rod_shows_m: Floats, tilts_deg: Floats) -> Refit:
    """The pins moved as little as may be so that the measured pairs lie on the table.

    Least squares on the pairs and, lightly, on the planned pins: with two pairs the most likely slips (retracted length, frame
    pin along, bracket height) share what is missing.  Source: our own; scipy's least squares.

    Args:
        drive: As planned.
        rod_shows_m: Rod out of its tube, measured [pairs].
        tilts_deg: Tilt at that moment, by level [pairs].

    Raises:
        Wrong: No pair, or figures of different number.
    """
    from scipy.optimize import least_squares

    rods, tilts = np.atleast_1d(rod_shows_m).astype(float), np.atleast_1d(tilts_deg).astype(float)
    if rods.size == 0 or rods.size != tilts.size:
        raise Wrong([Problem("drive", "measured", f"{rods.size} rods and {tilts.size} tilts", "as many rods as tilts, two pairs or more", "Measure rod and tilt at the same moment.")])  # fmt: skip
    names = ("retracted_length_m", "pin_along_m", "bracket_below_m")
    start = np.array([getattr(drive, name) for name in names])

    def with_pins(values: Floats) -> Drive:
        return drive.model_copy(update=dict(zip(names, (float(v) for v in values), strict=True)))

    def off(values: Floats) -> Floats:
        moved = with_pins(values)
        miss = rod_length_m(moved, tilts) - moved.retracted_length_m - rods
        return np.concatenate([miss / TAPE_M, (values - start) / (10.0 * TAPE_M)])

    found = least_squares(off, start)
    fitted = with_pins(found.x)
    miss = np.abs(rod_length_m(fitted, tilts) - fitted.retracted_length_m - rods)
    worst = float(miss.max())
    far = rods.size >= 2 and float(np.ptp(tilts)) >= APART_DEG
    length, along, below = (float(value) for value in found.x)
    moved = float(np.abs(found.x - start).max())
    believed = worst <= TAPE_M and moved <= MOST_MOVED_M
    return Refit(length, along, below, worst, int(rods.size), bool(far and believed), believed)


def as_measured(drive: Drive) -> tuple[Drive, Refit | None]:
    """The drive on its measured pairs, where there are any.

    Args:
        drive: With the owner's pairs.

    Returns:
        The drive to reckon with, and the fit; as planned where there is no pair or none to be believed.
    """
    pairs = drive.measured_pairs
    if not pairs:
        return drive, None
    rods, tilts = (np.array(column) for column in zip(*pairs, strict=True))
    fit = refit(drive, rods, tilts)
    if not fit.believed:
        return drive, fit
    update = {
        "retracted_length_m": fit.retracted_length_m, "pin_along_m": fit.pin_along_m, "bracket_below_m": fit.bracket_below_m,
    }  # fmt: skip
    return drive.model_copy(update=update), fit
