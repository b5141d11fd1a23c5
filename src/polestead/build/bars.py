"""Bars as bought and as sawn: what is wanted, what is sold, what a cutting plan is. Apart from the search, which is slow to read in."""

from __future__ import annotations

from dataclasses import dataclass

from polestead.base.show import Style, sawn_m


@dataclass(frozen=True, slots=True)
class Wanted:
    """Pieces of one length.

    Attributes:
        mark: The piece's letter.
        length_m: Of each.
        count: How many.
    """

    mark: str
    length_m: float
    count: int


@dataclass(frozen=True, slots=True)
class Sold:
    """A length the yard sells.

    Attributes:
        length_m: Of a whole bar.
        price: Of a whole bar, None where not known.
    """

    length_m: float
    price: float | None = None


@dataclass(frozen=True, slots=True)
class SawnPiece:
    """One piece on a bar.

    Attributes:
        mark: Its letter.
        length_m: From the last cut.
    """

    mark: str
    length_m: float


@dataclass(frozen=True, slots=True)
class CutBar:
    """One bought bar and what is sawn from it.

    Attributes:
        stock_m: As bought.
        cuts: Pieces in the order of sawing: each measured from the last cut, longest first.
        remainder_m: What is left over, the last cut's own width taken off.
    """

    stock_m: float
    cuts: tuple[SawnPiece, ...]
    remainder_m: float

    def left_m(self, kerf_m: float, style: Style) -> float:
        """What is left when each piece is sawn as it is marked: bar, pieces, cuts and this add up as they are shown.

        Args:
            kerf_m: Width of a cut.
            style: Whose marks.

        Example:
            >>> bar = CutBar(6.4008, (SawnPiece("A", 4.8387),), 1.5589)
            >>> round(bar.left_m(0.003175, "metric"), 4)  # 6,400 - 4,838 - 3.2, down to the millimetre
            1.558
        """
        used_m = sum(sawn_m(cut.length_m, style) + kerf_m for cut in self.cuts)
        return sawn_m(max(sawn_m(self.stock_m, style) - used_m, 0.0), style)


@dataclass(frozen=True, slots=True)
class CuttingPlan:
    """Which bars to buy and how to saw them.

    Attributes:
        material: What is cut.
        kerf_m: Width of a cut.
        bars: In the order of sawing: bars of the longest pieces first, so that a slip can be made good from a later bar.
        bought_m: Length of all bars.
        used_m: Length of all pieces.
        sawn_m: What the cuts themselves take.
        left_m: Bought, less used and sawn.
        largest_remainder_m: Longest single piece left over.
        price: Of all bars, None where a price is not known.
        least_by: What was made least: ``price`` or ``length bought``; then the number of bars.
        proved: Whether no better choice of bars can exist.
        remainder_proved: Whether, among the best, none leaves a longer single piece over.
        too_long: Pieces longer than any bar sold, in words: asked for whole, or spliced by an engineer's detail.
    """

    material: str
    kerf_m: float
    bars: tuple[CutBar, ...]
    bought_m: float
    used_m: float
    sawn_m: float
    left_m: float
    largest_remainder_m: float
    price: float | None
    least_by: str
    proved: bool
    remainder_proved: bool
    too_long: tuple[str, ...]
