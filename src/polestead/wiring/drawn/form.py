"""The test form: what to measure in which order, what each string should show, and a table for him without a computer."""

from __future__ import annotations

from dataclasses import dataclass

from polestead.base.source import COMMON_PRACTICE, Source
from polestead.homestead.model import Controller, NewArray, Place
from polestead.modules.diode import diode_points, fitted_diode
from polestead.modules.power import cold_voltage_v
from polestead.wiring.drawn.cold_reading import cold_factor, light_factor
from polestead.wiring.drawn.expected import (
    LIKE_STRINGS,
    USUAL,
    Expected,
    Instruments,
    expected_of,
)
from polestead.wiring.strings.voltage import with_margin_v

LIGHTS_W_M2 = (600.0, 700.0, 800.0, 900.0, 1000.0)
CELLS_C = (-10.0, 0.0, 10.0, 20.0, 30.0, 40.0, 50.0, 60.0)
FACTORS_AT_C = 60.0  # dim light takes most from warm cells: worked there, the factors of light err to the high side only

CONTINUITY = Source("IEC 62446-1", "6.1", "memory")
POLARITY = Source("IEC 62446-1", "6.2", "memory")
OPEN = Source("IEC 62446-1", "6.4", "memory")
SHORT = Source("IEC 62446-1", "6.5", "memory")
FUNCTION = Source("IEC 62446-1", "6.6", "memory")
INSULATION = Source(
    "IEC 62446", "5.4.7: test volts by 1.25 Voc, as a public sheet of the tests tells it"
)
INSULATION_LEAST = Source("IEC 62446-1", "6.7, least megohms", "memory")
TRADE_ORDER = Source("battery first on, last off, as controllers' manuals ask", status="memory")


@dataclass(frozen=True, slots=True)
class Insulation:
    """How the insulation is tested.

    Attributes:
        system_v: What the step is chosen by, 1.25 times the open volts of a string at 25 C.
        test_v: What the tester is set to.
        least_ohm: Least that passes.
    """

    system_v: float
    test_v: float
    least_ohm: float


def insulation_of(open_voltage_v: float) -> Insulation:
    """Test volts and least resistance by the string's open volts.

    Source: IEC 62446: under 120 V at 250 V, up to 500 V at 500 V, over it at 1000 V, by 1.25 times Voc (as a public sheet of the tests
    tells it); least 0.5 Mohm in the first step (from memory), 1 Mohm in the others (a trade source, and from memory).

    Args:
        open_voltage_v: Of a string at 25 C in full sun [V].

    Example:
        >>> insulation_of(80.0).test_v, insulation_of(80.0).least_ohm
        (250.0, 500000.0)
        >>> insulation_of(158.0).test_v, insulation_of(158.0).least_ohm
        (500.0, 1000000.0)
    """
    system = 1.25 * open_voltage_v
    if system < 120.0:
        return Insulation(system, 250.0, 0.5e6)
    return Insulation(system, 500.0 if system <= 500.0 else 1000.0, 1e6)


@dataclass(frozen=True, slots=True)
class TestStep:
    """One step of the test.

    Attributes:
        act: What it is, a word or two.
        do: How.
        passes: What passes.
        caution: What can hurt here; empty where nothing new.
        each_string: Whether every string has its own blank.
        unit: Of the blank; empty for a yes.
        source: Who asks for it.
    """

    __test__ = False  # no test of ours

    act: str
    do: str
    passes: str
    caution: str
    each_string: bool
    unit: str
    source: Source


@dataclass(frozen=True, slots=True)
class GridRow:
    """What one string shows at one cell temperature, over ``LIGHTS_W_M2``."""

    cell_c: float
    open_v: tuple[float, ...]
    short_a: tuple[float, ...]
    watts: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Form:
    """All the form says.

    Attributes:
        strings: Their letters.
        in_series: Modules in each.
        expected: At the hour's light and warmth, one string; None where they were not typed.
        grid: The same for paper.
        cold_factors: (cell temperature, what the reading is multiplied with for the record low).
        light_factors: (irradiance, what the reading is multiplied with for full sun).
        record_low_c: Of the place.
        cold_v, cold_with_margin_v: What the sums took the string for at the record low.
        limit_v: Of the controller.
        insulation: How it is tested.
        meters: How far the meters were taken to be off.
        drop_share: Of the watts that the run takes in full sun; the controller shows so much less.
        steps: In order.
    """

    strings: tuple[str, ...]
    in_series: int
    expected: Expected | None
    grid: tuple[GridRow, ...]
    cold_factors: tuple[tuple[float, float], ...]
    light_factors: tuple[tuple[float, float], ...]
    record_low_c: float
    cold_v: float
    cold_with_margin_v: float
    limit_v: float
    insulation: Insulation
    meters: Instruments
    drop_share: float
    steps: tuple[TestStep, ...]


def letters(count: int) -> tuple[str, ...]:
    """Names of so many strings: A to Z, then AA.

    Example:
        >>> letters(3), letters(28)[-2:]
        (('A', 'B', 'C'), ('AA', 'AB'))
    """
    names = [chr(65 + nth) for nth in range(26)]
    return tuple(
        names[nth] if nth < 26 else names[nth // 26 - 1] + names[nth % 26] for nth in range(count)
    )


def form_of(
    place: Place,
    array: NewArray,
    controller: Controller,
    drop_share: float = 0.0,
    plane_w_m2: float | None = None,
    cell_c: float | None = None,
    meters: Instruments = USUAL,
    years: float = 0.0,
) -> Form:
    """The test form of the new array.

    Args:
        place: Record low.
        array: Modules, strings.
        controller: The one it is wired to.
        drop_share: Lost in the run in full sun.
        plane_w_m2: Irradiance on the glass at this hour [W/m2]; None: the table only.
        cell_c: Temperature of the cells at this hour [C]; None: the table only.
        meters: How far they may be off.
        years: The array has stood in the sun.

    Raises:
        Wrong: For a datasheet no diode reproduces.
        ValueError: No light.
    """
    module, n = array.module, array.in_series
    cold = cold_voltage_v(module, n, place.record_low_c)
    given = plane_w_m2 is not None and cell_c is not None
    expected = (
        expected_of(module, n, plane_w_m2 or 0.0, cell_c or 0.0, meters, years) if given else None
    )
    insulation = insulation_of(n * module.open_circuit_voltage_v)
    return Form(
        strings=letters(array.in_parallel),
        in_series=n,
        expected=expected,
        grid=_grid(array),
        cold_factors=tuple((t, cold_factor(module, t, place.record_low_c)) for t in CELLS_C),
        light_factors=tuple((g, light_factor(module, g, FACTORS_AT_C)) for g in LIGHTS_W_M2),
        record_low_c=place.record_low_c,
        cold_v=cold,
        cold_with_margin_v=with_margin_v(cold),
        limit_v=controller.voltage_limit_v,
        insulation=insulation,
        meters=meters,
        drop_share=drop_share,
        steps=steps_of(insulation, array.in_parallel, module.system_voltage_v),
    )


def _grid(array: NewArray) -> tuple[GridRow, ...]:
    n, across = float(array.in_series), len(LIGHTS_W_M2)
    hours = [(light, cell) for cell in CELLS_C for light in LIGHTS_W_M2]
    points = diode_points(fitted_diode(array.module), hours)
    rows = []
    for nth, cell in enumerate(CELLS_C):
        row = points[nth * across : (nth + 1) * across]
        rows.append(
            GridRow(
                cell,
                tuple(n * point.open_v for point in row),
                tuple(point.short_a for point in row),
                tuple(n * point.power_w for point in row),
            )
        )
    return tuple(rows)


def steps_of(
    insulation: Insulation, in_parallel: int, system_voltage_v: float
) -> tuple[TestStep, ...]:
    """The tests in order: nothing is measured with volts on it before the earth wire is proved, nothing closed before all has passed.

    Source: order and contents IEC 62446-1, clause 6 (from memory; a public sheet of the 2009 edition seen), the look before and the closing
    order the trade's.

    Args:
        insulation: Test volts and least resistance.
        in_parallel: Strings.
        system_voltage_v: Largest the modules bear, on their label [V].
    """
    apart = (
        "the strings within 5 % of each other" if in_parallel > 1 else "within what the sums expect"
    )
    megohms = insulation.least_ohm / 1e6
    over = (
        f" The modules' label bears {system_voltage_v:g} V: ask their maker before testing with more."
        if insulation.test_v > system_voltage_v
        else ""
    )
    return (
        TestStep(
            "look", "Every switch open and locked, fuses out, controller's array terminals bare. Look over every connector, gland, torque mark, label and the loop at the hinge, bent by hand as far as the travel will.",
            "nothing loose, pinched, rubbed or unmarked",
            "Modules are live in any light and cannot be switched off. Cover them where you work at their ends; never part a connector under load: the arc does not die.",
            False, "", COMMON_PRACTICE,
        ),
        TestStep(
            "earth wire", "Ohms from every module frame, the strongback, the pole and both boxes to the main earth bar in the house, over the earth wire that goes with the run; the rod at the pole taken off meanwhile, or it hides a break, and put back at once.",
            "under 1 ohm over a long run, steady while the loop is bent by hand and again at the first travel (our own figure); write it down, it is the baseline",
            "", False, "ohm", CONTINUITY,
        ),
        TestStep(
            "polarity", "Both ends of each string, off its terminals or out of its fuse in the box on the frame, the array laid flat and locked: red lead on the end marked +. Mark them.",
            "+ is +, on every string, and again at the controller's bare ends",
            "One string the wrong way round drives the others' current backwards; no switch may close before this is right.",
            True, "", POLARITY,
        ),
        TestStep(
            "open volts", "Each string alone in the box on the frame, nothing connected, in steady sun. Write light and cell temperature beside it.",
            f"inside the span of this form, and {apart}",
            "The reading is not the most it will ever show: a clear cold dawn shows more.",
            True, "V", OPEN,
        ),
        TestStep(
            "cold volts", "Multiply each reading by the two factors below: what the string will show at the record low.",
            "with 3 % or 5 V more, whichever is more, still under the controller's limit",
            "If it is over, a module too many is in the string or the sheet is not this module's: do not connect.",
            True, "V", LIKE_STRINGS,
        ),
        TestStep(
            "short amps", "Each string alone: switch open, join its ends behind a switch or breaker that may break direct current at these volts, close, read with a clamp, open. Light read at the same moment, 600 W/m2 and more.",
            f"inside the span, and {apart} once each is divided by its own light",
            "Never make or break it with a lead or connector by hand.",
            True, "A", SHORT,
        ),
        TestStep(
            "insulation", f"Surge arrestors and controller off, earth wire on. Join both ends of a string (as for short amps), then {insulation.test_v:.0f} V from them to earth; or each end alone to earth. Wet glass shows less than dry: write which.{over}",
            f"{megohms:g} Mohm and more",
            "The tester's volts stand on everything metal that is not earthed, the whole array up to the pole. Nobody touches it; wait for it to empty afterwards.",
            True, "Mohm", INSULATION,
        ),
        TestStep(
            "close", "Battery breaker first, then the array's: battery first on, last off. Controller set for this battery before. Read volts and amperes at both sides of it.",
            "it wakes, shows the battery's volts, then starts to charge",
            "A controller given the array without a battery may die of it. To open again: the array first, the battery last.",
            False, "", TRADE_ORDER,
        ),
        TestStep(
            "function", "All strings on, battery low enough to take all it gives, steady sun: watts at the controller against the form, less what the run takes. Then each switch and breaker opened once under load, the surge arrestors' windows looked at, the shut-off tried.",
            "inside the span of all strings together",
            "A battery nearly full takes less than the sun gives: that is no fault.",
            False, "W", FUNCTION,
        ),
    )  # fmt: skip
