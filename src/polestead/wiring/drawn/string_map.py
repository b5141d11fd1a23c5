"""Which module hangs in which string, where the ends come out, and how much wire that takes."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from polestead.base.problem import Problem, Wrong
from polestead.base.source import Source
from polestead.homestead.model import NewArray
from polestead.mount.geometry import grid_of
from polestead.wiring.drawn.form import letters

ALONG_ROWS = Source(
    "Heidari, Gwamuri, Townsend and Pearce 2015, IEEE J. Photovoltaics 5(6)",
    "the lowest string lies under the snow that slid",
)
ALLOWANCE = Source("a fifth more for ties, curves and ends", status="ours")
MORE_WIRE = 1.2
Seen = Literal["back", "front"]


@dataclass(frozen=True, slots=True)
class Spot:
    """One module on the map.

    Attributes:
        string: Its letter.
        number: In the string, 1 at the end that is minus.
        column: From the left as seen, 1 first.
        row: From the low edge, 1 first.
        along_m: Of its middle along the hinge, from the pole, + to the right as seen [m].
        up_m: Of its middle along the chord, from mid-chord, + towards the upper edge [m].
    """

    string: str
    number: int
    column: int
    row: int
    along_m: float
    up_m: float

    @property
    def label(self) -> str:
        """As written on the module."""
        return f"{self.string}{self.number}"


@dataclass(frozen=True, slots=True)
class HomeRun:
    """The wire from one end of a string to the box on the frame, by the pole on the hinge.

    Attributes:
        string: Its letter.
        sign: ``-`` at number 1, ``+`` at the last.
        number: Of the module it starts from.
        length_m: Along the rows and across to the hinge, allowance in it [m].
    """

    string: str
    sign: Literal["+", "-"]
    number: int
    length_m: float


@dataclass(frozen=True, slots=True)
class StringMap:
    """The map.

    Attributes:
        seen: From which side: the back, where one stands to wire, or the glass.
        columns, rows: The grid.
        module_along_m, module_up_m: One module along the hinge and along the chord [m].
        spots: Every module, string by string, number by number.
        home_runs: Two of each string.
        links_m: The longest way between the middles of two modules joined: the leads of both must reach it [m].
        wire_m: All home runs together [m].
        low_row_strings: Strings that have a module in the lowest row.
        low_row_alone: No string with a module in the lowest row has one in another row.
        split_cleanly: No row holds parts of a string that goes on into another, or every string takes whole rows.
        clean_lengths: Lengths of string that would leave the lowest row to itself.
        words: What that means, in words.
    """

    seen: Seen
    columns: int
    rows: int
    module_along_m: float
    module_up_m: float
    spots: tuple[Spot, ...]
    home_runs: tuple[HomeRun, ...]
    links_m: float
    wire_m: float
    low_row_strings: int
    low_row_alone: bool
    split_cleanly: bool
    clean_lengths: tuple[int, ...]
    words: tuple[str, ...]

    def of_string(self, letter: str) -> tuple[Spot, ...]:
        """The modules of one string, 1 first."""
        return tuple(spot for spot in self.spots if spot.string == letter)


def string_map_of(array: NewArray, seen: Seen = "back") -> StringMap:
    """The modules strung row by row from the low edge up, there and back like a plough.

    Snow that slid, grass and the shade of what stands before it cover the lowest row first; a string is as weak as its weakest
    module, so as few strings as can be have a module there.  Ploughing the rows in order gives the fewest: ceil(columns / in series).
    Where the columns are a multiple of the string, every string keeps to one row; where the string is a multiple of the
    columns, every string takes whole rows.  Neighbours are joined straight on, so no wire is longer than a module and its gap; the way
    back of the long end runs beside the chain, which keeps the loop a near strike induces in small.

    Source: rows, Heidari et al. 2015 (named in a trade reading, not read); fewest strings by counting; lengths our own estimate.

    Args:
        array: Grid, how the modules lie, strings.
        seen: From which side columns are counted.

    Raises:
        Wrong: Where the strings do not use every module once.
    """
    columns, rows, n = array.columns, array.rows, array.in_series
    if columns * rows != n * array.in_parallel:
        given = f"{n} in series x {array.in_parallel} = {n * array.in_parallel}"
        raise Wrong([Problem("array", "in_parallel", given, f"{columns * rows}, all modules", "Wire every module once.")])  # fmt: skip
    spots = _spots(array, seen)
    runs = _home_runs(spots, n)
    low = {spot.string for spot in spots if spot.row == 1}
    alone = all(spot.row == 1 for spot in spots if spot.string in low)
    clean = columns % n == 0 or n % columns == 0
    lengths = tuple(length for length in range(1, columns + 1) if columns % length == 0)
    module = array.module
    sides = (module.width_m, module.length_m)
    along, up = sides if array.lie == "portrait" else sides[::-1]
    return StringMap(
        seen=seen,
        columns=columns,
        rows=rows,
        module_along_m=along,
        module_up_m=up,
        spots=spots,
        home_runs=runs,
        links_m=_longest_link_m(spots),
        wire_m=sum(run.length_m for run in runs),
        low_row_strings=len(low),
        low_row_alone=alone,
        split_cleanly=clean,
        clean_lengths=lengths,
        words=_words(array, alone, clean, len(low), lengths),
    )


def _spots(array: NewArray, seen: Seen) -> tuple[Spot, ...]:
    grid = grid_of(
        array.module, array.columns, array.rows, array.lie == "portrait", array.gap_m, array.slot_m
    )
    pitch = (grid.width_m + array.gap_m) / array.columns
    names = letters(array.in_parallel)
    found = []
    for nth in range(array.columns * array.rows):
        row, step = divmod(nth, array.columns)
        # The plough starts at the left as seen from the back and turns at every end of a row.
        column = step if row % 2 == 0 else array.columns - 1 - step
        if seen == "front":
            column = array.columns - 1 - column
        string, number = divmod(nth, array.in_series)
        found.append(
            Spot(
                names[string],
                number + 1,
                column + 1,
                row + 1,
                (column - (array.columns - 1) / 2.0) * pitch,
                grid.row_centres_m[row],
            )
        )
    return tuple(found)


def _home_runs(spots: tuple[Spot, ...], in_series: int) -> tuple[HomeRun, ...]:
    runs = []
    for spot in spots:
        length = MORE_WIRE * (abs(spot.along_m) + abs(spot.up_m))
        if spot.number == 1:
            runs.append(HomeRun(spot.string, "-", 1, length))
        if spot.number == in_series:
            runs.append(HomeRun(spot.string, "+", in_series, length))
    return tuple(runs)


def _longest_link_m(spots: tuple[Spot, ...]) -> float:
    return max(
        (
            abs(a.along_m - b.along_m) + abs(a.up_m - b.up_m)
            for a, b in pairwise(spots)
            if a.string == b.string
        ),
        default=0.0,
    )


def _words(
    array: NewArray, alone: bool, clean: bool, low_strings: int, lengths: tuple[int, ...]
) -> tuple[str, ...]:
    n, columns = array.in_series, array.columns
    said = []
    if array.rows == 1:
        said.append("One row: snow and shade along the low edge take every string alike.")
    elif alone and low_strings == 1:
        said.append("The lowest row is a string of its own: what snow and shade take there, the others keep.")  # fmt: skip
    elif alone:
        said.append(f"The lowest row is {low_strings} strings of its own: what snow and shade take there, the others keep.")  # fmt: skip
    else:
        others = ", ".join(str(length) for length in lengths if length > 1)
        said.append(
            f"Strings of {n} do not fit rows of {columns}: the lowest row shares {'its string' if low_strings == 1 else 'a string'} with the row above, "
            "and what covers it takes that string too."
            + (f" In strings of {others} it would stand alone, if the voltage allows." if others else "")
        )  # fmt: skip
    if not clean:
        said.append("A string turns into the next row in the middle of one: mark the modules before they are hung.")  # fmt: skip
    said.append("Join neighbours straight on; carry the far end's wire back beside the chain, so that the loop stays small.")  # fmt: skip
    return tuple(said)
