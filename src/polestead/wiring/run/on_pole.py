"""Where the boxes on the pole stand: one truth for cord, pipe, trench, lists and drawing."""

from __future__ import annotations

from dataclasses import dataclass

BOX_ABOVE_M = 1.2  # switch box at the pole, box at the wall, over the ground: ours
REACH_M = (
    2.0  # highest handle of a switch, 6 ft 7 in: NEC 404.8(A), from memory; taken for every code
)
LOOP_BOX_BELOW_M = 0.60  # entry of the box at the end of the cord's loop, under the hinge: ours


@dataclass(frozen=True, slots=True)
class OnPole:
    """The boxes on the pole, over the ground.

    The cord flexes over the hinge and ends in a box near under it, entered from below.  A cord is no fixed wiring and, over 30 V, none
    may hang in reach; so fixed wires go on from there in pipe, down to the switch box, where the buried run's riser ends.  Where
    the loop ends low enough for a hand, the switch sits there and one box does for both.

    Attributes:
        cord_ends_m: Entry of the box at the end of the loop [m].
        switch_m: The switch box, in which the riser ends [m].
        pipe_m: Fixed wires in pipe between the two [m]; nothing where one box does.
    """

    cord_ends_m: float
    switch_m: float
    pipe_m: float

    @property
    def two_boxes(self) -> bool:
        """Whether the loop ends out of reach, in a box of its own."""
        return self.pipe_m > 0.0


def on_pole(hinge_height_m: float, below_hinge_m: float = LOOP_BOX_BELOW_M) -> OnPole:
    """Where the loop ends and where the switch sits.

    Source: our own; NEC 404.8(A) for a switch in reach, 690.31(A) and 400.12 for a cord that is not (from memory).

    Args:
        hinge_height_m: Hinge over the ground [m].
        below_hinge_m: Entry of the box at the end of the loop, under the hinge [m].

    Example:
        >>> tall, low = on_pole(3.35), on_pole(2.5)
        >>> (round(tall.cord_ends_m, 2), tall.switch_m, round(tall.pipe_m, 2)), (low.switch_m, low.two_boxes)
        ((2.75, 1.2, 1.55), (1.9, False))
    """
    ends = max(0.0, hinge_height_m - below_hinge_m)
    if ends <= REACH_M:
        return OnPole(ends, ends, 0.0)
    return OnPole(ends, BOX_ABOVE_M, ends - BOX_ABOVE_M)
