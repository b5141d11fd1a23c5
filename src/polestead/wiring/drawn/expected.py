"""What a meter should show on a string in the light and warmth of the hour, and how far off it may be."""

from __future__ import annotations

from dataclasses import dataclass

from polestead.base.source import Source
from polestead.homestead.model import Module
from polestead.modules.ageing import aged
from polestead.modules.diode import CURRENT_PER_K, diode_points, fitted_diode

LEAST_LIGHT_W_M2 = 600.0
LIKE_STRINGS_SHARE = 0.05
BACK_TO_CELL_K = 3.0
BYPASS_DIODES = 3

LEAST_LIGHT = Source("a public commissioning check list", "test at 600 W/m2 and more")
LIKE_STRINGS = Source(
    "IEC 62446", "like strings within 5 %, as a public sheet of the tests tells it"
)
BACK_TO_CELL = Source(
    "King et al. 2004, SAND2004-3535", "open rack: 3 C at 1000 W/m2, rising with the light"
)
BACK_SPREAD = Source("2 to 3 C at 1000 W/m2 by kind of back", status="memory")
CURRENT_CHANGE = Source("usual silicon, 0.05 % a degree", status="memory")
DIODE = Source("De Soto, Klein and Beckman 2006, Sol. Energy 80:78", "fitted to the datasheet")
METERS = Source("what hand-held meters are usually off by", status="memory")
BOTH_WAYS = Source("a module may be as much stronger as it may be weaker", status="ours")
BYPASS = Source("three bypass diodes in a module, as most have", status="memory")


@dataclass(frozen=True, slots=True)
class Instruments:
    """How far the meters, and the light and warmth they are read in, may be off.

    Attributes:
        volts_share, amps_share: Of the reading.
        light_share: Of the irradiance read beside it.
        cell_k: Of the cell temperature [K].
    """

    volts_share: float = 0.01
    amps_share: float = 0.02
    light_share: float = 0.05
    cell_k: float = 3.0


USUAL = Instruments()


@dataclass(frozen=True, slots=True)
class Span:
    """What is expected, and what still passes.

    Example:
        >>> Span(95.0, 100.0, 104.0).holds(96.0), Span(95.0, 100.0, 104.0).holds(94.0)
        (True, False)
    """

    low: float
    value: float
    high: float

    def holds(self, reading: float) -> bool:
        """Whether a reading passes; no number never does."""
        return self.low <= reading <= self.high


@dataclass(frozen=True, slots=True)
class Expected:
    """Readings of one string.

    Attributes:
        in_series: Modules in it.
        plane_w_m2, cell_c: The hour.
        open_v, short_a: At its open ends; its ends joined [V], [A].
        working_v, working_a, watts: Where it gives most [V], [A], [W].
        light_enough: Whether there is light enough for the test to tell anything about current and watts.
    """

    in_series: int
    plane_w_m2: float
    cell_c: float
    open_v: Span
    short_a: Span
    working_v: Span
    working_a: Span
    watts: Span
    light_enough: bool


def expected_of(
    module: Module,
    in_series: int,
    plane_w_m2: float,
    cell_c: float,
    instruments: Instruments = USUAL,
    years: float = 0.0,
) -> Expected:
    """Readings of one string of like modules, at the modules' own ends.

    The five readings follow from the single diode of the datasheet.  What passes goes from the weakest module the sheet allows
    (``volts_low_by``, taken both ways, and for amperes as for volts) read by meters off to one side, in light and warmth misread to the same side,
    to the strongest read off to the other: the errors are added, not squared, so that a sound string seldom falls outside.

    Source: De Soto et al. 2006 (seen, through pvlib); tolerances of meters from memory; both ways our own rule; ageing Jordan et al.
    2016 (from memory).  Valid for: 100 to 1400 W/m2, cells of -40 to 90 C, sun within about 45 deg of square to the glass, clean glass, no shade.

    Args:
        module: The datasheet.
        in_series: Modules in the string.
        plane_w_m2: Irradiance on the glass [W/m2].
        cell_c: Temperature of the cells [C].
        instruments: How far the meters may be off.
        years: In the sun; watts and amperes may have fallen so far.

    Returns:
        The readings with what still passes.

    Raises:
        Wrong: For a datasheet no diode reproduces.
        ValueError: No light, or no module.

    Example:
        >>> from polestead.homestead.demos import demo_path
        >>> from polestead.homestead.read import read_homestead
        >>> module = read_homestead(demo_path("hollow-spruce")).homestead.array.module
        >>> noon = expected_of(module, 4, 1000.0, 25.0)
        >>> round(noon.open_v.value), round(noon.short_a.value, 1), round(noon.watts.value, -1)
        (158, 14.0, 1760.0)
    """
    if not plane_w_m2 > 0.0 or in_series < 1:
        message = "a string has modules and is read in light"
        raise ValueError(message)
    diode = fitted_diode(module)
    dim, bright = plane_w_m2 * (1.0 - instruments.light_share), plane_w_m2 * (1.0 + instruments.light_share)  # fmt: skip
    cool, warm = cell_c - instruments.cell_k, cell_c + instruments.cell_k
    here, *corners = diode_points(
        diode, [(plane_w_m2, cell_c), (dim, cool), (dim, warm), (bright, cool), (bright, warm)]
    )
    # Short-circuit current rises with warmth, volts and watts fall; the working current goes either way.
    dim_cool, worst, best, bright_warm = corners
    amps = [corner.working_a for corner in corners]
    off, left = module.volts_low_by, aged(years).least
    down_v, up_v = (1.0 - off) * (1.0 - instruments.volts_share), (1.0 + off) * (1.0 + instruments.volts_share)  # fmt: skip
    down_a, up_a = left * (1.0 - off) * (1.0 - instruments.amps_share), (1.0 + off) * (1.0 + instruments.amps_share)  # fmt: skip
    n = float(in_series)
    return Expected(
        in_series=in_series,
        plane_w_m2=plane_w_m2,
        cell_c=cell_c,
        open_v=Span(n * worst.open_v * down_v, n * here.open_v, n * best.open_v * up_v),
        short_a=Span(dim_cool.short_a * down_a, here.short_a, bright_warm.short_a * up_a),
        working_v=Span(n * worst.working_v * down_v, n * here.working_v, n * best.working_v * up_v),
        working_a=Span(min(amps) * down_a, here.working_a, max(amps) * up_a),
        watts=Span(
            n * worst.power_w * down_v * down_a, n * here.power_w, n * best.power_w * up_v * up_a
        ),
        light_enough=plane_w_m2 >= LEAST_LIGHT_W_M2,
    )


def cell_from_back_c(back_c: float, plane_w_m2: float) -> float:
    """Temperature of the cells from a thermometer on the back of the module, shaded from wind.

    Source: King et al. 2004, SAND2004-3535: T_cell = T_back + 3 K G / 1000, open rack (as public code prints it).  A thin
    polymer back 2 to 3 K (from memory).

    Args:
        back_c: On the back, mid-module, under a pad [C].
        plane_w_m2: On the glass [W/m2].

    Example:
        >>> cell_from_back_c(38.0, 800.0)
        40.4
    """
    return back_c + BACK_TO_CELL_K * plane_w_m2 / 1000.0


def light_from_reference_w_m2(
    short_a: float, sheet_short_a: float, cell_c: float, current_per_k: float = CURRENT_PER_K
) -> float:
    """Irradiance from the short-circuit current of a reference module in the same plane.

    Isc rises straight with the light: G = 1000 Isc / (Isc0 (1 + alpha (T - 25))).

    Source: the definition of Isc's coefficient; alpha of usual silicon from memory.  Valid for: a module that is *not* one of those
    under test, clean, in the same plane, and whose own Isc was once measured.

    Args:
        short_a: Read on it [A].
        sheet_short_a: At 1000 W/m2 and 25 C [A].
        cell_c: Its cells [C].
        current_per_k: alpha, a share [1/K].

    Example:
        >>> round(light_from_reference_w_m2(4.5, 5.9, 40.0))
        757
    """
    return 1000.0 * short_a / (sheet_short_a * (1.0 + current_per_k * (cell_c - 25.0)))


def spread_share(readings: tuple[float, ...]) -> float:
    """How far like strings are apart: the farthest reading from their mean, over the mean.

    Source: IEC 62446 wants like strings within 5 % (as a public sheet of the tests tells it).

    Example:
        >>> round(spread_share((150.0, 156.0)), 4)
        0.0196
        >>> spread_share((150.0,))
        0.0
    """
    mean = sum(readings) / len(readings)
    return max(abs(reading / mean - 1.0) for reading in readings)


@dataclass(frozen=True, slots=True)
class Fault:
    """What an open-circuit reading would be with one thing wrong.

    Attributes:
        word: What is wrong.
        reads_v: What the string would show.
        told_apart: Whether that lies outside what a sound string may show.
    """

    word: str
    reads_v: float
    told_apart: bool


def faults_of(expected: Expected) -> tuple[Fault, ...]:
    """The usual faults of a string, by what its open ends would show.

    Source: counting modules; three bypass diodes a module (from memory).

    Example:
        >>> four = Expected(4, 800.0, 40.0, Span(140.0, 150.0, 160.0), *(Span(0.0, 1.0, 2.0),) * 4, True)
        >>> [(fault.word, fault.reads_v) for fault in faults_of(four)][1:3]
        [('one module left out', 112.5), ('one module the wrong way round', 75.0)]
    """
    n, one = expected.in_series, expected.open_v.value / expected.in_series
    counted = [("a third of one module bridged by its diode", n - 1.0 / BYPASS_DIODES)]
    if n > 1:
        counted.append(("one module left out", n - 1.0))
        counted.append(("one module the wrong way round", n - 2.0))
    counted.append(("one module too many: the cold may kill the controller", n + 1.0))
    return tuple(
        Fault(word, one * count, not expected.open_v.holds(one * count)) for word, count in counted
    )
